#pragma once

#include <string_view>

namespace hailwright {

/// How we know what a source says. Printed beside every number that rests on it.
enum class ReadStatus {
  read,             ///< read on the page named, which may itself be secondary
  computed,         ///< arithmetic from stated inputs
  from_memory,      ///< not readable here; the mark follows the number into every output
  common_practice,  ///< a fact of the trade, no source
  ours              ///< our own engineering proposal, no published source
};

/// "read", "computed", "from memory", "common practice, no source", "ours, no published source".
std::string_view text(ReadStatus status);

/// A source that numbers in this program rest on.
struct Citation {
  std::string_view id;       ///< short, unique, used by rows and outputs
  std::string_view title;    ///< document, edition, year, clause or table
  std::string_view read_at;  ///< where it was read; empty when it was not
  ReadStatus status;
  std::string_view note;  ///< limits and disagreements; may be empty
};

}  // namespace hailwright
