#include "plan/imagined_shot.hpp"

#include <algorithm>
#include <cmath>

#include "evaluate/shot_strength.hpp"
#include "hailwright/evaluate/speed_errors.hpp"

namespace hailwright {

namespace {

/// Removes one part from a root of a sum of squares.
double without(double whole, double part) {
  return std::sqrt(std::max(0.0, whole * whole - part * part));
}

int weighed_together(const Protocol& protocol) {
  // Without a word on it, the way that kitchen scales allow: ten together (WALKTHROUGH of M13).
  constexpr int usual = 10;
  return protocol.ice.weighed_together.value_or(usual);
}

/// Trial shots: as planned, or the fewest that can support a grade (M13).
int planned_trials(const Protocol& protocol, Assumptions& assumptions) {
  if (protocol.speed.by != SpeedSource::trial_shots) return 0;
  if (protocol.speed.trials) return *protocol.speed.trials;
  assumptions.use(DefaultId::planned_trials);
  return defaults::planned_trials;
}

/// Puts what the protocol's way would read into a row of trials or of shots.
template <class Row>
void read_into(Row& row, const SpeedMethod& method, Speed speed) {
  const auto reading = imagined_reading(method, speed);
  if (!reading) return;
  row.speed = reading->speed;
  row.frames = reading->frames;
  row.moved = reading->moved;
  row.time = reading->time;
  row.time_step = Time{};
}

/// A record of one hit of this series, at the target's own figures.
Record imagined_record(const Protocol& protocol, std::size_t series, int trials,
                       const std::optional<Air>& air) {
  const SeriesPlan& plan = protocol.series[series];
  const Target& target = plan.target;
  Record record;
  if (air) record.air_density = air->density;
  record.air = protocol.launch.air;
  const int together = weighed_together(protocol);
  record.balls.push_back({{},
                          plan.name,
                          together,
                          target.mass * static_cast<double>(together),
                          {target.diameter},
                          {}});
  for (int i = 0; i < trials; ++i) {
    Trial trial;
    trial.setting = plan.setting;
    read_into(trial, protocol.speed, target.speed);
    trial.step = Speed{};
    record.trials.push_back(trial);
  }
  Shot shot;
  shot.series = series;
  shot.landing = Landing::in;
  if (together == 1) shot.mass = target.mass;
  if (protocol.speed.by == SpeedSource::each_shot) {
    read_into(shot, protocol.speed, target.speed);
    shot.speed_step = Speed{};
  }
  record.shots.push_back(shot);
  return record;
}

}  // namespace

std::optional<Air> stated_air(const Launch& launch) {
  if (!launch.altitude && !launch.air) return std::nullopt;
  const Length altitude = launch.altitude.value_or(Length{});
  return air_at(altitude, launch.air.value_or(standard_temperature(altitude)));
}

ImaginedShot imagine_shot(const Protocol& protocol, std::size_t series, Ratio tolerance,
                          const std::optional<Air>& air, Assumptions& assumptions) {
  const SeriesPlan& plan = protocol.series[series];
  ImaginedShot out;
  out.trials = planned_trials(protocol, assumptions);
  const Test test{protocol, imagined_record(protocol, series, out.trials, air)};
  ShotStrength strength(test, assumptions);
  const Shot& shot = test.record.shots.front();
  out.mass = strength.mass(shot);
  out.speed = strength.speed(shot);
  out.slowing = strength.slowing(plan.target.mass, plan.target.diameter);

  DeliveryQuestion& q = out.question;
  q.places = static_cast<int>(plan.places.size());
  q.tolerance = tolerance;
  q.each_shot_measured = protocol.speed.by != SpeedSource::trial_shots;
  q.trials = out.trials;
  q.weighed_together = weighed_together(protocol);
  q.each_ball_weighed = q.weighed_together == 1;
  if (out.speed) {
    out.speed_kept = out.speed->value / plan.target.speed.si();
    const SpeedErrors errors = speed_errors(protocol.speed, plan.target.speed, assumptions);
    q.speed_shared_u = out.speed->shared_u;
    // Beside its measurement a shot has the angle at which it strikes to itself.
    const auto pooled = strength.trials(plan.setting);
    q.speed_own_u = errors.own_u;
    q.speed_hit_u = without(
        out.speed->own_u, q.each_shot_measured || !pooled ? errors.own_u : pooled->unmeasured_u());
  }
  if (protocol.launch.spread) {
    q.launcher_scatter = protocol.launch.spread->si();
  } else if (protocol.launch.kind != Launcher::drop) {
    q.launcher_scatter = defaults::launcher_spread.si();
    assumptions.use(DefaultId::launcher_spread, defaults::launcher_spread * 2.0);
  }
  if (out.mass) {
    out.mass_kept = out.mass->value / plan.target.mass.si();
    q.mass_scatter = defaults::unit_mass_u.si();
    assumptions.use(DefaultId::unit_mass, defaults::unit_mass_u);
    if (q.each_ball_weighed) {
      q.mass_shared_u = out.mass->shared_u;
      q.mass_own_u = out.mass->own_u;
    } else {
      q.mass_shared_u = without(out.mass->shared_u, q.mass_scatter / std::sqrt(q.weighed_together));
      q.mass_own_u = without(out.mass->own_u, q.mass_scatter);
    }
  }
  return out;
}

}  // namespace hailwright
