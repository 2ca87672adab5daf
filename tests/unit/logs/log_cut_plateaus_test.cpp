#include "logs/log_cut_plateaus.hpp"

#include <cmath>
#include <limits>

#include "support/catch.hpp"
#include "support/log_rows.hpp"

using namespace hailwright;
using namespace hailwright::testing;
using namespace hailwright::detail;

namespace {

StretchRules plain_rules() {
  StretchRules rules;
  rules.longest_gap = Time::from_si(10.0);
  return rules;
}

CutResult cut(const std::vector<LogBlock>& blocks, const StretchRules& rules = plain_rules()) {
  PlateauRule plateaus;  // 120 s steady, 60 s off
  PlateauCutter cutter(plateaus, rules, 0);
  for (const LogBlock& block : blocks)
    cutter.take(block);
  return cutter.finish();
}

/// Load on from 100 s to 399 s, dark for 20 s from 200 s on; off for 60 s; on from 460 s to 699 s;
/// off for 100 s; on for 60 s.
double day_of_two(double at_s) {
  if (at_s >= 200 && at_s < 220) return 0.5;
  if ((at_s >= 100 && at_s < 400) || (at_s >= 460 && at_s < 700) || (at_s >= 800 && at_s < 860))
    return 40.0;
  return 0.02;
}

}  // namespace

TEST_CASE("cut by plateaus: load on makes a stretch and a short dark does not end it") {
  const CutResult result = cut({rows_by_second(1000, day_of_two)});
  REQUIRE(result.stretches.size() == 2);
  CHECK(result.stretches[0].stretch.name == "1");
  CHECK(result.stretches[0].stretch.rows == 300);
  CHECK(result.stretches[0].stretch.from_us == 100'000'000);
  CHECK(result.stretches[0].stretch.to_us == 399'000'000);
  CHECK(result.stretches[0].place.line == 102);
  // 40 W over 299 s, less the dark: 20 rows of 0.5 W with both slopes
  CHECK_THAT(result.stretches[0].stretch.energy.si(), WithinRel(40.0 * 299 - 39.5 * 20, 1e-12));
  CHECK(result.stretches[1].stretch.name == "2");
  CHECK(result.stretches[1].stretch.rows == 240);
}

TEST_CASE("cut by plateaus: one with too little steady time is dropped and counted") {
  const CutResult result = cut({rows_by_second(1000, day_of_two)});
  CHECK(result.remarks.too_short == 1);
  CHECK(result.remarks.longest_too_short_s == 59.0);
  CHECK(result.remarks.first_too_short.line == 802);
}

TEST_CASE("cut by plateaus: the ends of an interruption as stated") {
  // From the last row with the load on at 199 s to the next one.
  const auto two = [](double first_on_again_s) {
    std::vector<std::pair<double, double>> rows;
    for (int i = 0; i < 200; ++i)
      rows.emplace_back(i, 30.0);
    for (int i = 200; i < first_on_again_s; ++i)
      rows.emplace_back(i, 0.0);
    for (int i = 0; i < 200; ++i)
      rows.emplace_back(first_on_again_s + i, 30.0);
    return cut({log_rows(rows)}).stretches.size();
  };
  CHECK(two(258.999) == 1);
  CHECK(two(259.0) == 2);
}

TEST_CASE("cut by plateaus: a gap as long as an interruption ends a stretch") {
  const auto with_gap = [](double gap_s) {
    std::vector<std::pair<double, double>> rows;
    for (int i = 0; i < 200; ++i)
      rows.emplace_back(i, 30.0);
    for (int i = 0; i < 200; ++i)
      rows.emplace_back(199 + gap_s + i, 30.0);
    return cut({log_rows(rows)}).stretches.size();
  };
  CHECK(with_gap(59.0) == 1);
  CHECK(with_gap(60.0) == 2);
}

TEST_CASE("cut by plateaus: a blank power is no sign of a load") {
  LogBlock rows = rows_by_second(500, [](double) { return 30.0; });
  for (std::size_t row = 200; row < 300; ++row)
    rows.values[index_of(LogRole::power)][row] = std::numeric_limits<double>::quiet_NaN();
  const CutResult result = cut({rows});
  REQUIRE(result.stretches.size() == 2);
  CHECK(result.stretches[0].stretch.rows == 200);
  CHECK(result.stretches[1].stretch.rows == 200);
}

