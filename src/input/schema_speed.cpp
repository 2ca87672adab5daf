#include "input/schema_mappings.hpp"

#include "input/protocol_speed.hpp"
#include "input/schema_values.hpp"

namespace hailwright::input {

namespace {

using enum Need;

/// The errors of a way to measure a speed: no step of a display is known.
constexpr StatedForm no_digits(Measure measure) {
  return {measure, true, false};
}

// What is said of a meter that shows speeds, whichever way it measures them.

KeyRow meter_spread() {
  return {"spread", value::size(no_digits(Measure::speed), "0.3 m/s"), optional,
          "Standard deviation of your own check of it"};
}

KeyRow meter_within() {
  return {"within", value::within(no_digits(Measure::speed), "0.5 m/s, 95 %"), optional,
          "What a certificate says of it"};
}

KeyRow meter_uncertainty() {
  return {"uncertainty", value::defined(value::name_for("uncertainty", no_digits(Measure::speed))),
          optional, "The metrologist's ways"};
}

Mapping speed() {
  return {
      "speed",
      speed_keys,
      {
          {"by", value::words({"trial shots", "each shot", "drop", "setting"}), required,
           "`trial shots`: the speed of a series is that of its trials. `each shot`: measured at "
           "every shot. `drop`: computed from the `height` of a `launch` of the kind `drop`. "
           "`setting`: the launcher is taken to throw what each series asks for, within a wide "
           "default; that is no measurement and can never support a grade"},
          {"trials", value::count(1, 1000), optional,
           "Planned trial shots of each series; 5 are the fewest that support a grade", "1 to 1000",
           "see defaults.md"},
          {"video", value::amount(Measure::frame_rate, "240 fps"), optional,
           "Frames per second: `240 fps`", "1 fps to 100000 fps"},
          {"length", value::amount(Measure::length, "3.00 m"), optional,
           "Length over which frames are counted", "10 mm to 50 m"},
          {"length_accuracy", value::accuracy(no_digits(Measure::length), "5 mm"), optional,
           "Half-width of the error of that length, written like `accuracy`", "",
           "see defaults.md"},
          {"positions", value::defined("positions"), optional,
           "Two pictures of a video, see Positions"},
          {"gates", value::defined("gates"), optional, "Two gates, see Gates"},
          {"radar", value::defined("radar"), optional, "See Radar"},
          {"sounds", value::defined("sounds"), optional, "Two sounds, see Sounds"},
          {"parallax", value::amount(Measure::ratio, "2 %"), optional,
           "Of a video: half-width of the error because the scale is not in the plane of flight",
           "0 % to 20 %", "see defaults.md"},
          {"rate_accuracy", value::amount(Measure::ratio, "1 %"), optional,
           "Of a video: half-width of the error of its frame rate", "0 % to 50 %",
           "see defaults.md"},
          {"shutter", value::defined("shutter"), optional,
           "Of a video: its pictures are read out row by row, see Shutter", "",
           "nothing is corrected"},
          {"accuracy", value::accuracy(no_digits(Measure::speed), "0.5 m/s"), optional,
           "Maker's figure of the speed meter. No digits here: no step is known", "",
           "see defaults.md"},
          meter_spread(),
          meter_within(),
          meter_uncertainty(),
          {"height_accuracy", value::accuracy(no_digits(Measure::length), "10 mm"), optional,
           "Of a drop: half-width of the error of its height, written like `accuracy`", "",
           "see defaults.md"},
          {"to_panel", value::amount(Measure::length, "1.5 m"), optional,
           "From the middle of the measured length to the panel; drag acts on the way",
           "0 m to 100 m", "see defaults.md; for sounds half the path"},
          {"drift", value::amount(Measure::ratio, "2 %"), optional,
           "Half-width of the launcher's change between the trials and the shots", "0 % to 50 %",
           "see defaults.md"},
      },
      rule::at_most_one(words_of(stated_keys))
          .add(rule::needs({{"video", "length"}, {"length", "video"}}))};
}

Mapping positions() {
  return {"positions",
          positions_keys,
          {
              {"video", value::amount(Measure::frame_rate, "240 fps"), required,
               "Frames per second", "1 fps to 100000 fps"},
              {"accuracy", value::accuracy(no_digits(Measure::length), "3 mm"), optional,
               "Half-width of the error of one position", "", "see defaults.md"},
              {"scale_accuracy", value::accuracy(no_digits(Measure::ratio), "0.5 %"), optional,
               "Half-width of the error of the picture's scale: `0.5 %`", "", "see defaults.md"},
          }};
}

Mapping gates() {
  return {"gates",
          gates_keys,
          {
              {"spacing", value::amount(Measure::length, "300 mm"), required, "From gate to gate",
               "10 mm to 50 m"},
              {"spacing_accuracy", value::accuracy(no_digits(Measure::length), "1 mm"), optional,
               "Half-width of its error", "", "see defaults.md"},
              {"time_accuracy", value::accuracy(no_digits(Measure::time), "0.05 ms"), optional,
               "Half-width of the error of the time between, clock and both gates together", "",
               "see defaults.md"},
          }};
}

Mapping radar() {
  return {"radar",
          radar_keys,
          {
              {"accuracy", value::accuracy(no_digits(Measure::speed), "1 mph"), optional,
               "Maker's figure: `1 mph`", "", "see defaults.md"},
              meter_spread(),
              meter_within(),
              meter_uncertainty(),
              {"angle", value::amount(Measure::angle, "10 deg"), optional,
               "Between the beam and the flight", "0 deg to 60 deg", "see defaults.md"},
              {"angle_within", value::amount(Measure::angle, "5 deg"), optional,
               "Half-width of the error of that angle", "0 deg to 30 deg", "see defaults.md"},
          },
          rule::at_most_one(words_of(stated_keys))};
}

Mapping sounds() {
  return {"sounds",
          sounds_keys,
          {
              {"path", value::amount(Measure::length, "3.0 m"), required,
               "Of the ball, from where the launch is heard to the panel", "10 mm to 50 m"},
              {"path_accuracy", value::accuracy(no_digits(Measure::length), "10 mm"), optional,
               "Half-width of its error", "", "see defaults.md"},
              {"launcher_to_microphone", value::amount(Measure::length, "1.5 m"), required,
               "Way of the sound of the launch", "0 m to 100 m"},
              {"panel_to_microphone", value::amount(Measure::length, "1.5 m"), required,
               "Way of the sound of the impact", "0 m to 100 m"},
              {"microphone_accuracy", value::accuracy(no_digits(Measure::length), "10 mm"),
               optional, "Half-width of the error of each of the two", "", "see defaults.md"},
              {"air", value::amount(Measure::temperature, "24 degC"), optional,
               "Temperature of the air: sound goes by it", "-50 degC to 60 degC",
               "`air` of the launch, or see defaults.md"},
              {"time_accuracy", value::accuracy(no_digits(Measure::time), "1 ms"), optional,
               "Half-width of the error of the time between", "", "see defaults.md"},
          }};
}

Mapping shutter() {
  return {"shutter",
          shutter_keys,
          {
              {"readout", value::amount(Measure::time, "8 ms"), required,
               "How long the camera reads one picture out: `8 ms`", "more than 0 s, up to 1 s"},
              {"readout_accuracy", value::accuracy(no_digits(Measure::time), "1 ms"), optional,
               "Half-width of its error", "", "see defaults.md"},
              {"field", value::amount(Measure::length, "2.0 m"), required,
               "How much of the plane of flight the whole picture shows in the direction of the "
               "read-out",
               "10 mm to 50 m"},
              {"flight", value::words({"along", "against", "across"}), required,
               "`along` the read-out, `against` it, or `across`: then nothing is to be corrected"},
          }};
}

}  // namespace

std::vector<Mapping> speed_mappings() {
  return {speed(), positions(), gates(), radar(), sounds(), shutter()};
}

}  // namespace hailwright::input
