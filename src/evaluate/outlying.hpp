#pragma once

#include <cstddef>
#include <vector>

#include "hailwright/evaluate/power_model.hpp"

namespace hailwright {

/// A reading that lies further from the others of its set-up than chance explains.
struct Outlying {
  std::size_t reading = 0;  ///< index into Record::readings
  std::size_t setup = 0;
  double deviations = 0.0;  ///< from the mean of its set-up, in standard deviations
  double bound = 0.0;
};

/// Flags the readings that count (MEASUREMENT M9): generalised extreme Studentised deviate test of
/// Rosner (1983) inside each set-up of the question's stages, at a risk of 1 % a set-up [ours].
/// Nothing is left out by it.
std::vector<Outlying> outlying_readings(const Test& test, const PowerQuestion& question);

}  // namespace hailwright
