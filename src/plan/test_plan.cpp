#include "hailwright/plan/test_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/physics/flight.hpp"
#include "hailwright/physics/impact.hpp"
#include "hailwright/plan/shot_order.hpp"
#include "plan/series_design.hpp"

namespace hailwright {

namespace {

/// Wind from behind that the far reach reckons with (M16) [ours].
constexpr Speed tailwind = Speed::from_si(10.0);
/// Long side taken for panels whose files give none [ours]: that of a large portable panel.
constexpr Length usual_long_side = Length::from_si(1.2);

class Planner {
public:
  explicit Planner(const PlanRequest& request)
      : request_(request), protocol_(*request.protocol), air_{stated_air(protocol_.launch)},
        reach_air_(air_.to_fly_in()) {}

  Checked<TestPlan> make() {
    Checked<TestPlan> result;
    TestPlan plan;
    plan.protocol = &protocol_;
    plan.today = request_.today;
    plan.estimate_only = request_.estimate_only;
    check_request(result.notes);
    if (result.notes.has_errors()) return result;
    if (hail() && !protocol_.launch.distance && protocol_.launch.kind != Launcher::drop)
      assumptions_.use(DefaultId::launch_distance);
    KnownAims known;
    for (std::size_t i = 0; i < protocol_.series.size(); ++i) {
      series_.push_back(design_series(protocol_, i, air_, assumptions_, known));
      ice(series_.back());
    }
    std::vector<PanelSheet> sheets = lay_out(result.notes);
    if (result.notes.has_errors()) return result;

    plan.outlook.panels = look_at_panels();
    if (hail()) look_at_dangers(plan.outlook);
    look_at_stresses(plan);
    for (const SeriesDesign& s : series_)
      plan.outlook.series.push_back(s.outlook);
    plan.outlook.chance_of_all = chance_of_all();
    plan.outlook.nights = nights();
    plan.outlook.timetable = make_timetable(timetable_facts());
    plan.outlook.assumptions = assumptions_;
    if (hail()) plan.gate = Gate::ask(protocol_.safety, plan.outlook.dangers, request_.today);
    if (plan.cleared() && !request_.estimate_only) write_stress_sheet(plan);
    if (hail() && plan.cleared() && !request_.estimate_only && launcher_suffices()) {
      std::vector<LaunchSeries> launch;
      for (const SeriesDesign& s : series_)
        launch.push_back(s.launch);
      plan.sheet.emplace(*plan.gate.clearance, std::move(launch), std::move(sheets));
    }
    result.value = std::move(plan);
    return result;
  }

private:
  [[nodiscard]] bool hail() const { return !protocol_.series.empty(); }

  void look_at_dangers(PlanOutlook& outlook) {
    outlook.miss = reach_of_a_miss();
    outlook.dangers = dangers(outlook);
    outlook.hazards = plan_hazards(outlook.dangers, protocol_.safety);
  }

  /// Their cautions join those of the hail, each once.
  void look_at_stresses(TestPlan& plan) const {
    if (protocol_.stresses.empty()) return;
    std::vector<Panel> panels;
    for (const Panel* panel : request_.panels)
      panels.push_back(*panel);
    plan.stress_gate = StressGate::ask(protocol_, panels, request_.today);
    auto& hazards = plan.outlook.hazards;
    for (const Caution* c : cautions_for(stress_caution_facts(protocol_, panels))) {
      if (std::find(hazards.begin(), hazards.end(), c) == hazards.end()) hazards.push_back(c);
    }
  }

  void write_stress_sheet(TestPlan& plan) const {
    if (!plan.stress_gate.clearance) return;
    const StressClearance& leave = *plan.stress_gate.clearance;
    std::vector<std::vector<std::vector<StressAdvice>>> advice;
    for (const StressPlan& stress : protocol_.stresses) {
      auto& by_panel = advice.emplace_back();
      for (const Panel* panel : request_.panels)
        by_panel.push_back(stress_advice(stress, *panel, leave));
    }
    plan.stress_sheet.emplace(leave, std::move(advice));
  }

  [[nodiscard]] int panels() const { return std::max(1, static_cast<int>(request_.panels.size())); }

