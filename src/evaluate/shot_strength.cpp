#include "evaluate/shot_strength.hpp"

#include <algorithm>
#include <cmath>

#include "evaluate/power_inputs.hpp"
#include "hailwright/metrology/statistics.hpp"
#include "hailwright/physics/ice_ball.hpp"
#include "metrology/rectangular.hpp"

namespace hailwright {

namespace {

/// Single balls needed before their own scatter replaces the stated one (as for trials, M13).
constexpr std::size_t enough_singles = 5;

}  // namespace

Stated<Mass> scales_error(const Tools& tools) {
  if (tools.scales.error) return *tools.scales.error;
  Stated<Mass> error;
  error.relative = defaults::scales_gain;
  error.digits = defaults::scales_digits;
  return error;
}

Stated<Length> calipers_error(const Tools& tools) {
  if (tools.calipers.error) return *tools.calipers.error;
  Stated<Length> error;
  error.absolute = defaults::calipers;
  return error;
}

Length calipers_step(const Tools& tools) {
  return tools.calipers.step.value_or(Length::from_si(1e-4));
}

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
  const Stated<Mass> error = scales_error(test_.protocol.tools);
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
  const Tools& tools = test_.protocol.tools;
  const Stated<Length> error = calipers_error(tools);
  const Length u = Length::from_si(
      std::hypot(error.relative_u() * d->si(), error.absolute_u(calipers_step(tools)).si()));
  if (!tools.calipers.error)
    assumptions_.use(DefaultId::calipers_accuracy, Ratio::from_si(3.0 * u.si() / d->si()));
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

}  // namespace hailwright
