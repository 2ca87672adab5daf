#include "logs/steady_windows.hpp"

#include <cmath>
#include <string>
#include <vector>

#include "support/catch.hpp"
#include "unit/logs/made_rows.hpp"

using namespace hailwright;
using made::always;

namespace {

constexpr std::int64_t longest_us = 10 * made::second_us;

struct Sorted {
  SteadyTally tally;
  LogStretch sums;
  std::vector<LogRow> rows;
};

/// Gives the rows to the windows in blocks of so many.
Sorted sort_out(const LogBlock& block, std::size_t at_once = 100'000, const SteadyRule& rule = {}) {
  detail::SteadyWindows windows(rule, longest_us);
  detail::RowKeeper keeper(100'000);
  const std::vector<double> none;
  for (std::size_t at = 0; at < block.rows(); at += at_once)
    windows.take({block, none, none}, at, std::min(block.rows(), at + at_once), keeper);
  windows.finish(keeper);
  Sorted out{windows.tally(), {}, keeper.take()};
  windows.kept().write_to(out.sums);
  return out;
}

LogBlock sun(std::size_t rows, const made::Cell& irradiance) {
  return made::rows(
      rows, 1.0,
      {{LogRole::power, [](double t) { return 50.0 + t; }}, {LogRole::irradiance, irradiance}});
}

std::int64_t all_rows(const SteadyTally& tally) {
  return tally.rows_kept + tally.rows_irradiance + tally.rows_ramp + tally.rows_temperature +
         tally.rows_broken;
}

}  // namespace

TEST_CASE("steady windows: a minute, or six rows of a slow log") {
  CHECK(detail::usual_steady_window(0.0).si() == 60.0);
  CHECK(detail::usual_steady_window(10.0).si() == 60.0);
  CHECK(detail::usual_steady_window(60.0).si() == 360.0);
}

TEST_CASE("steady windows: a steady sun keeps all rows") {
  const Sorted out = sort_out(sun(180, always(800.0)));
  CHECK(out.tally.rows_kept == 180);
  CHECK(all_rows(out.tally) == 180);
  CHECK(out.sums.power.count == 180);
  CHECK(out.sums.power.mean == 50.0 + 89.5);
  CHECK(out.sums.power_series.count == 180);
  CHECK(out.rows.size() == 180);
}

// Mean 800: 2 % are 16 W/m2.
TEST_CASE("steady windows: irradiance may change by the limit and not by more") {
  const auto swings = [](double by) {
    return [by](double t) { return 800.0 + (static_cast<int>(t) % 2 == 0 ? by : -by) / 2.0; };
  };
  CHECK(sort_out(sun(60, swings(15.9))).tally.rows_kept == 60);
  CHECK(sort_out(sun(60, swings(16.1))).tally.rows_irradiance == 60);
}

// A straight rise over the window by x: first third to last third by 2/3 x. 1 % of 800 W/m2 is
// 8 W/m2, that is a rise of 12 over 60 s, which is still below 2 %.
TEST_CASE("steady windows: a slow drift is told from a change") {
  const auto rises = [](double by) { return [by](double t) { return 800.0 + by * t / 60.0; }; };
  CHECK(sort_out(sun(60, rises(11.9))).tally.rows_kept == 60);
  const Sorted drifts = sort_out(sun(60, rises(12.3)));
  CHECK(drifts.tally.rows_ramp == 60);
  CHECK(drifts.rows[0].removed == "irradiance drifted");
  CHECK(sort_out(sun(60, rises(-12.3))).tally.rows_ramp == 60);
}

TEST_CASE("steady windows: temperature of either panel counts where there is one") {
  for (const LogRole role : {LogRole::temperature, LogRole::temperature_beside}) {
    LogBlock block = sun(120, always(800.0));
    for (std::size_t i = 0; i < 120; ++i)
      block.values[index_of(role)].push_back(i < 60 ? 310.0 + 0.99 * (i == 30)
                                                    : 310.0 + 1.01 * (i == 90));
    const Sorted out = sort_out(block);
    CHECK(out.tally.rows_kept == 60);
    CHECK(out.tally.rows_temperature == 60);
    CHECK(out.rows[60].removed == "temperature changed");
  }
}

TEST_CASE("steady windows: a window is removed whole for the first test that it fails") {
  LogBlock block = sun(240, [](double t) { return t > 80 && t < 170 ? 300.0 : 800.0; });
  for (std::size_t i = 0; i < 240; ++i)
    block.values[index_of(LogRole::temperature)].push_back(i > 100 && i < 200 ? 300.0 : 310.0);
  for (std::size_t i = 150; i < 240; ++i)
    block.time_us[i] += 11 * made::second_us;
  const Sorted out = sort_out(block);
  // By windows: steady; cloud and temperature; gap and cloud (rows 120 to 168); end of the cloud
  // and temperature; 11 rows of the last one.
  CHECK(out.tally.rows_kept == 60);
  CHECK(out.tally.rows_irradiance == 60 + 60);
  CHECK(out.tally.rows_broken == 49 + 11);
  CHECK(out.tally.rows_temperature == 0);
  CHECK(out.rows[59].removed.empty());
  CHECK(out.rows[60].removed == "irradiance changed");
  CHECK(out.rows[120].removed == "window cut short or with a gap");
  CHECK(out.rows[168].removed == "window cut short or with a gap");
  CHECK(out.rows[169].removed == "irradiance changed");
  CHECK(out.rows[229].removed == "window cut short or with a gap");
}

TEST_CASE("steady windows: what breaks one") {
  SECTION("a gap inside") {
    LogBlock block = sun(60, always(800.0));
    for (std::size_t i = 30; i < 60; ++i)
      block.time_us[i] += 10 * made::second_us;  // a step of 11 s
    // Rows 30 to 49 end the first window; 10 rows are less than half of the second.
    CHECK(sort_out(block).tally.rows_broken == 60);
  }
  SECTION("a gap over its end") {
    LogBlock block = sun(120, always(800.0));
    for (std::size_t i = 45; i < 120; ++i)
      block.time_us[i] += 20 * made::second_us;
    // 45 rows, then nothing until 65 s: first window broken, second one begins 5 s late.
    const SteadyTally tally = sort_out(block).tally;
    CHECK(tally.rows_broken == 45 + 20);
    CHECK(tally.rows_kept == 55);
  }
  SECTION("a gap over its beginning") {
    LogBlock block = sun(130, always(800.0));
    for (std::size_t i = 45; i < 130; ++i)
      block.time_us[i] += 30 * made::second_us;
    // From 75 s on: 45 rows of the second window, 40 of the third.
    const SteadyTally tally = sort_out(block).tally;
    CHECK(tally.rows_broken == 45 + 45);
    CHECK(tally.rows_kept == 40);
  }
  SECTION("fewer than three rows with irradiance") {
    CHECK(sort_out(sun(60, [](double t) {
            return t < 2.0 ? 800.0 : made::blank;
          })).tally.rows_broken == 60);
    CHECK(sort_out(sun(60, always(made::blank))).tally.rows_broken == 60);
  }
  SECTION("no column of irradiance") {
    const LogBlock block = made::rows(60, 1.0, {{LogRole::power, always(5.0)}});
    CHECK(sort_out(block).tally.rows_broken == 60);
  }
  SECTION("no sun") {
    CHECK(sort_out(sun(60, always(-1.0))).tally.rows_broken == 60);
    CHECK(sort_out(sun(60, always(0.0))).tally.rows_broken == 60);
  }
}

TEST_CASE("steady windows: the last one counts from half a window on") {
  CHECK(sort_out(sun(60 + 31, always(800.0))).tally.rows_kept == 91);
  const Sorted cut = sort_out(sun(60 + 30, always(800.0)));
  CHECK(cut.tally.rows_kept == 60);
  CHECK(cut.tally.rows_broken == 30);
  CHECK(cut.rows[60].removed == "window cut short or with a gap");
  // 36 s are four sixths of a window, their third is one: the first 10 s against the last 6 s.
  const auto late_rise = [](double t) { return t < 88.0 ? 800.0 : 815.0; };
  CHECK(sort_out(sun(60 + 36, late_rise)).tally.rows_ramp == 36);
}

TEST_CASE("steady windows: blocks of any size give the same") {
  const LogBlock block = sun(1000, [](double t) { return 800.0 + 25.0 * std::sin(t / 40.0); });
  const Sorted whole = sort_out(block);
  REQUIRE(whole.tally.rows_kept > 0);
  REQUIRE(whole.tally.rows_kept < 1000);
  for (const std::size_t at_once : {1U, 7U, 60U, 333U}) {
    const Sorted parts = sort_out(block, at_once);
    CAPTURE(at_once);
    CHECK(parts.tally.rows_kept == whole.tally.rows_kept);
    CHECK(parts.tally.rows_irradiance == whole.tally.rows_irradiance);
    CHECK(parts.tally.rows_ramp == whole.tally.rows_ramp);
    CHECK_THAT(parts.sums.power.mean, WithinRel(whole.sums.power.mean, 1e-14));
    CHECK_THAT(parts.sums.power_series.sd, WithinRel(whole.sums.power_series.sd, 1e-13));
    CHECK_THAT(parts.sums.power_series.lag1, WithinAbs(whole.sums.power_series.lag1, 1e-12));
  }
  // Sums are over the kept rows, as the rows themselves say.
  double sum = 0.0;
  for (const LogRow& row : whole.rows)
    if (row.removed.empty()) sum += row.power;
  CHECK_THAT(whole.sums.power.mean,
             WithinRel(sum / static_cast<double>(whole.tally.rows_kept), 1e-14));
}

// Steps may be longer than a window: then rows around a removed window are no neighbours.
TEST_CASE("steady windows: rows around a removed window are no neighbours") {
  SteadyRule rule;
  rule.window = Time::from_si(5.0);
  const auto cloud = [](double t) { return t >= 10.0 && t < 15.0 && t != 12.0 ? 700.0 : 800.0; };
  detail::SteadyWindows windows(rule, longest_us);
  detail::RowKeeper keeper(0);
  const LogBlock block = sun(25, cloud);
  const std::vector<double> none;
  windows.take({block, none, none}, 0, block.rows(), keeper);
  windows.finish(keeper);
  CHECK(windows.tally().rows_irradiance == 5);
  CHECK(windows.kept().power_series.count == 20);
  CHECK(windows.kept().power_series.pairs == 9 + 9);
}

TEST_CASE("steady windows: a window of a fast log needs no more memory") {
  const LogBlock block = made::rows(150'000, 0.0001, {{LogRole::irradiance, always(900.0)}});
  SteadyRule rule;
  rule.window = Time::from_si(15.0);
  CHECK(sort_out(block, 5000, rule).tally.rows_kept == 150'000);
}
