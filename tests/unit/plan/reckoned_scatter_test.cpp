#include "plan/reckoned_scatter.hpp"

#include <cmath>
#include <limits>

#include "hailwright/evaluate/power.hpp"
#include "hailwright/metrology/loss_decision.hpp"
#include "hailwright/metrology/random.hpp"
#include "hailwright/metrology/statistics.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

ImaginedMeasurement of(const Test& test, int setups) {
  ImaginedMeasurement m;
  m.protocol = test.protocol;
  m.panel = test.record.panel;
  m.units = {setups, setups, 0};
  return m;
}

Reckoned reckoned(const ImaginedMeasurement& m, double scatter) {
  Assumptions unlisted;
  return reckon(m, {scatter, 0.0}, unlisted);
}

double u_of(const Reckoned& r, const std::string& prefix) {
  double variance = 0.0;
  for (const BudgetRow& row : r.rows) {
    if (row.input.id.starts_with(prefix)) variance += row.contribution() * row.contribution();
  }
  return std::sqrt(variance);
}

SetupComponent component(const char* name, double percent_u) {
  SetupComponent c;
  c.name = name;
  c.standard_u = percent(percent_u);
  return c;
}

std::vector<BudgetRow> two_rows(double scatter, int setups, double type_b) {
  return {{{"b", "b", Scope::stage, Evaluation::type_b, type_b}, 1.0},
          {{"scatter", "s", Scope::setup, Evaluation::type_a, scatter * std::sqrt(2.0 / setups),
            2.0 * setups - 2.0},
           1.0}};
}

}  // namespace

// MEASUREMENT M4: L_C and L_D of the worked designs A, B, C at alpha 0.025 and beta 0.1, as printed
// there; u and nu of facts design_A, design_B, design_C (computed, two implementations).
TEST_CASE("reckoned_scatter: the worked designs") {
  struct Row {
    double u, dof, real_above, shown;
  };
  for (const Row& row : {Row{0.008624761162130321, 5002.8601437992265, 0.016766, 0.027575},
                         Row{0.003714329714486761, 483.6092432397557, 0.0072717, 0.011992},
                         Row{0.024786705202819552, 3387599.452934778, 0.047420, 0.077203}}) {
    CAPTURE(row.u);
    const Combined all{row.u, row.dof};
    CHECK_THAT(estimate_loss(0.0, all, {0.0}, 0.025).real_above().si(),
               WithinAbs(row.real_above, 5e-7));
    const double shown = smallest_shown_loss(all, {0.0}, 0.025, 0.1).si();
    CHECK_THAT(shown, WithinAbs(row.shown, 5e-7));
    CHECK_THAT(chance_shown(all, {0.0}, 0.025, shown), WithinAbs(0.9, 1e-9));
  }
}

TEST_CASE("reckoned_scatter: the chance grows with the loss, from alpha to 1") {
  const Combined all{0.01, 8.0};
  const Combined observed{0.007, 4.0};
  CHECK_THAT(chance_shown(all, {0.0}, 0.025, 0.0), WithinAbs(0.025, 1e-9));
  double last = 0.0;
  for (double loss = 0.0; loss < 0.2; loss += 0.01) {
    CAPTURE(loss);
    const double chance = chance_shown(all, observed, 0.025, loss);
    CHECK(chance >= last);
    CHECK(chance <= 1.0);
    last = chance;
  }
  CHECK_THAT(last, WithinAbs(1.0, 1e-6));
  CHECK(chance_shown({1e-9, 4.0}, {1e-9, 4.0}, 0.025, 0.5) == 1.0);
  CHECK(chance_shown({0.0}, {0.0}, 0.025, 0.01) == 1.0);
}

