#include "safety/gate_rules.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <sstream>

#include "hailwright/model/safety_questions.hpp"
#include "safety/caution_lists.hpp"
#include "support/catch.hpp"
#include "support/gate_cases.hpp"

using namespace hailwright;
using namespace gate_cases;

namespace {

std::set<std::string> ids_of(const gate::Rule& rule) {
  std::istringstream words{std::string(rule.hazards)};
  std::set<std::string> ids;
  for (std::string id; words >> id;)
    ids.insert(id);
  return ids;
}

std::set<std::string> mapped() {
  std::set<std::string> ids;
  for (const gate::Rule& rule : gate::rules())
    ids.merge(ids_of(rule));
  return ids;
}

}  // namespace

TEST_CASE("gate_rules: one rule a question, in the order of the questions") {
  const auto rules = gate::rules();
  const auto questions = safety_questions();
  REQUIRE(rules.size() == questions.size());
  for (std::size_t i = 0; i < rules.size(); ++i) {
    CAPTURE(rules[i].key);
    CHECK(rules[i].block == questions[i].block);
    CHECK(rules[i].key == questions[i].key);
    CHECK(rules[i].asked != nullptr);
    CHECK_FALSE(rules[i].when.empty());
    CHECK_FALSE(gate::enough_in_words(rules[i]).empty());
    // Either a list of words, each of them a possible answer, or a check of its own.
    CHECK(rules[i].good.empty() == (rules[i].enough != nullptr));
    std::istringstream words{std::string(rules[i].good)};
    for (std::string word; std::getline(words, word, '|');) {
      const auto& known = questions[i].words;
      const bool possible = questions[i].form == AnswerForm::yes_no
                                ? word == "yes" || word == "no"
                                : std::find(known.begin(), known.end(), word) != known.end();
      CHECK(possible);
    }
  }
}

TEST_CASE("gate_rules: every caution is answered by a question, or there is a reason why not") {
  std::set<std::string> left_out;
  for (const gate::Unasked& one : gate::unasked_cautions()) {
    CAPTURE(one.id);
    CHECK(left_out.emplace(one.id).second);
    CHECK(one.reason.size() > 15);
  }
  const std::set<std::string> asked_for = mapped();
  std::set<std::string> known;
  for (const Caution& c : all_cautions()) {
    const std::string id(c.id);
    CAPTURE(id);
    known.insert(id);
    // Those of another stress are asked for by its own questions.
    const bool of_stress = kind_of_caution(c.id) != nullptr;
    CHECK(asked_for.count(id) + left_out.count(id) == (of_stress ? 0U : 1U));
  }
  CHECK(std::includes(known.begin(), known.end(), asked_for.begin(), asked_for.end()));
  CHECK(std::includes(known.begin(), known.end(), left_out.begin(), left_out.end()));
  for (const gate::Rule& rule : gate::rules())
    CHECK(rule.hazards.empty() == (rule.block == "agreed"));
}

// The hazards of a launch, typed from the list of hazards that this program was built on.
TEST_CASE("gate_rules: every hazard of people, ground and launcher has its question") {
  const std::set<std::string> asked_for = mapped();
  for (const char* id : {"body_hit_any",
                         "heart_blow",
                         "body_hit_serious",
                         "body_hit_severe",
                         "eye_protection_low",
                         "eye_protection_mid",
                         "eye_protection_high",
                         "eye_globe",
                         "fragments",
                         "missed_ball",
                         "backstop",
                         "bystanders",
                         "property",
                         "law_launchers",
                         "pvc_pressure",
                         "stored_air_energy",
                         "air_misfire",
                         "elastic_launcher",
                         "ball_machine",
                         "drop_height",
                         "dry_ice",
                         "ice_handling",
                         "pv_energised",
                         "dc_wet",
                         "dc_class3",
                         "dc_dry",
                         "arc",
                         "installed_array",
                         "hv_test",
                         "work_alone",
                         "hot_spot",
                         "heavy_metals",
                         "reuse_tested_panel"}) {
    CAPTURE(id);
    CHECK(asked_for.count(id) == 1);
  }
  // Refused outright, so that no answer is asked for.
  for (const char* id : {"body_hit_lethal", "dc_elv"}) {
    CAPTURE(id);
    CHECK(asked_for.count(id) == 0);
  }
}

TEST_CASE("gate_rules: the eyewear of the questions is that of the yardsticks") {
  std::set<std::string> known;
  for (const Yardstick& one : eyewear()) {
    std::string name(one.name);
    name.erase(std::remove(name.begin(), name.end(), ','), name.end());
    known.insert(name);
  }
  known.erase("any Z87+ high mass");  // names a test, not a thing to wear
  std::set<std::string> worn;
  for (const char* key : {"everyone", "thrower"}) {
    for (const std::string_view word : find_safety_question("eyes", key)->words) {
      CAPTURE(word);
      CHECK(gate::proved_with(word).has_value());
      std::string bare(word);
      if (gate::is_shield_over_goggles(word)) bare.erase(bare.find(" over goggles"));
      worn.insert(bare);
    }
  }
  CHECK(worn == known);
}

