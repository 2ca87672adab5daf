#include "plan/series_design.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "evaluate/shot_strength.hpp"
#include "hailwright/evaluate/delivery.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/physics/flight.hpp"
#include "hailwright/physics/ice_ball.hpp"
#include "hailwright/physics/impact.hpp"
#include "hailwright/physics/speed.hpp"

namespace hailwright {

namespace {

/// Wanted chance that a whole series is shown to be delivered (MEASUREMENT M10).
constexpr double wanted_chance = 0.8;
/// Standard deviations of the launcher above its mean that safety reckons with (M16) [ours].
constexpr double spread_excess = 3.0;
/// Step of scales that the protocol does not state: that of kitchen scales [common practice, no
/// source].
constexpr Mass usual_scales_step = Mass::from_si(1e-4);
/// Drag coefficient of a ball on its way to the panel: the middle of its range.
constexpr double middle_drag = 0.5 * (drag_range::low + drag_range::high);

FlyingBall ball_of(const Target& target) {
  return {target.mass, target.diameter};
}

/// Whether two questions are one, to the last bit.
bool same_question(const DeliveryQuestion& a, const DeliveryQuestion& b) {
  const auto all = [](const DeliveryQuestion& q) {
    return std::tuple(q.places, q.tolerance.si(), q.launcher_scatter, q.speed_shared_u,
                      q.speed_own_u, q.speed_hit_u, q.each_shot_measured, q.trials, q.mass_scatter,
                      q.mass_shared_u, q.mass_own_u, q.each_ball_weighed, q.weighed_together);
  };
  return all(a) == all(b);
}

/// Found once for all series that ask the same: it takes a third of a second at 500 places.
DeliveryAim aim_for(const DeliveryQuestion& question, KnownAims& known) {
  const auto found = std::find_if(known.begin(), known.end(), [&](const KnownAim& each) {
    return same_question(each.question, question);
  });
  if (found != known.end()) return found->aim;
  known.push_back({question, find_delivery_aim(question, wanted_chance)});
  return known.back().aim;
}

class Designer {
public:
  Designer(const Protocol& protocol, std::size_t series, const PlanAir& air,
           Assumptions& assumptions, KnownAims& known)
      : protocol_(protocol), air_(air), assumptions_(assumptions), known_(known) {
    s_.plan = &protocol.series[series];
    s_.outlook.series = s_.launch.series = series;
  }

  SeriesDesign make() {
    const Target& target = s_.plan->target;
    SeriesOutlook& o = s_.outlook;
    o.tolerance = tolerance_of(target, assumptions_);
    o.place_radius = place_radius_of(*s_.plan, assumptions_);
    o.nominal = kinetic_energy({target.mass, {}}, {target.speed, {}}).value;
    s_.shot = imagine_shot(protocol_, o.series, o.tolerance, air_.stated, assumptions_);
    o.trials = s_.shot.trials;
    o.obstacle = obstacle();
    if (falls()) {
      fall();
    } else {
      aim_speed();
    }
    weigh();
    upper_energy();
    return s_;
  }

private:
  [[nodiscard]] const Target& target() const { return s_.plan->target; }
  [[nodiscard]] bool falls() const { return protocol_.launch.kind == Launcher::drop; }
  [[nodiscard]] Speed at_muzzle(Speed at_panel, double coefficient) const {
    return speed_at_muzzle(at_panel, target(), protocol_.launch, air_.slowing(), coefficient);
  }
  /// Share of the speed at the panel that acts along its normal, on average over the hits.
  [[nodiscard]] double straight() const { return s_.shot.speed_kept / slowed(); }
  [[nodiscard]] double slowed() const { return s_.shot.slowing.remaining.si(); }

  [[nodiscard]] DeliveryObstacle obstacle() const {
    if (protocol_.speed.by == SpeedSource::setting) return DeliveryObstacle::nominal_setting;
    if (protocol_.speed.by == SpeedSource::trial_shots && s_.shot.trials < trials_for_grade)
      return DeliveryObstacle::few_trials;
    if (!s_.shot.speed) return DeliveryObstacle::speed_not_measured;
    if (!s_.shot.mass || !s_.shot.mass->supports_grade) return DeliveryObstacle::mass_not_weighed;
    return DeliveryObstacle::none;
  }

