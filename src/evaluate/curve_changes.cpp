#include "evaluate/curve_changes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "evaluate/panel_thermal.hpp"
#include "evaluate/same_tools.hpp"

namespace hailwright {

namespace {

// Half-widths unless called u [from memory]: voltage and current coefficients of silicon panels
// that state none; how well the logarithmic term of the sun is known, from an ideality of 1.0 to
// 1.3 and the voltage in the leads that goes the other way.
constexpr double voltage_coefficient = -0.0030, voltage_coefficient_within = 0.0007;
constexpr double current_coefficient = 0.0005, current_coefficient_within = 0.0005;
constexpr double log_term_within = 0.3;  // of itself
constexpr double usual_step_V = 0.01, usual_step_A = 0.01;
const double root_3 = std::sqrt(3.0), root_12 = std::sqrt(12.0);

bool is_voltage(std::size_t figure) {
  return figure == 0 || figure == 2;
}

std::optional<double> figure_of(const CurveReading& r, std::size_t figure) {
  const auto si = [](const auto& q) { return q ? std::optional(q->si()) : std::nullopt; };
  switch (figure) {
  case 0:
    return si(r.open_circuit);
  case 1:
    return si(r.short_circuit);
  case 2:
    return si(r.at_maximum);
  default:
    return si(r.current_at_maximum);
  }
}

/// Errors that readings may have, all zero for what was read.
struct Errors {
  double volt_gain = 0, volt_offset = 0, amp_gain = 0, amp_offset = 0;  // offsets in V, A
  double sun_gain = 0, sun_offset = 0;                                  // W/m2
  double temperature = 0, cell_above_back = 0;                          // K
  double voltage_coefficient = 0, current_coefficient = 0;              // 1/K
  double log_term = 0;                                                  // of itself
};

/// How figures of this panel answer to sun and temperature.
class Normaliser {
public:
  Normaliser(const Test& test, const AssumedPanel& panel)
      : thermal_(panel_thermal(test, Role::struck)),
        beta_(test.record.panel.voltage_coefficient
                  .value_or(TemperatureCoefficient::from_si(voltage_coefficient))
                  .si()),
        per_log_(panel.voltage_per_log_current()) {
    const SweepFigures whole = figures_with(panel, CurvePattern::all_cells_less, 0.0);
    open_over_maximum_ = whole.open_circuit.si() / whole.at_maximum.si();
  }
  [[nodiscard]] const PanelThermal& thermal() const { return thermal_; }

  /// Logarithm of a figure at 1000 W/m2 and 25 degC.
  [[nodiscard]] double log_figure(const CurveReading& r, std::size_t figure,
                                  const Errors& e) const {
    const double sun = r.sun.si() * (1.0 + e.sun_gain) + e.sun_offset;
    const double above = thermal_.cell_above_back.si() + e.cell_above_back;
    const double heat = r.back.celsius() + e.temperature + above * sun / 1000.0 - 25.0;
    const double log_sun = std::log(sun / 1000.0);
    const double value = *figure_of(r, figure);
    if (!is_voltage(figure)) {
      return std::log(value * (1.0 + e.amp_gain) + e.amp_offset) - log_sun -
             std::log1p((current_coefficient + e.current_coefficient) * heat);
    }
    // Both voltages move by about as many volts, of which the lower one is less.
    const double share = figure == 0 ? 1.0 : open_over_maximum_;
    return std::log(value * (1.0 + e.volt_gain) + e.volt_offset) -
           std::log1p(share * (beta_ + e.voltage_coefficient) * heat) -
           share * per_log_ * (1.0 + e.log_term) * log_sun;
  }

private:
  PanelThermal thermal_;
  double beta_, per_log_, open_over_maximum_ = 1.0;
};

/// Builds up the changes and what they may be wrong by.
class Builder {
public:
  Builder(const Test& test, const CurveReadings& readings, const AssumedPanel& panel)
      : test_(test), readings_(readings), normaliser_(test, panel) {}

  CurveChanges build() {
    find_means();
    add_meters();
    add_sun();
    add_temperature();
    add_steps();
    add_scatter();
    for (const CurveInput& input : out_.inputs)
      add_product(out_.shared, input.u);
    return std::move(out_);
  }

private:
  enum class Stage { both, before, after };

