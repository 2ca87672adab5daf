// Terminal speeds, slowing and falls of ice spheres: the tables of sections 7.1, 7.3 and 7.4 of the
// fact base on hail, all computed there: ice 917 kg/m3, air 1.225 kg/m3, g 9.80665 m/s2, no
// buoyancy. Tolerances are half of the last printed digit.

#include <cmath>
#include <numbers>
#include <optional>

#include "hailwright/physics/flight.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

const Density air = Density::from_si(1.225);

FlyingBall ice(double mm) {
  const double d_m = mm / 1000.0;
  return {Mass::from_si(917.0 * std::numbers::pi / 6.0 * d_m * d_m * d_m), Length::from_si(d_m)};
}

FlightPath path_of(double mm, const Drag& drag) {
  return {ice(mm), {air, air_viscosity(TemperaturePoint::from_kelvin(288.15))}, drag, Speed{}};
}

}  // namespace

// One value is not as printed: 75 mm by Clift and Gauvin. The table has 39.651, the law followed to
// Re 2.036e5; held at its last value beyond 2e5, as the text below the table wants it, it
// gives 39.648.
TEST_CASE("hail 7.1: terminal speeds at eight sizes", "[reference]") {
  const double mm[] = {12.5, 15, 25, 35, 45, 55, 65, 75};
  struct Row {
    std::optional<double> coefficient;  // nothing: Clift and Gauvin
    double mps[8];
  };
  const Row rows[] = {
      {0.45, {16.489, 18.063, 23.319, 27.591, 31.286, 34.588, 37.601, 40.390}},
      {0.47, {16.134, 17.674, 22.817, 26.998, 30.613, 33.844, 36.792, 39.521}},
      {0.50, {15.643, 17.136, 22.122, 26.176, 29.680, 32.813, 35.671, 38.317}},
      {0.60, {14.280, 15.643, 20.195, 23.895, 27.094, 29.954, 32.563, 34.979}},
      {std::nullopt, {16.985, 18.397, 23.168, 27.166, 30.704, 33.917, 36.883, 39.648}},
  };
  for (const Row& row : rows) {
    const Drag drag = row.coefficient ? Drag::constant(*row.coefficient) : Drag::clift_gauvin();
    for (int i = 0; i < 8; ++i) {
      CAPTURE(row.coefficient.value_or(-1), mm[i]);
      const FlightPath path = path_of(mm[i], drag);
      const auto speed = terminal_speed(path.ball, path.air, drag);
      REQUIRE(speed.has_value());
      CHECK_THAT(speed->si(), WithinAbs(row.mps[i], 0.000501));
    }
  }
}

// The sentence below the table: IEC speeds (read) agree with the last row within 0.8 % from 25 mm
// up, and are 3 % and 6 % lower at 15 and 12.5 mm.
TEST_CASE("hail 7.1: the speeds of the IEC table are terminal speeds", "[reference]") {
  const double mm[] = {12.5, 15, 25, 35, 45, 55, 65, 75};
  const double iec_mps[] = {16.0, 17.8, 23.0, 27.2, 30.7, 33.9, 36.7, 39.5};
  for (int i = 0; i < 8; ++i) {
    CAPTURE(mm[i]);
    const FlightPath path = path_of(mm[i], Drag::clift_gauvin());
    const double lower_percent =
        100.0 * (1.0 - iec_mps[i] / terminal_speed(path.ball, path.air).si());
    if (i >= 2) CHECK(std::abs(lower_percent) <= 0.8);
    if (i == 1) CHECK_THAT(lower_percent, WithinAbs(3.0, 0.5));
    if (i == 0) CHECK_THAT(lower_percent, WithinAbs(6.0, 0.5));
  }
}

TEST_CASE("hail 7.3: drag length and speed lost before the panel, Cd 0.45", "[reference]") {
  struct Row {
    double mm, length_m, lost_percent[4];
  };
  const double way_m[] = {0.5, 1, 2, 3};
  const Row rows[] = {
      {12.5, 27.725, {1.787, 3.543, 6.960, 10.256}}, {25, 55.450, {0.898, 1.787, 3.543, 5.267}},
      {35, 77.630, {0.642, 1.280, 2.543, 3.791}},    {45, 99.810, {0.500, 0.997, 1.984, 2.961}},
      {75, 166.349, {0.300, 0.599, 1.195, 1.787}},
  };
  for (const Row& row : rows) {
    const Length length = drag_length(ice(row.mm), air, 0.45);
    CAPTURE(row.mm);
    CHECK_THAT(length.si(), WithinAbs(row.length_m, 0.000501));
    for (int i = 0; i < 4; ++i) {
      CAPTURE(way_m[i]);
      const Speed left = speed_after(Speed::from_si(1.0), Length::from_si(way_m[i]), length);
      CHECK_THAT(100.0 * (1.0 - left.si()), WithinAbs(row.lost_percent[i], 0.000501));
    }
  }
}

