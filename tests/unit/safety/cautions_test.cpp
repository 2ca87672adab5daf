#include "hailwright/safety/cautions.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <limits>
#include <set>
#include <sstream>
#include <string>

#include "hailwright/core/contract.hpp"
#include "hailwright/model/stress.hpp"
#include "hailwright/safety/yardsticks.hpp"
#include "support/catch.hpp"

using namespace hailwright;
namespace fs = std::filesystem;

namespace {

/// "static load" stands in static_load.cpp.
std::string file_of(std::string_view id) {
  for (const StressKind& kind : stress_kinds()) {
    for (const StressCaution& c : kind.cautions) {
      if (c.id != id) continue;
      std::string name(kind.word);
      std::replace(name.begin(), name.end(), ' ', '_');
      return name + ".cpp";
    }
  }
  return id == "shaded_part" ? "cautions_shade.cpp" : "cautions.cpp";
}

bool shows(const CautionFacts& facts, std::string_view id) {
  const auto shown = cautions_for(facts);
  return std::any_of(shown.begin(), shown.end(), [id](const Caution* c) { return c->id == id; });
}

std::set<std::string> ids(const CautionFacts& facts) {
  std::set<std::string> all;
  for (const Caution* c : cautions_for(facts))
    all.emplace(c->id);
  return all;
}

std::string read_file(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  REQUIRE(in);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// Source text with adjacent string literals joined, as the compiler joins them.
std::string joined_literals(const std::string& source) {
  std::string joined;
  for (std::size_t i = 0; i < source.size(); ++i) {
    if (source[i] == '"') {
      const std::size_t next = source.find_first_not_of(" \t\r\n", i + 1);
      if (next != std::string::npos && next > i + 1 && source[next] == '"') {
        i = next;
        continue;
      }
    }
    joined += source[i];
  }
  return joined;
}

std::string lower(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return out;
}

double just_below(double value) {
  return std::nextafter(value, -std::numeric_limits<double>::infinity());
}
double just_above(double value) {
  return std::nextafter(value, std::numeric_limits<double>::infinity());
}

/// All known, nothing risky: what remains is always shown for a launch at a panel.
CautionFacts mild_test() {
  CautionFacts facts;
  facts.launches = true;
  facts.energy = Energy::from_si(0.05);
  facts.energy_per_area = EnergyPerArea::from_si(500.0);
  facts.launcher = Launcher::throw_by_hand;
  facts.panel_present = true;
  facts.open_voltage_cold = Voltage::from_si(24.3);
  facts.hottest_panel = TemperaturePoint::from_celsius(30.0);
  facts.panel_at_shots = TemperaturePoint::from_celsius(22.0);
  facts.ball = TemperaturePoint::from_celsius(-18.0);
  facts.dry_ice = false;
  facts.installed = false;
  facts.high_voltage_test = false;
  return facts;
}

const std::set<std::string> always_for_a_launch{"backstop", "bystanders", "missed_ball",
                                                "property", "work_alone", "fragments"};
const std::set<std::string> always_for_a_panel{"pv_energised", "arc", "hot_spot",
                                               "reuse_tested_panel", "heavy_metals"};

}  // namespace

TEST_CASE("each caution is whole and has an id of its own") {
  std::set<std::string_view> seen;
  std::set<std::string_view> texts;
  // 46 hazards less two that are not judged; one of shade and four more of other stresses.
  REQUIRE(all_cautions().size() == 49);
  for (const Caution& c : all_cautions()) {
    CAPTURE(c.id);
    CHECK(seen.insert(c.id).second);
    CHECK(texts.insert(c.text).second);
    CHECK_FALSE(c.hazard.empty());
    CHECK(c.text.size() > 40);
    CHECK(c.text.size() < 400);
    CHECK(c.text.back() == '.');
    CHECK_FALSE(c.trigger.empty());
    CHECK_FALSE(c.source.empty());
    CHECK(&caution(c.id) == &c);
    // Without a source the status must say so; with one that was read, where it was read.
    if (c.source == "no published source") {
      CHECK(c.read_at.empty());
      CHECK((c.status == ReadStatus::common_practice || c.status == ReadStatus::ours));
    }
    if (c.status == ReadStatus::read) CHECK_FALSE(c.read_at.empty());
    if (c.status == ReadStatus::from_memory)
      CHECK_THAT(std::string(c.status_note), Contains("memory"));
  }
  CHECK_THROWS_AS(caution("no_such_caution"), BugError);
}

TEST_CASE("cautions of what is not judged are not offered") {
  for (const char* other : {"el_supply", "heat_cold_cycle"}) {
    CAPTURE(other);
    CHECK_THROWS_AS(caution(other), BugError);
  }
}

TEST_CASE("the sources of the cautions are listed under their ids") {
  const auto sources = caution_sources();
  REQUIRE(sources.size() == all_cautions().size());
  for (std::size_t i = 0; i < sources.size(); ++i) {
    const Caution& c = all_cautions()[i];
    CAPTURE(c.id);
    CHECK(sources[i].id == c.id);
    CHECK(sources[i].title == c.source);
    CHECK(sources[i].read_at == c.read_at);
    CHECK(sources[i].status == c.status);
    CHECK(sources[i].note == c.status_note);
  }
}

TEST_CASE("cautions stand in the order of urgency, people first") {
  const auto all = all_cautions();
  CHECK(all.front().id == "body_hit_lethal");
  CHECK(std::is_sorted(all.begin(), all.end(),
                       [](const Caution& a, const Caution& b) { return a.group < b.group; }));
  CautionFacts facts = mild_test();
  facts.energy.reset();
  facts.open_voltage_cold = Voltage::from_si(130.0);
  const auto shown = cautions_for(facts);
  CHECK(std::is_sorted(shown.begin(), shown.end()));  // pointers into one list keep its order
  CHECK(shown.front()->group == CautionGroup::people);
  const auto place = [&](std::string_view id) {
    return std::find_if(shown.begin(), shown.end(), [&](const Caution* c) { return c->id == id; }) -
           shown.begin();
  };
  CHECK(place("body_hit_lethal") < place("body_hit_serious"));
  CHECK(place("body_hit_serious") < place("body_hit_any"));
  CHECK(place("eye_protection_high") < place("eye_protection_low"));
  CHECK(place("dc_elv") < place("dc_dry"));
  CHECK(place("dc_dry") < place("dc_wet"));
}

TEST_CASE("a launch never goes without cautions") {
  CautionFacts facts;
  CHECK(cautions_for(facts).empty());
  facts.launches = true;
  facts.energy = Energy::from_si(0.0);
  facts.energy_per_area = EnergyPerArea::from_si(0.0);
  facts.launcher = Launcher::throw_by_hand;
  facts.ice = false;
  CHECK(ids(facts) == always_for_a_launch);
}

TEST_CASE("a mild test shows what is always shown and nothing else") {
  std::set<std::string> expected = always_for_a_launch;
  expected.insert(always_for_a_panel.begin(), always_for_a_panel.end());
  expected.insert("ice_handling");
  CHECK(ids(mild_test()) == expected);
}

TEST_CASE("reading a panel without a launch shows the cautions of the panel only") {
  CautionFacts facts = mild_test();
  facts.launches = false;
  CHECK(ids(facts) == always_for_a_panel);
}

TEST_CASE("each threshold of energy decides at its value") {
  struct Row {
    const char* id;
    double printed_J;  // as the list of hazards prints it; 58 ft-lbf and those of two digits
                       // rounded down
    const char* words;
  };
  const Row row = GENERATE(
      Row{"body_hit_any", 0.08, "0.08 J"}, Row{"heart_blow", 9.0, "9 J"},
      Row{"body_hit_serious", 14.9, "14.9 J"}, Row{"body_hit_severe", 33.89, "33.89 J"},
      Row{"body_hit_lethal", 78.63, "78.63 J"}, Row{"eye_protection_low", 0.87, "0.87 J"},
      Row{"eye_protection_mid", 6.19, "6.19 J"}, Row{"eye_protection_high", 15.5, "15.5 J"});
  CAPTURE(row.id, row.printed_J);
  CautionFacts facts = mild_test();
  facts.energy = Energy::from_si(just_below(row.printed_J));
  CHECK_FALSE(shows(facts, row.id));
  facts.energy = Energy::from_si(row.printed_J);
  CHECK(shows(facts, row.id));
  facts.energy = Energy::from_si(just_above(row.printed_J));
  CHECK(shows(facts, row.id));
  facts.energy.reset();
  CHECK(shows(facts, row.id));
  facts.launches = false;
  CHECK_FALSE(shows(facts, row.id));
  CHECK(std::string(caution(row.id).trigger) ==
        "energy of " + std::string(row.words) + " or more, or not known");
}

TEST_CASE("a limit of energy is its yardstick rounded down, never up") {
  const auto yardstick = [](std::string_view printed) {
    for (const Yardstick& one : yardsticks())
      if (one.printed == printed) return one.energy.si();
    FAIL("no yardstick prints " << printed);
    return 0.0;
  };
  struct Row {
    Energy limit;
    const char* printed;
    double step_J;
  };
  for (const Row& row :
       {Row{CautionLimits::serious, "11 ft-lbf", 0.1},
        Row{CautionLimits::severe, "25 ft-lbf", 0.01},
        Row{CautionLimits::lethal, "58 ft-lbf", 0.01},
        Row{CautionLimits::eyewear_low, "0.86 g at 45 m/s", 0.01},
        Row{CautionLimits::eyewear_mid, "0.86 g at 120 m/s", 0.01},
        Row{CautionLimits::eyewear_high, "0.86 g at 190 m/s", 0.1},
        Row{CautionLimits::heart_blow, "0.145 kg ball at 25 mph: 7 % of animals", 0.1}}) {
    CAPTURE(row.printed, row.limit.si());
    CHECK(row.limit.si() <= yardstick(row.printed));
    CHECK(row.limit.si() > yardstick(row.printed) - row.step_J);
  }
  CHECK(CautionLimits::toy.si() == yardstick("0.08 J"));
}

TEST_CASE("rungs of a hit are kept unless a higher one asks for all that they ask") {
  CautionFacts facts = mild_test();
  facts.energy = Energy::from_si(158.0);
  CHECK(shows(facts, "body_hit_lethal"));
  CHECK_FALSE(shows(facts, "body_hit_severe"));  // a laboratory only; no closed range beside it
  for (const char* kept : {"body_hit_serious", "heart_blow", "body_hit_any", "eye_protection_high",
                           "eye_protection_mid", "eye_protection_low"}) {
    CAPTURE(kept);
    CHECK(shows(facts, kept));
  }
  facts.energy = Energy::from_si(just_below(78.63));
  CHECK(shows(facts, "body_hit_severe"));
}

TEST_CASE("energy per cross-section decides on the eye") {
  CautionFacts facts = mild_test();
  facts.energy_per_area = EnergyPerArea::from_si(just_below(19000.0));
  CHECK_FALSE(shows(facts, "eye_globe"));
  facts.energy_per_area = EnergyPerArea::from_si(19000.0);
  CHECK(shows(facts, "eye_globe"));
  facts.energy_per_area.reset();
  CHECK(shows(facts, "eye_globe"));
  CHECK_THAT(std::string(caution("eye_globe").trigger), Contains("19000 J/m2"));
}

TEST_CASE("each step of voltage decides at its value") {
  struct Row {
    const char* id;
    double printed_V;
    bool at_value;  // "from" or "above"
    const char* words;
  };
  const Row row = GENERATE(Row{"dc_wet", 30.0, true, "30 V"}, Row{"dc_class3", 35.0, true, "35 V"},
                           Row{"dc_dry", 60.0, true, "60 V"}, Row{"dc_elv", 120.0, false, "120 V"});
  CAPTURE(row.id, row.printed_V);
  CautionFacts facts = mild_test();
  facts.open_voltage_cold = Voltage::from_si(just_below(row.printed_V));
  CHECK_FALSE(shows(facts, row.id));
  facts.open_voltage_cold = Voltage::from_si(row.printed_V);
  CHECK(shows(facts, row.id) == row.at_value);
  facts.open_voltage_cold = Voltage::from_si(just_above(row.printed_V));
  CHECK(shows(facts, row.id));
  facts.panel_present = false;
  CHECK_FALSE(shows(facts, row.id));
  CHECK_THAT(std::string(caution(row.id).trigger), Contains(row.words));
}

TEST_CASE("an unknown voltage shows dc_wet, which says to take it as higher") {
  CautionFacts facts = mild_test();
  facts.open_voltage_cold.reset();
  CHECK(shows(facts, "dc_wet"));
  CHECK_FALSE(shows(facts, "dc_elv"));
  CHECK_THAT(std::string(caution("dc_wet").text), Contains("unknown voltage"));
}

TEST_CASE("temperatures decide at their value, unknown ones show") {
  CautionFacts facts = mild_test();
  facts.hottest_panel = TemperaturePoint::from_celsius(49.9);
  CHECK_FALSE(shows(facts, "hot_surface"));
  facts.hottest_panel = TemperaturePoint::from_celsius(50.0);
  CHECK(shows(facts, "hot_surface"));
  facts.hottest_panel.reset();
  CHECK(shows(facts, "hot_surface"));

  facts.panel_at_shots = TemperaturePoint::from_celsius(35.0);
  CHECK_FALSE(shows(facts, "thermal_shock"));
  facts.panel_at_shots = TemperaturePoint::from_celsius(35.1);
  CHECK(shows(facts, "thermal_shock"));
  facts.panel_at_shots.reset();
  CHECK(shows(facts, "thermal_shock"));

  facts.dry_ice.reset();
  facts.ball = TemperaturePoint::from_celsius(-30.0);
  CHECK_FALSE(shows(facts, "dry_ice"));
  facts.ball = TemperaturePoint::from_celsius(-30.1);
  CHECK(shows(facts, "dry_ice"));
  facts.ball.reset();
  CHECK(shows(facts, "dry_ice"));
  facts.dry_ice = false;
  CHECK_FALSE(shows(facts, "dry_ice"));
  facts.dry_ice = true;
  facts.ball = TemperaturePoint::from_celsius(-4.0);
  CHECK(shows(facts, "dry_ice"));

  for (const auto& [id, words] :
       {std::pair{"hot_surface", "50 degC"}, std::pair{"thermal_shock", "35 degC"},
        std::pair{"dry_ice", "-30 degC"}}) {
    CAPTURE(id);
    CHECK_THAT(std::string(caution(id).trigger), Contains(words));
  }
}

TEST_CASE("each kind of launcher shows its own cautions") {
  const std::set<std::string> of_launchers{"pvc_pressure",     "stored_air_energy", "air_misfire",
                                           "elastic_launcher", "ball_machine",      "drop_height",
                                           "law_launchers"};
  struct Row {
    std::optional<Launcher> kind;
    std::set<std::string> expected;
  };
  const std::array rows{
      Row{Launcher::sling, {"elastic_launcher"}},
      Row{Launcher::elastic, {"elastic_launcher", "law_launchers"}},
      Row{Launcher::spring, {"elastic_launcher", "air_misfire", "law_launchers"}},
      Row{Launcher::compressed_air,
          {"pvc_pressure", "stored_air_energy", "air_misfire", "law_launchers"}},
      Row{Launcher::ball_machine, {"ball_machine"}},
      Row{Launcher::drop, {"drop_height"}},
      Row{Launcher::throw_by_hand, {}},
      Row{Launcher::other,
          {"pvc_pressure", "stored_air_energy", "air_misfire", "elastic_launcher",
           "law_launchers"}},
      Row{std::nullopt, of_launchers},
  };
  for (const Row& row : rows) {
    CAPTURE(row.kind ? static_cast<int>(*row.kind) : -1);
    CautionFacts facts = mild_test();
    facts.launcher = row.kind;
    std::set<std::string> shown;
    for (const std::string& id : ids(facts))
      if (of_launchers.count(id) != 0) shown.insert(id);
    CHECK(shown == row.expected);
  }
}

TEST_CASE("facts that are either so or not") {
  const CautionFacts mild = mild_test();
  CautionFacts facts = mild;
  facts.broken = true;
  CHECK(shows(facts, "broken_glass"));
  facts = mild;
  facts.power_station = true;
  CHECK(shows(facts, "power_station_voltage"));
  facts = mild;
  facts.published = true;
  CHECK(shows(facts, "claims"));
  facts = mild;
  facts.installed.reset();
  CHECK(shows(facts, "installed_array"));
  facts.installed = true;
  CHECK(shows(facts, "installed_array"));
  facts = mild;
  facts.high_voltage_test.reset();
  CHECK(shows(facts, "hv_test"));
  facts.high_voltage_test = true;
  CHECK(shows(facts, "hv_test"));
  facts = mild;
  facts.ice = false;
  facts.dry_ice.reset();
  facts.panel_at_shots.reset();
  for (const char* id : {"ice_handling", "dry_ice", "thermal_shock"}) {
    CAPTURE(id);
    CHECK_FALSE(shows(facts, id));
  }
}

TEST_CASE("every caution can be shown and every caution can be ruled out or is always due") {
  CautionFacts all;
  all.launches = all.panel_present = all.broken = all.power_station = all.published = true;
  all.shaded = true;
  for (const StressKind& kind : stress_kinds())
    all.stresses.push_back(kind.word);
  std::set<std::string> reached = ids(all);
  all.open_voltage_cold = Voltage::from_si(200.0);
  for (const std::string& id : ids(all))
    reached.insert(id);
  for (const Caution& c : all_cautions()) {
    CAPTURE(c.id);
    CHECK(reached.count(std::string(c.id)) == 1);
  }
  CHECK(cautions_for({}).empty());
}

TEST_CASE("cold open-circuit voltage: 22.0 V at -10 degC is 24.3 V [computed in the facts file]") {
  const Voltage at_stc = Voltage::from_si(22.0);
  CHECK_THAT(cold_open_voltage(at_stc).si(), WithinAbs(24.3, 0.05));
  CHECK_THAT(cold_open_voltage(at_stc).si(), WithinRel(22.0 * 1.105, 1e-12));
  CHECK_THAT(cold_open_voltage(at_stc, TemperatureCoefficient::from_si(-0.0028),
                               TemperaturePoint::from_celsius(25.0))
                 .si(),
             WithinRel(22.0, 1e-12));
  // Two in series: the sum goes in.
  CHECK_THAT(cold_open_voltage(2.0 * at_stc).si(), WithinAbs(48.6, 0.05));
}

TEST_CASE("a panel that is shaded on purpose has a caution of its own") {
  CautionFacts facts = mild_test();
  CHECK_FALSE(shows(facts, "shaded_part"));
  facts.shaded = true;
  CHECK(shows(facts, "shaded_part"));
}

TEST_CASE("cautions of a stress are shown where it is done, and no others of their kind") {
  CautionFacts facts;
  facts.panel_present = true;
  CHECK_FALSE(shows(facts, "static_load"));
  CHECK_FALSE(shows(facts, "installed_array"));
  facts.stresses = {"static load"};
  CHECK(shows(facts, "static_load"));
  CHECK(shows(facts, "static_load_lifting"));
  CHECK_FALSE(shows(facts, "water_spray"));
  CHECK(shows(facts, "installed_array"));
  CHECK_FALSE(shows(facts, "missed_ball"));
  facts.installed = false;
  CHECK_FALSE(shows(facts, "installed_array"));
}

TEST_CASE("each text of a caution stands in one file") {
  std::vector<std::pair<std::string, std::string>> files;
  for (const char* folder : {"src", "include"})
    for (const auto& entry :
         fs::recursive_directory_iterator(fs::path(HAILWRIGHT_SOURCE_DIR) / folder))
      if (entry.path().extension() == ".cpp" || entry.path().extension() == ".hpp")
        files.emplace_back(entry.path().filename().string(),
                           joined_literals(read_file(entry.path())));
  REQUIRE(files.size() > 10);
  for (const Caution& c : all_cautions()) {
    CAPTURE(c.id, c.text);
    std::vector<std::string> holders;
    for (const auto& [name, text] : files)
      if (text.find(c.text) != std::string::npos) holders.push_back(name);
    CHECK(holders == std::vector<std::string>{file_of(c.id)});
  }
}

TEST_CASE("no caution claims what is never printed (M18)") {
  for (const Caution& c : all_cautions()) {
    const std::string words =
        lower(std::string(c.hazard) + " " + std::string(c.text) + " " + std::string(c.trigger) +
              " " + std::string(c.source) + " " + std::string(c.status_note));
    for (const char* never : {"passed", "met the standard", "certified", "iec-rated", "class hw",
                              "undamaged", "no damage", "unaffected", "hail-proof", "safe distance",
                              "safe to use", "chance that nothing happened", "within error"}) {
      CAPTURE(c.id, never);
      CHECK(words.find(never) == std::string::npos);
    }
  }
}

TEST_CASE("docs/safety.md lists each caution with its trigger and status, and no others") {
  const std::string page = read_file(fs::path(HAILWRIGHT_SOURCE_DIR) / "docs" / "safety.md");
  std::size_t rows = 0;
  for (std::size_t at = page.find("\n| `"); at != std::string::npos;
       at = page.find("\n| `", at + 1))
    ++rows;
  CHECK(rows == all_cautions().size());
  std::size_t from = 0;
  for (const Caution& c : all_cautions()) {
    const std::string row = "\n| `" + std::string(c.id) + "` | " + std::string(c.trigger) + " | " +
                            std::string(text(c.status)) + " |";
    CAPTURE(row);
    const std::size_t at = page.find(row);
    REQUIRE(at != std::string::npos);
    CHECK(at >= from);  // in the order of urgency
    from = at;
  }
}

TEST_CASE("cautions: the coldest voltage of a panel file is an upper value") {
  Panel panel;
  CHECK_FALSE(coldest_open_voltage(panel));
  panel.open_voltage = Voltage::from_si(22.0);
  // 22.0 V at -10 degC with -0.3 %/K: 24.31 V.
  CHECK(std::abs(coldest_open_voltage(panel)->si() - 24.31) < 1e-9);
  panel.voltage_coefficient = TemperatureCoefficient::from_si(0.0);
  CHECK(std::abs(coldest_open_voltage(panel)->si() - 24.31) < 1e-9);
  panel.voltage_coefficient = TemperatureCoefficient::from_si(-0.003);
  panel.voltage_coefficient_stated =
      StatedValue<TemperatureCoefficient>{TemperatureCoefficient::from_si(-0.003),
                                          Shape::rectangular,
                                          TemperatureCoefficient::from_si(0.002),
                                          {}};
  // The lower end, -0.5 %/K: 22.0 (1 + 0.005 * 35) = 25.85 V.
  CHECK(std::abs(coldest_open_voltage(panel)->si() - 25.85) < 1e-9);
}
