#include "hailwright/evaluate/log_results.hpp"

#include <cmath>
#include <random>

#include "evaluate/log_inputs.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/physics/normalised_power.hpp"
#include "support/catch.hpp"
#include "support/log_answers.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

/// An hour at 62.5 W: 225 000 J.
LogFindings an_hour() {
  LogFindings f;
  LogStretch& s = f.whole;
  s.rows = 3601;
  s.bridged_s = 3600.0;
  s.energy = Energy::from_si(225'000.0);
  s.mean_power = Power::from_si(62.5);
  s.power = {3601, 62.5, 60.1, 64.9};
  s.irradiance = {3601, 800.0, 790.0, 810.0};
  s.temperature = {3601, 318.15, 317.15, 319.15};  // 45 degC
  return f;
}

Tools with_meter(Ratio gain, Power offset = {}, double digits = 0.0) {
  Tools tools;
  Stated<Power> error;
  error.relative = gain;
  error.absolute = offset;
  error.digits = digits;
  tools.meter.error = error;
  tools.meter.step = Power::from_si(0.1);
  return tools;
}

/// All else stated as without error.
Tools silent(Tools tools) {
  tools.sun.error = Stated<Irradiance>{};
  tools.thermometer.error = Stated<TemperatureDifference>{};
  tools.thermometer.each_time = Stated<TemperatureDifference>{};
  tools.thermometer.where = SensorPlace::cell;
  return tools;
}

Panel exact_panel() {
  Panel panel;
  StatedValue<TemperatureCoefficient> gamma;
  gamma.value = TemperatureCoefficient::from_si(-0.004);
  panel.power_coefficient_stated = gamma;
  return panel;
}

LogResults weigh(const LogFindings& f, const Tools& tools, const Panel* panel = nullptr,
                 const std::optional<ClockOffset>& offset = std::nullopt) {
  return weigh_log(f, {&tools, panel, panel, std::nullopt}, offset);
}

const BudgetRow& row(const std::vector<BudgetRow>& rows, const std::string& id) {
  for (const BudgetRow& r : rows) {
    if (r.input.id == id) return r;
  }
  FAIL("no row " << id);
  return rows.front();
}

RatioMean ratio_of(double ratio, SeriesMean windows) {
  RatioMean mean;
  mean.ratio = ratio;
  mean.windows = windows;
  return mean;
}

}  // namespace

