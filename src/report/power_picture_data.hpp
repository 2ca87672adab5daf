#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/evaluate/power.hpp"
#include "hailwright/model/record.hpp"
#include "report/chart_scale.hpp"

namespace hailwright::detail {

// What the picture of the power shows, in the unit of its axis: watts at 1000 W/m2 and 25 degC, or
// per cent of the mean before where set-ups compare two panels.

/// A set-up, or a set-up of one unit where siblings are compared.
struct PowerColumn {
  std::string name;  ///< its number in its stage
  std::string date;  ///< ISO 8601
  double mean = 0.0;
  std::vector<double> readings;  ///< that count, in the order of the record; or rounds
  std::vector<double> apart;     ///< that count too and are flagged as outlying, apart from those
  std::vector<double> skipped;   ///< left out by the record, with values all the same
};

/// The set-ups of a stage or of a unit.
struct PowerGroup {
  std::string title;
  bool after = false;  ///< what is compared: the stage after shots, or the struck panel
  std::vector<PowerColumn> columns;
};

struct PowerView {
  bool per_cent = false;
  bool siblings = false;
  std::vector<PowerGroup> groups;  ///< in order of time, those before the shots first
  double from_q = 0.0;             ///< logarithm of `from`: of watts, or of the ratio of two panels
  double from = 0.0;               ///< mean of the stage (or the units) compared with
  double to = 0.0;                 ///< and of the one compared
  /// `to` at the ends of the interval of the change: what decides. Both means' own scatter is in
  /// it.
  Ends to_interval;
  double limit = 0.0;  ///< `from` less the loss that the protocol allows

  /// The day of all set-ups; nothing where there are several.
  [[nodiscard]] std::optional<std::string> one_day() const;
  [[nodiscard]] std::size_t columns() const;
  [[nodiscard]] std::size_t readings() const;
  [[nodiscard]] std::size_t skipped() const;
  [[nodiscard]] std::size_t apart() const;
};

/// Many readings in short: least, quarters (between order statistics in proportion, as R's default
/// `type = 7`) and largest.
struct Spread {
  double least = 0.0, lower = 0.0, upper = 0.0, largest = 0.0;
};
/// Contract: one value or more.
Spread spread_of(std::vector<double> values);

/// Contract: an estimated comparison of this test.
PowerView view_power(const Test& test, const PowerResult& power);

}  // namespace hailwright::detail
