#pragma once

#include <vector>

#include "hailwright/tables/impact_grades.hpp"

namespace hailwright {

/// Builds the rows that `impact_grades` keeps: what the sources print, and what follows from it.
std::vector<Grade> impact_grade_rows();

}  // namespace hailwright