// Drawn through estimate and decision as `judge` makes them, 40 000 tests a row from a fixed seed.
// Scatter alone follows the non-central t exactly: four standard errors of the draw,
// 4 sqrt(0.875 0.125 / 40 000) = 0.0066. With a type B part its effective degrees of freedom are an
// approximation, off by 0.009 at most in 400 000 draws of each row: one point and those errors.
TEST_CASE("reckoned_scatter: what is forecast happens so often") {
  RandomStream random(20260614);
  constexpr int draws = 40000;
  for (const double type_b : {0.0, 0.0057, 0.015}) {
    for (const int setups : {3, 4, 8}) {
      CAPTURE(type_b, setups);
      constexpr double scatter = 0.006;
      const auto rows = two_rows(scatter, setups, type_b);
      const Combined all = combine(rows);
      const Combined observed = combine(rows, Evaluation::type_a);
      const Ratio loss = smallest_shown_loss(all, observed, 0.025, 0.1);
      int real = 0;
      int within = 0;
      for (int i = 0; i < draws; ++i) {
        const int dof = 2 * setups - 2;
        const double off = observed.standard_u * random.normal() + type_b * random.normal();
        const double seen_sd = scatter * std::sqrt(random.chi_squared(dof) / dof);
        const auto seen = two_rows(seen_sd, setups, type_b);
        const Combined a = combine(seen);
        const Combined o = combine(seen, Evaluation::type_a);
        const double lambda = std::log1p(-loss.si());
        real += decide_loss(estimate_loss(lambda + off, a, o, 0.025), loss).real == Answer::yes;
        within += decide_loss(estimate_loss(off, a, o, 0.025), loss).beyond == Answer::no;
      }
      const double close = type_b == 0.0 ? 0.007 : 0.017;
      CHECK_THAT(static_cast<double>(real) / draws, WithinAbs(0.9, close));
      CHECK_THAT(static_cast<double>(within) / draws,
                 WithinAbs(chance_shown(all, observed, 0.025, loss.si()) - 0.025, close));
    }
  }
}

// The choice is `judge`'s: with so many set-ups it decides exactly when the forecast says so.
TEST_CASE("reckoned_scatter: decides when judge decides") {
  for (const int setups : {1, 2, 3, 4}) {
    for (const bool stated : {false, true}) {
      CAPTURE(setups, stated);
      TestBuilder b;
      b.setups(setups, setups);
      if (stated) b.test.protocol.measure.setup_scatter = {component("all of it", 0.4)};
      const Test test = b.build();
      Assumptions unlisted;
      const PowerResult judged = judge_power(test, {StageKind::after, 0}, unlisted);
      const Reckoned r = reckoned(of(test, setups), 0.003);
      CHECK(r.obstacle == judged.obstacle);
      CHECK((r.obstacle == PowerObstacle::none && r.decides) ==
            (judged.estimated() && judged.decides));
      if (judged.estimated()) CHECK(r.rests_on_stated == judged.rests_on_stated);
    }
  }
}

TEST_CASE("reckoned_scatter: the assumed scatter stands where the observed one would") {
  const Test test = TestBuilder().build();
  const Reckoned r = reckoned(of(test, 4), 0.006);
  CHECK(r.observed_dof == 6.0);
  CHECK_THAT(u_of(r, "scatter"), WithinRel(0.006 * std::sqrt(0.5), 1e-12));
  CHECK_THAT(r.observed.standard_u, WithinRel(0.006 * std::sqrt(0.5), 1e-12));
  ImaginedMeasurement uneven = of(test, 3);
  uneven.units.after = 6;
  CHECK_THAT(u_of(reckoned(uneven, 0.006), "scatter"),
             WithinRel(0.006 * std::sqrt(1.0 / 3 + 1.0 / 6), 1e-12));
  CHECK_THAT(endless(r).standard_u, WithinRel(std::hypot(u_of(r, "day"), u_of(r, "stage")), 1e-9));
}

// Three days a stage: each day's mean scatters by the sky and by its own set-ups, and the type B
// term of the day is gone (MEASUREMENT M1).
TEST_CASE("reckoned_scatter: repeated days show their own sky") {
  TestBuilder b;
  b.same_panel();
  b.test.protocol.measure.day = percent(0.8);
  ImaginedMeasurement m = of(b.build(), 4);
  m.days = 3;
  const Reckoned r = reckoned(m, 0.006);
  CHECK(r.observed_dof == 4.0);
  CHECK(u_of(r, "day") == 0.0);
  // Days of two, one and one set-up.
  const double stage_variance = (3 * 0.008 * 0.008 + 0.006 * 0.006 * 2.5) / 9;
  CHECK_THAT(u_of(r, "scatter"), WithinRel(std::sqrt(2 * stage_variance), 1e-12));
  m.days = 2;
  CHECK_FALSE(reckoned(m, 0.006).decides);
}

