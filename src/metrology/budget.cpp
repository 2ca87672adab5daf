#include "hailwright/metrology/budget.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "hailwright/core/contract.hpp"

namespace hailwright {

double welch_satterthwaite(std::span<const double> contributions,
                           std::span<const double> degrees_of_freedom) {
  expects(contributions.size() == degrees_of_freedom.size(), "welch_satterthwaite: sizes");
  double variance = 0.0;
  double fourth = 0.0;
  for (std::size_t i = 0; i < contributions.size(); ++i) {
    const double c2 = contributions[i] * contributions[i];
    variance += c2;
    if (std::isfinite(degrees_of_freedom[i])) fourth += c2 * c2 / degrees_of_freedom[i];
  }
  return fourth == 0.0 ? std::numeric_limits<double>::infinity() : variance * variance / fourth;
}

namespace {

template <class Keep>
Combined combine_if(std::span<const BudgetRow> rows, Keep keep) {
  std::vector<double> contributions;
  std::vector<double> dof;
  double variance = 0.0;
  for (const BudgetRow& row : rows) {
    if (!keep(row)) continue;
    contributions.push_back(row.contribution());
    dof.push_back(row.input.degrees_of_freedom);
    variance += row.contribution() * row.contribution();
  }
  return {std::sqrt(variance), welch_satterthwaite(contributions, dof)};
}

}  // namespace

Combined combine(std::span<const BudgetRow> rows) {
  return combine_if(rows, [](const BudgetRow&) { return true; });
}

Combined combine(std::span<const BudgetRow> rows, Evaluation only) {
  return combine_if(rows, [only](const BudgetRow& r) { return r.input.evaluation == only; });
}

Combined combine(Combined a, Combined b) {
  const std::array parts{a.standard_u, b.standard_u};
  const std::array dof{a.degrees_of_freedom, b.degrees_of_freedom};
  return {std::hypot(a.standard_u, b.standard_u), welch_satterthwaite(parts, dof)};
}

std::vector<BudgetLine> summarise(std::span<const BudgetRow> rows) {
  std::vector<BudgetLine> lines;
  double total = 0.0;
  for (const BudgetRow& row : rows) {
    const double u = row.contribution();
    total += u * u;
    const auto same = std::find_if(lines.begin(), lines.end(), [&](const BudgetLine& line) {
      return line.label == row.input.label;
    });
    if (same == lines.end()) {
      lines.push_back({row.input.label, std::abs(u), {}});
    } else {
      same->standard_u = std::hypot(same->standard_u, u);
    }
  }
  for (BudgetLine& line : lines) {
    line.share = Ratio::from_si(total > 0.0 ? line.standard_u * line.standard_u / total : 0.0);
  }
  std::stable_sort(lines.begin(), lines.end(), [](const BudgetLine& a, const BudgetLine& b) {
    return a.standard_u > b.standard_u;
  });
  return lines;
}

double propagate_correlated(std::span<const double> sensitivities, std::span<const double> u,
                            std::span<const double> correlation) {
  const std::size_t n = sensitivities.size();
  expects(u.size() == n && correlation.size() == n * n, "propagate_correlated: sizes");
  double variance = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      variance += sensitivities[i] * sensitivities[j] * u[i] * u[j] * correlation[i * n + j];
    }
  }
  return std::sqrt(std::max(0.0, variance));
}

}  // namespace hailwright
