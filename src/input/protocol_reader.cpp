#include "input/protocol_reader.hpp"

#include <fmt/format.h>

#include "input/protocol_launch.hpp"
#include "input/protocol_mark.hpp"
#include "input/protocol_measure.hpp"
#include "input/protocol_safety.hpp"
#include "input/protocol_series.hpp"
#include "input/protocol_speed.hpp"
#include "input/protocol_stresses.hpp"
#include "input/stated_text.hpp"
#include "input/tools_reader.hpp"

namespace hailwright::input {

namespace {

constexpr KeyList protocol_file_keys{
    "the protocol", "hailwright title decide series launch speed ice stresses tools measure "
                    "safety"};
constexpr KeyList decide_keys{"decide", "limit risk rule see see_chance looks judged_on"};

// Ranges [ours]: wide enough for anything meant, narrow enough to catch a slip in the unit.
constexpr Range limit_range{0.0, 0.5, "more than 0 %, less than 50 %", true, true};
constexpr Range risk_range{0.001, 0.10, "from 0.1 % to 10 %"};
constexpr Range see_range{0.0, 0.5, "more than 0 %, up to 50 %", true};
constexpr Range chance_range{0.5, 0.999, "from 50 % to 99.9 %"};
constexpr int most_looks = 3;  // MEASUREMENT M6

DecisionRule read_decide(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, decide_keys, entry.key_span, notes);
  DecisionRule rule;
  rule.origin = entry.key_span;
  rule.limit_origin = map.at("limit");
  map.require("limit", "write the loss above which the panel counts as damaged: limit: 5 %");
  rule.limit = map.quantity<Ratio>("limit", limit_range).value_or(rule.limit);
  rule.risk = map.quantity<Ratio>("risk", risk_range);
  rule.simple = map.choice<bool>("rule", {{"guarded", false}, {"simple", true}}).value_or(false);
  rule.see = map.quantity<Ratio>("see", see_range);
  rule.see_chance = map.quantity<Ratio>("see_chance", chance_range);
  rule.looks = map.count("looks", 1, most_looks).value_or(rule.looks);
  rule.judges_power =
      map.choice<bool>("judged_on", {{"looks and power", true}, {"looks", false}}).value_or(true);
  return rule;
}

std::size_t count_errors(const Diagnostics& notes) {
  std::size_t errors = 0;
  for (const Diagnostic& note : notes.items())
    errors += note.severity == Severity::error ? 1 : 0;
  return errors;
}

bool read_all_series(const MapReader& map, Protocol& protocol, Diagnostics& notes) {
  const std::size_t before = count_errors(notes);
  const bool other_stresses = map.find("stresses") != nullptr;
  const Entry* entry = other_stresses
                           ? map.find("series")
                           : map.require("series", "list the series of shots, weakest first");
  if (entry == nullptr) return other_stresses;
  if (const std::vector<Node>* items = map.list("series")) {
    if (items->empty()) {
      notes.error("K14", entry->value.span, "'series' is an empty list",
                  {"give at least one series of shots"});
    }
    protocol.series = read_series(*items, notes);
  }
  return count_errors(notes) == before && !protocol.series.empty() && !has_gaps(entry->value);
}

bool read_all_stresses(const MapReader& map, Protocol& protocol, Diagnostics& notes) {
  const Entry* entry = map.find("stresses");
  if (entry == nullptr) return true;
  const std::size_t before = count_errors(notes);
  protocol.stresses = read_stresses(map, protocol.series, notes);
  return count_errors(notes) == before && !has_gaps(entry->value);
}

/// Whether balls are thrown at all: beside other stresses the series of shots may be left out.
bool has_hail(const MapReader& map) {
  return map.find("series") != nullptr || map.find("stresses") == nullptr;
}

/// How balls would be thrown, where none are.
void report_no_series(const MapReader& map, Diagnostics& notes) {
  for (const std::string_view key : {"launch", "speed", "ice"}) {
    if (map.find(key) == nullptr) continue;
    notes.error("C48", map.at(key),
                fmt::format("'{}' says nothing: there is no series of shots", key),
                {fmt::format("delete '{}', or add  series:", key)});
  }
}

bool read_measurement(const MapReader& map, Protocol& protocol, Diagnostics& notes) {
  const std::size_t before = count_errors(notes);
  const Entry* measure =
      protocol.decide.judges_power
          ? map.require("measure", "say how the power is measured, or write  judged_on: looks  "
                                   "under decide")
          : map.find("measure");
  if (measure != nullptr) protocol.measure = read_measure(*measure, notes);
  return count_errors(notes) == before && (measure == nullptr || !has_gaps(measure->value));
}

/// The speed is measured between launcher and panel.
void check_base(const Protocol& protocol, Diagnostics& notes) {
  const auto& distance = protocol.launch.distance;
  const auto& to_panel = protocol.speed.to_panel;
  if (!distance || !to_panel || *to_panel <= *distance) return;
  notes
      .error("C34", protocol.speed.origin,
             fmt::format("'to_panel' is {}, farther than the launcher stands ({})",
                         in_unit(*to_panel, "m", 2), in_unit(*distance, "m", 2)),
             {"to_panel runs from the middle of the measured base to the panel"})
      .related.push_back({protocol.launch.origin, "the launcher's distance is given here"});
}

/// Whether the speed is free of errors.
bool read_throwing(const MapReader& map, Protocol& protocol, Diagnostics& notes) {
  std::size_t before = count_errors(notes);
  bool launch_fine = false;
  if (const Entry* e = map.require("launch", "say what throws the balls: launch: {kind: sling}")) {
    protocol.launch = read_launch(*e, notes);
    launch_fine = count_errors(notes) == before && !has_gaps(e->value);
  }
  before = count_errors(notes);
  bool speed_fine = false;
  if (const Entry* e = map.require("speed", "say how the speed is known, as in  speed: {by: trial "
                                            "shots, video: 240 fps, length: 3.00 m}")) {
    protocol.speed = read_speed(*e, launch_fine ? &protocol.launch : nullptr, notes);
    speed_fine = count_errors(notes) == before && !has_gaps(e->value);
  }
  check_base(protocol, notes);
  if (const Entry* e = map.find("ice")) protocol.ice = read_ice(*e, notes);
  return speed_fine;
}

}  // namespace

