#include <fmt/format.h>

#include <algorithm>

#include "evaluate/line_up_numbers.hpp"
#include "evaluate/line_up_traits.hpp"
#include "evaluate/timeline.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/evaluate/line_up.hpp"

namespace hailwright {

namespace {

std::string build_words(Build build) {
  switch (build) {
  case Build::framed_glass:
    return "framed glass";
  case Build::frameless_glass:
    return "frameless glass";
  case Build::flexible:
    return "flexible";
  }
  fail_contract("unknown build");
}

void describe_panel(const Record& record, LineUpEntry& entry) {
  const Panel& panel = record.panel;
  entry.title = record.title;
  entry.date = record.date;
  entry.panel = panel.name;
  entry.serial = record.serial;
  entry.build = build_words(panel.build);
  entry.connector = panel.connector;
  entry.rated = panel.rated_power;
  if (panel.size) entry.area = panel.size->long_side * panel.size->short_side;
  entry.weight = panel.weight;
  entry.lead_length = panel.lead_length;
  entry.price = panel.price;
  entry.lowest_price = panel.lowest_price;
  entry.highest_price = panel.highest_price;
}

void take_words(const Test& test, const Assessment& a, LineUpEntry& entry) {
  for (const SeriesVerdict& v : a.verdicts) {
    const SeriesPlan& plan = test.protocol.series[v.series];
    const SeriesDelivery& d = a.delivery[v.series];
    entry.words.push_back({plan.name, plan.target.label, v.word,
                           static_cast<int>(plan.places.size()), d.places_struck});
  }
  for (const StressVerdict& v : a.stresses) {
    const StressPlan& plan = test.protocol.stresses[test.record.stresses[v.done].stress];
    entry.words.push_back({plan.name, std::string(plan.kind->word), v.word, 0, 0, true});
  }
  entry.hardest_withstood = a.hardest_withstood;
  entry.mildest_damaged = a.mildest_damaged;
}

LineUpGap gap_of(const PowerResult* power) {
  if (power == nullptr) return LineUpGap::not_compared;
  if (!power->estimated()) return LineUpGap::obstacle;
  if (!power->valid) return LineUpGap::not_valid;
  return power->decides ? LineUpGap::none : LineUpGap::not_deciding;
}

/// From the untouched panel to the last stage read: of several things done, the judgement compares
/// each with the stage before it alone.
std::optional<PowerResult> whole_comparison(const Test& test, const Assessment& a) {
  if (a.power.empty() && a.stress_power.empty()) return std::nullopt;
  const PowerResult& last = a.stress_power.empty() ? a.power.back() : a.stress_power.back();
  if (test.record.stresses.empty()) return last;
  const StageId before{StageKind::before, 0};
  const Timeline timeline(test.record);
  const StageId end = timeline.last_stage_by(timeline.size());
  if (last.stage == end && last.from == before) return last;
  Assumptions own;
  return judge_power(test, end, own, std::nullopt, before, Extent::verdicts);
}

/// The numbers of a comparison as far as they count.
void take_loss(const Test& test, const PowerResult& power, LineUpEntry& entry) {
  entry.stage = stage_words(test.protocol, power.stage);
  entry.limit = power.limit;
  if (entry.gap == LineUpGap::obstacle) entry.gap_text = power.obstacle_subject;
  if (entry.gap != LineUpGap::none && entry.gap != LineUpGap::not_deciding) return;
  entry.loss = power.estimate;
  entry.smallest_shown = power.smallest_shown;
  if (entry.gap == LineUpGap::none) entry.answers = power.answers;
}

}  // namespace

LineUpEntry line_up_entry(const Test& test, const Assessment& assessment, std::string path) {
  LineUpEntry entry;
  entry.path = std::move(path);
  describe_panel(test.record, entry);
  take_words(test, assessment, entry);
  entry.traits = line_up_traits(test, assessment);
  const std::optional<PowerResult> whole = whole_comparison(test, assessment);
  const PowerResult* power = whole ? &*whole : nullptr;
  entry.gap = gap_of(power);
  if (power != nullptr) take_loss(test, *power, entry);
  entry.numbers = line_up_numbers(test, entry.gap == LineUpGap::none ? power : nullptr);
  if (auto shaded = line_up_shading(test, assessment.shading)) {
    entry.shade = std::move(shaded->shade);
    entry.numbers.emplace(LineUpQuantity::shading_loss, std::move(shaded->left));
  }
  entry.cautions = assessment.cautions;
  return entry;
}

}  // namespace hailwright
