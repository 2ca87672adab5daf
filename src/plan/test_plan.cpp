#include "hailwright/plan/test_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/evaluate/delivery.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/physics/flight.hpp"
#include "hailwright/physics/ice_ball.hpp"
#include "hailwright/physics/impact.hpp"
#include "hailwright/plan/shot_order.hpp"
#include "plan/imagined_shot.hpp"

namespace hailwright {

namespace {

/// Wanted chance that a whole series is shown to be delivered (MEASUREMENT M10).
constexpr double wanted_chance = 0.8;
/// A nominal figure of a launcher can be exceeded by this (MEASUREMENT M16) [ours].
constexpr double nominal_excess = 1.25;
/// Standard deviations of the launcher above its mean that safety reckons with (M16) [ours].
constexpr double spread_excess = 3.0;
/// Wind from behind that the far reach reckons with (M16) [ours].
constexpr Speed tailwind = Speed::from_si(10.0);
/// Steps of displays that the protocol does not state: those of kitchen scales and plastic calipers
/// [common practice, no source].
constexpr Mass usual_scales_step = Mass::from_si(1e-4);
constexpr Length usual_calipers_step = Length::from_si(1e-4);
/// Fastest muzzle speed that is planned with [ours]: as much as `launch: fastest` may say.
constexpr Speed fastest_believable = Speed::from_si(200.0);
/// Drag coefficient of a ball on its way to the panel: the middle of its range.
constexpr double middle_drag = 0.5 * (drag_range::low + drag_range::high);

/// A series with all that the plan works out for it, before it is known what may be shown.
struct WorkedSeries {
  const SeriesPlan* plan = nullptr;
  ImaginedShot shot;
  SeriesOutlook outlook;
  LaunchSeries launch;
};

class Planner {
public:
  explicit Planner(const PlanRequest& request)
      : request_(request), protocol_(*request.protocol), air_(stated_air(protocol_.launch)),
        reach_air_(air_.value_or(standard_air(Length{}))) {}

  Checked<TestPlan> make() {
    Checked<TestPlan> result;
    TestPlan plan;
    plan.protocol = &protocol_;
    plan.today = request_.today;
    plan.estimate_only = request_.estimate_only;
    check_distance(result.notes);
    if (result.notes.has_errors()) return result;
    for (std::size_t i = 0; i < protocol_.series.size(); ++i)
      series_.push_back(work_out(i));
    std::vector<PanelSheet> sheets = lay_out(result.notes);
    if (result.notes.has_errors()) return result;

    plan.outlook.panels = look_at_panels();
    plan.outlook.miss = reach_of_a_miss();
    plan.outlook.dangers = dangers(plan.outlook);
    plan.outlook.hazards = plan_hazards(plan.outlook.dangers, protocol_.safety);
    for (const WorkedSeries& s : series_)
      plan.outlook.series.push_back(s.outlook);
    plan.outlook.nights = nights();
    plan.outlook.timetable = make_timetable(timetable_facts());
    plan.outlook.assumptions = assumptions_;
    plan.gate = Gate::ask(protocol_.safety, plan.outlook.dangers, request_.today);
    if (plan.gate.clearance && !request_.estimate_only) {
      std::vector<LaunchSeries> launch;
      for (const WorkedSeries& s : series_)
        launch.push_back(s.launch);
      plan.sheet.emplace(*plan.gate.clearance, std::move(launch), std::move(sheets));
    }
    result.value = std::move(plan);
    return result;
  }

private:
  [[nodiscard]] static FlyingBall ball_of(const Target& target) {
    return {target.mass, target.diameter};
  }

  [[nodiscard]] int panels() const { return std::max(1, static_cast<int>(request_.panels.size())); }

  /// Slowing between launcher and panel with one drag coefficient.
  [[nodiscard]] Speed at_muzzle(Speed at_panel, const Target& target, double coefficient) const {
    const Length way = protocol_.launch.distance.value_or(Length{});
    const Density density = air_ ? air_->density : defaults::air_density;
    return speed_before(at_panel, way, drag_length(ball_of(target), density, coefficient));
  }

  /// A light ball from far away would have to leave the launcher at a speed that nothing gives.
  void check_distance(Diagnostics& notes) const {
    for (const SeriesPlan& series : protocol_.series) {
      const Speed muzzle =
          at_muzzle(series.target.speed * largest_speed_aim, series.target, drag_range::high);
      if (muzzle <= fastest_believable) continue;
      notes.error("C31", protocol_.launch.origin,
                  fmt::format("from this distance a ball of series \"{}\" would have to leave the "
                              "launcher at more than {}",
                              series.name, in_unit(fastest_believable, "m/s", 0)),
                  {"stand nearer, or throw a heavier ball"});
    }
  }

