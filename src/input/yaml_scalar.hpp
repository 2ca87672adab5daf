#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/source.hpp"
#include "input/yaml_cursor.hpp"

namespace hailwright::input {

/// Byte offset to line and column. Counts once: a text may be one line of a megabyte.
class Places {
public:
  Places(std::uint32_t file, std::string_view text);
  [[nodiscard]] SourceSpan at(std::size_t offset, std::size_t bytes) const;
  [[nodiscard]] std::string_view text() const { return text_; }
  /// From an offset to the end of its line.
  [[nodiscard]] std::string_view rest_of_line(std::size_t offset) const;

private:
  [[nodiscard]] std::size_t line_of(std::size_t offset) const;
  std::uint32_t file_;
  std::string_view text_;
  std::vector<std::size_t> starts_{0};
  std::vector<std::size_t> characters_;  ///< before each byte
};

/// A text with how it stands in the file.
struct WrittenText {
  Node node;
  std::size_t end = 0;  ///< byte behind it on its first line
  bool quote_open = false;
};

/// Finds out how a text whose value the parser took is written at an offset: plain, quoted or as a
/// block, from where to where, and whether its characters stand there one by one. The parser gives
/// only the offset, and takes a quote that never closes.
WrittenText written_text(const Places& places, std::size_t at, const std::string& value);

}  // namespace hailwright::input
