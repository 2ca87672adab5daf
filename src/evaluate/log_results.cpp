#include "hailwright/evaluate/log_results.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "evaluate/log_inputs.hpp"
#include "evaluate/power_inputs.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/dual.hpp"
#include "input/record_logs.hpp"

namespace hailwright {

namespace {

// A record's sessions and `hailwright readings` normalise the rows of a log alike.
static_assert(input::assumed_coefficient == defaults::coefficient);
static_assert(input::assumed_cell_above_back == defaults::cell_above_back);

using Sensitivity = std::array<double, error_slots>;

Sensitivity sensitivity_of(double gain, double offset) {
  Sensitivity s{};
  s.at(static_cast<std::size_t>(ErrorSlot::meter_gain)) = gain;
  s.at(static_cast<std::size_t>(ErrorSlot::meter_offset)) = offset;
  return s;
}

LogScatter scatter_of(const SeriesMean& series) {
  if (series.count < 2) return LogScatter::not_known;
  return series.standard_u() ? LogScatter::effective : LogScatter::one_reading;
}

/// The finest steps in which a log's numbers are typed, from all of them that findings hold.
struct MetSteps {
  Power power, power_beside;
  Irradiance irradiance;
};

void take_ends(std::vector<double>& values, const ColumnSums& sums) {
  if (sums.count == 0) return;
  values.push_back(sums.least);
  values.push_back(sums.most);
}

MetSteps met_steps(const LogFindings& findings) {
  std::vector<double> power;
  std::vector<double> beside;
  std::vector<double> irradiance;
  const auto take = [&](const LogStretch& s) {
    take_ends(power, s.power);
    take_ends(beside, s.power_beside);
    take_ends(irradiance, s.irradiance);
  };
  take(findings.whole);
  for (const LogStretch& s : findings.stretches)
    take(s);
  for (const LogTrace::Point& p : findings.trace.points) {
    if (p.rows == 0 || std::isnan(p.power_least)) continue;
    power.push_back(p.power_least);
    power.push_back(p.power_most);
  }
  return {Power::from_si(typed_step(power)), Power::from_si(typed_step(beside)),
          Irradiance::from_si(typed_step(irradiance))};
}

/// Mean readings of a stretch with how its panel answers to temperature.
struct MeanReading {
  NormalisedReading reading;
  PanelThermal thermal;
};

MeanReading mean_reading(const ColumnSums& power, const ColumnSums& irradiance,
                         const ColumnSums& temperature, const PanelThermal& thermal) {
  return {{Power::from_si(power.mean), Irradiance::from_si(irradiance.mean),
           TemperaturePoint::from_kelvin(temperature.mean), thermal.gamma, thermal.cell_above_back},
          thermal};
}

/// Sensitivities of the normalised power [W] at the mean readings.
Sensitivity normalised_sensitivity(const NormalisedReading& mean, double value) {
  using D = Dual<error_slots>;
  std::array<D, error_slots> errors;
  for (std::size_t s = 0; s < error_slots; ++s)
    errors.at(s) = D::variable(0.0, s);
  Sensitivity slope = log_normalised_power(mean, errors).slope;
  for (double& s : slope)
    s *= value;
  return slope;
}

double temperature_factor(const NormalisedReading& r) {
  return power_factors(r, std::array<double, error_slots>{}).temperature;
}

class Weighing {
public:
  Weighing(const LogFindings& findings, const LogInstruments& known,
           const std::optional<ClockOffset>& offset)
      : tools_(known.tools != nullptr ? *known.tools : nothing_), known_(known), offset_(offset),
        steps_(met_steps(findings)) {}

  StretchNumbers weigh(const LogStretch& s) {
    StretchNumbers n;
    if (s.mean_power && s.bridged_s > 0.0) {
      const double joules = s.energy.si();
      const double seconds = s.bridged_s;
      n.energy = log_number<Energy>(joules, meter(sensitivity_of(joules, seconds)));
      n.mean_power =
          log_number<Power>(joules / seconds, meter(sensitivity_of(joules / seconds, 1.0)));
    }
    if (s.normalised && known_.panel != nullptr) n.normalised = normalised(s);
    if (s.normalised_beside && known_.panel_beside != nullptr) {
      n.normalised_beside = normalised_beside(s);
    }
    if (s.beside && s.beside->windows.count > 0) n.ratio = ratio(s);
    if (s.counter && s.energy.si() > 0.0) n.counter_less_integral = counter_less_integral(s);
    return n;
  }