  WorkedSeries work_out(std::size_t index) {
    WorkedSeries s;
    s.plan = &protocol_.series[index];
    const Target& target = s.plan->target;
    s.outlook.series = s.launch.series = index;
    s.outlook.tolerance = tolerance_of(target, assumptions_);
    s.outlook.place_radius = place_radius(*s.plan);
    s.outlook.nominal = kinetic_energy({target.mass, {}}, {target.speed, {}}).value;
    s.shot = imagine_shot(protocol_, index, s.outlook.tolerance, air_, assumptions_);
    aim(s);
    upper_energy(s);
    drop(s);
    ice(s);
    return s;
  }

  Length place_radius(const SeriesPlan& plan) {
    if (plan.place_radius) return *plan.place_radius;
    assumptions_.use(DefaultId::place_size);
    return defaults::place_size;
  }

  /// Where to aim, and what that means where the speed is measured and at the muzzle.
  void aim(WorkedSeries& s) {
    const Target& target = s.plan->target;
    if (protocol_.speed.by == SpeedSource::setting) {
      s.outlook.obstacle = DeliveryObstacle::nominal_setting;
    } else if (!s.shot.speed) {
      s.outlook.obstacle = DeliveryObstacle::speed_not_measured;
    } else if (!s.shot.mass || !s.shot.mass->supports_grade) {
      s.outlook.obstacle = DeliveryObstacle::mass_not_weighed;
    }
    if (s.outlook.obstacle == DeliveryObstacle::none) {
      s.launch.aim = find_delivery_aim(s.shot.question, wanted_chance);
      s.outlook.chance = s.launch.aim.chance.shown;
      s.outlook.reached = s.launch.aim.reached;
      s.outlook.help = s.launch.aim.help;
    }
    // The aim is for the speed along the panel's normal, on average over the angles of the hits.
    const double slowed = s.shot.slowing.remaining.si();
    const double straight = s.shot.speed_kept / slowed;
    s.launch.at_panel = target.speed * (s.launch.aim.speed_aim / straight);
    s.launch.as_measured = s.launch.at_panel / slowed;
    s.launch.at_muzzle = at_muzzle(s.launch.at_panel, target, middle_drag);
    s.launch.least_measured = least_measured(s);
    if (protocol_.speed.video && protocol_.speed.length) {
      const double path_frames = protocol_.speed.video->si() * protocol_.speed.length->si();
      s.launch.frames_aim = path_frames / s.launch.as_measured.si();
      s.launch.frames_most = path_frames / s.launch.least_measured.si();
    }
    weigh(s);
    s.launch.sag = fall_below_aim(s);
    if (protocol_.launch.fastest)
      s.outlook.launcher_can = s.launch.at_muzzle <= *protocol_.launch.fastest;
    s.outlook.trials = s.shot.trials;
  }

  /// The slowest measured speed that still shows a hit to be not weaker, at 95 % (M10): of one
  /// measured shot, or of the mean of the trials when they scatter as planned (M13).
  [[nodiscard]] Speed least_measured(const WorkedSeries& s) const {
    const DeliveryQuestion& q = s.shot.question;
    Combined own{std::hypot(q.speed_own_u, q.speed_hit_u)};
    if (!q.each_shot_measured) {
      const double scatter =
          std::hypot(q.launcher_scatter, q.speed_own_u) * std::sqrt(1.0 + 1.0 / q.trials);
      own = {std::hypot(scatter, q.speed_hit_u), q.trials - 1.0};
    }
    const Combined all = combine(Combined{q.speed_shared_u}, own);
    const double guard = t_quantile(hit_confidence, all.degrees_of_freedom) * all.standard_u;
    const double least = (1.0 - q.tolerance.si()) / (1.0 - guard) / s.shot.speed_kept;
    return s.plan->target.speed * least;
  }

  /// What the scales must show.
  void weigh(WorkedSeries& s) {
    const Target& target = s.plan->target;
    s.launch.ball = ball_window(target, s.outlook.tolerance, ball_measuring(target));
    s.launch.together = s.shot.question.weighed_together;
    if (s.launch.together == 1) {
      s.launch.mass_aim = s.launch.ball.mass_aim;
      s.launch.least_mass = s.launch.ball.mass_low;
      return;
    }
    s.launch.mass_aim = target.mass * (s.launch.aim.mass_aim / s.shot.mass_kept);
    if (!s.shot.mass) return;
    const double guard =
        normal_quantile(hit_confidence) * std::hypot(s.shot.mass->shared_u, s.shot.mass->own_u);
    s.launch.least_mass =
        target.mass * ((1.0 - s.outlook.tolerance.si()) / (1.0 - guard) / s.shot.mass_kept);
  }

