#include "evaluate/shot_strength.hpp"

#include <algorithm>
#include <cmath>

#include "evaluate/power_inputs.hpp"
#include "hailwright/metrology/statistics.hpp"
#include "hailwright/physics/ice_ball.hpp"

namespace hailwright {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
/// Single balls needed before their own scatter replaces the stated one (as for trials, M13).
constexpr std::size_t enough_singles = 5;

double rectangular(double half_width) {
  return half_width / std::sqrt(3.0);
}

}  // namespace

std::vector<const BallKind*> ShotStrength::balls_of(const Shot& shot) const {
  const std::string& wanted =
      shot.ball.empty() ? test_.protocol.series[shot.series].name : shot.ball;
  std::vector<const BallKind*> balls;
  for (const BallKind& b : test_.record.balls) {
    if (b.kind == wanted) balls.push_back(&b);
  }
  return balls;
}

std::optional<Length> ShotStrength::diameter(const Shot& shot) const {
  std::vector<double> metres;
  for (const Length d : shot.diameters)
    metres.push_back(d.si());
  if (metres.empty()) {
    for (const BallKind* b : balls_of(shot)) {
      for (const Length d : b->diameters)
        metres.push_back(d.si());
    }
  }
  if (metres.empty()) return std::nullopt;
  return Length::from_si(mean(metres));
}

/// A mass on the scales: gain and digits are shared by all balls weighed with them.
ShotQuantity ShotStrength::weighed(Mass mass, int together) {
  const Tool<Mass>& scales = test_.protocol.tools.scales;
  Stated<Mass> error;
  error.relative = defaults::scales_gain;
  error.digits = defaults::scales_digits;
  if (scales.error) {
    error = *scales.error;
  } else {
    assumptions_.use(DefaultId::scales_accuracy);
  }
  Mass step = scales.step.value_or(Mass{});
  if (!scales.step) {
    std::vector<double> grams;
    for (const BallKind& b : test_.record.balls) {
      if (b.together) grams.push_back(b.together->si() * 1000.0);
    }
    for (const Shot& s : test_.record.shots) {
      if (s.mass) grams.push_back(s.mass->si() * 1000.0);
    }
    step = Mass::from_si(typed_step(grams) / 1000.0);
    assumptions_.use(DefaultId::display_step);
  }
  const double whole = mass.si() * together;
  ShotQuantity q;
  q.value = mass.si();
  q.shared_u = std::hypot(error.relative_u(), error.absolute_u(step).si() / whole);
  return q;
}

std::optional<ShotQuantity> ShotStrength::weighed_kind(const std::vector<const BallKind*>& balls) {
  double grams_total = 0.0;
  int count = 0;
  std::vector<double> singles;
  for (const BallKind* b : balls) {
    if (!b->together) continue;
    grams_total += b->together->si();
    count += b->count;
    if (b->count == 1) singles.push_back(b->together->si());
  }
  if (count == 0) return std::nullopt;
  const Mass mean_mass = Mass::from_si(grams_total / count);
  ShotQuantity q = weighed(mean_mass, count);
  if (count == 1) return q;  // the very ball
  double unit = defaults::unit_mass_u.si();
  if (singles.size() >= enough_singles) {
    unit = *sample_sd(singles) / mean_mass.si();
    q.own_dof = static_cast<double>(singles.size()) - 1.0;
  } else {
    assumptions_.use(DefaultId::unit_mass);
  }
  q.own_u = unit;
  q.shared_u = std::hypot(q.shared_u, unit / std::sqrt(static_cast<double>(count)));
  return q;
}

std::optional<ShotQuantity> ShotStrength::mass_at_freezer(const Shot& shot) {
  if (shot.mass) return weighed(*shot.mass, 1);
  if (auto kind = weighed_kind(balls_of(shot))) return kind;
  const auto d = diameter(shot);
  if (!d) return std::nullopt;
  assumptions_.use(DefaultId::density);
  Length u = Length::from_si(rectangular(defaults::calipers.si()));
  const Tool<Length>& calipers = test_.protocol.tools.calipers;
  if (calipers.error) {
    u = Length::from_si(
        std::hypot(calipers.error->relative_u() * d->si(),
                   calipers.error->absolute_u(calipers.step.value_or(Length::from_si(1e-4))).si()));
  } else {
    assumptions_.use(DefaultId::calipers_accuracy);
  }
  const Estimate<Density> density{defaults::density,
                                  Density::from_si(rectangular(defaults::density_within.si()))};
  const Estimate<Mass> m = mass_of_sphere({*d, u}, density);
  ShotQuantity q;
  q.value = m.value.si();
  q.shared_u = m.relative_u();
  q.supports_grade = false;
  return q;
}

std::optional<ShotQuantity> ShotStrength::mass(const Shot& shot) {
  auto q = mass_at_freezer(shot);
  if (!q) return q;
  Time out = defaults::seconds_out;
  if (shot.out) {
    out = *shot.out;
  } else {
    assumptions_.use(DefaultId::seconds_out);
  }
  TemperaturePoint air = defaults::air_temperature;
  if (test_.record.air) {
    air = *test_.record.air;
  } else {
    assumptions_.use(DefaultId::air_temperature);
  }
  // Between nothing (a ball still colder than 0 degC) and the most: the middle, rectangular.
  const Length d = diameter(shot).value_or(test_.protocol.series[shot.series].target.diameter);
  const double most = largest_melt(out, d, air).si();
  q->value *= 1.0 - 0.5 * most;
  q->own_u = std::hypot(q->own_u, rectangular(0.5 * most));
  return q;
}