  Assumptions take_assumptions() { return std::move(assumptions_); }

private:
  std::vector<BudgetRow> meter(const Sensitivity& s) {
    return budget_rows(meter_inputs(tools_, steps_.power, "", assumptions_), s);
  }

  // Normalised power

  [[nodiscard]] PanelThermal thermal(const Panel& panel) const {
    return panel_thermal(panel, tools_.thermometer, known_.cell_above_back);
  }

  std::optional<LogNumber<Power>> normalised(const LogStretch& s) {
    const MeanReading mean =
        mean_reading(s.power, s.irradiance, s.temperature, thermal(*known_.panel));
    return normalised(*s.normalised, s.normalised->mean, mean, steps_.power, "");
  }

  /// The rows were normalised as the first panel's (`LogNormalisation`): what the second panel's
  /// own coefficient makes of it is put in at the means.
  std::optional<LogNumber<Power>> normalised_beside(const LogStretch& s) {
    const ColumnSums& t = s.temperature_beside.count > 0 ? s.temperature_beside : s.temperature;
    const MeanReading mean =
        mean_reading(s.power_beside, s.irradiance, t, thermal(*known_.panel_beside));
    double value = s.normalised_beside->mean;
    if (known_.panel != nullptr) {
      const MeanReading as_first =
          mean_reading(s.power_beside, s.irradiance, t, thermal(*known_.panel));
      value *= temperature_factor(as_first.reading) / temperature_factor(mean.reading);
    }
    return normalised(*s.normalised_beside, value, mean, steps_.power_beside, "/beside");
  }

  std::optional<LogNumber<Power>> normalised(const SeriesMean& series, double value,
                                             const MeanReading& mean, Power step,
                                             const std::string& suffix) {
    const NormalisedReading& r = mean.reading;
    // Without light or power there is no logarithm, and nothing to normalise.
    if (series.count == 0 || !(r.power.si() > 0.0) || !(r.irradiance.si() > 0.0) ||
        !(temperature_factor(r) > 0.0)) {
      return std::nullopt;
    }
    std::vector<SlotInput> inputs = meter_inputs(tools_, step, suffix, assumptions_);
    for (const auto& more : {sun_inputs(tools_, steps_.irradiance, assumptions_),
                             thermal_inputs(tools_, mean.thermal, r.back, suffix, assumptions_)}) {
      inputs.insert(inputs.end(), more.begin(), more.end());
    }
    std::vector<BudgetRow> rows = budget_rows(inputs, normalised_sensitivity(r, value));
    add_scatter(rows, series, "scatter of the readings", 1.0);
    return log_number<Power>(value, std::move(rows), scatter_of(series));
  }

  static void add_scatter(std::vector<BudgetRow>& rows, const SeriesMean& series, const char* label,
                          double sensitivity) {
    if (auto scatter = scatter_input(series, "scatter", label)) {
      rows.push_back({std::move(*scatter), sensitivity});
    }
  }

  // Side by side

  /// Two meters of one statement are wrong independently of each other. r = P2 / P1, so that
  /// dr = r (g2 - g1 + o2 / P2 - o1 / P1 + slope dt).
  LogNumber<Ratio> ratio(const LogStretch& s) {
    const RatioMean& b = *s.beside;
    std::vector<BudgetRow> rows;
    const auto add = [&](Power step, const char* suffix, double sign, const ColumnSums& power) {
      const double offset = power.mean > 0.0 ? b.ratio / power.mean : 0.0;
      const std::vector<BudgetRow> more =
          budget_rows(meter_inputs(tools_, step, suffix, assumptions_),
                      sensitivity_of(sign * b.ratio, sign * offset));
      rows.insert(rows.end(), more.begin(), more.end());
    };
    add(steps_.power, "", -1.0, s.power);
    add(steps_.power_beside, "/beside", 1.0, s.power_beside);
    add_clock(rows, b);
    add_scatter(rows, b.windows, "scatter of the ratio from minute to minute", b.ratio);
    return log_number<Ratio>(b.ratio, std::move(rows), scatter_of(b.windows));
  }

