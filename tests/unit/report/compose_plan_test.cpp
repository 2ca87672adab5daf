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

  Garden() {
    SourceSet sources;
    const Loader load = hailwright::testing::real_files();
    auto p = read_protocol(HAILWRIGHT_SOURCE_DIR "/protocols/demo/protocol.yaml", load, sources);
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
    Checked<TestPlan> made = make_plan({&protocol, panels, "2026-06-11", false, {}});
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
