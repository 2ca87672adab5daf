#include "hailwright/core/contract.hpp"
#include "hailwright/report/compose_threshold.hpp"
#include "report/json_values.hpp"
#include "report/threshold_sentences.hpp"

namespace hailwright {

using json::finite;
using json::Json;
using json::or_null;
using json::value;

namespace {

std::string_view id(ThresholdObstacle obstacle) {
  switch (obstacle) {
  case ThresholdObstacle::few_damaged:
    return "few_damaged";
  case ThresholdObstacle::few_undamaged:
    return "few_not_damaged";
  case ThresholdObstacle::separated:
    return "separated";
  case ThresholdObstacle::not_rising:
    return "not_rising";
  }
  fail_contract("unknown obstacle of a threshold");
}

std::string_view id(StaircaseObstacle obstacle) {
  switch (obstacle) {
  case StaircaseObstacle::none:
    return "none";
  case StaircaseObstacle::off_grid:
    return "off_grid";
  case StaircaseObstacle::rule_broken:
    return "rule_broken";
  case StaircaseObstacle::few_tests:
    return "few_tests";
  case StaircaseObstacle::one_outcome:
    return "one_outcome";
  case StaircaseObstacle::scale_too_low:
    return "scale_too_low";
  case StaircaseObstacle::scale_too_high:
    return "scale_too_high";
  }
  fail_contract("unknown obstacle of a staircase");
}

std::string_view id(NextObstacle obstacle) {
  switch (obstacle) {
  case NextObstacle::none:
    return "none";
  case NextObstacle::no_staircase:
    return "no_staircase";
  case NextObstacle::between_levels:
    return "between_levels";
  case NextObstacle::too_little:
    return "too_little";
  case NextObstacle::gate_closed:
    return "gate_closed";
  case NextObstacle::launcher_too_slow:
    return "launcher_too_slow";
  }
  fail_contract("unknown obstacle of a next specimen");
}

/// An end that the data do not bound is null.
Json interval_json(const EnergyInterval& interval) {
  return {{"low", value(interval.low, "J")},
          {"high", value(interval.high, "J")},
          {"level", threshold_level}};
}

Json energy_json(const ThresholdEnergy& energy) {
  return {{"share_damaged", energy.share},
          {"estimate", value(std::optional(energy.estimate), "J")},
          {"interval", interval_json(energy.interval)},
          {"interval_with_shared_error",
           energy.with_shared_error ? interval_json(*energy.with_shared_error) : Json(nullptr)},
          {"below_all_tests", energy.below_all_tests},
          {"sentence", threshold_sentence(energy)}};
}

Json estimate_json(const ThresholdEstimate& e) {
  return {{"method", "probit of damage on ln energy, maximum likelihood, profile likelihood"},
          {"location_ln_joule", finite(e.fit.location)},
          {"scale_ln", finite(e.fit.scale)},
          {"scale_interval",
           {{"low", or_null(e.scale.low)},
            {"high", or_null(e.scale.high)},
            {"level", threshold_level}}},
          {"log_likelihood", finite(e.fit.log_likelihood)},
          {"shows_threshold", shows_threshold(e)},
          {"e10", energy_json(e.e10)},
          {"e50", energy_json(e.e50)}};
}

Json staircase_json(const StaircaseResult& s, const Specimens& specimens) {
  return {{"start", value(std::optional(specimens.staircase->start), "J")},
          {"step", finite(specimens.staircase->step.si())},
          {"obstacle", id(s.sums.obstacle)},
          {"e50", value(s.e50, "J")},
          {"scale_ln", or_null(s.scale)},
          {"counted", s.sums.counted},
          {"counts_damaged", s.sums.counts_ones},
          {"sentence", staircase_sentence(s, specimens)}};
}

Json tests_json(const Specimens& specimens) {
  Json list = Json::array();
  for (const SpecimenTest& test : specimens.tests) {
    Json j{{"specimen", test.specimen},
           {"energy", value(std::optional(test.energy), "J")},
           {"mass", value(test.mass, "g", 1000.0)},
           {"speed", value(test.speed, "m/s")},
           {"damaged", test.damaged},
           {"note", test.note}};
    const auto u = log_energy_u(test, specimens);
    j["relative_standard_uncertainty"] = or_null(u);
    list.push_back(std::move(j));
  }
  return list;
}

/// The energy alone, and only with a clearance.
Json next_json(const ThresholdAnswer& answer) {
  Json j{{"energy", nullptr}, {"upper_at_muzzle", nullptr}, {"obstacle", "no_protocol"}};
  if (answer.next) j["obstacle"] = id(answer.next->obstacle);
  if (answer.next && answer.next->next) {
    j["energy"] = value(std::optional(answer.next->next->energy), "J");
    j["upper_at_muzzle"] = value(std::optional(answer.next->next->upper_at_muzzle), "J");
  }
  j["sentence"] = next_sentence(answer);
  j["to_copy"] = next_to_copy(answer);
  return j;
}

Json obstacles_json(const DamageThreshold& t) {
  Json list = Json::array();
  for (const ThresholdObstacle obstacle : t.obstacles)
    list.push_back({{"id", id(obstacle)}, {"sentence", obstacle_sentence(obstacle, t)}});
  return list;
}

}  // namespace

std::string threshold_json(const ThresholdAnswer& answer) {
  const DamageThreshold& t = answer.threshold;
  Json j;
  j["schema"] = "hailwright threshold 1";
  j["title"] = answer.specimens->title;
  j["damage"] = answer.specimens->damage;
  j["damaged"] = t.damaged;
  j["not_damaged"] = t.undamaged;
  j["bracket"] = {{"highest_without_damage", value(t.bracket.highest_undamaged, "J")},
                  {"lowest_damaged", value(t.bracket.lowest_damaged, "J")},
                  {"separated", t.bracket.separated()},
                  {"sentence", bracket_sentence(t.bracket)}};
  j["estimate"] = t.estimate ? estimate_json(*t.estimate) : Json(nullptr);
  j["obstacles"] = obstacles_json(t);
  j["staircase"] = t.staircase ? staircase_json(*t.staircase, *answer.specimens) : Json(nullptr);
  j["energy_uncertainty"] = {
      {"largest_relative", t.doubt ? Json(finite(t.doubt->largest_u)) : Json(nullptr)},
      {"of_scatter", t.doubt ? or_null(t.doubt->of_scale) : Json(nullptr)},
      {"notable", t.doubt && t.doubt->notable()},
      {"sentence", doubt_sentence(t)}};
  j["tests"] = tests_json(*answer.specimens);
  j["next"] = next_json(answer);
  j["scope"] = threshold_scope_sentence();
  j["cautions"] = json::caution_list(answer.cautions);
  return json::dump(j);
}

}  // namespace hailwright
