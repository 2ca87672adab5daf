#pragma once

#include <random>
#include <vector>

#include "hailwright/model/record.hpp"

namespace hailwright::testing {

/// The panel `framed_36_cells`, eleven places at the IEC 25 mm grade and five at the 35 mm grade,
/// with readings and looks but no throw. All values invented.
Test panel_to_strike();

/// A throw at a place (index) of a series with the ball and the speed of its grade.
Shot throw_at(const Test& test, std::size_t series, std::size_t place, Landing landing);

/// The same, on its place, with nothing known that an energy could be told from.
Shot throw_of_unknown_energy(const Test& test, std::size_t series, std::size_t place);

/// Adds it with the next number.
void add_throw(Test& test, Shot shot);

/// So many throws, one after the other at the places of both series, that land anyhow: in their
/// place, off it, on none, not on the panel, in pieces.
Test randomly_struck(std::mt19937_64& random, int throws);

}  // namespace hailwright::testing
