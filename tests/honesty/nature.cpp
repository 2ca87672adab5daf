#include "honesty/nature.hpp"

#include <cmath>

namespace hailwright::honesty {

namespace {

constexpr double watts_at_standard = 100.0;
constexpr double step_watts = 0.1;
constexpr double steps_per_watt = 10.0;
constexpr double steps_per_kelvin = 10.0;

// The weather of the tests: a stage each, and how it changes between set-ups and readings.
constexpr std::array<double, 2> sun_of_stage{880.0, 850.0};  // W/m2
constexpr std::array<double, 2> back_of_stage{44.0, 48.0};   // degC
constexpr double sun_of_setup = 15.0;                        // W/m2, within
constexpr double back_of_setup_k = 1.0;                      // within
constexpr double sun_of_reading = 4.0;                       // W/m2, within
constexpr double back_of_reading_k = 0.3;                    // within
/// What the sky of a day does to all panels alike, where several are read, standard deviation.
constexpr double sky_of_all = 0.008;
/// Steady change of all panels in a set-up in an hour, standard deviation: a sensor that lags.
constexpr double setup_drift_per_hour = 0.03;
constexpr double minutes_in_hour = 60.0;

double within(RandomStream& random, double half_width) {
  return half_width * (2.0 * random.uniform() - 1.0);
}

/// To a step of a display, as the nearest double to its decimal figure.
double shown(double value, double steps_in_one) {
  return std::round(value * steps_in_one) / steps_in_one;
}

}  // namespace

/// What is drawn once in a test.
struct Nature::Drawn {
  std::array<double, 2> meter_gain{}, meter_watts{};     // by meter
  std::array<std::array<double, 2>, 2> meter_between{};  // by meter and stage
  double sun_gain = 0.0;
  std::array<double, 2> sun_between{};  // by stage
  double thermometer = 0.0, gamma = 0.0, cell = 0.0;
  double stage = 0.0, all_panels = 0.0, per_hour = 0.0;
  std::vector<double> day, sky;  // by day
  std::vector<double> unit;      // by panel
};

/// What is drawn once in a set-up.
struct Nature::SetupDrawn {
  double sun = 0.0, back = 0.0, drift = 0.0;
  std::vector<double> error, probe;  // by panel
};

Nature::Nature(const Layout& layout, const Errors& errors, const Mischief& mischief)
    : layout_(layout), errors_(errors), mischief_(mischief) {}

Nature::Drawn Nature::draw_test(RandomStream& random) const {
  Drawn d;
  for (std::size_t meter : {0U, 1U}) {
    d.meter_gain[meter] = within(random, errors_.meter_gain);
    d.meter_watts[meter] = within(random, errors_.meter_digits * step_watts);
    for (double& between : d.meter_between[meter])
      between = within(random, errors_.meter_between);
  }
  d.sun_gain = within(random, errors_.sun_gain);
  for (double& between : d.sun_between)
    between = within(random, errors_.sun_between);
  d.thermometer = within(random, errors_.thermometer_k);
  d.gamma = within(random, errors_.gamma_per_k);
  d.cell = within(random, errors_.cell_k);
  d.stage = errors_.stage * random.normal();
  d.all_panels = mischief_.all_panels * random.normal();
  d.per_hour = mischief_.per_hour * random.normal();
  for (int day = 0; day < layout_.days; ++day) {
    d.day.push_back(errors_.day * random.normal());
    d.sky.push_back(layout_.panels > 1 ? sky_of_all * random.normal() : 0.0);
  }
  for (std::size_t panel = 0; panel < layout_.panels; ++panel)
    d.unit.push_back(errors_.unit * random.normal());
  return d;
}

std::vector<Nature::SetupDrawn> Nature::draw_setups(RandomStream& random) const {
  std::vector<SetupDrawn> all;
  for (const LaidSetup& laid : layout_.setups) {
    const auto stage = static_cast<std::size_t>(laid.stage);
    SetupDrawn s;
    s.sun = sun_of_stage[stage] + within(random, sun_of_setup);
    s.back = back_of_stage[stage] + within(random, back_of_setup_k);
    s.drift = layout_.panels > 1 ? setup_drift_per_hour * random.normal() : 0.0;
    for (std::size_t panel = 0; panel < layout_.panels; ++panel) {
      const bool wrong = mischief_.gone_wrong > 0.0 && random.uniform() < mischief_.gone_wrong;
      s.error.push_back(errors_.setup * random.normal() * (wrong ? 5.0 : 1.0));
      s.probe.push_back(within(random, errors_.each_time_k));
    }
    const bool again = !all.empty() && layout_.setups[all.size() - 1].stage == laid.stage;
    if (mischief_.mounted_once && again) {
      s.error = all.back().error;
      s.probe = all.back().probe;
    }
    all.push_back(std::move(s));
  }
  return all;
}

std::vector<Typed> Nature::draw(RandomStream& random, double loss) const {
  const Drawn d = draw_test(random);
  const std::vector<SetupDrawn> setups = draw_setups(random);
  const bool two_meters =
      layout_.panels == 2 && layout_.readings[0].minute == layout_.readings[1].minute;
  std::vector<Typed> rows;
  rows.reserve(layout_.readings.size());
  for (const LaidReading& laid : layout_.readings) {
    const LaidSetup& setup = layout_.setups[laid.setup];
    const SetupDrawn& s = setups[laid.setup];
    const auto stage = static_cast<std::size_t>(setup.stage);
    const auto day = static_cast<std::size_t>(setup.day);
    const std::size_t meter = two_meters ? laid.panel : 0;
    const double suns = (s.sun + within(random, sun_of_reading)) / 1000.0;
    const double back = s.back + within(random, back_of_reading_k);

    double error = s.error[laid.panel] + errors_.reading * random.normal() + d.sky[day] +
                   d.unit[laid.panel] + s.drift * (laid.minute - setup.minute) / minutes_in_hour;
    if (stage == 1) error += d.all_panels;
    if (laid.panel == 0) {
      error += d.day[day] + d.per_hour * laid.minute / minutes_in_hour;
      if (stage == 1) error += d.stage + std::log1p(-loss);
    }
    const double cell = back + (cell_above_back_k + d.cell) * suns;
    const double watts = watts_at_standard * suns *
                         (1.0 + (gamma_per_k + d.gamma) * (cell - 25.0)) * std::exp(error);

    const double gain = 1.0 + d.meter_gain[meter] + d.meter_between[meter][stage];
    const double sun_gain = 1.0 + d.sun_gain + d.sun_between[stage];
    rows.push_back({shown((watts - d.meter_watts[meter]) / gain, steps_per_watt),
                    shown(1000.0 * suns / sun_gain, 1.0),
                    shown(back - d.thermometer - s.probe[laid.panel], steps_per_kelvin)});
  }
  return rows;
}

}  // namespace hailwright::honesty
