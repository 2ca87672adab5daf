#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/metrology/stated.hpp"

namespace hailwright {

/// How a panel is built; decides which cautions and which later tests apply.
enum class Build { framed_glass, frameless_glass, flexible };

/// A point on the panel: right from the left edge, up from the lower edge, front side.
struct Position {
  Length right;
  Length up;
};

struct JunctionBox {
  Position at;  ///< its middle
  Length width;
  Length height;
};

struct CellGrid {
  int along = 0;   ///< cells along the long side
  int across = 0;  ///< cells along the short side
  Length margin;   ///< from the outer edge to the first cell
  Length gap{};    ///< between neighbouring cells
};

struct Outline {
  Length long_side;
  Length short_side;
  std::optional<Length> thickness;
};

struct Provenance {
  std::string bought_by;
  std::string from;
  std::string on;
  std::string condition;
};

/// One model of panel as its maker describes it. Written once, used by every record of it.
struct Panel {
  SourceSpan origin;
  std::string name;
  Build build = Build::framed_glass;
  std::optional<Length> glass;
  std::optional<Power> rated_power;
  std::optional<Voltage> open_voltage;   ///< at 25 degC and 1000 W/m2
  std::optional<Current> short_current;  ///< at 25 degC and 1000 W/m2
  /// Relative change of maximum power per kelvin; absent when the data sheet does not say.
  std::optional<TemperatureCoefficient> power_coefficient;
  std::optional<StatedValue<TemperatureCoefficient>> power_coefficient_stated;
  /// Relative change of open-circuit voltage per kelvin.
  std::optional<TemperatureCoefficient> voltage_coefficient;
  std::optional<StatedValue<TemperatureCoefficient>> voltage_coefficient_stated;
  std::optional<Outline> size;
  /// Width of the frame over the glass, seen from the front. Absent when the file does not say; see
  /// `frame_width`.
  std::optional<Length> frame;
  std::optional<CellGrid> cells;
  std::optional<JunctionBox> junction_box;
  std::vector<Position> mounting_points;
  std::optional<Mass> weight;
  /// What it costs: the one price that the file gives, or its `average`.
  std::optional<Money> price;
  std::optional<Money> lowest_price, highest_price;  ///< in the currency of `price` (reader)
  std::optional<Length> lead_length;
  std::string connector;                  ///< of the leads, as typed; empty: not stated
  std::optional<int> substrings;          ///< groups of cells with a bypass diode each
  std::optional<Length> smallest_radius;  ///< to which the maker says that it may be bent
  std::optional<Provenance> came;
};

}  // namespace hailwright
