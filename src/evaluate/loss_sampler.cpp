#include "evaluate/loss_sampler.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <vector>

#include "evaluate/alike_readings.hpp"
#include "evaluate/factor_products.hpp"
#include "hailwright/metrology/portable_math.hpp"

namespace hailwright {

namespace {

/// Trials made at once: their draws stay near the processor. Divides a block.
constexpr std::size_t chunk_trials = 400;
static_assert(block_trials % chunk_trials == 0);

/// Draws of many trials, one after the other; it begins where wide loads are quickest.
struct alignas(64) Column {
  std::array<double, chunk_trials> draws{};
};
using ColumnId = std::size_t;
constexpr ColumnId zeros = 0;    ///< for a slot that nothing touches
constexpr ColumnId passing = 1;  ///< for draws that lambda alone needs

/// Errors of one size: the draws of a column times a number.
struct ScaledColumn {
  ColumnId column = zeros;
  double size = 0.0;
  friend bool operator==(const ScaledColumn&, const ScaledColumn&) = default;
};

/// What is drawn for each trial, with mean 0 and standard deviation 1.
struct Draw {
  Shape shape = Shape::normal;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
  ColumnId column = passing;
  double in_lambda = 0.0;  ///< what a draw of 1 adds to lambda itself
};

/// Errors that add up in one slot of some readings.
struct Sum {
  std::vector<ScaledColumn> parts;
  ColumnId column;
};

/// Readings that share all their errors, and the side of the ratio on which they stand.
struct Readings {
  std::array<ScaledColumn, error_slots> errors{};
  bool subtracted = false;
  std::vector<NormalisedReading> readings;
};

/// Readings of one weight, few enough to be multiplied before the logarithm is taken.
struct Product {
  double weight;
  std::vector<Readings> parts;
  std::size_t size = 0;
};

/// Everything of a model that a trial needs, in the order in which it needs it.
struct TrialPlan {
  std::vector<Draw> draws;
  std::vector<Sum> sums;
  std::vector<Product> products;
  std::size_t columns = 2;
  double constant = 0.0;  ///< of lambda, beside what the products give
};

/// Plans the trials of one model.
class TrialPlanner {
public:
  explicit TrialPlanner(const PowerModel& model) : model_(model), column_(model.inputs.size()) {}

  TrialPlan make() {
    const MergedReadings merged = merge_alike(model_);
    plan_.constant = merged.constant;
    in_lambda_ = merged.in_lambda;
    for (const PowerModel::Term& term : merged.terms)
      add_term(term);
    for (std::size_t i = 0; i < model_.inputs.size(); ++i)
      add_draw(model_.inputs[i], in_lambda_[i], column_[i]);
    for (const BudgetRow& row : model_.scatter)
      add_draw(row.input, row.sensitivity, std::nullopt);
    // Independent normal errors that only add to lambda make one normal error.
    if (normal_variance_ > 0.0) plan_.draws.push_back({.in_lambda = std::sqrt(normal_variance_)});
    return std::move(plan_);
  }

private:
  void add_term(const PowerModel::Term& term) {
    std::array<std::vector<ScaledColumn>, error_slots> parts;
    for (const PowerModel::Link& link : term.links) {
      if (link.slot == ErrorSlot::factor) {
        in_lambda_[link.input] += term.weight;
      } else {
        parts[static_cast<std::size_t>(link.slot)].push_back(errors_of(link.input));
      }
    }
    std::array<ScaledColumn, error_slots> errors;
    std::transform(parts.begin(), parts.end(), errors.begin(),
                   [this](const std::vector<ScaledColumn>& p) { return together(p); });
    Product& product = product_of(std::abs(term.weight));
    readings_of(product, errors, term.weight < 0.0).push_back(term.reading);
    ++product.size;
  }

  ScaledColumn errors_of(std::size_t input) {
    if (!column_[input]) column_[input] = plan_.columns++;
    return {*column_[input], model_.inputs[input].standard_u};
  }

