#include "evaluate/sibling_units.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

/// A set-up before it is known how much it weighs.
struct Rounds {
  std::size_t setup = 0;
  std::vector<PanelOf> panels;
  std::vector<Round> rounds;
};

void add_setup(const Test& test, const PowerQuestion& question, std::size_t setup,
               std::vector<Rounds>& all) {
  std::vector<PanelOf> panels = panels_read(test, question, setup);
  std::erase_if(panels, [](PanelOf p) { return p.role == Role::control; });
  if (panels.empty()) return;
  std::vector<Round> rounds = complete_rounds(test, question, setup, panels);
  if (!rounds.empty()) {
    all.push_back({setup, std::move(panels), std::move(rounds)});
    return;
  }
  for (const PanelOf panel : panels)
    all.push_back({setup, {panel}, complete_rounds(test, question, setup, {panel})});
}

/// How much one set-up of each panel weighs in lambda.
std::map<PanelOf, double> setup_weights(const std::vector<Rounds>& all) {
  std::map<PanelOf, double> setups;
  for (const Rounds& r : all) {
    for (const PanelOf panel : r.panels)
      setups[panel] += 1.0;
  }
  const auto siblings = std::count_if(setups.begin(), setups.end(), [](const auto& entry) {
    return entry.first.role == Role::sibling;
  });
  std::map<PanelOf, double> weights;
  for (const auto& [panel, count] : setups) {
    weights[panel] =
        panel.role == Role::struck ? 1.0 / count : -1.0 / (static_cast<double>(siblings) * count);
  }
  return weights;
}

/// What one panel alone gives in a set-up.
SetupValue panel_value(const Test& test, const UnitSetup& unit, std::size_t place) {
  std::vector<double> q;
  for (const Round& round : unit.rounds)
    q.push_back(log_power(test, *round[place]));
  return {unit.setup, unit.means[place], static_cast<int>(q.size()), sample_sd(q),
          unit.drift_per_hour};
}

std::vector<const PanelSetups*> all_panels(const SiblingBlocks& blocks) {
  std::vector<const PanelSetups*> all;
  for (const auto* side : {&blocks.struck, &blocks.unstruck}) {
    for (const PanelSetups& panel : *side)
      all.push_back(&panel);
  }
  return all;
}

BudgetRow scatter_row(std::string id, double u, double dof) {
  return {
      {std::move(id), "scatter of the set-ups, observed", Scope::setup, Evaluation::type_a, u, dof},
      1.0};
}

}  // namespace

std::vector<double> PanelSetups::values() const {
  std::vector<double> q;
  for (const SetupValue& s : setups)
    q.push_back(s.q);
  return q;
}

double PanelSetups::mean() const {
  return hailwright::mean(values());
}

SiblingBlocks collect_sibling_blocks(const Test& test, const PowerQuestion& question) {
  std::vector<Rounds> all;
  for (std::size_t i = 0; i < test.record.setups.size(); ++i) {
    if (test.record.setups[i].stage == question.to) add_setup(test, question, i, all);
  }
  const std::map<PanelOf, double> weights = setup_weights(all);
  SiblingBlocks blocks;
  std::map<PanelOf, PanelSetups> panels;
  for (Rounds& r : all) {
    std::vector<double> contrast;
    for (const PanelOf panel : r.panels)
      contrast.push_back(weights.at(panel));
    UnitSetup unit = make_unit(test, r.setup, r.panels, std::move(contrast), std::move(r.rounds));
    for (std::size_t p = 0; p < r.panels.size(); ++p) {
      PanelSetups& panel = panels[r.panels[p]];
      panel.panel = r.panels[p];
      panel.setups.push_back(panel_value(test, unit, p));
      panel.dates.insert(unit.date);
    }
    blocks.setups.push_back(std::move(unit));
  }
  for (auto& [panel, setups] : panels)
    (panel.role == Role::struck ? blocks.struck : blocks.unstruck).push_back(std::move(setups));
  return blocks;
}

SiblingSpread spread_of(const SiblingBlocks& blocks) {
  SiblingSpread spread;
  std::vector<double> means;
  for (const PanelSetups& unit : blocks.unstruck) {
    means.push_back(unit.mean());
    spread.units.push_back({unit.panel.unit, means.back(), static_cast<int>(unit.setups.size())});
  }
  spread.sd = sample_sd(means);
  return spread;
}

bool days_differ(const SiblingBlocks& blocks) {
  std::set<std::string> seen;
  std::size_t dates = 0;
  for (const PanelSetups* panel : all_panels(blocks)) {
    seen.insert(panel->dates.begin(), panel->dates.end());
    dates += panel->dates.size();
  }
  return seen.size() == dates;
}

std::vector<std::string> uneven_dates(const SiblingBlocks& blocks) {
  std::map<std::string, double> weight;
  for (const UnitSetup& unit : blocks.setups) {
    for (const double c : unit.contrast)
      weight[unit.date] += c;
  }
  constexpr double rounding = 1e-12;
  std::vector<std::string> uneven;
  for (const auto& [date, w] : weight) {
    if (std::abs(w) > rounding) uneven.push_back(date);
  }
  return uneven;
}

std::vector<BudgetRow> repeated_setups(const SiblingBlocks& blocks) {
  std::map<std::vector<PanelOf>, std::vector<double>> by_panels;
  for (const UnitSetup& unit : blocks.setups)
    by_panels[unit.panels].push_back(unit.value);
  std::vector<BudgetRow> rows;
  for (const auto& [panels, values] : by_panels) {
    const auto sd = sample_sd(values);
    if (!sd) return {};
    const auto n = static_cast<double>(values.size());
    const std::string number = rows.empty() ? "" : "/" + std::to_string(rows.size() + 1);
    rows.push_back(scatter_row("scatter" + number, *sd * std::sqrt(n), n - 1.0));
  }
  return rows;
}

std::optional<BudgetRow> fewer_struck_setups(const SiblingBlocks& blocks) {
  const auto setups_of = [](const PanelSetups& p) { return static_cast<double>(p.setups.size()); };
  double held = 0.0;
  for (const PanelSetups& unit : blocks.unstruck)
    held += 1.0 / setups_of(unit) / static_cast<double>(blocks.unstruck.size());
  const double rest = 1.0 / setups_of(blocks.struck.front()) - held;
  constexpr double rounding = 1e-12;
  if (rest <= rounding) return std::nullopt;
  PooledScatter pooled;
  for (const PanelSetups* panel : all_panels(blocks))
    pooled.add(panel->values());
  return scatter_row("scatter", pooled.sd() * std::sqrt(rest), pooled.dof);
}

}  // namespace hailwright
