#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "logs/row_keeper.hpp"
#include "logs/row_windows.hpp"
#include "logs/stretch_sums.hpp"

namespace hailwright::detail {

/// The window of the steady rule unless it is stated: a minute, or six usual steps where that is
/// longer, since fewer rows do not show that nothing changed. [ours]
Time usual_steady_window(double usual_step_s);

/// Sorts the windows of a stretch into steady ones, whose sums it keeps, and others, which it
/// counts by the first test that they fail:
/// 1. cut short or with a gap: a step longer than the longest gap inside or at either end, fewer
/// than three
///    rows with irradiance, no sun (mean of 0 or less), or no row in its first or last third;
/// 2. irradiance changed: (largest - smallest) / mean;
/// 3. irradiance drifted: mean of the last third against that of the first, over the mean;
/// 4. temperature changed: largest less smallest, of either panel, where there is one.
/// The last window counts when it is at least half a window long and steady; its thirds are those
/// of what is there, to a sixth of a window. Otherwise it is broken.
/// Works on sums alone: no row is held, however many a window has.
class SteadyWindows {
public:
  SteadyWindows(const SteadyRule& rule, std::int64_t longest_gap_us);

  void take(const StretchRows& rows, std::size_t begin, std::size_t end, RowKeeper& keeper);
  void finish(RowKeeper& keeper);

  [[nodiscard]] const StretchSums& kept() const { return kept_; }
  [[nodiscard]] const SteadyTally& tally() const { return tally_; }

private:
  static constexpr std::int64_t parts = 6;

  struct Window {
    std::int64_t rows = 0;
    std::int64_t first_us = 0, last_us = 0;
    bool gap = false;
    std::array<ColumnTotal, parts> irradiance;  ///< by sixths
    StretchSums sums;
  };
  enum class Answer { steady, broken, irradiance, ramp, temperature };

  void add(const StretchRows& rows, std::size_t begin, std::size_t end);
  void add_irradiance(const StretchRows& rows, std::size_t begin, std::size_t end);
  void close(bool last, RowKeeper& keeper);
  [[nodiscard]] bool broken(bool last) const;
  [[nodiscard]] double drift(bool last) const;
  [[nodiscard]] Answer judge(bool last) const;

  SteadyRule rule_;
  std::int64_t longest_gap_us_;
  RowWindows windows_;
  Window window_;
  bool before_kept_ = false;  ///< the window before was kept
  StretchSums kept_;
  SteadyTally tally_;
};

}  // namespace hailwright::detail
