#include "evaluate/power_inputs.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "evaluate/instrument_inputs.hpp"
#include "evaluate/shared_inputs.hpp"
#include "hailwright/core/contract.hpp"

namespace hailwright {

double typed_step(const std::vector<double>& values) {
  for (const double step : {1.0, 0.1, 0.01}) {
    const bool fits = std::all_of(values.begin(), values.end(), [step](double v) {
      const double n = v / step;
      return std::abs(n - std::round(n)) < 1e-6 * std::max(1.0, std::abs(n));
    });
    if (fits) return step;
  }
  return 0.001;
}

Power typed_power_step(const Record& record) {
  std::vector<double> watts;
  for (const Reading& r : record.readings) {
    if (r.measured) watts.push_back(r.power.si());
  }
  return Power::from_si(typed_step(watts));
}

Irradiance typed_sun_step(const Record& record) {
  std::vector<double> w_per_m2;
  for (const Reading& r : record.readings) {
    if (r.measured) w_per_m2.push_back(r.irradiance.si());
  }
  return Irradiance::from_si(typed_step(w_per_m2));
}

std::string_view word(Redone part) {
  switch (part) {
  case Redone::mount:
    return "mount";
  case Redone::aim:
    return "aim";
  case Redone::probe:
    return "probe";
  case Redone::leads:
    return "leads";
  }
  fail_contract("unknown step of a set-up");
}

std::optional<Redone> part_of(const SetupComponent& component) {
  if (component.of) return component.of;
  for (const Redone part : all_redone) {
    if (component.name == word(part)) return part;
  }
  return std::nullopt;
}

std::optional<std::string> unstated_part(const std::vector<SetupComponent>& stated) {
  const auto has = [&](std::optional<Redone> part) {
    return std::any_of(stated.begin(), stated.end(),
                       [part](const SetupComponent& c) { return part_of(c) == part; });
  };
  if (has(std::nullopt)) return std::nullopt;
  for (const Redone part : all_redone) {
    if (part != Redone::probe && !has(part)) return std::string(word(part));
  }
  return std::nullopt;
}

bool InputPlan::was_redone(Redone part) const {
  return !redone || std::find(redone->begin(), redone->end(), part) != redone->end();
}

std::string InputPlan::stage_suffix(const UnitSetup& unit) const {
  return test.record.setups[unit.setup].stage == question.to ? "/after" : "/before";
}

BudgetInput type_b(std::string id, std::string label, Scope scope, double u, Shape shape,
                   double dof) {
  return {std::move(id), std::move(label), scope, Evaluation::type_b, u, dof, shape};
}

void InputLinks::add(ErrorSlot slot, const BudgetInput& input) {
  if (input.standard_u <= 0.0) return;
  const auto known = std::find_if(model_.inputs.begin(), model_.inputs.end(),
                                  [&](const BudgetInput& i) { return i.id == input.id; });
  links_.push_back({slot, static_cast<std::size_t>(known - model_.inputs.begin())});
  if (known == model_.inputs.end()) model_.inputs.push_back(input);
}

void InputLinks::add(const std::vector<PowerModel::Link>& links) {
  links_.insert(links_.end(), links.begin(), links.end());
}

std::vector<PowerModel::Link> InputLinks::take() {
  return std::exchange(links_, {});
}

std::optional<std::string> add_terms(PowerModel& model, const InputPlan& plan,
                                     const std::vector<UnitSetup>& block,
                                     const std::vector<double>& weights, double sign) {
  InputLinks links(model);
  // Instruments touch all set-ups of a stage alike, unless each put the probe on anew and nothing
  // shows how that scatters.
  const bool each_anew = plan.source == ScatterSource::stated && plan.was_redone(Redone::probe);
  std::map<PanelOf, std::vector<PowerModel::Link>> instruments;
  for (std::size_t i = 0; i < block.size(); ++i) {
    // All readings of one panel in one set-up share all their errors.
    std::vector<std::vector<PowerModel::Link>> by_panel;
    for (const Reading* first : block[i].rounds.front()) {
      auto known = instruments.find(panel_of(*first));
      if (known == instruments.end() || each_anew) {
        link_instruments(links, plan, block[i], *first);
        known = instruments.insert_or_assign(panel_of(*first), links.take()).first;
      }
      links.add(known->second);
      if (auto missing = link_shared(links, plan, block[i], panel_of(*first))) return missing;
      by_panel.push_back(links.take());
    }
    for (const WeighedReading& r : block[i].readings) {
      const auto index = static_cast<std::size_t>(r.reading - plan.test.record.readings.data());
      model.terms.push_back({normalised_reading(plan.test, *r.reading),
                             sign * weights[i] * r.weight, by_panel[r.panel], index});
    }
  }
  return std::nullopt;
}

}  // namespace hailwright
