// hailwright speed, as a user runs it. The numbers are worked in
// tests/reference/speed_worked_numbers_test.cpp.
#include <nlohmann/json.hpp>

#include "cli/command.hpp"
#include "support/catch.hpp"

using hailwright::testing::Finished;
using hailwright::testing::run_hailwright;

namespace {

nlohmann::json asked(const std::string& options) {
  const Finished f = run_hailwright("speed --format json " + options);
  CAPTURE(options, f.err);
  REQUIRE(f.exit_code == 0);
  return nlohmann::json::parse(f.out);
}

double speed_of(const nlohmann::json& j) {
  return j["speed"]["value"];
}

double relative_u_of(const nlohmann::json& j) {
  return j["speed"]["relative_standard_uncertainty"].get<double>() * 100;
}

}  // namespace

TEST_CASE("cli speed: frames over a length") {
  const auto j = asked("--frames 21 --video 240fps --length 2m --length-accuracy 5mm --parallax 1% "
                       "--rate-accuracy 0.1%");
  CHECK_THAT(speed_of(j), WithinAbs(22.857, 0.0005));
  CHECK_THAT(relative_u_of(j), WithinAbs(2.0, 0.05));
  CHECK(j["terms"][0]["id"] == "counting");
  CHECK(j["assumed"].empty());
  CHECK_FALSE(j["cautions"].empty());
}

TEST_CASE("cli speed: every other way") {
  CHECK_THAT(speed_of(asked("--moved 800mm --frames 8 --video 240fps")), WithinAbs(24.0, 1e-9));
  const auto gates =
      asked("--gates 1m --gates-accuracy 3.64mm --time 43.4783ms --time-accuracy 34.6us");
  CHECK_THAT(speed_of(gates), WithinAbs(23.0, 0.0001));
  CHECK_THAT(relative_u_of(gates), WithinAbs(0.21, 0.01));
  const auto radar = asked("--radar 51mph --angle 10deg --angle-within 5deg --radar-accuracy 1mph");
  CHECK_THAT(speed_of(radar), WithinAbs(51 * 0.44704 / 0.984808, 0.0001));
  // Both sounds 1.5 m late: nothing to correct.
  const auto sounds =
      asked("--between 125ms --path 3m --launcher-to-microphone 1.5m --panel-to-microphone 1.5m");
  CHECK_THAT(speed_of(sounds), WithinAbs(24.0, 1e-9));
  const auto track =
      asked("--launch-sound 2.1000s --impact-sound 2.2250s --path 3m --launcher-to-microphone 1.5m "
            "--panel-to-microphone 1.5m");
  CHECK_THAT(speed_of(track), WithinAbs(24.0, 1e-9));
  const auto drop = asked("--drop 3m --diameter 25mm");
  CHECK_THAT(speed_of(drop), WithinAbs(7.44, 0.005));
  CHECK(drop["warnings"][0] == "weak_drop");
  const auto setting = asked("--setting 23m/s");
  CHECK_THAT(relative_u_of(setting), WithinAbs(14.4, 0.05));
  CHECK(setting["speed"]["supports_grade"] == false);
}

TEST_CASE("cli speed: at the panel") {
  const auto j =
      asked("--frames 21 --video 240fps --length 2m --to-panel 1.5m --diameter 25mm --mass 7.53g "
            "--altitude 200m --air 20degC");
  CHECK(j["at_panel"]["value"].get<double>() < speed_of(j));
  CHECK(j["at_panel"]["value"].get<double>() > 0.96 * speed_of(j));
}

TEST_CASE("cli speed: text and Markdown") {
  const std::string options = "speed --frames 12 --video 240fps --length 2m --exposure 4ms";
  for (const char* format : {"", " --format md"}) {
    const Finished f = run_hailwright(options + format);
    CHECK(f.exit_code == 0);
    CHECK_THAT(f.out, Contains("fewer than 20 frames") && Contains("motion blur"));
    CHECK_THAT(f.out, Contains("Cautions") && Contains("Assumed for you"));
  }
}

TEST_CASE("cli speed: wrong command lines name the option and end with 2") {
  struct Row {
    const char* options;
    const char* said;
  };
  const Row row = GENERATE(
      Row{"", "no way to know the speed"}, Row{"--frames 21 --length 2m", "--video is missing"},
      Row{"--frames 21 --video 240fps", "--length is missing"},
      Row{"--frames 21 --video 240fps --length 2m --radar 51mph", "two ways"},
      Row{"--setting 23m/s --parallax 1%", "--parallax says nothing"},
      Row{"--frames nan --video 240fps --length 2m", "--frames"},
      Row{"--frames 0 --video 240fps --length 2m", "--frames is 0"},
      Row{"--frames 21 --video 240 --length 2m", "--video"},
      Row{"--gates 300mm --time 13us", "make a speed of 23076.9 m/s"},
      Row{"--between 5ms --path 3m --launcher-to-microphone 0m --panel-to-microphone 3m",
          "no flight fits"},
      Row{"--launch-sound 2s --impact-sound 1s --path 3m --launcher-to-microphone 0m "
          "--panel-to-microphone 3m",
          "--impact-sound is not after"},
      Row{"--launch-sound 2s --path 3m --launcher-to-microphone 0m --panel-to-microphone 3m",
          "--launch-sound with --impact-sound"},
      Row{"--frames 21 --video 240fps --length 2m --readout 8ms", "belong together"},
      Row{"--frames 21 --video 240fps --length 2m --readout 8ms --field 1.5m --flight up",
          "--flight cannot be up"},
      Row{"--frames 21 --video 240fps --length 2m --to-panel 1m", "--diameter"},
      Row{"--radar 51mph --angle 90deg", "--angle is 90deg"}, Row{"--drop 3m --mass 7g", "--mass"},
      Row{"--drop 1e-300m", "--drop is 1e-300m"},
      Row{"--gates 300mm --time 1e-300s", "--time is 1e-300s"},
      Row{"--frames 1e-300 --video 240fps --length 2m", "--frames is 1e-300"});
  CAPTURE(row.options);
  const Finished f = run_hailwright(std::string("speed ") + row.options);
  CHECK(f.exit_code == 2);
  CHECK(f.out.empty());
  CHECK_THAT(f.err, Contains(row.said));
}

// Found by review: ends of ranges were refused in the words that named them.
TEST_CASE("cli speed: the coldest air that it names is taken") {
  const auto j =
      asked("--frames 21 --video 240fps --length 2m --to-panel 1.5m --diameter 25mm --air=-50degC");
  CHECK(j["at_panel"]["value"].get<double>() < speed_of(j));
}
