#pragma once

#include <string>
#include <string_view>

#include "hailwright/evaluate/loss_pattern.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// The changes of the four figures with their intervals, beside what the best patterns predict.
/// @param suffix  of its id
Figure pattern_picture(const LossPattern& pattern, const std::string& title,
                       std::string_view suffix);

}  // namespace hailwright
