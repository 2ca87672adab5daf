#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace hailwright {

/// One step of the test below: the value that lies furthest off when those of the earlier steps are
/// left out.
struct ExtremeDeviate {
  std::size_t index = 0;   ///< of the value
  double deviation = 0.0;  ///< R_i: from the mean of those left, in their standard deviations
  double bound = 0.0;      ///< lambda_i
};

/// Generalised extreme Studentised deviate test for up to `most` outliers in normal values,
/// two-sided at a risk of `risk` for the whole set: the outliers, most extreme step first. Those of
/// all steps up to the last whose deviation exceeds its bound, so that two that hide each other are
/// found; each with its deviation beside the good values alone and the bound of the last step,
/// since in the earlier steps they hide each other. Requires most >= 1, at least most + 2 values, 0
/// < risk < 1. Approximate below about 15 values. Values that differ by rounding alone have none.
/// Source: Rosner 1983 (Technometrics 25(2), 165-172), as in NIST/SEMATECH e-Handbook 1.3.5.17.3;
/// formula and example read in reproductions (tests/reference/rosner_1983_test.cpp).
std::vector<ExtremeDeviate> outliers(std::span<const double> values, std::size_t most, double risk);

/// The steps themselves, `most` of them or as many as have a spread.
std::vector<ExtremeDeviate> extreme_deviates(std::span<const double> values, std::size_t most,
                                             double risk);

}  // namespace hailwright
