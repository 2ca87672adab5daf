#include "hailwright/metrology/stated.hpp"

#include <cmath>

#include "hailwright/core/contract.hpp"

namespace hailwright {

double half_width_divisor(Shape shape) {
  switch (shape) {
  case Shape::normal:
    return 1.0;
  case Shape::rectangular:
    return std::sqrt(3.0);
  case Shape::triangular:
    return std::sqrt(6.0);
  case Shape::arcsine:
    return std::sqrt(2.0);
  }
  fail_contract("unknown shape");
}

}  // namespace hailwright
