#pragma once

#include <array>
#include <span>

#include "hailwright/physics/normalised_power.hpp"
#include "metrology/widest_vectors.hpp"

namespace hailwright {

// Arithmetic on the errors of many trials at once. All vector instructions give the same bits.

/// The errors of one slot: draws, one for each trial, and what to multiply them by.
struct ErrorColumn {
  const double* draws = nullptr;
  double size = 0.0;
};
using ErrorColumns = std::array<ErrorColumn, error_slots>;

/// A factor that a wild draw makes zero or negative is taken as this: the trial counts as a change
/// beyond all bounds instead of one without meaning.
inline constexpr double smallest_factor = 1e-9;

/// Readings whose factors may be multiplied before a logarithm is taken: a product of more could
/// leave the range of a double.
inline constexpr std::size_t most_in_product = 32;

/// What a product begins with.
enum class Begin {
  from_one,  ///< whatever stands there is overwritten
  from_product
};

/// Multiplies, trial by trial, the power of each of these readings into `power` and its suns and
/// its temperature factor into `conditions`, with the errors of that trial. The readings, one at
/// least, share all their errors. Both spans and all columns have one length.
void multiply_factors(std::span<const NormalisedReading> readings, const ErrorColumns& errors,
                      std::span<double> power, std::span<double> conditions, Begin begin,
                      detail::Vectors with = detail::widest_vectors());

/// over / under in place of over, kept within 1e-300..1e300: what has left the range of a double,
/// or all meaning, is a change beyond all bounds too.
void divide(std::span<double> over, std::span<const double> under,
            detail::Vectors with = detail::widest_vectors());

/// Adds so many times each of `values`.
void add_scaled(std::span<double> to, std::span<const double> values, double times,
                detail::Vectors with = detail::widest_vectors());

}  // namespace hailwright
