#include "input/protocol_measure.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "input/stated_text.hpp"

namespace hailwright::input {

namespace {

/// Standard uncertainties of the power up to here [ours]; 0 % is a statement too.
constexpr Range scatter_range{0.0, 0.5, "from 0 % to 50 %"};
/// Set-ups that do not differ at all are no plan.
constexpr Range expected_range{0.0, 0.5, "more than 0 %, up to 50 %", true};
/// Units that do not differ at all are none of a maker.
constexpr Range unit_tolerance_range{0.0, 0.5, "more than 0 %, up to 50 %", true};
constexpr Range cell_range{-5.0, 20.0, "from -5 K to 20 K"};
constexpr int most_setups = 1000;
constexpr int most_siblings = 100;

const std::vector<std::string>& redone_words() {
  static const std::vector<std::string> words{"mount", "aim", "probe", "leads"};
  return words;
}

std::optional<Redone> read_redone_word(const Node& node, std::string_view what,
                                       Diagnostics& notes) {
  const auto index = read_word(node, what, redone_words(), notes);
  if (!index) return std::nullopt;
  return all_redone.at(*index);
}

SetupComponent read_component(const Entry& entry, Diagnostics& notes) {
  SetupComponent component;
  component.origin = entry.key_span;
  component.name = entry.key;
  const std::string what = fmt::format("'{}'", entry.key);
  if (entry.value.kind != NodeKind::map) {
    const auto u = read_amount_of(entry.value, what, Measure::ratio, scatter_range, notes);
    if (u) component.standard_u = Ratio::from_si(u->si);
    return component;
  }
  const MapReader map(entry.value, component_keys, entry.key_span, notes);
  if (const Entry* of = map.find("of")) component.of = read_redone_word(of->value, "'of'", notes);
  const auto stated = stated_as<Ratio>(read_statement(map, {Measure::ratio, true, false}));
  const auto words = words_of(stated_keys);
  const bool given = std::any_of(words.begin(), words.end(),
                                 [&](const std::string& key) { return map.find(key) != nullptr; });
  if (stated) {
    component.standard_u = Ratio::from_si(stated->relative_u());
    component.shape = stated->shape;
    component.degrees_of_freedom = stated->degrees_of_freedom;
  } else if (!given) {
    notes.error("K02", entry.key_span, fmt::format("the size of {} is missing", what),
                {"write it as in  {spread: 0.3 %, of: aim}"});
  }
  return component;
}

void read_components(const Entry& entry, MeasurementPlan& plan, Diagnostics& notes) {
  if (entry.value.kind == NodeKind::map) {
    for (const Entry& component : entry.value.entries)
      plan.setup_scatter.push_back(read_component(component, notes));
  } else if (entry.value.kind != NodeKind::broken) {
    notes.error("K05", entry.value.span,
                fmt::format("'setup_scatter' must be {}, found {}", name(NodeKind::map),
                            name(entry.value.kind)),
                {"name each component, as in  setup_scatter: {alignment: 0.3 %, contact: 0.1 %}"});
  }
}

void require_keys(const MapReader& map, const MeasurementPlan& plan) {
  map.require("compare",
              "write compare: same-panel, control-panel with an unstruck panel beside "
              "it, or sibling-panel with unstruck units and no reading before the shots");
  map.require("maximum_power",
              "write sweep, tracker settled or fixed load: a load that does not take all the "
              "power makes every reading meaningless");
  if (plan.compare != Comparison::same_panel) {
    map.require("meters", "write 2 if the panels are read at once, 1 if they are read in turn");
  }
}

/// Keys that tell nothing by this comparison. `trend: none` is always true.
void check_idle_keys(const MapReader& map, const MeasurementPlan& plan) {
  const bool siblings = plan.compare == Comparison::sibling_panel;
  const bool stages = !siblings;
  report_idle_keys(
      map,
      {{"before", stages, "a comparison of before and after"},
       {"control_stability", plan.compare == Comparison::control_panel, "a control panel"},
       {"siblings unit_tolerance", siblings, "sibling panels"},
       {"trend", stages || !plan.fitted_trend, "a comparison of before and after"}},
      {"compare", "what is compared", "write another  compare"});
}

}  // namespace

std::optional<std::vector<Redone>> read_redone(const MapReader& map, std::string_view key) {
  const std::vector<Node>* items = map.list(key);
  if (items == nullptr) return std::nullopt;
  std::vector<Redone> steps;
  for (const Node& item : *items) {
    const auto step = read_redone_word(item, fmt::format("an entry of '{}'", key), map.notes());
    if (!step) continue;
    if (std::find(steps.begin(), steps.end(), *step) != steps.end()) {
      map.notes().error("C05", item.span, fmt::format("'{}' stands here a second time", item.text),
                        {"keep one of the two"});
      continue;
    }
    steps.push_back(*step);
  }
  return steps;
}

MeasurementPlan read_measure(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, measure_keys, entry.key_span, notes);
  MeasurementPlan plan;
  plan.origin = entry.key_span;
  const auto compare =
      map.choice<Comparison>("compare", {{"same-panel", Comparison::same_panel},
                                         {"control-panel", Comparison::control_panel},
                                         {"sibling-panel", Comparison::sibling_panel}});
  plan.compare = compare.value_or(Comparison::same_panel);
  plan.before = map.count("before", 1, most_setups);
  plan.after = map.count("after", 1, most_setups);
  plan.readings = map.count("readings", 1, most_setups);
  plan.meters = map.count("meters", 1, 2);
  plan.maximum_power =
      map.choice<MaximumPower>("maximum_power", {{"sweep", MaximumPower::sweep},
                                                 {"tracker settled", MaximumPower::tracker_settled},
                                                 {"fixed load", MaximumPower::fixed_load}});
  plan.load = map.text("load");
  plan.redone = read_redone(map, "redone");
  if (const Entry* scatter = map.find("setup_scatter")) read_components(*scatter, plan, notes);
  plan.expected_scatter = map.quantity<Ratio>("expected_scatter", expected_range);
  plan.day = map.quantity<Ratio>("day", scatter_range);
  plan.stage = map.quantity<Ratio>("stage", scatter_range);
  plan.control_stability = map.quantity<Ratio>("control_stability", scatter_range);
  plan.siblings = map.count("siblings", 1, most_siblings);
  plan.unit_tolerance = map.quantity<Ratio>("unit_tolerance", unit_tolerance_range);
  plan.fitted_trend =
      map.choice<bool>("trend", {{"fitted", true}, {"none", false}}).value_or(false);
  plan.readings_independent = map.text("readings_independent");
  if (const Entry* cell = map.find("cell_above_back")) {
    plan.cell_above_back = stated_value_as<TemperatureDifference>(
        read_value(cell->value, cell->key, cell->key_span, Measure::temperature_difference,
                   cell_range, notes));
  }
  require_keys(map, plan);
  if (compare) check_idle_keys(map, plan);
  return plan;
}

}  // namespace hailwright::input
