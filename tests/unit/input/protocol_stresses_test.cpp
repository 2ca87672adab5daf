#include "input/protocol_stresses.hpp"

#include <algorithm>

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using input_files::Files;
using input_files::only;
using input_files::seen;
using input_files::Seen;

namespace {

const std::string head = "hailwright: protocol 1\ntitle: Bags\n"
                         "decide: {limit: 5 %, judged_on: looks}\n";
const std::string bags = "{kind: static load, name: bags, level: IEC 61215 2400 Pa, times: 3, "
                         "face: front, mounted: by its frame}";

Checked<Protocol> read(const std::string& stresses) {
  const Files files{{"p.yaml", head + stresses}};
  SourceSet sources;
  return read_protocol("p.yaml", input_files::loader(files), sources);
}

}  // namespace

TEST_CASE("protocol_stresses: a level gives its amounts, the rest is typed") {
  const auto checked = read("stresses:\n  - " + bags + "\n");
  REQUIRE(checked.notes.empty());
  const Protocol& protocol = *checked.value;
  CHECK(protocol.series.empty());
  REQUIRE(protocol.stresses.size() == 1);
  const StressPlan& plan = protocol.stresses.front();
  CHECK(plan.name == "bags");
  CHECK(plan.kind == find_stress_kind("static load"));
  REQUIRE(plan.level != nullptr);
  CHECK(plan.level->name == "IEC 61215 2400 Pa");
  // IEC 61215-2, MQT 16, as makers print it: 2400 Pa for one hour.
  CHECK(plan.values.at("pressure").si == 2400.0);
  CHECK(plan.values.at("held").si == 3600.0);
  CHECK(plan.values.at("times").si == 3.0);
  CHECK(plan.values.at("face").si == 0.0);
  CHECK(plan.values.at("face").text == "front");
}

TEST_CASE("protocol_stresses: amounts without a level, the kind as the name, answers by key") {
  const auto checked = read("stresses:\n  - {kind: cable pull, force: 60 N, held: 1 min, times: 2, "
                            "at: each plug, how: straight, safety: {installed: no}}\n");
  REQUIRE(checked.notes.empty());
  const StressPlan& plan = checked.value->stresses.front();
  CHECK(plan.name == "cable pull");
  CHECK(plan.level == nullptr);
  CHECK(plan.values.at("force").si == 60.0);
  CHECK(plan.values.at("force").step_si == 1.0);
  CHECK(plan.values.at("held").si == 60.0);
  CHECK(plan.values.at("at").si == 1.0);
  CHECK(plan.safety.at("installed").text == "no");
}

TEST_CASE("protocol_stresses: a key of the level may be typed alike, not otherwise") {
  CHECK(read("stresses: [{kind: static load, level: IEC 61215 2400 Pa, pressure: 2.4 kPa, "
             "times: 3, face: front, mounted: by its frame}]\n")
            .notes.empty());
  const auto other = read("stresses: [{kind: static load, level: IEC 61215 2400 Pa, "
                          "pressure: 2300 Pa, times: 3, face: front, mounted: by its frame}]\n");
  CHECK(only(other.notes).code == "C47");
}

TEST_CASE("protocol_stresses: slips are found where they stand") {
  CHECK(seen(read("stresses:\n  - {kind: bendin}\n").notes) == std::vector<Seen>{{"K06", 5, 12}});
  CHECK(seen(read("stresses:\n  - {name: x}\n").notes) == std::vector<Seen>{{"K02", 5, 5}});
  CHECK(seen(read("stresses:\n  - bags\n").notes) == std::vector<Seen>{{"K05", 5, 5}});
  CHECK(seen(read("stresses: []\n").notes) == std::vector<Seen>{{"K14", 4, 1}});
  const auto near = read("stresses:\n  - {kind: static load, level: IEC 61215 2500 Pa, times: 3, "
                         "face: front, mounted: by its frame}\n");
  CHECK(only(near.notes).code == "K19");
  CHECK_THAT(only(near.notes).hints.front(), Contains("IEC 61215 2400 Pa"));
}

TEST_CASE("protocol_stresses: a name once, and none of a stage") {
  CHECK(only(read("stresses:\n  - " + bags + "\n  - " + bags + "\n").notes).code == "C05");
  CHECK(only(read("stresses: [{kind: static load, name: before, level: IEC 61215 2400 Pa, "
                  "times: 3, face: front, mounted: by its frame}]\n")
                 .notes)
            .code == "K13");
}

TEST_CASE("protocol_stresses: an open question is no answer") {
  const auto checked = read("stresses:\n  - kind: cable pull\n    level: UL 89 N\n    times: 1\n"
                            "    at: each lead\n    how: straight\n    safety:\n"
                            "      installed: ???\n");
  CHECK(only(checked.notes).code == "S01");
}

TEST_CASE("protocol_stresses: without series nothing is thrown") {
  for (const char* idle :
       {"launch: {kind: sling}\n", "speed: {by: setting}\n", "ice: {water: tap water}\n"}) {
    CAPTURE(idle);
    CHECK(only(read(std::string(idle) + "stresses:\n  - " + bags + "\n").notes).code == "C48");
  }
  // Without stresses there must be series, launch and speed.
  CHECK(seen(read("").notes).size() == 3);
}

TEST_CASE("protocol_stresses: what is done and what is answered are other parts of the mark") {
  const auto mark = [](const std::string& text) { return read(text).value->mark; };
  const std::string plain = "stresses: [{kind: cable pull, level: UL 89 N, times: 1, "
                            "at: each lead, how: straight, safety: {installed: no}}]\n";
  const auto changed = [&](const std::string& from, const std::string& to) {
    std::string text = plain;
    text.replace(text.find(from), from.size(), to);
    return changed_parts(mark(plain), mark(text));
  };
  CHECK(changed("times: 1", "times: 2") == std::vector<PlanPart>{PlanPart::series});
  CHECK(changed("installed: no", "installed: yes") == std::vector<PlanPart>{PlanPart::launching});
}

TEST_CASE("protocol_stresses: each kind has a list of keys for its entry and for its answers") {
  const std::vector<input::KeyList> lists = input::stress_plan_keys();
  CHECK(lists.size() == 2 * stress_kinds().size());
  for (const StressKind& kind : stress_kinds()) {
    CAPTURE(kind.word);
    CHECK(std::any_of(lists.begin(), lists.end(),
                      [&](const input::KeyList& list) { return list.where == kind.word; }));
  }
}
