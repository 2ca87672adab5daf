#include "evaluate/power_inputs.hpp"

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

TEST_CASE("inputs: words of the steps of a set-up") {
  CHECK(word(Redone::mount) == "mount");
  CHECK(word(Redone::leads) == "leads");
}
