#include "input/protocol_reader.hpp"

#include <fmt/format.h>

#include "input/protocol_measure.hpp"
#include "input/protocol_series.hpp"
#include "input/stated_text.hpp"
#include "input/tools_reader.hpp"

namespace hailwright::input {

namespace {

constexpr KeyList top_keys{"the protocol",
                           "hailwright title decide series launch speed ice tools measure safety"};
constexpr KeyList decide_keys{"decide", "limit risk see see_chance judged_on"};
constexpr KeyList launch_keys{"launch", "kind distance height aim"};
constexpr KeyList speed_keys{"speed", "by video length length_accuracy parallax accuracy spread "
                                      "within uncertainty to_panel drift rate_accuracy"};
constexpr KeyList ice_keys{"ice", "water freezer weigh"};
constexpr KeyList safety_keys{"safety", "launcher people ground eyes panel ice after agreed"};

// Ranges [ours]: wide enough for anything meant, narrow enough to catch a slip in the unit.
constexpr Range limit_range{0.0, 0.5, "more than 0 %, less than 50 %", true, true};
constexpr Range risk_range{0.001, 0.10, "from 0.1 % to 10 %"};
constexpr Range see_range{0.0, 0.5, "more than 0 %, up to 50 %", true};
constexpr Range chance_range{0.5, 0.999, "from 50 % to 99.9 %"};
constexpr Range distance_range{0.0, 100.0, "more than 0 m, up to 100 m", true};
constexpr Range height_range{0.0, 100.0, "from 0 m to 100 m"};
constexpr Range video_range{1.0, 100000.0, "from 1 fps to 100000 fps"};
constexpr Range base_range{0.01, 50.0, "from 10 mm to 50 m"};
constexpr Range to_panel_range{0.0, 100.0, "from 0 m to 100 m"};
constexpr Range parallax_range{0.0, 0.2, "from 0 % to 20 %"};
constexpr Range drift_range{0.0, 0.5, "from 0 % to 50 %"};
constexpr Range freezer_range{193.15, 273.15, "from -80 degC to 0 degC"};

DecisionRule read_decide(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, decide_keys, entry.key_span, notes);
  DecisionRule rule;
  rule.origin = entry.key_span;
  rule.limit_origin = map.at("limit");
  map.require("limit", "write the loss above which the panel counts as damaged: limit: 5 %");
  rule.limit = map.quantity<Ratio>("limit", limit_range).value_or(rule.limit);
  rule.risk = map.quantity<Ratio>("risk", risk_range);
  rule.see = map.quantity<Ratio>("see", see_range);
  rule.see_chance = map.quantity<Ratio>("see_chance", chance_range);
  rule.judges_power =
      map.choice<bool>("judged_on", {{"looks and power", true}, {"looks", false}}).value_or(true);
  return rule;
}

Launch read_launch(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, launch_keys, entry.key_span, notes);
  Launch launch;
  launch.origin = entry.key_span;
  map.require("kind", "write what throws the balls, as in  kind: sling");
  launch.kind = map.choice<Launcher>("kind", {{"sling", Launcher::sling},
                                              {"elastic", Launcher::elastic},
                                              {"spring", Launcher::spring},
                                              {"compressed air", Launcher::compressed_air},
                                              {"ball machine", Launcher::ball_machine},
                                              {"drop", Launcher::drop},
                                              {"thrown by hand", Launcher::throw_by_hand},
                                              {"other", Launcher::other}})
                    .value_or(Launcher::other);
  launch.distance = map.quantity<Length>("distance", distance_range);
  launch.height = map.quantity<Length>("height", height_range);
  launch.aim = map.text("aim");
  return launch;
}

void check_video(const MapReader& map) {
  const Entry* video = map.find("video");
  const Entry* length = map.find("length");
  if ((video == nullptr) == (length == nullptr)) return;
  const Entry* given = video != nullptr ? video : length;
  map.notes().error("C03", given->key_span,
                    fmt::format("'{}' says nothing without '{}'", given->key,
                                video != nullptr ? "length" : "video"),
                    {"frames over a known length give a speed: write  video: 240 fps  and  "
                     "length: 3.00 m"});
}

SpeedMethod read_speed(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, speed_keys, entry.key_span, notes);
  SpeedMethod speed;
  speed.origin = entry.key_span;
  map.require("by", "write trial shots, or each shot if the speed of every shot is measured");
  speed.by = map.choice<SpeedSource>("by", {{"trial shots", SpeedSource::trial_shots},
                                            {"each shot", SpeedSource::each_shot}})
                 .value_or(SpeedSource::trial_shots);
  check_video(map);
  speed.video = map.quantity<FrameRate>("video", video_range);
  speed.length = map.quantity<Length>("length", base_range);
  if (const Entry* error = map.find("length_accuracy")) {
    speed.length_error = stated_as<Length>(
        read_accuracy(error->value, "'length_accuracy'", {Measure::length, true, false}, notes));
  }
  speed.parallax = map.quantity<Ratio>("parallax", parallax_range);
  speed.error = stated_as<Speed>(read_statement(map, {Measure::speed, true, false}));
  speed.to_panel = map.quantity<Length>("to_panel", to_panel_range);
  speed.drift = map.quantity<Ratio>("drift", drift_range);
  speed.rate = map.quantity<Ratio>("rate_accuracy", drift_range);
  return speed;
}

