#include "evaluate/pattern_weighing.hpp"

#include <algorithm>

#include "support/catch.hpp"
#include "support/curve_readings.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

LossPattern weighed(const CurveReadings& readings) {
  static const AssumedPanel panel = panel_for_curves();
  static const PatternTable table = pattern_table(panel);
  return weigh_patterns(curve_changes(test_for_curves(), readings, panel), panel, table);
}

/// How often each word came of so many seeds, and how often the right pattern was named.
struct Tally {
  int nothing = 0, right = 0, named = 0;
};

Tally tally_of(CurvePattern pattern, double size, int seeds, const DrawnCurves& how = {}) {
  Tally tally;
  for (int seed = 1; seed <= seeds; ++seed) {
    const LossPattern p =
        weighed(drawn_curves(pattern, size, static_cast<std::uint64_t>(seed), how));
    tally.nothing += p.word == PatternWord::nothing_resolvable;
    tally.named += p.word == PatternWord::named;
    tally.right += p.word == PatternWord::named && p.named.front() == pattern;
  }
  return tally;
}

}  // namespace

TEST_CASE("pattern_weighing: one substring gone is named") {
  const LossPattern p = weighed(drawn_curves(CurvePattern::substring_gone, 0.4, 7));
  REQUIRE(p.word == PatternWord::named);
  CHECK(p.named.front() == CurvePattern::substring_gone);
  CHECK(p.fits.front().pattern == CurvePattern::substring_gone);
  CHECK(p.fits.front().fits);
  CHECK_FALSE(p.no_change().fits);
  CHECK(p.changes.at(0).low.si() < -1.0 / 3.0 + 0.01);
  CHECK(p.changes.at(0).high.si() > -1.0 / 3.0 - 0.01);
  CHECK_FALSE(p.voltage_kept);
}

TEST_CASE("pattern_weighing: a fall of power at kept voltage is seen as such") {
  const LossPattern p = weighed(drawn_curves(CurvePattern::series_resistance, 0.3, 7));
  REQUIRE(p.word == PatternWord::named);
  CHECK(p.named.front() == CurvePattern::series_resistance);
  CHECK(p.voltage_kept);
  REQUIRE(p.power);
  CHECK(p.power->high.si() < 0.0);
  CHECK_THAT(p.fits.front().size, WithinAbs(0.3, 0.1));
}

TEST_CASE("pattern_weighing: one figure alone leaves patterns open") {
  CurveReadings readings = drawn_curves(CurvePattern::shunt, 1.0 / 15.0, 3);
  for (auto* stage : {&readings.before, &readings.after}) {
    for (CurveReading& r : *stage) {
      r.at_maximum.reset();
      r.short_circuit.reset();
      r.open_circuit.reset();
    }
  }
  const LossPattern p = weighed(readings);
  CHECK(p.changes.size() == 1);
  CHECK(p.missing.size() == 3);
  REQUIRE(p.word == PatternWord::alike);
  CHECK(p.named.size() >= 2);
  CHECK(std::find(p.would_tell.begin(), p.would_tell.end(), CurveFigure::short_current) !=
        p.would_tell.end());
  CHECK_FALSE(p.power);
}

TEST_CASE("pattern_weighing: what no pattern does fits none") {
  // The voltage rises by a tenth.
  CurveReadings readings = drawn_curves(CurvePattern::shunt, 0.0, 5);
  for (CurveReading& r : readings.after) {
    r.open_circuit = 1.1 * *r.open_circuit;
    r.at_maximum = 1.1 * *r.at_maximum;
  }
  const LossPattern p = weighed(readings);
  CHECK(p.word == PatternWord::none_fits);
  CHECK(p.named.empty());
}

TEST_CASE("pattern_weighing: what the panel cannot have is left out") {
  const PatternTable table = [] {
    CurveRatings ratings;
    ratings.substrings = 1;
    return pattern_table(assumed_panel(ratings));
  }();
  CHECK(table[static_cast<std::size_t>(CurvePattern::substring_gone)].empty());
  CHECK(table[static_cast<std::size_t>(CurvePattern::part_of_one_cell)].size() > 10);
}

// 60 seeds: of 2000 in each of three kinds of scatter at most 0.5 % named or suggested anything.
TEST_CASE("pattern_weighing: noise of hand-held meters names nothing [simulation]") {
  constexpr int seeds = 60;
  for (const DrawnCurves& how :
       {DrawnCurves{3, 3, 0.004, 0.001}, DrawnCurves{3, 3, 0.001, 0.004}}) {
    CAPTURE(how.figure_scatter);
    CHECK(seeds - tally_of(CurvePattern::all_cells_less, 0.0, seeds, how).nothing <= 3);
  }
}

TEST_CASE("pattern_weighing: patterns of a stated size are named [simulation]") {
  constexpr int seeds = 15;
  CHECK(tally_of(CurvePattern::substring_gone, 0.4, seeds).right >= 14);
  CHECK(tally_of(CurvePattern::part_of_one_cell, 0.10, seeds).right >= 14);
  CHECK(tally_of(CurvePattern::all_cells_less, 0.10, seeds).right >= 14);
  CHECK(tally_of(CurvePattern::series_resistance, 0.3, seeds).right >= 14);
  CHECK(tally_of(CurvePattern::shunt, 1.0 / 30.0, seeds).right >= 14);
}
