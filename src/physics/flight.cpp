#include "hailwright/physics/flight.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

constexpr double gravity_mps2 = standard_gravity.si();

// Ours. Inputs stop at 200 m/s, but the speed that a small ball needs before a long way is worked
// back with an exponential: absurd, it still has to be reckoned with before it can be refused.
constexpr double most_mps = 1e9;
constexpr double most_m = 10000.0;  // ours: inputs stop at 100 m, and 100 m of falling ground

// Step of the clock (see Equations). Over 20,000 random flights (balls of 5 to 100 mm at 1 to 80
// m/s from up to 30 m, winds to 15 m/s) the worst relative error of a landing against Boost.Odeint
// is 3.4e-8; with 1/24 it is 4.6e-7. It grows with the third power of the step, for the worst are
// balls that come to rest in the air on their way, where |v| v has a kink; the promise is 1e-6.
constexpr double step = 1.0 / 64.0;

// A bound on the loop against a mistake of ours: any flight has ended long before.
constexpr int most_steps = 100000;

// A ball this near to its even fall, as a share of the speeds in it, is taken to have reached it.
constexpr double settled_share = 1e-9;

/// Place and velocity at a time.
struct State {
  double time_s;
  double away_m;
  double height_m;
  double forward_mps;
  double up_mps;
};

State moved(const State& from, double amount, const State& slope) {
  return {from.time_s + amount * slope.time_s, from.away_m + amount * slope.away_m,
          from.height_m + amount * slope.height_m, from.forward_mps + amount * slope.forward_mps,
          from.up_mps + amount * slope.up_mps};
}

/// The equations of motion of one flight,
///   dv/dt = -k (v - wind) - g,   k = |v - wind| / L,   L the drag length at that speed,
/// written over a clock s instead of the time:
///   ds/dt = k + g/V + g/sqrt(U^2 + v^2).
/// These are the rates at which drag slows the ball, at which it comes to its even fall (V is its
/// terminal speed) and at which gravity bends its way (U is the speed that a flight of this size
/// has without air). A fixed step of s is short in time where a light ball is fast, long where
/// little happens; and since speeds grow or shrink with the exponential of s, the number of steps
/// has a bound for any ball whatever.
class Equations {
public:
  Equations(const FlightPath& path, double flight_mps) : path_(path), flight_mps_(flight_mps) {
    if (const auto terminal = terminal_speed(path.ball, path.air, path.drag)) {
      terminal_mps_ = terminal->si();
      wind_mps_ = path.tailwind.si();
    }
  }

  /// Of the air that acts on the ball: without drag there is none.
  [[nodiscard]] double wind_mps() const { return wind_mps_; }

  /// One step of Runge-Kutta of fourth order.
  [[nodiscard]] State after(const State& from, double amount) const {
    const State a = slope(from);
    const State b = slope(moved(from, amount / 2.0, a));
    const State c = slope(moved(from, amount / 2.0, b));
    const State d = slope(moved(from, amount, c));
    return moved(moved(moved(moved(from, amount / 6.0, a), amount / 3.0, b), amount / 3.0, c),
                 amount / 6.0, d);
  }

  /// Whether the ball falls evenly: with the wind, at its terminal speed. It will not change.
  [[nodiscard]] bool is_settled(const State& at) const {
    if (!std::isfinite(terminal_mps_)) return false;
    const double close_mps = settled_share * (terminal_mps_ + std::abs(wind_mps_));
    return std::abs(at.up_mps + terminal_mps_) <= close_mps &&
           std::abs(at.forward_mps - wind_mps_) <= close_mps;
  }
  /// Straight on for a time, falling evenly.
  [[nodiscard]] State settled_after(const State& from, double time_s) const {
    return {from.time_s + time_s, from.away_m + wind_mps_ * time_s,
            from.height_m - terminal_mps_ * time_s, wind_mps_, -terminal_mps_};
  }

private:
  [[nodiscard]] State slope(const State& at) const {
    const double k_per_s = drag_rate_per_s(std::hypot(at.forward_mps - wind_mps_, at.up_mps));
    const double turned_mps = std::hypot(flight_mps_, at.forward_mps, at.up_mps);
    const double clock_s =
        1.0 / (k_per_s + gravity_mps2 / terminal_mps_ + gravity_mps2 / turned_mps);
    return {clock_s, clock_s * at.forward_mps, clock_s * at.up_mps,
            -clock_s * k_per_s * (at.forward_mps - wind_mps_),
            -clock_s * (k_per_s * at.up_mps + gravity_mps2)};
  }