  /// What no plan can be made of.
  void check_request(Diagnostics& notes) const {
    if (protocol_.launch.kind == Launcher::drop) {
      if (!protocol_.launch.height || protocol_.launch.height->si() <= 0.0) {
        notes.error("C32", protocol_.launch.origin, "a drop is planned from its height",
                    {"measure the height of the fall and write it:  launch: {kind: drop, height: "
                     "...}"});
      }
    } else {
      check_distance(notes);
    }
    for (std::size_t i = 0; i < request_.panels.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (request_.panels[i]->name != request_.panels[j]->name) continue;
        notes
            .error("C33", request_.panels[i]->origin,
                   fmt::format("a second panel is called \"{}\"", request_.panels[i]->name),
                   {"name each panel file once; two panels of one model need two names"})
            .related.push_back({request_.panels[j]->origin, "the first one"});
        return;
      }
    }
  }

  /// A light ball from far away would have to leave the launcher at a speed that nothing gives.
  void check_distance(Diagnostics& notes) const {
    for (const SeriesPlan& series : protocol_.series) {
      const Speed muzzle = speed_at_muzzle(series.target.speed * largest_speed_aim, series.target,
                                           protocol_.launch, air_.slowing(), drag_range::high);
      if (muzzle <= fastest_believable) continue;
      notes.error("C31", protocol_.launch.origin,
                  fmt::format("from this distance a ball of series \"{}\" would have to leave the "
                              "launcher at more than {}",
                              series.name, in_unit(fastest_believable, "m/s", 0)),
                  {"stand nearer, or throw a heavier ball"});
    }
  }

  [[nodiscard]] bool launcher_suffices() const {
    return std::all_of(series_.begin(), series_.end(),
                       [](const SeriesDesign& s) { return s.outlook.launcher_can.value_or(true); });
  }

  [[nodiscard]] double chance_of_all() const {
    double all = 1.0;
    for (const SeriesDesign& s : series_)
      all *= std::pow(s.outlook.chance, panels());
    return all;
  }

  void ice(SeriesDesign& s) const {
    SeriesOutlook& o = s.outlook;
    o.wanted = static_cast<int>(s.plan->places.size()) * panels();
    const auto& tried = protocol_.launch.tried;
    const auto& made = protocol_.ice.made;
    if (!tried || !made) {
      o.ice = IceObstacle::not_tried;
    } else if (tried->good == 0 || made->good == 0) {
      o.ice = IceObstacle::no_success;
    } else {
      o.balls = balls_to_freeze(o.wanted, *tried, *made);
      if (!o.balls) o.ice = IceObstacle::too_many;
    }
    if (made && o.trials > 0 && made->good > 0) {
      o.trial_balls =
          static_cast<int>(std::ceil(static_cast<double>(o.trials) * made->tried / made->good));
    } else {
      o.trial_balls = o.trials;
    }
    if (o.balls) {
      o.nights =
          nights_to_freeze(*o.balls + o.trial_balls, s.plan->target.diameter, protocol_.ice.moulds);
      if (!o.nights && !protocol_.ice.moulds.empty()) o.ice = IceObstacle::no_such_mould;
    }
    if (protocol_.ice.freezer)
      o.freezing = freezing_time(s.plan->target.diameter, *protocol_.ice.freezer);
  }

  std::vector<PanelSheet> lay_out(Diagnostics& notes) {
    std::vector<PanelSheet> sheets;
    if (!hail()) return sheets;
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
      o.cold_voltage = coldest_open_voltage(*panel);
      if (protocol_.decide.judges_power)
        o.power = forecast_measuring(protocol_, *panel, assumptions_);
      all.push_back(std::move(o));
    }
    return all;
  }

  /// The fastest that the launcher can give, or that safety reckons with for the aims, whichever is
  /// larger (M16). A stated figure that the aims outdo is none.
  [[nodiscard]] Speed fastest_muzzle() const {
    const Speed stated = protocol_.launch.fastest.value_or(Speed{});
    Speed aims;
    Speed unknown;
    for (const SeriesDesign& s : series_) {
      aims = std::max(aims, s.upper_speed);
      if (s.launch.speed) unknown = std::max(unknown, s.launch.speed->at_muzzle * nominal_excess);
    }
    return stated < aims ? std::max(aims, unknown) : stated;
  }

