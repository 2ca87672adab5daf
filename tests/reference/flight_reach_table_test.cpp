// Where a missed ball lands, and what a flight or a fall costs: sections 1.1, 1.4, 1.5 and 4 of the
// fact base on practice and safety, all computed there: air 1.2 kg/m3, ice 917 kg/m3, height 1.5 m,
// Cd 0.5, or 0.3 for the far case. Tolerances are half of the last printed digit.

#include <cmath>
#include <numbers>

#include "hailwright/physics/flight.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

const Air air{Density::from_si(1.2), air_viscosity(TemperaturePoint::from_celsius(20))};
const Length muzzle = Length::from_si(1.5);

FlyingBall ice(double mm) {
  const double d_m = mm / 1000.0;
  return {Mass::from_si(917.0 * std::numbers::pi / 6.0 * d_m * d_m * d_m), Length::from_si(d_m)};
}

FlightPath path_of(double mm, double coefficient) {
  return {ice(mm), air, Drag::constant(coefficient), Speed{}};
}

}  // namespace

TEST_CASE("practice 1.4: first contact of a missed ball", "[reference]") {
  struct Row {
    double mm, mps, level_m, ten_deg_m, worst_m, joule, joule_digit, far_m, v2_over_g_m;
  };
  for (const Row& r :
       {Row{25, 23.0, 12, 20, 32, 0.8, 0.1, 38, 54}, Row{35, 27.2, 14, 26, 45, 3.1, 0.1, 53, 75},
        Row{45, 30.7, 16, 32, 57, 8.3, 0.1, 68, 96}, Row{55, 33.9, 18, 38, 70, 18, 1, 82, 117},
        Row{65, 36.7, 19, 44, 82, 35, 1, 96, 137}, Row{75, 39.5, 21, 50, 94, 63, 1, 111, 159}}) {
    CAPTURE(r.mm);
    const Speed v = Speed::from_si(r.mps);
    const FlightPath path = path_of(r.mm, 0.5);
    CHECK_THAT(fly_to_ground({v, Angle{}, muzzle}, path).away.si(), WithinAbs(r.level_m, 0.501));
    const Angle ten_deg = Angle::from_si(std::numbers::pi / 18.0);
    CHECK_THAT(fly_to_ground({v, ten_deg, muzzle}, path).away.si(), WithinAbs(r.ten_deg_m, 0.501));

    const FarthestReach worst = farthest_reach(v, muzzle, path);
    CHECK_THAT(worst.landing.away.si(), WithinAbs(r.worst_m, 0.501));
    CHECK_THAT(worst.elevation.si() * 180.0 / std::numbers::pi, WithinAbs(40.0, 0.6));  // "~40 deg"
    const double end_mps = worst.landing.speed.si();
    CHECK_THAT(0.5 * path.ball.mass.si() * end_mps * end_mps,
               WithinAbs(r.joule, 0.501 * r.joule_digit));

    const FarthestReach far = farthest_reach(v, muzzle, path_of(r.mm, drag_range::reach));
    CHECK_THAT(far.landing.away.si(), WithinAbs(r.far_m, 0.501));

    // The last column is v^2/g, the bound without air from the ground. From 1.5 m it is 1.5 m more.
    CHECK_THAT(no_air_reach(v, Length{}).si(), WithinAbs(r.v2_over_g_m, 0.501));
    CHECK(no_air_reach(v, muzzle).si() > r.v2_over_g_m + 1.0);
  }
}