  void take(const DeliveryChance& chance) {
    s_.outlook.chance = chance.shown;
    s_.outlook.reached = chance.shown >= wanted_chance;
  }

  /// The height fixes the speed: there is nothing to aim.
  void fall() {
    const Length height = *protocol_.launch.height;
    const Density density = air_.to_fly_in().density;
    const auto speed = [&](double coefficient) {
      return drop_speed(height, terminal_speed(ball_of(target()), density, coefficient));
    };
    const auto energy = [&](double coefficient) {
      return kinetic_energy({target().mass, {}}, {speed(coefficient), {}}).value;
    };
    s_.outlook.drop = DropOutlook{
        height, energy(drag_range::high), energy(drag_range::low),
        drop_height(target().speed, terminal_speed(ball_of(target()), density, drag_range::low))};
    if (s_.outlook.obstacle != DeliveryObstacle::none) return;
    const double share = speed(middle_drag).si() * straight() / target().speed.si();
    take(delivery_chance(s_.shot.question, share, 1.0));
  }

  /// Where to aim, and what that means where the speed is measured and at the muzzle.
  void aim_speed() {
    LaunchSeries& launch = s_.launch;
    if (s_.outlook.obstacle == DeliveryObstacle::none) {
      launch.aim = aim_for(s_.shot.question, known_);
      take(launch.aim.chance);
      s_.outlook.help = launch.aim.help;
    }
    SpeedAim aim;
    // The aim is for the speed along the panel's normal, on average over the angles of the hits.
    aim.at_panel = target().speed * (launch.aim.speed_aim / straight());
    aim.at_muzzle = at_muzzle(aim.at_panel, middle_drag);
    if (protocol_.speed.measures()) {
      aim.as_measured = aim.at_panel / slowed();
      aim.least_measured = least_measured(*aim.as_measured);
    }
    const auto& video = protocol_.speed.video;
    if (aim.as_measured && video && protocol_.speed.length) {
      const double path_frames = video->si() * protocol_.speed.length->si();
      aim.frames_aim = path_frames / aim.as_measured->si();
      if (aim.least_measured) aim.frames_most = path_frames / aim.least_measured->si();
    }
    if (protocol_.launch.fastest)
      s_.outlook.launcher_can = aim.at_muzzle <= *protocol_.launch.fastest;
    const FlightPath path{ball_of(target()), air_.to_fly_in(), Drag::constant(middle_drag),
                          Speed{}};
    launch.sag = sag(aim.at_muzzle, path, launch_distance(protocol_.launch));
    launch.speed = aim;
  }

  /// The slowest measured speed that still shows a hit to be not weaker, at 95 % (M10): of one
  /// measured shot, or of the mean of the trials when they scatter as planned (M13). Nothing where
  /// that is above the aim: a window must not lead beyond what the gate was asked for.
  [[nodiscard]] std::optional<Speed> least_measured(Speed aimed) const {
    const DeliveryQuestion& q = s_.shot.question;
    if (s_.outlook.obstacle != DeliveryObstacle::none) return std::nullopt;
    Combined own{std::hypot(q.speed_own_u, q.speed_hit_u)};
    if (!q.each_shot_measured) {
      const double scatter =
          std::hypot(q.launcher_scatter, q.speed_own_u) * std::sqrt(1.0 + 1.0 / q.trials);
      own = {std::hypot(scatter, q.speed_hit_u), q.trials - 1.0};
    }
    const Combined all = combine(Combined{q.speed_shared_u}, own);
    const double guard = t_quantile(hit_confidence, all.degrees_of_freedom) * all.standard_u;
    if (guard >= 1.0) return std::nullopt;
    const Speed least =
        target().speed * ((1.0 - q.tolerance.si()) / (1.0 - guard) / s_.shot.speed_kept);
    if (least > aimed) return std::nullopt;
    return least;
  }

