#include "evaluate/line_up_numbers.hpp"

#include <algorithm>
#include <cmath>

#include "evaluate/line_up_differences.hpp"
#include "hailwright/evaluate/power_model.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

template <class Q>
Stated<Q> normal_gain(Ratio u) {
  Stated<Q> s;
  s.shape = Shape::normal;
  s.relative = u;
  return s;
}

TestBuilder measured() {
  TestBuilder b;
  b.same_panel();
  b.test.protocol.tools.meter.error = normal_gain<Power>(percent(3));
  b.test.protocol.tools.sun.error = normal_gain<Irradiance>(percent(2));
  b.test.record.panel.name = "Rigid A";
  return b;
}

LineUpNumber power_of(const Test& test) {
  return line_up_numbers(test, nullptr).at(LineUpQuantity::power);
}

std::string key_of(const LineUpNumber& number, const std::string& input) {
  const auto found = std::find_if(number.errors.begin(), number.errors.end(),
                                  [&](const LineUpError& e) { return e.input == input; });
  REQUIRE(found != number.errors.end());
  return found->key;
}

double u_of_difference(const Test& a, const Test& b) {
  return errors_of_difference(power_of(a), power_of(b)).all.standard_u;
}

}  // namespace

TEST_CASE("line-up numbers: instruments are known by their ids") {
  TestBuilder b = measured();
  CHECK(key_of(power_of(b.build()), "meter/gain").empty());
  b.test.protocol.tools.meter.id = "clamp meter 2";
  b.test.protocol.tools.sun.id = "sun meter 1";
  const LineUpNumber power = power_of(b.build());
  CHECK(key_of(power, "meter/gain") == "meter/clamp meter 2/gain");
  CHECK(key_of(power, "sun/gain") == "sun/sun meter 1/gain");
  // What is drawn anew in a stage, scatter and sky are the record's own.
  CHECK(key_of(power, "meter/between/before").empty());
  CHECK(key_of(power, "scatter").empty());
  CHECK(key_of(power, "day/before").empty());
}

TEST_CASE("line-up numbers: one meter for two records cancels and two of a kind do not") {
  TestBuilder b = measured();
  const double apart = u_of_difference(b.build(), b.build());
  b.test.protocol.tools.meter.id = "clamp meter 2";
  const double one_meter = u_of_difference(b.build(), b.build());
  // The gain of 3 % was in both.
  CHECK_THAT(apart * apart - one_meter * one_meter, WithinAbs(2 * 0.03 * 0.03, 1e-12));
  TestBuilder other = measured();
  other.test.protocol.tools.meter.id = "clamp meter 3";
  CHECK_THAT(u_of_difference(b.build(), other.build()), WithinAbs(apart, 1e-12));
}

TEST_CASE("line-up numbers: two meters of which nobody knows which read what share nothing") {
  TestBuilder b;
  b.test.protocol.measure.meters = 2;
  b.test.protocol.tools.meter.id = "clamp meter 2";
  CHECK(key_of(power_of(b.build()), "meter/gain/struck").empty());
}

TEST_CASE("line-up numbers: a coefficient is one error for a model") {
  TestBuilder b = measured();
  const LineUpNumber a = power_of(b.build());
  const std::string gamma = key_of(a, "coefficient");
  CHECK_FALSE(gamma.empty());
  CHECK_FALSE(key_of(a, "cell").empty());
  CHECK(key_of(power_of(b.build()), "coefficient") == gamma);
  b.test.record.panel.power_coefficient = TemperatureCoefficient::from_si(-0.0038);
  CHECK(key_of(power_of(b.build()), "coefficient") != gamma);
  b.test.record.panel.power_coefficient.reset();
  b.test.record.panel.name = "Rigid B";
  CHECK(key_of(power_of(b.build()), "coefficient") != gamma);
}

TEST_CASE("line-up numbers: a warmer day leaves the part of the coefficient that differs") {
  const Test cool = measured().build();
  Test warm = cool;
  for (Reading& r : warm.record.readings)
    r.temperature = r.temperature + TemperatureDifference::from_si(10.0);
  const auto gamma_part = [](const Test& t) {
    const LineUpNumber n = power_of(t);
    return std::find_if(n.errors.begin(), n.errors.end(),
                        [](const LineUpError& e) { return e.input == "coefficient"; })
        ->contribution;
  };
  LineUpNumber a = power_of(cool);
  LineUpNumber b = power_of(warm);
  const auto others = [](const LineUpError& e) { return e.input != "coefficient"; };
  std::erase_if(a.errors, others);
  std::erase_if(b.errors, others);
  CHECK_THAT(errors_of_difference(a, b).all.standard_u,
             WithinAbs(std::abs(gamma_part(warm) - gamma_part(cool)), 1e-15));
  CHECK(std::abs(gamma_part(warm)) > std::abs(gamma_part(cool)));
}

