#include "logs/row_gaps.hpp"

#include <algorithm>
#include <cmath>

#include "logs/row_checks.hpp"

namespace hailwright::detail {

void RowGaps::take(const LogBlock& block, std::size_t begin, std::size_t end) {
  const auto& power = block.column(LogRole::power);
  for (std::size_t from = begin; from < end; from += rows_of_a_piece) {
    const std::size_t rows = std::min(rows_of_a_piece, end - from);
    const bool smooth = !any_longer_step(block.time_us.data() + from, rows, longest_gap_us_) &&
                        (power.empty() || !any_blank(power.data() + from, rows));
    for (std::size_t row = from; row < from + (smooth ? 1 : rows); ++row)
      if (power.empty() || !std::isnan(power[row])) look(block, row);
    if (smooth) last_us_ = block.time_us[from + rows - 1];
  }
}

void RowGaps::look(const LogBlock& block, std::size_t row) {
  const std::int64_t now_us = block.time_us[row];
  const std::int64_t step_us = now_us - last_us_;
  if (any_row_ && step_us > longest_gap_us_) {
    ++gaps_;
    in_gaps_us_ += step_us;
    keep({last_us_, now_us, block.file, block.first_line + block.line[row]});
  }
  any_row_ = true;
  last_us_ = now_us;
}

void RowGaps::keep(const LogGap& gap) {
  constexpr std::size_t most = 10;
  const auto length = [](const LogGap& g) { return g.to_us - g.from_us; };
  const auto place = std::ranges::find_if(
      longest_, [&](const LogGap& other) { return length(other) < length(gap); });
  longest_.insert(place, gap);
  if (longest_.size() > most) longest_.pop_back();
}

void RowGaps::write_to(LogStretch& stretch) const {
  stretch.gaps = gaps_;
  stretch.in_gaps_s = static_cast<double>(in_gaps_us_) / 1e6;
  stretch.longest_gaps = longest_;
}

}  // namespace hailwright::detail
