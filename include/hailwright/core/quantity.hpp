#pragma once

#include <compare>
#include <string>

namespace hailwright {

/// Exponents of the base dimensions. Angle is kept apart so that a degree is not a pure number.
struct Dim {
  int length = 0;
  int mass = 0;
  int time = 0;
  int temperature = 0;
  int current = 0;
  int angle = 0;

  friend constexpr bool operator==(const Dim&, const Dim&) = default;
  friend constexpr Dim operator+(Dim a, Dim b) {
    return {a.length + b.length,           a.mass + b.mass,       a.time + b.time,
            a.temperature + b.temperature, a.current + b.current, a.angle + b.angle};
  }
  friend constexpr Dim operator-(Dim a, Dim b) {
    return {a.length - b.length,           a.mass - b.mass,       a.time - b.time,
            a.temperature - b.temperature, a.current - b.current, a.angle - b.angle};
  }
};

/// A physical quantity: one double in SI units whose dimension the compiler checks.
/// It is made from a number only by name (`from_si`, or a literal below), never by accident.
template <Dim D>
class Quantity {
public:
  constexpr Quantity() = default;
  static constexpr Quantity from_si(double value) { return Quantity(value); }
  [[nodiscard]] constexpr double si() const { return si_; }

  constexpr Quantity operator-() const { return Quantity(-si_); }
  constexpr Quantity& operator+=(Quantity other) {
    si_ += other.si_;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity other) {
    si_ -= other.si_;
    return *this;
  }
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.si_ + b.si_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.si_ - b.si_); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(k * a.si_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(k * a.si_); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.si_ / k); }
  friend constexpr auto operator<=>(Quantity, Quantity) = default;

private:
  constexpr explicit Quantity(double si) : si_(si) {}
  double si_ = 0.0;
};

template <Dim A, Dim B>
constexpr Quantity<A + B> operator*(Quantity<A> a, Quantity<B> b) {
  return Quantity<A + B>::from_si(a.si() * b.si());
}
template <Dim A, Dim B>
constexpr Quantity<A - B> operator/(Quantity<A> a, Quantity<B> b) {
  return Quantity<A - B>::from_si(a.si() / b.si());
}

using Ratio = Quantity<Dim{}>;  ///< a pure number; 5 % is 0.05
using Length = Quantity<Dim{.length = 1}>;
using Area = Quantity<Dim{.length = 2}>;
using Volume = Quantity<Dim{.length = 3}>;
using Mass = Quantity<Dim{.mass = 1}>;
using Density = Quantity<Dim{.length = -3, .mass = 1}>;
using Time = Quantity<Dim{.time = 1}>;
using FrameRate = Quantity<Dim{.time = -1}>;
using Speed = Quantity<Dim{.length = 1, .time = -1}>;
using Acceleration = Quantity<Dim{.length = 1, .time = -2}>;
using Force = Quantity<Dim{.length = 1, .mass = 1, .time = -2}>;
using Momentum = Quantity<Dim{.length = 1, .mass = 1, .time = -1}>;
using Energy = Quantity<Dim{.length = 2, .mass = 1, .time = -2}>;
using EnergyPerArea = Quantity<Dim{.mass = 1, .time = -2}>;
using Power = Quantity<Dim{.length = 2, .mass = 1, .time = -3}>;
using Irradiance = Quantity<Dim{.mass = 1, .time = -3}>;
using Pressure = Quantity<Dim{.length = -1, .mass = 1, .time = -2}>;
using Viscosity = Quantity<Dim{.length = -1, .mass = 1, .time = -1}>;  ///< dynamic
using Voltage = Quantity<Dim{.length = 2, .mass = 1, .time = -3, .current = -1}>;
using Current = Quantity<Dim{.current = 1}>;
using Resistance = Quantity<Dim{.length = 2, .mass = 1, .time = -3, .current = -2}>;
using TemperatureDifference = Quantity<Dim{.temperature = 1}>;
using TemperatureCoefficient = Quantity<Dim{.temperature = -1}>;
using Angle = Quantity<Dim{.angle = 1}>;

constexpr Ratio percent(double value) {
  return Ratio::from_si(value / 100.0);
}

/// A difference between two percentages. "5 % of the power" and "5 points more loss" are
/// different things; the type keeps them apart.
class PercentagePoints {
public:
  constexpr PercentagePoints() = default;
  static constexpr PercentagePoints between(Ratio a, Ratio b) {
    return PercentagePoints((a.si() - b.si()) * 100.0);
  }
  static constexpr PercentagePoints of(double points) { return PercentagePoints(points); }
  [[nodiscard]] constexpr double points() const { return points_; }
  friend constexpr auto operator<=>(PercentagePoints, PercentagePoints) = default;

private:
  constexpr explicit PercentagePoints(double points) : points_(points) {}
  double points_ = 0.0;
};

/// A temperature on a scale with a zero of its own. Two of them subtract to a difference; adding
/// two has no meaning and does not compile.
class TemperaturePoint {
public:
  constexpr TemperaturePoint() = default;
  static constexpr TemperaturePoint from_kelvin(double k) { return TemperaturePoint(k); }
  static constexpr TemperaturePoint from_celsius(double c) { return TemperaturePoint(c + 273.15); }
  [[nodiscard]] constexpr double kelvin() const { return kelvin_; }
  [[nodiscard]] constexpr double celsius() const { return kelvin_ - 273.15; }

  friend constexpr TemperatureDifference operator-(TemperaturePoint a, TemperaturePoint b) {
    return TemperatureDifference::from_si(a.kelvin_ - b.kelvin_);
  }
  friend constexpr TemperaturePoint operator+(TemperaturePoint a, TemperatureDifference d) {
    return TemperaturePoint(a.kelvin_ + d.si());
  }
  friend constexpr auto operator<=>(TemperaturePoint, TemperaturePoint) = default;

private:
  constexpr explicit TemperaturePoint(double kelvin) : kelvin_(kelvin) {}
  double kelvin_ = 273.15;
};

/// An amount of money in one named currency. Currencies never convert or mix.
struct Money {
  double amount = 0.0;
  std::string currency;  ///< three capital letters, as in ISO 4217
};

inline namespace literals {
constexpr Length operator""_mm(long double v) {
  return Length::from_si(static_cast<double>(v) / 1000.0);
}
constexpr Length operator""_m(long double v) {
  return Length::from_si(static_cast<double>(v));
}
constexpr Mass operator""_g(long double v) {
  return Mass::from_si(static_cast<double>(v) / 1000.0);
}
constexpr Speed operator""_mps(long double v) {
  return Speed::from_si(static_cast<double>(v));
}
constexpr Energy operator""_J(long double v) {
  return Energy::from_si(static_cast<double>(v));
}
constexpr Density operator""_g_per_cm3(long double v) {
  return Density::from_si(static_cast<double>(v) * 1000.0);
}
}  // namespace literals

}  // namespace hailwright
