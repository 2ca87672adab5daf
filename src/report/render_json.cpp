#include "hailwright/report/compose.hpp"
#include "report/json_values.hpp"

namespace hailwright {

using json::dump;
using json::estimate;
using json::finite;
using json::Json;
using json::value;

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
  j["cautions"] = json::caution_list(a.cautions);
  return dump(j);
}

}  // namespace hailwright