// Printed below table 7.3, whose heading says Cd 0.45: 9.27 mm at 1 m and 37.1 mm at 2 m, at 23
// m/s. These are the figures without air, g x^2 / (2 v^2). With the drag of a 25 mm ball the sag
// is 1.2 % and 2.4 % more (9.38 and 37.98 mm): to first order 1 + 2 x / (3 L), next term (x / L)^2
// / 3, from v = v0 exp(-x/L), y'' = g exp(2 x/L) / v0^2.
TEST_CASE("hail 7.3: sag at 23 m/s", "[reference]") {
  const Speed v = Speed::from_si(23);
  const auto sag_mm = [&](double way_m, const Drag& drag) {
    return sag(v, path_of(25, drag), Length::from_si(way_m))->si() * 1000.0;
  };
  CHECK_THAT(sag_mm(1, Drag::constant(0)), WithinAbs(9.27, 0.00501));
  CHECK_THAT(sag_mm(2, Drag::constant(0)), WithinAbs(37.1, 0.0501));
  const double length_m = drag_length(ice(25), air, 0.45).si();
  for (const double way_m : {1.0, 2.0}) {
    CAPTURE(way_m);
    const double x = way_m / length_m;
    // The integral of y'' in full; what it leaves out is the slope of the flight, to 1e-4 of sag.
    const double expected_mm = 1000.0 * 9.80665 / (23.0 * 23.0) * length_m * length_m *
                               (std::exp(2.0 * x) - 1.0 - 2.0 * x) / 4.0;
    CHECK_THAT(sag_mm(way_m, Drag::constant(0.45)), WithinRel(expected_mm, 1e-4));
  }
}

TEST_CASE("hail 7.4: speeds of a fall, Cd 0.45", "[reference]") {
  struct Row {
    double height_m, vacuum_mps, mps[3];
  };
  const double mm[] = {25, 35, 45};
  const Row rows[] = {
      {1, 4.4287, {4.3891, 4.4003, 4.4066}},      {5, 9.9029, {9.4727, 9.5923, 9.6599}},
      {10, 14.0047, {12.8319, 13.1493, 13.3316}}, {20, 19.8057, {16.7169, 17.5083, 17.9775}},
      {50, 31.3156, {21.3119, 23.4807, 24.8878}},
  };
  for (const Row& row : rows) {
    CAPTURE(row.height_m);
    const LaunchState rest{Speed{}, Angle{}, Length::from_si(row.height_m)};
    CHECK_THAT(fly_to_ground(rest, path_of(25, Drag::constant(0))).speed.si(),
               WithinAbs(row.vacuum_mps, 0.0000501));
    for (int i = 0; i < 3; ++i) {
      CAPTURE(mm[i]);
      const Speed terminal = terminal_speed(ice(mm[i]), air, 0.45);
      CHECK_THAT(drop_speed(rest.height, terminal).si(), WithinAbs(row.mps[i], 0.0000501));
      CHECK_THAT(fly_to_ground(rest, path_of(mm[i], Drag::constant(0.45))).speed.si(),
                 WithinAbs(row.mps[i], 0.0000501));
    }
  }
}

// Worked beforehand for 25 mm and Cd 0.45: 0.9 of the terminal speed after 46.044 m and 3.501 s.
TEST_CASE("hail 7.4: nine tenths of the terminal speed", "[reference]") {
  const Speed terminal = terminal_speed(ice(25), air, 0.45);
  CHECK_THAT(terminal.si(), WithinAbs(23.3190, 0.0000501));
  CHECK_THAT(drop_height(terminal * 0.9, terminal)->si(), WithinAbs(46.044, 0.000501));
  CHECK_THAT(drop_time(terminal * 0.9, terminal).si(), WithinAbs(3.501, 0.000501));
}

TEST_CASE("hail 7.4: heights that give the IEC speed, or none does", "[reference]") {
  struct Row {
    double mm, iec_mps, height_m;
  };
  for (const Row& r : {Row{25, 23.0, 100}, Row{35, 27.2, 139}, Row{45, 30.7, 164}}) {
    CAPTURE(r.mm);
    const Speed iec = Speed::from_si(r.iec_mps);
    const auto height = drop_height(iec, terminal_speed(ice(r.mm), air, 0.45));
    REQUIRE(height.has_value());
    CHECK_THAT(height->si(), WithinAbs(r.height_m, 0.501));
    CHECK_FALSE(drop_height(iec, terminal_speed(ice(r.mm), air, 0.50)).has_value());
  }
  // "25 mm from 5 m gives 0.34 J, 17 % of 1.99 J"; "vacuum formula says 27 m".
  const double v_mps = drop_speed(Length::from_si(5), terminal_speed(ice(25), air, 0.45)).si();
  const double joule = 0.5 * ice(25).mass.si() * v_mps * v_mps;
  CHECK_THAT(joule, WithinAbs(0.34, 0.00501));
  CHECK_THAT(100.0 * joule / 1.99, WithinAbs(17.0, 0.501));
  CHECK_THAT(23.0 * 23.0 / (2.0 * standard_gravity.si()), WithinAbs(27.0, 0.501));
}
