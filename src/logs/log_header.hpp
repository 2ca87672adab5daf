#pragma once

#include <string>
#include <string_view>

#include "hailwright/core/quantity_text.hpp"

namespace hailwright::detail {

/// A column's header, taken apart.
struct LogHeader {
  std::string whole;  ///< as it stands in the file
  std::string name;   ///< without the unit
  std::string unit;   ///< as written: "°C"; empty: none
  /// The unit stands in brackets or in a line of its own, so that it can be nothing else. At the
  /// end of a name it may be: "panel A" is no current.
  bool unit_apart = false;
  /// Without a unit: what stands where one would, "MW" or "mean"; empty: nothing does.
  std::string not_read{};
};

/// Reads "power W", "power [W]", "power (W)", "power_W", "power/W", "power, W" and "power in W", in
/// capitals or not. `below` is the cell of a line of units.
LogHeader read_log_header(std::string_view header, std::string_view below = {});

/// The unit of the table that loggers also write so: "W/m^2", "Wm-2", "deg C", "Volt", and in a
/// header without capitals "w", "wh". Nullptr for anything else, or a unit of another measure.
const Unit* logger_unit(std::string_view written, Measure measure);

/// True of "mW" and the like, which are read in headers and cannot be stated.
bool only_loggers_use(const Unit& unit);

/// True when it is a unit of a quantity that logs have.
bool is_logger_unit(std::string_view written);

}  // namespace hailwright::detail
