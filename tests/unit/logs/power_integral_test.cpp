#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "hailwright/logs/stretch_meter.hpp"
#include "support/catch.hpp"
#include "unit/logs/made_rows.hpp"

using namespace hailwright;

namespace {

struct Powers {
  std::vector<std::int64_t> time_us;
  std::vector<double> power_w;

  [[nodiscard]] PowerIntegral part(std::size_t begin, std::size_t end, double gap_s) const {
    return PowerIntegral::of(time_us, power_w, begin, end, gap_s);
  }
  [[nodiscard]] PowerIntegral all(double gap_s) const { return part(0, time_us.size(), gap_s); }
};

Powers even(std::size_t rows, double step_s, const made::Cell& power) {
  const LogBlock block = made::rows(rows, step_s, {{LogRole::power, power}});
  return {block.time_us, block.column(LogRole::power)};
}

/// Random powers, some below zero, with blanks and with steps longer than 10 s among them.
Powers random_powers(std::mt19937& random, std::size_t rows) {
  std::normal_distribution<double> power(60.0, 30.0);
  std::uniform_int_distribution<std::int64_t> step(0, 3'000'000);
  std::uniform_int_distribution<int> chance(0, 99);
  Powers made;
  std::int64_t now = 1'780'000'000'000'000;
  for (std::size_t i = 0; i < rows; ++i) {
    now += chance(random) < 3 ? 20'000'000 + step(random) : step(random);
    made.time_us.push_back(now);
    made.power_w.push_back(chance(random) < 5 ? made::blank : power(random));
  }
  return made;
}

struct Plain {
  long double ws = 0.0L;
  std::int64_t bridged_us = 0, gaps = 0, in_gaps_us = 0, rows = 0;
};

/// The definition, row by row.
Plain by_definition(const Powers& made, std::int64_t gap_us) {
  Plain sum;
  std::size_t last = 0;
  for (std::size_t i = 0; i < made.time_us.size(); ++i) {
    if (std::isnan(made.power_w[i])) continue;
    const std::int64_t step = made.time_us[i] - made.time_us[last];
    if (sum.rows > 0 && step > gap_us) {
      ++sum.gaps;
      sum.in_gaps_us += step;
    } else if (sum.rows > 0) {
      sum.bridged_us += step;
      sum.ws +=
          (static_cast<long double>(made.power_w[last]) + made.power_w[i]) / 2.0L * step / 1e6L;
    }
    ++sum.rows;
    last = i;
  }
  return sum;
}

void check_alike(const PowerIntegral& a, const PowerIntegral& b) {
  CHECK_THAT(a.energy_j(), WithinRel(b.energy_j(), 1e-14));
  CHECK(a.bridged_us == b.bridged_us);
  CHECK(a.gaps == b.gaps);
  CHECK(a.in_gaps_us == b.in_gaps_us);
  CHECK(a.rows == b.rows);
  CHECK(a.first_us == b.first_us);
  CHECK(a.last_us == b.last_us);
}

}  // namespace

