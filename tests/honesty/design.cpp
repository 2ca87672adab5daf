#include "honesty/design.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace hailwright::honesty {

namespace {

constexpr int baseline_setups = 3;
constexpr int sibling_setups = 2;
constexpr int first_after = 13 * 60;  // minute of the day
constexpr int between_setups = 30;

class Layer {
public:
  explicit Layer(const Design& design) : design_(design) {
    const auto units = static_cast<std::size_t>(design.count);
    if (has_control(design)) layout_.panels = 2;
    if (has_siblings(design)) layout_.panels = 1 + units;
  }

  Layout lay() {
    const bool once = design_.kind == Kind::stated_scatter;
    const int setups = once ? 1 : has_siblings(design_) ? sibling_setups : design_.count;
    if (design_.kind == Kind::with_baseline) stage("baseline", 0, baseline_setups, 5 * 60);
    if (!has_siblings(design_)) stage("before", 0, setups, 8 * 60);
    stage("after", 1, setups, first_after);
    for (const LaidSetup& s : layout_.setups)
      layout_.days = std::max(layout_.days, s.day + 1);
    return std::move(layout_);
  }

private:
  void stage(const char* word, int stage, int setups, int first_minute) {
    const bool days = design_.kind == Kind::same_panel_days;
    for (int k = 0; k < setups; ++k) {
      LaidSetup s;
      s.name = fmt::format("{} {}", word, k + 1);
      s.stage = stage;
      s.day = days ? stage * setups + k : stage;
      s.date = days ? fmt::format("2026-06-{:02}", (stage == 0 ? 1 : 15) + k) : shot_date;
      s.minute = days ? first_after : first_minute + between_setups * k;
      layout_.setups.push_back(s);
      read(s.minute);
    }
  }

  /// Panels read at once share a minute; in turn, they are read there and back.
  void read(int first_minute) {
    const int rounds = layout_.panels > 1                     ? 2
                       : design_.kind == Kind::stated_scatter ? design_.count
                                                              : 3;
    const bool in_turn = layout_.panels > 1 && design_.kind != Kind::control_beside;
    int minute = first_minute;
    for (int round = 1; round <= rounds; ++round) {
      for (std::size_t i = 0; i < layout_.panels; ++i) {
        const bool back = in_turn && round % 2 == 0;
        const std::size_t panel = back ? layout_.panels - 1 - i : i;
        layout_.readings.push_back({layout_.setups.size() - 1, panel, minute, round});
        if (in_turn) ++minute;
      }
      if (!in_turn) ++minute;
    }
  }

  const Design& design_;
  Layout layout_;
};

}  // namespace

bool has_control(const Design& design) {
  return design.kind == Kind::control_beside || design.kind == Kind::control_in_turn;
}

bool has_siblings(const Design& design) {
  return design.kind == Kind::siblings;
}

Layout lay_out(const Design& design) {
  return Layer(design).lay();
}

}  // namespace hailwright::honesty
