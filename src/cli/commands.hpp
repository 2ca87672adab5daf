#pragma once

#include <string>
#include <vector>

#include "cli/judging.hpp"
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
  JudgingOptions judging;
  bool strict = false;
  bool explain = false;
  std::string format = "text";
};
struct CheckOptions {
  std::vector<std::string> files;
  std::string schema;  ///< a kind of file, whose schema is printed instead
};

/// Each runs one command on standard output and gives the exit code.
int run_grades(const GradesOptions& options);
int run_sources(const SourcesOptions& options);
int run_shot(const ShotOptions& options);
int run_judge(const JudgeOptions& options);
int run_check(const CheckOptions& options);

}  // namespace hailwright::cli
