#include "report/line_up_rows.hpp"

#include "hailwright/report/line_up.hpp"

namespace hailwright::detail {

LineUpRows rows_shown(const LineUpGroup& group) {
  const std::size_t count = group.ranks.size();
  LineUpRows shown;
  const std::size_t half = line_up_rows_shown / 2;
  const bool all = count <= line_up_rows_shown;
  for (std::size_t i = 0; i < count; ++i) {
    if (all || i < half || i >= count - half) shown.rows.push_back(i);
  }
  if (!all) {
    shown.left_out = count - shown.rows.size();
    shown.gap_before = half;
  }
  return shown;
}

}  // namespace hailwright::detail