  /// What the scales must show; nothing where they cannot.
  void weigh() {
    LaunchSeries& launch = s_.launch;
    launch.ball = ball_window(target(), s_.outlook.tolerance, ball_measuring());
    launch.together = s_.shot.question.weighed_together;
    if (launch.together == 1) {
      if (launch.ball.scales_suffice)
        launch.mass = MassAim{launch.ball.mass_aim, launch.ball.mass_low, launch.ball.mass_high};
      return;
    }
    if (!s_.shot.mass) return;
    const double guard =
        normal_quantile(hit_confidence) * std::hypot(s_.shot.mass->shared_u, s_.shot.mass->own_u);
    if (guard >= 1.0) return;
    const Mass aim = target().mass * (launch.aim.mass_aim / s_.shot.mass_kept);
    const Mass least =
        target().mass * ((1.0 - s_.outlook.tolerance.si()) / (1.0 - guard) / s_.shot.mass_kept);
    if (least <= aim) launch.mass = MassAim{aim, least, std::nullopt};
  }

  [[nodiscard]] BallMeasuring ball_measuring() const {
    BallMeasuring m;
    const Tools& tools = protocol_.tools;
    m.scales = scales_error(tools);
    m.scales_step = tools.scales.step.value_or(usual_scales_step);
    m.calipers = calipers_error(tools);
    m.calipers_step = calipers_step(tools);
    m.largest_melt = largest_melt(defaults::seconds_out, target().diameter,
                                  protocol_.launch.air.value_or(defaults::air_temperature));
    return m;
  }

  /// The fastest at the muzzle: the tolerance corner of what is aimed at, or the launcher's scatter
  /// about it, whichever is more; of a fall its speed without air.
  [[nodiscard]] Speed upper_speed() const {
    if (!s_.launch.speed) {
      const double g = standard_gravity.si();
      return Speed::from_si(std::sqrt(2.0 * g * protocol_.launch.height->si()));
    }
    const double corner = 1.0 + s_.outlook.tolerance.si();
    const Speed aimed = std::max(target().speed, s_.launch.speed->at_panel);
    const Ratio spread = protocol_.launch.spread.value_or(defaults::launcher_spread);
    const double scatter = protocol_.speed.by == SpeedSource::setting
                               ? nominal_excess
                               : 1.0 + spread_excess * spread.si();
    return std::max(at_muzzle(aimed * corner, drag_range::high),
                    at_muzzle(aimed, drag_range::high) * scatter);
  }

  /// MEASUREMENT M16: the heaviest ball that the sheet lets through at that speed.
  void upper_energy() {
    s_.upper_speed = upper_speed();
    const double corner = 1.0 + s_.outlook.tolerance.si();
    Mass heavy = target().mass * (std::max(1.0, s_.launch.aim.mass_aim) * corner);
    if (const auto& mass = s_.launch.mass) {
      heavy = std::max({heavy, mass->aim, mass->most.value_or(Mass{})});
    }
    s_.outlook.heaviest = heavy;
    s_.outlook.upper = kinetic_energy({heavy, {}}, {s_.upper_speed, {}}).value;
    s_.outlook.upper_per_area = energy_per_cross_section(s_.outlook.upper, target().diameter);
  }

  const Protocol& protocol_;
  const PlanAir& air_;
  Assumptions& assumptions_;
  KnownAims& known_;
  SeriesDesign s_;
};

}  // namespace

Length launch_distance(const Launch& launch) {
  return launch.distance.value_or(defaults::launch_distance);
}

Speed speed_at_muzzle(Speed at_panel, const Target& target, const Launch& launch, Density air,
                      double coefficient) {
  return speed_before(at_panel, launch_distance(launch),
                      drag_length(ball_of(target), air, coefficient));
}

SeriesDesign design_series(const Protocol& protocol, std::size_t series, const PlanAir& air,
                           Assumptions& assumptions, KnownAims& known) {
  return Designer(protocol, series, air, assumptions, known).make();
}

}  // namespace hailwright
