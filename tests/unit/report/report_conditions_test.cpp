#include <array>

#include "report/report_sections.hpp"
#include "support/catch.hpp"
#include "support/document_words.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;
using hailwright::testing::words;
using hailwright::testing::written_demo;
using hailwright::testing::WrittenUp;

namespace {

template <class Append>
std::string section(Append append, const TestBuilder& b) {
  const WrittenUp c(b);
  ReportPart part(c.write_up, 0);
  Document out;
  append(out, part);
  return words(out);
}

TestBuilder with_balls(BallKind ball) {
  TestBuilder b;
  ball.kind = "small";
  b.test.record.balls = {ball};
  return b;
}

}  // namespace

TEST_CASE("report conditions: balls with mean and number and standard deviation") {
  BallKind ten;
  ten.count = 10;
  ten.together = Mass::from_si(0.0756);
  // 25.2, 24.9 and 25.1 mm: mean 25.06667, s 0.1527525 (R 4.2.2: mean, sd).
  for (const double mm : {25.2, 24.9, 25.1})
    ten.diameters.push_back(Length::from_si(mm / 1000.0));
  CHECK_THAT(section(append_ice, with_balls(ten)),
             Contains("| small | 10 | 75.6 | 7.56 | 25.07 (n 3, s 0.15) |"));
  BallKind one;
  one.diameters = {Length::from_si(0.025)};
  CHECK_THAT(section(append_ice, with_balls(one)), Contains("| 25.00 (n 1) |"));
}

TEST_CASE("report conditions: water and moulds and what was rejected") {
  TestBuilder b;
  b.test.protocol.ice = {{}, "boiled", TemperaturePoint::from_celsius(-18),
                         10, {},       Tally{{}, 20, 18}};
  b.test.protocol.ice.moulds = {{{}, Length::from_si(0.025), 12}};
  b.test.record.shots[0].landing = Landing::broke;
  // 7.4, 7.5 and 7.7 g: mean 7.533333, s 0.1527525 (R 4.2.2: mean, sd).
  for (std::size_t i = 0; i < 3; ++i)
    b.test.record.shots[i].mass = Mass::from_si(std::array{0.0074, 0.0075, 0.0077}[i]);
  CHECK_THAT(section(append_ice, b),
             Contains("boiled") && Contains("-18 degC") && Contains("12 for balls of 25 mm") &&
                 Contains("10 at once") &&
                 Contains("20 made when the protocol was written, 2 of them rejected") &&
                 Contains("1 broke before the panel") &&
                 Contains("small: 7.53 (n 3, s 0.15) g, each weighed by itself"));
  b.test.protocol.ice = {};
  b.test.protocol.ice.weighed_together = 1;
  CHECK_THAT(section(append_ice, b), Contains("**water**: not stated") && Contains("one by one"));
}

TEST_CASE("report conditions: how the speed is known") {
  TestBuilder b;
  SpeedMethod& speed = b.test.protocol.speed;
  speed = {};
  const auto text = [&] { return section(append_speed, b); };
  CHECK_THAT(text(), Contains("trial shots at a dummy") && Contains("speeds as typed"));
  speed.video = FrameRate::from_si(240);
  speed.length = Length::from_si(3);
  speed.by = SpeedSource::each_shot;
  speed.to_panel = Length::from_si(1.8);
  CHECK_THAT(text(), Contains("at every shot") &&
                         Contains("frames of a video of 240 per second over 3 m") &&
                         Contains("its middle to the panel: 1.80 m"));
  speed.positions = PositionsWay{{}, FrameRate::from_si(120), {}, {}};
  CHECK_THAT(text(), Contains("positions in two pictures of a video of 120 per second"));
  speed.positions.reset();
  speed.gates = GatesWay{{}, Length::from_si(0.5), {}, {}};
  CHECK_THAT(text(), Contains("two gates 0.500 m apart"));
  speed.gates.reset();
  speed.radar = RadarWay{};
  CHECK_THAT(text(), Contains("a radar"));
  speed.radar.reset();
  speed.sounds = SoundsWay{};
  CHECK_THAT(text(), Contains("sounds of launch and impact"));
  speed.by = SpeedSource::setting;
  CHECK_THAT(text(), Contains("not measured: it supports no grade"));
  speed.by = SpeedSource::drop;
  CHECK_THAT(text(), Contains("height of a fall"));
}

TEST_CASE("report conditions: trial shots with their scatter") {
  const WrittenUp c = written_demo({"rigid-withstood"});
  Document out;
  append_speed(out, ReportPart(c.write_up, 0));
  CHECK_THAT(words(out), Contains("small: n 11, mean 24.30 m/s, s 1.4 %; 23.41 m/s at the panel"));
}

TEST_CASE("report conditions: mounting and day and what was not said of them") {
  TestBuilder b;
  b.test.record.mounting = "four clamps";
  b.test.record.panel_at_shots = TemperaturePoint::from_celsius(26);
  b.test.record.conditions = {};
  b.test.record.conditions.same_leads = false;
  b.test.record.conditions.in_sun_first = Time::from_si(1200);
  b.test.record.photos = {{{}, "m.jpg", "the mounting"}};
  CHECK_THAT(section(append_mounting, b),
             Contains("four clamps") && Contains("26 degC") &&
                 Contains("same leads before and after: no") &&
                 // Found by review: a line of "not stated" for each of them.
                 Contains("not stated: panels clean and dry; same instruments in all stages; ") &&
                 Contains("20 min") && Contains("**weather**: not stated") &&
                 Contains("Photo, not shown here"));
}