  ScaledColumn together(const std::vector<ScaledColumn>& parts) {
    if (parts.empty()) return {};
    if (parts.size() == 1) return parts.front();
    for (const Sum& sum : plan_.sums) {
      if (sum.parts == parts) return {sum.column, 1.0};
    }
    plan_.sums.push_back({parts, plan_.columns++});
    return {plan_.sums.back().column, 1.0};
  }

  /// Weights that differ by rounding alone are the same.
  Product& product_of(double weight) {
    for (Product& p : plan_.products) {
      const bool same = std::abs(p.weight - weight) <= 1e-12 * weight;
      if (same && p.size < most_in_product) return p;
    }
    return plan_.products.emplace_back(Product{weight, {}, 0});
  }

  static std::vector<NormalisedReading>&
  readings_of(Product& product, const std::array<ScaledColumn, error_slots>& errors,
              bool subtracted) {
    for (Readings& r : product.parts) {
      if (r.errors == errors && r.subtracted == subtracted) return r.readings;
    }
    return product.parts.emplace_back(Readings{errors, subtracted, {}}).readings;
  }

  void add_draw(const BudgetInput& input, double weight, std::optional<ColumnId> column) {
    const double in_lambda = weight * input.standard_u;
    if (!column && in_lambda == 0.0) return;
    if (!column && input.shape == Shape::normal && std::isinf(input.degrees_of_freedom)) {
      normal_variance_ += in_lambda * in_lambda;
      return;
    }
    plan_.draws.push_back(
        {input.shape, input.degrees_of_freedom, column.value_or(passing), in_lambda});
  }

  const PowerModel& model_;
  std::vector<std::optional<ColumnId>> column_;  ///< by input, where a reading needs it
  std::vector<double> in_lambda_;                ///< by input
  double normal_variance_ = 0.0;
  TrialPlan plan_;
};

/// Makes trials after a plan, a chunk at a time.
class TrialMaker {
public:
  TrialMaker(const TrialPlan& plan, RandomStream& random)
      : plan_(plan), random_(random), columns_(plan.columns) {}

  void make(std::span<double> lambda) {
    std::fill(lambda.begin(), lambda.end(), plan_.constant);
    for (const Draw& d : plan_.draws) {
      const std::span<double> drawn = column(d.column, lambda.size());
      fill_standard(random_, d.shape, d.degrees_of_freedom, drawn);
      if (d.in_lambda != 0.0) add_scaled(lambda, drawn, d.in_lambda);
    }
    for (const Sum& sum : plan_.sums) {
      const std::span<double> total = column(sum.column, lambda.size());
      std::fill(total.begin(), total.end(), 0.0);
      for (const ScaledColumn& part : sum.parts)
        add_scaled(total, column(part.column, lambda.size()), part.size);
    }
    for (const Product& product : plan_.products)
      add_product(product, lambda);
  }

private:
  std::span<double> column(ColumnId id, std::size_t trials) {
    return std::span(columns_[id].draws).first(trials);
  }

  void add_product(const Product& product, std::span<double> lambda) {
    const auto over = std::span(over_.draws).first(lambda.size());
    const auto under = std::span(under_.draws).first(lambda.size());
    Begin begin = Begin::from_one;
    for (const Readings& part : product.parts) {
      ErrorColumns errors;
      std::transform(part.errors.begin(), part.errors.end(), errors.begin(),
                     [&](const ScaledColumn& e) {
                       return ErrorColumn{columns_[e.column].draws.data(), e.size};
                     });
      multiply_factors(part.readings, errors, part.subtracted ? under : over,
                       part.subtracted ? over : under, begin);
      begin = Begin::from_product;
    }
    divide(over, under);
    portable_log(over);
    add_scaled(lambda, over, product.weight);
  }

  const TrialPlan& plan_;
  RandomStream& random_;
  std::vector<Column> columns_;
  Column over_, under_;
};

}  // namespace

BlockSampler loss_sampler(const PowerModel& model) {
  return [plan = TrialPlanner(model).make()](RandomStream& random, std::span<double> values) {
    TrialMaker maker(plan, random);
    while (!values.empty()) {
      const std::span<double> chunk = values.first(std::min(values.size(), chunk_trials));
      maker.make(chunk);
      values = values.subspan(chunk.size());
    }
  };
}

}  // namespace hailwright
