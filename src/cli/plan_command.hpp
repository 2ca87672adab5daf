#pragma once

#include <string>
#include <vector>

namespace hailwright::cli {

struct PlanOptions {
  std::string protocol;
  std::vector<std::string> panels;
  bool estimate_only = false;
  std::string order = "spread";
  std::string seed;
  std::string folder;    ///< writes all formats and pictures there
  bool replace = false;  ///< files that are there already
  std::string format = "text";
};

int run_plan(const PlanOptions& options);

}  // namespace hailwright::cli
