#pragma once

#include <vector>

#include "hailwright/core/quantity.hpp"

// Current and voltage of a panel whose cells are in series, with bypass diodes over groups of them:
// what a cut-off part of a cell, a shunt, a bad joint or a shorted diode does to the figures that
// an I-V sweep shows. An illustration with assumed cells, never a fit to a panel that was measured.

namespace hailwright {

/// One cell by the single-diode model with five parameters,
///   I = I_L - I_0 (exp(V_j / (n V_T)) - 1) - V_j / R_sh,   V_j = V + I R_s,   V_T = k T / e.
/// A cell does not break down under reverse voltage here: below zero only the shunt conducts.
/// Source: the standard single-diode model; its five parameters as in De Soto et al. 2006 (Solar
/// Energy 80, 78), from memory.
struct SolarCell {
  Current photo;          ///< I_L >= 0
  Current saturation;     ///< I_0 >= 0
  double ideality = 1.0;  ///< n > 0
  Resistance series;      ///< R_s >= 0
  Resistance shunt;       ///< R_sh > 0
};

/// The cell with this share of its area cut off: the rest makes and leaks current in proportion;
/// the fingers and the shunts along the edge are taken to stay as they are [ours]. 0 <= inactive
/// <= 1.
SolarCell with_inactive_area(SolarCell cell, Ratio inactive);

/// What stands across a group of cells. A diode is ideal: it carries any current at its drop and
/// none below it. A shorted one carries all current at no voltage.
enum class Bypass { diode, shorted, none };

struct CellGroup {
  std::vector<SolarCell> cells;
  Bypass bypass = Bypass::diode;
};

struct CellString {
  std::vector<CellGroup> groups;
  Voltage bypass_drop;    ///< of a diode that conducts, >= 0
  TemperaturePoint cell;  ///< of all cells, above 0 K
};

/// Voltage of one cell, of the whole string, at a current >= 0 (contract). Newton's method on the
/// junction voltage, begun where it can only come down to the root; no special function.
Voltage cell_voltage(const SolarCell& cell, Current current, TemperaturePoint temperature);
Voltage string_voltage(const CellString& string, Current current);

/// What an I-V sweep is summarised by.
struct SweepFigures {
  Voltage open_circuit;
  Current short_circuit;
  Voltage at_maximum;
  Current current_at_maximum;

  [[nodiscard]] Power maximum() const { return at_maximum * current_at_maximum; }
  /// Maximum power over open-circuit voltage times short-circuit current; both above zero.
  [[nodiscard]] Ratio fill_factor() const { return maximum() / (open_circuit * short_circuit); }
};

/// The figures of a string with one cell at least (contract). Of several power maxima, which bypass
/// diodes make, the highest. A string without light gives zeros.
/// Checked in: tests/reference/string_curve_test.cpp
SweepFigures sweep_figures(const CellString& string);

}  // namespace hailwright