  /// An offset that was looked for and not found is anywhere in what was searched.
  void add_clock(std::vector<BudgetRow>& rows, const RatioMean& b) const {
    if (!offset_) return;
    const bool found = offset_->offset.has_value();
    const double u = found ? offset_->standard_u.si()
                           : offset_->searched.si() / half_width_divisor(Shape::rectangular);
    if (!(u > 0.0)) return;
    rows.push_back({type_b("clock", found ? "clocks of the two logs" : "clocks, offset not found",
                           Scope::record, u, found ? Shape::normal : Shape::rectangular),
                    b.ratio * b.slope_per_s});
  }

  // Counter

  /// Relative to the integral I, three errors, all independent:
  /// - Between two gaps, resets or steps back a counter that goes in steps of q is read twice, each
  ///   time within q / 2: the difference has a triangular error of half-width q, u = q / sqrt(6).
  /// - The power column is rounded to its step p; of a steady power all rows are rounded alike, so
  ///   at worst I is wrong by a rectangular p / 2 times the time.
  /// - Between two rows, h apart, power wanders. As a random walk that passes through both, with
  ///   the variance D per second that the rows show, it has an integral about the trapezoid of
  ///   variance D h^3 / 12 (Brownian bridge). D h = 2 sd^2 (1 - r1), so over N steps
  ///   u = T sd sqrt((1 - r1) / (6 N)), T = N h. [ours] With a steady rule the rows that it kept
  ///   stand for all.
  Estimate<Ratio> counter_less_integral(const LogStretch& s) const {
    const CounterReading& c = *s.counter;
    const double integral = s.energy.si();
    const auto runs = static_cast<double>(1 + s.gaps + c.resets + c.steps_back);
    const double of_counter = c.step_j * std::sqrt(runs / 6.0);
    const double of_column =
        s.bridged_s * steps_.power.si() / 2.0 / half_width_divisor(Shape::rectangular);
    const SeriesMean& p = s.power_series;
    const double wander =
        p.count < 2
            ? 0.0
            : s.bridged_s * p.sd *
                  std::sqrt(
                      std::max(0.0, 1.0 - p.lag1) /
                      (6.0 * static_cast<double>(std::max<std::int64_t>(1, s.rows - 1 - s.gaps))));
    const double u = std::sqrt(of_counter * of_counter + of_column * of_column + wander * wander);
    return {Ratio::from_si((c.counted.si() - c.in_gaps.si()) / integral - 1.0),
            Ratio::from_si(u / integral)};
  }

  Tools nothing_;
  const Tools& tools_;
  const LogInstruments& known_;
  const std::optional<ClockOffset>& offset_;
  MetSteps steps_;
  Assumptions assumptions_;
};

}  // namespace

double half_width_of(double standard_u, double degrees_of_freedom,
                     const std::vector<BudgetRow>& budget) {
  constexpr double upper = 0.975;
  if (!(standard_u > 0.0)) return 0.0;
  const double all = t_quantile(upper, degrees_of_freedom) * standard_u;
  const Combined scatter = combine(budget, Evaluation::type_a);
  if (!(scatter.standard_u > 0.0)) return all;
  return std::max(all, t_quantile(upper, scatter.degrees_of_freedom) * scatter.standard_u);
}

std::optional<LogNormalisation> log_normalisation(const LogInstruments& known) {
  if (known.panel == nullptr) return std::nullopt;
  const Thermometer thermometer = known.tools != nullptr ? known.tools->thermometer : Thermometer{};
  const PanelThermal t = panel_thermal(*known.panel, thermometer, known.cell_above_back);
  LogNormalisation n;
  n.gamma = t.gamma;
  n.cell_above_back = t.cell_above_back;
  return n;
}

LogResults weigh_log(const LogFindings& findings, const LogInstruments& known,
                     const std::optional<ClockOffset>& offset) {
  Weighing weighing(findings, known, offset);
  LogResults results;
  results.whole = weighing.weigh(findings.whole);
  for (const LogStretch& s : findings.stretches)
    results.stretches.push_back(weighing.weigh(s));
  results.assumptions = weighing.take_assumptions();
  return results;
}

}  // namespace hailwright
