#include "hailwright/core/quantity.hpp"

#include <type_traits>

#include "support/catch.hpp"

using namespace hailwright;

// The algebra of dimensions is checked by the compiler: these lines either build or do not.
static_assert(std::is_same_v<decltype(Mass{} * Speed{} * Speed{}), Energy>);
static_assert(std::is_same_v<decltype(Mass{} * Speed{}), Momentum>);
static_assert(std::is_same_v<decltype(Momentum{} * Speed{}), Energy>);
static_assert(std::is_same_v<decltype(Mass{} * Acceleration{} * Length{}), Energy>);
static_assert(std::is_same_v<decltype(Length{} / Time{}), Speed>);
static_assert(std::is_same_v<decltype(Length{} * FrameRate{}), Speed>);
static_assert(std::is_same_v<decltype(Speed{} / Time{}), Acceleration>);
static_assert(std::is_same_v<decltype(Length{} * Length{}), Area>);
static_assert(std::is_same_v<decltype(Mass{} / (Area{} * Length{})), Density>);
static_assert(std::is_same_v<decltype(Energy{} / Area{}), EnergyPerArea>);
static_assert(std::is_same_v<decltype(Power{} / Area{}), Irradiance>);
static_assert(std::is_same_v<decltype(Power{} * Time{}), Energy>);
static_assert(std::is_same_v<decltype(Voltage{} * Current{}), Power>);
static_assert(std::is_same_v<decltype(Voltage{} / Current{}), Resistance>);
static_assert(std::is_same_v<decltype(Pressure{} * Area{} * Length{}), Energy>);
static_assert(std::is_same_v<decltype(TemperatureCoefficient{} * TemperatureDifference{}), Ratio>);
static_assert(std::is_same_v<decltype(Length{} / Length{}), Ratio>);
static_assert(
    std::is_same_v<decltype(TemperaturePoint{} - TemperaturePoint{}), TemperatureDifference>);

namespace {

template <class A, class B>
concept Adds = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept Subtracts = requires(A a, B b) {
  a - b;
};
template <class A, class B>
concept Compares = requires(A a, B b) {
  a < b;
};
template <class A, class B>
concept Multiplies = requires(A a, B b) {
  a* b;
};

}  // namespace

// What must not compile. The first line of each group shows that the concept can be met.
static_assert(Adds<Length, Length>);
static_assert(!Adds<Length, Mass>);
static_assert(!Adds<Length, double>);
static_assert(!Adds<double, Length>);
static_assert(!Adds<Ratio, double>);
static_assert(!Adds<Angle, Ratio>, "an angle is not a pure number");
static_assert(!Adds<FrameRate, Speed>);
static_assert(Adds<TemperaturePoint, TemperatureDifference>);
static_assert(!Adds<TemperaturePoint, TemperaturePoint>, "20 degC + 20 degC has no meaning");
static_assert(!Adds<TemperaturePoint, double>);
static_assert(Subtracts<Energy, Energy>);
static_assert(!Subtracts<Energy, Momentum>);
static_assert(!Subtracts<TemperatureDifference, TemperaturePoint>);
static_assert(Multiplies<double, Speed>);
static_assert(!Multiplies<double, TemperaturePoint>, "twice 20 degC has no meaning");
static_assert(Compares<Speed, Speed>);
static_assert(!Compares<Speed, double>);
static_assert(!Compares<Energy, EnergyPerArea>);
static_assert(!Compares<TemperaturePoint, TemperatureDifference>);
static_assert(!Compares<PercentagePoints, Ratio>, "5 points are not 5 %");
static_assert(!std::is_convertible_v<double, Length>, "a number is not a length by accident");
static_assert(!std::is_constructible_v<Length, double>, "nor by a cast");
static_assert(!std::is_convertible_v<Length, double>);
static_assert(!std::is_constructible_v<TemperaturePoint, double>);
static_assert(!std::is_constructible_v<TemperaturePoint, TemperatureDifference>);
static_assert(!std::is_constructible_v<PercentagePoints, Ratio>);
static_assert(sizeof(Energy) == sizeof(double), "the dimension costs nothing at run time");

// The arithmetic is usable in constants.
static_assert((2.0_m - 0.5_m).si() == 1.5);
static_assert((-2.0_m).si() == -2.0);
static_assert(3.0_mps < 4.0_mps);

TEST_CASE("quantity: literals are in SI inside") {
  CHECK((25.0_mm).si() == 0.025);
  CHECK((2.5_m).si() == 2.5);
  CHECK((7.53_g).si() == 0.00753);
  CHECK((23.0_mps).si() == 23.0);
  CHECK((2.0_J).si() == 2.0);
  CHECK((0.917_g_per_cm3).si() == 917.0);
}

TEST_CASE("quantity: sums, multiples and comparisons") {
  Length sum = 1.0_m;
  sum += 0.25_m;
  CHECK(sum.si() == 1.25);
  sum -= 2.0_m;
  CHECK(sum.si() == -0.75);
  CHECK((2.0 * sum).si() == -1.5);
  CHECK((sum * 2.0).si() == -1.5);
  CHECK((sum / 2.0).si() == -0.375);
  CHECK(Length{}.si() == 0.0);
  CHECK(Length::from_si(1.0) == 1.0_m);
  CHECK(1.0_mm < 1.0_m);
  CHECK_FALSE(1.0_m < 1.0_mm);
}

TEST_CASE("quantity: energy of the 25 mm ball of IEC 61215") {
  // Table of IEC 61215 (read at secondary sources): 7.53 g at 23.0 m/s; computed 1/2 m v^2 = 1.9917
  // J.
  const Energy energy = 0.5 * (7.53_g * 23.0_mps * 23.0_mps);
  CHECK_THAT(energy.si(), WithinAbs(1.9917, 0.00005));
}

TEST_CASE("quantity: percent and percentage points stay apart") {
  CHECK(percent(5.0).si() == 0.05);
  CHECK(percent(-100.0).si() == -1.0);
  CHECK_THAT(PercentagePoints::between(percent(7.0), percent(5.0)).points(), WithinRel(2.0, 1e-13));
  CHECK(PercentagePoints::of(2.0).points() == 2.0);
  CHECK(PercentagePoints::of(2.0) > PercentagePoints::of(-3.0));
  CHECK(PercentagePoints{}.points() == 0.0);
}

TEST_CASE("quantity: temperature points have a zero of their own") {
  CHECK(TemperaturePoint{} == TemperaturePoint::from_celsius(0.0));
  CHECK(TemperaturePoint::from_celsius(25.0).kelvin() == 298.15);
  CHECK_THAT(TemperaturePoint::from_kelvin(255.15).celsius(), WithinAbs(-18.0, 1e-12));
  const auto freezer = TemperaturePoint::from_celsius(-18.0);
  const auto room = TemperaturePoint::from_celsius(20.0);
  CHECK_THAT((room - freezer).si(), WithinRel(38.0, 1e-13));
  CHECK_THAT((freezer - room).si(), WithinRel(-38.0, 1e-13));
  CHECK_THAT((freezer + (room - freezer)).celsius(), WithinAbs(20.0, 1e-12));
  CHECK(freezer < room);
}
