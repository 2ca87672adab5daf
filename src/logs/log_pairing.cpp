#include "hailwright/logs/log_pairing.hpp"

#include <cmath>
#include <utility>

#include "logs/log_follower.hpp"

namespace hailwright {

namespace {

std::int64_t whole_us(Time time) {
  return std::llround(time.si() * 1e6);
}

}  // namespace

class LogPairing::Work {
public:
  Work(NextBlock first, NextBlock second, Time offset, Time longest_gap)
      : first_(std::move(first)),
        second_(std::move(second), whole_us(offset), whole_us(longest_gap)) {}

  bool next(LogBlock& into) {
    if (!first_(into)) return false;
    std::vector<double>& power = into.values[index_of(LogRole::power_beside)];
    std::vector<double>& temperature = into.values[index_of(LogRole::temperature_beside)];
    power.resize(into.rows());
    temperature.resize(into.rows());
    for (std::size_t row = 0; row < into.rows(); ++row) {
      const detail::LogFollower::Values values = second_.at(into.time_us[row]);
      power[row] = values.power;
      temperature[row] = values.temperature;
    }
    if (!second_.has_temperature()) temperature.clear();
    return true;
  }

private:
  NextBlock first_;
  detail::LogFollower second_;
};

LogPairing::LogPairing(NextBlock first, NextBlock second, Time offset, Time longest_gap)
    : work_(std::make_unique<Work>(std::move(first), std::move(second), offset, longest_gap)) {}
LogPairing::~LogPairing() = default;

bool LogPairing::next(LogBlock& into) {
  return work_->next(into);
}

}  // namespace hailwright
