#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/report/compose.hpp"

namespace hailwright::detail {

/// A throw that struck the panel with a known energy.
struct EnergyMark {
  int number = 0;  ///< of the throw
  Energy value;
  Energy low, high;                           ///< ends of the two-sided 95 % interval
  bool at_grade = false;                      ///< shown to be at least at the grade aimed at
  bool on_place = false;                      ///< counts at a place of its series
  StrengthDoubt doubt = StrengthDoubt::none;  ///< why it is not shown at its grade
};

/// The throws of one series, in their order.
struct EnergySeries {
  std::size_t series = 0;
  std::string name;
  std::string target;  ///< "IEC 61215 25 mm", as sentences name it
  std::vector<EnergyMark> marks;
  std::vector<int> unknown;  ///< struck the panel with an energy that is not known
  std::vector<int> missed, broken;
};

/// A grade, or what a series aims at freely, with the energies of balls whose mass and speed are
/// just inside its tolerance. A hit is held to the lower edges of mass and of speed, so to `low`.
struct EnergyLevel {
  std::string name;
  Energy value, low, high;
  bool aimed_at = false;
  bool doubtful = false;  ///< a figure of it is from memory or derived
};

/// What one picture shows: all series that aim at grades of one scheme.
struct EnergyView {
  std::string scheme;  ///< "IEC 61215"; empty: free targets
  std::vector<EnergySeries> series;
  /// Those aimed at and those among the marks: weakest first.
  std::vector<EnergyLevel> levels;
  /// The next below and above, which would squeeze the marks.
  std::vector<EnergyLevel> far_levels;
};

/// One view a scheme in the order of the series; without those in which no energy is known.
std::vector<EnergyView> view_energies(const Judged& judged);

}  // namespace hailwright::detail
