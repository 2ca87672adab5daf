#include "hailwright/logs/log_format.hpp"

#include <algorithm>

#include "hailwright/core/contract.hpp"

namespace hailwright {

std::string_view word_of(LogRole role) {
  constexpr std::array<std::string_view, log_roles> words{"time",
                                                          "date",
                                                          "clock",
                                                          "power",
                                                          "voltage",
                                                          "current",
                                                          "irradiance",
                                                          "temperature",
                                                          "energy",
                                                          "power_beside",
                                                          "temperature_beside",
                                                          "marker"};
  expects(index_of(role) < words.size(), "a role of a log's column");
  return words[index_of(role)];
}

std::optional<Measure> measure_of(LogRole role) {
  switch (role) {
  case LogRole::time:
  case LogRole::date:
  case LogRole::clock:
  case LogRole::marker:
    return std::nullopt;
  case LogRole::power:
  case LogRole::power_beside:
    return Measure::power;
  case LogRole::voltage:
    return Measure::voltage;
  case LogRole::current:
    return Measure::current;
  case LogRole::irradiance:
    return Measure::irradiance;
  case LogRole::temperature:
  case LogRole::temperature_beside:
    return Measure::temperature;
  case LogRole::energy:
    return Measure::energy;
  }
  fail_contract("unknown role of a log's column");
}

const LogColumn* LogShape::column(LogRole role) const {
  const auto found = std::find_if(used.begin(), used.end(),
                                  [&](const LogColumn& each) { return each.role == role; });
  return found == used.end() ? nullptr : &*found;
}

}  // namespace hailwright
