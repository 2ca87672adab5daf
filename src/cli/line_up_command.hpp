#pragma once

#include <string>
#include <vector>

namespace hailwright::cli {

struct LineUpOptions {
  std::vector<std::string> records;
  std::string columns;  ///< words with commas between them, or "all"; empty: the usual ones
  std::string sort = "loss";
  std::string format = "text";
  std::string folder;  ///< empty: one format, on standard output
  bool replace = false;
  std::string title = "Panels side by side";
};

/// Sets the panels of some records side by side, on standard output or in a folder.
int run_line_up(const LineUpOptions& options);

}  // namespace hailwright::cli
