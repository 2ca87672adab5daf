#include "evaluate/shared_inputs.hpp"

#include <algorithm>
#include <utility>

namespace hailwright {

namespace {

using Of = PowerQuestion::Of;

class SharedLinker {
public:
  SharedLinker(InputLinks& links, const InputPlan& plan, const UnitSetup& unit, PanelOf panel)
      : links_(links), plan_(plan), unit_(unit), panel_(panel) {}

  std::optional<std::string> link() {
    if (of() == Of::siblings) link_siblings();
    // Panels that were set up together share one draw, of their difference: it goes with the first.
    // Siblings set up without the struck panel have one each.
    if (panel_ != unit_.panels.front() && !alone()) return std::nullopt;
    auto missing = setup_components();
    day();
    stage();
    return missing;
  }

private:
  [[nodiscard]] Of of() const { return plan_.question.of; }
  [[nodiscard]] const MeasurementPlan& measure() const { return plan_.test.protocol.measure; }
  /// A sibling in a set-up of its own.
  [[nodiscard]] bool alone() const { return unit_.panels.front().role == Role::sibling; }

  void factor(std::string id, std::string label, Scope scope, double u,
              Shape shape = Shape::normal) {
    links_.add(ErrorSlot::factor, type_b(std::move(id), std::move(label), scope, u, shape));
  }

  /// Stated components of the set-up scatter where it was not observed, and of steps that the
  /// set-ups did not redo: those are drawn once in the stage.
  std::optional<std::string> setup_components() {
    if (plan_.siblings && plan_.siblings->spread_observed) return std::nullopt;
    const std::string own = alone() ? "/" + panel_name(plan_.test.record, panel_) : "";
    for (const SetupComponent& c : measure().setup_scatter) {
      const std::optional<Redone> part = part_of(c);
      const bool redone = !part || plan_.was_redone(*part);
      if (redone && plan_.source == ScatterSource::observed) continue;
      std::string id = "setup/" + c.name;
      id += redone ? "/" + unit_.name : plan_.stage_suffix(unit_);
      id += own;
      links_.add(ErrorSlot::factor,
                 type_b(std::move(id), c.name, redone ? Scope::setup : Scope::stage,
                        c.standard_u.si(), c.shape, c.degrees_of_freedom));
    }
    return plan_.source == ScatterSource::observed ? unsized_part() : std::nullopt;
  }

  /// The first step that was not redone and that no component sizes. The probe has a stated default
  /// of its own; the other steps have none (M1).
  [[nodiscard]] std::optional<std::string> unsized_part() const {
    const auto& stated = measure().setup_scatter;
    for (const Redone part : all_redone) {
      if (part == Redone::probe || plan_.was_redone(part)) continue;
      const bool sized = std::any_of(stated.begin(), stated.end(), [part](const SetupComponent& c) {
        return part_of(c) == part;
      });
      if (!sized) return std::string(word(part));
    }
    return std::nullopt;
  }

  void day() {
    if (plan_.unit_is_day || of() == Of::siblings) return;
    // The protocol's figure is for its own comparison; the control looked at alone takes the wide
    // one of a panel compared with itself.
    const bool alone = of() == Of::control;
    double u = 0.0;
    if (measure().day && !alone) {
      u = measure().day->si();
    } else if (of() == Of::both) {
      u = defaults::day_control_panel_u.si();
      plan_.assumptions.use(DefaultId::day_control_panel);
    } else {
      u = defaults::day_same_panel_u.si();
      if (!alone) plan_.assumptions.use(DefaultId::day_same_panel);
    }
    // Morning and afternoon of one date do not share a sky: each stage draws its own.
    factor("day" + plan_.stage_suffix(unit_) + "/" + unit_.date,
           "sky of a day, shared by its set-ups", Scope::day, u);
  }

  void stage() {
    const bool drifts = of() == Of::struck || of() == Of::both;
    const bool later = plan_.test.record.setups[unit_.setup].stage == plan_.question.to;
    if (!drifts || !later) return;
    const bool control = of() == Of::both;
    const auto& stated = control ? measure().control_stability : measure().stage;
    double u = 0.0;
    if (stated) {
      u = stated->si();
    } else {
      plan_.assumptions.use(control ? DefaultId::control_stability : DefaultId::stage_same_panel);
      u = control ? defaults::control_stability_u.si() : defaults::stage_same_panel_u.si();
    }
    factor("stage", control ? "control against panel, drift" : "drift of the panel", Scope::stage,
           u);
  }

  void link_siblings() {
    const SiblingInputs& siblings = *plan_.siblings;
    if (siblings.tolerance) {
      factor("unit/" + panel_name(plan_.test.record, panel_), "unit, within the maker's tolerance",
             Scope::record, siblings.tolerance->si() / half_width_divisor(Shape::rectangular),
             Shape::rectangular);
    }
    if (!siblings.days_in_spread) skies(siblings);
  }

  /// The sky of a date is one for all panels. What it makes of each panel by itself is not: that
  /// goes with the struck one.
  void skies(const SiblingInputs& siblings) {
    if (std::find(siblings.skies.begin(), siblings.skies.end(), unit_.date) !=
        siblings.skies.end()) {
      // The protocol's figure is for panels read together.
      plan_.assumptions.use(DefaultId::day_same_panel);
      factor("sky/" + unit_.date, "sky of a day, not of all units", Scope::day,
             defaults::day_same_panel_u.si());
    }
    if (panel_.role != Role::struck) return;
    if (!measure().day) plan_.assumptions.use(DefaultId::day_control_panel);
    factor("day/pair/" + unit_.date, "sky of a day, struck against unstruck", Scope::day,
           measure().day.value_or(defaults::day_control_panel_u).si());
  }

  InputLinks& links_;
  const InputPlan& plan_;
  const UnitSetup& unit_;
  PanelOf panel_;
};

}  // namespace

std::optional<std::string> link_shared(InputLinks& links, const InputPlan& plan,
                                       const UnitSetup& unit, PanelOf panel) {
  return SharedLinker(links, plan, unit, panel).link();
}

}  // namespace hailwright