// Ice chips thrown at 23 and 40 m/s from 1 m, Cd 0.5, worst angle: "1 mm 5-6 m; 2 mm 8-10 m; 3 mm
// 10-14 m; 5 mm 14-20 m; 10 mm 21-32 m". Called an upper bound there, which it is not: with Cd 0.3,
// which M16 takes for reach, and for chips above 1 mm with the law of Clift and Gauvin, they fly
// farther.
TEST_CASE("practice 1.4: how far chips fly", "[reference]") {
  struct Row {
    double mm, slow_m, fast_m;
  };
  for (const Row& r :
       {Row{1, 5, 6}, Row{2, 8, 10}, Row{3, 10, 14}, Row{5, 14, 20}, Row{10, 21, 32}}) {
    CAPTURE(r.mm);
    const Length metre = Length::from_si(1.0);
    const auto reach_m = [&](double mps, const FlightPath& path) {
      return farthest_reach(Speed::from_si(mps), metre, path).landing.away.si();
    };
    CHECK_THAT(reach_m(23, path_of(r.mm, 0.5)), WithinAbs(r.slow_m, 0.501));
    CHECK_THAT(reach_m(40, path_of(r.mm, 0.5)), WithinAbs(r.fast_m, 0.501));
    CHECK(reach_m(40, path_of(r.mm, drag_range::reach)) > r.fast_m + 2.0);
    const FlightPath by_law{ice(r.mm), air, Drag::clift_gauvin(), Speed{}};
    if (r.mm > 1) CHECK(reach_m(40, by_law) > r.fast_m + 1.0);
  }
}

TEST_CASE("practice 1.1 and 4: speed lost on the way, Cd 0.5", "[reference]") {
  struct Row {
    double mm, lost_percent, digit;
  };
  for (const Row& r : {Row{25, 1.9, 0.1}, Row{35, 1.4, 0.1}, Row{45, 1.1, 0.1}, Row{55, 0.9, 0.1},
                       Row{65, 0.75, 0.01}, Row{75, 0.65, 0.01}}) {
    CAPTURE(r.mm);
    const Length length = drag_length(ice(r.mm), air.density, 0.5);
    const Speed left = speed_after(Speed::from_si(1), Length::from_si(1), length);
    CHECK_THAT(100.0 * (1.0 - left.si()), WithinAbs(r.lost_percent, 0.501 * r.digit));
  }
  CHECK_THAT(drag_length(ice(25), air.density, 0.5).si(), WithinAbs(51, 0.501));
  CHECK_THAT(drag_length(ice(45), air.density, 0.5).si(), WithinAbs(92, 0.501));
  CHECK_THAT(drag_length(ice(75), air.density, 0.5).si(), WithinAbs(153, 0.501));
  // "Gate 2 m short: 25 mm loses 3.9 % speed, 7.6 % energy." The speed is not as printed: 3.9 is 2
  // m over 51 m; the formula printed beside it gives 3.85, and 7.55 for the energy.
  const double left =
      speed_after(Speed::from_si(1), Length::from_si(2), drag_length(ice(25), air.density, 0.5))
          .si();
  CHECK_THAT(100.0 * (1.0 - left), WithinAbs(3.85, 0.00501));
  CHECK_THAT(100.0 * (1.0 - left * left), WithinAbs(7.6, 0.0501));
}

// "3 m gives 7.5 m/s, 10 % of the IEC 25 mm energy (4 % for 75 mm); 10 m gives 31 % for 25 mm, 12 %
// for 75 mm; a 25 mm ball cannot reach 23 m/s (Cd 0.5 terminal 22.4 m/s)."
TEST_CASE("practice 1.5: a drop is a weak shot", "[reference]") {
  struct Row {
    double height_m, mm, iec_mps, percent;
  };
  for (const Row& r :
       {Row{3, 25, 23.0, 10}, Row{3, 75, 39.5, 4}, Row{10, 25, 23.0, 31}, Row{10, 75, 39.5, 12}}) {
    CAPTURE(r.height_m, r.mm);
    const Speed terminal = terminal_speed(ice(r.mm), air.density, 0.5);
    const double share = drop_speed(Length::from_si(r.height_m), terminal).si() / r.iec_mps;
    CHECK_THAT(100.0 * share * share, WithinAbs(r.percent, 0.501));
  }
  const Speed terminal = terminal_speed(ice(25), air.density, 0.5);
  CHECK_THAT(terminal.si(), WithinAbs(22.4, 0.0501));
  CHECK_THAT(drop_speed(Length::from_si(3), terminal).si(), WithinAbs(7.5, 0.0501));
  CHECK_FALSE(drop_height(Speed::from_si(23), terminal).has_value());
}
