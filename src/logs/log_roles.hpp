#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/logs/log_format.hpp"
#include "logs/log_layout.hpp"

namespace hailwright::detail {

/// A column that may be taken for a role.
struct RoleCandidate {
  LogRole role = LogRole::time;
  std::size_t column = 0;
  const Unit* unit = nullptr;  ///< nullptr: none, or none of the role
  bool exact = false;          ///< the name is the role's word
  std::string why;
};

/// All columns that may be taken for a role, in the order of the columns: by their cells for times,
/// by name and unit for numbers. A name that is the role's word sends the others away.
std::vector<RoleCandidate> role_candidates(const LogLayout& layout);

/// The candidates for one role.
std::vector<RoleCandidate> candidates_for(LogRole role, const std::vector<RoleCandidate>& all);

}  // namespace hailwright::detail