TEST_CASE("weigh_log: of a gain alone the energy has the gain's own relative uncertainty") {
  const LogResults r = weigh(an_hour(), with_meter(percent(1)));
  REQUIRE(r.whole.energy);
  REQUIRE(r.whole.mean_power);
  const double gain = 0.01 / std::sqrt(3.0);
  CHECK_THAT(r.whole.energy->estimate.relative_u() / gain, WithinAbs(1.0, 1e-12));
  CHECK_THAT(r.whole.mean_power->estimate.relative_u() / gain, WithinAbs(1.0, 1e-12));
  CHECK(r.whole.energy->estimate.value.si() == 225'000.0);
  CHECK(r.whole.mean_power->estimate.value.si() == 62.5);
  CHECK(r.whole.energy->scatter == LogScatter::none);
}

// By hand, JCGM 100:2008, 5.1.2 with E = sum (P (1 + g) + o + d) dt:
// g: 0.01 / sqrt 3 x 225000 J = 1299.04 J; o: 0.5 W / sqrt 3 x 3600 s = 1039.23 J;
// d: 2 x 0.1 W / sqrt 3 x 3600 s = 415.69 J; together 1714.73 J (R 4.2, sqrt(sum(x^2))).
TEST_CASE("weigh_log: gain and offset and digits are one error each for all rows") {
  const LogResults r = weigh(an_hour(), with_meter(percent(1), Power::from_si(0.5), 2.0));
  const LogNumber<Energy>& e = *r.whole.energy;
  CHECK(e.budget.size() == 3);
  CHECK_THAT(row(e.budget, "meter/gain").contribution(), WithinAbs(1299.04, 0.005));
  CHECK_THAT(row(e.budget, "meter/offset").contribution(), WithinAbs(1039.23, 0.005));
  CHECK_THAT(row(e.budget, "meter/digits").contribution(), WithinAbs(415.69, 0.005));
  CHECK_THAT(e.estimate.standard_u.si(), WithinAbs(1714.73, 0.005));
  // The mean over the same hour: the same less a factor of 3600.
  CHECK_THAT(r.whole.mean_power->estimate.standard_u.si() * 3600.0,
             WithinRel(e.estimate.standard_u.si(), 1e-12));
  for (const BudgetRow& b : e.budget)
    CHECK(b.input.scope == Scope::record);
}

TEST_CASE("weigh_log: more rows make an error of the meter no smaller") {
  LogFindings day = an_hour();
  day.whole.energy = day.whole.energy * 24.0;
  day.whole.bridged_s *= 24.0;
  day.whole.rows *= 24;
  const Tools tools = with_meter(percent(2), Power::from_si(0.3));
  CHECK_THAT(weigh(day, tools).whole.energy->estimate.relative_u(),
             WithinRel(weigh(an_hour(), tools).whole.energy->estimate.relative_u(), 1e-12));
}

TEST_CASE("weigh_log: nothing is made of no bridged time") {
  LogFindings f = an_hour();
  f.whole.mean_power.reset();
  f.whole.bridged_s = 0.0;
  const LogResults r = weigh(f, with_meter(percent(1)));
  CHECK_FALSE(r.whole.energy);
  CHECK_FALSE(r.whole.mean_power);
  CHECK_FALSE(r.whole.normalised);
  CHECK_FALSE(r.whole.ratio);
  CHECK_FALSE(r.whole.counter_less_integral);
}

TEST_CASE("weigh_log: defaults stand in for what is not stated and are listed") {
  const Panel panel = log_panel();
  LogFindings f = an_hour();
  f.whole.normalised = series_of(3601, 84.6, 0.4, 0.0, 3601.0);
  const LogResults r = weigh_log(f, {nullptr, &panel, nullptr, std::nullopt}, std::nullopt);
  // 5 % and 3 digits, sun within 10 %, thermometer within 3 K and 1 K each time (docs/defaults.md).
  const std::vector<BudgetRow>& b = r.whole.normalised->budget;
  CHECK_THAT(row(b, "meter/gain").input.standard_u, WithinRel(0.05 / std::sqrt(3.0), 1e-12));
  CHECK_THAT(row(b, "sun/gain").input.standard_u, WithinRel(0.1 / std::sqrt(3.0), 1e-12));
  CHECK_THAT(row(b, "thermometer/offset").input.standard_u, WithinRel(3.0 / std::sqrt(3.0), 1e-12));
  CHECK_THAT(row(b, "thermometer/each").input.standard_u, WithinRel(1.0 / std::sqrt(3.0), 1e-12));
  // The step of the display is the finest one met in the column: 60.1 and 64.9 are in tenths.
  CHECK_THAT(row(b, "meter/digits").input.standard_u, WithinRel(0.3 / std::sqrt(3.0), 1e-12));
  for (const DefaultId id :
       {DefaultId::meter_accuracy, DefaultId::sun_accuracy, DefaultId::thermometer_accuracy,
        DefaultId::thermometer_each_time, DefaultId::coefficient_sheet, DefaultId::cell_above_back,
        DefaultId::display_step}) {
    CAPTURE(default_row(id).what);
    CHECK(r.assumptions.uses(id));
  }
  CHECK(weigh(f, silent(with_meter(percent(1)))).assumptions.used().empty());
}

// Slopes of q = ln P - ln(G / 1000) - ln(1 + gamma (T - 25)) by hand at P 62.5 W, G 800 W/m2,
// T 45 degC, gamma -0.4 %/K: gain 1, sun -1, temperature -gamma / 0.92, coefficient -20 / 0.92.
TEST_CASE("weigh_log: sensitivities of a normalised power are those at the means") {
  LogFindings f = an_hour();
  const double value = 62.5 / 0.8 / 0.92;
  f.whole.normalised = series_of(3601, value, 0.0, 0.0, 3601.0);
  Tools tools = silent(with_meter(percent(1)));
  tools.sun.error->relative = percent(3);
  tools.thermometer.error->absolute = TemperatureDifference::from_si(2.0);
  Panel panel = exact_panel();
  panel.power_coefficient_stated->size = TemperatureCoefficient::from_si(0.0005);
  const LogNumber<Power> n = *weigh(f, tools, &panel).whole.normalised;
  CHECK(n.estimate.value.si() == value);
  CHECK_THAT(row(n.budget, "meter/gain").sensitivity, WithinRel(value, 1e-12));
  CHECK_THAT(row(n.budget, "sun/gain").sensitivity, WithinRel(-value, 1e-12));
  CHECK_THAT(row(n.budget, "thermometer/offset").sensitivity,
             WithinRel(value * 0.004 / 0.92, 1e-12));
  CHECK_THAT(row(n.budget, "coefficient").sensitivity, WithinRel(-value * 20.0 / 0.92, 1e-12));
  const double u = value / std::sqrt(3.0) *
                   std::sqrt(0.01 * 0.01 + 0.03 * 0.03 + std::pow(2.0 * 0.004 / 0.92, 2) +
                             std::pow(0.0005 * 20.0 / 0.92, 2));
  CHECK_THAT(n.estimate.standard_u.si(), WithinRel(u, 1e-12));
}

TEST_CASE("weigh_log: no normalised power without a panel, nor in the dark") {
  LogFindings f = an_hour();
  f.whole.normalised = series_of(3601, 84.6, 0.4, 0.0, 3601.0);
  const Tools tools = silent(with_meter(percent(1)));
  CHECK_FALSE(weigh(f, tools).whole.normalised);
  const Panel panel = exact_panel();
  CHECK(weigh(f, tools, &panel).whole.normalised);
  f.whole.irradiance.mean = 0.0;
  CHECK_FALSE(weigh(f, tools, &panel).whole.normalised);
  f.whole.irradiance.mean = std::nan("");
  CHECK_FALSE(weigh(f, tools, &panel).whole.normalised);
}

// Worked by JCGM 100:2008, G.4.1: u_A = 0.5 / sqrt 10 = 0.158114 with 9 degrees of freedom, u_B =
// 0.004 x 80 / sqrt 3 = 0.184752 with endless ones: u = 0.243173, nu = u^4 / (0.158114^4 / 9) =
// 50.353 (R 4.2).
TEST_CASE("weigh_log: scatter counts by the effective number of readings") {
  LogFindings f = an_hour();
  f.whole.normalised = series_of(600, 80.0, 0.5, 0.97, 10.0);
  const Panel panel = exact_panel();
  const LogNumber<Power> n = *weigh(f, silent(with_meter(percent(0.4))), &panel).whole.normalised;
  CHECK(n.scatter == LogScatter::effective);
  CHECK_THAT(n.estimate.standard_u.si(), WithinAbs(0.243173, 5e-7));
  CHECK_THAT(n.estimate.degrees_of_freedom, WithinAbs(50.353, 5e-4));
  CHECK_THAT(n.half_width().si(), WithinRel(t_quantile(0.975, n.estimate.degrees_of_freedom) *
                                                n.estimate.standard_u.si(),
                                            1e-12));
}

TEST_CASE("weigh_log: fewer than 20 readings are worth one and a single one has no scatter") {
  LogFindings f = an_hour();
  const Panel panel = exact_panel();
  const Tools tools = silent(with_meter(percent(0.4)));
  f.whole.normalised = series_of(19, 80.0, 0.5, 0.1, 1.0);
  const LogNumber<Power> few = *weigh(f, tools, &panel).whole.normalised;
  CHECK(few.scatter == LogScatter::one_reading);
  CHECK(row(few.budget, "scatter").input.standard_u == 0.5);
  CHECK(row(few.budget, "scatter").input.degrees_of_freedom == 18.0);
  f.whole.normalised = series_of(1, 80.0, 0.0, 0.0, 1.0);
  const LogNumber<Power> single = *weigh(f, tools, &panel).whole.normalised;
  CHECK(single.scatter == LogScatter::not_known);
  CHECK(single.budget.size() == 1);
}

TEST_CASE("weigh_log: a ratio holds the gains of two meters of one statement") {
  LogFindings f = an_hour();
  f.whole.power_beside = f.whole.power;
  f.whole.beside = ratio_of(0.981, series_of(60, std::log(0.981), 0.0, 0.0, 60.0));
  const LogNumber<Ratio> r = *weigh(f, with_meter(percent(1))).whole.ratio;
  CHECK(r.estimate.value.si() == 0.981);
  CHECK_THAT(r.estimate.relative_u(), WithinRel(std::sqrt(2.0) * 0.01 / std::sqrt(3.0), 1e-12));
}

TEST_CASE("weigh_log: what is left of a clock's error bears on the ratio by its slope") {
  LogFindings f = an_hour();
  f.whole.power_beside = f.whole.power;
  f.whole.beside = ratio_of(0.98, series_of(60, std::log(0.98), 0.0, 0.0, 60.0));
  f.whole.beside->slope_per_s = 1e-4;
  const Tools exact = with_meter(percent(0));
  ClockOffset offset;
  offset.offset = Time::from_si(7.0);
  offset.standard_u = Time::from_si(0.5);
  offset.searched = Time::from_si(60.0);
  CHECK_THAT(weigh(f, exact, nullptr, offset).whole.ratio->estimate.standard_u.si(),
             WithinRel(0.98 * 1e-4 * 0.5, 1e-12));
  // Not found: it may be anywhere that was searched.
  offset.offset.reset();
  CHECK_THAT(weigh(f, exact, nullptr, offset).whole.ratio->estimate.standard_u.si(),
             WithinRel(0.98 * 1e-4 * 60.0 / std::sqrt(3.0), 1e-12));
  CHECK(weigh(f, exact).whole.ratio->estimate.standard_u.si() == 0.0);
}

// Counter 222 500 J less 2500 J in gaps against 225 000 J: -2.2222 %. Two gaps and a reset make
// four runs: 360 J x sqrt(4 / 6) = 293.94 J; column in tenths: 3600 s x 0.05 W / sqrt 3 =
// 103.92 J; walk: 3600 s x 2 W x sqrt(0.1 / (6 x 3598)) = 15.496 J. Together 312.154 J, 0.138735 %
// (R 4.2).
TEST_CASE("weigh_log: counter against integral by the steps of both and the rows between") {
  LogFindings f = an_hour();
  f.whole.gaps = 2;
  f.whole.power_series = series_of(3601, 62.5, 2.0, 0.9, 190.0);
  CounterReading c;
  c.counted = Energy::from_si(222'500.0);
  c.in_gaps = Energy::from_si(2500.0);
  c.across_gaps = true;
  c.resets = 1;
  c.step_j = 360.0;
  f.whole.counter = c;
  const Estimate<Ratio> less = *weigh(f, with_meter(percent(5))).whole.counter_less_integral;
  CHECK_THAT(less.value.si(), WithinAbs(-0.0222222, 5e-8));
  CHECK_THAT(less.standard_u.si(), WithinAbs(0.00138735, 5e-9));
  // The meter is the same: its gain is in neither.
  CHECK(weigh(f, with_meter(percent(1))).whole.counter_less_integral->standard_u ==
        less.standard_u);
}

// The walk between rows: rows taken from a random walk of steps a hundred times finer, integrals of
// both held against the formula that `counter_less_integral` uses.
TEST_CASE("weigh_log: what a power does between its rows is as large as reckoned") {
  std::mt19937_64 random(20260614);
  std::normal_distribution<double> step;
  constexpr int rows = 200, fine = 100, trials = 400;
  double squares = 0.0, reckoned = 0.0;
  for (int t = 0; t < trials; ++t) {
    double power = 50.0, all = 0.0, coarse = 0.0, steps2 = 0.0;
    for (int i = 0; i < rows; ++i) {
      const double before = power;
      for (int k = 0; k < fine; ++k) {
        const double next = power + 0.1 * step(random);
        all += (power + next) / 2.0 / fine;
        power = next;
      }
      coarse += (before + power) / 2.0;
      steps2 += (power - before) * (power - before);
    }
    squares += (coarse - all) * (coarse - all);
    // D h = mean square step = 2 sd^2 (1 - r1): u^2 = N h^2 (D h) / 12.
    reckoned += steps2 / 12.0;
  }
  CHECK_THAT(squares / reckoned, WithinAbs(1.0, 0.15));
}

// M3 and M17 in small: meters whose gains are drawn anew in each trial, windows that scatter.
TEST_CASE("weigh_log: the interval of a ratio holds the true one about as often as it says") {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> gain(-0.01, 0.01);
  std::normal_distribution<double> normal;
  const Tools tools = with_meter(percent(1));
  constexpr int trials = 2000, windows = 60;
  int held = 0;
  for (int t = 0; t < trials; ++t) {
    const double shift = std::log(0.98) + std::log1p(gain(random)) - std::log1p(gain(random));
    double sum = 0.0, sum2 = 0.0;
    for (int w = 0; w < windows; ++w) {
      const double v = shift + 0.03 * normal(random);
      sum += v;
      sum2 += v * v;
    }
    const double mean = sum / windows;
    const double sd = std::sqrt((sum2 - sum * mean) / (windows - 1));
    LogFindings f = an_hour();
    f.whole.power_beside = f.whole.power;
    f.whole.beside = ratio_of(std::exp(mean), series_of(windows, mean, sd, 0.0, windows));
    const LogNumber<Ratio> r = *weigh(f, tools).whole.ratio;
    if (std::abs(r.estimate.value.si() - 0.98) <= r.half_width().si()) ++held;
  }
  CAPTURE(held);
  CHECK(held >= 0.935 * trials);
  CHECK(held <= 0.98 * trials);
}

TEST_CASE("half_width_of: never below that of the scatter by its own degrees of freedom") {
  // M2, by hand: u_A 0.81 with 2, u_B 0.81 with endless ones: t(8) x 1.1455 = 2.64, but t(2) x 0.81
  // = 3.49.
  std::vector<BudgetRow> rows(2);
  rows[0].input.standard_u = rows[1].input.standard_u = 0.81;
  rows[0].sensitivity = rows[1].sensitivity = 1.0;
  rows[0].input.evaluation = Evaluation::type_a;
  rows[0].input.degrees_of_freedom = 2.0;
  const Combined all = combine(rows);
  CHECK_THAT(half_width_of(all.standard_u, all.degrees_of_freedom, rows), WithinAbs(3.49, 0.005));
  CHECK_THAT(half_width_of(1.0, std::numeric_limits<double>::infinity(), {}),
             WithinAbs(1.959964, 5e-7));
  CHECK(half_width_of(0.0, 3.0, {}) == 0.0);
}

TEST_CASE("log_normalisation: the panel's coefficient and nothing without a panel") {
  CHECK_FALSE(log_normalisation({}));
  const Panel panel = log_panel();
  Tools tools;
  LogInstruments known{&tools, &panel, nullptr, std::nullopt};
  CHECK(log_normalisation(known)->gamma.si() == -0.0035);
  CHECK(log_normalisation(known)->cell_above_back.si() == defaults::cell_above_back.si());
  known.cell_above_back = StatedValue<TemperatureDifference>{};
  known.cell_above_back->value = TemperatureDifference::from_si(1.5);
  CHECK(log_normalisation(known)->cell_above_back.si() == 1.5);
  tools.thermometer.where = SensorPlace::cell;
  CHECK(log_normalisation(known)->cell_above_back.si() == 0.0);
}

TEST_CASE("weigh_log: a second panel is normalised by its own coefficient") {
  LogFindings f = an_hour();
  f.whole.power_beside = f.whole.power;
  f.whole.normalised_beside = series_of(3601, 84.9, 0.0, 0.0, 3601.0);
  const Tools tools = silent(with_meter(percent(1)));
  Panel first = exact_panel(), second = exact_panel();
  second.power_coefficient_stated->value = TemperatureCoefficient::from_si(-0.003);
  const auto of = [&](const Panel* beside) {
    return weigh_log(f, {&tools, &first, beside, std::nullopt}, std::nullopt)
        .whole.normalised_beside;
  };
  CHECK_FALSE(of(nullptr));
  CHECK(of(&first)->estimate.value.si() == 84.9);
  // 20 K above 25 degC: 0.92 in place of 0.94 was divided by.
  CHECK_THAT(of(&second)->estimate.value.si(), WithinRel(84.9 * 0.92 / 0.94, 1e-12));
}

TEST_CASE("weigh_log: steps are told by the points of the trace that hold a power") {
  LogFindings f = an_hour();
  f.whole.power = {3601, 62.5, 60.0, 65.0};
  Tools tools = with_meter(Ratio{}, {}, 1.0);
  tools.meter.step.reset();
  const auto u_of_energy = [&] { return weigh(f, tools).whole.energy->estimate.standard_u.si(); };
  const double whole_watts = u_of_energy();
  LogTrace::Point blank;
  blank.rows = 5;
  blank.power_least = blank.power_mean = blank.power_most = std::nan("");
  LogTrace::Point nothing;
  nothing.power_least = nothing.power_most = 60.001;
  f.trace.points = {blank, nothing};
  CHECK(u_of_energy() == whole_watts);
  LogTrace::Point tenths;
  tenths.rows = 5;
  tenths.power_least = 60.1;
  tenths.power_most = 64.0;
  f.trace.points.push_back(tenths);
  CHECK_THAT(u_of_energy(), WithinRel(0.1 * whole_watts, 1e-9));
}

TEST_CASE("weigh_log: a power over no time, windows without a ratio, an energy of nothing") {
  LogFindings f = an_hour();
  f.whole.power_beside = f.whole.power;
  f.whole.beside = ratio_of(0.98, series_of(0, 0.0, 0.0, 0.0, 0.0));
  f.whole.counter = CounterReading{};
  CHECK_FALSE(weigh(f, with_meter(percent(1))).whole.ratio);
  CHECK(weigh(f, with_meter(percent(1))).whole.counter_less_integral);
  f.whole.energy = Energy{};
  CHECK_FALSE(weigh(f, with_meter(percent(1))).whole.counter_less_integral);
  f.whole.bridged_s = 0.0;
  CHECK_FALSE(weigh(f, with_meter(percent(1))).whole.energy);
}

TEST_CASE("weigh_log: nothing is normalised without rows or power or at an impossible heat") {
  LogFindings good = an_hour();
  good.whole.normalised = series_of(3601, 84.6, 0.4, 0.0, 3601.0);
  const Tools tools = silent(with_meter(percent(1)));
  const Panel panel = exact_panel();
  LogFindings f = good;
  f.whole.normalised = series_of(0, 0.0, 0.0, 0.0, 0.0);
  CHECK_FALSE(weigh(f, tools, &panel).whole.normalised);
  f = good;
  f.whole.power.mean = 0.0;
  CHECK_FALSE(weigh(f, tools, &panel).whole.normalised);
  f = good;
  f.whole.temperature.mean = 273.15 + 25.0 + 250.0;  // -0.4 %/K leave nothing at 275 degC
  CHECK_FALSE(weigh(f, tools, &panel).whole.normalised);
}

TEST_CASE("weigh_log: a second sensor counts for the second panel, the first where it has none") {
  LogFindings f = an_hour();
  f.whole.power_beside = f.whole.power;
  f.whole.normalised_beside = series_of(3601, 84.9, 0.0, 0.0, 3601.0);
  const Tools tools = silent(with_meter(percent(1)));
  Panel second = exact_panel();
  second.power_coefficient_stated->value = TemperatureCoefficient::from_si(-0.003);
  const Panel first = exact_panel();
  const auto beside = [&](const Panel* of_rows) {
    return weigh_log(f, {&tools, of_rows, &second, std::nullopt}, std::nullopt)
        .whole.normalised_beside->estimate.value.si();
  };
  const double by_first = beside(&first);
  f.whole.temperature_beside = {3601, 308.15, 307.15, 309.15};  // 35 degC: 10 K above
  CHECK_THAT(beside(&first), WithinRel(84.9 * 0.96 / 0.97, 1e-12));
  CHECK(beside(&first) != by_first);
  // Without a first panel the rows were normalised by the second's own figures.
  CHECK(beside(nullptr) == 84.9);
}

TEST_CASE("weigh_log: a meter that shows nothing and clocks that agree add nothing") {
  LogFindings f = an_hour();
  f.whole.power_beside = {3601, 0.0, 0.0, 0.0};
  f.whole.beside = ratio_of(0.98, series_of(60, std::log(0.98), 0.0, 0.0, 60.0));
  f.whole.beside->slope_per_s = 1e-4;
  const Tools offset_only = with_meter(Ratio{}, Power::from_si(1.0));
  const double one = 0.98 / 62.5 / std::sqrt(3.0);
  CHECK_THAT(weigh(f, offset_only).whole.ratio->estimate.standard_u.si(), WithinRel(one, 1e-9));
  ClockOffset exact;
  exact.offset = Time{};
  CHECK_THAT(weigh(f, offset_only, nullptr, exact).whole.ratio->estimate.standard_u.si(),
             WithinRel(one, 1e-9));
}

TEST_CASE("weigh_log: one row has no wandering between rows") {
  LogFindings f = an_hour();
  CounterReading c;
  c.counted = Energy::from_si(225'000.0);
  f.whole.counter = c;
  f.whole.power_series = series_of(1, 62.5, 0.0, 0.0, 1.0);
  const double still =
      weigh(f, with_meter(percent(1))).whole.counter_less_integral->standard_u.si();
  f.whole.power_series = series_of(3601, 62.5, 2.0, 0.9, 190.0);
  CHECK(weigh(f, with_meter(percent(1))).whole.counter_less_integral->standard_u.si() > still);
}

TEST_CASE("log_normalisation: without tools a sensor lies on the back") {
  const Panel panel = log_panel();
  CHECK(log_normalisation({nullptr, &panel, nullptr, std::nullopt})->cell_above_back.si() ==
        defaults::cell_above_back.si());
}