TEST_CASE("line-up numbers: area mass rated power and price stand as they are") {
  TestBuilder b = measured();
  Panel& panel = b.test.record.panel;
  CHECK(line_up_numbers(b.build(), nullptr).size() == 1);
  panel.rated_power = Power::from_si(100.0);
  panel.size = Outline{Length::from_si(1.0), Length::from_si(0.5), std::nullopt};
  panel.weight = Mass::from_si(8.0);
  panel.price = Money{90.0, "EUR"};
  const auto numbers = line_up_numbers(b.build(), nullptr);
  const LineUpNumber& power = numbers.at(LineUpQuantity::power);
  const double watts = std::exp(power.log);
  CHECK_THAT(std::exp(numbers.at(LineUpQuantity::share_of_rated).log),
             WithinRel(watts / 100.0, 1e-12));
  CHECK_THAT(std::exp(numbers.at(LineUpQuantity::power_per_area).log),
             WithinRel(watts / 0.5, 1e-12));
  CHECK_THAT(std::exp(numbers.at(LineUpQuantity::power_per_mass).log),
             WithinRel(watts / 8.0, 1e-12));
  const LineUpNumber& price = numbers.at(LineUpQuantity::price_per_watt);
  CHECK_THAT(std::exp(price.log), WithinRel(90.0 / watts, 1e-12));
  CHECK(price.standard_u == power.standard_u);
  CHECK(price.errors.at(0).contribution == -power.errors.at(0).contribution);
}

TEST_CASE("line-up numbers: the loss has the budget of its comparison") {
  const Test t = TestBuilder().loss(0.03).build();
  const Assessment a = assess(t);
  const auto numbers = line_up_numbers(t, &a.power.at(0));
  const LineUpNumber& loss = numbers.at(LineUpQuantity::loss);
  CHECK(loss.log == a.power[0].estimate.lambda);
  double variance = 0.0;
  for (const LineUpError& e : loss.errors)
    variance += e.contribution * e.contribution;
  CHECK_THAT(std::sqrt(variance), WithinRel(a.power[0].estimate.u_lambda, 1e-12));
}

TEST_CASE("line-up numbers: a shade read once has no number") {
  TestBuilder b = measured();
  ShadeTrial trial;
  trial.shade = "lower left cell";
  ShadeRound round;
  round.free = Power::from_si(80.0);
  round.shaded = Power::from_si(40.0);
  round.sun_free = round.sun_shaded = Irradiance::from_si(900.0);
  round.back_free = round.back_shaded = TemperaturePoint::from_celsius(45.0);
  trial.rounds = {round};
  b.test.record.shading = {trial};
  CHECK_FALSE(line_up_shading(b.build(), weigh_shading(b.build())));
  round.shaded = Power::from_si(41.0);
  b.test.record.shading[0].rounds.push_back(round);
  const auto number = line_up_shading(b.build(), weigh_shading(b.build()));
  REQUIRE(number);
  CHECK(number->shade == "lower left cell");
  CHECK_THAT(std::exp(number->left.log), WithinRel(std::sqrt(40.0 * 41.0) / 80.0, 1e-9));
}

TEST_CASE("line-up numbers: what is shared with other records, by the names of the inputs") {
  Test t = measured().build();
  t.protocol.tools.meter.id = "clamp meter 2";
  t.protocol.tools.thermometer.id = "probe 1";
  const auto key = [&](const char* id) {
    BudgetInput input;
    input.id = id;
    input.scope = Scope::record;
    input.evaluation = Evaluation::type_b;
    input.standard_u = 0.01;
    return line_up_errors(t, {{input, 1.0}}).at(0).key;
  };
  CHECK(key("meter/gain") == "meter/clamp meter 2/gain");
  CHECK(key("thermometer/offset") == "thermometer/probe 1/offset");
  CHECK(key("meter/gain/control").empty());  // one of a pair: nobody knows which
  CHECK(key("unit").empty());
  CHECK(key("energy-meter/gain").empty());
  CHECK(key("meter/gain/other").empty());  // another one, of which nobody says anything
  t.record.tools_after = Tools{};
  CHECK(key("meter/gain/other").empty());
  t.record.tools_after->meter.id = "clamp meter 3";
  CHECK(key("meter/gain/other") == "meter/clamp meter 3/gain");
}

