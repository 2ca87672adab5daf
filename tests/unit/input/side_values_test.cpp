#include "input/side_values.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;

namespace {

constexpr KeyList keys{"a thing", "items when accuracy"};

}  // namespace

TEST_CASE("side_values: a list that is not there is empty and one that is empty is an error") {
  Diagnostics notes;
  const Node none = input_files::tree("{}");
  CHECK(side_items(MapReader(none, keys, none.span, notes), "items", "items: [a]").empty());
  CHECK(notes.empty());
  const Node empty = input_files::tree("items: []\n");
  CHECK(side_items(MapReader(empty, keys, empty.span, notes), "items", "items: [a]").empty());
  CHECK(only(notes).code == "K14");
}

TEST_CASE("side_values: before is where nothing is said") {
  Diagnostics notes;
  const auto after = [&](const char* text) {
    const Node node = input_files::tree(text);
    return read_when(MapReader(node, keys, node.span, notes));
  };
  CHECK_FALSE(after("{}"));
  CHECK_FALSE(after("when: before\n"));
  CHECK(after("when: after\n"));
  CHECK(notes.empty());
}

TEST_CASE("side_values: an accuracy of unknown is none") {
  Diagnostics notes;
  const Node node = input_files::tree("accuracy: unknown\n");
  CHECK_FALSE(read_side_accuracy<Voltage>(MapReader(node, keys, node.span, notes)));
  const Node stated = input_files::tree("accuracy: 1 % + 2 digits\n");
  const auto error = read_side_accuracy<Voltage>(MapReader(stated, keys, stated.span, notes));
  REQUIRE(error);
  CHECK(error->digits == 2.0);
  CHECK(notes.empty());
}
