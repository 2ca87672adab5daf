#include "hailwright/evaluate/shading.hpp"

#include <algorithm>
#include <cmath>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

ShadeRound round_of(double free_w, double shaded_w, double sun_free = 1000.0,
                    double sun_shaded = 1000.0) {
  ShadeRound r;
  r.free = Power::from_si(free_w);
  r.shaded = Power::from_si(shaded_w);
  r.sun_free = Irradiance::from_si(sun_free);
  r.sun_shaded = Irradiance::from_si(sun_shaded);
  r.back_free = r.back_shaded = TemperaturePoint::from_celsius(45.0);
  return r;
}

/// A power meter of 1 % + 2 digits of 0.1 W; all else without error.
Test shaded_test(std::vector<ShadeRound> rounds) {
  Test test = TestBuilder().build();
  Tools& tools = test.protocol.tools;
  tools = Tools{};
  tools.meter.error = Stated<Power>{};
  tools.meter.error->relative = percent(1);
  tools.meter.error->digits = 2.0;
  tools.meter.step = Power::from_si(0.1);
  tools.sun.error = Stated<Irradiance>{};
  tools.thermometer.error = Stated<TemperatureDifference>{};
  tools.thermometer.each_time = Stated<TemperatureDifference>{};
  ShadeTrial trial;
  trial.shade = "one cell";
  trial.rounds = std::move(rounds);
  test.record.shading = {trial};
  return test;
}

ShadingResult weigh(const Test& test) {
  return weigh_shading(test).at(0);
}

