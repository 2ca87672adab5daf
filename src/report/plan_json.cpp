#include <cmath>

#include "hailwright/report/compose_plan.hpp"
#include "report/json_values.hpp"
#include "report/plan_sentences.hpp"
#include "report/plan_stresses.hpp"
#include "report/power_sentences.hpp"

namespace hailwright {

namespace {

using json::finite;
using json::Json;
using json::value;

template <class Q>
Json amount_json(Q q, const char* unit, double per_si = 1.0) {
  return value(std::optional(q), unit, per_si);
}

/// A bound, to whole steps: more digits would only tell what the gate keeps back.
template <class Q>
Json rounded_up(Q q, const char* unit, double step) {
  return {{"value", finite(std::ceil(q.si() / step) * step)}, {"unit", unit}};
}

Json outlook_json(const MeasuringOutlook& o) {
  Json j{{"set_ups_before", o.units.before}, {"set_ups_after", o.units.after}};
  if (o.units.siblings > 0) j["siblings"] = o.units.siblings;
  if (!o.estimated()) {
    j["obstacle"] = obstacle_sentence(o.obstacle, o.obstacle_subject);
    return j;
  }
  j["decides"] = o.decides;
  j["standard_uncertainty_of_loss"] = finite(o.standard_u.si());
  j["half_width_of_interval"] = finite(o.half_width.si());
  j["called_real_above"] = finite(o.real_above.si());
  j["smallest_loss_shown"] = finite(o.smallest_shown.si());
  j["called_above_limit_from"] = finite(o.called_above_limit.si());
  j["chance_at_claim"] = finite(o.chance_at_claim);
  j["chance_of_within"] = finite(o.chance_within);
  return j;
}

Json forecast_json(const MeasuringForecast& f) {
  Json j{{"scatter_of_set_ups", finite(f.scatter.si())},
         {"scatter_stated", f.scatter_stated},
         {"looks", f.looks},
         {"risk_of_each_look", finite(f.risk)},
         {"risk_if_set_ups_are_added", finite(f.risk_if_added)},
         {"limit_answered_by", f.limit_by_estimate ? "estimate" : "interval"},
         {"claim", finite(f.claim.si())},
         {"claim_chance", finite(f.claim_chance)},
         {"as_planned", outlook_json(f.planned)}};
  if (f.spread) {
    j["spread_of_units"] = finite(f.spread->si());
    j["spread_stated"] = f.spread_stated;
  }
  if (f.proposed) j["proposed"] = outlook_json(*f.proposed);
  for (const MeasuringOutlook& o : f.curve)
    j[f.spread ? "by_siblings" : "by_set_ups"].push_back(outlook_json(o));
  for (const BudgetLine& line : f.budget) {
    j["budget"].push_back({{"label", line.label},
                           {"standard_uncertainty", finite(line.standard_u)},
                           {"share_of_variance", finite(line.share.si())}});
  }
  j[f.spread ? "siblings_needed" : "set_ups_needed"] = f.needed ? Json(*f.needed) : Json(nullptr);
  j[f.spread ? "smallest_loss_shown_with_endless_siblings"
             : "smallest_loss_shown_with_endless_set_ups"] = finite(f.floor.si());
  return j;
}

Json series_json(const SeriesOutlook& s, const Protocol& protocol) {
  const SeriesPlan& plan = protocol.series[s.series];
  Json j{{"name", plan.name},
         {"target", plan.target.grade != nullptr ? plan.target.label : "free choice"},
         {"places", plan.places.size()},
         {"energy", amount_json(s.nominal, "J")},
         {"upper_energy_at_launcher", rounded_up(s.upper, "J", 0.1)},
         {"chance_of_delivery", finite(s.chance)},
         {"delivery", reach_sentence(s)},
         {"trials", s.trials},
         {"hits_wanted", s.wanted},
         {"balls_to_freeze", s.balls ? Json(*s.balls) : Json(nullptr)},
         {"balls_for_trials", s.trial_balls},
         {"nights", s.nights ? Json(*s.nights) : Json(nullptr)}};
  return j;
}

Json gate_json(const GateResult& gate) {
  Json j{{"cleared", gate.clearance.has_value()}};
  for (const RefusalFinding& r : gate.refusals)
    j["refusals"].push_back(refusal_sentence(r));
  for (const GateFinding& f : gate.findings) {
    j["findings"].push_back({{"block", f.block},
                             {"key", f.key},
                             {"caution", f.hazard},
                             {"found", f.found},
                             {"wanted", f.wanted}});
  }
  if (gate.clearance) {
    j["agreed_by"] = gate.clearance->agreed_by();
    j["agreed_on"] = gate.clearance->agreed_on();
  }
  return j;
}

Json launch_json(const LaunchSeries& s, const Protocol& protocol) {
  const SeriesPlan& plan = protocol.series[s.series];
  Json j{{"name", plan.name},
         {"setting", plan.setting},
         {"weighed_together", s.together},
         {"diameter_low", amount_json(s.ball.diameter_low, "mm", 1e3)},
         {"diameter_high", amount_json(s.ball.diameter_high, "mm", 1e3)}};
  if (s.speed) {
    j["speed_at_panel"] = amount_json(s.speed->at_panel, "m/s");
    j["speed_at_launcher"] = amount_json(s.speed->at_muzzle, "m/s");
    j["speed_where_measured"] = value(s.speed->as_measured, "m/s");
    j["least_speed_where_measured"] = value(s.speed->least_measured, "m/s");
    if (s.speed->frames_aim) j["frames"] = finite(*s.speed->frames_aim);
    if (s.speed->frames_most) j["most_frames"] = finite(*s.speed->frames_most);
  }
  if (s.mass) {
    j["mass_of_one_ball"] = amount_json(s.mass->aim, "g", 1e3);
    j["least_mass_of_one_ball"] = amount_json(s.mass->least, "g", 1e3);
    j["largest_mass_of_one_ball"] = value(s.mass->most, "g", 1e3);
  }
  return j;
}

Json place_json(const PlacedTarget& p) {
  Json j{{"number", p.number}, {"name", p.name}, {"kind", text(p.kind)}};
  if (p.at) {
    j["right"] = amount_json(p.at->right, "mm", 1e3);
    j["up"] = amount_json(p.at->up, "mm", 1e3);
  }
  j["radius"] = amount_json(p.radius, "mm", 1e3);
  j["repeats_earlier"] = p.repeats_earlier;
  return j;
}

Json panel_json(const PanelSheet& panel, const Protocol& protocol) {
  Json j{{"name", panel.panel->name}};
  for (std::size_t i = 0; i < panel.layout.series.size(); ++i) {
    Json series{{"name", protocol.series[i].name}};
    for (const PlacedTarget& p : panel.layout.series[i])
      series["places"].push_back(place_json(p));
    for (const std::size_t place : panel.order[i])
      series["order"].push_back(panel.layout.series[i][place].name);
    j["series"].push_back(series);
  }
  return j;
}

Json sheet_json(const LaunchSheet& sheet, const Protocol& protocol) {
  Json j;
  for (const LaunchSeries& s : sheet.series)
    j["series"].push_back(launch_json(s, protocol));
  for (const PanelSheet& panel : sheet.panels)
    j["panels"].push_back(panel_json(panel, protocol));
  return j;
}

void add_miss(Json& j, const PlanOutlook& o) {
  j["miss"] = {{"no_air", rounded_up(o.miss.no_air, "m", 1.0)},
               {"with_wind", rounded_up(o.miss.with_wind, "m", 1.0)},
               {"fastest_speed_stated", o.miss.fastest_stated},
               {"note", miss_sentence(o.miss)}};
  j["chance_of_all_series"] = finite(o.chance_of_all);
}

}  // namespace

std::string plan_json(const TestPlan& plan) {
  const PlanOutlook& o = plan.outlook;
  Json j;
  j["schema"] = "hailwright plan 1";
  j["title"] = plan.protocol->title;
  j["date"] = plan.today;
  j["cautions"] = json::caution_list(o.hazards);
  const bool hail = !plan.protocol->series.empty();
  if (hail) {
    j["gate"] = gate_json(plan.gate);
    add_miss(j, o);
  }
  if (Json stresses = stress_plan_json(plan); !stresses.is_null())
    j["other_stresses"] = std::move(stresses);
  for (const SeriesOutlook& s : o.series)
    j["series"].push_back(series_json(s, *plan.protocol));
  for (const PanelOutlook& p : o.panels) {
    Json panel{{"name", p.panel->name}, {"cold_open_voltage", value(p.cold_voltage, "V")}};
    for (const MeasuringForecast& f : p.power)
      panel["power"].push_back(forecast_json(f));
    j["panels"].push_back(panel);
  }
  for (const DefaultId id : o.assumptions.used()) {
    const DefaultRow& row = default_row(id);
    j["assumed"].push_back({{"what", row.what}, {"taken", row.taken}, {"replace", row.replace}});
  }
  if (plan.sheet) j["launch"] = sheet_json(*plan.sheet, *plan.protocol);
  if (plan.cleared()) j["planned"] = plan.today + " " + text(plan.protocol->mark);
  return json::dump(j);
}

}  // namespace hailwright
