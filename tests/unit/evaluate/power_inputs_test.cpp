#include "evaluate/power_inputs.hpp"

#include <algorithm>
#include <cmath>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

TEST_CASE("inputs: the step of a display is the finest one typed") {
  CHECK(typed_step({77, 80, 81}) == 1.0);
  CHECK(typed_step({77.1, 80, 81}) == 0.1);
  CHECK(typed_step({77.1, 80.05}) == 0.01);
  CHECK(typed_step({0.0755}) == 0.001);
}

TEST_CASE("inputs: one error is one input however many readings it touches") {
  const Test t = TestBuilder().build();
  Assumptions a;
  const PowerQuestion q{
      {StageKind::before, 0}, {StageKind::after, 0}, PowerQuestion::Of::both, false};
  const auto built = build_power_model(t, q, ScatterSource::observed, a);
  REQUIRE(built.model.has_value());
  int gains = 0;
  for (const BudgetInput& i : built.model->inputs)
    gains += i.id == "sun/gain" ? 1 : 0;
  CHECK(gains == 1);
  double weights = 0.0;
  for (const auto& term : built.model->terms)
    weights += term.weight;
  CHECK_THAT(weights, WithinAbs(0.0, 1e-12));
}

// Readings in turn enter with the weights of the line that was taken out: a gain still cancels.
TEST_CASE("inputs: weights of panels read in turn") {
  TestBuilder b;
  b.setup_scatter(0.0).timed();
  Test t = b.build();
  int row = 0;
  for (Reading& r : t.record.readings)
    r.minute = 300 + 30 * static_cast<int>(r.setup) + row++ % 6;
  Assumptions a;
  const PowerQuestion q{{StageKind::before, 0}, {StageKind::after, 0}, PowerQuestion::Of::both};
  const auto built = build_power_model(t, q, ScatterSource::observed, a);
  REQUIRE(built.model.has_value());
  double weights = 0.0;
  double largest = 0.0;
  for (const auto& term : built.model->terms) {
    weights += term.weight;
    largest = std::max(largest, term.weight);
  }
  CHECK_THAT(weights, WithinAbs(0.0, 1e-12));
  CHECK(largest > 1.05 / 12.0);  // not the plain mean of four set-ups of three rounds
  double from_terms = 0.0;
  for (const SetupValue& s : built.model->to)
    from_terms += s.q / 4.0;
  for (const SetupValue& s : built.model->from)
    from_terms -= s.q / 4.0;
  CHECK_THAT(built.model->lambda(), WithinAbs(from_terms, 1e-12));
  for (const BudgetRow& budget : built.model->budget()) {
    if (budget.input.id == "meter/gain") CHECK(std::abs(budget.contribution()) < 1e-15);
  }
}

TEST_CASE("inputs: an input without uncertainty is none") {
  PowerModel model;
  InputLinks links(model);
  links.add(ErrorSlot::factor, type_b("a", "a", Scope::day, 0.0, Shape::normal));
  links.add(ErrorSlot::factor, type_b("b", "b", Scope::day, 0.1, Shape::triangular));
  links.add(ErrorSlot::meter_gain, type_b("b", "b", Scope::day, 0.1, Shape::triangular));
  CHECK(model.inputs.size() == 1);
  CHECK(model.inputs[0].shape == Shape::triangular);
  CHECK(links.take().size() == 2);
  CHECK(links.take().empty());
}

TEST_CASE("inputs: words of the steps of a set-up") {
  CHECK(word(Redone::mount) == "mount");
  CHECK(word(Redone::leads) == "leads");
}

TEST_CASE("inputs: a probe left on is one error a stage, stated scatter or not") {
  TestBuilder b;
  b.same_panel().setups(1, 1);
  b.test.protocol.measure.setup_scatter = {{{}, "remounting", std::nullopt, percent(0.2)}};
  const auto has_input = [&](const std::string& id) {
    Assumptions a;
    const PowerQuestion q{{StageKind::before, 0}, {StageKind::after, 0}, PowerQuestion::Of::struck};
    const auto built = build_power_model(b.build(), q, ScatterSource::stated, a);
    REQUIRE(built.model.has_value());
    return std::any_of(built.model->inputs.begin(), built.model->inputs.end(),
                       [&](const BudgetInput& i) { return i.id == id; });
  };
  CHECK(has_input("thermometer/each/before 1/struck"));
  b.test.protocol.measure.redone = std::vector<Redone>{Redone::mount, Redone::aim, Redone::leads};
  CHECK(has_input("thermometer/each/before/struck"));
  CHECK_FALSE(has_input("thermometer/each/before 1/struck"));
}

TEST_CASE("inputs: a reading that was not taken tells no step") {
  Test t = TestBuilder().build();
  for (Reading& r : t.record.readings) {
    r.power = Power::from_si(80.0);
    r.irradiance = Irradiance::from_si(850.0);
  }
  t.record.readings.back().power = Power::from_si(80.25);
  t.record.readings.back().irradiance = Irradiance::from_si(850.5);
  CHECK(typed_power_step(t.record).si() == 0.01);
  CHECK(typed_sun_step(t.record).si() == 0.1);
  t.record.readings.back().measured = false;
  CHECK(typed_power_step(t.record).si() == 1.0);
  CHECK(typed_sun_step(t.record).si() == 1.0);
}
