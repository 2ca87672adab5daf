#include "hailwright/metrology/multiple_comparison.hpp"

#include <algorithm>
#include <numeric>

#include "hailwright/core/contract.hpp"

namespace hailwright {

std::vector<double> holm_adjusted(std::span<const double> p) {
  expects(std::all_of(p.begin(), p.end(), [](double x) { return x >= 0.0 && x <= 1.0; }),
          "holm_adjusted: 0 <= p <= 1");
  std::vector<std::size_t> order(p.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return p[a] < p[b]; });
  std::vector<double> adjusted(p.size());
  double largest = 0.0;
  for (std::size_t i = 0; i < order.size(); ++i) {
    const auto left = static_cast<double>(order.size() - i);
    largest = std::max(largest, left * p[order[i]]);
    adjusted[order[i]] = std::min(1.0, largest);
  }
  return adjusted;
}

double bonferroni_level(double risk, std::size_t m) {
  expects(risk > 0.0 && risk < 1.0 && m >= 1, "bonferroni_level: 0 < risk < 1, m >= 1");
  return 1.0 - risk / static_cast<double>(m);
}

}  // namespace hailwright
