#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "logs/log_cut_stretch.hpp"

namespace hailwright::detail {

/// So many rows in a row below `load_on` end a plateau however short they last [ours]: they are
/// held back until it shows whether the load comes on again.
inline constexpr std::size_t most_rows_off = std::size_t{1} << 18U;

/// Cuts stretches out of a log by the panel's power. Two rows at or above `load_on` belong to one
/// stretch when less than `shortest_off` lies between them, and with them the rows between, which
/// a cloud may have darkened. Where no row lies between them, a step that is no gap parts nothing:
/// a log with a row a minute has no shorter ones. A blank power is no sign of a load.
class PlateauCutter {
public:
  PlateauCutter(const PlateauRule& plateaus, const StretchRules& rules, std::size_t kept_rows);
  void take(const LogBlock& block);
  CutResult finish();

private:
  void take_on(const LogBlock& block, std::size_t begin, std::size_t end);
  void hold_back(const LogBlock& block, std::size_t begin, std::size_t end);
  [[nodiscard]] std::size_t end_of_on(const LogBlock& block, std::size_t begin) const;
  [[nodiscard]] std::size_t end_of_off(const LogBlock& block, std::size_t begin) const;
  void close();

  PlateauRule plateaus_;
  double load_on_w_;
  std::int64_t shortest_off_us_;
  std::int64_t unseen_off_us_;  ///< the same between neighbouring rows: the longest gap, if longer
  CutStretches out_;
  CutRemarks remarks_;
  std::optional<OpenStretch> open_;
  std::int64_t last_on_us_ = 0;
  std::vector<LogBlock> held_;  ///< rows since the last one with the load on
  std::size_t rows_held_ = 0;
};

}  // namespace hailwright::detail
