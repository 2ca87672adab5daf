#include "logs/energy_counter.hpp"

#include <cmath>
#include <random>
#include <vector>

#include "support/catch.hpp"
#include "unit/logs/made_rows.hpp"

using namespace hailwright;

namespace {

constexpr std::int64_t longest_us = 10 * made::second_us;

struct Counted {
  std::vector<double> counter_j;
  std::vector<double> power_w = {};
  std::vector<std::int64_t> time_us = {};
  std::optional<double> wraps_at_j = {};
  std::size_t at_once = 1'000'000;
};

std::optional<CounterReading> count(Counted rows) {
  if (rows.time_us.empty())
    for (std::size_t i = 0; i < rows.counter_j.size(); ++i)
      rows.time_us.push_back(static_cast<std::int64_t>(i) * made::second_us);
  std::optional<Energy> wraps_at;
  if (rows.wraps_at_j) wraps_at = Energy::from_si(*rows.wraps_at_j);
  detail::EnergyCounter counter(wraps_at, longest_us);
  const std::size_t n = rows.counter_j.size();
  for (std::size_t at = 0; at < n; at += rows.at_once)
    counter.take(rows.time_us, rows.counter_j, rows.power_w, at, std::min(n, at + rows.at_once));
  return counter.finish();
}

}  // namespace

TEST_CASE("energy counter: increases add up") {
  const auto out = count({{100.0, 100.0, 104.0, 110.0, 110.0, 111.0}}).value();
  CHECK(out.counted.si() == 11.0);
  CHECK(out.rows == 6);
  CHECK(out.step_j == 1.0);
  CHECK(out.resets == 0);
  CHECK(out.wraps == 0);
  CHECK_FALSE(out.across_gaps);
  CHECK(out.in_gaps.si() == 0.0);
}

TEST_CASE("energy counter: no cell is no counter and one cell counts nothing") {
  CHECK_FALSE(count({{}}));
  CHECK_FALSE(count({{made::blank, made::blank}}));
  const auto one = count({{made::blank, 7.0, made::blank}}).value();
  CHECK(one.counted.si() == 0.0);
  CHECK(one.step_j == 0.0);
  CHECK(one.rows == 1);
}

TEST_CASE("energy counter: after a reset it counts from nothing") {
  const auto out = count({{50.0, 60.0, 3.0, 5.0, 0.0, 0.0, 4.0}}).value();
  CHECK(out.counted.si() == 10.0 + 3.0 + 2.0 + 0.0 + 4.0);
  CHECK(out.resets == 2);
  CHECK(out.wraps == 0);
}

// A small fall once counted as a reset and added the counter's whole reading.
TEST_CASE("energy counter: for a small fall nothing is counted") {
  const auto out = count({{500.0, 510.0, 509.0, 512.0, 256.0, 257.0, 127.0}}).value();
  CHECK(out.counted.si() == 10.0 + 0.0 + 3.0 + 0.0 + 1.0 + 127.0);
  CHECK(out.steps_back == 2);
  CHECK(out.stepped_back.si() == 1.0 + 256.0);
  CHECK(out.resets == 1);
  // The same below zero, where no counter begins anew.
  const auto below = count({{-5.0, -7.0, -6.0}}).value();
  CHECK(below.counted.si() == 1.0);
  CHECK(below.steps_back == 1);
  // Also where a wrap-around is stated.
  const auto wraps = count({.counter_j = {98.0, 97.0, 99.0}, .wraps_at_j = 100.0}).value();
  CHECK(wraps.counted.si() == 2.0);
  CHECK(wraps.steps_back == 1);
  CHECK(wraps.wraps == 0);
}

TEST_CASE("energy counter: a wrap-around where it is stated") {
  const auto out = count({.counter_j = {90.0, 98.0, 1.0, 5.0}, .wraps_at_j = 100.0}).value();
  CHECK(out.counted.si() == 8.0 + 3.0 + 4.0);
  CHECK(out.wraps == 1);
  CHECK(out.resets == 0);
}

