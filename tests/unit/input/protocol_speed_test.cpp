#include "input/protocol_speed.hpp"

#include <numbers>

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;
using input_files::Seen;
using input_files::tree;

namespace {

struct Read {
  Diagnostics notes;
  SpeedMethod speed;
  explicit Read(const std::string& text, const Launch* launch = nullptr) {
    const Node root = tree("speed: {" + text + "}\n");
    speed = read_speed(root.entries.at(0), launch, notes);
  }
};

SpeedMethod good(const std::string& text, const Launch* launch = nullptr) {
  const Read r(text, launch);
  CAPTURE(text, seen(r.notes));
  CHECK(r.notes.empty());
  return r.speed;
}

Launch launched(Launcher kind, std::optional<Length> height) {
  Launch launch;
  launch.origin = {1, 7, 1, 6};
  launch.kind = kind;
  launch.height = height;
  launch.air = TemperaturePoint::from_celsius(12);
  return launch;
}

}  // namespace

TEST_CASE("protocol_speed: frames over a length, with all that is about a video") {
  const SpeedMethod m =
      good("by: trial shots, trials: 6, video: 240 fps, length: 2 m, length_accuracy: 5 mm, "
           "parallax: 1 %, rate_accuracy: 0.1 %, to_panel: 1.5 m, drift: 0.5 %, shutter: {readout: "
           "8 ms, readout_accuracy: 1 ms, field: 1.5 m, flight: against}");
  CHECK(m.way() == SpeedWay::frames);
  CHECK(m.trials == 6);
  CHECK(m.length_error->absolute == 5.0_mm);
  REQUIRE(m.shutter);
  CHECK(m.shutter->readout == Time::from_si(0.008));
  CHECK(m.shutter->error->absolute == Time::from_si(0.001));
  CHECK(m.shutter->field == 1.5_m);
  CHECK(m.shutter->flight == FlightInPicture::against);
  CHECK(m.measures());
}

TEST_CASE("protocol_speed: positions, gates, radar") {
  const SpeedMethod p =
      good("by: each shot, positions: {video: 240 fps, accuracy: 3 mm, scale_accuracy: 0.5 %}, "
           "parallax: 1 %");
  CHECK(p.way() == SpeedWay::positions);
  CHECK(p.positions->video.si() == 240.0);
  CHECK(p.positions->error->absolute == 3.0_mm);
  CHECK(p.positions->scale->relative == percent(0.5));
  const SpeedMethod g =
      good("by: each shot, gates: {spacing: 300 mm, spacing_accuracy: 3 mm, time_accuracy: 20 us}");
  CHECK(g.way() == SpeedWay::gates);
  CHECK(g.gates->spacing == 300.0_mm);
  CHECK_THAT(g.gates->time_error->absolute.si(), WithinRel(20e-6, 1e-12));
  const SpeedMethod r =
      good("by: each shot, radar: {accuracy: 1 mph, angle: 10 deg, angle_within: 5 deg}");
  CHECK(r.way() == SpeedWay::radar);
  CHECK_THAT(r.radar->error->absolute.si(), WithinRel(0.44704, 1e-12));
  CHECK_THAT(r.radar->angle->si(), WithinRel(std::numbers::pi / 18, 1e-12));
  CHECK_FALSE(good("by: each shot, radar: {accuracy: unknown}").radar->error);
}

TEST_CASE("protocol_speed: sounds take the air of the launch where they have none") {
  const std::string text =
      "by: each shot, sounds: {path: 3.0 m, path_accuracy: 20 mm, launcher_to_microphone: 1 m, "
      "panel_to_microphone: 2 m, microphone_accuracy: 50 mm, time_accuracy: 1 ms";
  const Launch launch = launched(Launcher::sling, {});
  const SpeedMethod m = good(text + ", air: 20 degC}", &launch);
  CHECK(m.way() == SpeedWay::sounds);
  CHECK(m.sounds->path == 3.0_m);
  CHECK(m.sounds->launcher_to_microphone == 1.0_m);
  CHECK(m.sounds->panel_to_microphone == 2.0_m);
  CHECK_THAT(m.sounds->air->celsius(), WithinAbs(20, 1e-9));
  CHECK_THAT(good(text + "}", &launch).sounds->air->celsius(), WithinAbs(12, 1e-9));
  CHECK_FALSE(good(text + "}").sounds->air);
}

