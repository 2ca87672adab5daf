// Knowing less about anything never makes an interval narrower.
#include <cmath>
#include <map>

#include "hailwright/metrology/distributions.hpp"
#include "support/catch.hpp"
#include "support/drawn_test.hpp"
#include "support/property.hpp"
#include "support/test_builder.hpp"

namespace hailwright::testing {

namespace {

void must_not_narrow(const PowerResult& wider, const PowerResult& before, const std::string& what) {
  const double tolerance = 1e-11 * before.estimate.expanded;
  must_be_close(wider.estimate.lambda, before.estimate.lambda, 1e-12, what + ": lambda");
  must_not_fall(wider.estimate.expanded, before.estimate.expanded, tolerance, what);
}

/// Whether the scatter alone, by the guard of M2, makes the interval.
bool guarded(const LossEstimate& e) {
  return e.expanded > (1.0 + 1e-12) * t_quantile(1.0 - e.alpha, e.degrees_of_freedom) * e.u_lambda;
}

/// Mean of ln q of each set-up, and of each stage over its set-ups.
struct Means {
  std::map<std::size_t, double> setup;
  double before = 0.0, after = 0.0;
};

Means means_of(const PowerModel& model) {
  Means means;
  const auto take = [&](const std::vector<SetupValue>& setups) {
    double sum = 0.0;
    for (const SetupValue& s : setups) {
      means.setup[s.setup] = s.q;
      sum += s.q;
    }
    return sum / static_cast<double>(setups.size());
  };
  means.before = take(model.from);
  means.after = take(model.to);
  return means;
}

/// Moves each set-up k times as far from the mean of its stage, which stays.
void spread_setups(Test& test, double k) {
  const Means means = means_of(*judged_briefly(test).model);
  for (Reading& r : test.record.readings) {
    if (r.role != Role::struck) continue;
    const bool before = test.record.setups[r.setup].stage.kind == StageKind::before;
    multiply(
        r, std::exp((k - 1.0) * (means.setup.at(r.setup) - (before ? means.before : means.after))));
  }
}

/// Moves each reading of a set-up k times as far from its mean, which stays. Without a control.
void spread_readings(Test& test, std::size_t setup, double k) {
  const Means means = means_of(*judged_briefly(test).model);
  for (Reading& r : test.record.readings) {
    if (r.setup != setup) continue;
    NormalisedReading one{r.power, r.irradiance, r.temperature,
                          test.record.panel.power_coefficient_stated->value,
                          test.protocol.measure.cell_above_back->value};
    const double q = std::log(normalised_power(one).si());
    multiply(r, std::exp((k - 1.0) * (q - means.setup.at(setup))));
  }
}

}  // namespace

// With unlimited degrees of freedom, as nearly everything that is stated has: the guard of M2 keeps
// the interval of few repeats from narrowing.
TEST_CASE("Property: no interval narrows when a stated error grows") {
  const std::vector<Growing> errors = stated_errors();
  holds(
      "each error by itself, from any sizes of all others",
      [&](Draw& draw) {
        const Test test = drawn_test(draw, drawn_kind(draw));
        const PowerResult result = judged_briefly(test);
        const double k = draw.magnitude("times", 1.0, 100.0);
        for (const Growing& error : errors) {
          Test worse = test;
          error.grow(worse, k);
          must_not_narrow(judged_briefly(worse), result, error.name);
        }
      },
      40);
}

// A part of the errors in watts weighs less on larger powers: without one the sizes are exact.
TEST_CASE("Property: no interval narrows when the set-ups scatter more") {
  holds("every set-up k times as far from its stage's mean", [](Draw& draw) {
    DrawnKind kind;
    if (draw.coin("with a control")) kind.compare = Comparison::control_panel;
    kind.proportional = true;
    Test test = drawn_test(draw, kind);
    const PowerResult result = judged_briefly(test);
    // Day means with unequal set-ups a day are no plain means of the set-ups.
    if (result.model->unit_is_day) return;
    spread_setups(test, draw.magnitude("times", 1.0, 100.0));
    must_not_narrow(judged_briefly(test), result, "scatter of the set-ups");
  });
}

TEST_CASE("Property: no interval narrows when the unstruck units differ more") {
  holds("the units' powers k times as far apart, the struck one in their middle", [](Draw& draw) {
    const int units = draw.whole("unstruck units", 3, 8);
    const double spread = draw.magnitude("spread", 1e-4, 0.02);
    const double k = draw.magnitude("times", 1.0, 10.0);
    const auto judged_with = [&](double sd) {
      return judged_briefly(TestBuilder().siblings(units, sd).build());
    };
    must_not_narrow(judged_with(k * spread), judged_with(spread), "spread of the units");
  });
}

// Where parts with few degrees of freedom are combined after Welch and Satterthwaite, a part that
// grows can add to them more than it adds to u: of two equal parts of one degree of freedom each,
// U = 6.1 u_1, of the first alone 12.7 u_1. So u grows without exception; U grows wherever the
// effective degrees of freedom were 6 or more and not the guard of M2 made it. (d ln U / d ln u^2
// is at least 1/2 less twice the elasticity of t, which is below 1/4 from 5.5 degrees of freedom on
// at 97.5 %; and where the degrees of freedom fall, t grows as well.)
TEST_CASE("Property: u grows with any error and so does U but for few degrees of freedom") {
  std::vector<Growing> errors = stated_errors();
  for (const std::size_t setup : {0U, 1U}) {
    errors.push_back({"readings of set-up " + std::to_string(setup + 1),
                      [setup](Test& t, double k) { spread_readings(t, setup, k); }});
  }
  int enough = 0;
  holds(
      "each error by itself, from any sizes of all others",
      [&](Draw& draw) {
        DrawnKind kind;
        kind.stated = true;
        kind.proportional = true;
        kind.few_degrees_of_freedom = true;
        Test test = drawn_test(draw, kind);
        test.protocol.measure.readings_independent =
            draw.coin("independent") ? "the sun moved between them" : "";
        const PowerResult result = judged_briefly(test);
        const double k = draw.magnitude("times", 1.0, 100.0);
        for (const Growing& error : errors) {
          Test worse = test;
          error.grow(worse, k);
          const PowerResult wider = judged_briefly(worse);
          must_not_fall(wider.estimate.u_lambda, result.estimate.u_lambda, 1e-12,
                        error.name + ": u");
          if (result.estimate.degrees_of_freedom < 6.0 || guarded(result.estimate)) continue;
          must_not_narrow(wider, result, error.name);
          ++enough;
        }
      },
      40);
  CHECK(enough > 100);
}

}  // namespace hailwright::testing
