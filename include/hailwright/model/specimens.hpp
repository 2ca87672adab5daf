#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/metrology/stated.hpp"

namespace hailwright {

/// One specimen, struck once.
struct SpecimenTest {
  SourceSpan origin;
  std::string specimen;  ///< its name, as typed
  Energy energy;         ///< at the specimen, above 0
  /// Where the energy was not typed but comes from both.
  std::optional<Mass> mass;
  std::optional<Speed> speed;
  bool damaged = false;
  std::string note;
};

/// An up-and-down test as it was planned: levels of energy, each so many times the one below.
struct StaircasePlan {
  SourceSpan origin;
  Energy start;  ///< above 0
  Ratio step;    ///< 20 %: each level is 1.2 times the one below; above 0
};

/// Specimens of one kind, each struck once, in the order in which that was done.
struct Specimens {
  SourceSpan origin;
  std::string title;
  std::string damage;    ///< what counts as damage, in the user's words
  std::string protocol;  ///< path of a protocol file, beside this one; empty: none named
  std::optional<StaircasePlan> staircase;
  /// What is promised of each energy, mass and speed. Nothing: not stated.
  std::optional<Stated<Ratio>> energy_error;
  std::optional<Stated<Mass>> mass_error;
  std::optional<Stated<Speed>> speed_error;
  std::vector<SpecimenTest> tests;
};

}  // namespace hailwright