const BudgetRow* find(const std::vector<BudgetRow>& rows, const std::string& id) {
  const auto found = std::find_if(rows.begin(), rows.end(),
                                  [&](const BudgetRow& row) { return row.input.id == id; });
  return found == rows.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("shading: a single round by hand") {
  const ShadingResult r = weigh(shaded_test({round_of(80.0, 40.0)}));
  REQUIRE(r.left);
  REQUIRE(r.log_left);
  CHECK_THAT(r.loss.si(), WithinAbs(0.5, 1e-12));
  // 2 digits of 0.1 W: u = 0.2 / sqrt(3) W, of 80 W and of 40 W; the gain cancels.
  const double u = 0.2 / std::sqrt(3.0);
  const double u_log = std::hypot(u / 80.0, u / 40.0);
  CHECK_THAT(r.log_left->estimate.standard_u.si(), WithinRel(u_log, 1e-9));
  CHECK_THAT(r.left->standard_u.si(), WithinRel(0.5 * u_log, 1e-9));
  CHECK_THAT(find(r.budget, "meter/gain")->contribution(), WithinAbs(0.0, 1e-15));
  // 1.959964 u either way in the logarithm.
  CHECK_THAT(r.low.si(), WithinAbs(1.0 - 0.5 * std::exp(1.959964 * u_log), 1e-7));
  CHECK_THAT(r.high.si(), WithinAbs(1.0 - 0.5 * std::exp(-1.959964 * u_log), 1e-7));
  CHECK_FALSE(r.scatter_seen);
  CHECK(r.log_left->scatter == LogScatter::not_known);
  CHECK_FALSE(r.bypass);
}

TEST_CASE("shading: irradiance and temperature of the two readings are taken out") {
  Test test = shaded_test({round_of(80.0, 38.0, 1000.0, 950.0)});
  test.record.panel.power_coefficient = TemperatureCoefficient::from_si(-0.004);
  test.record.panel.power_coefficient_stated.reset();
  test.protocol.tools.thermometer.where = SensorPlace::cell;
  test.record.shading[0].rounds[0].back_shaded = TemperaturePoint::from_celsius(35.0);
  // (38 / 0.95) / (1 - 0.004 * 10) over 80 / (1 - 0.004 * 20).
  const double left = 38.0 / 0.95 / 0.96 / (80.0 / 0.92);
  CHECK_THAT(weigh(test).left->value.si(), WithinRel(left, 1e-12));
}

TEST_CASE("shading: digits of two irradiances do not cancel and of one they do") {
  Test test = shaded_test({round_of(80.0, 40.0)});
  test.protocol.tools.sun.error->digits = 1.0;
  test.protocol.tools.sun.step = Irradiance::from_si(10.0);
  test.protocol.tools.thermometer.where = SensorPlace::cell;
  const ShadingResult two = weigh(test);
  CHECK_THAT(find(two.budget, "sun/digits/shaded")->contribution(),
             WithinRel(-0.5 * 10.0 / std::sqrt(3.0) / 1000.0, 1e-9));
  CHECK_THAT(find(two.budget, "sun/digits/free")->contribution(),
             WithinRel(0.5 * 10.0 / std::sqrt(3.0) / 1000.0, 1e-9));
  test.record.shading[0].rounds[0].sun_typed_once = true;
  const ShadingResult once = weigh(test);
  CHECK_THAT(find(once.budget, "sun/digits/shaded")->contribution(), WithinAbs(0.0, 1e-15));
  CHECK_THAT(find(once.budget, "sun/digits/free")->contribution(), WithinAbs(0.0, 1e-15));
  CHECK(once.sun_typed_once);
  CHECK(once.left->standard_u.si() < two.left->standard_u.si());
}

TEST_CASE("shading: a shade that takes all the power has a loss of 100 per cent") {
  const ShadingResult r = weigh(shaded_test({round_of(80.0, 0.0)}));
  CHECK(r.loss.si() == 1.0);
  CHECK(r.high.si() == 1.0);
  // u = 0.2 / sqrt(3) W of 80 W.
  CHECK_THAT(r.low.si(), WithinAbs(1.0 - 1.959964 * 0.2 / std::sqrt(3.0) / 80.0, 1e-8));
  CHECK_FALSE(r.log_left);
  CHECK_THAT(r.left->standard_u.si(), WithinRel(0.2 / std::sqrt(3.0) / 80.0, 1e-9));
}

TEST_CASE("shading: little power is reckoned without a logarithm and its loss ends at 100") {
  const ShadingResult r = weigh(shaded_test({round_of(80.0, 0.2)}));
  CHECK_FALSE(r.log_left);
  CHECK_THAT(r.left->value.si(), WithinRel(0.0025, 1e-12));
  CHECK(r.high.si() == 1.0);
  CHECK(r.low.si() < 1.0 - 0.0025);
}

TEST_CASE("shading: rounds are averaged by their logarithms and their scatter counts") {
  const ShadingResult r =
      weigh(shaded_test({round_of(80.0, 40.0), round_of(80.0, 42.0), round_of(80.0, 41.0)}));
  CHECK_THAT(r.left->value.si(), WithinRel(std::cbrt(0.5 * 0.525 * 0.5125), 1e-12));
  REQUIRE(r.rounds_left.size() == 3);
  CHECK(r.scatter_seen);
  const BudgetRow* scatter = find(r.log_left->budget, "scatter");
  REQUIRE(scatter);
  // Logarithms of 40, 42 and 41: their sample standard deviation over the root of 3.
  const double m = (std::log(40.0) + std::log(42.0) + std::log(41.0)) / 3.0;
  const double s2 = (std::pow(std::log(40.0) - m, 2) + std::pow(std::log(42.0) - m, 2) +
                     std::pow(std::log(41.0) - m, 2)) /
                    2.0;
  CHECK_THAT(scatter->contribution(), WithinRel(std::sqrt(s2 / 3.0), 1e-9));
  CHECK(scatter->input.degrees_of_freedom == 2.0);
  // t of 2 degrees of freedom, 4.3026527: as much of the scatter at least (M2).
  CHECK(r.high.si() >=
        1.0 - r.left->value.si() * std::exp(-4.3026527 * std::sqrt(s2 / 3.0)) - 1e-8);
}

TEST_CASE("shading: what nobody described takes the stated defaults and is listed") {
  Test test = shaded_test({round_of(80.0, 40.0)});
  CHECK(weigh(test).assumptions.used().size() <= 3);  // coefficient, cell above back
  test.protocol.tools = Tools{};
  const ShadingResult r = weigh(test);
  CHECK(r.assumptions.uses(DefaultId::meter_accuracy));
  CHECK(r.assumptions.uses(DefaultId::sun_accuracy));
  CHECK(r.assumptions.uses(DefaultId::thermometer_accuracy));
  CHECK(r.assumptions.uses(DefaultId::display_step));
  // 10 % of the sun meter cancel, 3 digits of 1 W do not.
  CHECK(r.left->standard_u.si() < 0.03);
}

TEST_CASE("shading: what another meter read after the shots is another error") {
  Test test = shaded_test({round_of(80.0, 40.0)});
  test.record.conditions.same_tools = false;
  test.record.shading[0].after = true;
  CHECK(find(weigh(test).budget, "meter/gain/other"));
  test.record.conditions.same_tools = true;
  CHECK(find(weigh(test).budget, "meter/gain"));
}

TEST_CASE("shading: a shade read by its voltage alone has no loss") {
  Test test = shaded_test({});
  test.record.panel.substrings = 2;
  ShadeTrial& trial = test.record.shading[0];
  trial.open_free = Voltage::from_si(21.8);
  trial.open_shaded = Voltage::from_si(11.2);
  trial.substrings_shaded = 1;
  const ShadingResult r = weigh(test);
  CHECK_FALSE(r.left);
  REQUIRE(r.bypass);
  CHECK(r.bypass->word == BypassWord::as_expected);
  CHECK(weigh_shading(TestBuilder().build()).empty());
}

TEST_CASE("shading: one open voltage tells nothing of diodes and what was typed once is told") {
  ShadeRound once = round_of(80.0, 40.0);
  Test test = shaded_test({round_of(80.0, 40.0), once});
  CHECK_FALSE(weigh(test).sun_typed_once);
  CHECK_FALSE(weigh(test).back_typed_once);
  once.sun_typed_once = true;
  once.back_typed_once = true;
  test.record.shading[0].rounds = {once, round_of(80.0, 40.0)};
  CHECK(weigh(test).sun_typed_once);
  CHECK(weigh(test).back_typed_once);
  ShadeTrial& trial = test.record.shading[0];
  trial.open_free = Voltage::from_si(21.0);
  CHECK_FALSE(weigh(test).bypass);
  trial.open_shaded = Voltage::from_si(14.0);
  CHECK(weigh(test).bypass);
  trial.open_free.reset();
  CHECK_FALSE(weigh(test).bypass);
}
