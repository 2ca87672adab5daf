#pragma once

#include <vector>

#include "hailwright/metrology/stated.hpp"
#include "hailwright/model/specimens.hpp"

namespace hailwright::testing {

/// An error as somebody states it.
template <class Q>
Stated<Q> stated(Shape shape, Ratio relative, Q absolute = {}) {
  Stated<Q> error;
  error.shape = shape;
  error.relative = relative;
  error.absolute = absolute;
  return error;
}

/// Specimens S1, S2 ... struck once each, in this order; 1 where one was damaged.
Specimens specimens_of(const std::vector<double>& energies_J, const std::vector<int>& damaged);

}  // namespace hailwright::testing
