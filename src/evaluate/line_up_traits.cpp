#include "evaluate/line_up_traits.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

void append(std::string& list, const std::string& item) {
  if (!list.empty()) list += "; ";
  list += item;
}

/// "11 places", or by their names where these are not numbers alone: a corner is no middle.
std::string places_words(const SeriesPlan& plan) {
  const auto numbered = [](const Place& place) {
    return place.name.find_first_not_of("0123456789") == std::string::npos;
  };
  const std::size_t count = plan.places.size();
  std::string text = fmt::format("{} {}", count, count == 1 ? "place" : "places");
  if (std::all_of(plan.places.begin(), plan.places.end(), numbered)) return text;
  std::string names;
  for (const Place& place : plan.places)
    names += (names.empty() ? "" : ", ") + place.name;
  return fmt::format("{} ({})", text, names);
}

/// Two labels may stand for one free target, and one for two tolerances.
std::string series_words(const Protocol& protocol) {
  std::string text;
  for (const SeriesPlan& plan : protocol.series) {
    std::string one = fmt::format("{} at {}", plan.target.label, places_words(plan));
    if (plan.target.tolerance)
      one += fmt::format(" within {} %", 100.0 * plan.target.tolerance->si());
    append(text, one);
  }
  for (const StressPlan& stress : protocol.stresses) {
    std::string typed;
    for (const auto& [key, value] : stress.values)
      typed += fmt::format("{}{} {}", typed.empty() ? "" : ", ", key, value.text);
    append(text, fmt::format("{} ({})", stress.kind->word, typed));
  }
  return text.empty() ? "none" : text;
}

std::string comparison_words(const Protocol& protocol) {
  if (!protocol.decide.judges_power) return "none: judged on looks alone";
  switch (protocol.measure.compare) {
  case Comparison::same_panel:
    return "same-panel";
  case Comparison::control_panel:
    return "control-panel";
  case Comparison::sibling_panel:
    return "sibling-panel";
  }
  fail_contract("unknown comparison");
}

std::string limit_words(const DecisionRule& decide) {
  return decide.judges_power ? fmt::format("{:.6g} %", 100.0 * decide.limit.si()) : "none";
}

/// Counted, since two protocols may name one series differently; after the last series is after
/// all.
std::string point_words(const Protocol& protocol, StageId stage) {
  if (stage.kind != StageKind::after && stage.kind != StageKind::after_series)
    return stage_words(protocol, stage);
  const std::size_t count = protocol.series.size();
  const std::size_t number = stage.kind == StageKind::after_series ? stage.series + 1 : count;
  return number == count ? "after the last series" : fmt::format("after series {}", number);
}

std::string stages_words(const Protocol& protocol, const Assessment& assessment) {
  std::string text;
  std::string last;
  const auto add = [&](const PowerResult& p) {
    std::string one = point_words(protocol, p.stage);
    if (p.from.kind != StageKind::before)
      one += fmt::format(" (against {})", point_words(protocol, p.from));
    if (one != last) append(text, one);
    last = one;
  };
  std::for_each(assessment.power.begin(), assessment.power.end(), add);
  std::for_each(assessment.stress_power.begin(), assessment.stress_power.end(), add);
  return text.empty() ? "none" : text;
}

}  // namespace

std::string stage_words(const Protocol& protocol, StageId stage) {
  switch (stage.kind) {
  case StageKind::before:
    return "before";
  case StageKind::baseline:
    return "baseline";
  case StageKind::later:
    return "later";
  case StageKind::after:
    return "after";
  case StageKind::after_series:
    return "after " + protocol.series[stage.series].name;
  case StageKind::after_stress:
    return "after " + protocol.stresses[stage.series].name;
  }
  fail_contract("unknown stage");
}

std::vector<LineUpTrait> line_up_traits(const Test& test, const Assessment& assessment) {
  return {{"series", series_words(test.protocol)},
          {"comparison", comparison_words(test.protocol)},
          {"limit", limit_words(test.protocol.decide)},
          {"stages", stages_words(test.protocol, assessment)}};
}

}  // namespace hailwright
