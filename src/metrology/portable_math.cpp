#include "hailwright/metrology/portable_math.hpp"

#include "metrology/portable_kernels.hpp"
#include "metrology/widest_vectors.hpp"

namespace hailwright {

using namespace detail;

double portable_log(double x) {
  return log_kernel(x);
}

double portable_exp(double x) {
  return exp_kernel(x);
}

void portable_log(std::span<double> values) {
  const auto loop = [&](auto) __attribute__((always_inline)) {
    for (double& v : values)
      v = log_kernel(v);
  };
  run_with(widest_vectors(), loop);
}

void portable_exp(std::span<double> values) {
  const auto loop = [&](auto) __attribute__((always_inline)) {
    for (double& v : values)
      v = exp_kernel(v);
  };
  run_with(widest_vectors(), loop);
}

}  // namespace hailwright
