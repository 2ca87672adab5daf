#include "evaluate/outlying.hpp"

#include <algorithm>
#include <cmath>

#include "evaluate/power_inputs.hpp"
#include "evaluate/sibling_units.hpp"
#include "hailwright/metrology/outliers.hpp"
#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

constexpr double flag_risk = 0.01;      // of a flag in a set-up of readings that are as good [ours]
constexpr std::size_t fewest = 5;       // values of a set-up: fewer show no outlier [ours]
constexpr std::size_t one_in_most = 4;  // so many of them may be outlying [ours]

/// Values that are equal but for the rounding of our own arithmetic, as exact readings are.
constexpr double rounding = 1e-12;

class Finder {
public:
  explicit Finder(const Test& test)
      : test_(test),
        power_step_(test.protocol.tools.meter.step.value_or(typed_power_step(test.record))),
        sun_step_(test.protocol.tools.sun.step.value_or(typed_sun_step(test.record))) {}

  void add(const std::vector<UnitSetup>& setups) {
    for (const UnitSetup& unit : setups)
      add(unit);
  }

  std::vector<Outlying> take() { return std::move(found_); }

private:
  void add(const UnitSetup& unit) {
    const std::size_t n = unit.values.size();
    if (n < fewest || *sample_sd(unit.values) < rounding) return;
    const double middle = mean(unit.values);
    for (const ExtremeDeviate& e :
         outliers(unit.values, std::max<std::size_t>(1, n / one_in_most), flag_risk)) {
      if (std::abs(unit.values[e.index] - middle) <= resolution(unit, unit.rounds[e.index]))
        continue;
      const Reading& reading = furthest(unit, unit.rounds[e.index]);
      const auto index = static_cast<std::size_t>(&reading - test_.record.readings.data());
      found_.push_back({index, unit.setup, e.deviation, e.bound});
    }
  }

  /// What a step of the displays makes of a round's value: less than that is no deviation [ours].
  [[nodiscard]] double resolution(const UnitSetup& unit, const Round& round) const {
    double sum = 0.0;
    for (std::size_t p = 0; p < round.size(); ++p) {
      sum += std::abs(unit.contrast[p]) *
             (power_step_ / round[p]->power + sun_step_ / round[p]->irradiance).si();
    }
    return sum;
  }

  /// The reading of a round that lies furthest from the mean of its panel in the set-up.
  [[nodiscard]] const Reading& furthest(const UnitSetup& unit, const Round& round) const {
    std::size_t found = 0;
    double largest = -1.0;
    for (std::size_t p = 0; p < round.size(); ++p) {
      std::vector<double> q;
      for (const Round& each : unit.rounds)
        q.push_back(log_power(test_, *each[p]));
      const double off = std::abs(log_power(test_, *round[p]) - mean(q));
      if (off > largest) {
        largest = off;
        found = p;
      }
    }
    return *round[found];
  }

  const Test& test_;
  Power power_step_;
  Irradiance sun_step_;
  std::vector<Outlying> found_;
};

}  // namespace

std::vector<Outlying> outlying_readings(const Test& test, const PowerQuestion& question) {
  Finder finder(test);
  if (question.of == PowerQuestion::Of::siblings) {
    finder.add(collect_sibling_blocks(test, question).setups);
  } else {
    const StageBlocks blocks = collect_stage_blocks(test, question);
    finder.add(blocks.from);
    finder.add(blocks.to);
  }
  return finder.take();
}

}  // namespace hailwright
