#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/model/record.hpp"
#include "input/table.hpp"
#include "input/table_clock.hpp"

namespace hailwright::input {

/// What the rows of one set-up have shown so far.
struct SetupRows {
  bool from_log = false;
  bool log_failed = false;  ///< a log of its stage could not be read: it may have been there
  std::optional<SourceSpan> first_row;
  std::array<bool, 3> seen{};  ///< by role
  std::optional<Moment> begin, end;
};

/// Notes a row's time; an error when it lies before the time of an earlier row of the set-up.
void note_time(SetupRows& rows, const Moment& moment, const std::string& name, Diagnostics& notes);

/// The checks that need all rows: set-ups that lack a panel, overlap, follow each other too
/// quickly, or were listed and never read. `rows` goes along with `setups`.
void check_setups(const std::vector<Setup>& setups, const std::vector<SetupRows>& rows,
                  const TableLabels& labels, const std::string& day, Diagnostics& notes);

}  // namespace hailwright::input
