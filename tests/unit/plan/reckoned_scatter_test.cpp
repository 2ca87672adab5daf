#include "plan/reckoned_scatter.hpp"

#include <cmath>
#include <limits>

#include "hailwright/evaluate/power.hpp"
#include "hailwright/metrology/loss_decision.hpp"
#include "hailwright/metrology/random.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

ImaginedMeasurement of(const Test& test, int setups) {
  ImaginedMeasurement m;
  m.protocol = test.protocol;
  m.panel = test.record.panel;
  m.before = setups;
  m.after = setups;
  return m;
}

Reckoned reckoned(const ImaginedMeasurement& m, double scatter) {
  Assumptions unlisted;
  return reckon(m, scatter, unlisted);
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
// Scatter alone follows the non-central t exactly: three standard errors of the draw, 0.0045. With
// a type B part its effective degrees of freedom are an approximation: one point.
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
      const double close = type_b == 0.0 ? 0.0045 : 0.01;
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
  uneven.after = 6;
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
