#include "input/protocol_speed.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "input/shared_ranges.hpp"
#include "input/stated_text.hpp"

namespace hailwright::input {

namespace {

// Ranges [ours]: wide enough for anything meant, narrow enough to catch a slip in the unit.
constexpr Range video_range{1.0, 100000.0, "from 1 fps to 100000 fps"};
constexpr Range base_range{0.01, 50.0, "from 10 mm to 50 m"};
constexpr Range way_range{0.0, 100.0, "from 0 m to 100 m"};
constexpr Range parallax_range{0.0, 0.2, "from 0 % to 20 %"};
constexpr Range drift_range{0.0, 0.5, "from 0 % to 50 %"};
constexpr Range readout_range{0.0, 1.0, "more than 0 s, up to 1 s", true};
constexpr Range beam_range{0.0, 1.0472, "from 0 deg to 60 deg"};
constexpr Range beam_within_range{0.0, 0.5236, "from 0 deg to 30 deg"};
constexpr int most_trials = 1000;

template <class Q>
std::optional<Stated<Q>> accuracy_at(const MapReader& map, std::string_view key) {
  const Entry* entry = map.find(key);
  if (entry == nullptr) return std::nullopt;
  return stated_as<Q>(read_accuracy(entry->value, fmt::format("'{}'", key),
                                    {MeasureOf<Q>::value, true, false}, map.notes()));
}

PositionsWay read_positions(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, positions_keys, entry.key_span, notes);
  PositionsWay way;
  way.origin = entry.key_span;
  map.require("video", "write the frame rate, as in  positions: {video: 240 fps, accuracy: 3 mm}");
  way.video = map.quantity<FrameRate>("video", video_range).value_or(way.video);
  way.error = accuracy_at<Length>(map, "accuracy");
  way.scale = accuracy_at<Ratio>(map, "scale_accuracy");
  return way;
}

GatesWay read_gates(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, gates_keys, entry.key_span, notes);
  GatesWay way;
  way.origin = entry.key_span;
  map.require("spacing", "write how far apart the gates are, as in  gates: {spacing: 300 mm}");
  way.spacing = map.quantity<Length>("spacing", base_range).value_or(way.spacing);
  way.spacing_error = accuracy_at<Length>(map, "spacing_accuracy");
  way.time_error = accuracy_at<Time>(map, "time_accuracy");
  return way;
}

RadarWay read_radar(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, radar_keys, entry.key_span, notes);
  RadarWay way;
  way.origin = entry.key_span;
  way.error = stated_as<Speed>(read_statement(map, {Measure::speed, true, false}));
  way.angle = map.quantity<Angle>("angle", beam_range);
  way.angle_within = map.quantity<Angle>("angle_within", beam_within_range);
  return way;
}

SoundsWay read_sounds(const Entry& entry, const Launch* launch, Diagnostics& notes) {
  const MapReader map(entry.value, sounds_keys, entry.key_span, notes);
  SoundsWay way;
  way.origin = entry.key_span;
  map.require("path", "write the way of the ball, from where the launch is heard to the panel");
  map.require("launcher_to_microphone", "each sound is late by its own way to the microphone");
  map.require("panel_to_microphone", "each sound is late by its own way to the microphone");
  way.path = map.quantity<Length>("path", base_range).value_or(way.path);
  way.path_error = accuracy_at<Length>(map, "path_accuracy");
  way.launcher_to_microphone =
      map.quantity<Length>("launcher_to_microphone", way_range).value_or(Length{});
  way.panel_to_microphone =
      map.quantity<Length>("panel_to_microphone", way_range).value_or(Length{});
  way.microphone_error = accuracy_at<Length>(map, "microphone_accuracy");
  way.air = map.quantity<TemperaturePoint>("air", air_range);
  if (!way.air && launch != nullptr) way.air = launch->air;
  way.time_error = accuracy_at<Time>(map, "time_accuracy");
  return way;
}

ShutterOfVideo read_shutter(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, shutter_keys, entry.key_span, notes);
  ShutterOfVideo shutter;
  shutter.origin = entry.key_span;
  map.require("readout", "write how long the camera reads one picture out, as in  readout: 8 ms");
  map.require("field", "write how much of the plane of flight the picture shows in that direction");
  map.require("flight", "write along, against or across the direction in which it reads");
  shutter.readout = map.quantity<Time>("readout", readout_range).value_or(shutter.readout);
  shutter.error = accuracy_at<Time>(map, "readout_accuracy");
  shutter.field = map.quantity<Length>("field", base_range).value_or(shutter.field);
  shutter.flight = map.choice<FlightInPicture>("flight", {{"along", FlightInPicture::along},
                                                          {"against", FlightInPicture::against},
                                                          {"across", FlightInPicture::across}})
                       .value_or(shutter.flight);
  return shutter;
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

