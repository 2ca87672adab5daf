#pragma once

#include <cstdint>
#include <deque>
#include <map>
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
  /// Keeps a file's text and gives it its number. `name` is what messages print. The same name with
  /// the same text is the same file and keeps its number.
  std::uint32_t add(std::string name, std::string text);
  /// A file too large to keep: only lines given with `keep_line` can be shown. Each call is a file
  /// of its own.
  std::uint32_t add_unkept(std::string name);
  /// Keeps a line of such a file, counted from 1.
  void keep_line(std::uint32_t file, int line, std::string text);

  /// How many files there are: the number of the last one.
  [[nodiscard]] std::uint32_t files() const { return static_cast<std::uint32_t>(files_.size()); }
  [[nodiscard]] const std::string& name(std::uint32_t file) const;
  /// Empty for a file that is not kept.
  [[nodiscard]] const std::string& text(std::uint32_t file) const;
  /// The line without its line break; empty when there is no such line.
  [[nodiscard]] std::string_view line(std::uint32_t file, int line) const;

private:
  struct File {
    std::string name;
    std::string text;
    std::vector<std::size_t> starts;
    std::map<int, std::string> lines;  ///< of a file that is not kept
  };
  [[nodiscard]] const File& at(std::uint32_t file) const;
  std::deque<File> files_;  // a file keeps its place, so views into it stay good
};

/// Number of characters in a UTF-8 text: every byte counts that does not continue a character.
std::size_t count_characters(std::string_view text);

}  // namespace hailwright