ProtocolRead read_protocol(const Document& document, Diagnostics& notes) {
  const MapReader map(document.root, protocol_file_keys, document.head(), notes);
  ProtocolRead read;
  Protocol& protocol = read.protocol;
  protocol.origin = document.head();
  protocol.mark = mark_of(document.root);
  map.require("title", "write it as in  title: Small panels, garden hail test");
  protocol.title = map.text("title");
  if (const Entry* e = map.require("decide", "say what counts as damage: decide: {limit: 5 %}"))
    protocol.decide = read_decide(*e, notes);
  read.series_fine = read_all_series(map, protocol, notes);
  read.series_fine = read_all_stresses(map, protocol, notes) && read.series_fine;
  if (has_hail(map)) {
    read.speed_fine = read_throwing(map, protocol, notes);
  } else {
    report_no_series(map, notes);
    read.speed_fine = true;
  }
  if (const Entry* e = map.find("tools")) protocol.tools = read_tools(e->value, e->key_span, notes);
  read.measure_fine = read_measurement(map, protocol, notes);
  if (const Entry* e = map.find("safety")) protocol.safety = read_safety(*e, notes);
  return read;
}

const std::vector<KeyList>& protocol_keys() {
  static const std::vector<KeyList> lists = [] {
    std::vector<KeyList> all{protocol_file_keys, decide_keys,  series_keys,    ball_keys,
                             place_keys,         launch_keys,  speed_keys,     positions_keys,
                             gates_keys,         radar_keys,   sounds_keys,    shutter_keys,
                             ice_keys,           tools_keys,   tool_keys,      sizing_tool_keys,
                             thermometer_keys,   measure_keys, component_keys, uncertainty_keys,
                             value_keys};
    const std::vector<KeyList>& safety = safety_key_lists();
    all.insert(all.end(), safety.begin(), safety.end());
    const std::vector<KeyList> stresses = stress_plan_keys();
    all.insert(all.end(), stresses.begin(), stresses.end());
    return all;
  }();
  return lists;
}

}  // namespace hailwright::input

namespace hailwright {

Checked<Protocol> read_protocol(const std::string& path, const Loader& load, SourceSet& sources) {
  Checked<Protocol> result;
  const auto document =
      input::open_document(path, FileKind::protocol, std::nullopt, load, sources, result.notes);
  if (!document) return result;
  input::ProtocolRead read = input::read_protocol(*document, result.notes);
  if (!result.notes.has_errors()) result.value = std::move(read.protocol);
  return result;
}

}  // namespace hailwright
