#include "evaluate/sibling_units.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

PowerQuestion question() {
  const StageId after{StageKind::after, 0};
  return {after, after, PowerQuestion::Of::siblings};
}

double total(const SiblingBlocks& blocks) {
  double sum = 0.0;
  for (const UnitSetup& s : blocks.setups)
    sum += s.value;
  return sum;
}

/// The struck panel in set-up 0 alone, sibling k in set-up k + 1 alone.
Test apart(int units, double spread) {
  TestBuilder b;
  b.siblings(units, spread).setups(units + 1, units + 1).setup_scatter(0.0);
  Test t = b.build();
  std::erase_if(t.record.readings, [](const Reading& r) {
    return r.setup != (r.role == Role::struck ? 0 : r.unit + 1);
  });
  return t;
}

}  // namespace

// MEASUREMENT M2: mean of the struck panel less the mean of the siblings' means.
TEST_CASE("siblings: read together or in set-ups of their own, the difference is the same") {
  TestBuilder b;
  const Test together = b.siblings(3, 0.012).loss(0.04).setup_scatter(0.0).build();
  CHECK_THAT(total(collect_sibling_blocks(together, question())), WithinAbs(std::log(0.96), 1e-12));
  const SiblingBlocks own = collect_sibling_blocks(apart(3, 0.012), question());
  CHECK(own.setups.size() == 4);
  CHECK_THAT(total(own), WithinAbs(0.0, 1e-12));
}

TEST_CASE("siblings: spread of their means") {
  TestBuilder b;
  const Test t = b.siblings(4, 0.012).build();
  const SiblingSpread spread = spread_of(collect_sibling_blocks(t, question()));
  REQUIRE(spread.units.size() == 4);
  CHECK_THAT(*spread.sd, WithinRel(0.012, 1e-9));
  CHECK(spread.units[2].unit == 2);
  CHECK(spread.units[2].setups == 4);
  CHECK_FALSE(spread.assumed);
  CHECK_FALSE(spread_of(collect_sibling_blocks(apart(1, 0.012), question())).sd.has_value());
}

TEST_CASE("siblings: a unit set up more often than others has one mean all the same") {
  Test t = apart(2, 0.01);
  // Sibling 1 once more, in the struck panel's set-up, 2 % higher.
  for (Reading r : std::vector<Reading>(t.record.readings)) {
    if (r.role != Role::sibling || r.unit != 0) continue;
    r.setup = 0;
    r.power = r.power * std::exp(0.02);
    t.record.readings.push_back(r);
  }
  const SiblingBlocks blocks = collect_sibling_blocks(t, question());
  CHECK(blocks.unstruck[0].setups.size() == 2);
  // Up by 1 % in its own mean, by 0.5 % in that of both.
  CHECK_THAT(total(blocks), WithinAbs(-0.005, 1e-12));
}

TEST_CASE("siblings: panels of one set-up without a common round stand alone") {
  Test t = TestBuilder().siblings(2, 0.01).setups(1, 1).build();
  for (Reading& r : t.record.readings)
    r.round = *r.round + (r.role == Role::sibling ? 10 * static_cast<int>(r.unit + 1) : 0);
  const SiblingBlocks blocks = collect_sibling_blocks(t, question());
  REQUIRE(blocks.setups.size() == 3);
  CHECK(blocks.setups[1].panels == std::vector<PanelOf>{{Role::sibling, 0}});
}

TEST_CASE("siblings: dates") {
  TestBuilder b;
  Test t = b.siblings(2, 0.01).setups(2, 2).build();
  CHECK(uneven_dates(collect_sibling_blocks(t, question())).empty());
  CHECK_FALSE(days_differ(collect_sibling_blocks(t, question())));
  Test own = apart(2, 0.01);
  own.record.setups[0].date = "2026-06-15";
  CHECK(uneven_dates(collect_sibling_blocks(own, question())).size() == 2);
  CHECK_FALSE(days_differ(collect_sibling_blocks(own, question())));
  own.record.setups[1].date = "2026-06-16";
  CHECK(days_differ(collect_sibling_blocks(own, question())));
}

TEST_CASE("siblings: set-ups that were repeated give their own scatter") {
  TestBuilder b;
  const Test t = b.siblings(1, 0.0).setup_scatter(0.004).build();
  const auto rows = repeated_setups(collect_sibling_blocks(t, question()));
  REQUIRE(rows.size() == 1);
  CHECK_THAT(rows[0].contribution(), WithinRel(0.004 / 2.0, 1e-9));  // four set-ups
  CHECK(rows[0].input.degrees_of_freedom == 3.0);
  CHECK(repeated_setups(collect_sibling_blocks(apart(1, 0.0), question())).empty());
}

// s_m of units set up twice holds half of the variance of a set-up; the struck panel, set up once,
// has all of it.
TEST_CASE("siblings: a struck panel set up less often brings the rest of its scatter") {
  TestBuilder b;
  Test t = b.siblings(3, 0.01).setups(2, 2).setup_scatter(0.0).build();
  for (Reading& r : t.record.readings) {
    if (r.role == Role::sibling) r.power = r.power * std::exp(r.setup == 0 ? 0.003 : -0.003);
  }
  CHECK_FALSE(fewer_struck_setups(collect_sibling_blocks(t, question())).has_value());
  std::erase_if(t.record.readings,
                [](const Reading& r) { return r.setup == 1 && r.role == Role::struck; });
  const auto row = fewer_struck_setups(collect_sibling_blocks(t, question()));
  REQUIRE(row.has_value());
  CHECK(row->input.degrees_of_freedom == 3.0);
  CHECK_THAT(row->contribution(), WithinRel(0.003 * std::sqrt(2.0) * std::sqrt(0.5), 1e-9));
}

TEST_CASE("siblings: a set-up of the control alone is none of theirs") {
  TestBuilder b;
  Test t = b.siblings(3, 0.012).build();
  const std::size_t setups = collect_sibling_blocks(t, question()).setups.size();
  Setup own = t.record.setups.back();
  own.name = "control";
  t.record.setups.push_back(own);
  Reading r = t.record.readings.back();
  r.role = Role::control;
  r.setup = t.record.setups.size() - 1;
  t.record.readings.push_back(r);
  CHECK(collect_sibling_blocks(t, question()).setups.size() == setups);
}

TEST_CASE("siblings: each group of panels set up together has a scatter of its own") {
  TestBuilder b;
  Test t = b.siblings(1, 0.0).setups(4, 4).build();
  std::erase_if(t.record.readings,
                [](const Reading& r) { return (r.setup < 2) == (r.role == Role::sibling); });
  const std::vector<BudgetRow> rows = repeated_setups(collect_sibling_blocks(t, question()));
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].input.id == "scatter");
  CHECK(rows[1].input.id == "scatter/2");
  CHECK(rows[0].input.degrees_of_freedom == 1.0);
}
