#include "evaluate/measuring_gates.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <set>
#include <utility>

#include "evaluate/panel_thermal.hpp"
#include "evaluate/power_inputs.hpp"
#include "evaluate/same_tools.hpp"
#include "evaluate/setup_rounds.hpp"
#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

// Bounds of MEASUREMENT M9, all ours.
constexpr double lowest_irradiance = 600.0;      // W/m2
constexpr double stage_irradiance_share = 0.10;  // between the means compared
constexpr double block_irradiance_share = 0.02;  // inside a set-up
constexpr double block_temperature_k = 1.0;      // inside a set-up
constexpr double cell_difference_k = 10.0;       // between the means compared
constexpr double incidence_deg = 40.0;
constexpr double incidence_change_deg = 10.0;
constexpr double in_sun_min = 15.0;
constexpr double since_shot_min = 30.0;
constexpr double battery_full = 0.90;
constexpr double slope_needed = 0.5;
constexpr double slope_range = 0.10;
/// Half a step of a display, as a share of what it shows and of the limit, where the readings do
/// not spread over it.
constexpr double coarsest_share_of_limit = 0.1;
/// Spread over this part of a step takes rounding out of a mean to 1 part in 400 of the step: the
/// error is below exp(-2 pi^2 sigma^2) / pi steps (theory of quantisation by Widrow, from memory).
constexpr double enough_spread = 0.5;

std::vector<PanelOf> all_panels(const Record& record) {
  std::vector<PanelOf> panels{{Role::struck, 0}, {Role::control, 0}};
  for (std::size_t i = 0; i < record.siblings.size(); ++i)
    panels.push_back({Role::sibling, i});
  return panels;
}

/// Half of the range of values.
double half_range(const std::vector<double>& values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return 0.5 * (*high - *low);
}

class Checker {
public:
  Checker(const Test& test, StageId stage, StageId from)
      : test_(test), stage_(stage), from_(from),
        siblings_(test.protocol.measure.compare == Comparison::sibling_panel),
        panels_(all_panels(test.record)) {}

  std::vector<PowerNote> run() {
    load();
    answers();
    for (const StageId s : compared_stages()) {
      follows_sun(s);
      irradiance(s);
      steady(s);
    }
    alike();
    if (!siblings_) instruments();
    power_display();
    if (!sun_cancels()) sun_display();
    return std::move(notes_);
  }

private:
  void note(PowerRemark remark, std::vector<double> numbers = {}, std::string subject = {},
            SourceSpan where = {}) {
    notes_.push_back({remark, std::move(numbers), std::move(subject), where});
  }

  /// Siblings are compared inside one stage.
  [[nodiscard]] std::vector<StageId> compared_stages() const {
    return siblings_ ? std::vector{stage_} : std::vector{from_, stage_};
  }
  [[nodiscard]] bool concerned(const Setup& s) const {
    if (s.stage == stage_) return true;
    return !siblings_ && (s.stage == from_ || s.stage.kind == StageKind::baseline);
  }

  [[nodiscard]] std::string name_of(PanelOf panel) const {
    if (panel.role == Role::struck) return "panel";
    const std::string name = panel_name(test_.record, panel);
    return panel.role == Role::sibling ? "unit " + name : name;
  }

  template <class Use>
  void each_reading(StageId stage, Use use) const {
    for (const Reading& r : test_.record.readings) {
      const Setup& setup = test_.record.setups[r.setup];
      if (setup.stage == stage && r.measured && r.skip.empty()) use(r, setup);
    }
  }

  void load() {
    const MeasurementPlan& m = test_.protocol.measure;
    if (m.maximum_power == MaximumPower::fixed_load) {
      note(PowerRemark::fixed_load, {}, {}, m.origin);
    }
    if (m.maximum_power != MaximumPower::tracker_settled) return;
    std::string unstated;
    for (const Setup& s : test_.record.setups) {
      if (!concerned(s)) continue;
      if (!s.battery) unstated += (unstated.empty() ? "" : ", ") + s.name;
      if (s.battery && s.battery->si() > battery_full) {
        note(PowerRemark::battery_full, {s.battery->si()}, s.name, s.origin);
      }
    }
    if (!unstated.empty()) note(PowerRemark::battery_not_stated, {}, unstated);
  }

