#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "hailwright/core/diagnostic.hpp"

namespace hailwright::input {

/// Where and why the YAML parser gave up, in its words.
struct ParserFailure {
  std::size_t offset = 0;  ///< byte
  std::string message;
  std::optional<std::size_t> open_bracket;  ///< byte of the innermost `{` or `[` not closed yet
};

/// Says in plain words what is wrong with the text where the parser gave up, and the mend.
Diagnostic explain(const ParserFailure& failure, std::uint32_t file, std::string_view text);

/// A `{` or `[` at a byte of the text that is not closed.
Diagnostic not_closed(std::size_t bracket, SourceSpan where, std::string_view text);

}  // namespace hailwright::input
