#include <nlohmann/json.hpp>

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/compose.hpp"

namespace hailwright {

namespace {

using Json = nlohmann::ordered_json;

/// The library writes NaN as null without a word; a number that is none is our bug.
double finite(double value) {
  expects(std::isfinite(value), "a number in JSON is finite");
  return value;
}

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

Json caution_json(const std::vector<const Caution*>& cautions) {
  Json list = Json::array();
  for (const Caution* c : cautions) {
    list.push_back({{"id", c->id},
                    {"hazard", c->hazard},
                    {"text", c->text},
                    {"source", c->source},
                    {"status", text(c->status)}});
  }
  return list;
}

std::string dump(const Json& j) {
  return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace

std::string grades_json(std::string_view scheme) {
  Json rows = Json::array();
  for (const Grade& g : impact_grades()) {
    if (!scheme.empty() && g.scheme != scheme) continue;
    rows.push_back({{"scheme", g.scheme},
                    {"grade", g.name},
                    {"label", grade_label(g)},
                    {"projectile", text(g.projectile)},
                    {"diameter", value(std::optional(g.diameter), "mm", 1000.0)},
                    {"mass", value(std::optional(g.mass), "g", 1000.0)},
                    {"speed", value(g.speed, "m/s")},
                    {"energy_computed", value(g.energy(), "J")},
                    {"energy_printed", value(g.printed, "J")},
                    {"tolerance", value(g.tolerance, "1")},
                    {"status",
                     {{"row", text(g.status)},
                      {"diameter", text(g.diameter_status)},
                      {"mass", text(g.mass_status)},
                      {"speed", text(g.speed_status)},
                      {"energy", text(g.energy_status)}}},
                    {"source", g.citation},
                    {"note", g.note}});
  }
  Json sources = Json::array();
  for (const Citation& c : impact_grade_sources()) {
    sources.push_back({{"id", c.id},
                       {"title", c.title},
                       {"read_at", c.read_at},
                       {"status", text(c.status)},
                       {"note", c.note}});
  }
  return dump(Json{{"schema", "hailwright grades 1"}, {"grades", rows}, {"sources", sources}});
}

std::string shot_json(const ShotAnswer& a) {
  Json j;
  j["schema"] = "hailwright shot 1";
  j["diameter"] = estimate(a.question.diameter, "mm", 1000.0);
  j["mass"] = estimate(a.mass, "g", 1000.0);
  j["mass"]["from_diameter"] = a.mass_from_diameter;
  j["speed"] = estimate(a.question.speed, "m/s");
  j["density"] = estimate(a.density, "g/cm3", 0.001);
  j["density"]["believable_ice"] = a.density_believable;
  j["energy"] = estimate(a.energy, "J");
  if (a.normal_share) j["normal_energy_share"] = finite(a.normal_share->si());
  j["momentum"] = estimate(a.momentum, "kg m/s");
  j["energy_per_cross_section"] = {{"value", finite(a.per_area.si())}, {"unit", "J/m2"}};
  j["equal_energy_hailstone"] = {{"smallest", finite(a.hailstone_smallest.si() * 1000.0)},
                                 {"largest", finite(a.hailstone_largest.si() * 1000.0)},
                                 {"unit", "mm"}};
  Json grades = Json::array();
  for (const GradeShare& g : a.grades) {
    grades.push_back({{"label", grade_label(*g.grade)},
                      {"energy", value(g.grade->energy(), "J")},
                      {"share", finite(g.share.value.si())},
                      {"standard_uncertainty", finite(g.share.standard_u.si())},
                      {"status", text(g.grade->status)}});
  }
  j["grades"] = grades;
  j["cautions"] = caution_json(a.cautions);
  return dump(j);
}

}  // namespace hailwright