  void answers() {
    const Conditions& c = test_.record.conditions;
    const auto yes_no = [&](const std::optional<bool>& answer, PowerRemark no, const char* key) {
      if (!answer) note(PowerRemark::not_stated, {}, key, c.origin);
      if (answer && !*answer) note(no, {}, {}, c.origin);
    };
    yes_no(c.clean_and_dry, PowerRemark::not_clean, "clean_and_dry");
    yes_no(c.same_leads, PowerRemark::other_leads, "same_leads");
    yes_no(c.pre_exposed, PowerRemark::not_pre_exposed, "pre_exposed");
    const auto bound = [&](std::optional<double> value, double limit, bool at_least,
                           PowerRemark outside, const char* key) {
      if (!value) note(PowerRemark::not_stated, {}, key, c.origin);
      if (value && (at_least ? *value < limit : *value > limit)) {
        note(outside, {*value, limit}, {}, c.origin);
      }
    };
    const auto minutes = [](const std::optional<Time>& t) {
      return t ? std::optional(t->si() / 60.0) : std::nullopt;
    };
    const auto degrees = [](const std::optional<Angle>& a) {
      return a ? std::optional(a->si() * 180.0 / std::numbers::pi) : std::nullopt;
    };
    bound(minutes(c.in_sun_first), in_sun_min, true, PowerRemark::short_time_in_sun,
          "in_sun_first");
    bound(degrees(c.incidence), incidence_deg, false, PowerRemark::incidence_large, "incidence");
    if (!siblings_) {
      bound(degrees(c.incidence_change), incidence_change_deg, false,
            PowerRemark::incidence_changed, "incidence_change");
    }
    if (test_.protocol.series.empty()) return;
    bound(minutes(c.since_last_shot), since_shot_min, true, PowerRemark::soon_after_shots,
          "since_last_shot");
  }

  /// Power that does not rise with the sun was taken by something else than the panel's maximum.
  void follows_sun(StageId stage) {
    for (const PanelOf panel : panels_) {
      std::vector<double> ln_g;
      std::vector<double> ln_p;
      each_reading(stage, [&](const Reading& r, const Setup&) {
        if (panel_of(r) != panel) return;
        ln_g.push_back(std::log(r.irradiance.si()));
        ln_p.push_back(std::log(r.power.si()));
      });
      if (ln_g.size() < 3) continue;
      if (std::exp(2.0 * half_range(ln_g)) - 1.0 < slope_range) continue;
      const double rise = *slope(ln_g, ln_p);
      if (rise < slope_needed) note(PowerRemark::not_following_sun, {rise}, name_of(panel));
    }
  }

  void irradiance(StageId stage) {
    std::optional<double> lowest;
    SourceSpan where;
    each_reading(stage, [&](const Reading& r, const Setup&) {
      if (!lowest || r.irradiance.si() < *lowest) {
        lowest = r.irradiance.si();
        where = r.origin;
      }
    });
    if (lowest && *lowest < lowest_irradiance) {
      note(PowerRemark::low_irradiance, {*lowest, lowest_irradiance}, {}, where);
    }
  }

  /// Each set-up is a block; of siblings, each panel in it.
  void steady(StageId stage) {
    for (std::size_t i = 0; i < test_.record.setups.size(); ++i) {
      const Setup& setup = test_.record.setups[i];
      if (!(setup.stage == stage)) continue;
      for (const PanelOf panel : panels_) {
        if (panel.role == Role::struck) steady_block(i, panel, setup.name);
        if (panel.role == Role::sibling && siblings_) {
          steady_block(i, panel, setup.name + ", " + name_of(panel));
        }
      }
    }
  }

  void steady_block(std::size_t setup, PanelOf panel, const std::string& subject) {
    const SourceSpan where = test_.record.setups[setup].origin;
    std::vector<double> g;
    std::vector<double> t;
    each_reading(test_.record.setups[setup].stage, [&](const Reading& r, const Setup&) {
      if (r.setup != setup || panel_of(r) != panel) return;
      g.push_back(r.irradiance.si());
      t.push_back(r.temperature.celsius());
    });
    if (g.size() < 2) return;
    // "within 2 %" and "within 1 K" are half-widths around the middle of the block.
    const auto [g_low, g_high] = std::minmax_element(g.begin(), g.end());
    const double share = (*g_high - *g_low) / (*g_high + *g_low);
    if (share > block_irradiance_share) {
      note(PowerRemark::unsteady_irradiance, {share, block_irradiance_share}, subject, where);
    }
    const double half_k = half_range(t);
    if (half_k > block_temperature_k) {
      note(PowerRemark::unsteady_temperature, {half_k, block_temperature_k}, subject, where);
    }
  }

  /// Mean of a value over the readings of one role in a stage.
  template <class Value>
  [[nodiscard]] std::optional<double> mean_of(StageId stage, Role role, Value value) const {
    std::vector<double> values;
    each_reading(stage, [&](const Reading& r, const Setup&) {
      if (r.role == role) values.push_back(value(r));
    });
    return values.empty() ? std::nullopt : std::optional(mean(values));
  }

  /// What is compared should have had the same sun and temperature: two stages, or two panels.
  void alike() {
    const auto compared = [this](auto value) {
      return siblings_ ? std::pair(mean_of(stage_, Role::struck, value),
                                   mean_of(stage_, Role::sibling, value))
                       : std::pair(mean_of(from_, Role::struck, value),
                                   mean_of(stage_, Role::struck, value));
    };
    const double above_back = panel_thermal(test_, Role::struck).cell_above_back.si();
    const auto [g0, g1] = compared([](const Reading& r) { return r.irradiance.si(); });
    if (g0 && g1 && std::abs(*g1 - *g0) > stage_irradiance_share * *g0) {
      note(PowerRemark::irradiance_differs, {*g0, *g1}, compared_what());
    }
    const auto [t0, t1] = compared([above_back](const Reading& r) {
      return r.temperature.celsius() + above_back * r.irradiance.si() / 1000.0;
    });
    if (t0 && t1 && std::abs(*t1 - *t0) > cell_difference_k) {
      note(PowerRemark::temperature_differs, {std::abs(*t1 - *t0), cell_difference_k},
           compared_what());
    }
  }
  [[nodiscard]] std::string compared_what() const { return siblings_ ? "siblings" : ""; }

