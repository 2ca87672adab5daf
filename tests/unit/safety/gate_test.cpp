#include "hailwright/safety/gate.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <random>
#include <set>
#include <type_traits>

#include "hailwright/core/contract.hpp"
#include "hailwright/model/safety_questions.hpp"
#include "support/catch.hpp"
#include "support/gate_cases.hpp"

using namespace hailwright;
using namespace gate_cases;

// Nobody but the gate makes a clearance.
static_assert(!std::is_default_constructible_v<Clearance>);
static_assert(!std::is_constructible_v<Clearance, std::string, std::string>);
static_assert(!std::is_constructible_v<Clearance, const char*, const char*>);
static_assert(!std::is_aggregate_v<Clearance>);
static_assert(std::is_copy_constructible_v<Clearance>);

namespace {

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

std::set<std::string> joined(std::set<std::string> a, const std::set<std::string>& b) {
  a.insert(b.begin(), b.end());
  return a;
}

const std::set<std::string> of_every_launch{"launcher.unloaded_first",
                                            "launcher.pressure_part",
                                            "people.in_front",
                                            "people.others",
                                            "people.lookout",
                                            "people.children_away",
                                            "people.sober",
                                            "people.first_aid",
                                            "ground.owner_agrees",
                                            "ground.windows_and_cars",
                                            "eyes.everyone",
                                            "eyes.thrower",
                                            "panel.faces",
                                            "panel.leads",
                                            "panel.load",
                                            "panel.installed",
                                            "panel.high_voltage_test",
                                            "ice.handled_with",
                                            "ice.dry_ice",
                                            "after.panel_goes",
                                            "after.sold_or_installed",
                                            "after.charging",
                                            "agreed.by",
                                            "agreed.on"};
const std::set<std::string> of_a_flight{
    "launcher.aimed_up",  "people.thrower", "ground.misses_end_in", "ground.backstop",
    "ground.backstop_of", "ground.sides",   "ground.clear_ahead",   "ground.beyond_the_panel"};
const std::set<std::string> of_gas{"launcher.pressure", "launcher.volume", "launcher.vented_first",
                                   "launcher.ears"};

}  // namespace

TEST_CASE("gate: each kind of launcher is asked its own questions") {
  const std::set<std::string> machine =
      joined(joined(of_every_launch, of_a_flight), {"launcher.released_by", "launcher.inspected"});
  const std::map<Launcher, std::set<std::string>> expected{
      {Launcher::sling, machine},
      {Launcher::elastic, joined(machine, {"launcher.law_asked"})},
      {Launcher::spring, joined(machine, {"launcher.law_asked", "launcher.muzzle_clear"})},
      {Launcher::compressed_air,
       joined(joined(machine, of_gas), {"launcher.law_asked", "launcher.muzzle_clear"})},
      {Launcher::ball_machine, joined(machine, {"launcher.unplugged_to_clear"})},
      {Launcher::drop, joined(of_every_launch, {"launcher.dropped_from", "launcher.cordon_below"})},
      {Launcher::throw_by_hand, joined(of_every_launch, of_a_flight)},
      {Launcher::other, joined(machine, {"launcher.law_asked", "launcher.muzzle_clear"})}};
  CHECK(expected.size() == all_launchers.size());
  for (const auto& [launcher, wanted] : expected) {
    CAPTURE(static_cast<int>(launcher));
    CHECK(asked(dangers(launcher)) == wanted);
  }
  CHECK(asked(dangers(Launcher::sling)).size() == 34);
}

TEST_CASE("gate: whole answers pass, with any launcher at any energy below the refusal") {
  for (const Launcher launcher : all_launchers) {
    for (const double energy_J : {0.01, 0.5, 2.3, 8.9, 14.89, 14.9, 20.0, 33.89, 50.0, 78.62}) {
      CAPTURE(static_cast<int>(launcher), energy_J);
      const GateResult result = Gate::ask(all(launcher), dangers(launcher, energy_J), today);
      CHECK(result.refusals.empty());
      CHECK(result.snippet.empty());
      if (launcher == Launcher::throw_by_hand && energy_J >= 14.9) {
        CHECK(keys(result) == std::set<std::string>{"launcher.released_by"});
        CHECK_THAT(result.findings[0].wanted, Contains("not thrown by hand"));
        continue;
      }
      CHECK(keys(result) == std::set<std::string>{});
      REQUIRE(result.clearance);
      CHECK(result.clearance->agreed_by() == "MK");
      CHECK(result.clearance->agreed_on() == safety_answers::day);
    }
  }
}

