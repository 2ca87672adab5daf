#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/logs/log_format.hpp"

namespace hailwright {

/// A row that could not be read, or a thing to be warned of, at its place.
struct LogProblem {
  std::string_view code;  ///< as in docs/errors.md
  int line = 0;           ///< in a `LogBlock` of the parser: from 0 at the block's first line
  int column = 0;         ///< in characters, from 1
  int length = 0;
  std::string message;
  std::vector<std::string> hints;
  std::string text;  ///< the line, cut when it is long
};

/// How many problems of a code a block has.
struct ProblemCount {
  std::string_view code;
  std::uint32_t count = 0;
  std::uint32_t last_line = 0;  ///< of the last of them; counts as `LogProblem::line`
};

/// From this row on the rows carry this marker, until the next change.
struct MarkerChange {
  std::size_t row = 0;
  std::string text;
};

/// Rows of a log, column by column. Rows that could not be read are not in it.
struct LogBlock {
  /// Microseconds since 1970-01-01T00:00: in UTC once `LogStream` gave it; as the stamp is written
  /// before that, unless stamps carry their offset.
  std::vector<std::int64_t> time_us;
  /// By role, in SI; NaN where the cell is blank. Empty where the file has no such column. Power is
  /// there also when it was made of voltage and current.
  std::array<std::vector<double>, log_roles> values;
  std::vector<std::uint32_t> line;  ///< of each row; from 0 at the block's first line
  std::vector<MarkerChange> markers;
  std::int64_t first_line = 1;  ///< of the block in its file, counted from 1; set by `LogStream`
  std::size_t file = 0;         ///< index of the file
  bool begins_file = false;

  // What was met on the way. `lines` counts all lines of the block.
  std::uint32_t lines = 0;
  std::uint32_t unreadable = 0;  ///< rows
  std::uint32_t comments = 0;    ///< lines that begin with '#', and blank ones
  std::uint32_t repeated_headers = 0;
  std::size_t bytes = 0;
  std::vector<LogProblem> problems;   ///< the first of each code; see `most_problems`
  std::vector<ProblemCount> counted;  ///< all, by code

  [[nodiscard]] std::size_t rows() const { return time_us.size(); }
  [[nodiscard]] const std::vector<double>& column(LogRole role) const {
    return values[index_of(role)];
  }
  /// Empties it and keeps its memory.
  void clear();
};

/// So many problems of one code are told one by one, of a block and of a log; all are counted.
inline constexpr std::size_t most_problems = 20;

}  // namespace hailwright
