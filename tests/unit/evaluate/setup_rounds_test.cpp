#include "evaluate/setup_rounds.hpp"

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

constexpr PanelOf struck{Role::struck, 0};
constexpr PanelOf control{Role::control, 0};
const PowerQuestion question{
    {StageKind::before, 0}, {StageKind::after, 0}, PowerQuestion::Of::both};

}  // namespace

TEST_CASE("rounds: complete ones hold every panel, in the order of the list") {
  Test t = TestBuilder().setups(1, 1).build();
  std::vector<Round> rounds = complete_rounds(t, question, 0, {struck, control});
  REQUIRE(rounds.size() == 3);
  CHECK(panel_of(*rounds[0][0]) == struck);
  CHECK(panel_of(*rounds[0][1]) == control);
  t.record.readings[1].measured = false;
  CHECK(complete_rounds(t, question, 0, {struck, control}).size() == 2);
  CHECK(complete_rounds(t, question, 0, {struck}).size() == 3);
}

TEST_CASE("rounds: skipped readings come back when they are asked for") {
  Test t = TestBuilder().setups(1, 1).build();
  t.record.readings[0].skip = "cloud";
  PowerQuestion kept = question;
  CHECK(complete_rounds(t, kept, 0, {struck, control}).size() == 2);
  kept.keep_skipped = true;
  CHECK(complete_rounds(t, kept, 0, {struck, control}).size() == 3);
  kept.leave_out = {0};
  CHECK(complete_rounds(t, kept, 0, {struck, control}).size() == 2);
}

TEST_CASE("rounds: the panels that were read, siblings apart") {
  Test t = TestBuilder().siblings(2, 0.01).build();
  const std::vector<PanelOf> all{struck, {Role::sibling, 0}, {Role::sibling, 1}};
  CHECK(panels_read(t, question, 0) == all);
  CHECK(complete_rounds(t, question, 0, all).size() == 3);
  for (Reading& r : t.record.readings) {
    if (r.role == Role::sibling && r.unit == 1) r.skip = "shadow";
  }
  CHECK(panels_read(t, question, 0) == std::vector<PanelOf>{struck, {Role::sibling, 0}});
}

TEST_CASE("rounds: panels have names of their own") {
  Test t = TestBuilder().siblings(2, 0.01).build();
  CHECK(panel_name(t.record, struck) == "struck");
  CHECK(panel_name(t.record, control) == "control");
  CHECK(panel_name(t.record, {Role::sibling, 1}) == "U2");
  t.record.siblings[0].label = "struck";
  CHECK(panel_name(t.record, {Role::sibling, 0}) != "struck");
}

TEST_CASE("rounds: a unit that is labelled as another panel stays a unit") {
  Record r;
  r.siblings = {{{}, "struck"}, {{}, "control"}, {{}, "U3"}};
  CHECK(panel_name(r, PanelOf{Role::sibling, 0}) == "sibling struck");
  CHECK(panel_name(r, PanelOf{Role::sibling, 1}) == "sibling control");
  CHECK(panel_name(r, PanelOf{Role::sibling, 2}) == "U3");
}
