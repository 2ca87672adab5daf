#include "hailwright/logs/stretch_meter.hpp"

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"
#include "unit/logs/made_rows.hpp"

using namespace hailwright;
using made::always;

namespace {

StretchRules rules() {
  StretchRules r;
  r.longest_gap = Time::from_si(10.0);
  return r;
}

StretchRules all_rules() {
  StretchRules r = rules();
  r.steady = SteadyRule{};
  r.normalise = LogNormalisation{TemperatureCoefficient::from_si(-0.0035),
                                 TemperatureDifference::from_si(3.0)};
  return r;
}

LogStretch measure(const LogBlock& block, const StretchRules& by, std::size_t most_kept = 0,
                   std::size_t at_once = 1'000'000) {
  StretchMeter meter(by, most_kept);
  for (std::size_t at = 0; at < block.rows(); at += at_once)
    meter.take(block, at, std::min(block.rows(), at + at_once));
  bool complete = false;
  LogStretch out = meter.finish(complete);
  CHECK(complete);
  return out;
}

/// Two panels in a sun with passing clouds: the second gives 0.97 of the first.
LogBlock cloudy_day(std::size_t rows, unsigned seed, double blanks = 0.0) {
  std::mt19937 random(seed);
  std::normal_distribution<double> noise;
  std::uniform_real_distribution<double> any(0.0, 1.0);
  LogBlock block = made::rows(rows, 1.0, {});
  double counter_j = 0.0;
  double cloud = 1.0;
  for (std::size_t i = 0; i < rows; ++i) {
    const double t = static_cast<double>(i);
    if (i % 400 == 0) cloud = any(random) < 0.4 ? 0.4 : 1.0;
    const double irradiance =
        cloud * 950.0 * std::sin(std::numbers::pi * (t + 8000.0) / 40000.0) + 0.5 * noise(random);
    const double power_w = 0.1 * irradiance * (1.0 - 0.0035 * (45.0 - 25.0)) + 0.05 * noise(random);
    counter_j += power_w;
    const auto put = [&](LogRole role, double value) {
      block.values[index_of(role)].push_back(any(random) < blanks ? made::blank : value);
    };
    put(LogRole::power, power_w);
    put(LogRole::power_beside, 0.97 * power_w + 0.05 * noise(random));
    put(LogRole::irradiance, irradiance);
    // The cell is at 45 degC when the sensor's difference is taken into account.
    put(LogRole::temperature, 273.15 + 45.0 - 0.003 * irradiance);
    put(LogRole::temperature_beside, 273.15 + 45.0 - 0.003 * irradiance);
    put(LogRole::energy, counter_j);
  }
  return block;
}

void check_finite(const LogStretch& s) {
  for (const double x :
       {s.energy.si(), s.energy_beside.si(), s.bridged_s, s.in_gaps_s, s.power_series.mean,
        s.power_series.sd, s.power_series.lag1, s.power_series.effective})
    CHECK(std::isfinite(x));
  for (const ColumnSums& c :
       {s.power, s.irradiance, s.temperature, s.power_beside, s.temperature_beside})
    CHECK((std::isfinite(c.mean) && std::isfinite(c.least) && std::isfinite(c.most)));
  if (s.normalised) CHECK((std::isfinite(s.normalised->mean) && std::isfinite(s.normalised->sd)));
  if (s.beside) CHECK((std::isfinite(s.beside->ratio) && std::isfinite(s.beside->slope_per_s)));
  if (s.counter)
    CHECK((std::isfinite(s.counter->counted.si()) && std::isfinite(s.counter->step_j)));
}

}  // namespace