TEST_CASE("gate: every question missing, one at a time, keeps the gate shut") {
  for (const Launcher launcher : all_launchers) {
    for (const double energy_J : {8.9, 40.0}) {
      if (launcher == Launcher::throw_by_hand && energy_J > 14.9) continue;
      PlanDangers d = dangers(launcher, energy_J);
      d.cold_voltages.emplace_back();  // asks for gloves and wiring
      const std::set<std::string> questions = asked(d);
      CHECK(questions.size() > 25);
      for (const SafetyQuestion& q : safety_questions()) {
        const std::string key = std::string(q.block) + "." + std::string(q.key);
        CAPTURE(static_cast<int>(launcher), energy_J, key);
        SafetyAnswers answers = all(launcher);
        remove(answers, q.block, q.key);
        const GateResult result = Gate::ask(answers, d, today);
        // With a backstop nobody asks for clear ground.
        const bool needed = questions.count(key) == 1 && key != "ground.clear_ahead";
        CHECK(result.clearance.has_value() != needed);
        CHECK(keys(result).count(key) == (needed ? 1 : 0));
        for (const GateFinding& f : result.findings) {
          if (name(f) != key) continue;
          CHECK(f.fault == AnswerFault::missing);
          CHECK(f.found.empty());
          CHECK_FALSE(f.wanted.empty());
          CHECK(f.where.line == 1);
        }
      }
    }
  }
}

TEST_CASE("gate: 78.63 J and more is refused whatever is answered") {
  struct Row {
    double energy_J;
    bool refused;
  };
  const Row row =
      GENERATE(Row{78.62, false}, Row{78.63, true}, Row{78.64, true}, Row{1000.0, true});
  CAPTURE(row.energy_J);
  for (const Launcher launcher : all_launchers) {
    if (launcher == Launcher::throw_by_hand) continue;
    const GateResult result = Gate::ask(all(launcher), dangers(launcher, row.energy_J), today);
    CHECK(result.findings.empty());
    CHECK(result.clearance.has_value() != row.refused);
    REQUIRE(result.refusals.size() == (row.refused ? 1U : 0U));
    if (row.refused) {
      CHECK(result.refusals[0].refusal == Refusal::lethal_energy);
      CHECK(result.refusals[0].hazard == "body_hit_lethal");
      CHECK(result.refusals[0].where.line == 9);
      CHECK_THAT(result.refusals[0].found, Contains(" J at the muzzle"));
    }
  }
}

// 74 J with 5 % more mass and 5 % more speed: 74 x 1.05^3 = 85.7 J [computed].
TEST_CASE("gate: the corner of the tolerances counts, not the middle") {
  const double mass_kg = 0.1, speed_mps = std::sqrt(2.0 * 74.0 / mass_kg);
  const double corner_J = 0.5 * (1.05 * mass_kg) * std::pow(1.05 * speed_mps, 2);
  CHECK_THAT(corner_J, WithinAbs(85.7, 0.05));
  const SafetyAnswers answers = all(Launcher::spring);
  CHECK(clears(answers, dangers(Launcher::spring, 74.0)));
  CHECK_FALSE(clears(answers, dangers(Launcher::spring, corner_J)));
}

TEST_CASE("gate: a plastic part under pressure is refused whatever else is answered") {
  for (const Launcher launcher : all_launchers) {
    for (const bool whole : {true, false}) {
      CAPTURE(static_cast<int>(launcher), whole);
      SafetyAnswers answers = whole ? all(launcher) : SafetyAnswers{};
      set(answers, "launcher", "pressure_part", "any plastic part");
      const GateResult result = Gate::ask(answers, dangers(launcher, 0.5), today);
      CHECK_FALSE(result.clearance);
      REQUIRE(result.refusals.size() == 1);
      CHECK(result.refusals[0].refusal == Refusal::plastic_pressure);
      CHECK(result.refusals[0].hazard == "pvc_pressure");
      CHECK(result.refusals[0].where.line == 2);
    }
  }
}

TEST_CASE("gate: installed panels, people forward and high-voltage tests are refused") {
  struct Row {
    const char* block;
    const char* key;
    const char* answer;
    Refusal refusal;
    const char* hazard;
  };
  const Row row = GENERATE(
      Row{"panel", "installed", "yes", Refusal::installed_panel, "installed_array"},
      Row{"people", "in_front", "somebody", Refusal::people_forward, "body_hit_any"},
      Row{"ground", "beyond_the_panel", "somebody", Refusal::people_forward, "body_hit_any"},
      Row{"panel", "high_voltage_test", "yes", Refusal::high_voltage_test, "hv_test"});
  CAPTURE(row.key);
  for (const Launcher launcher : all_launchers) {
    const bool beyond = std::string(row.key) == "beyond_the_panel";
    SafetyAnswers answers = all(launcher);
    set(answers, row.block, row.key, row.answer);
    const GateResult result = Gate::ask(answers, dangers(launcher, 0.5), today);
    if (beyond && launcher == Launcher::drop) {
      CHECK(result.clearance);  // nothing flies beyond
      continue;
    }
    CHECK_FALSE(result.clearance);
    REQUIRE(result.refusals.size() == 1);
    CHECK(result.refusals[0].refusal == row.refusal);
    CHECK(result.refusals[0].hazard == row.hazard);
    CHECK_THAT(result.refusals[0].found, Contains(row.answer));
  }
}

