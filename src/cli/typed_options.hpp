#pragma once

#include <string>
#include <vector>

namespace hailwright::cli {

/// An option or a positional argument of a command, as typed; "true" stands in that of a flag.
struct TypedOption {
  std::string name;  ///< "--format", or "RECORD" for what has no dashes
  std::vector<std::string> values;
};

/// What is typed with nothing in it: `--limit ''` is not the same as none, and no file has the name
/// ''. Messages, or an empty text.
std::string empty_options(const std::vector<TypedOption>& typed);

/// Options that change nothing beside the others of the same command line: nobody is left to
/// believe that they did. Messages, or an empty text.
/// @param command  "judge"
std::string idle_options(const std::string& command, const std::vector<TypedOption>& typed);

}  // namespace hailwright::cli
