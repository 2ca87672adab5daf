#include <algorithm>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/compose_speed.hpp"
#include "report/json_values.hpp"

namespace hailwright {

using json::dump;
using json::estimate;
using json::finite;
using json::Json;
using json::value;

namespace {

std::string_view warning_id(SpeedWarning warning) {
  switch (warning) {
  case SpeedWarning::few_frames:
    return "few_frames";
  case SpeedWarning::shutter_not_known:
    return "shutter_not_known";
  case SpeedWarning::blurred:
    return "blurred";
  case SpeedWarning::weak_drop:
    return "weak_drop";
  case SpeedWarning::not_measured:
    return "not_measured";
  }
  fail_contract("unknown warning of a speed");
}

Json terms_json(std::vector<SpeedTerm> terms) {
  std::stable_sort(terms.begin(), terms.end(),
                   [](const SpeedTerm& a, const SpeedTerm& b) { return a.u > b.u; });
  Json list = Json::array();
  for (const SpeedTerm& t : terms) {
    list.push_back({{"id", id(t.from)},
                    {"label", text(t.from)},
                    {"relative_standard_uncertainty", finite(t.u)},
                    {"shared", t.shared}});
  }
  return list;
}

Json assumed_json(const Assumptions& assumptions) {
  Json list = Json::array();
  for (const DefaultId used : assumptions.used()) {
    const DefaultRow& row = default_row(used);
    const auto energy = assumptions.on_energy(used);
    list.push_back({{"what", row.what},
                    {"taken", row.taken},
                    {"adds_to_relative_uncertainty",
                     energy ? Json(finite(0.5 * energy->si())) : Json(nullptr)},
                    {"status", text(row.status)}});
  }
  return list;
}

Json speed_value(const Estimate<Speed>& e) {
  Json j = estimate(e, "m/s");
  j["half_width_k2"] = finite(2.0 * e.standard_u.si());
  return j;
}

}  // namespace

std::string speed_json(const SpeedAnswer& a) {
  const Speed v = a.measured.value;
  Json j;
  j["schema"] = "hailwright speed 1";
  j["speed"] = speed_value({v, v * a.measured.standard_u()});
  j["speed"]["supports_grade"] = a.measured.supports_grade;
  j["terms"] = terms_json(a.measured.terms);
  j["at_panel"] = a.at_panel ? speed_value(*a.at_panel) : Json(nullptr);
  j["motion_blur"] = value(a.blur, "mm", 1000.0);
  Json warnings = Json::array();
  for (const SpeedWarning w : a.warnings)
    warnings.push_back(warning_id(w));
  j["warnings"] = warnings;
  j["assumed"] = assumed_json(a.assumptions);
  j["cautions"] = json::caution_list(a.cautions);
  return dump(j);
}

}  // namespace hailwright
