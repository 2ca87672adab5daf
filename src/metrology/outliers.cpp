#include "hailwright/metrology/outliers.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

/// Spreads below this share of the values themselves are rounding.
constexpr double rounding = 1e-13;

/// Critical value of step i (from 1) among n values.
double critical_deviation(std::size_t n, std::size_t i, double risk) {
  const auto left = static_cast<double>(n - i);
  const double t = t_quantile(1.0 - risk / (2.0 * (left + 1.0)), left - 1.0);
  return left * t / std::sqrt((left - 1.0 + t * t) * (left + 1.0));
}

}  // namespace

std::vector<ExtremeDeviate> extreme_deviates(std::span<const double> values, std::size_t most,
                                             double risk) {
  expects(most >= 1 && values.size() >= most + 2,
          "outliers: two values more than outliers at least");
  expects(risk > 0.0 && risk < 1.0, "outliers: a risk between 0 and 1");
  struct Left {
    std::size_t index;
    double value;
  };
  std::vector<Left> left;
  for (std::size_t i = 0; i < values.size(); ++i)
    left.push_back({i, values[i]});
  std::vector<ExtremeDeviate> steps;
  for (std::size_t i = 1; i <= most; ++i) {
    std::vector<double> rest;
    for (const Left& l : left)
      rest.push_back(l.value);
    const double middle = mean(rest);
    const double sd = *sample_sd(rest);
    const double largest = std::abs(*std::max_element(
        rest.begin(), rest.end(), [](double a, double b) { return std::abs(a) < std::abs(b); }));
    if (sd <= rounding * largest) break;
    const auto far =
        std::max_element(left.begin(), left.end(), [middle](const Left& a, const Left& b) {
          return std::abs(a.value - middle) < std::abs(b.value - middle);
        });
    steps.push_back({far->index, std::abs(far->value - middle) / sd,
                     critical_deviation(values.size(), i, risk)});
    left.erase(far);
  }
  return steps;
}

std::vector<ExtremeDeviate> outliers(std::span<const double> values, std::size_t most,
                                     double risk) {
  std::vector<ExtremeDeviate> steps = extreme_deviates(values, most, risk);
  while (!steps.empty() && steps.back().deviation <= steps.back().bound)
    steps.pop_back();
  if (steps.empty()) return steps;
  // Outlying values hide each other in the earlier steps: each is given as the last step saw its
  // own, beside the good ones alone.
  std::vector<double> good(values.begin(), values.end());
  std::vector<std::size_t> gone;
  for (const ExtremeDeviate& s : steps)
    gone.push_back(s.index);
  std::sort(gone.rbegin(), gone.rend());
  for (const std::size_t index : gone)
    good.erase(good.begin() + static_cast<std::ptrdiff_t>(index));
  const double bound = steps.back().bound;
  for (ExtremeDeviate& s : steps) {
    good.push_back(values[s.index]);
    s.deviation = std::abs(values[s.index] - mean(good)) / *sample_sd(good);
    s.bound = bound;
    good.pop_back();
  }
  return steps;
}

}  // namespace hailwright
