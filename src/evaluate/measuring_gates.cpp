#include "evaluate/measuring_gates.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "evaluate/panel_thermal.hpp"
#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

// Bounds of MEASUREMENT M9, all ours.
constexpr double lowest_irradiance = 600.0;      // W/m2
constexpr double stage_irradiance_share = 0.10;  // between the stage means
constexpr double block_irradiance_share = 0.02;  // inside a set-up
constexpr double block_temperature_k = 1.0;      // inside a set-up
constexpr double cell_difference_k = 10.0;       // between the stages
constexpr double incidence_deg = 40.0;
constexpr double incidence_change_deg = 10.0;
constexpr double in_sun_min = 15.0;
constexpr double since_shot_min = 30.0;
constexpr double battery_full = 0.90;
constexpr double slope_needed = 0.5;
constexpr double slope_range = 0.10;

class Checker {
public:
  Checker(const Test& test, StageId stage) : test_(test), stage_(stage) {}

  std::vector<PowerNote> run() {
    load();
    answers();
    const StageId before{StageKind::before, 0};
    for (const StageId s : {before, stage_}) {
      follows_sun(s);
      irradiance(s);
      steady(s);
    }
    stages_alike(before);
    instruments();
    return std::move(notes_);
  }

private:
  void note(PowerRemark remark, std::vector<double> numbers = {}, std::string subject = {},
            SourceSpan where = {}) {
    notes_.push_back({remark, std::move(numbers), std::move(subject), where});
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
      const bool concerned = s.stage == stage_ || s.stage.kind == StageKind::before ||
                             s.stage.kind == StageKind::baseline;
      if (!concerned) continue;
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
    bound(degrees(c.incidence_change), incidence_change_deg, false, PowerRemark::incidence_changed,
          "incidence_change");
    bound(minutes(c.since_last_shot), since_shot_min, true, PowerRemark::soon_after_shots,
          "since_last_shot");
  }

  /// Power that does not rise with the sun was taken by something else than the panel's maximum.
  void follows_sun(StageId stage) {
    for (const Role role : {Role::struck, Role::control}) {
      std::vector<double> ln_g;
      std::vector<double> ln_p;
      each_reading(stage, [&](const Reading& r, const Setup&) {
        if (r.role != role) return;
        ln_g.push_back(std::log(r.irradiance.si()));
        ln_p.push_back(std::log(r.power.si()));
      });
      if (ln_g.size() < 3) continue;
      const auto [low, high] = std::minmax_element(ln_g.begin(), ln_g.end());
      if (std::exp(*high - *low) - 1.0 < slope_range) continue;
      const auto rise = slope(ln_g, ln_p);
      if (rise && *rise < slope_needed) {
        note(PowerRemark::not_following_sun, {*rise}, role == Role::struck ? "panel" : "control");
      }
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

  void steady(StageId stage) {
    for (std::size_t i = 0; i < test_.record.setups.size(); ++i) {
      const Setup& setup = test_.record.setups[i];
      if (!(setup.stage == stage)) continue;
      std::vector<double> g;
      std::vector<double> t;
      each_reading(stage, [&](const Reading& r, const Setup&) {
        if (r.setup != i || r.role != Role::struck) return;
        g.push_back(r.irradiance.si());
        t.push_back(r.temperature.celsius());
      });
      if (g.size() < 2) continue;
      const auto [g_low, g_high] = std::minmax_element(g.begin(), g.end());
      const auto [t_low, t_high] = std::minmax_element(t.begin(), t.end());
      const double share = (*g_high - *g_low) / (*g_high + *g_low);
      // "within 2 %" and "within 1 K" are half-widths around the middle of the block.
      if (share > block_irradiance_share) {
        note(PowerRemark::unsteady_irradiance, {share, block_irradiance_share}, setup.name,
             setup.origin);
      }
      const double half_k = 0.5 * (*t_high - *t_low);
      if (half_k > block_temperature_k) {
        note(PowerRemark::unsteady_temperature, {half_k, block_temperature_k}, setup.name,
             setup.origin);
      }
    }
  }

  void stages_alike(StageId before) {
    const auto stage_mean = [&](StageId stage, auto value) -> std::optional<double> {
      std::vector<double> values;
      each_reading(stage, [&](const Reading& r, const Setup&) {
        if (r.role == Role::struck) values.push_back(value(r));
      });
      return values.empty() ? std::nullopt : std::optional(mean(values));
    };
    const auto sun = [](const Reading& r) { return r.irradiance.si(); };
    const double above_back = panel_thermal(test_, Role::struck).cell_above_back.si();
    const auto cell = [&](const Reading& r) {
      return r.temperature.celsius() + above_back * r.irradiance.si() / 1000.0;
    };
    const auto g0 = stage_mean(before, sun);
    const auto g1 = stage_mean(stage_, sun);
    if (g0 && g1 && std::abs(*g1 - *g0) > stage_irradiance_share * *g0) {
      note(PowerRemark::irradiance_differs, {*g0, *g1});
    }
    const auto t0 = stage_mean(before, cell);
    const auto t1 = stage_mean(stage_, cell);
    if (t0 && t1 && std::abs(*t1 - *t0) > cell_difference_k) {
      note(PowerRemark::temperature_differs, {std::abs(*t1 - *t0), cell_difference_k});
    }
  }

  void instruments() {
    const auto& other = test_.record.tools_after;
    if (!other) return;
    const auto changed = [&](const SourceSpan& origin, const char* tool) {
      if (origin.line != 0) note(PowerRemark::other_instrument, {}, tool, origin);
    };
    changed(other->meter.origin, "meter");
    changed(other->sun.origin, "sun");
    changed(other->thermometer.origin, "thermometer");
  }

  const Test& test_;
  StageId stage_;
  std::vector<PowerNote> notes_;
};

}  // namespace

std::vector<PowerNote> check_measuring(const Test& test, StageId stage) {
  return Checker(test, stage).run();
}

}  // namespace hailwright
