#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"

namespace hailwright::detail {

/// A line of a log's beginning, without line break and byte order mark.
struct HeadLine {
  int number = 0;  ///< counts from 1
  std::string_view text;
};

/// One cell without quotes and without the blanks around it.
struct HeadCell {
  std::string text;
  std::size_t offset = 0;  ///< bytes of the line
  std::size_t length = 0;
};

/// What a cell holds, as far as one can see without knowing its column.
enum class CellKind {
  blank,
  number,  ///< with a point, or without decimals
  comma_number,
  stamp,  ///< date and time of day
  date,
  clock,
  words
};

/// The whole lines of a beginning but blank ones and comments (`#`). A last line without a line
/// break counts.
std::vector<HeadLine> lines_of(std::string_view beginning);
/// None when the line's quotes do not close.
std::vector<HeadCell> cells_of(std::string_view line, char separator);
CellKind kind_of(std::string_view cell);

std::string trimmed(std::string_view text);

/// Messages about a log's beginning. The lines they show are kept.
class HeadNotes {
public:
  HeadNotes(std::uint32_t file, SourceSet& sources, Diagnostics& notes)
      : file_(file), sources_(sources), notes_(notes) {}

  Diagnostic& error(std::string_view code, const HeadLine& line, const HeadCell& cell,
                    std::string message, std::vector<std::string> hints);
  /// The same of all of a line, or of the whole file where `line` has no number.
  Diagnostic& error(std::string_view code, const HeadLine& line, std::string message,
                    std::vector<std::string> hints);
  /// About what was stated elsewhere.
  Diagnostic& error(std::string_view code, SourceSpan where, std::string message,
                    std::vector<std::string> hints);
  SourceSpan span(const HeadLine& line, const HeadCell& cell);
  Diagnostics& notes() { return notes_; }

private:
  std::uint32_t file_;
  SourceSet& sources_;
  Diagnostics& notes_;
};

}  // namespace hailwright::detail
