#pragma once

#include <string>
#include <vector>

namespace hailwright::cli {

struct ThresholdOptions {
  std::string specimens;
  std::string protocol;  ///< empty: the one that the file names, if it names one
  std::vector<std::string> panels;
  std::string format = "text";
};

/// Exit code 4 where a protocol is named and its gate stays closed.
int run_threshold(const ThresholdOptions& options);

}  // namespace hailwright::cli
