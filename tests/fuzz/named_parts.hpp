#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/input/readers.hpp"

namespace hailwright::fuzzing {

/// One fuzz input as several files: a line `--- name` begins a file of that name, and what stands
/// before the first such line is the main file. No file of ours has a line of that form in it.
class NamedParts {
public:
  NamedParts(std::string_view input, std::string main_name);

  [[nodiscard]] const std::string& main_name() const { return main_name_; }
  [[nodiscard]] const std::string& main_text() const { return parts_.at(main_name_); }
  [[nodiscard]] bool has(const std::string& name) const { return parts_.contains(name); }
  /// A file that the input need not bring along.
  void add_unless_there(const std::string& name, std::string_view text);

  /// Both refer to this object.
  [[nodiscard]] Loader loader() const;
  [[nodiscard]] LogOpener log_opener() const;

private:
  [[nodiscard]] const std::string* find(const std::string& path) const;

  std::string main_name_;
  std::map<std::string, std::string> parts_;
};

/// The bytes of a text, a few at a time, as a pipe gives them. Refers to the text.
LogBytes bytes_of(const std::string& text);

/// Renders all messages, as the program does before it goes on or ends.
void say(const Diagnostics& notes, const SourceSet& sources);

/// The input as characters.
std::string_view text_of(const std::uint8_t* data, std::size_t size);

/// One input in so many takes the slow way too, always the same ones: FNV-1a over its bytes.
bool one_in(unsigned share, std::string_view input);

/// Ends the program, as a finding, where a promise does not hold.
void require(bool holds, const char* promise);

}  // namespace hailwright::fuzzing
