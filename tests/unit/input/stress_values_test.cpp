#include "input/stress_values.hpp"

#include <set>

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;

namespace {

StressKey key_of(std::string_view name, Measure measure, bool count = false) {
  StressKey key;
  key.key = name;
  key.measure = measure;
  key.low = 1.0;
  key.high = 100.0;
  key.range = "from 1 to 100";
  key.example = "3";
  key.required = true;
  key.count = count;
  return key;
}

}  // namespace

TEST_CASE("stress_values: an amount, a count and a word, each with its place") {
  StressKey at = key_of("at", Measure::length);
  at.words = {"lead", "plug"};
  const std::vector<StressKey> keys{key_of("force", Measure::force),
                                    key_of("times", Measure::length, true), at};
  Diagnostics notes;
  const Node node = input_files::tree("force: 40.0 N\ntimes: 3\nat: plug\n");
  const KeyList list{"a pull", "force times at"};
  const MapReader map(node, list, node.span, notes);
  const StressValues values = read_stress_values(map, keys, {});
  CHECK(notes.empty());
  CHECK(values.at("force").si == 40.0);
  CHECK(values.at("force").step_si == Approx(0.1));
  CHECK(values.at("force").text == "40.0 N");
  CHECK(values.at("force").origin.line == 1);
  CHECK(values.at("times").si == 3.0);
  CHECK(values.at("at").si == 1.0);
}

TEST_CASE("stress_values: what is needed may be held already") {
  const std::vector<StressKey> keys{key_of("times", Measure::length, true)};
  const KeyList list{"a pull", "times"};
  const Node node = input_files::tree("{}\n");
  Diagnostics held, missing;
  read_stress_values(MapReader(node, list, node.span, held), keys, {{"times", {}}});
  read_stress_values(MapReader(node, list, node.span, missing), keys, {});
  CHECK(held.empty());
  CHECK(input_files::only(missing).code == "K02");
}

TEST_CASE("stress_values: lists of all kinds, with names of their own") {
  std::set<std::string_view> names;
  for (const StressKeyLists& lists : stress_key_lists()) {
    for (const KeyList& list : {lists.planned, lists.safety, lists.done}) {
      CAPTURE(list.where);
      CHECK(names.insert(list.where).second);
      CHECK_FALSE(words_of(list.keys).empty());
    }
    CHECK(&stress_key_lists(*lists.kind) == &lists);
  }
  CHECK(names.size() == 3 * stress_kinds().size());
}
