#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/logs/log_block.hpp"
#include "hailwright/logs/log_stream.hpp"

namespace hailwright::detail {

/// The messages of a log: of each code the first ones at their places, then how many more there
/// were, and in the end whether more rows could not be used than are tolerated.
class LogNotes {
public:
  LogNotes(SourceSet& sources, std::int64_t tolerated) : sources_(sources), tolerated_(tolerated) {}

  /// The problems of a block of this file.
  void add(const LogBlock& block, std::uint32_t file);
  void append(Diagnostics other) { notes_.append(std::move(other)); }
  void error(std::string_view code, SourceSpan where, std::string message,
             std::vector<std::string> hints);
  /// Says what can be said only in the end. `given_up`: all rows so far were unreadable.
  void finish(const LogTally& tally, bool given_up);

  [[nodiscard]] const Diagnostics& notes() const { return notes_; }
  /// All problems so far, by code.
  [[nodiscard]] const std::map<std::string_view, std::int64_t>& counts() const { return counts_; }

private:
  struct Place {
    std::uint32_t file = 0;
    std::int64_t line = 0;
  };
  void tell_first(const LogBlock& block, std::uint32_t file);
  void say_how_many_more();
  void raise_to_errors();

  SourceSet& sources_;
  std::int64_t tolerated_;
  Diagnostics notes_;
  std::map<std::string_view, std::int64_t> counts_;
  std::map<std::string_view, std::size_t> told_;
  std::map<std::string_view, Place> last_;
  std::optional<Place> first_unusable_;
};

}  // namespace hailwright::detail
