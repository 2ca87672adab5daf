#include "evaluate/loss_sampler.hpp"

#include <cmath>
#include <limits>

#include "evaluate/factor_products.hpp"
#include "hailwright/metrology/statistics.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr Ratio limit = percent(5);

NormalisedReading reading(double watts, double w_per_m2, double back_c) {
  return {Power::from_si(watts), Irradiance::from_si(w_per_m2),
          TemperaturePoint::from_celsius(back_c), TemperatureCoefficient::from_si(-0.0038),
          TemperatureDifference::from_si(3.0)};
}

BudgetInput input(const std::string& id, double u, Shape shape = Shape::normal,
                  double dof = infinite) {
  return {id, id, Scope::record, Evaluation::type_b, u, dof, shape};
}

/// Scatter of this size and these degrees of freedom, straight into lambda.
BudgetRow scatter(double u, double dof) {
  return {{"scatter", "scatter", Scope::setup, Evaluation::type_a, u, dof, Shape::normal}, 1.0};
}

/// One reading before and one after with nothing uncertain: the lower power comes later.
PowerModel bare_model(double loss = 0.05) {
  PowerModel model;
  model.terms.push_back({reading(80.0, 900.0, 46.0), -1.0, {}});
  model.terms.push_back({reading(80.0 * (1.0 - loss), 900.0, 46.0), 1.0, {}});
  return model;
}

void link(PowerModel& model, ErrorSlot slot, const BudgetInput& with, bool before = true,
          bool after = true) {
  model.inputs.push_back(with);
  if (before) model.terms[0].links.push_back({slot, model.inputs.size() - 1});
  if (after) model.terms[1].links.push_back({slot, model.inputs.size() - 1});
}

/// A model in which every slot has an input, one slot has two, and nothing cancels.
PowerModel full_model() {
  PowerModel model = bare_model();
  model.terms[1].reading = reading(71.0, 860.0, 41.5);
  link(model, ErrorSlot::meter_gain, input("meter/gain", 0.01, Shape::rectangular));
  link(model, ErrorSlot::meter_offset, input("meter/offset", 0.3, Shape::triangular));
  link(model, ErrorSlot::sun_gain, input("sun/gain", 0.03, Shape::arcsine));
  link(model, ErrorSlot::sun_offset, input("sun/offset", 3.0));
  link(model, ErrorSlot::temperature, input("probe", 1.2, Shape::rectangular));
  link(model, ErrorSlot::temperature, input("probe/after", 0.6, Shape::normal, 5.0), false);
  link(model, ErrorSlot::coefficient, input("coefficient", 0.0004, Shape::rectangular));
  link(model, ErrorSlot::cell_above_back, input("cell", 0.7));
  link(model, ErrorSlot::factor, input("sky", 0.004, Shape::rectangular), false);
  return model;
}

std::vector<double> draw(const PowerModel& model, std::size_t trials, std::uint64_t seed = 7) {
  std::vector<double> lambda(trials);
  RandomStream random(seed);
  loss_sampler(model)(random, lambda);
  return lambda;
}

std::vector<double> standard(RandomStream& random, const BudgetInput& of, std::size_t trials) {
  std::vector<double> values(trials);
  fill_standard(random, of.shape, of.degrees_of_freedom, values);
  return values;
}

/// The same draws put into the formula reading by reading.
std::vector<double> by_hand(const PowerModel& model, std::size_t trials, std::uint64_t seed = 7) {
  RandomStream random(seed);
  std::vector<std::vector<double>> errors;
  for (const BudgetInput& i : model.inputs)
    errors.push_back(standard(random, i, trials));
  std::vector<double> lambda(trials, 0.0);
  for (std::size_t t = 0; t < trials; ++t) {
    for (const PowerModel::Term& term : model.terms) {
      std::array<double, error_slots> error{};
      for (const PowerModel::Link& l : term.links) {
        error[static_cast<std::size_t>(l.slot)] +=
            model.inputs[l.input].standard_u * errors[l.input][t];
      }
      lambda[t] += term.weight * log_normalised_power(term.reading, error);
    }
  }
  return lambda;
}

void check_equal(const std::vector<double>& a, const std::vector<double>& b) {
  REQUIRE(a.size() == b.size());
  double off = 0.0;
  for (std::size_t t = 0; t < a.size(); ++t)
    off = std::max(off, std::abs(a[t] - b[t]));
  CHECK(off < 1e-13);
}

LossEstimate first_order(const PowerModel& model, double alpha = 0.025) {
  const std::vector<BudgetRow> rows = model.budget();
  return estimate_loss(model.lambda(), combine(rows), combine(rows, Evaluation::type_a), alpha);
}