  /// k of the equations; nothing slows a ball that rests in the air.
  [[nodiscard]] double drag_rate_per_s(double through_air_mps) const {
    if (through_air_mps == 0.0) return 0.0;
    const double coefficient =
        path_.drag.coefficient(Speed::from_si(through_air_mps), path_.ball.diameter, path_.air);
    if (coefficient == 0.0) return 0.0;
    return through_air_mps / drag_length(path_.ball, path_.air.density, coefficient).si();
  }

  const FlightPath& path_;
  double flight_mps_;
  double wind_mps_ = 0.0;
  double terminal_mps_ = std::numeric_limits<double>::infinity();
};

/// The least amount, up to `whole`, for which the state after it does not fly on any more, by as
/// many halvings as a double has bits. A shorter step is never less accurate than a whole one, so
/// the end of the flight is as good as its steps.
template <class After, class Flying>
State first_end(After after, double whole, Flying flying) {
  double still = 0.0;
  double ended = whole;
  for (int bit = 0; bit < std::numeric_limits<double>::digits; ++bit) {
    const double middle = 0.5 * (still + ended);
    (flying(after(middle)) ? still : ended) = middle;
  }
  return after(ended);
}

/// Flies on as long as `flying` holds, which once it fails must fail for good; the state where it
/// first does.
template <class Flying>
State fly(const Equations& equations, State now, Flying flying) {
  double even_s = 1.0;
  for (int steps = 0; flying(now); ++steps) {
    expects(steps < most_steps, "a flight ends");
    const bool settled = equations.is_settled(now);
    const auto after = [&](double amount) {
      return settled ? equations.settled_after(now, amount) : equations.after(now, amount);
    };
    // Nothing is lost by a long step straight on: each is twice the one before.
    const double whole = settled ? (even_s *= 2.0) : step;
    const State next = after(whole);
    now = flying(next) ? next : first_end(after, whole, flying);
  }
  return now;
}

/// Over the ground, or about to be. A ball that has begun to fall never rises again.
bool over_ground(const State& at) {
  return at.height_m > 0.0 || at.up_mps > 0.0;
}

State start_of(const LaunchState& launch, const FlightPath& path) {
  expects(launch.speed.si() >= 0.0 && launch.speed.si() <= most_mps, "a flight: its speed");
  expects(std::abs(path.tailwind.si()) <= most_mps, "a flight: the wind");
  expects(launch.height.si() >= 0.0 && launch.height.si() <= most_m, "a flight: its height");
  const double elevation_rad = launch.elevation.si();
  // The last bits of 90 deg depend on how it was turned into radians.
  expects(std::abs(elevation_rad) <= std::numbers::pi / 2.0 * (1.0 + 1e-12),
          "a flight: elevation from -90 to 90 deg");
  return {0.0, 0.0, launch.height.si(), launch.speed.si() * std::max(0.0, std::cos(elevation_rad)),
          launch.speed.si() * std::sin(elevation_rad)};
}

/// The speed that a flight has without air after a fall as deep as it is large. The millimetre a
/// second keeps the clock of a flight from nowhere to nowhere going.
double speed_of_flight_mps(const LaunchState& launch, Length size) {
  return std::max(1e-3, std::hypot(launch.speed.si(), std::sqrt(2.0 * gravity_mps2 * size.si())));
}

FlightPoint point(const State& at) {
  return {Time::from_si(at.time_s), Length::from_si(at.away_m), Length::from_si(at.height_m),
          Speed::from_si(std::hypot(at.forward_mps, at.up_mps)),
          Angle::from_si(std::atan2(0.0 - at.up_mps, at.forward_mps))};
}

}  // namespace

std::optional<FlightPoint> fly_to_distance(const LaunchState& launch, const FlightPath& path,
                                           Length distance, bool stop_at_ground) {
  expects(distance.si() >= 0.0 && distance.si() <= most_m, "fly_to_distance: the distance");
  const State start = start_of(launch, path);
  const Equations equations(path, speed_of_flight_mps(launch, launch.height + distance));
  // Without a wind from behind, a ball that has stopped on its way forward never starts again.
  const auto flying = [&](const State& at) {
    return at.away_m < distance.si() && (at.forward_mps > 0.0 || equations.wind_mps() > 0.0) &&
           (over_ground(at) || !stop_at_ground);
  };
  const State end = fly(equations, start, flying);
  if (end.away_m < distance.si()) return std::nullopt;
  return point(end);
}