TEST_CASE("gate: answers older than 30 days, or of a day to come, are asked again") {
  struct Row {
    const char* on;
    const char* now;
    bool enough;
  };
  const Row row =
      GENERATE(Row{"2026-06-14", "2026-06-14", true}, Row{"2026-05-15", "2026-06-14", true},
               Row{"2026-05-14", "2026-06-14", false}, Row{"2026-06-15", "2026-06-14", false},
               Row{"2027-06-14", "2026-06-14", false}, Row{"2028-01-30", "2028-02-29", true},
               Row{"2028-01-29", "2028-02-29", false}, Row{"2025-12-20", "2026-01-19", true},
               Row{"2025-12-19", "2026-01-19", false}, Row{"1926-06-14", "2026-06-14", false});
  CAPTURE(row.on, row.now);
  SafetyAnswers answers = all(Launcher::sling);
  set(answers, "agreed", "on", row.on);
  const GateResult result = Gate::ask(answers, dangers(Launcher::sling), row.now);
  CHECK(result.clearance.has_value() == row.enough);
  if (!row.enough) {
    REQUIRE(result.findings.size() == 1);
    CHECK(result.findings[0].fault == AnswerFault::too_old);
    CHECK(result.findings[0].found == row.on);
    CHECK(result.findings[0].hazard.empty());
    CHECK(result.snippet ==
          std::vector<std::string>{"  agreed:  # add to the block that is there",
                                   "    # day of the answers: the day on which this was answered, "
                                   "at most 30 days ago",
                                   "    on: ???  # in place of the line that is there"});
  }
}

TEST_CASE("gate: bounds that are no numbers, and a day that is none, are our bugs") {
  const SafetyAnswers answers = all(Launcher::sling);
  const auto with = [&](auto change) {
    PlanDangers d = dangers(Launcher::sling);
    change(d);
    CHECK_THROWS_AS(Gate::ask(answers, d, today), BugError);
  };
  with([](PlanDangers& d) { d.muzzle_energy = Energy::from_si(not_a_number); });
  with([](PlanDangers& d) { d.muzzle_energy = Energy::from_si(-1.0); });
  with([](PlanDangers& d) {
    d.muzzle_energy = Energy::from_si(std::numeric_limits<double>::infinity());
  });
  with([](PlanDangers& d) { d.per_area = EnergyPerArea::from_si(not_a_number); });
  with([](PlanDangers& d) { d.no_air_reach = Length::from_si(not_a_number); });
  with([](PlanDangers& d) { d.drop_height = Length::from_si(not_a_number); });
  with([](PlanDangers& d) { d.panel_long_side = Length::from_si(not_a_number); });
  with([](PlanDangers& d) { d.cold_voltages = {Voltage::from_si(not_a_number)}; });
  with([](PlanDangers& d) { d.muzzle_energy = Energy{}; });
  with([](PlanDangers& d) { d.no_air_reach = Length{}; });
  CHECK_THROWS_AS(Gate::ask(answers, PlanDangers{}, today), BugError);
  CHECK_THROWS_AS(Gate::ask(answers, dangers(Launcher::sling), "today"), BugError);
}