std::optional<Speed> ShotStrength::trial_speed(const Trial& trial) const {
  const SpeedMethod& m = test_.protocol.speed;
  if (trial.speed) return trial.speed;
  if (trial.frames && m.video && m.length)
    return speed_from_frames(*trial.frames, *m.video, *m.length);
  return std::nullopt;
}

std::optional<TrialSpeeds> ShotStrength::trials(const std::string& setting) {
  std::vector<Speed> speeds;
  double frames = 0.0;
  for (const Trial& t : test_.record.trials) {
    if (t.setting != setting) continue;
    if (const auto v = trial_speed(t)) {
      speeds.push_back(*v);
      frames += t.frames.value_or(0.0);
    }
  }
  if (speeds.size() < 2) return std::nullopt;
  double step = 0.0;
  if (frames > 0.0) {
    step = frame_count_u / (frames / static_cast<double>(speeds.size()));
  } else {
    std::vector<double> mps;
    for (const Speed v : speeds)
      mps.push_back(v.si());
    step = typed_step(mps) / std::sqrt(12.0) / mean(mps);
  }
  return pool_trials(speeds, step);
}

/// Errors of the speed that all shots of a record share, as a share.
double ShotStrength::shared_speed_u() {
  const SpeedMethod& m = test_.protocol.speed;
  double u2 = 0.0;
  if (m.video && m.length) {
    double length = rectangular(defaults::video_length.si()) / m.length->si();
    if (m.length_error) {
      length = std::hypot(m.length_error->relative_u(),
                          m.length_error->absolute_u(Length::from_si(0.001)).si() / m.length->si());
    } else {
      assumptions_.use(DefaultId::video_length);
    }
    if (!m.parallax) assumptions_.use(DefaultId::parallax);
    assumptions_.use(DefaultId::frame_rate);
    const double parallax = rectangular(m.parallax.value_or(defaults::parallax).si());
    const double rate = rectangular(defaults::frame_rate.si());
    u2 = length * length + parallax * parallax + rate * rate;
  } else if (m.error) {
    const double relative = m.error->relative_u();
    u2 = relative * relative;
  } else {
    assumptions_.use(DefaultId::speed_accuracy);
    const double accuracy = rectangular(defaults::speed_accuracy.si());
    u2 = accuracy * accuracy;
  }
  return std::sqrt(u2);
}

std::optional<ShotQuantity> ShotStrength::speed_measured(const Shot& shot) {
  const SpeedMethod& m = test_.protocol.speed;
  ShotQuantity q;
  if (shot.frames && m.video && m.length) {
    q.value = speed_from_frames(*shot.frames, *m.video, *m.length).si();
    q.own_u = frame_count_u / *shot.frames;
  } else if (shot.speed) {
    q.value = shot.speed->si();
    if (m.error) q.own_u = m.error->absolute_u(Speed::from_si(0.1)).si() / q.value;
  } else {
    const auto pooled = trials(test_.protocol.series[shot.series].setting);
    if (!pooled) return std::nullopt;
    q.value = pooled->mean.si();
    q.own_u = pooled->unmeasured_u();
    q.own_dof = pooled->degrees_of_freedom();
    q.supports_grade = pooled->supports_grade();
    const auto drift = m.drift;
    if (!drift) assumptions_.use(DefaultId::launcher_drift);
    q.shared_u = rectangular(drift.value_or(defaults::launcher_drift).si());
  }
  q.shared_u = std::hypot(q.shared_u, shared_speed_u());
  return q;
}

Slowing ShotStrength::slowing(Mass mass, Length diameter) {
  const SpeedMethod& m = test_.protocol.speed;
  Length near = Length::from_si(m.length ? 0.5 * m.length->si() : 0.0);
  Length far = near;
  if (m.to_panel) {
    near = *m.to_panel;
    far = *m.to_panel;
  } else {
    assumptions_.use(DefaultId::distance_to_panel);
    // The stretch ends at the panel at best, and begins at the launcher at worst.
    constexpr Length unknown_launch_distance = Length::from_si(5.0);
    const Length launch = test_.protocol.launch.distance.value_or(near + unknown_launch_distance);
    far = std::max(near, launch - near);
  }
  assumptions_.use(DefaultId::air_density);
  return slowing_to_panel(0.5 * (near + far), 0.5 * (far - near), mass, diameter,
                          defaults::air_density, defaults::air_density_within);
}

std::optional<ShotQuantity> ShotStrength::speed(const Shot& shot) {
  auto q = speed_measured(shot);
  if (!q) return q;
  const Target& target = test_.protocol.series[shot.series].target;
  const auto m = mass(shot);
  const Slowing s =
      slowing(m ? Mass::from_si(m->value) : target.mass, diameter(shot).value_or(target.diameter));
  q->value *= s.remaining.si();
  q->shared_u = std::hypot(q->shared_u, s.relative_u);
  return q;
}

}  // namespace hailwright
