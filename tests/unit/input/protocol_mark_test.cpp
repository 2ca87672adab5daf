#include "input/protocol_mark.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;

namespace {

PlanMark mark(const std::string& yaml) {
  return mark_of(input_files::tree(yaml));
}

const std::string base = "hailwright: protocol 1\ntitle: A\ndecide: {limit: 5 %, risk: 1 %}\n"
                         "series:\n  - {name: small, ball: {diameter: 25 mm}}\n"
                         "launch: {kind: sling, distance: 3 m}\n"
                         "speed: {by: trial shots}\n";

std::string with(const std::string& from, const std::string& to) {
  std::string text = base;
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("protocol_mark: order, comments, quotes, blanks and units do not matter") {
  const PlanMark m = mark(base);
  CHECK(mark(with("limit: 5 %, risk: 1 %", "risk: 1%,   limit: \"5 %\"")) == m);
  CHECK(mark(with("title: A\n", "title: A   # a remark\n\n")) == m);
  CHECK(mark(with("diameter: 25 mm", "diameter: 2.5 cm")) == m);
  CHECK(mark(with("distance: 3 m", "distance: 300 cm")) == m);
}

TEST_CASE("protocol_mark: a change shows in its own part") {
  const PlanMark m = mark(base);
  CHECK(changed_parts(m, mark(with("limit: 5 %", "limit: 6 %"))) ==
        std::vector<PlanPart>{PlanPart::decision});
  CHECK(changed_parts(m, mark(with("25 mm", "26 mm"))) == std::vector<PlanPart>{PlanPart::series});
  CHECK(changed_parts(m, mark(with("trial shots", "each shot"))) ==
        std::vector<PlanPart>{PlanPart::measuring});
  CHECK(changed_parts(m, mark(with("sling", "elastic"))) ==
        std::vector<PlanPart>{PlanPart::launching});
  CHECK(changed_parts(m, mark(with("speed: {by: trial shots}\n", ""))) ==
        std::vector<PlanPart>{PlanPart::measuring});
}

TEST_CASE("protocol_mark: no text passes for a structure") {
  CHECK(plain_form(input_files::tree("a: \"x1:b1:y\"\n")) !=
        plain_form(input_files::tree("a: x\nb: y\n")));
  CHECK(plain_form(input_files::tree("a: [b, c]\n")) != plain_form(input_files::tree("a: b c\n")));
  CHECK(plain_form(input_files::tree("a: [b, c]\n")) !=
        plain_form(input_files::tree("a: [c, b]\n")));
}

// Each of them changes what a test shows, so a plan kept from before the test must tell.
TEST_CASE("protocol_mark: the rule, the siblings and the trend are part of the plan") {
  const std::string siblings = "measure: {compare: sibling-panel, meters: 2, siblings: 3, "
                               "unit_tolerance: 3 %, trend: none}\n";
  const auto measured = [&](const std::string& from, const std::string& to) {
    std::string text = siblings;
    return mark(base + text.replace(text.find(from), from.size(), to));
  };
  const PlanMark m = mark(base + siblings);
  for (const auto& [from, to] :
       {std::pair("siblings: 3", "siblings: 4"),
        std::pair("unit_tolerance: 3 %", "unit_tolerance: 2 %"),
        std::pair("trend: none", "trend: fitted"), std::pair("sibling-panel", "control-panel")}) {
    CAPTURE(from, to);
    CHECK(changed_parts(m, measured(from, to)) == std::vector<PlanPart>{PlanPart::measuring});
  }
  CHECK(changed_parts(mark(base), mark(with("limit: 5 %,", "limit: 5 %, rule: simple,"))) ==
        std::vector<PlanPart>{PlanPart::decision});
}
