#include "input/table_speed.hpp"

#include "input/table.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;

namespace {

struct Read {
  Diagnostics notes;
  SpeedReading reading;
  explicit Read(const std::string& text) {
    const std::vector<ColumnRule> rules{
        {.name = "frames", .holds = Holds::number},
        {.name = "speed", .holds = Holds::quantity, .measure = Measure::speed, .unit = "m/s"},
        moved_column(),
        time_column(),
        {.name = "note"}};
    const TableSource source{1, 1, 1, text};
    const Sheet sheet(source, rules, notes);
    REQUIRE(sheet.usable());
    CHECK(has_speed_column(sheet));
    reading = read_speed_cells(sheet, sheet.rows().at(0), notes);
  }
};

SpeedReading frames(double n) {
  SpeedReading r;
  r.frames = n;
  return r;
}

SpeedReading typed(double mps) {
  SpeedReading r;
  r.speed = Speed::from_si(mps);
  return r;
}

SpeedReading timed(double seconds) {
  SpeedReading r;
  r.time = Time::from_si(seconds);
  return r;
}

SpeedReading moved(double metres, double n) {
  SpeedReading r = frames(n);
  r.moved = Length::from_si(metres);
  return r;
}

SpeedMethod method(SpeedWay way) {
  SpeedMethod m;
  m.origin = {1, 8, 1, 5};
  if (way == SpeedWay::frames) {
    m.video = FrameRate::from_si(240);
    m.length = Length::from_si(3);
  }
  if (way == SpeedWay::positions) m.positions = PositionsWay{{}, FrameRate::from_si(240), {}, {}};
  if (way == SpeedWay::gates) m.gates = GatesWay{{}, Length::from_si(0.3), {}, {}};
  if (way == SpeedWay::radar) m.radar = RadarWay{};
  if (way == SpeedWay::sounds) {
    m.sounds = SoundsWay{};
    m.sounds->path = Length::from_si(3);
    m.sounds->panel_to_microphone = Length::from_si(3.4);
  }
  return m;
}

/// The code of the one message, or nothing.
std::string code(const SpeedReading& reading, const SpeedMethod& m) {
  Diagnostics notes;
  const bool fits = fits_method(reading, m, {1, 3, 5, 4}, notes);
  CHECK(fits == notes.empty());
  if (fits) return {};
  CHECK(only(notes).where.line == 3);
  CHECK(only(notes).related.at(0).where.line == 8);
  return std::string(only(notes).code);
}

}  // namespace

TEST_CASE("table speed: values with the step in which they are typed") {
  const Read t("time ms\n12.50\n");
  CHECK(t.notes.empty());
  CHECK_THAT(t.reading.time->si(), WithinRel(0.0125, 1e-12));
  CHECK_THAT(t.reading.time_step->si(), WithinRel(1e-5, 1e-12));
  const Read v("speed mph\n51\n");
  CHECK_THAT(v.reading.speed_step->si(), WithinRel(0.44704, 1e-12));
  const Read p("moved mm,frames\n812,8\n");
  CHECK(p.notes.empty());
  CHECK_THAT(p.reading.moved->si(), WithinRel(0.812, 1e-12));
  CHECK(p.reading.frames == 8.0);
  CHECK(is_blank(Read("frames,speed m/s,moved mm,time ms,note\n,,,,x\n").reading));
}

TEST_CASE("table speed: mistakes in one row") {
  struct Row {
    const char* text;
    const char* code;
    int column;
  };
  const Row row =
      GENERATE(Row{"frames,speed m/s\n20,30\n", "T15", 4}, Row{"time ms,frames\n20,30\n", "T15", 1},
               Row{"frames,moved mm\n,800\n", "T12", 2}, Row{"time ms\n0\n", "T14", 1},
               Row{"time s\n1e-300\n", "T14", 1}, Row{"time s\n101\n", "T14", 1},
               Row{"frames,moved m\n8,51\n", "T14", 3});
  CAPTURE(row.text);
  const Read r(row.text);
  CHECK(only(r.notes).code == row.code);
  CHECK(only(r.notes).where.line == 2);
  CHECK(only(r.notes).where.column == row.column);
}

TEST_CASE("table speed: each way takes its own columns and no others") {
  struct Row {
    SpeedWay way;
    bool speed, frames, moved, time;
  };
  const Row rows[] = {{SpeedWay::typed, true, true, false, false},
                      {SpeedWay::frames, true, true, false, false},
                      {SpeedWay::positions, false, false, true, false},
                      {SpeedWay::gates, false, false, false, true},
                      {SpeedWay::radar, true, false, false, false},
                      {SpeedWay::sounds, false, false, false, true}};
  for (const Row& row : rows) {
    const SpeedMethod m = method(row.way);
    CAPTURE(static_cast<int>(row.way));
    const auto wanted = [](bool fits) { return std::string(fits ? "" : "C23"); };
    CHECK(code(typed(24), m) == wanted(row.speed));
    CHECK(code(frames(30), m) == wanted(row.frames));
    CHECK(code(moved(0.8, 8), m) == wanted(row.moved));
    CHECK(code(timed(row.way == SpeedWay::sounds ? 0.125 : 0.0125), m) == wanted(row.time));
    CHECK(code({}, m).empty());
  }
}

TEST_CASE("table speed: nothing is measured of a drop or by a setting") {
  SpeedMethod m;
  m.origin = {1, 8, 1, 5};
  for (const SpeedSource by : {SpeedSource::drop, SpeedSource::setting}) {
    m.by = by;
    CHECK(code(typed(24), m) == "C23");
    CHECK(code(frames(24), m) == "C23");
    CHECK(code({}, m).empty());
  }
}

TEST_CASE("table speed: what no ball can do is a slip in a unit") {
  // 300 mm in 12.5 us: micro for milli.
  CHECK(code(timed(12.5e-6), method(SpeedWay::gates)) == "C24");
  CHECK(code(moved(8.0, 8), method(SpeedWay::positions)) == "C24");
  CHECK(code(timed(0.009), method(SpeedWay::sounds)) == "C24");
  SpeedMethod rolling = method(SpeedWay::frames);
  rolling.shutter =
      ShutterOfVideo{{}, Time::from_si(0.1), {}, Length::from_si(1), FlightInPicture::against};
  CHECK(code(frames(30), rolling) == "C24");
  rolling.shutter->flight = FlightInPicture::along;
  CHECK(code(frames(30), rolling).empty());
}
