#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "hailwright/model/record.hpp"
#include "input/log_entry.hpp"
#include "input/table_setups.hpp"

namespace hailwright::input {

/// Where the record itself dates a set-up that it lists; goes along with the first set-ups.
using ListedDates = std::vector<std::optional<SourceSpan>>;

/// What the stretches of a log become part of.
struct LogSetupsInto {
  Record& record;
  std::vector<SetupRows>& rows;  ///< goes along with the set-ups of the record
  const ListedDates& dates;
  bool with_control = false;  ///< the second panel of the log is the control
};

/// @param first_file  number in the source set of the log's first file
SourceSpan place_in_log(const LogRow& row, std::uint32_t first_file);

/// Turns the kept rows of each stretch into a set-up, dated by its local day, and its readings,
/// and fills `use.setups`. What a row lacks and why it does not count goes along with it.
///
/// An error for a stretch that goes past midnight, one of another day than the record states, and a
/// set-up that was read elsewhere.
/// @param setups  of each of `use.findings.stretches`
/// Contract: `use.stated.zone` is the name of a zone, every stretch has kept its rows.
void add_log_setups(LogUse& use, const std::vector<SetupId>& setups, const LogSetupsInto& into,
                    Diagnostics& notes);

}  // namespace hailwright::input