TEST_CASE("reckoned_scatter: stated components together") {
  TestBuilder b;
  CHECK_FALSE(stated_scatter(of(b.build(), 3)).sd);
  b.test.protocol.measure.setup_scatter = {component("mount", 0.2), component("aim", 0.3)};
  const StatedScatter lacking = stated_scatter(of(b.build(), 3));
  CHECK_FALSE(lacking.sd);
  CHECK(lacking.lacks == "leads");
  b.test.protocol.measure.setup_scatter.push_back(component("leads", 0.1));
  Stated<TemperatureDifference> probe;
  b.test.protocol.tools.thermometer.each_time = probe;  // put on without any error
  for (const int setups : {1, 3, 7}) {
    CAPTURE(setups);
    const StatedScatter whole = stated_scatter(of(b.build(), setups));
    REQUIRE(whole.sd);
    CHECK_THAT(*whole.sd,
               WithinRel(std::sqrt(0.002 * 0.002 + 0.003 * 0.003 + 0.001 * 0.001), 1e-9));
  }
}

namespace {

ImaginedMeasurement of_siblings(int siblings, int setups) {
  ImaginedMeasurement m;
  m.protocol = TestBuilder().build().protocol;
  m.protocol.measure.compare = Comparison::sibling_panel;
  m.units = {0, setups, siblings};
  return m;
}

}  // namespace

// MEASUREMENT M2: u^2 = s_m^2 (1 + 1/m), nu = m - 1, and s_m holds the set-ups of each unit.
TEST_CASE("reckoned_scatter: the assumed spread stands where the siblings' own would") {
  Assumptions unlisted;
  const Reckoned r = reckon(of_siblings(4, 3), {0.006, 0.01}, unlisted);
  CHECK(r.decides);
  CHECK(r.siblings == 4);
  CHECK(r.observed_dof == 3.0);
  const double unit = std::sqrt(0.01 * 0.01 + 0.006 * 0.006 / 3.0);
  CHECK_THAT(r.observed.standard_u, WithinRel(unit * std::sqrt(1.25), 1e-12));
  CHECK(r.observed.degrees_of_freedom == 3.0);
  CHECK(reckon(of_siblings(3, 1), {0.006, 0.01}, unlisted).decides);
  CHECK_FALSE(reckon(of_siblings(2, 3), {0.006, 0.01}, unlisted).decides);
  CHECK(reckon(of_siblings(1, 3), {0.006, 0.01}, unlisted).obstacle ==
        PowerObstacle::one_sibling_set);
  // Endless siblings tell their mean; the struck unit is one draw all the same.
  CHECK_THAT(endless(r).standard_u,
             WithinRel(std::hypot(unit, u_of(r, "day"), u_of(r, "meter")), 1e-9));
  CHECK(endless(r).degrees_of_freedom > 1e9);
}

// Fewer than three units with a maker's tolerance: that stands for the spread, the set-ups scatter
// about it, and nothing is decided.
TEST_CASE("reckoned_scatter: a tolerance in place of the spread") {
  Assumptions unlisted;
  for (const int siblings : {1, 2}) {
    CAPTURE(siblings);
    ImaginedMeasurement m = of_siblings(siblings, 3);
    m.protocol.measure.unit_tolerance = percent(3);
    const Reckoned r = reckon(m, {0.006, 0.01}, unlisted);
    REQUIRE(r.obstacle == PowerObstacle::none);
    CHECK_FALSE(r.decides);
    const double units = 1.0 + 1.0 / siblings;
    CHECK_THAT(u_of(r, "unit/"), WithinRel(0.03 / std::sqrt(3.0) * std::sqrt(units), 1e-9));
    CHECK_THAT(r.observed.standard_u, WithinRel(0.006 * std::sqrt(units / 3.0), 1e-12));
  }
}

