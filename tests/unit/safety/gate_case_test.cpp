#include "safety/gate_case.hpp"

#include "support/catch.hpp"
#include "support/gate_cases.hpp"

using namespace hailwright;
using namespace gate_cases;
using gate::Case;

// Energies beside the printed tests of the standards' summaries (EN 166: 0.86 g at 45, 120 and
// 190 m/s; Z87.1: 6.35 mm steel ball at 150, 250 and 300 ft/s), computed by hand, rounded down.
TEST_CASE("gate_case: what eyewear is proved with") {
  struct Row {
    const char* word;
    double joule;
    bool side_cover, shield;
  };
  const Row row = GENERATE(
      Row{"spectacles EN 166 S", 0.55, false, false},
      Row{"spectacles EN 166 F", 0.87, false, false}, Row{"spectacles Z87+", 1.09, false, false},
      Row{"goggles Z87+", 3.05, true, false}, Row{"goggles EN 166 B", 6.19, true, false},
      Row{"face shield Z87+", 4.39, false, false}, Row{"face shield EN 166 A", 15.52, false, false},
      Row{"face shield Z87+ over goggles", 4.39, true, true},
      Row{"face shield EN 166 A over goggles", 15.52, true, true});
  CAPTURE(row.word);
  const auto proved = gate::proved_with(row.word);
  REQUIRE(proved);
  CHECK_THAT(proved->si(), WithinAbs(row.joule, 1e-9));
  CHECK(gate::has_side_cover(row.word) == row.side_cover);
  CHECK(gate::is_shield_over_goggles(row.word) == row.shield);
}

TEST_CASE("gate_case: other words are proved with nothing") {
  for (const char* word : {"", "sunglasses", "goggles", " over goggles", "goggles, EN 166 B",
                           "goggles EN 166 B over goggles", "over goggles"}) {
    CAPTURE(word);
    CHECK_FALSE(gate::proved_with(word));
    CHECK_FALSE(gate::is_shield_over_goggles(word));
  }
}

TEST_CASE("gate_case: answers, amounts and voltages") {
  PlanDangers d = dangers(Launcher::spring);
  SafetyAnswers answers = all(Launcher::spring);
  const Case c(answers, d, 0);
  CHECK(c.is("people", "in_front", "nobody"));
  CHECK_FALSE(c.is("people", "in_front", "somebody"));
  CHECK_FALSE(c.is("people", "no_such_key", ""));
  CHECK(c.answer("no_block", "key") == nullptr);
  CHECK(c.pressure() == Pressure::from_si(4e5));
  CHECK(c.volume() == Volume::from_si(0.002));
  for (const char* bad : {"0 bar", "-1 bar", "4", "high"}) {
    set(answers, "launcher", "pressure", bad);
    CHECK_FALSE(c.pressure());
  }
  CHECK_FALSE(c.holds_gas());
  set(answers, "launcher", "pressure_part", "something else");
  CHECK(c.holds_gas());

  CHECK(c.highest_voltage() == Voltage::from_si(24.3));
  CHECK_FALSE(c.a_voltage_is_unknown());
  CHECK_FALSE(c.voltage_from(Voltage::from_si(24.4)));
  CHECK(c.voltage_from(Voltage::from_si(24.3)));
  d.cold_voltages.emplace_back();
  CHECK(c.a_voltage_is_unknown());
  CHECK(c.voltage_from(Voltage::from_si(100.0)));
  d.cold_voltages.clear();
  CHECK_FALSE(c.highest_voltage());
  CHECK(c.a_voltage_is_unknown());
}

TEST_CASE("gate_case: eyewear that is not known is outdone") {
  PlanDangers d = dangers(Launcher::spring, 6.18);
  SafetyAnswers answers;
  const Case c(answers, d, 0);
  CHECK(c.outdoes_eyewear("everyone"));
  set(answers, "eyes", "everyone", "sunglasses");
  CHECK(c.outdoes_eyewear("everyone"));
  set(answers, "eyes", "everyone", "goggles EN 166 B");
  CHECK_FALSE(c.outdoes_eyewear("everyone"));
  d.muzzle_energy = Energy::from_si(6.19);
  CHECK(c.outdoes_eyewear("everyone"));
  set(answers, "eyes", "everyone", "face shield EN 166 A over goggles");
  CHECK_FALSE(c.outdoes_eyewear("everyone"));
  d.muzzle_energy = CautionLimits::eyewear_high;
  CHECK(c.outdoes_eyewear("everyone"));
}
