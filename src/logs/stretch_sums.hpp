#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "hailwright/logs/log_block.hpp"
#include "logs/series_sums.hpp"

namespace hailwright::detail {

/// Rows of a block with what was computed of them; columns that are not there are empty.
struct StretchRows {
  const LogBlock& block;
  const std::vector<double>& normalised;
  const std::vector<double>& normalised_beside;

  [[nodiscard]] const std::vector<double>& column(LogRole role) const { return block.column(role); }
};

/// Sums over rows that count for means and scatter. Partial results of neighbours merge.
struct StretchSums {
  ColumnTotal power, irradiance, temperature, power_beside, temperature_beside;
  SeriesSums power_series, normalised, normalised_beside;

  static StretchSums of(const StretchRows& rows, std::size_t begin, std::size_t end,
                        std::int64_t longest_gap_us);
  /// @param neighbours  false: rows were left out between the two
  void append(const StretchSums& next, bool neighbours, std::int64_t longest_gap_us);
  void write_to(LogStretch& stretch) const;
};

}  // namespace hailwright::detail
