#include "input/record_siblings.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;
using input_files::Seen;
using input_files::tree;

namespace {

std::vector<Sibling> read(const std::string& yaml, Diagnostics& notes) {
  constexpr KeyList keys{"the record", "siblings"};
  const Node root = tree(yaml);
  return read_siblings(MapReader(root, keys, root.span, notes), notes);
}

}  // namespace

TEST_CASE("record_siblings: labels in the order of the list") {
  Diagnostics notes;
  const auto siblings = read("siblings: [{label: D}, {label: unit 5}]\n", notes);
  CAPTURE(seen(notes));
  CHECK(notes.empty());
  REQUIRE(siblings.size() == 2);
  CHECK(siblings[0].label == "D");
  CHECK(siblings[0].origin.column == 20);
  CHECK(siblings[1].label == "unit 5");
}

TEST_CASE("record_siblings: faults at their places") {
  Diagnostics notes;
  const auto siblings = read("siblings: [{label: D}, {}, E, {lable: F}, {label: [G]}]\n", notes);
  CHECK(seen(notes) ==
        std::vector<Seen>{{"K02", 1, 24}, {"K05", 1, 28}, {"K01", 1, 32}, {"K05", 1, 51}});
  CHECK(siblings.size() == 1);
  Diagnostics empty;
  CHECK(read("siblings: []\n", empty).empty());
  CHECK(only(empty).code == "K14");
  Diagnostics text;
  read("siblings: 3\n", text);
  CHECK(only(text).code == "K05");
}

TEST_CASE("record_siblings: each panel has a label of its own") {
  const SourceSpan struck{1, 2, 8, 1};
  const SourceSpan unit{1, 3, 20, 1};
  const SourceSpan again{1, 3, 32, 1};
  Diagnostics none;
  CHECK(check_labels_differ({{"A", struck}, {"D", unit}, {"E", again}}, none));
  CHECK(check_labels_differ({{"", struck}, {"", unit}}, none));
  CHECK(none.empty());
  Diagnostics notes;
  CHECK_FALSE(
      check_labels_differ({{"A", struck}, {"D", unit}, {"D", again}, {"A", {1, 4, 1, 1}}}, notes));
  REQUIRE(notes.items().size() == 2);
  CHECK(notes.items()[0].code == "C11");
  CHECK(notes.items()[0].message == "two panels are called \"D\"");
  CHECK(notes.items()[0].where.column == 32);
  CHECK(notes.items()[0].related.at(0).where.column == 20);
  CHECK(notes.items()[1].related.at(0).where.line == 2);
}
