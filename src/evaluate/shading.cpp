#include "hailwright/evaluate/shading.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "evaluate/bypass_check.hpp"
#include "evaluate/log_inputs.hpp"
#include "evaluate/power_inputs.hpp"
#include "evaluate/same_tools.hpp"
#include "hailwright/metrology/dual.hpp"
#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

using Slopes = std::array<double, error_slots>;

double at(const Slopes& slopes, ErrorSlot slot) {
  return slopes.at(static_cast<std::size_t>(slot));
}

/// Share of the power that one round left, with what an error of each reading does to it.
struct RoundShare {
  double left = 0.0;
  Slopes free{}, shaded{};  ///< derivatives of `left`
  bool sun_typed_once = false;
};

/// What comes of a dark panel is linear in the errors of its power alone; its logarithm is not
/// there to be taken.
RoundShare dark_round(const NormalisedReading& free, NormalisedReading shaded) {
  shaded.power = Power::from_si(1.0);
  const std::array<double, error_slots> none{};
  RoundShare share;
  share.shaded.at(static_cast<std::size_t>(ErrorSlot::meter_offset)) =
      std::exp(log_normalised_power(shaded, none) - log_normalised_power(free, none));
  return share;
}

RoundShare lit_round(const NormalisedReading& free, const NormalisedReading& shaded) {
  using D = Dual<error_slots>;
  std::array<D, error_slots> errors;
  for (std::size_t s = 0; s < error_slots; ++s)
    errors.at(s) = D::variable(0.0, s);
  const D of_free = log_normalised_power(free, errors);
  const D of_shaded = log_normalised_power(shaded, errors);
  RoundShare share;
  share.left = std::exp(of_shaded.value - of_free.value);
  for (std::size_t s = 0; s < error_slots; ++s) {
    share.free.at(s) = -share.left * of_free.slope.at(s);
    share.shaded.at(s) = share.left * of_shaded.slope.at(s);
  }
  return share;
}

RoundShare round_share(const ShadeRound& r, const PanelThermal& thermal) {
  const NormalisedReading free{r.free, r.sun_free, r.back_free, thermal.gamma,
                               thermal.cell_above_back};
  const NormalisedReading shaded{r.shaded, r.sun_shaded, r.back_shaded, thermal.gamma,
                                 thermal.cell_above_back};
  RoundShare share = r.shaded.si() > 0.0 ? lit_round(free, shaded) : dark_round(free, shaded);
  share.sun_typed_once = r.sun_typed_once;
  return share;
}

bool is_digits(const SlotInput& input) {
  return input.input.id.find("/digits") != std::string::npos;
}

BudgetInput of_reading(BudgetInput input, const char* id, const char* label) {
  input.id += id;
  input.label += label;
  return input;
}

/// One shade, weighed.
class ShadeWeighing {
public:
  ShadeWeighing(const Test& test, const ShadeTrial& trial)
      : test_(test), trial_(trial), tools_(tools_when(test, trial.after)),
        thermal_(panel_thermal(test.record.panel, tools_.thermometer,
                               test.protocol.measure.cell_above_back)) {}

  ShadingResult weigh() {
    if (!trial_.rounds.empty()) weigh_rounds();
    if (trial_.open_free && trial_.open_shaded) {
      result_.bypass = check_bypass(trial_, test_.record.panel.substrings, result_.assumptions);
    }
    return std::move(result_);
  }

private:
  void weigh_rounds() {
    for (const ShadeRound& r : trial_.rounds) {
      rounds_.push_back(round_share(r, thermal_));
      result_.rounds_left.push_back(Ratio::from_si(rounds_.back().left));
      result_.sun_typed_once = result_.sun_typed_once || r.sun_typed_once;
      result_.back_typed_once = result_.back_typed_once || r.back_typed_once;
    }
    result_.scatter_seen = rounds_.size() > 1;
    const std::vector<SlotInput> inputs = all_inputs();
    const bool lit = std::all_of(rounds_.begin(), rounds_.end(),
                                 [](const RoundShare& r) { return r.left > 0.0; });
    if (lit) by_logarithm(inputs);
    if (!result_.log_left) by_itself(inputs);
    result_.loss = Ratio::from_si(1.0) - result_.left->value;
  }

  void by_logarithm(const std::vector<SlotInput>& inputs) {
    std::vector<double> logs;
    for (const RoundShare& r : rounds_)
      logs.push_back(std::log(r.left));
    std::vector<BudgetRow> rows = rows_of(inputs, [](const RoundShare& r) { return 1.0 / r.left; });
    add_scatter(rows, logs);
    const Combined all = combine(rows);
    if (all.standard_u > shading_by_logarithm_up_to.si()) return;
    const double log_left = mean(logs);
    const double left = std::exp(log_left);
    const double half = half_width_of(all.standard_u, all.degrees_of_freedom, rows);
    take_interval(left * std::exp(-half), left * std::exp(half));
    result_.log_left = LogNumber<Ratio>{
        {Ratio::from_si(log_left), Ratio::from_si(all.standard_u), all.degrees_of_freedom},
        rows,
        scatter()};
    for (BudgetRow& row : rows)
      row.sensitivity *= left;
    take(left, std::move(rows));
  }

