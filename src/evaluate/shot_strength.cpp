#include "evaluate/shot_strength.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "evaluate/power_inputs.hpp"
#include "hailwright/metrology/statistics.hpp"
#include "hailwright/physics/ice_ball.hpp"

namespace hailwright {

namespace {

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

/// Step of the scales' display: as stated, or the finest one typed.
Mass ShotStrength::scales_step() {
  const Tool<Mass>& scales = test_.protocol.tools.scales;
  if (scales.step) return *scales.step;
  std::vector<double> grams;
  for (const BallKind& b : test_.record.balls) {
    if (b.together) grams.push_back(b.together->si() * 1000.0);
  }
  for (const Shot& s : test_.record.shots) {
    if (s.mass) grams.push_back(s.mass->si() * 1000.0);
  }
  assumptions_.use(DefaultId::display_step);
  return Mass::from_si(typed_step(grams) / 1000.0);
}

/// A mass on the scales: gain and constant error are the same at each weighing, so that a mean of
/// single weighings keeps the constant error whole and ten balls at once carry a tenth of it each.
ShotQuantity ShotStrength::weighed(Mass mass, int weighings, Mass total) {
  const Tool<Mass>& scales = test_.protocol.tools.scales;
  Stated<Mass> error;
  error.relative = defaults::scales_gain;
  error.digits = defaults::scales_digits;
  if (scales.error) error = *scales.error;
  const Mass step = error.digits > 0.0 ? scales_step() : Mass{};
  ShotQuantity q;
  q.value = mass.si();
  q.shared_u = std::hypot(error.relative_u(), error.absolute_u(step).si() * weighings / total.si());
  if (!scales.error) assumptions_.use(DefaultId::scales_accuracy, Ratio::from_si(q.shared_u));
  return q;
}

/// A single ball weighed for this one shot: named by it, alone of its name, and thrown once.
bool ShotStrength::is_the_very_ball(const Shot& shot,
                                    const std::vector<const BallKind*>& balls) const {
  if (shot.ball.empty() || balls.size() != 1 || balls.front()->count != 1) return false;
  return std::count_if(test_.record.shots.begin(), test_.record.shots.end(),
                       [&](const Shot& s) { return s.ball == shot.ball; }) == 1;
}

std::optional<ShotQuantity> ShotStrength::weighed_kind(const Shot& shot) {
  const std::vector<const BallKind*> balls = balls_of(shot);
  double total_kg = 0.0;
  int count = 0;
  int weighings = 0;
  std::vector<double> singles;
  for (const BallKind* b : balls) {
    if (!b->together) continue;
    total_kg += b->together->si();
    count += b->count;
    ++weighings;
    if (b->count == 1) singles.push_back(b->together->si());
  }
  if (count == 0) return std::nullopt;
  const Mass mean_mass = Mass::from_si(total_kg / count);
  ShotQuantity q = weighed(mean_mass, weighings, Mass::from_si(total_kg));
  if (is_the_very_ball(shot, balls)) return q;
  double unit = defaults::unit_mass_u.si();
  if (singles.size() >= enough_singles) {
    // Scatter is never taken below the step: whole steps agree by chance.
    const double step = scales_step().si() / std::sqrt(12.0) / mean_mass.si();
    unit = std::max(*sample_sd(singles) / mean_mass.si(), step);
    q.own_dof = static_cast<double>(singles.size()) - 1.0;
  } else {
    assumptions_.use(DefaultId::unit_mass, Ratio::from_si(unit));
  }
  q.own_u = unit;
  q.shared_u = std::hypot(q.shared_u, unit / std::sqrt(static_cast<double>(count)));
  return q;
}

std::optional<ShotQuantity> ShotStrength::mass_at_freezer(const Shot& shot) {
  if (shot.mass) return weighed(*shot.mass, 1, *shot.mass);
  if (auto kind = weighed_kind(shot)) return kind;
  const auto d = diameter(shot);
  if (!d) return std::nullopt;
  Length u = Length::from_si(rectangular(defaults::calipers.si()));
  const Tool<Length>& calipers = test_.protocol.tools.calipers;
  if (calipers.error) {
    u = Length::from_si(
        std::hypot(calipers.error->relative_u() * d->si(),
                   calipers.error->absolute_u(calipers.step.value_or(Length::from_si(1e-4))).si()));
  } else {
    assumptions_.use(DefaultId::calipers_accuracy, Ratio::from_si(3.0 * u.si() / d->si()));
  }
  const Estimate<Density> density{defaults::density,
                                  Density::from_si(rectangular(defaults::density_within.si()))};
  assumptions_.use(DefaultId::density, Ratio::from_si(density.relative_u()));
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
  assumptions_.use(DefaultId::melting, Ratio::from_si(rectangular(0.5 * most)));
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
  double typed_mps = 0.0;
  for (const Trial& t : test_.record.trials) {
    if (t.setting != setting) continue;
    if (const auto v = trial_speed(t)) {
      speeds.push_back(*v);
      frames += t.frames.value_or(0.0);
      if (t.step) typed_mps = typed_mps == 0.0 ? t.step->si() : std::min(typed_mps, t.step->si());
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
    step = (typed_mps > 0.0 ? typed_mps : typed_step(mps)) / std::sqrt(12.0) / mean(mps);
    assumptions_.use(DefaultId::display_step);
  }
  return pool_trials(speeds, step);
}

/// Errors of the speed that all shots of a record share, as a share of this speed.
double ShotStrength::shared_speed_u(Speed speed) {
  const SpeedMethod& m = test_.protocol.speed;
  double u2 = 0.0;
  const auto add = [&](double u, bool assumed, DefaultId id) {
    u2 += u * u;
    if (assumed) assumptions_.use(id, Ratio::from_si(2.0 * u));
  };
  if (m.video && m.length) {
    double length = rectangular(defaults::video_length.si()) / m.length->si();
    if (m.length_error) {
      length = std::hypot(m.length_error->relative_u(),
                          m.length_error->absolute_u(Length{}).si() / m.length->si());
    }
    add(length, !m.length_error, DefaultId::video_length);
    add(rectangular(m.parallax.value_or(defaults::parallax).si()), !m.parallax,
        DefaultId::parallax);
    add(rectangular(m.rate.value_or(defaults::frame_rate).si()), !m.rate, DefaultId::frame_rate);
  } else if (m.error) {
    u2 = std::pow(m.error->relative_u(), 2) +
         std::pow(m.error->absolute_u(Speed{}).si() / speed.si(), 2);
  } else {
    add(rectangular(defaults::speed_accuracy.si()), true, DefaultId::speed_accuracy);
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
  } else {
    const auto pooled = trials(test_.protocol.series[shot.series].setting);
    if (!pooled || !pooled->gives_interval()) return std::nullopt;
    q.value = pooled->mean.si();
    q.own_u = pooled->unmeasured_u();
    q.own_dof = pooled->degrees_of_freedom();
    q.supports_grade = pooled->supports_grade();
    q.trials = pooled->n;
    const auto drift = m.drift;
    q.shared_u = rectangular(drift.value_or(defaults::launcher_drift).si());
    if (!drift) assumptions_.use(DefaultId::launcher_drift, Ratio::from_si(2.0 * q.shared_u));
  }
  q.shared_u = std::hypot(q.shared_u, shared_speed_u(Speed::from_si(q.value)));
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
    // The stretch ends at the panel at best, and begins at the launcher at worst.
    constexpr Length unknown_launch_distance = Length::from_si(5.0);
    const Length launch = test_.protocol.launch.distance.value_or(near + unknown_launch_distance);
    far = std::max(near, launch - near);
  }
  const Length middle = 0.5 * (near + far);
  const auto& stated_air = test_.record.air_density;
  const Density air = stated_air.value_or(defaults::air_density);
  const Density within = stated_air ? Density{} : defaults::air_density_within;
  const double by_drag =
      slowing_to_panel(middle, Length{}, mass, diameter, air, Density{}).relative_u;
  const double by_air = slowing_to_panel(middle, Length{}, mass, diameter, air, within).relative_u;
  const Slowing all = slowing_to_panel(middle, 0.5 * (far - near), mass, diameter, air, within);
  // On the energy twice; each part is what it adds in squares to those before it.
  const auto part = [](double with, double without) {
    return Ratio::from_si(2.0 * std::sqrt(std::max(0.0, with * with - without * without)));
  };
  assumptions_.use(DefaultId::drag, part(by_drag, 0.0));
  if (!stated_air) assumptions_.use(DefaultId::air_density, part(by_air, by_drag));
  if (!m.to_panel) assumptions_.use(DefaultId::distance_to_panel, part(all.relative_u, by_air));
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
  auto q = speed_measured(shot);
  if (!q) return q;
  const Target& target = test_.protocol.series[shot.series].target;
  const auto m = mass(shot);
  const Slowing s =
      slowing(m ? Mass::from_si(m->value) : target.mass, diameter(shot).value_or(target.diameter));
  q->value *= s.remaining.si();
  q->shared_u = std::hypot(q->shared_u, s.relative_u);
  add_angle(shot, *q);
  return q;
}

}  // namespace hailwright
