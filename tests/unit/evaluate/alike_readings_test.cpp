#include "evaluate/alike_readings.hpp"

#include <cmath>
#include <random>

#include "support/catch.hpp"

using namespace hailwright;
using Catch::Matchers::WithinAbs;

namespace {

constexpr std::array<double, error_slots> sizes{0.01, 0.3, 0.03, 3.0, 1.5, 0.0008, 1.7, 0.004};

/// Two set-ups of so many readings, one before and one after, every slot with an input of its own
/// in each, and weights that drift as those of panels read in turn do.
PowerModel model_of(int readings, unsigned seed) {
  std::mt19937 random(seed);
  std::normal_distribution<double> normal;
  PowerModel model;
  for (const double side : {-1.0, 1.0}) {
    std::vector<PowerModel::Link> links;
    for (std::size_t slot = 0; slot < error_slots; ++slot) {
      links.push_back({static_cast<ErrorSlot>(slot), model.inputs.size()});
      model.inputs.push_back({std::to_string(model.inputs.size()), "", Scope::setup,
                              Evaluation::type_b, sizes.at(slot)});
    }
    double sum = 0.0;
    const std::size_t first = model.terms.size();
    for (int i = 0; i < readings; ++i) {
      const double sun = 850.0 + 60.0 * normal(random);
      const double weight = 1.0 + 0.8 * (2.0 * i / readings - 1.0);
      sum += weight;
      model.terms.push_back(
          {{Power::from_si(0.09 * sun * (1.0 + 0.01 * normal(random))), Irradiance::from_si(sun),
            TemperaturePoint::from_celsius(46.0 + 4.0 * normal(random)),
            TemperatureCoefficient::from_si(-0.0038), TemperatureDifference::from_si(3.0)},
           side * weight,
           links});
    }
    for (std::size_t i = first; i < model.terms.size(); ++i)
      model.terms[i].weight /= sum;
  }
  return model;
}

/// lambda with these errors of the inputs, reading by reading.
double lambda_with(const std::vector<PowerModel::Term>& terms, const std::vector<double>& errors) {
  double sum = 0.0;
  for (const PowerModel::Term& term : terms) {
    std::array<double, error_slots> at{};
    for (const PowerModel::Link& link : term.links)
      at.at(static_cast<std::size_t>(link.slot)) += errors[link.input];
    sum += term.weight * log_normalised_power(term.reading, at);
  }
  return sum;
}

double merged_lambda(const MergedReadings& merged, const std::vector<double>& errors) {
  double sum = merged.constant + lambda_with(merged.terms, errors);
  for (std::size_t i = 0; i < errors.size(); ++i)
    sum += merged.in_lambda[i] * errors[i];
  return sum;
}

}  // namespace

TEST_CASE("alike_readings: few readings stay as they are") {
  const PowerModel model = model_of(static_cast<int>(most_kept_single), 1);
  const MergedReadings merged = merge_alike(model);
  REQUIRE(merged.terms.size() == model.terms.size());
  for (std::size_t i = 0; i < model.terms.size(); ++i)
    CHECK(merged.terms[i].reading.power == model.terms[i].reading.power);
  CHECK(merged.constant == 0.0);
}

TEST_CASE("alike_readings: many become few, and lambda follows the errors as it did") {
  for (unsigned seed = 1; seed <= 5; ++seed) {
    const PowerModel model = model_of(400, seed);
    const MergedReadings merged = merge_alike(model);
    CHECK(merged.terms.size() < model.terms.size() / 4);
    std::mt19937 random(seed);
    std::normal_distribution<double> normal;
    double spread = 0.0;
    double worst = 0.0;
    for (int trial = 0; trial < 500; ++trial) {
      std::vector<double> errors;
      for (const BudgetInput& input : model.inputs)
        errors.push_back(normal(random) * input.standard_u);
      const double whole = lambda_with(model.terms, errors);
      worst = std::max(worst, std::abs(merged_lambda(merged, errors) - whole));
      spread = std::max(spread, std::abs(whole - model.lambda()));
    }
    INFO("seed " << seed << ": worst difference " << worst << " where errors move lambda by "
                 << spread);
    CHECK(worst < 1e-4 * spread);
  }
}

TEST_CASE("alike_readings: without errors, and to first order, nothing changes") {
  const PowerModel model = model_of(300, 7);
  const MergedReadings merged = merge_alike(model);
  std::vector<double> errors(model.inputs.size(), 0.0);
  CHECK_THAT(merged_lambda(merged, errors), WithinAbs(model.lambda(), 1e-13));
  for (std::size_t i = 0; i < errors.size(); ++i) {
    // Central differences: what is of the second order cancels.
    const double h = 1e-3 * model.inputs[i].standard_u;
    const auto slope = [&](const auto& lambda) {
      errors[i] = h;
      const double up = lambda();
      errors[i] = -h;
      const double down = lambda();
      errors[i] = 0.0;
      return (up - down) / (2.0 * h) * model.inputs[i].standard_u;
    };
    const double whole = slope([&] { return lambda_with(model.terms, errors); });
    const double few = slope([&] { return merged_lambda(merged, errors); });
    CHECK_THAT(few, WithinAbs(whole, 1e-9));
  }
}

TEST_CASE("alike_readings: readings of other errors or the other side are never merged") {
  PowerModel model = model_of(100, 3);
  const MergedReadings merged = merge_alike(model);
  double before = 0.0;
  double after = 0.0;
  for (const PowerModel::Term& term : merged.terms)
    (term.links.front().input == 0 ? before : after) += term.weight;
  CHECK_THAT(before, WithinAbs(-1.0, 1e-12));
  CHECK_THAT(after, WithinAbs(1.0, 1e-12));
}

TEST_CASE("alike_readings: one reading of other errors or figures stays beside many") {
  const auto with_one = [](void (*bend)(PowerModel::Term&)) {
    PowerModel model = model_of(100, 5);
    PowerModel::Term other = model.terms.back();
    bend(other);
    other.weight = 0.125;
    model.terms.push_back(other);
    const MergedReadings merged = merge_alike(model);
    std::vector<PowerModel::Term> kept;
    for (const PowerModel::Term& term : merged.terms) {
      if (term.weight == 0.125) kept.push_back(term);
    }
    REQUIRE(kept.size() == 1);
    CHECK(kept[0].reading.power == other.reading.power);
    CHECK_THAT(merged.constant + lambda_with(merged.terms, std::vector<double>(16, 0.0)),
               WithinAbs(model.lambda(), 1e-12));
  };
  with_one([](PowerModel::Term& t) { t.links.front().input = 3; });
  with_one([](PowerModel::Term& t) { t.links.front().slot = ErrorSlot::factor; });
  with_one([](PowerModel::Term& t) { t.links.pop_back(); });
  with_one([](PowerModel::Term& t) { t.reading.gamma = TemperatureCoefficient::from_si(-0.0030); });
  with_one(
      [](PowerModel::Term& t) { t.reading.cell_above_back = TemperatureDifference::from_si(1.0); });
}
