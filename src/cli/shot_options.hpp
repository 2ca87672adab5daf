#pragma once

#include <string>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/report/compose.hpp"

namespace hailwright::cli {

/// A quantity of the command line with what is said about its error.
struct StatedOption {
  std::string value;
  std::string accuracy;  ///< half-width, in % or in the quantity's own unit
  std::string spread;    ///< standard deviation, likewise
};

struct ShotOptions {
  StatedOption diameter, mass, speed;
  std::string angle;
  std::string scheme = "IEC 61215";
  std::string format = "text";
};

/// The options as quantities; every mistake is named.
Checked<ShotQuestion> read_shot_options(const ShotOptions& options);

}  // namespace hailwright::cli
