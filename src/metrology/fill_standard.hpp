#pragma once

#include <span>

#include "hailwright/metrology/random.hpp"
#include "metrology/widest_vectors.hpp"

namespace hailwright::detail {

/// `fill_standard` with these vector instructions, which the processor must have.
void fill_standard_with(Vectors vectors, RandomStream& random, Shape shape,
                        double degrees_of_freedom, std::span<double> values);

}  // namespace hailwright::detail
