#pragma once

#include <variant>

#include "logs/log_cut_markers.hpp"
#include "logs/log_cut_plateaus.hpp"
#include "logs/log_cut_times.hpp"

namespace hailwright::detail {

/// Cuts stretches out of a log in the way that is asked for; of the whole there are none to cut.
class LogCutter {
public:
  explicit LogCutter(const LogQuestion& question);
  void take(const LogBlock& block);
  CutResult finish();

private:
  std::variant<std::monostate, TimeCutter, MarkerCutter, PlateauCutter> cutter_;
};

}  // namespace hailwright::detail