MonteCarloCheck checked(const PowerModel& model, const CheckPlan& plan = {.trials = 200'000}) {
  return check_by_trials(model, first_order(model), limit, plan);
}

}  // namespace

TEST_CASE("sampler: without errors every trial is the estimate") {
  const PowerModel model = bare_model();
  for (const double lambda : draw(model, 30))
    CHECK_THAT(lambda, WithinAbs(model.lambda(), 1e-14));
}

TEST_CASE("sampler: a trial is the formula of the estimate with drawn errors") {
  const PowerModel model = full_model();
  check_equal(draw(model, 400), by_hand(model, 400));
}

TEST_CASE("sampler: many readings, in groups and of unequal weights") {
  PowerModel model = full_model();
  const PowerModel::Term before = model.terms[0];
  const PowerModel::Term after = model.terms[1];
  model.terms.clear();
  for (int i = 0; i < 2 * static_cast<int>(most_in_product); ++i) {
    model.terms.push_back(before);
    model.terms.back().weight = -0.5 / static_cast<double>(most_in_product);
    model.terms.back().reading.power = Power::from_si(80.0 + 0.1 * i);
  }
  for (int i = 0; i < 7; ++i) {
    model.terms.push_back(after);
    model.terms.back().weight = 1.0 / 7.0;
    model.terms.back().reading.back = TemperaturePoint::from_celsius(41.0 + 0.1 * i);
  }
  check_equal(draw(model, 100), by_hand(model, 100));
}

TEST_CASE("sampler: a thousand readings of a large plant leave no range") {
  PowerModel model = bare_model(0.5);
  const std::vector<PowerModel::Term> pair = model.terms;
  model.terms.clear();
  for (int i = 0; i < 1000; ++i) {
    for (PowerModel::Term term : pair) {
      term.weight /= 1000.0;
      term.reading.power = 1e4 * term.reading.power;
      model.terms.push_back(term);
    }
  }
  for (const double lambda : draw(model, 3))
    CHECK_THAT(lambda, WithinAbs(std::log(0.5), 1e-12));
}

TEST_CASE("sampler: what all readings share cancels in each trial") {
  PowerModel model = bare_model();
  link(model, ErrorSlot::meter_gain, input("meter/gain", 0.05, Shape::rectangular));
  link(model, ErrorSlot::sun_gain, input("sun/gain", 0.05));
  link(model, ErrorSlot::factor, input("alignment", 0.01, Shape::rectangular));
  for (const double lambda : draw(model, 600))
    CHECK_THAT(lambda, WithinAbs(model.lambda(), 1e-13));
}

TEST_CASE("sampler: normal errors that only add are drawn as one") {
  PowerModel model = bare_model();
  link(model, ErrorSlot::factor, input("alignment/before", 0.003), true, false);
  link(model, ErrorSlot::factor, input("alignment/after", 0.004), false, true);
  model.scatter.push_back(scatter(0.012, infinite));
  RandomStream random(7);
  std::vector<double> expected = standard(random, input("sum", 1.0), 200);
  for (double& e : expected)
    e = model.lambda() + 0.013 * e;  // 3-4-12-13
  check_equal(draw(model, 200), expected);
}

// JCGM 101:2008, 6.4.9.2: the mean plus s/sqrt(n) times t; M7: pooled scatter is one such draw.
TEST_CASE("sampler: observed scatter is its size times t") {
  PowerModel model = bare_model();
  model.scatter.push_back(scatter(0.01, 3.0));
  RandomStream random(7);
  std::vector<double> expected = standard(random, model.scatter[0].input, 200);
  for (double& e : expected)
    e = model.lambda() + 0.01 * e;
  check_equal(draw(model, 200), expected);
}