  MissOutlook reach_of_a_miss() {
    MissOutlook miss;
    miss.fastest_stated = protocol_.launch.fastest && *protocol_.launch.fastest >= fastest_muzzle();
    Length height = defaults::launch_height;
    if (protocol_.launch.height) {
      height = *protocol_.launch.height;
    } else {
      assumptions_.use(DefaultId::launch_height);
    }
    miss.height = height + protocol_.launch.ground_falls.value_or(Length{});
    const Speed fastest = fastest_muzzle();
    miss.no_air = no_air_reach(fastest, miss.height);
    for (const SeriesDesign& s : series_) {
      const FlightPath path{{s.outlook.heaviest, s.plan->target.diameter},
                            reach_air_,
                            Drag::constant(drag_range::reach),
                            tailwind};
      miss.at_fastest =
          std::max(miss.at_fastest, kinetic_energy({s.outlook.heaviest, {}}, {fastest, {}}).value);
      miss.with_wind =
          std::max(miss.with_wind, farthest_reach(fastest, miss.height, path).landing.away);
    }
    return miss;
  }

  [[nodiscard]] PlanDangers dangers(const PlanOutlook& outlook) const {
    PlanDangers d;
    d.launcher = protocol_.launch.kind;
    for (const SeriesDesign& s : series_) {
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
    if (!load.empty()) d.power_station = names_power_station(load);
    return d;
  }

  /// Of the panels that state their size; a usual one is taken where none does.
  [[nodiscard]] Length longest_side() const {
    Length longest;
    for (const Panel* panel : request_.panels) {
      if (panel->size) longest = std::max(longest, panel->size->long_side);
    }
    return longest.si() > 0.0 ? longest : usual_long_side;
  }

  [[nodiscard]] int nights() const {
    int all = 0;
    for (const SeriesDesign& s : series_) {
      if (!s.outlook.nights) return 0;
      all += *s.outlook.nights;
    }
    return all;
  }

  [[nodiscard]] TimetableFacts timetable_facts() const {
    TimetableFacts facts;
    facts.panels = panels();
    if (protocol_.decide.judges_power) {
      const PlannedUnits units = planned_units(protocol_.measure);
      facts.setups_before = units.before;
      facts.setups_after = units.after;
      facts.readings = protocol_.measure.readings.value_or(0);
      facts.unstruck = unstruck_panels(units);
    }
    for (const SeriesDesign& s : series_) {
      facts.trials += s.outlook.trials;
      facts.throws += throws_for(s.outlook.wanted);
    }
    // One look before anything is done and one after each series and each stress, at each panel.
    facts.looks = panels() * (1 + static_cast<int>(series_.size() + protocol_.stresses.size()));
    // The set-ups after a stress are those before what follows it.
    facts.setups_after *= static_cast<int>(protocol_.stresses.size()) + (hail() ? 1 : 0);
    facts.nights = nights();
    return facts;
  }

  /// One control panel serves all; siblings are of the model of their struck panel.
  [[nodiscard]] int unstruck_panels(const PlannedUnits& units) const {
    if (protocol_.measure.compare == Comparison::control_panel) return 1;
    return panels() * units.siblings;
  }

  /// Throws that so many hits take on average; without trial throws at least so many.
  [[nodiscard]] int throws_for(int hits) const {
    const auto& tried = protocol_.launch.tried;
    if (!tried || tried->good == 0) return hits;
    return static_cast<int>(std::ceil(static_cast<double>(hits) * tried->tried / tried->good));
  }

  const PlanRequest& request_;
  const Protocol& protocol_;
  PlanAir air_;
  Air reach_air_;
  std::vector<SeriesDesign> series_;
  Assumptions assumptions_;
};

}  // namespace

bool TestPlan::cleared() const {
  const bool hail = protocol != nullptr && !protocol->series.empty();
  const bool stresses = protocol != nullptr && !protocol->stresses.empty();
  return (!hail || gate.clearance) && (!stresses || stress_gate.clearance);
}

Checked<TestPlan> make_plan(const PlanRequest& request) {
  expects(request.protocol != nullptr &&
              (!request.protocol->series.empty() || !request.protocol->stresses.empty()),
          "a plan needs a protocol with a series or a stress");
  return Planner(request).make();
}

}  // namespace hailwright