TEST_CASE("protocol_speed: typed speeds, a drop, a setting") {
  CHECK(good("by: each shot, accuracy: 2 % + 0.1 m/s").way() == SpeedWay::typed);
  CHECK(good("by: trial shots").way() == SpeedWay::typed);
  const Launch drop = launched(Launcher::drop, 3.0_m);
  const SpeedMethod d = good("by: drop, height_accuracy: 20 mm", &drop);
  CHECK(d.by == SpeedSource::drop);
  CHECK(d.height_error->absolute == 20.0_mm);
  CHECK_FALSE(d.measures());
  CHECK(good("by: setting").by == SpeedSource::setting);
}

TEST_CASE("protocol_speed: a drop needs the height of a drop") {
  const Launch no_height = launched(Launcher::drop, {});
  const Launch sling = launched(Launcher::sling, 3.0_m);
  const Launch slip = launched(Launcher::drop, Length::from_si(0.003));
  for (const Launch& launch : {no_height, sling, slip}) {
    const Read r("by: drop", &launch);
    const Diagnostic note = only(r.notes);
    CHECK(note.code == "C22");
    CHECK(note.where.column == 13);
    CHECK(note.related.at(0).where.line == 7);
  }
  // No launch that could be read: its own errors are enough.
  CHECK(Read("by: drop").notes.empty());
}

TEST_CASE("protocol_speed: contradictions at their places") {
  struct Row {
    const char* text;
    const char* code;
    int column;
  };
  const Row row = GENERATE(
      Row{"by: each shot, video: 240 fps", "C03", 24}, Row{"by: each shot, length: 2 m", "C03", 24},
      Row{"by: each shot, accuracy: 2 %, gates: {spacing: 300 mm}", "C20", 39},
      Row{"by: each shot, gates: {spacing: 300 mm}, radar: {accuracy: 1 mph}", "C20", 50},
      Row{"by: setting, accuracy: 2 %", "C20", 22},
      Row{"by: setting, gates: {spacing: 300 mm}", "C20", 22},
      Row{"by: each shot, accuracy: 2 %, parallax: 1 %", "C21", 39},
      Row{"by: each shot, length_accuracy: 2 mm", "C21", 24},
      Row{"by: each shot, height_accuracy: 2 mm", "C21", 24},
      Row{"by: setting, drift: 1 %", "C21", 22}, Row{"by: setting, trials: 5", "C21", 22},
      Row{"by: each shot, gates: {time_accuracy: 1 ms}", "K02", 24},
      Row{"by: each shot, positions: {accuracy: 1 mm}", "K02", 24},
      Row{"by: each shot, gates: {spacing: 3 mm}", "R01", 41},
      Row{"by: trial shots, trials: 0", "R02", 34}, Row{"by: guess", "K06", 13},
      Row{"accuracy: 2 %", "K02", 1});
  CAPTURE(row.text);
  const Read r(row.text);
  const Diagnostic note = only(r.notes);
  CHECK(note.code == row.code);
  CHECK(note.where.column == row.column);
}

TEST_CASE("protocol_speed: sounds and shutter need all their parts") {
  CHECK(seen(Read("by: each shot, sounds: {air: 20 degC}").notes) ==
        std::vector<Seen>(3, Seen{"K02", 1, 24}));
  CHECK(seen(Read("by: each shot, video: 240 fps, length: 2 m, shutter: {readout: 8 ms}").notes) ==
        std::vector<Seen>(2, Seen{"K02", 1, 53}));
}
