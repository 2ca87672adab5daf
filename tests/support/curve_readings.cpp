#include "support/curve_readings.hpp"

#include <cmath>
#include <random>

namespace hailwright::testing {

namespace {

// Of the panel that is drawn.
constexpr double voltage_per_K = -0.0030, current_per_K = 0.0005;
constexpr double thermal_V = 1.380649e-23 * 298.15 / 1.602176634e-19;

double rounded(double value, double step) {
  return std::round(value / step) * step;
}

/// What one stage has: sun, heat, and how far the meters have drifted.
struct StageDraw {
  double sun, back, volt_drift, amp_drift, sky, probe_K;
};

class Drawing {
public:
  Drawing(std::uint64_t seed, const DrawnCurves& how)
      : random_(seed), still_(seed == 0), how_(how) {
    volt_gain_ = 0.01 * within();
    amp_gain_ = 0.01 * within();
    sun_gain_ = 0.05 * within();
    volt_offset_ = 0.03 * within();
    amp_offset_ = 0.03 * within();
  }

  std::vector<CurveReading> stage(const SweepFigures& figures, double share_of_cells, int readings,
                                  double sun, double back) {
    const StageDraw draw{sun,           back, 0.0005 * within(), 0.0005 * within(), 0.01 * normal(),
                         0.5 * within()};
    std::vector<CurveReading> all;
    for (int i = 0; i < readings; ++i)
      all.push_back(reading(figures, share_of_cells, draw));
    return all;
  }

private:
  double within() { return still_ ? 0.0 : uniform_(random_); }
  double normal() { return still_ ? 0.0 : normal_(random_); }

  CurveReading reading(const SweepFigures& f, double share_of_cells, const StageDraw& draw) {
    const double sun = draw.sun + 20.0 * within();
    const double true_sun = sun * (1.0 + draw.sky) * (1.0 + how_.sun_scatter * normal());
    const double back = draw.back + within();
    const double heat = back + 3.0 * sun / 1000.0 - 25.0;
    const double volts = share_of_cells * (voltage_per_K * 22.1 * heat +
                                           1.1 * thermal_V * 36.0 * std::log(true_sun / 1000.0));
    const auto voltage = [&](Voltage v) {
      const double shown = (v.si() + volts) * (1.0 + volt_gain_) * (1.0 + draw.volt_drift) *
                               (1.0 + how_.figure_scatter * normal()) +
                           volt_offset_;
      return Voltage::from_si(rounded(shown, 0.01));
    };
    const auto current = [&](Current i) {
      const double shown = i.si() * true_sun / 1000.0 * (1.0 + current_per_K * heat) *
                               (1.0 + amp_gain_) * (1.0 + draw.amp_drift) *
                               (1.0 + how_.figure_scatter * normal()) +
                           amp_offset_;
      return Current::from_si(rounded(shown, 0.01));
    };
    CurveReading r;
    r.sun = Irradiance::from_si(rounded(sun * (1.0 + sun_gain_), 1.0));
    r.back = TemperaturePoint::from_celsius(rounded(back + draw.probe_K, 0.1));
    r.open_circuit = voltage(f.open_circuit);
    r.at_maximum = voltage(f.at_maximum);
    r.short_circuit = current(f.short_circuit);
    r.current_at_maximum = current(f.current_at_maximum);
    return r;
  }

  std::mt19937_64 random_;
  std::uniform_real_distribution<double> uniform_{-1.0, 1.0};
  std::normal_distribution<double> normal_;
  bool still_;
  DrawnCurves how_;
  double volt_gain_, amp_gain_, sun_gain_, volt_offset_, amp_offset_;
};

template <class Q>
Stated<Q> hand_held(double step) {
  Stated<Q> error;
  error.relative = step > 0.5 ? percent(5) : percent(1);
  error.digits = step > 0.5 ? 0.0 : 3.0;
  return error;
}

}  // namespace

Test test_for_curves() {
  Test test;
  Panel& panel = test.record.panel;
  panel.name = "Rigid A";
  panel.open_voltage = Voltage::from_si(22.1);
  panel.short_current = Current::from_si(5.9);
  panel.rated_power = Power::from_si(100.0);
  panel.cells = CellGrid{9, 4, {}, {}};
  panel.substrings = 3;
  panel.voltage_coefficient = TemperatureCoefficient::from_si(voltage_per_K);
  test.record.title = panel.name;
  test.record.conditions.same_tools = true;
  test.protocol.tools.sun.error = hand_held<Irradiance>(1.0);
  test.protocol.tools.sun.step = Irradiance::from_si(1.0);
  return test;
}

AssumedPanel panel_for_curves() {
  const Panel panel = test_for_curves().record.panel;
  CurveRatings ratings;
  ratings.open_voltage = panel.open_voltage;
  ratings.short_current = panel.short_current;
  ratings.power = panel.rated_power;
  ratings.cells = 36;
  ratings.substrings = panel.substrings;
  return assumed_panel(ratings);
}

CurveReadings drawn_curves(CurvePattern pattern, double size, std::uint64_t seed,
                           const DrawnCurves& how) {
  static const AssumedPanel panel = panel_for_curves();
  const SweepFigures whole = figures_with(panel, CurvePattern::all_cells_less, 0.0);
  const SweepFigures with = figures_with(panel, pattern, size);
  CurveReadings curves;
  curves.voltmeter = hand_held<Voltage>(0.01);
  curves.voltmeter_step = Voltage::from_si(0.01);
  curves.ammeter = hand_held<Current>(0.01);
  curves.ammeter_step = Current::from_si(0.01);
  Drawing drawing(seed, how);
  const bool gone = pattern == CurvePattern::substring_gone;
  curves.before = drawing.stage(whole, 1.0, how.before, 930.0, 45.0);
  curves.after = drawing.stage(with, gone ? 2.0 / 3.0 : 1.0, how.after, 870.0, 52.0);
  return curves;
}

}  // namespace hailwright::testing
