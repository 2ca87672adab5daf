#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/logs/log_format.hpp"

namespace hailwright {

/// So much of a file's beginning is looked at to recognise how it is built [bytes].
inline constexpr std::size_t recognised_bytes = 64U << 10U;

/// Recognises how a log is built from its beginning, whole lines of it, and from what is stated:
/// separator, decimal mark, the line of the headers behind any others, units, the form of the
/// stamps. All mistakes come back at once, each at its line; those of a stated column at the place
/// where it is stated. `file` is the file's number in `sources`, of which single lines
/// are kept (`SourceSet::add_unkept`).
/// Nothing, with errors, where the file and the statements leave a choice that matters: a date that
/// can be read in two ways, a zone that is not stated, two columns for one role.
std::optional<LogShape> recognise_log(std::string_view beginning, const LogFormat& stated,
                                      std::uint32_t file, SourceSet& sources, Diagnostics& notes);

/// A column that `--suggest` proposes, and why.
struct ProposedColumn {
  LogRole role = LogRole::time;
  std::string header;
  std::string unit;  ///< as read from the header; empty: could not be told
  std::string why;   ///< "the header says W"
};

/// What `hailwright readings --suggest` prints: a column map to check and to complete.
struct ProposedFormat {
  char separator = ',';
  char decimal = '.';  ///< 0: to be answered
  int header_line = 1;
  std::vector<std::string> headers;
  std::vector<ProposedColumn> columns;
  std::vector<std::string> left_out;   ///< headers that no role was found for
  std::vector<std::string> to_answer;  ///< "state the zone of the stamps: zone: +02:00"
  std::optional<DateOrder> dates;      ///< where stated
  std::string zone;                    ///< where stated; may be empty
};

/// Proposes a column map from the beginning of a log; nothing, with errors, when it has no header.
/// @param stated  what is known of it already, but for columns; it stands in the proposal
std::optional<ProposedFormat> propose_format(std::string_view beginning, std::uint32_t file,
                                             SourceSet& sources, Diagnostics& notes,
                                             const LogFormat& stated = {});

/// The proposal as YAML, to be kept as a file (`--columns FILE`) or pasted into a record.
std::vector<std::string> format_yaml(const ProposedFormat& proposed);

}  // namespace hailwright