TEST_CASE("cut by plateaus: without a column of power there is nothing") {
  LogBlock rows = rows_by_second(500, [](double) { return 30.0; });
  rows.values[index_of(LogRole::power)].clear();
  CHECK(cut({rows}).stretches.empty());
}

TEST_CASE("cut by plateaus: unsteady time does not count") {
  StretchRules rules = plain_rules();
  rules.steady.emplace();
  LogBlock rows = rows_by_second(240, [](double) { return 30.0; });
  add_column(rows, LogRole::irradiance, [](double at_s) {
    return at_s < 180 ? 700.0 + 2.0 * at_s : 900.0;  // 60 s of 240 s are steady
  });
  const CutResult unsteady = cut({rows}, rules);
  CHECK(unsteady.stretches.empty());
  CHECK(unsteady.remarks.too_short == 1);
  rows.values[index_of(LogRole::irradiance)].assign(240, 900.0);
  CHECK(cut({rows}, rules).stretches.size() == 1);
}

TEST_CASE("cut by plateaus: any split gives the same stretches") {
  RandomStream random(6, 4);
  for (int trial = 0; trial < 60; ++trial) {
    CAPTURE(trial);
    std::vector<std::pair<double, double>> all;
    double at_s = 0.0;
    while (all.size() < 4000) {  // on and off for random times
      const double on_w = random.uniform() < 0.6 ? 30.0 : 0.1;
      const double to_s = at_s - 70.0 * std::log(random.uniform());
      for (; at_s < to_s; at_s += 1.0)
        all.emplace_back(at_s, on_w + random.uniform());
      if (random.uniform() < 0.1) at_s += 80.0 * random.uniform();
    }
    const LogBlock rows = log_rows(all);
    const CutResult whole = cut({rows});
    const CutResult split = cut(split_at_random(rows, 5 + 3 * trial, random));
    REQUIRE_FALSE(whole.stretches.empty());
    REQUIRE(split.stretches.size() == whole.stretches.size());
    CHECK(split.remarks.too_short == whole.remarks.too_short);
    for (std::size_t i = 0; i < whole.stretches.size(); ++i) {
      const LogStretch &a = split.stretches[i].stretch, &b = whole.stretches[i].stretch;
      CHECK(a.rows == b.rows);
      CHECK(a.from_us == b.from_us);
      CHECK(a.to_us == b.to_us);
      CHECK(split.stretches[i].place.line == whole.stretches[i].place.line);
      CHECK_THAT(a.energy.si(), WithinRel(b.energy.si(), 1e-12));
    }
  }
}

TEST_CASE("cut by plateaus: rows without load are held back only so many") {
  // All at nearly one time, so that no time ends the stretch.
  std::vector<std::pair<double, double>> all;
  for (int i = 0; i < 200; ++i)
    all.emplace_back(i, 30.0);
  for (std::size_t i = 0; i <= most_rows_off; ++i)
    all.emplace_back(199.0, 0.0);
  for (int i = 0; i < 200; ++i)
    all.emplace_back(200 + i, 30.0);
  CHECK(cut({log_rows(all)}).stretches.size() == 2);
  all.erase(all.begin() + 200);
  CHECK(cut({log_rows(all)}).stretches.size() == 1);
}

// An hour at a row a minute once gave sixty stretches, none long enough.
TEST_CASE("cut by plateaus: rows as far apart as an interruption part nothing") {
  std::vector<std::pair<double, double>> rows;
  for (int i = 0; i < 60; ++i)
    rows.emplace_back(60.0 * i, 80.0);
  StretchRules rules = plain_rules();
  rules.longest_gap = usual_longest_gap(60.0);
  const CutResult whole = cut({log_rows(rows)}, rules);
  REQUIRE(whole.stretches.size() == 1);
  CHECK(whole.stretches[0].stretch.rows == 60);
  CHECK(whole.remarks.too_short == 0);
  // A row without load still does.
  rows[30].second = 0.0;
  CHECK(cut({log_rows(rows)}, rules).stretches.size() == 2);
  // And so in blocks.
  std::vector<LogBlock> blocks;
  for (const auto& row : rows)
    blocks.push_back(log_rows({row}));
  CHECK(cut(blocks, rules).stretches.size() == 2);
}
