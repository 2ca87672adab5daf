#pragma once

#include <string>

#include "hailwright/report/document.hpp"
#include "hailwright/report/line_up.hpp"

namespace hailwright::detail {

/// What each panel of a group came to, in order, with the ranks that are left open.
/// @param suffix  of the figure's id: "" or "-2"
Figure rank_picture(const LineUpView& view, const LineUpGroup& group, const std::string& suffix);

/// Which pairs of a group were shown to differ: each with each, or, of larger groups, each with its
/// neighbour and with the best.
Figure pair_picture(const LineUpView& view, const LineUpGroup& group, const std::string& suffix);

}  // namespace hailwright::detail