  [[nodiscard]] BallMeasuring ball_measuring(const Target& target) const {
    BallMeasuring m;
    const Tools& tools = protocol_.tools;
    m.scales.relative = defaults::scales_gain;
    m.scales.digits = defaults::scales_digits;
    if (tools.scales.error) m.scales = *tools.scales.error;
    m.scales_step = tools.scales.step.value_or(usual_scales_step);
    m.calipers.absolute = defaults::calipers;
    if (tools.calipers.error) m.calipers = *tools.calipers.error;
    m.calipers_step = tools.calipers.step.value_or(usual_calipers_step);
    m.largest_melt = largest_melt(defaults::seconds_out, target.diameter,
                                  protocol_.launch.air.value_or(defaults::air_temperature));
    return m;
  }

  [[nodiscard]] std::optional<Length> fall_below_aim(const WorkedSeries& s) const {
    if (!protocol_.launch.distance) return std::nullopt;
    const FlightPath path{ball_of(s.plan->target), reach_air_, Drag::constant(middle_drag),
                          Speed{}};
    return sag(s.launch.at_muzzle, path, *protocol_.launch.distance);
  }

  /// MEASUREMENT M16: the tolerance corner of what is aimed at, taken back to the muzzle.
  void upper_energy(WorkedSeries& s) {
    const Target& target = s.plan->target;
    const double corner = 1.0 + s.outlook.tolerance.si();
    const Speed aimed = std::max(target.speed, s.launch.at_panel);
    const Speed fast = at_muzzle(aimed * corner, target, drag_range::high);
    const Mass heavy = target.mass * (std::max(1.0, s.launch.aim.mass_aim) * corner);
    s.outlook.upper = kinetic_energy({heavy, {}}, {fast, {}}).value;
    s.outlook.upper_per_area = energy_per_cross_section(s.outlook.upper, target.diameter);
  }

  void drop(WorkedSeries& s) const {
    if (protocol_.launch.kind != Launcher::drop || !protocol_.launch.height) return;
    const Target& target = s.plan->target;
    const FlyingBall ball = ball_of(target);
    const Density density = reach_air_.density;
    const auto energy = [&](double coefficient) {
      const Speed v =
          drop_speed(*protocol_.launch.height, terminal_speed(ball, density, coefficient));
      return kinetic_energy({target.mass, {}}, {v, {}}).value;
    };
    s.outlook.drop =
        DropOutlook{*protocol_.launch.height, energy(drag_range::high), energy(drag_range::low),
                    drop_height(target.speed, terminal_speed(ball, density, drag_range::low))};
  }

  void ice(WorkedSeries& s) const {
    SeriesOutlook& o = s.outlook;
    o.wanted = static_cast<int>(s.plan->places.size()) * panels();
    const auto& tried = protocol_.launch.tried;
    const auto& made = protocol_.ice.made;
    if (tried && made) o.balls = balls_to_freeze(o.wanted, *tried, *made);
    if (made && o.trials > 0 && made->good > 0) {
      o.trial_balls =
          static_cast<int>(std::ceil(static_cast<double>(o.trials) * made->tried / made->good));
    } else {
      o.trial_balls = o.trials;
    }
    if (o.balls) {
      o.nights =
          nights_to_freeze(*o.balls + o.trial_balls, s.plan->target.diameter, protocol_.ice.moulds);
    }
    if (protocol_.ice.freezer)
      o.freezing = freezing_time(s.plan->target.diameter, *protocol_.ice.freezer);
  }

  std::vector<PanelSheet> lay_out(Diagnostics& notes) {
    std::vector<PanelSheet> sheets;
    for (const Panel* panel : request_.panels) {
      Checked<PlaceLayout> layout = layout_places(protocol_, *panel, defaults::place_size);
      notes.append(std::move(layout.notes));
      if (!layout.value) continue;
      PanelSheet sheet{panel, std::move(*layout.value), {}};
      for (std::size_t i = 0; i < sheet.layout.series.size(); ++i) {
        const auto& places = sheet.layout.series[i];
        sheet.order.push_back(request_.order_seed
                                  ? random_order(places.size(), *request_.order_seed + i)
                                  : spread_order(places));
      }
      sheets.push_back(std::move(sheet));
    }
    return sheets;
  }

  std::vector<PanelOutlook> look_at_panels() {
    std::vector<PanelOutlook> all;
    for (const Panel* panel : request_.panels) {
      PanelOutlook o;
      o.panel = panel;
      if (panel->open_voltage) {
        o.cold_voltage = cold_open_voltage(
            *panel->open_voltage,
            panel->voltage_coefficient.value_or(ColdVoltageDefaults::coefficient));
      }
      if (protocol_.decide.judges_power)
        o.power = forecast_measuring(protocol_, *panel, assumptions_);
      all.push_back(std::move(o));
    }
    return all;
  }