FlightPoint fly_to_ground(const LaunchState& launch, const FlightPath& path) {
  const State start = start_of(launch, path);
  const Equations equations(path, speed_of_flight_mps(launch, launch.height));
  State landed = fly(equations, start, over_ground);
  landed.height_m = 0.0;  // but for the last bit
  return point(landed);
}

std::optional<Length> sag(Speed speed, const FlightPath& path, Length distance) {
  const auto arrival = fly_to_distance({speed, Angle{}, Length{}}, path, distance, false);
  if (!arrival) return std::nullopt;
  return -arrival->height;
}

Speed speed_after(Speed speed, Length way, Length drag_length) {
  expects(speed.si() >= 0.0 && way.si() >= 0.0 && drag_length.si() > 0.0, "speed_after: domain");
  return speed * std::exp(-way.si() / drag_length.si());
}

Speed speed_before(Speed speed, Length way, Length drag_length) {
  expects(speed.si() >= 0.0 && way.si() >= 0.0 && drag_length.si() > 0.0, "speed_before: domain");
  return speed * std::exp(way.si() / drag_length.si());
}

Speed drop_speed(Length height, Speed terminal) {
  expects(height.si() >= 0.0 && terminal.si() > 0.0, "drop_speed: domain");
  const double v_mps = terminal.si();
  return terminal * std::sqrt(-std::expm1(-2.0 * gravity_mps2 * height.si() / (v_mps * v_mps)));
}

std::optional<Length> drop_height(Speed wanted, Speed terminal) {
  expects(wanted.si() >= 0.0 && terminal.si() > 0.0, "drop_height: domain");
  if (wanted >= terminal) return std::nullopt;
  const double v_mps = terminal.si();
  const double share = wanted.si() / v_mps;
  return Length::from_si(-v_mps * v_mps / (2.0 * gravity_mps2) * std::log1p(-share * share));
}

Time drop_time(Speed end, Speed terminal) {
  expects(end.si() >= 0.0 && end < terminal, "drop_time: below the terminal speed");
  return Time::from_si(terminal.si() / gravity_mps2 * std::atanh(end.si() / terminal.si()));
}

FarthestReach farthest_reach(Speed speed, Length height, const FlightPath& path) {
  const auto reach_at = [&](double elevation_rad) {
    const Angle elevation = Angle::from_si(elevation_rad);
    return FarthestReach{elevation, fly_to_ground({speed, elevation, height}, path)};
  };
  const auto farther = [](const FarthestReach& a, const FarthestReach& b) {
    return a.landing.away > b.landing.away;
  };
  // Every 5 deg, then the golden section between the neighbours of the best, where the reach has
  // one top. It is flat there: an elevation known to 1e-4 gives the reach to some 1e-8.
  constexpr int intervals = 36;
  constexpr double apart = std::numbers::pi / intervals;
  constexpr double right_angle = std::numbers::pi / 2.0;
  FarthestReach best = reach_at(-right_angle);
  for (int i = 1; i <= intervals; ++i) {
    const FarthestReach next = reach_at(-right_angle + i * apart);
    if (farther(next, best)) best = next;
  }
  constexpr double golden = 1.0 / std::numbers::phi;
  double low = std::max(-right_angle, best.elevation.si() - apart);
  double high = std::min(right_angle, best.elevation.si() + apart);
  FarthestReach left = reach_at(high - golden * (high - low));
  FarthestReach right = reach_at(low + golden * (high - low));
  while (high - low > 1e-4) {
    if (farther(left, right)) {
      high = right.elevation.si();
      right = left;
      left = reach_at(high - golden * (high - low));
    } else {
      low = left.elevation.si();
      left = right;
      right = reach_at(low + golden * (high - low));
    }
  }
  const FarthestReach& top = farther(left, right) ? left : right;
  return farther(top, best) ? top : best;
}

Length no_air_reach(Speed speed, Length height) {
  expects(speed.si() >= 0.0 && height.si() >= 0.0, "no_air_reach: domain");
  // (v^2/g) sqrt(1 + 2 g h / v^2), in a form that holds for a ball at rest too.
  const double v_mps = speed.si();
  return Length::from_si(v_mps / gravity_mps2 *
                         std::sqrt(v_mps * v_mps + 2.0 * gravity_mps2 * height.si()));
}

}  // namespace hailwright