// The same rows in numpy 1.24: t, G, T, P, P2 as below, suns = G/1000,
// q = P/(suns*(1-0.0035*((T-273.15)+3*suns-25))), d = q-q.mean(), ok = np.diff(t)<=10.
TEST_CASE("stretch meter: as numpy has it") {
  LogBlock block = made::rows(10'000, 1.0, {});
  for (std::int64_t i = 0; i < 10'000; ++i) {
    const auto cycle = [&](std::int64_t by, std::int64_t length) {
      return static_cast<double>(i * by % length);
    };
    const double irradiance = 800.0 + cycle(7919, 1000) / 100.0;
    const double power = irradiance * 0.1 * (1.0 + cycle(31, 97) / 9700.0);
    block.time_us[static_cast<std::size_t>(i)] = (i + (i >= 5000 ? 100 : 0)) * made::second_us;
    block.values[index_of(LogRole::irradiance)].push_back(irradiance);
    block.values[index_of(LogRole::temperature)].push_back(318.15 + cycle(104'729, 100) / 200.0);
    block.values[index_of(LogRole::power)].push_back(power);
    block.values[index_of(LogRole::power_beside)].push_back(0.97 * power + cycle(17, 89) / 890.0);
  }
  StretchRules by = all_rules();
  by.steady.reset();
  const LogStretch out = measure(block, by, 0, 5900);
  const auto agrees = [](double numpy) { return WithinRel(numpy, 1e-12); };
  // e = ((p[1:]+p[:-1])/2*np.diff(t))[ok].sum() of P and of P2
  CHECK_THAT(out.energy.si(), agrees(808817.65382690728));
  CHECK_THAT(out.energy_beside.si(), agrees(785047.40623457183));
  CHECK_THAT(out.power.mean, agrees(80.897858066371157));                 // P.mean()
  CHECK_THAT(out.power_series.sd, agrees(0.37299558930999183));           // P.std(ddof=1)
  CHECK_THAT(out.power.most, agrees(81.790540618556719));                 // P.max()
  CHECK_THAT(out.irradiance.mean, agrees(804.995));                       // G.mean()
  CHECK_THAT(out.temperature.mean, agrees(318.39749999999998));           // T.mean()
  CHECK_THAT(out.normalised.value().mean, agrees(109.15273397097174));    // q.mean()
  CHECK_THAT(out.normalised->sd, WithinRel(0.31939583807288197, 1e-11));  // q.std(ddof=1)
  // (d[1:]*d[:-1])[ok].sum()/(d*d).sum()*(len(q)-1)/ok.sum()
  CHECK_THAT(out.normalised->lag1, WithinAbs(-0.3022942160069122, 1e-11));
  // By windows of 60 s, a step in that of its end, e1 and e2 as above: ln = np.log(e2/e1)
  REQUIRE(out.beside);
  CHECK(out.beside->windows.count == 165);
  CHECK_THAT(out.beside->windows.mean, agrees(-0.029829346261183286));          // ln.mean()
  CHECK_THAT(out.beside->windows.sd, WithinRel(1.1285219063100673e-05, 1e-9));  // ln.std(ddof=1)
  CHECK_THAT(out.beside->windows.lag1, WithinAbs(-0.60901660614871256, 1e-9));
  CHECK_THAT(out.beside->slope_per_s, WithinRel(-1.0699731644533271e-06, 1e-9));
}

// P = 20 W + 0.5 W/s t over 200 s: 20 * 200 + 0.25 * 200^2 = 14000 W s, 70 W on average.
TEST_CASE("stretch meter: energy and mean power of a ramp") {
  const LogStretch out = measure(
      made::rows(201, 1.0, {{LogRole::power, [](double t) { return 20.0 + 0.5 * t; }}}), rules());
  CHECK(out.energy.si() == 14000.0);
  CHECK(out.mean_power.value().si() == 70.0);
  CHECK(out.bridged_s == 200.0);
  CHECK(out.rows == 201);
  CHECK(out.from_us == 0);
  CHECK(out.to_us == 200 * made::second_us);
  CHECK(out.power.mean == 70.0);
  CHECK(out.power.most == 120.0);
  CHECK(out.gaps == 0);
  CHECK_FALSE(out.steady);
  CHECK_FALSE(out.counter);
  CHECK_FALSE(out.normalised);
  CHECK_FALSE(out.beside);
  CHECK(out.kept.empty());
}

TEST_CASE("stretch meter: nothing taken and nothing to measure") {
  StretchMeter meter(all_rules(), 5);
  bool complete = false;
  const LogStretch out = meter.finish(complete);
  CHECK(complete);
  CHECK(out.rows == 0);
  CHECK_FALSE(out.mean_power);
  CHECK_FALSE(out.counter);
  CHECK(out.steady.value().rows_broken == 0);
  check_finite(out);
  CHECK_THROWS_AS(StretchMeter(StretchRules{}, 0), BugError);
  const LogBlock block = made::rows(3, 1.0, {});
  StretchMeter other(rules(), 0);
  CHECK_THROWS_AS(other.take(block, 0, 4), BugError);
}

// Sines as in power_integral_test: the sum of 36000 even steps has a closed form.
TEST_CASE("stretch meter: a sine-shaped day in gaps and blocks") {
  const double pi = std::numbers::pi;
  LogBlock block =
      made::rows(36001, 1.0,
                 {{LogRole::power, [&](double t) { return 80.0 * std::sin(pi * t / 36000.0); }},
                  {LogRole::energy, [](double t) { return std::floor(t / 10.0) * 509.0; }}});
  const double closed = 80.0 / std::tan(pi / 72000.0);
  CHECK_THAT(measure(block, rules(), 0, 5900).energy.si(), WithinRel(closed, 1e-14));
  // An hour without rows.
  for (std::size_t i = 20'000; i < block.rows(); ++i)
    block.time_us[i] += 3600 * made::second_us;
  const LogStretch out = measure(block, rules(), 0, 5900);
  const auto& power = block.column(LogRole::power);
  CHECK_THAT(out.energy.si(), WithinRel(closed - (power[19'999] + power[20'000]) / 2.0, 1e-14));
  CHECK(out.gaps == 1);
  CHECK(out.in_gaps_s == 3601.0);
  REQUIRE(out.longest_gaps.size() == 1);
  CHECK(out.longest_gaps[0].line == 20'002);
  CHECK(out.bridged_s == 35'999.0);
  REQUIRE(out.counter);
  CHECK(out.counter->counted.si() == 3600.0 * 509.0);
  CHECK(out.counter->in_gaps.si() == 509.0);
}

TEST_CASE("stretch meter: energy over all rows and means over the steady ones") {
  const LogBlock block = made::rows(
      240, 1.0,
      {{LogRole::power, [](double t) { return t >= 60 && t < 120 ? 20.0 : 80.0; }},
       {LogRole::irradiance, [](double t) { return t > 60 && t < 119 ? 200.0 : 800.0; }}});
  StretchRules by = rules();
  by.steady = SteadyRule{};
  const LogStretch out = measure(block, by, 1000);
  CHECK(out.energy.si() == 239.0 * 80.0 - 60.0 * 60.0);
  CHECK(out.power.mean == 80.0);
  CHECK(out.power.count == 180);
  CHECK(out.power_series.count == 180);
  CHECK(out.irradiance.mean == 800.0);
  REQUIRE(out.steady);
  CHECK(out.steady->rows_kept == 180);
  CHECK(out.steady->rows_irradiance == 60);
  REQUIRE(out.kept.size() == 240);
  CHECK(out.kept[59].removed.empty());
  CHECK(out.kept[60].removed == "irradiance changed");
  CHECK(out.kept[60].power == 20.0);
  CHECK(out.kept[60].line == 62);
}

TEST_CASE("stretch meter: rows that do not fit are said to be left out") {
  const LogBlock block = made::rows(100, 1.0, {{LogRole::power, always(5.0)}});
  StretchMeter meter(rules(), 99);
  meter.take(block, 0, 100);
  bool complete = true;
  CHECK(meter.finish(complete).kept.size() == 99);
  CHECK_FALSE(complete);
}

// Truth: 100 W at 1000 W/m2 and 25 degC for the first panel, 97 W for the second.
TEST_CASE("stretch meter: two panels under clouds come to what they were made of") {
  const LogBlock block = cloudy_day(20'000, 21);
  for (const bool steady : {false, true}) {
    StretchRules by = all_rules();
    if (!steady) by.steady.reset();
    const LogStretch out = measure(block, by, 0, 5900);
    REQUIRE(out.normalised);
    REQUIRE(out.normalised_beside);
    REQUIRE(out.beside);
    CAPTURE(steady, out.normalised->mean, out.beside->ratio);
    CHECK_THAT(out.normalised->mean,
               WithinAbs(100.0, 5.0 * out.normalised->standard_u().value() + 0.01));
    CHECK_THAT(out.normalised_beside->mean,
               WithinAbs(97.0, 5.0 * out.normalised_beside->standard_u().value() + 0.01));
    const double u = out.beside->windows.standard_u().value();
    CHECK(u < 2e-4);
    CHECK_THAT(out.beside->windows.mean, WithinAbs(std::log(0.97), 4.0 * u));
    CHECK_FALSE(out.clipping);
    CHECK_FALSE(out.clipping_beside);
    // Rectangles of the counter against trapezoids: half of both ends.
    CHECK_THAT(out.counter.value().counted.si(), WithinRel(out.energy.si(), 1e-4));
  }
}

TEST_CASE("stretch meter: blocks of any size give the same, blanks and all") {
  for (const double blanks : {0.0, 0.05}) {
    const LogBlock block = cloudy_day(6000, 5, blanks);
    const LogStretch whole = measure(block, all_rules(), 10'000);
    REQUIRE(whole.steady.value().rows_kept > 500);
    REQUIRE(whole.steady.value().rows_kept < 6000);
    check_finite(whole);
    for (const std::size_t at_once : {1U, 13U, 1000U}) {
      const LogStretch parts = measure(block, all_rules(), 10'000, at_once);
      CAPTURE(blanks, at_once);
      CHECK_THAT(parts.energy.si(), WithinRel(whole.energy.si(), 1e-14));
      CHECK_THAT(parts.energy_beside.si(), WithinRel(whole.energy_beside.si(), 1e-14));
      CHECK(parts.bridged_s == whole.bridged_s);
      CHECK(parts.gaps == whole.gaps);
      CHECK(parts.steady->rows_kept == whole.steady->rows_kept);
      CHECK(parts.steady->rows_broken == whole.steady->rows_broken);
      CHECK_THAT(parts.power.mean, WithinRel(whole.power.mean, 1e-14));
      CHECK(parts.power.count == whole.power.count);
      CHECK(parts.temperature.most == whole.temperature.most);
      CHECK_THAT(parts.normalised->mean, WithinRel(whole.normalised->mean, 1e-14));
      CHECK_THAT(parts.normalised->sd, WithinRel(whole.normalised->sd, 1e-10));
      CHECK_THAT(parts.normalised->lag1, WithinAbs(whole.normalised->lag1, 1e-10));
      CHECK_THAT(parts.beside->ratio, WithinRel(whole.beside->ratio, 1e-14));
      CHECK_THAT(parts.counter->counted.si(), WithinRel(whole.counter->counted.si(), 1e-14));
      CHECK_THAT(parts.counter->in_gaps.si(), WithinAbs(whole.counter->in_gaps.si(), 1e-6));
      REQUIRE(parts.kept.size() == whole.kept.size());
      for (std::size_t i = 0; i < whole.kept.size(); ++i)
        REQUIRE(parts.kept[i].removed == whole.kept[i].removed);
    }
  }
}

TEST_CASE("stretch meter: columns of blanks alone poison nothing") {
  LogBlock block = cloudy_day(500, 2, 1.1);
  const LogStretch out = measure(block, all_rules(), 10'000);
  check_finite(out);
  CHECK(out.rows == 500);
  CHECK(out.power.count == 0);
  CHECK_FALSE(out.mean_power);
  CHECK_FALSE(out.counter);
  CHECK_FALSE(out.normalised);
  CHECK_FALSE(out.beside);
  CHECK(out.steady->rows_broken == 500);
}

TEST_CASE("stretch meter: a counter without a column of power") {
  LogBlock block = made::rows(100, 1.0, {{LogRole::energy, [](double t) { return 10.0 * t; }}});
  for (std::size_t i = 50; i < 100; ++i)
    block.time_us[i] += 60 * made::second_us;
  const LogStretch out = measure(block, rules(), 0, 30);
  CHECK(out.counter.value().counted.si() == 990.0);
  CHECK(out.counter.value().in_gaps.si() == 10.0);
  CHECK(out.gaps == 1);
  CHECK(out.in_gaps_s == 61.0);
  CHECK_FALSE(out.mean_power);
}

TEST_CASE("stretch meter: a panel that the load clips") {
  const LogBlock block =
      made::rows(7200, 1.0,
                 {{LogRole::irradiance, [](double t) { return 400.0 + t / 12.0; }},
                  {LogRole::power, [](double t) { return std::min(70.0, 40.0 + t / 120.0); }},
                  {LogRole::power_beside, [](double t) { return 40.0 + t / 120.0; }}});
  const LogStretch out = measure(block, rules(), 0, 5900);
  REQUIRE(out.clipping);
  CHECK_THAT(out.clipping->level.si(), WithinRel(70.0, 0.005));
  CHECK_FALSE(out.clipping_beside);
}

TEST_CASE("stretch meter: it moves") {
  const LogBlock block = made::rows(11, 1.0, {{LogRole::power, always(5.0)}});
  StretchMeter first(rules(), 0);
  first.take(block, 0, 6);
  StretchMeter second(std::move(first));
  second.take(block, 6, 11);
  bool complete = false;
  CHECK(second.finish(complete).energy.si() == 50.0);
}
