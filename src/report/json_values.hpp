#pragma once

#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/estimate.hpp"
#include "hailwright/safety/cautions.hpp"

// The door to the JSON library: numbers with their unit, checked to be numbers.

namespace hailwright::json {

using Json = nlohmann::ordered_json;

/// The library writes NaN as null without a word; a number that is none is our bug.
inline double finite(double value) {
  expects(std::isfinite(value), "a number in JSON is finite");
  return value;
}

/// A flag, a count or words; null when there are none.
template <class T>
Json or_null(const std::optional<T>& value) {
  return value ? Json(*value) : Json(nullptr);
}

/// An amount in a unit; null when there is none.
template <class Q>
Json value(const std::optional<Q>& q, const char* unit, double per_si = 1.0) {
  if (!q) return nullptr;
  return Json{{"value", finite(q->si() * per_si)}, {"unit", unit}};
}

template <class Q>
Json estimate(const Estimate<Q>& e, const char* unit, double per_si = 1.0) {
  Json j{{"value", finite(e.value.si() * per_si)}, {"unit", unit}};
  j["standard_uncertainty"] = finite(e.standard_u.si() * per_si);
  j["relative_standard_uncertainty"] = finite(e.relative_u());
  return j;
}

Json caution_list(const std::vector<const Caution*>& cautions);

/// Two blanks a level, a line break at the end; bytes that are no UTF-8 are replaced.
std::string dump(const Json& j);
/// The same in one line.
std::string dump_line(const Json& j);

}  // namespace hailwright::json
