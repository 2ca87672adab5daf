#pragma once

#include <vector>

#include "input/table_columns.hpp"

namespace hailwright::input {

// The columns that each table may have, in the order in which a new table has them. The readers go
// by these, and so do the empty tables to begin from (hailwright/input/table_templates.hpp).

std::vector<ColumnRule> ball_columns();
std::vector<ColumnRule> trial_columns();
std::vector<ColumnRule> shot_columns();
/// `several_panels`: then every row must say whose reading it is.
std::vector<ColumnRule> reading_columns(bool several_panels);

}  // namespace hailwright::input