  [[nodiscard]] CurveVector means(const std::vector<CurveReading>& stage, const Errors& e,
                                  std::array<int, curve_figures>* counts = nullptr) const {
    CurveVector sums{};
    std::array<int, curve_figures> n{};
    for (const CurveReading& r : stage) {
      for (std::size_t k = 0; k < curve_figures; ++k) {
        if (!figure_of(r, k)) continue;
        sums[k] += normaliser_.log_figure(r, k, e);
        ++n[k];
      }
    }
    for (std::size_t k = 0; k < curve_figures; ++k) {
      if (n[k] > 0) sums[k] /= n[k];
    }
    if (counts != nullptr) *counts = n;
    return sums;
  }

  void find_means() {
    out_.mean_before = means(readings_.before, {}, &out_.before);
    out_.mean_after = means(readings_.after, {}, &out_.after);
    for (std::size_t k = 0; k < curve_figures; ++k) {
      if (out_.before[k] == 0 || out_.after[k] == 0) continue;
      out_.read.push_back(static_cast<CurveFigure>(k));
      out_.change[k] = out_.mean_after[k] - out_.mean_before[k];
    }
  }

  [[nodiscard]] CurveVector changes(const Errors& before, const Errors& after) const {
    const CurveVector b = means(readings_.before, before);
    const CurveVector a = means(readings_.after, after);
    CurveVector d{};
    for (const CurveFigure f : out_.read)
      d[static_cast<std::size_t>(f)] =
          a[static_cast<std::size_t>(f)] - b[static_cast<std::size_t>(f)];
    return d;
  }

  /// An error of this size, in the stages that share it: half of what it moves the changes by when
  /// it is taken up and down.
  void add(std::string name, double Errors::*error, double u, Stage stage) {
    const auto moved = [&](double by) {
      Errors shifted;
      shifted.*error = by;
      return changes(stage == Stage::after ? Errors{} : shifted,
                     stage == Stage::before ? Errors{} : shifted);
    };
    if (u <= 0.0) return;
    const CurveVector up = moved(u);
    const CurveVector down = moved(-u);
    CurveInput input{std::move(name), {}};
    for (std::size_t k = 0; k < curve_figures; ++k)
      input.u[k] = 0.5 * (up[k] - down[k]);
    out_.inputs.push_back(std::move(input));
  }
  void add_each_stage(const std::string& name, double Errors::*error, double u) {
    add(name + ", before", error, u, Stage::before);
    add(name + ", after", error, u, Stage::after);
  }

  void assume(std::string words) { out_.assumed.push_back(std::move(words)); }

  template <class Q>
  void add_meter(const std::string& name, const std::optional<Stated<Q>>& stated, double step,
                 double Errors::*gain, double Errors::*offset) {
    Stated<Q> error;
    error.relative = defaults::meter_gain;
    error.digits = defaults::meter_digits;
    if (stated) {
      error = *stated;
    } else {
      assume(name + ": 5 % and 3 digits, as cheap meters have");
    }
    add(name + ", gain", gain, error.relative_u(), Stage::both);
    add(name + ", offset", offset, error.absolute_u(Q::from_si(step)).si(), Stage::both);
    add_each_stage(name + ", drift", gain, defaults::meter_between.si() * error.relative_u());
  }

  void add_meters() {
    if (!readings_.voltmeter_step) assume("step of the voltmeter: 0.01 V");
    if (!readings_.ammeter_step) assume("step of the ammeter: 0.01 A");
    add_meter("voltmeter", readings_.voltmeter, step_V(), &Errors::volt_gain, &Errors::volt_offset);
    add_meter("ammeter", readings_.ammeter, step_A(), &Errors::amp_gain, &Errors::amp_offset);
  }
  [[nodiscard]] double step_V() const {
    return readings_.voltmeter_step ? readings_.voltmeter_step->si() : usual_step_V;
  }
  [[nodiscard]] double step_A() const {
    return readings_.ammeter_step ? readings_.ammeter_step->si() : usual_step_A;
  }

  void add_shared_tool(const std::string& name, Instrument which, double Errors::*error, double u) {
    if (same_tool_said(test_, which)) {
      add(name, error, u, Stage::both);
    } else {
      add_each_stage(name, error, u);
    }
  }

