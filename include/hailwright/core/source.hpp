#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace hailwright {

/// A place in an input file. Every parsed item keeps one for life, so that any later stage can
/// point at the line. Lines and columns count from 1; columns count characters, not bytes.
/// line 0 means the whole file; file 0 means "no file" (a command-line argument).
struct SourceSpan {
  std::uint32_t file = 0;
  int line = 0;
  int column = 0;
  int length = 0;
};

/// The texts of all input files of a run, by number.
class SourceSet {
public:
  /// Keeps a file's text and gives it its number. `name` is what messages print.
  std::uint32_t add(std::string name, std::string text);

  [[nodiscard]] const std::string& name(std::uint32_t file) const;
  [[nodiscard]] const std::string& text(std::uint32_t file) const;
  /// The line without its line break; empty when there is no such line.
  [[nodiscard]] std::string_view line(std::uint32_t file, int line) const;

private:
  struct File {
    std::string name;
    std::string text;
    std::vector<std::size_t> starts;
  };
  const File& file(std::uint32_t number) const;
  std::vector<File> files_;
};

/// Number of characters (UTF-8 code points) in a text; bytes that are not UTF-8 count one each.
std::size_t count_characters(std::string_view text);

}  // namespace hailwright
