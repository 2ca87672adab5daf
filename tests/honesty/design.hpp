#pragma once

#include <string>
#include <vector>

namespace hailwright::honesty {

/// Ways to compare that a protocol can ask for, each with its own path through the judging.
enum class Kind {
  same_panel,       ///< K set-ups before and after, one day a stage
  same_panel_days,  ///< the same, each set-up on a day of its own
  control_beside,   ///< an unstruck panel beside it, two meters
  control_in_turn,  ///< the same with one meter, there and back
  siblings,         ///< against K unstruck units, nothing read before the shots
  fitted_trend,     ///< as same_panel, a straight line in time taken out
  with_baseline,    ///< as same_panel, and three more set-ups that only show scatter
  stated_scatter    ///< one set-up a stage of K readings; its scatter is stated
};

/// A test as it is laid out, without a figure in it.
struct Design {
  Kind kind = Kind::same_panel;
  int count = 4;  ///< K
};

bool has_control(const Design& design);
bool has_siblings(const Design& design);

/// One set-up.
struct LaidSetup {
  std::string name;  ///< "before 1"
  std::string date;  ///< ISO 8601
  int stage = 0;     ///< 0 before the shots, 1 after them
  int day = 0;       ///< set-ups of one number share a sky
  int minute = 0;    ///< of its first reading, in the day
};

/// One reading to be taken.
struct LaidReading {
  std::size_t setup = 0;
  std::size_t panel = 0;  ///< 0 the struck one
  int minute = 0;         ///< of the day
  int round = 1;
};

struct Layout {
  std::vector<LaidSetup> setups;
  std::vector<LaidReading> readings;  ///< in the order of the table
  std::size_t panels = 1;
  int days = 0;
};

/// The day on which the panel is struck; all set-ups are on it that have no day of their own.
inline constexpr const char* shot_date = "2026-06-14";

Layout lay_out(const Design& design);

}  // namespace hailwright::honesty
