#include <algorithm>
#include <cmath>

#include "hailwright/physics/ice_ball.hpp"
#include "hailwright/physics/impact.hpp"
#include "hailwright/physics/speed.hpp"
#include "hailwright/report/compose_speed.hpp"

namespace hailwright {

namespace {

/// Below this many frames, counting them costs more than everything else [ours].
constexpr double enough_frames = 20.0;

/// A ball whose size nobody stated, to see whether a picture is sharp: that of the commonest grade.
constexpr Length usual_ball = Length::from_si(0.025);

/// Of a ball that was not weighed, as a share.
double density_u() {
  return (defaults::density_within / defaults::density).si() / std::sqrt(3.0);
}

bool on_video(const SpeedMethod& m) {
  return m.way() == SpeedWay::frames || m.way() == SpeedWay::positions;
}

std::optional<MeasuredSpeed> measured(const SpeedQuestion& q, const SpeedAnswer& a,
                                      Assumptions& assumptions) {
  if (q.method.by == SpeedSource::setting) return take_setting(*q.nominal, assumptions);
  if (q.method.by != SpeedSource::drop) return measure_speed(q.method, q.reading, assumptions);
  std::optional<FlyingBall> ball;
  if (a.mass) ball = FlyingBall{*a.mass, *q.diameter};
  const FlightAir air = flight_air(std::nullopt, q.altitude, q.air);
  MeasuredSpeed v = measure_drop(q.method, *q.fall, ball, air, assumptions);
  if (!a.mass || q.mass) return v;
  // A fall goes by the density of the air over that of the ball: one share of either is as much.
  const FlightAir ice{air.density,
                      air.density * (defaults::density_within / defaults::density).si(), false};
  Assumptions of_the_ball;
  const double u = measure_drop(q.method, *q.fall, ball, ice, of_the_ball).term(SpeedError::air);
  v.terms.push_back({SpeedError::ball, u, true});
  assumptions.use(DefaultId::density, Ratio::from_si(2.0 * u));
  return v;
}

/// Weighed, or an ice ball of its diameter.
std::optional<Mass> mass_of(const SpeedQuestion& q) {
  if (!q.diameter) return std::nullopt;
  if (q.mass) return q.mass;
  const Estimate<Mass> m = mass_of_sphere({*q.diameter, Length{}}, {defaults::density, Density{}});
  return m.value;
}

void slow_to_panel(SpeedAnswer& a) {
  const SpeedQuestion& q = a.question;
  if (!q.method.measures() || !a.mass) return;
  auto way = q.method.to_panel;
  if (!way && q.method.way() == SpeedWay::sounds) way = half_base(q.method);
  if (!way) return;
  const FlightAir air = flight_air(std::nullopt, q.altitude, q.air);
  const auto slowing = [&](Density within) {
    return slowing_to_panel(*way, Length{}, *a.mass, *q.diameter, air.density, within);
  };
  const Slowing all = slowing(air.half_width);
  const double by_drag = slowing(Density{}).relative_u;
  const double by_air =
      std::sqrt(std::max(0.0, all.relative_u * all.relative_u - by_drag * by_drag));
  a.assumptions.use(DefaultId::drag, Ratio::from_si(2.0 * by_drag));
  if (air.assumed) a.assumptions.use(DefaultId::air_density, Ratio::from_si(2.0 * by_air));
  double by_ball = 0.0;
  if (!q.mass) {
    // The exponent of the slowing goes with one over the mass.
    by_ball = -std::log(all.remaining.si()) * density_u();
    a.assumptions.use(DefaultId::density, Ratio::from_si(2.0 * by_ball));
  }
  const Speed value = a.measured.value * all.remaining.si();
  const double way_u = std::hypot(all.relative_u, by_ball);
  a.at_panel = Estimate<Speed>{value, value * std::hypot(a.measured.standard_u(), way_u)};
}

void warn(SpeedAnswer& a) {
  const SpeedQuestion& q = a.question;
  const SpeedMethod& m = q.method;
  if (m.by == SpeedSource::setting) a.warnings.push_back(SpeedWarning::not_measured);
  if (m.by == SpeedSource::drop) a.warnings.push_back(SpeedWarning::weak_drop);
  if (!m.measures()) return;
  if (m.way() == SpeedWay::frames && *q.reading.frames < enough_frames) {
    a.warnings.push_back(SpeedWarning::few_frames);
  }
  if (on_video(m) && !m.shutter) a.warnings.push_back(SpeedWarning::shutter_not_known);
  if (!q.exposure) return;
  a.blur = motion_blur(a.measured.value, *q.exposure);
  if (*a.blur > 0.5 * q.diameter.value_or(usual_ball)) a.warnings.push_back(SpeedWarning::blurred);
}

CautionFacts caution_facts(const SpeedAnswer& a) {
  CautionFacts facts;
  facts.launches = true;
  if (a.mass) {
    // A ball whose mass is not known may be heavier than it was taken for.
    Estimate<Mass> mass{*a.mass, Mass{}};
    if (!a.question.mass) {
      mass.standard_u = *a.mass * density_u();
    }
    const Estimate<Speed> speed{a.measured.value, a.measured.value * a.measured.standard_u()};
    facts.energy = upper_bound(kinetic_energy(mass, speed), 0.95);
    facts.energy_per_area = energy_per_cross_section(*facts.energy, *a.question.diameter);
  }
  if (a.question.method.by == SpeedSource::drop) facts.launcher = Launcher::drop;
  // A speed on paper: no panel, no freezer named; what is known to be absent is said so.
  facts.installed = false;
  facts.high_voltage_test = false;
  return facts;
}

}  // namespace

std::optional<SpeedAnswer> answer_speed(const SpeedQuestion& q) {
  SpeedAnswer a;
  a.question = q;
  a.mass = mass_of(q);
  const auto speed = measured(q, a, a.assumptions);
  if (!speed) return std::nullopt;
  a.measured = *speed;
  if (q.fall && a.mass) {
    const FlyingBall ball{*a.mass, *q.diameter};
    const Density air = flight_air(std::nullopt, q.altitude, q.air).density;
    a.slowest_terminal = terminal_speed(ball, air, drag_range::high);
    a.fastest_terminal = terminal_speed(ball, air, drag_range::low);
  }
  slow_to_panel(a);
  warn(a);
  a.cautions = cautions_for(caution_facts(a));
  return a;
}

}  // namespace hailwright