  /// What is known of the instruments between the stages, and what nobody said.
  void instruments() {
    constexpr auto all = std::to_array<std::pair<Instrument, const char*>>(
        {{Instrument::meter, "meter"},
         {Instrument::sun, "sun"},
         {Instrument::thermometer, "thermometer"}});
    const Record& record = test_.record;
    std::string not_said;
    for (const auto& [which, name] : all) {
      if (same_tool_said(test_, which)) continue;
      if (described_after(record, which)) {
        note(PowerRemark::other_instrument, {}, name, origin_after(*record.tools_after, which));
      } else if (record.conditions.same_tools) {
        note(PowerRemark::other_instrument, {}, name, record.conditions.origin);
      } else {
        not_said += (not_said.empty() ? "" : ", ") + std::string(name);
      }
    }
    if (!not_said.empty())
      note(PowerRemark::tools_not_said, {}, not_said, record.conditions.origin);
  }

  /// Readings that all show one figure hide a loss of less than a step, in the struck panel as in
  /// what it is held against. Said once.
  void power_display() {
    for (const StageId stage : compared_stages()) {
      const double step = tools_of(stage).meter.step.value_or(typed_power_step(test_.record)).si();
      for (const PanelOf panel : panels_) {
        if (!is_compared(panel)) continue;
        std::vector<double> watts;
        each_reading(stage, [&](const Reading& r, const Setup&) {
          if (panel_of(r) == panel) watts.push_back(r.power.si());
        });
        const auto shown = shown_too_coarse(step, watts);
        if (!shown) continue;
        const bool struck = panel.role == Role::struck;
        return note(PowerRemark::display_too_coarse, {step, *shown},
                    struck ? std::string() : name_of(panel));
      }
    }
  }

  /// The same of the irradiance, by which every power is divided. Said once.
  void sun_display() {
    for (const StageId stage : compared_stages()) {
      const double step = tools_of(stage).sun.step.value_or(typed_sun_step(test_.record)).si();
      std::vector<double> suns;
      each_reading(stage,
                   [&](const Reading& r, const Setup&) { suns.push_back(r.irradiance.si()); });
      const auto shown = shown_too_coarse(step, suns);
      if (shown) return note(PowerRemark::sun_display_too_coarse, {step, *shown});
    }
  }

  /// Mean of what a display showed in a stage, where its steps are coarse beside the limit and the
  /// readings do not spread over them.
  [[nodiscard]] std::optional<double> shown_too_coarse(double step,
                                                       const std::vector<double>& shown) const {
    if (shown.empty() || sample_sd(shown).value_or(0.0) >= enough_spread * step)
      return std::nullopt;
    const double middle = mean(shown);
    const double limit = test_.protocol.decide.limit.si();
    if (0.5 * step <= coarsest_share_of_limit * limit * middle) return std::nullopt;
    return middle;
  }

  [[nodiscard]] bool is_compared(PanelOf panel) const {
    if (panel.role == Role::struck) return true;
    if (panel.role == Role::sibling) return siblings_;
    return test_.protocol.measure.compare == Comparison::control_panel;
  }

  [[nodiscard]] Tools tools_of(StageId stage) const {
    return tools_when(test_, stage.kind != StageKind::before && stage.kind != StageKind::baseline);
  }

  /// Of two panels in one round the sun drops out: what a display hides of it between two readings
  /// of a round scatters the differences. So it does where each set-up of the stage has the struck
  /// panel and an unstruck unit.
  [[nodiscard]] bool sun_cancels() const {
    if (!siblings_) return test_.protocol.measure.compare == Comparison::control_panel;
    std::set<std::size_t> with_struck;
    std::set<std::size_t> with_unstruck;
    each_reading(stage_, [&](const Reading& r, const Setup&) {
      if (r.role == Role::struck) with_struck.insert(r.setup);
      if (r.role == Role::sibling) with_unstruck.insert(r.setup);
    });
    return with_struck == with_unstruck;
  }

  static SourceSpan origin_after(const Tools& after, Instrument which) {
    switch (which) {
    case Instrument::meter:
      return after.meter.origin;
    case Instrument::sun:
      return after.sun.origin;
    case Instrument::thermometer:
      return after.thermometer.origin;
    }
    return {};
  }

  const Test& test_;
  StageId stage_, from_;
  bool siblings_;  ///< struck against unstruck units
  std::vector<PanelOf> panels_;
  std::vector<PowerNote> notes_;
};

}  // namespace

std::vector<PowerNote> check_measuring(const Test& test, StageId stage, StageId from) {
  return Checker(test, stage, from).run();
}

}  // namespace hailwright