/// The first key of each way that is given, in the order of the file.
std::vector<const Entry*> ways_given(const MapReader& map) {
  std::vector<const Entry*> ways;
  const auto add_first = [&](std::string_view keys) {
    for (const std::string& key : words_of(keys)) {
      if (const Entry* entry = map.find(key)) {
        ways.push_back(entry);
        return;
      }
    }
  };
  for (const std::string_view keys :
       {std::string_view("video length"), std::string_view("positions"), std::string_view("gates"),
        std::string_view("radar"), std::string_view("sounds"), stated_keys})
    add_first(keys);
  const auto place = [](const Entry* e) { return std::pair(e->key_span.line, e->key_span.column); };
  std::sort(ways.begin(), ways.end(),
            [&](const Entry* a, const Entry* b) { return place(a) < place(b); });
  return ways;
}

/// A speed is known in one way (docs/protocol-format.md).
void check_one_way(const MapReader& map, const SpeedMethod& speed) {
  const std::vector<const Entry*> ways = ways_given(map);
  if (!ways.empty() && !speed.measures()) {
    const bool drop = speed.by == SpeedSource::drop;
    map.notes()
        .error("C20", ways.front()->key_span,
               fmt::format("'{}' measures a speed that is {}", ways.front()->key,
                           drop ? "computed from the height of the fall"
                                : "taken from the launcher's setting"),
               {"to measure it, write  by: trial shots  or  by: each shot",
                fmt::format("else delete '{}'", ways.front()->key)})
        .related.push_back({map.at("by"), "how the speed is known"});
    return;
  }
  if (ways.size() < 2) return;
  map.notes()
      .error(
          "C20", ways[1]->key_span,
          fmt::format("'{}' and '{}' are two ways to know one speed", ways[0]->key, ways[1]->key),
          {"keep the one by which the tables' values were taken",
           "the errors of a way stand inside it, as in  radar: {accuracy: 1 mph}"})
      .related.push_back({ways[0]->key_span, "the other way"});
}

/// Keys that tell nothing by this way.
void check_idle_keys(const MapReader& map, const SpeedMethod& speed) {
  const bool video = map.find("video") != nullptr || map.find("length") != nullptr;
  const bool pictures = video || speed.positions.has_value();
  report_idle_keys(
      map,
      {{"length_accuracy", video, "video frames over a length"},
       {"parallax rate_accuracy shutter", pictures, "a video (video and length, or positions)"},
       {"height_accuracy", speed.by == SpeedSource::drop, "by: drop"},
       {"trials drift to_panel", speed.measures(), "balls that are measured"}},
      {"by", "how the speed is known", "say how the speed is measured"});
}

/// The height of a drop is that of the launch.
void check_drop(const MapReader& map, const SpeedMethod& speed, const Launch* launch) {
  if (speed.by != SpeedSource::drop || launch == nullptr) return;
  const bool falls = launch->kind == Launcher::drop;
  constexpr double least_m = 0.01;  // ours: a slip in the unit below it
  if (falls && launch->height && launch->height->si() >= least_m) return;
  map.notes()
      .error("C22", map.find("by")->value.span,
             falls
                 ? "the speed of a drop is computed from its height, and the launch gives none of "
                   "10 mm or more"
                 : "the speed is that of a drop, and the launch is of another kind",
             {falls ? "measure the height of the fall and write it:  launch: {kind: drop, "
                      "height: ...}"
                    : "write  by: trial shots  or  by: each shot  and how it is measured"})
      .related.push_back({launch->origin, "the launch"});
}

}  // namespace

SpeedMethod read_speed(const Entry& entry, const Launch* launch, Diagnostics& notes) {
  const MapReader map(entry.value, speed_keys, entry.key_span, notes);
  SpeedMethod speed;
  speed.origin = entry.key_span;
  map.require("by", "write trial shots, or each shot if the speed of every shot is measured");
  const auto by = map.choice<SpeedSource>("by", {{"trial shots", SpeedSource::trial_shots},
                                                 {"each shot", SpeedSource::each_shot},
                                                 {"drop", SpeedSource::drop},
                                                 {"setting", SpeedSource::setting}});
  speed.by = by.value_or(SpeedSource::trial_shots);
  speed.trials = map.count("trials", 1, most_trials);
  check_video(map);
  speed.video = map.quantity<FrameRate>("video", video_range);
  speed.length = map.quantity<Length>("length", base_range);
  speed.length_error = accuracy_at<Length>(map, "length_accuracy");
  if (const Entry* e = map.find("positions")) speed.positions = read_positions(*e, notes);
  if (const Entry* e = map.find("gates")) speed.gates = read_gates(*e, notes);
  if (const Entry* e = map.find("radar")) speed.radar = read_radar(*e, notes);
  if (const Entry* e = map.find("sounds")) speed.sounds = read_sounds(*e, launch, notes);
  if (const Entry* e = map.find("shutter")) speed.shutter = read_shutter(*e, notes);
  speed.parallax = map.quantity<Ratio>("parallax", parallax_range);
  speed.rate = map.quantity<Ratio>("rate_accuracy", drift_range);
  speed.error = stated_as<Speed>(read_statement(map, {Measure::speed, true, false}));
  speed.height_error = accuracy_at<Length>(map, "height_accuracy");
  speed.to_panel = map.quantity<Length>("to_panel", way_range);
  speed.drift = map.quantity<Ratio>("drift", drift_range);
  if (!by) return speed;
  check_one_way(map, speed);
  check_idle_keys(map, speed);
  check_drop(map, speed, launch);
  return speed;
}

}  // namespace hailwright::input
