#include "report/setup_notes.hpp"

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

PowerNote unsteady(const std::string& name, double share, int line = 0) {
  return {PowerRemark::unsteady_irradiance, {share, 0.02}, name, {line > 0 ? 1U : 0U, line, 1, 1}};
}

}  // namespace

// Found by review: "irradiance moved by ... in set-up 'before 1'", forty times.
TEST_CASE("setup notes: names of set-ups in a row are told by the first and the last") {
  CHECK(setups_text({"before 1"}) == "set-up 'before 1'");
  CHECK(setups_text({"before 1", "before 2"}) == "set-ups 'before 1' and 'before 2'");
  CHECK(setups_text({"before 1", "before 2", "before 3", "after 2", "after 4"}) ==
        "set-ups 'before 1' to 'before 3', 'after 2' and 'after 4'");
  CHECK(setups_text({"after 8", "after 9", "after 10"}) == "set-ups 'after 8' to 'after 10'");
  CHECK(setups_text({"day", "3", "99999999999999999999"}) ==
        "set-ups 'day', '3' and '99999999999999999999'");
  CHECK_THROWS_AS(setups_text({}), BugError);
}

TEST_CASE("setup notes: one alone is told as it is and several by their range") {
  CHECK(setups_sentence({unsteady("before 1", 0.057)}) ==
        "irradiance moved by 5.7 % each way in set-up 'before 1'; up to 2 % counts as steady");
  CHECK(setups_sentence({unsteady("before 1", 0.057), unsteady("after 2", 0.031)}) ==
        "irradiance moved by 3.1 % to 5.7 % each way in set-ups 'before 1' and 'after 2'; up to 2 "
        "% counts as steady");
  CHECK(setups_sentence({unsteady("a", 0.0301), unsteady("b", 0.0299)}) ==
        "irradiance moved by 3.0 % each way in set-ups 'a' and 'b'; up to 2 % counts as steady");
  CHECK(setups_sentence({{PowerRemark::unsteady_temperature, {4.4, 1.0}, "a", {}}}) ==
        "temperature moved by 4.4 K each way in set-up 'a'; up to 1 K counts as steady");
  CHECK(setups_sentence({{PowerRemark::battery_full, {0.94}, "a", {}}}) ==
        "the battery stood at 94 % in set-up 'a': above 90 % it does not take all the power");
  CHECK_THROWS_AS(setups_sentence({{PowerRemark::not_clean, {}, {}, {}}}), BugError);
}

TEST_CASE("setup notes: only notes of one kind of set-ups are put together") {
  const PowerNote apart{PowerRemark::outlying_reading, {3.0, 2.0}, "a", {}};
  PowerNote elsewhere = apart;
  elsewhere.subject = "b";
  const auto groups =
      by_remark({unsteady("a", 0.03), apart, unsteady("b", 0.04), apart, elsewhere});
  REQUIRE(groups.size() == 3);
  CHECK(groups[0].size() == 2);
  CHECK(groups[1].size() == 2);
  CHECK(groups[2].size() == 1);
  CHECK(by_remark({}).empty());
}

TEST_CASE("setup notes: the lines that they come from") {
  SourceSet sources;
  sources.add("record.yaml", "x\n");
  CHECK(places_text(sources, {unsteady("a", 0.03, 7)}) == " (record.yaml, line 7)");
  CHECK(places_text(sources, {unsteady("a", 0.03, 9), unsteady("b", 0.03, 7)}) ==
        " (record.yaml, lines 7 to 9)");
  CHECK(places_text(sources, {unsteady("a", 0.03), unsteady("b", 0.03)}).empty());
  PowerNote elsewhere = unsteady("b", 0.03, 7);
  elsewhere.where.file = 2;
  CHECK(places_text(sources, {unsteady("a", 0.03, 7), elsewhere}).empty());
}

// Found by review: of a log, the note of a reading that lies apart came twenty times.
TEST_CASE("setup notes: readings that lie apart are named by their first lines") {
  SourceSet sources;
  sources.add("before.csv", "x\n");
  const auto apart = [](int line) {
    return PowerNote{PowerRemark::outlying_reading, {3.0, 2.0}, "a", {1U, line, 1, 1}};
  };
  CHECK(first_places_text(sources, {apart(7)}) == " (before.csv, line 7)");
  CHECK(first_places_text(sources, {apart(7), apart(9)}) == " (before.csv, lines 7 and 9)");
  CHECK(first_places_text(sources, {apart(7), apart(9), apart(10), apart(11), apart(30)}) ==
        " (before.csv, lines 7, 9, 10 and 2 more)");
  PowerNote elsewhere = apart(8);
  elsewhere.where.file = 2;
  CHECK(first_places_text(sources, {apart(7), elsewhere}).empty());
}
