#include "hailwright/physics/string_curve.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

// Exact by definition of the SI since 2019.
constexpr double boltzmann_J_per_K = 1.380649e-23;
constexpr double elementary_charge_C = 1.602176634e-19;

double thermal_voltage_V(TemperaturePoint temperature) {
  return boltzmann_J_per_K * temperature.kelvin() / elementary_charge_C;
}

/// Voltage over the junction at which the cell's currents balance. f falls and bends down, so that
/// Newton's steps from a point where f <= 0 go to the root from one side and never past it.
double junction_voltage_V(const SolarCell& cell, double current_A, double slope_V) {
  const double surplus = cell.photo.si() - current_A;
  const double shunt = cell.shunt.si();
  const double saturation = cell.saturation.si();
  double v = 0.0;
  if (surplus > 0.0) {
    v = surplus * shunt;
    if (saturation > 0.0) v = std::min(v, slope_V * std::log1p(surplus / saturation));
  }
  constexpr int most_steps = 200;
  for (int i = 0; i < most_steps; ++i) {
    const double diode = saturation * std::expm1(v / slope_V);
    const double f = surplus - diode - v / shunt;
    const double down = (diode + saturation) / slope_V + 1.0 / shunt;
    const double next = v + f / down;
    if (!(next < v)) break;
    v = next;
  }
  return v;
}

double group_voltage_V(const CellGroup& group, const CellString& string, Current current) {
  if (group.bypass == Bypass::shorted) return 0.0;
  double sum = 0.0;
  for (const SolarCell& cell : group.cells)
    sum += cell_voltage(cell, current, string.cell).si();
  return group.bypass == Bypass::diode ? std::max(sum, -string.bypass_drop.si()) : sum;
}

/// Largest current of any cell: there the string has no voltage left.
double largest_photo_A(const CellString& string) {
  double largest = 0.0;
  for (const CellGroup& group : string.groups) {
    for (const SolarCell& cell : group.cells)
      largest = std::max(largest, cell.photo.si());
  }
  return largest;
}

constexpr int halvings = 60;

/// The voltage falls as the current rises.
double short_circuit_A(const CellString& string) {
  double low = 0.0;
  double high = largest_photo_A(string);
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (low + high);
    (string_voltage(string, Current::from_si(middle)).si() > 0.0 ? low : high) = middle;
  }
  return low;
}

double power_W(const CellString& string, double current_A) {
  return current_A * string_voltage(string, Current::from_si(current_A)).si();
}

/// Current of the highest power: the best of evenly spaced ones, since each bypass diode makes a
/// maximum of its own, then golden section between its neighbours.
double best_current_A(const CellString& string, double short_circuit) {
  constexpr int points = 1000;
  int best = 0;
  double best_W = 0.0;
  for (int i = 1; i < points; ++i) {
    const double p = power_W(string, short_circuit * i / points);
    if (p > best_W) {
      best_W = p;
      best = i;
    }
  }
  double low = short_circuit * std::max(0, best - 1) / points;
  double high = short_circuit * (best + 1) / points;
  const double golden = 0.5 * (std::sqrt(5.0) - 1.0);
  for (int i = 0; i < halvings; ++i) {
    const double a = high - golden * (high - low);
    const double b = low + golden * (high - low);
    if (power_W(string, a) < power_W(string, b)) {
      low = a;
    } else {
      high = b;
    }
  }
  return 0.5 * (low + high);
}

}  // namespace

SolarCell with_inactive_area(SolarCell cell, Ratio inactive) {
  expects(inactive.si() >= 0.0 && inactive.si() <= 1.0, "a share of the cell's area");
  const double active = 1.0 - inactive.si();
  cell.photo = active * cell.photo;
  cell.saturation = active * cell.saturation;
  return cell;
}

Voltage cell_voltage(const SolarCell& cell, Current current, TemperaturePoint temperature) {
  expects(current.si() >= 0.0, "a current out of the cell");
  expects(cell.photo.si() >= 0.0 && cell.saturation.si() >= 0.0 && cell.ideality > 0.0 &&
              cell.series.si() >= 0.0 && cell.shunt.si() > 0.0,
          "a solar cell's parameters");
  const double slope = cell.ideality * thermal_voltage_V(temperature);
  return Voltage::from_si(junction_voltage_V(cell, current.si(), slope)) - current * cell.series;
}

Voltage string_voltage(const CellString& string, Current current) {
  double sum = 0.0;
  for (const CellGroup& group : string.groups)
    sum += group_voltage_V(group, string, current);
  return Voltage::from_si(sum);
}

SweepFigures sweep_figures(const CellString& string) {
  expects(std::any_of(string.groups.begin(), string.groups.end(),
                      [](const CellGroup& g) { return !g.cells.empty(); }),
          "a string of one cell at least");
  expects(string.bypass_drop.si() >= 0.0 && string.cell.kelvin() > 0.0,
          "a string's diode and heat");
  SweepFigures figures;
  figures.open_circuit = string_voltage(string, Current{});
  const double short_circuit = short_circuit_A(string);
  figures.short_circuit = Current::from_si(short_circuit);
  figures.current_at_maximum = Current::from_si(best_current_A(string, short_circuit));
  figures.at_maximum = string_voltage(string, figures.current_at_maximum);
  return figures;
}

}  // namespace hailwright
