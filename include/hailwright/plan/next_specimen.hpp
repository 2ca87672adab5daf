#pragma once

#include <cstddef>
#include <optional>
#include <utility>

#include "hailwright/evaluate/damage_threshold.hpp"
#include "hailwright/plan/test_plan.hpp"

namespace hailwright {

/// Why no next energy is printed.
enum class NextObstacle {
  none,
  no_staircase,      ///< none was planned: there is no rule
  between_levels,    ///< the last test lies between two levels
  too_little,        ///< below the least energy that a file of specimens can state
  gate_closed,       ///< the gate refuses, or asks for answers
  launcher_too_slow  ///< the upper muzzle speed is above its stated fastest speed
};

/// The test of a fresh specimen that the up-and-down rule asks for. None without a clearance.
struct NextSpecimen {
  NextSpecimen(Clearance given, Energy at_specimen, Energy upper)
      : clearance(std::move(given)), energy(at_specimen), upper_at_muzzle(upper) {}
  Clearance clearance;
  Energy energy;           ///< at the specimen
  Energy upper_at_muzzle;  ///< what the gate was asked about
};

struct NextSpecimenAnswer {
  NextObstacle obstacle = NextObstacle::none;
  std::size_t series = 0;  ///< of the protocol: whose ball is thrown
  std::optional<GateResult> gate;
  std::optional<NextSpecimen> next;
};

/// Asks the gate for the next test with the ball of the protocol's hardest series. The dangers are
/// those of the protocol's plan, raised where this test is harder than that series: energies and
/// their density in proportion; the reach in proportion too, which is more than it grows, unless
/// the plan reckons with the launcher's stated fastest speed. Never lowered.
/// @param plan  of a protocol with a series (contract)
NextSpecimenAnswer ask_for_next_specimen(const TestPlan& plan, const DamageThreshold& threshold);

}  // namespace hailwright
