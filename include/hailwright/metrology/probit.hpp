#pragma once

#include <optional>
#include <span>

namespace hailwright {

// Probit of a 0/1 outcome on a stimulus x: P(1 at x) = Phi((x - location) / scale), by maximum
// likelihood (C. I. Bliss, Ann. Appl. Biol. 22 (1935) 134, from memory). x has any unit, here
// ln(energy / J); location and scale have the same.

/// ln of the normal distribution function, right to 1e-12 of itself however far out z lies.
double log_normal_cdf(double z);

/// What one test showed.
struct ProbitTest {
  double x = 0.0;
  bool one = false;
};

/// Why there is no finite estimate, or none that rises with x.
enum class ProbitObstacle {
  none,
  one_outcome,  ///< all 0 or all 1, or no test
  separated,    ///< no 1 lies below a 0 (or no 0 below a 1): the scale would come out as 0
  not_rising    ///< the outcome 1 does not become more frequent with x
};

/// Where the outcomes lie. The maximum of the likelihood is finite and single where both overlap
/// (M. J. Silvapulle, J. R. Statist. Soc. B 43 (1981) 310, from memory).
ProbitObstacle probit_obstacle(std::span<const ProbitTest> tests);

struct ProbitFit {
  double location = 0.0;  ///< where half the outcomes are 1
  double scale = 0.0;     ///< above 0
  double log_likelihood = 0.0;
  /// x at which the share p of the outcomes is 1; 0 < p < 1.
  [[nodiscard]] double quantile(double p) const;
  /// P(1 at x).
  [[nodiscard]] double probability(double x) const;
};

/// The estimate; nothing where there is an obstacle (`probit_obstacle`, or a slope of 0 or less).
/// All x finite (contract).
std::optional<ProbitFit> fit_probit(std::span<const ProbitTest> tests);

/// An interval by profile likelihood. An end that is missing does not exist: nothing on that side
/// contradicts the data at this level.
struct ProfileInterval {
  std::optional<double> low, high;
};

/// Where the share p of the outcomes is 1: all values whose profile log-likelihood lies within
/// half the chi-squared quantile (1 degree of freedom) of the maximum (D. J. Venzon and
/// S. H. Moolgavkar, Appl. Statist. 37 (1988) 87, from memory). The scale is held above 0: damage
/// never becomes rarer with x.
/// @param fit  of these tests
/// @param p, level  above 0 and below 1 (contract)
ProfileInterval quantile_interval(std::span<const ProbitTest> tests, const ProbitFit& fit, double p,
                                  double level);

/// The same of the scale; its upper end is missing where a scale without end would do.
ProfileInterval scale_interval(std::span<const ProbitTest> tests, const ProbitFit& fit,
                               double level);

}  // namespace hailwright