  void add_sun() {
    const Tool<Irradiance>& tool = test_.protocol.tools.sun;
    Stated<Irradiance> error;
    error.relative = defaults::sun_gain;
    if (tool.error) {
      error = *tool.error;
    } else {
      assume("sun meter: within 10 %");
    }
    if (!same_tool_said(test_, Instrument::sun))
      assume("sun meter: another one after the shots, since conditions: same_tools is not yes");
    add_shared_tool("sun meter, gain", Instrument::sun, &Errors::sun_gain, error.relative_u());
    add_shared_tool("sun meter, offset", Instrument::sun, &Errors::sun_offset,
                    error.absolute_u(tool.step.value_or(Irradiance::from_si(1.0))).si());
    add_each_stage("sun meter, drift", &Errors::sun_gain,
                   tool.between_stages ? tool.between_stages->si() / root_3
                                       : defaults::sun_between.si() * error.relative_u());
    // As for the power of the same panel: readings of one day share its sky.
    const MeasurementPlan& plan = test_.protocol.measure;
    const bool alone = plan.compare == Comparison::same_panel;
    const Ratio day = alone && plan.day ? *plan.day : defaults::day_same_panel_u;
    const Ratio drift = alone && plan.stage ? *plan.stage : defaults::stage_same_panel_u;
    if (!(alone && plan.day)) assume("one day's sky: 1 % of the currents (standard)");
    if (!(alone && plan.stage)) assume("drift between the stages: 0.5 % of the currents");
    add_each_stage("sky of the day", &Errors::sun_gain, day.si());
    add("drift of the panel", &Errors::sun_gain, drift.si(), Stage::after);
  }

  void add_temperature() {
    const Thermometer& tool = test_.protocol.tools.thermometer;
    const double offset =
        tool.error ? tool.error->absolute_u({}).si() : defaults::thermometer.si() / root_3;
    const double each = tool.each_time ? tool.each_time->absolute_u({}).si()
                                       : defaults::thermometer_each_time.si() / root_3;
    if (!tool.error) assume("thermometer: within 3 K");
    if (!tool.each_time) assume("thermometer, put on or aimed anew: within 1 K");
    if (normaliser_.thermal().cell_above_back_assumed)
      assume("cell above back: 3 K at 1000 W/m2, half-width 3 K");
    add_shared_tool("thermometer", Instrument::thermometer, &Errors::temperature, offset);
    add_each_stage("thermometer, put on anew", &Errors::temperature, each);
    add("cell above back", &Errors::cell_above_back, normaliser_.thermal().cell_above_back_error.u,
        Stage::both);
    const Panel& panel = test_.record.panel;
    double beta_u = voltage_coefficient_within / root_3;
    if (panel.voltage_coefficient_stated) {
      beta_u = panel.voltage_coefficient_stated->standard_u();
    } else if (panel.voltage_coefficient) {
      beta_u = defaults::coefficient_sheet.si() / root_3;
      assume("temperature coefficient of the voltage: as on the data sheet, half-width 0.05 %/K");
    } else {
      assume("temperature coefficient of the voltage: -0.30 %/K, half-width 0.07 %/K");
    }
    add("coefficient of the voltage", &Errors::voltage_coefficient, beta_u, Stage::both);
    add("coefficient of the current", &Errors::current_coefficient,
        current_coefficient_within / root_3, Stage::both);
    add("logarithmic term of the sun", &Errors::log_term, log_term_within / root_3, Stage::both);
  }

  [[nodiscard]] double per_reading(std::size_t k) const {
    return 1.0 / out_.before[k] + 1.0 / out_.after[k];
  }

  /// Displays round each reading by itself; of the sun both currents alike.
  void add_steps() {
    CurveVector sun{};
    const double step = test_.protocol.tools.sun.step.value_or(Irradiance::from_si(1.0)).si();
    for (const CurveFigure f : out_.read) {
      const auto k = static_cast<std::size_t>(f);
      const double value = std::exp(std::min(out_.mean_before[k], out_.mean_after[k]));
      CurveInput input{is_voltage(k) ? "step of the voltmeter" : "step of the ammeter", {}};
      input.u[k] =
          (is_voltage(k) ? step_V() : step_A()) / root_12 / value * std::sqrt(per_reading(k));
      if (!is_voltage(k)) sun[k] = step / root_12 / lowest_sun() * std::sqrt(per_reading(k));
      out_.inputs.push_back(std::move(input));
    }
    out_.inputs.push_back({"step of the sun meter", sun});
  }
  [[nodiscard]] double lowest_sun() const {
    double lowest = std::numeric_limits<double>::infinity();
    for (const auto* stage : {&readings_.before, &readings_.after}) {
      for (const CurveReading& r : *stage)
        lowest = std::min(lowest, r.sun.si());
    }
    return lowest;
  }

  static void add_product(CurveMatrix& matrix, const CurveVector& u) {
    for (std::size_t i = 0; i < curve_figures; ++i) {
      for (std::size_t j = 0; j < curve_figures; ++j)
        matrix[i][j] += u[i] * u[j];
    }
  }