TEST_CASE("line-up numbers: a coefficient belongs to the model of its panel") {
  TestBuilder b;
  b.test.record.panel.name = "Rigid A";
  b.test.record.control->name = "Rigid C";
  b.test.record.control_same_model = false;
  Test t = b.build();
  BudgetInput input;
  input.scope = Scope::record;
  input.evaluation = Evaluation::type_b;
  input.standard_u = 0.0005;
  const auto key = [&](const char* id) {
    input.id = id;
    return line_up_errors(t, {{input, 1.0}}).at(0).key;
  };
  CHECK(key("coefficient").starts_with("coefficient/Rigid A/"));
  CHECK(key("coefficient/control").starts_with("coefficient/Rigid C/"));
  CHECK(key("cell").starts_with("cell/Rigid A/3 "));  // 3 K above the back, assumed
  CHECK(key("coefficient/another").starts_with("coefficient/Rigid A/"));
  t.record.control.reset();
  CHECK(key("coefficient/control").starts_with("coefficient/Rigid A/"));
}

TEST_CASE("line-up numbers: nothing is divided by a size or a price of nothing") {
  TestBuilder b = measured();
  Panel& panel = b.test.record.panel;
  panel.price = Money{0.0, "EUR"};
  panel.weight = Mass{};
  auto numbers = line_up_numbers(b.build(), nullptr);
  CHECK_FALSE(numbers.contains(LineUpQuantity::price_per_watt));
  CHECK_FALSE(numbers.contains(LineUpQuantity::power_per_mass));
  panel.price = Money{90.0, "EUR"};
  panel.weight = Mass::from_si(4.5);
  numbers = line_up_numbers(b.build(), nullptr);
  CHECK(numbers.contains(LineUpQuantity::price_per_watt));
  CHECK_THAT(numbers.at(LineUpQuantity::power_per_mass).log,
             WithinAbs(numbers.at(LineUpQuantity::power).log - std::log(4.5), 1e-12));
}

namespace {

ShadingResult shaded_at(std::size_t trial, double log) {
  ShadingResult r;
  r.trial = trial;
  r.log_left = LogNumber<Ratio>{};
  r.log_left->estimate.value = Ratio::from_si(log);
  r.log_left->budget = {{{"meter/gain", "", Scope::record, Evaluation::type_b, 0.01}, 1.0}};
  r.scatter_seen = true;
  return r;
}

}  // namespace

TEST_CASE("line-up numbers: of several shades the one before the shots counts, if it counts") {
  Test t = measured().build();
  t.protocol.tools.meter.id = "clamp meter 2";
  t.record.shading.resize(3);
  t.record.shading[0].after = true;
  t.record.shading[0].shade = "after";
  t.record.shading[1].shade = "first before";
  t.record.shading[2].shade = "second before";
  CHECK_FALSE(line_up_shading(t, {}));
  auto chosen = line_up_shading(t, {shaded_at(0, -0.3)});
  REQUIRE(chosen);
  CHECK(chosen->shade == "after");
  CHECK(chosen->left.errors.at(0).key.empty());
  t.record.shading[1].after = true;
  CHECK(line_up_shading(t, {shaded_at(0, -0.3), shaded_at(1, -0.4)})->shade == "after");
  t.record.shading[1].after = false;
  chosen = line_up_shading(t, {shaded_at(0, -0.3), shaded_at(1, -0.4), shaded_at(2, -0.5)});
  CHECK(chosen->shade == "first before");
  CHECK(chosen->left.log == -0.4);
  CHECK(chosen->left.errors.at(0).key == "meter/clamp meter 2/gain");
  ShadingResult unknown = shaded_at(1, -0.4);
  unknown.log_left.reset();
  ShadingResult scattered = shaded_at(2, -0.5);
  scattered.scatter_seen = false;
  CHECK_FALSE(line_up_shading(t, {unknown, scattered}));
}
