#include "hailwright/plan/ball_window.hpp"

#include <cmath>
#include <optional>

#include "hailwright/core/contract.hpp"
#include "hailwright/evaluate/delivery.hpp"
#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

/// What scales and melting make of a mass m shown: (1 - melted) m at the impact, with
/// u^2 = constant^2 + (share (1 - melted) m)^2.
struct Weighing {
  double melted = 0.0;
  double share = 0.0;
  double constant_kg = 0.0;
};

Weighing weighing_of(const BallMeasuring& measuring) {
  Weighing w;
  w.melted = 0.5 * measuring.largest_melt.si();
  // Judge has the scales' constant part as a share of the mass as weighed: it melts along.
  w.constant_kg = measuring.scales.absolute_u(measuring.scales_step).si() * (1.0 - w.melted);
  w.share = std::hypot(measuring.scales.relative_u(), w.melted / std::sqrt(3.0));
  return w;
}

/// The two masses m at which (x - bound)^2 = z^2 (constant^2 + share^2 x^2), x = (1 - melted) m:
/// the smaller is the last that is not stronger than the bound, the larger the first not weaker.
/// Nothing when the share alone leaves none.
struct Edges {
  Mass below, above;
};
std::optional<Edges> edges(const Weighing& w, double bound_kg) {
  const double z = normal_quantile(hit_confidence);
  const double share = z * w.share;
  const double constant_kg = z * w.constant_kg;
  if (share >= 1.0) return std::nullopt;
  const double left = 1.0 - share * share;
  const double half_kg =
      std::sqrt(bound_kg * bound_kg * share * share + left * constant_kg * constant_kg);
  const auto shown = [&](double x_kg) { return Mass::from_si(x_kg / left / (1.0 - w.melted)); };
  return Edges{shown(bound_kg - half_kg), shown(bound_kg + half_kg)};
}

}  // namespace

BallWindow ball_window(const Target& target, Ratio tolerance, const BallMeasuring& measuring) {
  expects(tolerance.si() > 0.0 && tolerance.si() < 1.0, "ball_window: tolerance");
  expects(measuring.largest_melt.si() >= 0.0 && measuring.largest_melt.si() <= 1.0,
          "ball_window: melt is a share");
  const BallLimits plain = ball_limits(target.mass, target.diameter, tolerance);
  const Weighing w = weighing_of(measuring);
  BallWindow window;
  window.diameter_low = plain.diameter_low;
  window.diameter_high = plain.diameter_high;
  const double calipers_u = std::hypot(measuring.calipers.relative_u(),
                                       measuring.calipers.absolute_u(measuring.calipers_step).si() /
                                           target.diameter.si());
  window.calipers_suffice = calipers_u <= 0.5 * tolerance.si();
  window.mass_high = plain.mass_high / (1.0 - w.melted);
  const auto low = edges(w, plain.mass_low.si());
  const auto high = edges(w, plain.mass_high.si());
  window.both_sides = low && high && low->above <= high->below;
  if (window.both_sides) window.mass_high = high->below;
  window.scales_suffice = low && low->above <= window.mass_high;
  // Where the error leaves no end, that without any error stands in; `scales_suffice` says so.
  window.mass_low = low ? low->above : plain.mass_low / (1.0 - w.melted);
  window.mass_aim = 0.5 * (window.mass_low + window.mass_high);
  return window;
}

}  // namespace hailwright