  /// Pooled sums of products of two figures about their stage's means.
  [[nodiscard]] double products(std::size_t i, std::size_t j) const {
    double sum = 0.0;
    const auto pool = [&](const std::vector<CurveReading>& stage, const CurveVector& mean) {
      for (const CurveReading& r : stage) {
        if (!figure_of(r, i) || !figure_of(r, j)) continue;
        sum += (normaliser_.log_figure(r, i, {}) - mean[i]) *
               (normaliser_.log_figure(r, j, {}) - mean[j]);
      }
    };
    pool(readings_.before, out_.mean_before);
    pool(readings_.after, out_.mean_after);
    return sum;
  }

  /// Voltages scatter by temperature, currents by the sun, each pair together; one pair against the
  /// other is taken as independent [ours]. Two figures by nu degrees of freedom are a bivariate t
  /// with nu - 1 and a scale larger by nu / (nu - 1) (multivariate analysis, from memory).
  void add_scatter() {
    int dof = std::numeric_limits<int>::max();
    for (const CurveFigure f : out_.read) {
      const auto k = static_cast<std::size_t>(f);
      dof = std::min(dof, out_.before[k] + out_.after[k] - 2);
    }
    constexpr int fewest = 3;
    out_.scatter_assumed = dof < fewest;
    out_.scatter_dof = out_.scatter_assumed ? std::numeric_limits<double>::infinity() : dof - 1.0;
    if (out_.scatter_assumed)
      assume("scatter of a reading: 0.5 % of a voltage, 1 % of a current (standard)");
    for (const CurveFigure f : out_.read)
      add_variance(static_cast<std::size_t>(f));
    if (!out_.scatter_assumed) {
      add_covariance(0, 2);
      add_covariance(1, 3);
    }
  }

  void add_variance(std::size_t k) {
    const double usual =
        is_voltage(k) ? pattern_bounds::voltage_scatter : pattern_bounds::current_scatter;
    const int dof = out_.before[k] + out_.after[k] - 2;
    double variance = dof > 0 ? products(k, k) / dof : 0.0;
    if (out_.scatter_assumed) {
      variance = std::max(variance, usual * usual);
    } else {
      variance *= dof / (dof - 1.0);
    }
    out_.scatter[k][k] = variance * per_reading(k);
  }

  void add_covariance(std::size_t i, std::size_t j) {
    const double own = std::sqrt(products(i, i) * products(j, j));
    if (own == 0.0) return;
    // Two figures are never taken for one, however few readings say so.
    constexpr double most = 0.98;
    const double r = std::clamp(products(i, j) / own, -most, most);
    out_.scatter[i][j] = out_.scatter[j][i] =
        r * std::sqrt(out_.scatter[i][i] * out_.scatter[j][j]);
  }

  const Test& test_;
  const CurveReadings& readings_;
  Normaliser normaliser_;
  CurveChanges out_;
};

/// Geometric mean of a figure before the shots as it was read.
std::optional<double> mean_before(const CurveReadings& readings, std::size_t figure) {
  double sum = 0.0;
  int n = 0;
  for (const CurveReading& r : readings.before) {
    if (const auto value = figure_of(r, figure)) {
      // Of currents, that of full sun.
      sum += std::log(*value) - (is_voltage(figure) ? 0.0 : std::log(r.sun.si() / 1000.0));
      ++n;
    }
  }
  return n > 0 ? std::optional(std::exp(sum / n)) : std::nullopt;
}

template <class Q>
std::optional<Q> typed_as(const std::optional<double>& si) {
  return si ? std::optional(Q::from_si(*si)) : std::nullopt;
}

}  // namespace

CurveRatings curve_ratings(const Test& test, const CurveReadings& readings) {
  const Panel& panel = test.record.panel;
  CurveRatings ratings;
  ratings.open_voltage =
      panel.open_voltage ? panel.open_voltage : typed_as<Voltage>(mean_before(readings, 0));
  ratings.short_current =
      panel.short_current ? panel.short_current : typed_as<Current>(mean_before(readings, 1));
  ratings.power = panel.rated_power;
  const auto voltage = mean_before(readings, 2);
  const auto current = mean_before(readings, 3);
  if (!ratings.power && voltage && current) ratings.power = Power::from_si(*voltage * *current);
  if (panel.cells) ratings.cells = panel.cells->along * panel.cells->across;
  ratings.substrings = panel.substrings;
  return ratings;
}

CurveChanges curve_changes(const Test& test, const CurveReadings& readings,
                           const AssumedPanel& panel) {
  return Builder(test, readings, panel).build();
}

}  // namespace hailwright
