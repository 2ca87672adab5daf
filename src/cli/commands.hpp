#pragma once

#include <string>
#include <vector>

#include "cli/shot_options.hpp"

namespace hailwright::cli {

struct GradesOptions {
  std::string scheme;
  std::string format = "text";
};
struct SourcesOptions {
  std::string format = "text";
};
struct JudgeOptions {
  std::vector<std::string> records;
  bool strict = false;
  bool explain = false;
  bool shortest = false;
  std::string trials = "1000000";  ///< a number, 0 for none, or "adaptive"
  std::string seed = "1";
  std::string threads;  ///< empty: as many as the processor has cores
  std::string format = "text";
};
struct CheckOptions {
  std::vector<std::string> files;
};

/// Each runs one command on standard output and gives the exit code.
int run_grades(const GradesOptions& options);
int run_sources(const SourcesOptions& options);
int run_shot(const ShotOptions& options);
int run_judge(const JudgeOptions& options);
int run_check(const CheckOptions& options);

}  // namespace hailwright::cli