void read_ice(const Entry& entry, Protocol& protocol, Diagnostics& notes) {
  const MapReader map(entry.value, ice_keys, entry.key_span, notes);
  protocol.ice_water = map.text("water");
  protocol.freezer = map.quantity<TemperaturePoint>("freezer", freezer_range);
  protocol.ice_weighed = map.text("weigh");
}

/// Keeps the answers as text; what they must say is not the reader's business.
SafetyAnswers read_safety(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, safety_keys, entry.key_span, notes);
  SafetyAnswers answers;
  answers.origin = entry.key_span;
  for (const std::string& block : words_of(safety_keys.keys)) {
    const Entry* given = map.find(block);
    if (given == nullptr || given->value.kind == NodeKind::broken) continue;
    if (given->value.kind != NodeKind::map) {
      notes.error("K05", given->value.span,
                  fmt::format("'{}' must be {}, found {}", block, name(NodeKind::map),
                              name(given->value.kind)),
                  {"write it as in  launcher: {released_by: a cord from the side}"});
      continue;
    }
    for (const Entry& answer : given->value.entries) {
      const auto text = read_text(answer.value, fmt::format("'{}'", answer.key), notes);
      if (!text) continue;
      answers.blocks[block][answer.key] = *text;
      if (block == "agreed" && answer.key == "on" && !is_iso_date(*text)) {
        notes.error("R03", answer.value.span, fmt::format("'on' is not a date: \"{}\"", *text),
                    {"write year, month and day as in 2026-06-14"});
      }
    }
  }
  return answers;
}

std::size_t count_errors(const Diagnostics& notes) {
  std::size_t errors = 0;
  for (const Diagnostic& note : notes.items())
    errors += note.severity == Severity::error ? 1 : 0;
  return errors;
}

bool read_all_series(const MapReader& map, Protocol& protocol, Diagnostics& notes) {
  const std::size_t before = count_errors(notes);
  const Entry* entry = map.require("series", "list the series of shots, weakest first");
  if (entry == nullptr) return false;
  if (const std::vector<Node>* items = map.list("series")) {
    if (items->empty()) {
      notes.error("K14", entry->value.span, "'series' is an empty list",
                  {"give at least one series of shots"});
    }
    protocol.series = read_series(*items, notes);
  }
  return count_errors(notes) == before && !protocol.series.empty();
}

bool read_measurement(const MapReader& map, Protocol& protocol, Diagnostics& notes) {
  const std::size_t before = count_errors(notes);
  const Entry* measure =
      protocol.decide.judges_power
          ? map.require("measure", "say how the power is measured, or write  judged_on: looks  "
                                   "under decide")
          : map.find("measure");
  if (measure != nullptr) protocol.measure = read_measure(*measure, notes);
  return count_errors(notes) == before;
}

}  // namespace

ProtocolRead read_protocol(const Document& document, Diagnostics& notes) {
  const MapReader map(document.root, top_keys, document.head(), notes);
  ProtocolRead read;
  Protocol& protocol = read.protocol;
  protocol.origin = document.head();
  map.require("title", "write it as in  title: Small panels, garden hail test");
  protocol.title = map.text("title");
  if (const Entry* e = map.require("decide", "say what counts as damage: decide: {limit: 5 %}"))
    protocol.decide = read_decide(*e, notes);
  read.series_fine = read_all_series(map, protocol, notes);
  if (const Entry* e = map.require("launch", "say what throws the balls: launch: {kind: sling}"))
    protocol.launch = read_launch(*e, notes);
  const std::size_t before = count_errors(notes);
  if (const Entry* e = map.require("speed", "say how the speed is known, as in  speed: {by: trial "
                                            "shots, video: 240 fps, length: 3.00 m}")) {
    protocol.speed = read_speed(*e, notes);
    read.speed_fine = count_errors(notes) == before;
  }
  if (const Entry* e = map.find("ice")) read_ice(*e, protocol, notes);
  if (const Entry* e = map.find("tools")) protocol.tools = read_tools(e->value, e->key_span, notes);
  read.measure_fine = read_measurement(map, protocol, notes);
  if (const Entry* e = map.find("safety")) protocol.safety = read_safety(*e, notes);
  return read;
}

const std::vector<KeyList>& protocol_keys() {
  static const std::vector<KeyList> lists{
      top_keys,         decide_keys,      series_keys,  ball_keys,      place_keys,
      launch_keys,      speed_keys,       ice_keys,     tools_keys,     tool_keys,
      sizing_tool_keys, thermometer_keys, measure_keys, component_keys, uncertainty_keys,
      value_keys,       safety_keys};
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
