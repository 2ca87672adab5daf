// What the gate prints to be pasted, through the reader of protocols and the gate again.
#include <algorithm>

#include "hailwright/input/readers.hpp"
#include "hailwright/model/safety_questions.hpp"
#include "support/catch.hpp"
#include "support/gate_cases.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace gate_cases;

namespace {

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines)
    text += line + "\n";
  return text;
}

Checked<Protocol> read(const std::string& safety) {
  const input_files::Files files{
      {"p.yaml", input_files::good_files().at("protocol.yaml") + safety}};
  SourceSet sources;
  auto checked = read_protocol("p.yaml", input_files::loader(files), sources);
  CAPTURE(render_diagnostics(checked.notes, sources));
  CHECK(checked.notes.has_errors() != checked.value.has_value());
  return checked;
}

/// Puts the example of each question in place of the mark, as a person would fill it in.
std::string filled(std::string text, Launcher launcher) {
  const SafetyAnswers good = all(launcher);
  for (const auto& [block, answers] : good.blocks) {
    for (const auto& [key, answer] : answers) {
      const std::string line = "    " + key + ": " + std::string(answer_to_come) + "\n";
      const std::size_t in_block = text.find("  " + block + ":");
      if (in_block == std::string::npos) continue;
      const std::size_t at = text.find(line, in_block);
      if (at != std::string::npos)
        text.replace(at, line.size(), "    " + key + ": " + answer.text + "\n");
    }
  }
  return text;
}

}  // namespace

TEST_CASE("gate_snippet: pasted and filled in, it opens the gate for every launcher") {
  for (const Launcher launcher : all_launchers) {
    for (const double energy_J : {2.3, 8.9, 20.0, 40.0}) {
      if (launcher == Launcher::throw_by_hand && energy_J >= 14.9) continue;
      CAPTURE(static_cast<int>(launcher), energy_J);
      PlanDangers d = dangers(launcher, energy_J);
      d.cold_voltages.emplace_back();
      const GateResult first = Gate::ask({}, d, today);
      REQUIRE_FALSE(first.snippet.empty());
      CHECK(first.snippet[0] == "safety:");
      const std::string text = filled(joined(first.snippet), launcher);
      CAPTURE(text);
      CHECK(text.find(answer_to_come) == std::string::npos);
      const auto checked = read(text);
      REQUIRE(checked.value);
      const GateResult second = Gate::ask(checked.value->safety, d, today);
      CHECK(keys(second) == std::set<std::string>{});
      CHECK(second.clearance.has_value());
    }
  }
}

TEST_CASE("gate_snippet: as it is printed, no line of it is taken for an answer") {
  const GateResult result = Gate::ask({}, dangers(Launcher::compressed_air), today);
  const auto checked = read(joined(result.snippet));
  CHECK_FALSE(checked.value);
  CHECK(checked.notes.items().size() == result.findings.size());
  for (const Diagnostic& note : checked.notes.items())
    CHECK(note.code == "S01");
}

TEST_CASE("gate_snippet: a question, what is wanted, and the key, block by block") {
  const GateResult result = Gate::ask({}, dangers(Launcher::sling), today);
  const auto& lines = result.snippet;
  const auto at = [&](const std::string& line) {
    const auto found = std::find(lines.begin(), lines.end(), line);
    CAPTURE(line);
    REQUIRE(found != lines.end());
    return found - lines.begin();
  };
  const auto people = at("  people:");
  CHECK(people < at("    lookout: ???"));
  CHECK(at("    lookout: ???") < at("  ground:"));
  CHECK(lines[static_cast<std::size_t>(at("    clear_ahead: ???")) - 1] ==
        "    # how far the ground ahead is clear of people, animals, roads and buildings: at least "
        "54 m, or a backstop with closed sides in its place");
  std::size_t answers = 0;
  for (const std::string& line : lines) {
    CAPTURE(line);
    CHECK(line.size() <= 190);
    answers += line.ends_with(": ???") ? 1 : 0;
  }
  CHECK(answers == result.findings.size());
  CHECK(std::count(lines.begin(), lines.end(), "  people:") == 1);
}

TEST_CASE("gate_snippet: only what is missing, to be added to what is there") {
  SafetyAnswers answers = all(Launcher::sling);
  remove(answers, "people", "lookout");
  set(answers, "people", "others", "nearer");  // not enough: not to be pasted, to be mended
  for (const char* key : {"handled_with", "dry_ice", "dry_ice_kept"})
    remove(answers, "ice", key);
  const GateResult result = Gate::ask(answers, dangers(Launcher::sling), today);
  CHECK(result.findings.size() == 4);
  CHECK(result.snippet ==
        std::vector<std::string>{
            "  people:  # add to the block that is there",
            "    # does a second adult do nothing but watch the zone and call all-clear: yes",
            "    lookout: ???", "  ice:", "    # how balls are handled: dry gloves or tongs",
            "    handled_with: ???", "    # is dry ice used: no or yes", "    dry_ice: ???"});
}

TEST_CASE("gate_snippet: clear ground in place of a backstop") {
  const PlanDangers d = dangers(Launcher::sling);
  std::string text = joined(Gate::ask({}, d, today).snippet);
  const auto replace = [&](const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    text.replace(at, from.size(), to);
  };
  replace("    misses_end_in: ???\n", "    misses_end_in: clear ground\n");
  for (const char* key : {"backstop", "backstop_of", "sides"})
    replace("    " + std::string(key) + ": ???\n", "");
  const auto checked = read(filled(text, Launcher::sling));
  REQUIRE(checked.value);
  CHECK(Gate::ask(checked.value->safety, d, today).clearance);
}