// A counter that somebody sets to 0 far below its end once counted nearly its whole range.
TEST_CASE("energy counter: a fall far from the end is a reset") {
  const auto out = count({.counter_j = {10.0, 30.0, 0.0, 5.0}, .wraps_at_j = 100.0}).value();
  CHECK(out.counted.si() == 25.0);
  CHECK(out.resets == 1);
  CHECK(out.wraps == 0);
  // It cannot wrap around at what it has passed.
  CHECK(count({.counter_j = {150.0, 0.0}, .wraps_at_j = 100.0}).value().resets == 1);
}

TEST_CASE("energy counter: what it counts in a gap is told apart") {
  const auto out = count({.counter_j = {0.0, 2.0, 50.0, 53.0},
                          .time_us = {0, 1'000'000, 12'000'000, 13'000'000}})
                       .value();
  CHECK(out.counted.si() == 53.0);
  CHECK(out.across_gaps);
  CHECK(out.in_gaps.si() == 48.0);
  // A gap in which nothing was counted.
  CHECK_FALSE(count({.counter_j = {0.0, 2.0, 2.0}, .time_us = {0, 1'000'000, 12'000'000}})
                  .value()
                  .across_gaps);
}

TEST_CASE("energy counter: blank powers bridge as in the integral") {
  std::vector<double> counter;
  std::vector<double> power;
  for (int i = 0; i < 60; ++i) {
    counter.push_back(10.0 * i);
    power.push_back(i >= 20 && i < 40 ? made::blank : 10.0);
  }
  // From row 19 to row 40 no power for 21 s.
  const auto out = count({counter, power}).value();
  CHECK(out.counted.si() == 590.0);
  CHECK(out.in_gaps.si() == 210.0);
  // Nine blank rows are bridged; rows before the first power and after the last are not.
  for (int i = 0; i < 60; ++i)
    power[static_cast<std::size_t>(i)] =
        i < 5 || i > 54 || (i >= 20 && i < 29) ? made::blank : 10.0;
  const auto ends = count({counter, power}).value();
  CHECK(ends.counted.si() == 590.0);
  CHECK(ends.in_gaps.si() == 50.0 + 50.0);
}

TEST_CASE("energy counter: a counter that is written now and then") {
  std::vector<double> counter(61, made::blank);
  std::vector<double> power(61, 5.0);
  counter[0] = 0.0;
  counter[30] = 150.0;
  counter[60] = 300.0;
  const auto out = count({counter, power}).value();
  CHECK(out.counted.si() == 300.0);
  CHECK(out.rows == 3);
  CHECK_FALSE(out.across_gaps);
  // A gap of power between two of its rows: the part of it is not known, so all of it.
  for (std::size_t i = 5; i < 20; ++i)
    power[i] = made::blank;
  CHECK(count({counter, power}).value().in_gaps.si() == 150.0);
}

TEST_CASE("energy counter: blocks of any size give the same") {
  std::mt19937 random(8);
  Counted rows;
  std::int64_t now = 0;
  double counter = 0.0;
  double plain = 0.0;
  for (int i = 0; i < 3000; ++i) {
    now += random() % 200 == 0 ? 20 * made::second_us : made::second_us;
    const double more = static_cast<double>(random() % 8) / 4.0;
    const bool reset = random() % 400 == 0 && counter > more;
    if (i > 0) plain += more;
    counter = reset ? more : counter + more;
    rows.time_us.push_back(now);
    rows.counter_j.push_back(counter);
    rows.power_w.push_back(random() % 30 == 0 ? made::blank : 1.0);
  }
  const auto whole = count(rows).value();
  CHECK(whole.counted.si() == plain);
  CHECK(whole.resets > 0);
  CHECK(whole.across_gaps);
  CHECK(whole.step_j == 0.25);
  for (const std::size_t at_once : {1U, 2U, 100U, 257U}) {
    rows.at_once = at_once;
    const auto parts = count(rows).value();
    CAPTURE(at_once);
    CHECK(parts.counted.si() == plain);
    CHECK(parts.in_gaps.si() == whole.in_gaps.si());
    CHECK(parts.resets == whole.resets);
    CHECK(parts.rows == whole.rows);
    CHECK(parts.step_j == whole.step_j);
  }
}
