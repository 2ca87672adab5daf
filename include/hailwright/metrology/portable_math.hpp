#pragma once

#include <span>

namespace hailwright {

// The C library picks its logarithm by the processor it runs on, and the last bit differs. These
// are made of additions, multiplications and divisions alone, in one order, so that random trials
// give the same bits everywhere (with -ffp-contract=off, as the whole project is built).

/// Natural logarithm of a normal positive number, right to 2 units in the last place.
double portable_log(double x);
/// e^x for -700 <= x <= 700, right to 2 units in the last place.
double portable_exp(double x);

/// Each value in place, with the bits of the forms above, several at a time.
void portable_log(std::span<double> values);
void portable_exp(std::span<double> values);

}  // namespace hailwright
