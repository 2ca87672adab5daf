#pragma once

#include <string>

#include "hailwright/model/plan_mark.hpp"
#include "input/yaml_cursor.hpp"

namespace hailwright::input {

/// What a tree says, without how it is written: keys in alphabetical order, blanks as one, amounts
/// in SI. `25 mm` and `2.5 cm` are the same text; `1 % + 3 digits` stays as it is.
std::string plain_form(const Node& node);

/// The mark of a protocol's tree.
PlanMark mark_of(const Node& protocol);

}  // namespace hailwright::input