// P = 10 W + 2 W/s t over 100 s: 10 * 100 + 2 * 100^2 / 2 = 11000 W s, which the rule gives
// exactly.
TEST_CASE("power integral: a ramp is exact at even and at uneven steps") {
  const auto ramp = [](double t) { return 10.0 + 2.0 * t; };
  const PowerIntegral evenly = even(401, 0.25, ramp).all(10.0);
  CHECK(evenly.energy_j() == 11000.0);
  CHECK(evenly.bridged_s() == 100.0);
  Powers uneven;
  for (std::int64_t k = 0; k <= 20; ++k) {  // 0, 0.25, 1, 2.25, ... 100 s
    uneven.time_us.push_back(k * k * 250'000);
    uneven.power_w.push_back(ramp(static_cast<double>(k * k) * 0.25));
  }
  CHECK(uneven.all(10.0).energy_j() == 11000.0);
}

// Half a sine of 80 W over T = 36000 s in n steps. The rule's own sum is h P cot(pi / 2n); the
// integral 2 P T / pi is off from it by at most T h^2 / 12 max |P''| (any book of numerical
// analysis, from memory).
TEST_CASE("power integral: half a sine agrees with both closed forms") {
  const double pi = std::numbers::pi;
  for (const int n : {10, 360, 36000}) {
    const double total_s = 36000.0;
    const double step_s = total_s / n;
    const Powers sine = even(static_cast<std::size_t>(n) + 1, step_s,
                             [&](double t) { return 80.0 * std::sin(pi * t / total_s); });
    const double energy = sine.all(3600.0).energy_j();
    CAPTURE(n, energy);
    CHECK_THAT(energy, WithinRel(80.0 * step_s / std::tan(pi / (2.0 * n)), 1e-14));
    const double bound = total_s * step_s * step_s / 12.0 * 80.0 * (pi / total_s) * (pi / total_s);
    CHECK(std::abs(energy - 2.0 * 80.0 * total_s / pi) <= bound + 1e-8);
  }
}

TEST_CASE("power integral: as numpy has it") {
  Powers made;
  std::int64_t now = 0;
  for (std::int64_t i = 0; i < 1000; ++i) {
    if (i > 0) now += 250'000 * (1 + (i * 31) % 7);
    made.time_us.push_back(now);
    made.power_w.push_back(100.0 + static_cast<double>((i * 7919) % 1000) / 8.0);
  }
  // numpy 1.24, np.trapz(p, t) with these p and t
  CHECK_THAT(made.all(10.0).energy_j(), WithinRel(162429.3125, 1e-15));
  CHECK(made.all(10.0).bridged_s() == 999.5);
}

TEST_CASE("power integral: a step as long as the longest gap is bridged and a longer one is not") {
  const Powers three{{0, 10'000'000, 20'000'001}, {1.0, 3.0, 5.0}};
  const PowerIntegral sum = three.all(10.0);
  CHECK(sum.energy_j() == 20.0);
  CHECK(sum.gaps == 1);
  CHECK(sum.in_gaps_us == 10'000'001);
  CHECK(sum.bridged_s() == 10.0);
}

TEST_CASE("power integral: blanks break nothing and bridge nothing") {
  const Powers some{{0, 1'000'000, 2'000'000, 3'000'000}, {made::blank, 2.0, made::blank, 4.0}};
  const PowerIntegral bridged = some.all(2.0);
  CHECK(bridged.energy_j() == 6.0);
  CHECK(bridged.rows == 2);
  CHECK(bridged.gaps == 0);
  const PowerIntegral broken = some.all(1.5);
  CHECK(broken.energy_j() == 0.0);
  CHECK(broken.gaps == 1);
  const Powers none{{0, 1'000'000}, {made::blank, made::blank}};
  CHECK(none.all(10.0).rows == 0);
  CHECK(none.all(10.0).energy_j() == 0.0);
  CHECK(Powers{}.all(10.0).rows == 0);
}

// An empty part once stood for time 0 and was counted as a gap of half a century.
TEST_CASE("power integral: empty parts in any place change nothing") {
  const Powers made = even(50, 1.0, [](double t) { return 5.0 + t; });
  const PowerIntegral whole = made.all(10.0);
  const PowerIntegral empty;
  PowerIntegral sum;
  sum.append(empty, 10.0);
  sum.append(made.part(0, 0, 10.0), 10.0);
  CHECK(sum.rows == 0);
  for (std::size_t i = 0; i < 50; i += 10) {
    sum.append(made.part(i, i + 10, 10.0), 10.0);
    sum.append(empty, 10.0);
  }
  check_alike(sum, whole);
  CHECK(sum.gaps == 0);
  PowerIntegral late;
  late.append(made.part(20, 30, 10.0), 10.0);
  CHECK(late.first_us == 20'000'000);
}

TEST_CASE("power integral: random rows agree with the definition and any split with the whole") {
  std::mt19937 random(6);
  for (int run = 0; run < 200; ++run) {
    const Powers made = random_powers(random, 1 + random() % 3000);
    const PowerIntegral whole = made.all(10.0);
    const Plain plain = by_definition(made, 10'000'000);
    CAPTURE(run, made.time_us.size());
    CHECK_THAT(whole.energy_j(), WithinRel(static_cast<double>(plain.ws), 1e-14));
    CHECK(whole.gaps == plain.gaps);
    CHECK(whole.bridged_us == plain.bridged_us);
    CHECK(whole.in_gaps_us == plain.in_gaps_us);
    CHECK(whole.rows == plain.rows);

    std::vector<PowerIntegral> parts;
    for (std::size_t at = 0; at < made.time_us.size();) {
      const std::size_t end = std::min(made.time_us.size(), at + random() % 700);
      parts.push_back(made.part(at, end, 10.0));
      at = end;
    }
    PowerIntegral forward;
    for (const PowerIntegral& part : parts)
      forward.append(part, 10.0);
    check_alike(forward, whole);
    // From the right: (a (b (c d))).
    PowerIntegral backward;
    for (std::size_t i = parts.size(); i-- > 0;) {
      PowerIntegral left = parts[i];
      left.append(backward, 10.0);
      backward = left;
    }
    check_alike(backward, whole);
  }
}