// Drawn unit by unit: what the struck one gives beside the mean of the others. Four standard errors
// of the draw, 0.006.
TEST_CASE("reckoned_scatter: what is forecast of siblings happens so often") {
  RandomStream random(20260627);
  constexpr int draws = 40000;
  for (const int siblings : {3, 5}) {
    CAPTURE(siblings);
    ImaginedMeasurement m = of_siblings(siblings, 1);
    m.protocol.measure.day = percent(0.0);
    Assumptions unlisted;
    const Reckoned r = reckon(m, {0.0, 0.008}, unlisted);
    const double loss = smallest_shown_loss(r.all, r.observed, 0.025, 0.1).si();
    int real = 0;
    for (int i = 0; i < draws; ++i) {
      std::vector<double> q;
      for (int unit = 0; unit < siblings; ++unit)
        q.push_back(0.008 * random.normal());
      const double spread = *sample_sd(q) * std::sqrt(1.0 + 1.0 / siblings);
      const Combined seen{spread, siblings - 1.0};
      const double lambda = std::log1p(-loss) + 0.008 * random.normal() - mean(q);
      const LossEstimate e = estimate_loss(lambda, seen, seen, 0.025);
      real += decide_loss(e, percent(5)).real == Answer::yes;
    }
    CHECK_THAT(static_cast<double>(real) / draws, WithinAbs(0.9, 0.006));
  }
}

// Set-ups half an hour apart and two hours for the shots: the stages lie 210 min apart, and the
// squares of the times within them are 4500 min2 each. The variance of the step is, by any book on
// least squares, 1/4 + 1/4 + 210^2/9000 of that of one set-up: 5.4.
TEST_CASE("reckoned_scatter: a line in time costs scatter and a degree of freedom") {
  TestBuilder b;
  b.same_panel();
  ImaginedMeasurement m = of(b.build(), 4);
  const Reckoned plain = reckoned(m, 0.006);
  CHECK_THAT(plain.observed.standard_u, WithinRel(0.006 * std::sqrt(0.5), 1e-12));
  m.protocol.measure.fitted_trend = true;
  const Reckoned fitted = reckoned(m, 0.006);
  CHECK_THAT(fitted.observed.standard_u, WithinRel(0.006 * std::sqrt(5.4), 1e-9));
  CHECK(fitted.observed_dof == 5.0);
  CHECK(fitted.decides);
  m.units = {3, 4, 0};
  CHECK(reckoned(m, 0.006).obstacle == PowerObstacle::trend_needs_setups);
}

// MEASUREMENT M4, simple acceptance: drawn through the decision that judge makes.
TEST_CASE("reckoned_scatter: the limit answered by the estimate alone") {
  RandomStream random(20260628);
  constexpr int draws = 40000;
  constexpr double scatter = 0.006;
  constexpr int setups = 4;
  Reckoned r;
  r.rows = two_rows(scatter, setups, 0.0);
  r.all = combine(r.rows);
  r.observed = combine(r.rows, Evaluation::type_a);
  const ForecastQuestion question{0.025, 0.9, 0.01, 0.01, true};
  const Ratio limit = Ratio::from_si(question.limit);
  const double above = std::log1p(-called_above_limit(r, question).si());
  int within = 0;
  int beyond = 0;
  int wrong_at_limit = 0;
  for (int i = 0; i < draws; ++i) {
    const int dof = 2 * setups - 2;
    const double off = r.observed.standard_u * random.normal();
    const auto seen = two_rows(scatter * std::sqrt(random.chi_squared(dof) / dof), setups, 0.0);
    const auto answer = [&](double lambda) {
      return decide_simply(estimate_loss(lambda + off, combine(seen),
                                         combine(seen, Evaluation::type_a), question.alpha),
                           limit);
    };
    within += answer(0.0) == Answer::no;
    beyond += answer(above) == Answer::yes;
    wrong_at_limit += answer(std::log1p(-question.limit)) == Answer::no;
  }
  // Four standard errors of the draw: 0.006 at 0.9, 0.01 at one half.
  CHECK_THAT(static_cast<double>(within) / draws, WithinAbs(chance_within(r, question), 0.006));
  CHECK_THAT(static_cast<double>(beyond) / draws, WithinAbs(0.9, 0.006));
  CHECK_THAT(static_cast<double>(wrong_at_limit) / draws, WithinAbs(0.5, 0.01));
  // By the interval it takes a larger loss to be called above, and none is answered less often.
  ForecastQuestion guarded = question;
  guarded.simple = false;
  CHECK(called_above_limit(r, guarded) > called_above_limit(r, question));
  CHECK(chance_within(r, guarded) < chance_within(r, question));
}
