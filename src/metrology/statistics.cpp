#include "hailwright/metrology/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "hailwright/core/contract.hpp"

namespace hailwright {

double mean(std::span<const double> values) {
  expects(!values.empty(), "mean of no value");
  const auto n = static_cast<double>(values.size());
  const double first = std::accumulate(values.begin(), values.end(), 0.0) / n;
  // A second pass takes out what the first sum lost to rounding.
  double rest = 0.0;
  for (const double v : values)
    rest += v - first;
  return first + rest / n;
}

std::optional<double> sample_sd(std::span<const double> values) {
  if (values.size() < 2) return std::nullopt;
  const double m = mean(values);
  double squares = 0.0;
  double sum = 0.0;
  for (const double v : values) {
    squares += (v - m) * (v - m);
    sum += v - m;
  }
  const auto n = static_cast<double>(values.size());
  return std::sqrt((squares - sum * sum / n) / (n - 1.0));
}

void PooledScatter::add(std::span<const double> block) {
  const auto block_sd = sample_sd(block);
  if (!block_sd) return;
  const double nu = static_cast<double>(block.size()) - 1.0;
  squares += *block_sd * *block_sd * nu;
  dof += nu;
}

double PooledScatter::sd() const {
  expects(dof > 0.0, "PooledScatter: a repeat at least");
  return std::sqrt(squares / dof);
}

std::optional<double> lag1_autocorrelation(std::span<const double> values) {
  if (values.size() < 2) return std::nullopt;
  const double m = mean(values);
  double products = 0.0;
  double squares = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    squares += (values[i] - m) * (values[i] - m);
    if (i + 1 < values.size()) products += (values[i] - m) * (values[i + 1] - m);
  }
  if (squares == 0.0) return std::nullopt;
  return products / squares;
}

double effective_count(int n, double lag1) {
  expects(n >= 1, "effective_count: at least one reading");
  const double r = std::clamp(lag1, 0.0, 0.99);
  double sum = 0.0;
  double power = 1.0;
  for (int k = 1; k < n; ++k) {
    power *= r;
    sum += (1.0 - static_cast<double>(k) / n) * power;
  }
  return std::clamp(n / (1.0 + 2.0 * sum), 1.0, static_cast<double>(n));
}

std::optional<double> slope(std::span<const double> x, std::span<const double> y) {
  if (x.size() != y.size() || x.size() < 3) return std::nullopt;
  const double mx = mean(x);
  const double my = mean(y);
  double sxx = 0.0;
  double sxy = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    sxx += (x[i] - mx) * (x[i] - mx);
    sxy += (x[i] - mx) * (y[i] - my);
  }
  if (sxx == 0.0) return std::nullopt;
  return sxy / sxx;
}

}  // namespace hailwright
