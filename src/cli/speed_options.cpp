#include <array>
#include <cmath>
#include <string_view>
#include <vector>

#include "cli/option_reader.hpp"
#include "cli/speed_command.hpp"
#include "hailwright/core/quantity_text.hpp"

namespace hailwright::cli {

namespace {

// The ways, as bits.
constexpr unsigned by_frames = 1;
constexpr unsigned by_positions = 2;
constexpr unsigned by_gates = 4;
constexpr unsigned by_radar = 8;
constexpr unsigned by_sounds = 16;
constexpr unsigned by_drop = 32;
constexpr unsigned by_setting = 64;
constexpr unsigned by_video = by_frames | by_positions;
constexpr unsigned measured = by_video | by_gates | by_radar | by_sounds;

struct OptionUse {
  std::string_view name;
  const std::string* text;
  unsigned ways;  ///< in which it says something
  unsigned required_in = 0;
};

std::vector<OptionUse> uses_of(const SpeedOptions& o) {
  return {{"frames", &o.frames, by_video, by_video},
          {"video", &o.video, by_video, by_video},
          {"length", &o.length, by_frames, by_frames},
          {"length-accuracy", &o.length_accuracy, by_frames},
          {"parallax", &o.parallax, by_video},
          {"rate-accuracy", &o.rate_accuracy, by_video},
          {"moved", &o.moved, by_positions, by_positions},
          {"position-accuracy", &o.position_accuracy, by_positions},
          {"scale-accuracy", &o.scale_accuracy, by_positions},
          {"exposure", &o.exposure, by_video},
          {"readout", &o.readout, by_video},
          {"readout-accuracy", &o.readout_accuracy, by_video},
          {"field", &o.field, by_video},
          {"flight", &o.flight, by_video},
          {"gates", &o.gates, by_gates, by_gates},
          {"gates-accuracy", &o.gates_accuracy, by_gates},
          {"time", &o.time, by_gates, by_gates},
          {"time-accuracy", &o.time_accuracy, by_gates | by_sounds},
          {"radar", &o.radar, by_radar, by_radar},
          {"radar-accuracy", &o.radar_accuracy, by_radar},
          {"angle", &o.angle, by_radar},
          {"angle-within", &o.angle_within, by_radar},
          {"between", &o.between, by_sounds},
          {"launch-sound", &o.launch_sound, by_sounds},
          {"impact-sound", &o.impact_sound, by_sounds},
          {"path", &o.path, by_sounds, by_sounds},
          {"path-accuracy", &o.path_accuracy, by_sounds},
          {"launcher-to-microphone", &o.launcher_to_microphone, by_sounds, by_sounds},
          {"panel-to-microphone", &o.panel_to_microphone, by_sounds, by_sounds},
          {"microphone-accuracy", &o.microphone_accuracy, by_sounds},
          {"drop", &o.drop, by_drop, by_drop},
          {"drop-accuracy", &o.drop_accuracy, by_drop},
          {"setting", &o.setting, by_setting, by_setting},
          {"to-panel", &o.to_panel, measured}};
}

/// Ranges as in the protocol [ours]: wide enough for anything meant.
constexpr Bounds base{0.01, 50.0, "from 10 mm to 50 m"};
constexpr Bounds distance{0.0, 100.0, "from 0 m to 100 m"};
constexpr Bounds video_rate{1.0, 100000.0, "from 1 fps to 100000 fps"};
constexpr Bounds any_time{1e-6, 100.0, "from 1 us to 100 s"};
constexpr Bounds track_time{0.0, 86400.0, "from 0 s to 24 h"};
constexpr Bounds picture_time{0.0, 1.0, "more than 0 s, up to 1 s", true};
constexpr Bounds small_share{0.0, 0.2, "from 0 % to 20 %"};
constexpr Bounds half_share{0.0, 0.5, "from 0 % to 50 %"};
constexpr Bounds ball_speed{0.0, 100.0, "more than 0 m/s, up to 100 m/s", true};
constexpr Bounds beam{0.0, 1.0472, "from 0 deg to 60 deg"};
constexpr Bounds beam_within{0.0, 0.5236, "from 0 deg to 30 deg"};
constexpr Bounds ball_size{0.005, 0.150, "from 5 mm to 150 mm"};
constexpr Bounds ball_mass{0.0, 1.0, "more than 0 g, up to 1 kg", true};
constexpr Bounds altitudes{-430.0, 6000.0, "from -430 m to 6000 m"};
constexpr Bounds temperatures{223.15, 333.15, "from -50 degC to 60 degC"};
constexpr Bounds fall_height{0.01, 100.0, "from 10 mm to 100 m"};
constexpr Bounds frame_counts{0.5, 100000.0, "from 0.5 to 100000"};

/// The one way that the options give; 0 and an error otherwise.
unsigned way_of(const SpeedOptions& o, OptionReader& reader) {
  struct Given {
    unsigned way;
    bool given;
    std::string_view option;
  };
  const bool sounds = !o.between.empty() || !o.launch_sound.empty() || !o.impact_sound.empty();
  const std::array<Given, 7> all{{
      {by_positions, !o.moved.empty(), "moved"},
      {by_frames, !o.frames.empty() && o.moved.empty(), "frames"},
      {by_gates, !o.gates.empty(), "gates"},
      {by_radar, !o.radar.empty(), "radar"},
      {by_sounds, sounds, o.between.empty() ? "launch-sound" : "between"},
      {by_drop, !o.drop.empty(), "drop"},
      {by_setting, !o.setting.empty(), "setting"},
  }};
  const Given* found = nullptr;
  for (const Given& g : all) {
    if (!g.given) continue;
    if (found != nullptr) {
      reader.error("C20",
                   dashed(found->option) + " and " + dashed(g.option) +
                       " are two ways to know one speed",
                   {"ask for each by itself"});
      return 0;
    }
    found = &g;
  }
  if (found != nullptr) return found->way;
  reader.error("K02", "no way to know the speed is given",
               {"give one of --frames, --moved, --gates, --radar, --between, --drop, --setting; "
                "hailwright speed --help says what each needs"});
  return 0;
}

void check_uses(const SpeedOptions& o, unsigned way, OptionReader& reader) {
  for (const OptionUse& use : uses_of(o)) {
    if (use.text->empty() && (use.required_in & way) != 0) {
      reader.error("K02", dashed(use.name) + " is missing");
    } else if (!use.text->empty() && (use.ways & way) == 0) {
      reader.error("C21", dashed(use.name) + " says nothing about a speed known in this way",
                   {"leave it out"});
    }
  }
  const bool any = !o.readout.empty() || !o.field.empty() || !o.flight.empty();
  const bool all = !o.readout.empty() && !o.field.empty() && !o.flight.empty();
  if (any && !all) {
    reader.error("K02", "--readout, --field and --flight belong together",
                 {"how long the camera reads a picture out, how much of the plane of flight it "
                  "shows in that direction, and along, against or across"});
  }
  if (!o.readout_accuracy.empty() && o.readout.empty()) {
    reader.error("C21", "--readout-accuracy says nothing without --readout");
  }
  if (!o.mass.empty() && o.diameter.empty()) {
    reader.error("K02", "--mass says nothing without --diameter");
  }
  if ((way & measured) != 0 && !o.to_panel.empty() && o.diameter.empty()) {
    reader.error("K02", "--to-panel needs --diameter: how a ball slows depends on its size");
  }
}

/// Time between the two sounds, or the difference of their times on the track.
void read_between(const SpeedOptions& o, OptionReader& reader, SpeedReading& r) {
  const bool both = !o.launch_sound.empty() && !o.impact_sound.empty();
  const bool one = o.launch_sound.empty() != o.impact_sound.empty();
  if (one || (both && !o.between.empty())) {
    reader.error("C20", "the time between the sounds is --between, or --launch-sound with "
                        "--impact-sound");
    return;
  }
  if (!both) {
    if (const auto t = reader.amount("between", o.between, Measure::time, any_time)) {
      r.time = Time::from_si(t->si);
      r.time_step = Time::from_si(t->step_si);
    }
    return;
  }
  const auto from = reader.amount("launch-sound", o.launch_sound, Measure::time, track_time);
  const auto to = reader.amount("impact-sound", o.impact_sound, Measure::time, track_time);
  if (!from || !to) return;
  if (to->si <= from->si) {
    reader.error("R01", "--impact-sound is not after --launch-sound");
    return;
  }
  r.time = Time::from_si(to->si - from->si);
  r.time_step = Time::from_si(std::hypot(from->step_si, to->step_si));
}

std::optional<ShutterOfVideo> read_shutter(const SpeedOptions& o, OptionReader& reader) {
  const auto readout = reader.quantity<Time>("readout", o.readout, picture_time);
  const auto field = reader.quantity<Length>("field", o.field, base);
  const auto error = reader.accuracy<Time>("readout-accuracy", o.readout_accuracy);
  if (!readout || !field) return std::nullopt;
  ShutterOfVideo shutter{{}, *readout, error, *field, FlightInPicture::across};
  if (o.flight == "along") {
    shutter.flight = FlightInPicture::along;
  } else if (o.flight == "against") {
    shutter.flight = FlightInPicture::against;
  } else if (o.flight != "across") {
    reader.error("K06", "--flight cannot be " + o.flight, {"along, against or across"});
  }
  return shutter;
}

void read_video(const SpeedOptions& o, unsigned way_bit, OptionReader& reader, SpeedQuestion& q) {
  const auto rate = reader.quantity<FrameRate>("video", o.video, video_rate);
  q.reading.frames = reader.number("frames", o.frames, frame_counts);
  q.method.parallax = reader.quantity<Ratio>("parallax", o.parallax, small_share);
  q.method.rate = reader.quantity<Ratio>("rate-accuracy", o.rate_accuracy, half_share);
  q.method.shutter = read_shutter(o, reader);
  q.exposure = reader.quantity<Time>("exposure", o.exposure, picture_time);
  if (way_bit == by_frames) {
    q.method.video = rate;
    q.method.length = reader.quantity<Length>("length", o.length, base);
    q.method.length_error = reader.accuracy<Length>("length-accuracy", o.length_accuracy);
    return;
  }
  q.reading.moved = reader.quantity<Length>("moved", o.moved, base);
  q.method.positions =
      PositionsWay{{},
                   rate.value_or(FrameRate{}),
                   reader.accuracy<Length>("position-accuracy", o.position_accuracy),
                   reader.accuracy<Ratio>("scale-accuracy", o.scale_accuracy)};
}

void read_gates(const SpeedOptions& o, OptionReader& reader, SpeedQuestion& q) {
  GatesWay gates;
  gates.spacing = reader.quantity<Length>("gates", o.gates, base).value_or(Length{});
  gates.spacing_error = reader.accuracy<Length>("gates-accuracy", o.gates_accuracy);
  gates.time_error = reader.accuracy<Time>("time-accuracy", o.time_accuracy);
  q.method.gates = gates;
  if (const auto t = reader.amount("time", o.time, Measure::time, any_time)) {
    q.reading.time = Time::from_si(t->si);
    q.reading.time_step = Time::from_si(t->step_si);
  }
}

void read_radar(const SpeedOptions& o, OptionReader& reader, SpeedQuestion& q) {
  RadarWay radar;
  radar.error = reader.accuracy<Speed>("radar-accuracy", o.radar_accuracy);
  radar.angle = reader.quantity<Angle>("angle", o.angle, beam);
  radar.angle_within = reader.quantity<Angle>("angle-within", o.angle_within, beam_within);
  q.method.radar = radar;
  if (const auto v = reader.amount("radar", o.radar, Measure::speed, ball_speed)) {
    q.reading.speed = Speed::from_si(v->si);
    q.reading.speed_step = Speed::from_si(v->step_si);
  }
}

void read_sounds(const SpeedOptions& o, OptionReader& reader, SpeedQuestion& q) {
  SoundsWay sounds;
  sounds.path = reader.quantity<Length>("path", o.path, base).value_or(Length{});
  sounds.path_error = reader.accuracy<Length>("path-accuracy", o.path_accuracy);
  const auto to = [&](std::string_view option, const std::string& text) {
    return reader.quantity<Length>(option, text, distance).value_or(Length{});
  };
  sounds.launcher_to_microphone = to("launcher-to-microphone", o.launcher_to_microphone);
  sounds.panel_to_microphone = to("panel-to-microphone", o.panel_to_microphone);
  sounds.microphone_error = reader.accuracy<Length>("microphone-accuracy", o.microphone_accuracy);
  sounds.time_error = reader.accuracy<Time>("time-accuracy", o.time_accuracy);
  sounds.air = q.air;
  q.method.sounds = sounds;
  read_between(o, reader, q.reading);
}

}  // namespace

Checked<SpeedQuestion> read_speed_options(const SpeedOptions& o) {
  OptionReader reader;
  SpeedQuestion q;
  q.method.by = SpeedSource::each_shot;
  q.diameter = reader.quantity<Length>("diameter", o.diameter, ball_size);
  q.mass = reader.quantity<Mass>("mass", o.mass, ball_mass);
  q.altitude = reader.quantity<Length>("altitude", o.altitude, altitudes);
  q.air = reader.quantity<TemperaturePoint>("air", o.air, temperatures);
  q.method.to_panel = reader.quantity<Length>("to-panel", o.to_panel, distance);
  const unsigned given = way_of(o, reader);
  if (given != 0) check_uses(o, given, reader);
  if ((given & by_video) != 0) read_video(o, given, reader, q);
  if (given == by_gates) read_gates(o, reader, q);
  if (given == by_radar) read_radar(o, reader, q);
  if (given == by_sounds) read_sounds(o, reader, q);
  if (given == by_drop) {
    q.method.by = SpeedSource::drop;
    q.fall = reader.quantity<Length>("drop", o.drop, fall_height);
    q.method.height_error = reader.accuracy<Length>("drop-accuracy", o.drop_accuracy);
  }
  if (given == by_setting) {
    q.method.by = SpeedSource::setting;
    q.nominal = reader.quantity<Speed>("setting", o.setting, ball_speed);
  }
  if (reader.notes.has_errors()) return {std::nullopt, std::move(reader.notes)};
  if (q.method.measures()) {
    const auto speed = speed_of(q.method, q.reading);
    if (!speed || speed->si() > ball_speed.high) {
      reader.error("C24",
                   speed ? "these figures make a speed of " + in_unit(*speed, "m/s", 1)
                         : std::string("no flight fits these figures"),
                   {"look at the units of the options"});
      return {std::nullopt, std::move(reader.notes)};
    }
  }
  return {q, std::move(reader.notes)};
}

}  // namespace hailwright::cli
