#include "hailwright/report/compose_plan.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "hailwright/report/render.hpp"
#include "support/catch.hpp"
#include "support/real_files.hpp"

using namespace hailwright;

namespace {

struct Garden {
  Protocol protocol;
  Panel panel;
  Panel second;
  std::string today = "2026-06-11";  // a few days after the safety answers of the protocol

  explicit Garden(const std::string& name = "protocol") {
    SourceSet sources;
    const Loader load = hailwright::testing::real_files();
    auto p =
        read_protocol(HAILWRIGHT_SOURCE_DIR "/protocols/demo/" + name + ".yaml", load, sources);
    auto a = read_panel(HAILWRIGHT_SOURCE_DIR "/protocols/demo/panels/rigid-a.yaml", load, sources);
    REQUIRE(p.value);
    REQUIRE(a.value);
    protocol = std::move(*p.value);
    panel = second = std::move(*a.value);
    second.name = "Rigid S";
  }
  [[nodiscard]] TestPlan plan(bool both = false) const {
    std::vector<const Panel*> panels{&panel};
    if (both) panels.push_back(&second);
    Checked<TestPlan> made = make_plan({&protocol, panels, today, false, {}});
    REQUIRE(made.value);
    return std::move(*made.value);
  }
};

/// The plan as a terminal shows it, its line breaks inside sentences taken out.
std::string console(const TestPlan& plan) {
  const std::string text = render_console(compose_plan(plan), {.width = 120, .colour = false});
  std::string flat;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n';
    if (!blank || flat.empty() || flat.back() != ' ') flat += blank ? ' ' : c;
  }
  return flat;
}

std::size_t at(const std::string& text, const char* what) {
  const std::size_t place = text.find(what);
  CAPTURE(what);
  REQUIRE(place != std::string::npos);
  return place;
}

}  // namespace

TEST_CASE("compose_plan: what can hurt comes before everything that helps") {
  const Garden g;
  const std::string text = console(g.plan());
  const std::size_t danger = at(text, "What can hurt");
  CHECK(danger < at(text, "Can it answer?"));
  CHECK(danger < at(text, "Launch"));
  CHECK(at(text, "Launch") < at(text, "planned: 2026-06-11"));
}

TEST_CASE("compose_plan: every hazard of the plan stands in every format") {
  const Garden g;
  const TestPlan plan = g.plan();
  const Document document = compose_plan(plan);
  REQUIRE(plan.outlook.hazards.size() > 10);
  const std::string html = render_html(document);
  const std::string md = render_markdown(document);
  const std::string text = console(plan);
  const auto json = nlohmann::json::parse(plan_json(plan));
  for (const Caution* c : plan.outlook.hazards) {
    CAPTURE(c->id);
    const std::string hazard(c->hazard);
    CHECK(html.find("(" + std::string(c->id) + ")") != std::string::npos);
    CHECK(md.find(hazard) != std::string::npos);
    const auto& list = json["cautions"];
    CHECK(std::any_of(list.begin(), list.end(),
                      [&](const auto& item) { return item["id"] == c->id; }));
  }
  CHECK_THAT(text, Contains("Cautions"));
}

TEST_CASE("compose_plan: each panel has its aim map and its field sheet") {
  const Garden g;
  const Document document = compose_plan(g.plan(true));
  std::vector<std::string> figures;
  for (const Block& block : document.blocks)
    if (const auto* figure = std::get_if<Figure>(&block)) figures.push_back(figure->id);
  CHECK(figures ==
        std::vector<std::string>{"aim-map-1", "aim-map-2", "aim-map-1-sheet", "aim-map-2-sheet"});
}

TEST_CASE("compose_plan: a panel without a size has places without a map") {
  Garden g;
  g.panel.size = std::nullopt;
  g.panel.cells = std::nullopt;
  g.panel.junction_box = std::nullopt;
  g.panel.mounting_points.clear();
  CHECK_THAT(console(g.plan()), Contains("No aim map"));
}

TEST_CASE("compose_plan: the refusal names what is missing and gives the lines to fill in") {
  Garden g;
  g.protocol.safety = SafetyAnswers{};
  const std::string text = console(g.plan());
  CHECK_THAT(text, Contains("Not printed yet") && Contains("safety:"));
  CHECK_THAT(text, !Contains("aim for"));
}