TEST_CASE(
    "gate: each finding names a caution of the plan, and the order is that of the questions") {
  for (const Launcher launcher : all_launchers) {
    for (const double energy_J : {0.05, 8.9, 40.0}) {
      const PlanDangers d = dangers(launcher, energy_J);
      std::set<std::string> shown;
      for (const Caution* c : plan_hazards(d, {}))
        shown.emplace(c->id);
      const GateResult result = Gate::ask({}, d, today);
      CHECK(result.findings.size() == keys(result).size());
      std::ptrdiff_t last = -1;
      for (const GateFinding& f : result.findings) {
        CAPTURE(static_cast<int>(launcher), energy_J, f.block, f.key, f.hazard);
        const auto at = find_safety_question(f.block, f.key) - safety_questions().data();
        CHECK(at > last);
        last = at;
        CHECK(f.where.line == 9);  // no answers at all: the place of the launch
        if (f.block == "agreed") {
          CHECK(f.hazard.empty());
        } else if (f.key == "pressure_part" || f.key == "dry_ice") {
          CHECK(f.hazard == (f.key == "dry_ice" ? "dry_ice" : "pvc_pressure"));  // asked of all
        } else if (!(f.block == "eyes" || f.key == "others" || f.key == "released_by")) {
          CHECK(shown.count(f.hazard) == 1);
        }
      }
    }
  }
  const auto hazard = [](Launcher launcher, double energy_J, const std::string& key) {
    for (const GateFinding& f : Gate::ask({}, dangers(launcher, energy_J), today).findings)
      if (f.key == key) return f.hazard;
    return std::string("not asked");
  };
  CHECK(hazard(Launcher::sling, 2.3, "released_by") == "elastic_launcher");
  CHECK(hazard(Launcher::sling, 20.0, "released_by") == "body_hit_serious");
  CHECK(hazard(Launcher::ball_machine, 2.3, "inspected") == "ball_machine");
  CHECK(hazard(Launcher::compressed_air, 2.3, "inspected") == "stored_air_energy");
  CHECK(hazard(Launcher::sling, 0.1, "everyone") == "fragments");
  CHECK(hazard(Launcher::sling, 2.3, "everyone") == "eye_protection_low");
  CHECK(hazard(Launcher::sling, 2.3, "first_aid") == "work_alone");
  CHECK(hazard(Launcher::sling, 9.0, "first_aid") == "heart_blow");
}

TEST_CASE("gate: the same as messages at their places") {
  PlanDangers d = dangers(Launcher::sling, 80.2);
  SafetyAnswers answers = all(Launcher::sling);
  remove(answers, "people", "lookout");
  set(answers, "people", "others", "nearer");
  set(answers, "agreed", "on", "2026-04-01");
  const Diagnostics notes = gate_messages(Gate::ask(answers, d, today));
  std::map<std::string, Diagnostic> by_code;
  for (const Diagnostic& note : notes.items())
    by_code.emplace(std::string(note.code), note);
  REQUIRE(notes.items().size() == 4);
  REQUIRE(by_code.size() == 4);
  CHECK_THAT(by_code.at("S05").message, Contains("80.20 J at the muzzle"));
  CHECK(by_code.at("S05").hints.at(0) == std::string(caution("body_hit_lethal").text));
  CHECK(
      by_code.at("S02").message ==
      "safety: people: lookout is not answered: does a second adult do nothing but watch the zone "
      "and call all-clear");
  CHECK(by_code.at("S02").hints.at(0) == "wanted is yes");
  CHECK(by_code.at("S02").where.line == 1);
  CHECK(by_code.at("S03").message == "safety: people: others is not enough: \"nearer\"");
  CHECK(by_code.at("S03").where.line == 2);
  CHECK_THAT(by_code.at("S04").message, Contains("2026-04-01"));
}

TEST_CASE("gate: taking an answer away never opens the gate") {
  std::mt19937 random(20260614);  // the bits of this generator are fixed by the standard
  const auto pick = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  const std::vector<double> energies{0.5, 2.3, 5.0, 8.9, 15.0, 40.0, 78.62, 78.63};
  int shut = 0, open = 0;
  for (int trial = 0; trial < 1500; ++trial) {
    const Launcher launcher = all_launchers[pick(all_launchers.size())];
    PlanDangers d = dangers(launcher, energies[pick(energies.size())]);
    if (pick(4) == 0) d.cold_voltages = {std::nullopt};
    if (pick(8) == 0) d.cold_voltages = {Voltage::from_si(130.0)};
    SafetyAnswers answers = all(launcher);
    const std::size_t changes = pick(4);
    for (std::size_t i = 0; i < changes; ++i) {
      const SafetyQuestion& q = safety_questions()[pick(safety_questions().size())];
      if (!q.words.empty()) {
        set(answers, q.block, q.key, q.words[pick(q.words.size())]);
      } else if (q.form == AnswerForm::yes_no) {
        set(answers, q.block, q.key, pick(2) == 0 ? "yes" : "no");
      } else {
        remove(answers, q.block, q.key);
      }
    }
    const bool cleared = Gate::ask(answers, d, today).clearance.has_value();
    ++(cleared ? open : shut);
    if (cleared) continue;
    for (const SafetyQuestion& q : safety_questions()) {
      SafetyAnswers fewer = answers;
      remove(fewer, q.block, q.key);
      CAPTURE(trial, q.block, q.key);
      if (Gate::ask(fewer, d, today).clearance) FAIL("one answer less opened the gate");
    }
  }
  CHECK(shut > 200);
  CHECK(open > 200);
}
