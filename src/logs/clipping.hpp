#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "hailwright/logs/log_stretch.hpp"
#include "logs/row_windows.hpp"
#include "logs/series_sums.hpp"

namespace hailwright::detail {

/// Looks for a power that stays flat while irradiance rises. Means of windows of 10 s [ours], in
/// which irradiance changes by 5 % at most [ours] and the panel is under load, are sorted by
/// irradiance into bins of 10 W/m2 [ours]; a bin of fewer than three windows is left out. Clipped
/// is the widest run of three or more neighbouring bins over at least 10 % of irradiance whose mean
/// powers stay within 1 %, provided that below it, down to two thirds of where it begins, power
/// rises: slope of ln P on ln G at least 0.5 (M9) over at least 10 %. A log that shows no rise
/// below, or half of whose rows at the same irradiance are clipped, shows no clipping here.
class ClippingSearch {
public:
  explicit ClippingSearch(Power load_on);

  void take(const std::vector<std::int64_t>& time_us, const std::vector<double>& power_w,
            const std::vector<double>& irradiance_wpm2, std::size_t begin, std::size_t end);
  std::optional<LogClipping> finish();

private:
  static constexpr std::size_t bins = 200;  ///< to 2000 W/m2

  struct Bin {
    std::int64_t windows = 0, rows = 0;
    double power_w = 0.0, irradiance_wpm2 = 0.0;  ///< sums over the rows
  };

  void close();

  double load_on_w_;
  RowWindows windows_;
  ColumnTotal power_, irradiance_;  ///< of the open window
  std::int64_t rows_ = 0;
  std::array<Bin, bins> bins_{};
};

}  // namespace hailwright::detail
