#pragma once

#include <optional>
#include <string>

#include "hailwright/evaluate/line_up.hpp"

namespace hailwright::detail {

/// What a panel came to in a line-up, in the unit that people read it in, with its record's own
/// interval: W, %, W/m2, W/kg, the currency of its price per watt.
struct LineUpValue {
  double value = 0.0;
  double low = 0.0, high = 0.0;
  int decimals = 1;        ///< that it is told with
  std::string unit = {};   ///< "%", "EUR/W"
  std::string level = {};  ///< of the interval: "95 %"
};

/// Nothing where the record does not have the number.
std::optional<LineUpValue> line_up_value(const LineUpEntry& entry, LineUpQuantity quantity);

/// "0.9 % (95 %: 0.2 % to 1.7 %)".
std::string value_text(const LineUpValue& value);

}  // namespace hailwright::detail
