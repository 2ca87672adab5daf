#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <string>

#include "logs/log_cut_stretch.hpp"

namespace hailwright::detail {

/// Cuts stretches out of a log by its column of markers: a stretch is a run of rows with one text
/// that is not empty. The same text again after other rows is another stretch.
class MarkerCutter {
public:
  MarkerCutter(const StretchRules& rules, std::size_t kept_rows) : out_(rules, kept_rows) {}
  void take(const LogBlock& block);
  CutResult finish();

private:
  void take_rows(const LogBlock& block, std::size_t begin, std::size_t end);
  void close();
  std::string new_name(const std::string& text);

  CutStretches out_;
  CutRemarks remarks_;
  std::string text_;  ///< of the rows now
  bool left_out_ = false;
  std::optional<OpenStretch> open_;
  std::map<std::string, int, std::less<>> runs_;  ///< by name
};

}  // namespace hailwright::detail