TEST_CASE("sampler: bounded errors stay in their bounds") {
  PowerModel model = bare_model();
  link(model, ErrorSlot::factor, input("sky", 0.01, Shape::rectangular), false);
  double largest = 0.0;
  for (const double lambda : draw(model, 20'000))
    largest = std::max(largest, std::abs(lambda - model.lambda()));
  CHECK(largest <= 0.01 * std::sqrt(3.0) + 1e-13);
  CHECK(largest > 0.0172);
}

TEST_CASE("sampler: trials in which the power would not be positive stay numbers") {
  PowerModel model = bare_model();
  link(model, ErrorSlot::meter_gain, input("meter/gain", 1.0, Shape::normal, 1.0), false);
  link(model, ErrorSlot::sun_gain, input("sun/gain", 1e9, Shape::normal, 1.0));
  link(model, ErrorSlot::coefficient, input("coefficient", 1e150));
  int beyond = 0;
  for (const double lambda : draw(model, 5000)) {
    CHECK(std::isfinite(lambda));
    if (lambda < -10.0) ++beyond;
  }
  CHECK(beyond > 100);
}

TEST_CASE("check by trials: normal errors agree to two digits") {
  PowerModel model = bare_model(0.10);
  link(model, ErrorSlot::factor, input("sky", 0.01), false);
  const MonteCarloCheck c = checked(model, {.trials = 1'000'000, .shortest = true});
  const LossEstimate e = first_order(model);
  CHECK(c.trials == 1'000'000);
  CHECK(c.agreed_digits == 2);
  CHECK_THAT(c.low.si(), WithinAbs(e.low().si(), 1e-4));
  CHECK_THAT(c.high.si(), WithinAbs(e.high().si(), 1e-4));
  CHECK_THAT(c.median.si(), WithinAbs(0.10, 5e-5));
  REQUIRE(c.mean);
  REQUIRE(c.standard_u);
  // Mean and standard deviation of 1 - e^lambda for a normal lambda (lognormal distribution).
  const double s2 = 0.01 * 0.01;
  CHECK_THAT(c.mean->si(), WithinAbs(1.0 - 0.9 * std::exp(s2 / 2.0), 5e-5));
  CHECK_THAT(c.standard_u->si(),
             WithinAbs(0.9 * std::exp(s2 / 2.0) * std::sqrt(std::expm1(s2)), 3e-5));
  REQUIRE(c.shortest);
  // The lognormal leans to one side: its shortest interval lies where the density is higher.
  CHECK((c.shortest->second - c.shortest->first).si() <= (c.high - c.low).si() + 1e-6);
  CHECK(c.answers.real == Answer::yes);
  CHECK(c.answers.beyond == Answer::yes);
  CHECK(c.above_zero == 1.0);
  CHECK_THAT(c.above_limit, WithinAbs(e.probability_above(limit), 1e-6));
  CHECK_FALSE(c.disagrees);
  CHECK_FALSE(c.capped);
}

TEST_CASE("check by trials: where nothing is uncertain the methods agree") {
  PowerModel model = bare_model(0.03);
  link(model, ErrorSlot::meter_gain, input("meter/gain", 0.01, Shape::rectangular));
  const MonteCarloCheck c = checked(model, {.trials = 20'000});
  CHECK(c.agreed_digits == 2);
  CHECK_FALSE(c.disagrees);
  CHECK_THAT(c.low.si(), WithinAbs(0.03, 1e-9));
  CHECK_THAT(c.high.si(), WithinAbs(0.03, 1e-9));
}

// One rectangular error of half-width a: the trials end at 0.95 a, the first-order interval at
// 1.96 a / sqrt 3 = 1.13 a. A loss between the two is real by the one and not by the other.
TEST_CASE("check by trials: a case where the two methods disagree") {
  PowerModel model = bare_model(0.01);
  link(model, ErrorSlot::factor, input("sky", 0.0095 / std::sqrt(3.0), Shape::rectangular), false);
  const MonteCarloCheck c = checked(model);
  CHECK(decide_loss(first_order(model), limit).real == Answer::undecided);
  CHECK(c.answers.real == Answer::yes);
  CHECK(c.disagrees);
  CHECK(c.agreed_digits == 0);
  CHECK_THAT(c.low.si(), WithinAbs(-std::expm1(model.lambda() + 0.95 * 0.0095), 1e-4));
}

TEST_CASE("check by trials: within and gained are compared too") {
  PowerModel within = bare_model(0.0405);
  link(within, ErrorSlot::factor, input("sky", 0.0095 / std::sqrt(3.0), Shape::rectangular), false);
  CHECK(decide_loss(first_order(within), limit).beyond == Answer::undecided);
  CHECK(checked(within).answers.beyond == Answer::no);
  CHECK(checked(within).disagrees);
  PowerModel gained = bare_model(-0.01);
  link(gained, ErrorSlot::factor, input("sky", 0.0095 / std::sqrt(3.0), Shape::rectangular), false);
  CHECK_FALSE(decide_loss(first_order(gained), limit).gained);
  CHECK(checked(gained).answers.gained);
  CHECK(checked(gained).disagrees);
}

// M7: with 2 degrees of freedom or fewer, t has no standard deviation (with 1 no mean either).
TEST_CASE("check by trials: two degrees of freedom give ends and no u") {
  for (const double nu : {1.0, 2.0}) {
    PowerModel model = bare_model(0.05);
    model.scatter.push_back(scatter(0.004, nu));
    const MonteCarloCheck c = checked(model);
    CHECK_FALSE(c.mean);
    CHECK_FALSE(c.standard_u);
    // The first-order interval is exact for scatter alone.
    CHECK_THAT(c.low.si(), WithinAbs(first_order(model).low().si(), nu == 1.0 ? 3e-3 : 4e-4));
    CHECK_THAT(c.median.si(), WithinAbs(0.05, 1e-4));
  }
  PowerModel three = bare_model(0.05);
  three.scatter.push_back(scatter(0.004, 3.0));
  CHECK(checked(three).standard_u);
  // A heavy tail that cancels takes no u away.
  link(three, ErrorSlot::meter_gain, input("meter/gain", 0.002, Shape::normal, 2.0));
  CHECK(checked(three).standard_u);
}

// Scatter with few degrees of freedom beside a normal error of equal size: trials give a wider
// interval than Welch and Satterthwaite with the guard of M2, since 97.5 % of 1 t(nu) + N(0, 1)
// lies below these values (numerical convolution in R 4.2.2: dt, pnorm, integrate, uniroot;
// computed).
TEST_CASE("check by trials: few degrees of freedom widen the interval more than first order") {
  struct Row {
    double nu, quantile, first_order;
  };
  for (const Row& row : {Row{2.0, 4.633, 4.303}, Row{4.0, 3.361, 2.998}, Row{8.0, 3.010, 2.881}}) {
    CAPTURE(row.nu);
    constexpr double u = 0.002;
    PowerModel model = bare_model(0.05);
    model.scatter.push_back(scatter(u, row.nu));
    link(model, ErrorSlot::factor, input("sky", u), false);
    const LossEstimate e = first_order(model);
    CHECK_THAT(e.expanded / u, WithinAbs(row.first_order, 5e-4));
    const MonteCarloCheck c = check_by_trials(model, e, limit, {.trials = 1'000'000});
    // Four standard errors of an end of 10^6 trials, with the density there.
    const double tolerance = row.nu == 2.0 ? 0.06 : 0.03;
    CHECK_THAT((e.lambda - std::log1p(-c.high.si())) / u, WithinAbs(row.quantile, tolerance));
    CHECK_THAT((std::log1p(-c.low.si()) - e.lambda) / u, WithinAbs(row.quantile, tolerance));
  }
}

TEST_CASE("check by trials: the same bits for any number of threads") {
  PowerModel model = full_model();
  model.scatter.push_back(scatter(0.003, 6.0));
  const auto with = [&](int threads) {
    return checked(model, {.seed = 11, .trials = 100'000, .shortest = true, .threads = threads});
  };
  const MonteCarloCheck one = with(1);
  for (const int threads : {2, 7}) {
    const MonteCarloCheck c = with(threads);
    CHECK(c.low == one.low);
    CHECK(c.high == one.high);
    CHECK(c.median == one.median);
    CHECK(c.mean == one.mean);
    CHECK(c.standard_u == one.standard_u);
    CHECK(c.shortest == one.shortest);
    CHECK(c.above_limit == one.above_limit);
  }
  CHECK(with(1).seed == 11);
  CHECK_FALSE(checked(model, {.seed = 12, .trials = 100'000}).low == one.low);
}

TEST_CASE("check by trials: until it is stable, or the most trials are made") {
  PowerModel model = bare_model(0.05);
  link(model, ErrorSlot::factor, input("sky", 0.009), false);
  const MonteCarloCheck stable = checked(model, {.trials = 3'000'000, .adaptive = true});
  CHECK(stable.adaptive);
  CHECK_FALSE(stable.capped);
  CHECK(stable.trials < 3'000'000);
  const MonteCarloCheck cut = checked(model, {.trials = 40'000, .adaptive = true});
  CHECK(cut.capped);
  CHECK(cut.trials == 40'000);
}

TEST_CASE("check by trials: the whole power as limit, and another risk") {
  PowerModel model = bare_model(0.05);
  link(model, ErrorSlot::factor, input("sky", 0.01), false);
  const LossEstimate e = first_order(model, 0.05);
  const MonteCarloCheck c = check_by_trials(model, e, percent(100), {.trials = 200'000});
  CHECK(c.above_limit == 0.0);
  CHECK_THAT(c.low.si(), WithinAbs(e.low().si(), 2e-4));
  CHECK_THAT(c.high.si(), WithinAbs(e.high().si(), 2e-4));
}