  void by_itself(const std::vector<SlotInput>& inputs) {
    std::vector<double> shares;
    for (const RoundShare& r : rounds_)
      shares.push_back(r.left);
    std::vector<BudgetRow> rows = rows_of(inputs, [](const RoundShare&) { return 1.0; });
    add_scatter(rows, shares);
    const double left = mean(shares);
    take(left, std::move(rows));
    const double half = half_width_of(result_.left->standard_u.si(),
                                      result_.left->degrees_of_freedom, result_.budget);
    take_interval(left - half, left + half);
  }

  void take(double left, std::vector<BudgetRow> rows) {
    const Combined all = combine(rows);
    result_.left = Estimate<Ratio>{Ratio::from_si(left), Ratio::from_si(all.standard_u),
                                   all.degrees_of_freedom};
    result_.budget = std::move(rows);
  }

  /// No panel gives less than nothing.
  void take_interval(double least_left, double most_left) {
    result_.low = Ratio::from_si(1.0 - most_left);
    result_.high = Ratio::from_si(1.0 - std::max(0.0, least_left));
  }

  [[nodiscard]] LogScatter scatter() const {
    return result_.scatter_seen ? LogScatter::effective : LogScatter::not_known;
  }

  /// Every error of an instrument is one draw for all readings, but for the digits, which are drawn
  /// for the readings without the shade and for those in it: displays of two powers are not wrong
  /// alike.
  template <class Scale>
  [[nodiscard]] std::vector<BudgetRow> rows_of(const std::vector<SlotInput>& inputs,
                                               Scale scale) const {
    std::vector<BudgetRow> rows;
    for (const SlotInput& i : inputs) {
      const bool sun = i.slot == ErrorSlot::sun_offset;
      double of_free = 0.0;
      double of_shaded = 0.0;
      for (const RoundShare& r : rounds_) {
        const double weight = scale(r) / static_cast<double>(rounds_.size());
        of_free += weight * at(r.free, i.slot);
        // One value for both is one reading of the display.
        (sun && r.sun_typed_once ? of_free : of_shaded) += weight * at(r.shaded, i.slot);
      }
      if (is_digits(i)) {
        rows.push_back({of_reading(i.input, "/free", " without the shade"), of_free});
        rows.push_back({of_reading(i.input, "/shaded", " in the shade"), of_shaded});
      } else {
        rows.push_back({i.input, of_free + of_shaded});
      }
    }
    return rows;
  }

  static void add_scatter(std::vector<BudgetRow>& rows, const std::vector<double>& values) {
    if (values.size() < 2) return;
    const auto n = static_cast<double>(values.size());
    rows.push_back({{"scatter", "scatter of the rounds", Scope::reading, Evaluation::type_a,
                     sample_sd(values).value_or(0.0) / std::sqrt(n), n - 1.0, Shape::normal},
                    1.0});
  }

  [[nodiscard]] std::vector<SlotInput> all_inputs() {
    std::vector<double> powers;
    std::vector<double> suns;
    double kelvin = 0.0;
    for (const ShadeRound& r : trial_.rounds) {
      powers.insert(powers.end(), {r.free.si(), r.shaded.si()});
      suns.insert(suns.end(), {r.sun_free.si(), r.sun_shaded.si()});
      kelvin += (r.back_free.kelvin() + r.back_shaded.kelvin()) / 2.0;
    }
    Assumptions& assumptions = result_.assumptions;
    std::vector<SlotInput> all;
    add(all, meter_inputs(tools_, Power::from_si(typed_step(powers)), "", assumptions),
        Instrument::meter);
    add(all, sun_inputs(tools_, Irradiance::from_si(typed_step(suns)), assumptions),
        Instrument::sun);
    kelvin /= static_cast<double>(trial_.rounds.size());
    add(all,
        thermal_inputs(tools_, thermal_, TemperaturePoint::from_kelvin(kelvin), "", assumptions),
        Instrument::thermometer);
    return all;
  }

  /// What was read with another instrument than before the shots is another error.
  void add(std::vector<SlotInput>& all, std::vector<SlotInput> more, Instrument which) const {
    const bool other = trial_.after && !same_tool_said(test_, which);
    for (SlotInput& input : more) {
      const bool of_the_panel =
          input.slot == ErrorSlot::coefficient || input.slot == ErrorSlot::cell_above_back;
      if (other && !of_the_panel) input.input.id += "/other";
      all.push_back(std::move(input));
    }
  }

  const Test& test_;
  const ShadeTrial& trial_;
  Tools tools_;
  PanelThermal thermal_;
  std::vector<RoundShare> rounds_;
  ShadingResult result_;
};

}  // namespace

std::vector<ShadingResult> weigh_shading(const Test& test) {
  std::vector<ShadingResult> results;
  for (std::size_t i = 0; i < test.record.shading.size(); ++i) {
    results.push_back(ShadeWeighing(test, test.record.shading[i]).weigh());
    results.back().trial = i;
  }
  return results;
}

}  // namespace hailwright
