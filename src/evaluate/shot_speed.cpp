// The speeds of ShotStrength.

#include <algorithm>
#include <cmath>
#include <numbers>

#include "evaluate/power_inputs.hpp"
#include "evaluate/shot_strength.hpp"
#include "hailwright/metrology/statistics.hpp"
#include "metrology/rectangular.hpp"

namespace hailwright {

namespace {

ShotQuantity quantity_of(const MeasuredSpeed& speed) {
  ShotQuantity q;
  q.value = speed.value.si();
  q.shared_u = speed.shared_u();
  q.own_u = speed.own_u();
  q.supports_grade = speed.supports_grade;
  return q;
}

}  // namespace

double ShotStrength::trial_step(const std::vector<const Trial*>& trials,
                                const std::vector<Speed>& speeds) {
  const SpeedMethod& m = test_.protocol.speed;
  const auto n = static_cast<double>(speeds.size());
  std::vector<double> mps;
  double frames = 0.0;
  std::optional<double> typed_mps;
  double own = 0.0;
  Assumptions of_one_trial;  // what the method assumes is noted with the mean
  for (std::size_t i = 0; i < trials.size(); ++i) {
    const Trial& t = *trials[i];
    mps.push_back(speeds[i].si());
    frames += t.frames.value_or(0.0);
    if (t.step) typed_mps = std::min(typed_mps.value_or(t.step->si()), t.step->si());
    const auto measured = measure_speed(m, speed_reading(t), of_one_trial);
    own += measured ? measured->own_u() / n : 0.0;
  }
  const SpeedWay way = m.way();
  if (way != SpeedWay::typed && way != SpeedWay::frames) {
    if (of_one_trial.uses(DefaultId::speed_display)) assumptions_.use(DefaultId::speed_display);
    return own;
  }
  if (way == SpeedWay::frames && frames > 0.0) return frame_count_u / (frames / n);
  if (typed_mps == 0.0) return 0.0;  // an imagined trial, exact
  assumptions_.use(DefaultId::display_step);
  return typed_mps.value_or(typed_step(mps)) / std::sqrt(12.0) / mean(mps);
}

std::optional<TrialSpeeds> ShotStrength::trials(const std::string& setting) {
  const SpeedMethod& m = test_.protocol.speed;
  std::vector<const Trial*> measured;
  std::vector<Speed> speeds;
  for (const Trial& t : test_.record.trials) {
    if (t.setting != setting) continue;
    const SpeedReading reading = speed_reading(t);
    // A speed worked out by hand stands for itself, whatever the way.
    const auto v =
        reading.speed && m.way() != SpeedWay::radar ? reading.speed : speed_of(m, reading);
    if (!v) continue;
    measured.push_back(&t);
    speeds.push_back(*v);
  }
  if (speeds.size() < 2) return std::nullopt;
  return pool_trials(speeds, trial_step(measured, speeds));
}

std::optional<ShotQuantity> ShotStrength::speed_of_trials(const Shot& shot) {
  const SpeedMethod& m = test_.protocol.speed;
  const auto pooled = trials(test_.protocol.series[shot.series].setting);
  if (!pooled || !pooled->gives_interval()) return std::nullopt;
  ShotQuantity q;
  q.value = pooled->mean.si();
  q.own_u = pooled->unmeasured_u();
  q.own_dof = pooled->degrees_of_freedom();
  q.trials = pooled->n;
  const double drift = rectangular(m.drift.value_or(defaults::launcher_drift).si());
  if (!m.drift) assumptions_.use(DefaultId::launcher_drift, Ratio::from_si(2.0 * drift));
  const SpeedErrors errors = speed_errors(m, pooled->mean, assumptions_);
  q.supports_grade = pooled->supports_grade() && errors.supports_grade;
  q.shared_u = std::hypot(drift, errors.shared_u);
  return q;
}

std::optional<ShotQuantity> ShotStrength::speed_measured(const Shot& shot) {
  const auto measured = measure_speed(test_.protocol.speed, speed_reading(shot), assumptions_);
  return measured ? quantity_of(*measured) : speed_of_trials(shot);
}

std::optional<ShotQuantity> ShotStrength::speed_unmeasured(const Shot& shot,
                                                           const FlyingBall& ball) {
  const Protocol& protocol = test_.protocol;
  if (protocol.speed.by == SpeedSource::setting) {
    ShotQuantity q =
        quantity_of(take_setting(protocol.series[shot.series].target.speed, assumptions_));
    q.nominal = true;
    return q;
  }
  if (!protocol.launch.height || protocol.launch.height->si() <= 0.0) return std::nullopt;
  return quantity_of(
      measure_drop(protocol.speed, *protocol.launch.height, ball, air(), assumptions_));
}

FlightAir ShotStrength::air() const {
  const Launch& launch = test_.protocol.launch;
  const auto& temperature = test_.record.air ? test_.record.air : launch.air;
  return flight_air(test_.record.air_density, launch.altitude, temperature);
}

Slowing ShotStrength::slowing(Mass mass, Length diameter) {
  const SpeedMethod& m = test_.protocol.speed;
  if (!m.measures()) return {Ratio::from_si(1.0), 0.0};
  Length near = half_base(m);
  Length far = near;
  // The path between two sounds ends at the panel: its middle is known.
  const bool stated = m.to_panel || m.way() == SpeedWay::sounds;
  if (m.to_panel) {
    near = *m.to_panel;
    far = *m.to_panel;
  } else if (!stated) {
    // The stretch ends at the panel at best, and begins at the launcher at worst.
    constexpr Length unknown_launch_distance = Length::from_si(5.0);
    const Length launch = test_.protocol.launch.distance.value_or(near + unknown_launch_distance);
    far = std::max(near, launch - near);
  }
  const Length middle = 0.5 * (near + far);
  const FlightAir flight = air();
  const Density density = flight.density;
  const Density within = flight.half_width;
  const double by_drag =
      slowing_to_panel(middle, Length{}, mass, diameter, density, Density{}).relative_u;
  const double by_air =
      slowing_to_panel(middle, Length{}, mass, diameter, density, within).relative_u;
  const Slowing all = slowing_to_panel(middle, 0.5 * (far - near), mass, diameter, density, within);
  // On the energy twice; each part is what it adds in squares to those before it.
  const auto part = [](double with, double without) {
    return Ratio::from_si(2.0 * std::sqrt(std::max(0.0, with * with - without * without)));
  };
  assumptions_.use(DefaultId::drag, part(by_drag, 0.0));
  if (flight.assumed) assumptions_.use(DefaultId::air_density, part(by_air, by_drag));
  if (!stated) assumptions_.use(DefaultId::distance_to_panel, part(all.relative_u, by_air));
  return all;
}

/// Grades are struck straight on: what counts is the speed along the normal of the panel.
void ShotStrength::add_angle(const Shot& shot, ShotQuantity& speed) {
  if (shot.angle) {
    speed.value *= std::cos(shot.angle->si());
    return;
  }
  // Rectangular in the angle from 0 to a: the mean of its cosine is sin a / a, the mean of the
  // squared cosine is 1/2 + sin 2a / 4a.
  const double a = defaults::hit_angle_deg * std::numbers::pi / 180.0;
  const double mean_cosine = std::sin(a) / a;
  const double variance = 0.5 + std::sin(2.0 * a) / (4.0 * a) - mean_cosine * mean_cosine;
  speed.value *= mean_cosine;
  const double u = std::sqrt(variance) / mean_cosine;
  speed.own_u = std::hypot(speed.own_u, u);
  assumptions_.use(DefaultId::hit_angle, Ratio::from_si(2.0 * u));
}

std::optional<ShotQuantity> ShotStrength::speed(const Shot& shot) {
  return speed(shot, mass(shot));
}

std::optional<ShotQuantity> ShotStrength::speed(const Shot& shot,
                                                const std::optional<ShotQuantity>& mass) {
  const Target& target = test_.protocol.series[shot.series].target;
  const FlyingBall ball{mass ? Mass::from_si(mass->value) : target.mass,
                        diameter(shot).value_or(target.diameter)};
  const bool measures = test_.protocol.speed.measures();
  auto q = measures ? speed_measured(shot) : speed_unmeasured(shot, ball);
  if (!q) return q;
  if (measures) {
    const Slowing s = slowing(ball.mass, ball.diameter);
    q->value *= s.remaining.si();
    q->shared_u = std::hypot(q->shared_u, s.relative_u);
  }
  add_angle(shot, *q);
  return q;
}

}  // namespace hailwright
