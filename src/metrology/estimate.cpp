#include "hailwright/metrology/estimate.hpp"

#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

double probability_at_least(double value, double standard_u, double degrees_of_freedom,
                            double bound) {
  if (standard_u == 0.0) return value >= bound ? 1.0 : 0.0;
  return t_cdf((value - bound) / standard_u, degrees_of_freedom);
}

double lower_bound(double value, double standard_u, double degrees_of_freedom, double confidence) {
  if (standard_u == 0.0) return value;
  return value - t_quantile(confidence, degrees_of_freedom) * standard_u;
}

}  // namespace hailwright