TEST_CASE("compose_plan: a test by looks alone says that nothing is said about power") {
  Garden g;
  g.protocol.decide.judges_power = false;
  CHECK_THAT(console(g.plan()), Contains("nothing will be said about power"));
}

TEST_CASE("compose_plan: a drop is told what it gives, never to go higher") {
  Garden g;
  g.protocol.launch.kind = Launcher::drop;
  g.protocol.launch.height = Length::from_si(5.0);
  const std::string text = console(g.plan());
  CHECK_THAT(text, Contains("Dropping is no way to this grade") ||
                       Contains("No fall reaches this grade"));
  CHECK_THAT(text, !Contains("higher than 5"));
}

// A struck panel against four unstruck ones of its model, and nothing read before the shots.
TEST_CASE("compose_plan: siblings are measured after the shots, and nothing is said of before") {
  Garden g("protocol-siblings");
  g.today = "2026-06-25";
  const TestPlan plan = g.plan();
  const std::string text = console(plan);
  CHECK_THAT(text, Contains("4 unstruck units") && Contains("what a number of unstruck units") &&
                       Contains("nothing is read before the shots") &&
                       Contains("times smaller losses") && Contains("set-ups after the shots"));
  CHECK_THAT(text, !Contains("set-ups before the shots") && !Contains("+ 3") &&
                       !Contains("control panel beside it:") &&
                       !Contains("other instruments after the shots"));
  const auto json = nlohmann::json::parse(plan_json(plan));
  const auto& power = json["panels"][0]["power"][0];
  CHECK(power["as_planned"]["siblings"] == 4);
  CHECK(power["as_planned"]["set_ups_before"] == 0);
  CHECK(power["by_siblings"].size() == 10);
  CHECK(power.contains("siblings_needed"));
  CHECK_FALSE(power.contains("by_set_ups"));
}

TEST_CASE("compose_plan: the field sheet has a row for each sibling, there and back") {
  Garden g("protocol-siblings");
  g.today = "2026-06-25";
  std::vector<std::string> order;
  int forms = 0;
  for (const Block& block : compose_plan(g.plan()).blocks) {
    const auto* table = std::get_if<Table>(&block);
    if (table == nullptr || !table->caption.starts_with("readings, setup")) continue;
    CHECK(table->caption.starts_with("readings, setup after"));
    if (forms++ > 0) continue;
    for (const auto& row : table->rows)
      order.push_back(row[1]);
  }
  CHECK(forms == 3);
  CHECK(order == std::vector<std::string>{"A", "B", "C", "D", "E", "E", "D", "C", "B", "A", "A",
                                          "B", "C", "D", "E", "E", "D", "C", "B", "A", ""});
}

TEST_CASE("compose_plan: siblings without any number are planned all the same") {
  Garden g("protocol-siblings");
  g.today = "2026-06-25";
  g.protocol.measure.siblings.reset();
  g.protocol.measure.after.reset();
  g.protocol.measure.unit_tolerance.reset();
  g.protocol.measure.expected_scatter.reset();
  CHECK_THAT(console(g.plan()), Contains("measure: {siblings: 3}") &&
                                    Contains("measure: {after: 3}") &&
                                    Contains("measure: {unit_tolerance: ...}") &&
                                    Contains("by how far they may differ"));
  for (const int siblings : {1, 2}) {
    CAPTURE(siblings);
    g.protocol.measure.siblings = siblings;
    CHECK_THAT(console(g.plan()), Contains("not measured by fewer than 3"));
  }
}

TEST_CASE("compose_plan: simple acceptance and a line in time are told") {
  Garden g;
  g.protocol.decide.simple = true;
  g.protocol.measure.fitted_trend = true;
  const std::string text = console(g.plan());
  CHECK_THAT(text, Contains("up to half are called the wrong way") &&
                       Contains("no line in time fitted:") &&
                       Contains("scatter of the set-ups about the line, assumed"));
  const auto json = nlohmann::json::parse(plan_json(g.plan()));
  CHECK(json["panels"][0]["power"][0]["limit_answered_by"] == "estimate");
}