TEST_CASE("gate_rules: a word that is not enough keeps the gate shut, each of them") {
  // Typed a second time, apart from the rules; for a sling, 8.9 J, panel of unknown voltage.
  const std::map<std::string, std::set<std::string>> good{
      {"launcher.released_by", {"cord from the side", "remote switch"}},
      {"launcher.inspected", {"yes"}},
      {"launcher.unloaded_first", {"yes"}},
      {"launcher.aimed_up", {"no"}},
      {"launcher.pressure_part", {"none", "approved vessel with relief valve"}},
      {"people.in_front", {"nobody"}},
      {"people.others", {"behind a screen"}},
      {"people.thrower", {"behind a screen"}},
      {"people.lookout", {"yes"}},
      {"people.children_away", {"yes"}},
      {"people.sober", {"yes"}},
      {"people.first_aid", {"yes"}},
      {"ground.misses_end_in", {"backstop", "clear ground"}},
      {"ground.backstop_of", {"heavy cloth before a board", "net before a board", "earth bank"}},
      {"ground.sides", {"closed"}},
      {"ground.beyond_the_panel", {"nobody"}},
      {"ground.owner_agrees", {"yes"}},
      {"ground.windows_and_cars", {"out of reach"}},
      {"eyes.everyone",
       {"goggles Z87+", "goggles EN 166 B", "face shield Z87+ over goggles",
        "face shield EN 166 A over goggles"}},
      {"eyes.thrower", {"face shield Z87+ over goggles", "face shield EN 166 A over goggles"}},
      {"panel.faces", {"covered"}},
      {"panel.leads", {"capped"}},
      {"panel.load", {"off"}},
      {"panel.installed", {"no"}},
      {"panel.high_voltage_test", {"no"}},
      {"panel.gloves", {"insulated"}},
      {"panel.wired_by", {"a qualified person"}},
      {"ice.handled_with", {"dry gloves", "tongs"}},
      {"ice.dry_ice", {"no", "yes"}},
      {"after.panel_goes", {"kept and marked", "returned and marked", "electronic waste"}},
      {"after.sold_or_installed", {"never"}},
      {"after.charging", {"attended", "never"}}};
  PlanDangers d = dangers(Launcher::sling);
  d.cold_voltages = {std::nullopt};
  std::set<std::string> tried;
  for (const SafetyQuestion& q : safety_questions()) {
    const std::string key = std::string(q.block) + "." + std::string(q.key);
    const auto enough = good.find(key);
    if (enough == good.end()) continue;
    tried.insert(key);
    std::vector<std::string_view> words = q.words;
    if (q.form == AnswerForm::yes_no) words = {"yes", "no"};
    words.insert(words.end(), {"", "Yes", "nonsense", "???", "closed ", "none|yes", "|"});
    for (const std::string_view word : words) {
      CAPTURE(key, word);
      CHECK(clears_with(d, q.block, q.key, word) == (enough->second.count(std::string(word)) == 1));
    }
  }
  CHECK(tried.size() == good.size());
  // And the words of the questions that other launchers are asked.
  struct Row {
    Launcher launcher;
    const char* key;
    const char* answer;
    bool enough;
  };
  for (const Row& row :
       {Row{Launcher::other, "law_asked", "no", false},
        Row{Launcher::spring, "muzzle_clear", "no", false},
        Row{Launcher::ball_machine, "unplugged_to_clear", "no", false},
        Row{Launcher::compressed_air, "vented_first", "no", false},
        Row{Launcher::compressed_air, "ears", "open", false},
        Row{Launcher::compressed_air, "pressure_part", "none", false},
        Row{Launcher::compressed_air, "pressure_part", "other metal part", false},
        Row{Launcher::compressed_air, "pressure", "0 bar", false},
        Row{Launcher::compressed_air, "pressure", "4", false},
        Row{Launcher::compressed_air, "pressure", "58 psi", true},
        Row{Launcher::compressed_air, "volume", "0 l", false},
        Row{Launcher::drop, "cordon_below", "no", false},
        Row{Launcher::drop, "dropped_from", "a ladder", false},
        Row{Launcher::drop, "dropped_from", "an open edge", false},
        Row{Launcher::other, "pressure_part", "none", true},
        Row{Launcher::ball_machine, "released_by", "hand on the launcher", false}}) {
    CAPTURE(row.key, row.answer);
    CHECK(clears_with(dangers(row.launcher), "launcher", row.key, row.answer) == row.enough);
  }
}

TEST_CASE("gate_rules: docs/safety.md lists each question, when it is asked and what is enough") {
  std::ifstream file(std::string(HAILWRIGHT_SOURCE_DIR) + "/docs/safety.md", std::ios::binary);
  REQUIRE(file);
  const std::string page{std::istreambuf_iterator<char>(file), {}};
  std::size_t from = 0, rows = 0;
  for (const gate::Rule& rule : gate::rules()) {
    std::string hazards;
    std::istringstream words{std::string(rule.hazards)};
    for (std::string id; words >> id;)
      hazards += (hazards.empty() ? "`" : ", `") + id + "`";
    const std::string row = "\n| " + std::string(rule.block) + ": `" + std::string(rule.key) +
                            "` | " + std::string(rule.when) + " | " + gate::enough_in_words(rule) +
                            " | " + hazards + " |\n";
    CAPTURE(row);
    const std::size_t at = page.find(row);
    REQUIRE(at != std::string::npos);
    CHECK(at >= from);
    from = at;
  }
  for (const std::string_view block : safety_blocks()) {
    const std::string begin = "\n| " + std::string(block) + ": `";
    for (std::size_t at = page.find(begin); at != std::string::npos; at = page.find(begin, at + 1))
      ++rows;
  }
  CHECK(rows == gate::rules().size());
  for (const gate::Unasked& one : gate::unasked_cautions()) {
    const std::string line = "- `" + std::string(one.id) + "`: " + std::string(one.reason) + "\n";
    CAPTURE(line);
    CHECK(page.find(line) != std::string::npos);
  }
}