  /// The fastest that the launcher can give, or that it will be set to and scatter to, whichever is
  /// larger (M16).
  [[nodiscard]] Speed fastest_muzzle() const {
    Speed fastest = protocol_.launch.fastest.value_or(Speed{});
    for (const WorkedSeries& s : series_) {
      const Ratio spread = protocol_.launch.spread.value_or(defaults::launcher_spread);
      const double excess =
          protocol_.launch.fastest ? 1.0 + spread_excess * spread.si() : nominal_excess;
      fastest = std::max(fastest, s.launch.at_muzzle * excess);
    }
    return fastest;
  }

  MissOutlook reach_of_a_miss() {
    MissOutlook miss;
    miss.fastest_stated = protocol_.launch.fastest.has_value();
    Length height = defaults::launch_height;
    if (protocol_.launch.height) {
      height = *protocol_.launch.height;
    } else {
      assumptions_.use(DefaultId::launch_height);
    }
    miss.height = height + protocol_.launch.ground_falls.value_or(Length{});
    const Speed fastest = fastest_muzzle();
    miss.no_air = no_air_reach(fastest, miss.height);
    for (const WorkedSeries& s : series_) {
      const FlightPath path{ball_of(s.plan->target), reach_air_, Drag::constant(drag_range::reach),
                            tailwind};
      const Mass heavy = s.plan->target.mass * (1.0 + s.outlook.tolerance.si());
      miss.at_fastest = std::max(miss.at_fastest, kinetic_energy({heavy, {}}, {fastest, {}}).value);
      miss.with_wind =
          std::max(miss.with_wind, farthest_reach(fastest, miss.height, path).landing.away);
    }
    return miss;
  }

  [[nodiscard]] PlanDangers dangers(const PlanOutlook& outlook) const {
    PlanDangers d;
    d.launcher = protocol_.launch.kind;
    for (const WorkedSeries& s : series_) {
      d.muzzle_energy = std::max(d.muzzle_energy, s.outlook.upper);
      d.per_area = std::max(d.per_area, s.outlook.upper_per_area);
    }
    d.no_air_reach = outlook.miss.farthest();
    if (protocol_.launch.kind == Launcher::drop) d.drop_height = protocol_.launch.height;
    for (const PanelOutlook& p : outlook.panels)
      d.cold_voltages.push_back(p.cold_voltage);
    d.freezer = protocol_.ice.freezer;
    d.reads_power = protocol_.decide.judges_power;
    d.panel_long_side = longest_side();
    d.launch_origin = protocol_.launch.origin;
    const std::string& load = protocol_.measure.load;
    if (!load.empty()) {
      d.power_station = load.find("power station") != std::string::npos ||
                        load.find("controller") != std::string::npos;
    }
    return d;
  }

  /// Nothing unless every panel states its size.
  [[nodiscard]] std::optional<Length> longest_side() const {
    std::optional<Length> longest;
    for (const Panel* panel : request_.panels) {
      if (!panel->size) return std::nullopt;
      longest = std::max(longest.value_or(Length{}), panel->size->long_side);
    }
    return longest;
  }

  [[nodiscard]] int nights() const {
    int all = 0;
    for (const WorkedSeries& s : series_) {
      if (!s.outlook.nights) return 0;
      all += *s.outlook.nights;
    }
    return all;
  }

  [[nodiscard]] TimetableFacts timetable_facts() const {
    TimetableFacts facts;
    facts.panels = panels();
    facts.control =
        protocol_.decide.judges_power && protocol_.measure.compare == Comparison::control_panel;
    if (protocol_.decide.judges_power) {
      facts.setups_before = protocol_.measure.before.value_or(proposed_setups);
      facts.setups_after = protocol_.measure.after.value_or(proposed_setups);
      facts.readings = protocol_.measure.readings.value_or(0);
    }
    for (const WorkedSeries& s : series_) {
      facts.trials += s.outlook.trials;
      facts.throws += throws_for(s.outlook.wanted);
    }
    // One look before the first shot and one after each series, at each panel.
    facts.looks = panels() * (1 + static_cast<int>(series_.size()));
    facts.nights = nights();
    return facts;
  }

  /// Throws that so many hits take on average; without trial throws at least so many.
  [[nodiscard]] int throws_for(int hits) const {
    const auto& tried = protocol_.launch.tried;
    if (!tried || tried->good == 0) return hits;
    return static_cast<int>(std::ceil(static_cast<double>(hits) * tried->tried / tried->good));
  }

  const PlanRequest& request_;
  const Protocol& protocol_;
  std::optional<Air> air_;
  Air reach_air_;
  std::vector<WorkedSeries> series_;
  Assumptions assumptions_;
};

}  // namespace

Checked<TestPlan> make_plan(const PlanRequest& request) {
  expects(request.protocol != nullptr && !request.protocol->series.empty(),
          "a plan needs a protocol with a series");
  return Planner(request).make();
}

}  // namespace hailwright
