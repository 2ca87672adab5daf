#include "input/table_setups.hpp"

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::input;

namespace {

Protocol with_series(const std::vector<std::string>& names) {
  Protocol protocol;
  for (const std::string& name : names) {
    protocol.series.emplace_back();
    protocol.series.back().name = name;
  }
  return protocol;
}

}  // namespace

TEST_CASE("table setups: names of set-ups") {
  const Protocol protocol = with_series({"small", "small 2", "extra large", "35"});
  struct Case {
    const char* text;
    StageKind kind;
    std::size_t series;
    int number;
  };
  const auto c = GENERATE(values<Case>({
      {"before 1", StageKind::before, 0, 1},
      {"before", StageKind::before, 0, 1},
      {"before 12", StageKind::before, 0, 12},
      {"  before   3 ", StageKind::before, 0, 3},
      {"after 1", StageKind::after, 0, 1},
      {"after", StageKind::after, 0, 1},
      {"after small 1", StageKind::after_series, 0, 1},
      {"after small", StageKind::after_series, 0, 1},
      {"after small 3", StageKind::after_series, 0, 3},
      // The longest name that fits counts, not "small" with the number 2.
      {"after small 2", StageKind::after_series, 1, 1},
      {"after small 2 3", StageKind::after_series, 1, 3},
      {"after extra large 2", StageKind::after_series, 2, 2},
      {"after extra  large", StageKind::after_series, 2, 1},
      {"after 35 2", StageKind::after_series, 3, 2},
      {"after 3", StageKind::after, 0, 3},
      {"baseline 2", StageKind::baseline, 0, 2},
      {"later", StageKind::later, 0, 1},
  }));
  CAPTURE(c.text);
  Diagnostics notes;
  const auto read = read_setup_name(c.text, {1, 7, 3, 8}, protocol, notes);
  REQUIRE(read.has_value());
  CHECK(notes.empty());
  CHECK(read->first == StageId{c.kind, c.series});
  CHECK(read->second == c.number);
}

TEST_CASE("table setups: names that are none") {
  const Protocol protocol = with_series({"small", "35"});
  const std::string text = GENERATE("", "befor 1", "Before 1", "before0", "before 0", "before 01",
                                    "before -1", "before 1001", "before one", "before 1 2",
                                    "after large 1", "after smaller 1", "after 35", "small 1");
  CAPTURE(text);
  Diagnostics notes;
  CHECK_FALSE(read_setup_name(text, {1, 7, 3, 8}, protocol, notes).has_value());
  REQUIRE(notes.items().size() == 1);
  CHECK(notes.items()[0].code == "T25");
  CHECK(notes.items()[0].where.line == 7);
  CHECK_FALSE(notes.items()[0].hints.empty());
}

TEST_CASE("table setups: a slip in the name of a set-up is answered with the nearest one") {
  Diagnostics notes;
  read_setup_name("befor 1", {1, 1, 1, 1}, with_series({"small"}), notes);
  read_setup_name("after smal 1", {1, 1, 1, 1}, with_series({"small"}), notes);
  REQUIRE(notes.items().size() == 2);
  CHECK(notes.items()[0].hints.at(0) == "did you mean \"before 1\"?");
  CHECK(notes.items()[1].hints.at(0) == "did you mean \"after small 1\"?");
}

// Found by review: "before 1000", which a protocol can plan, was answered with "before 1".
TEST_CASE("table setups: a number out of the range is answered with the range") {
  Diagnostics notes;
  const auto last = read_setup_name("before 1000", {1, 1, 1, 1}, with_series({"small"}), notes);
  REQUIRE(last.has_value());
  CHECK(last->second == 1000);
  for (const char* name : {"before 1001", "after small 1001", "before 0"}) {
    CAPTURE(name);
    Diagnostics told;
    CHECK_FALSE(read_setup_name(name, {1, 1, 1, 1}, with_series({"small"}), told).has_value());
    REQUIRE(told.items().size() == 1);
    CHECK(told.items()[0].hints.at(0) == "set-ups are numbered from 1 to 1000 in each stage");
  }
}

// Found by review: "befor 2" was answered with "before 1".
TEST_CASE("table setups: the nearest name keeps the number that was written") {
  Diagnostics notes;
  read_setup_name("befor 2", {1, 1, 1, 1}, with_series({"small"}), notes);
  read_setup_name("after smal 17", {1, 1, 1, 1}, with_series({"small"}), notes);
  read_setup_name("befor 0", {1, 1, 1, 1}, with_series({"small"}), notes);
  REQUIRE(notes.items().size() == 3);
  CHECK(notes.items()[0].hints.at(0) == "did you mean \"before 2\"?");
  CHECK(notes.items()[1].hints.at(0) == "did you mean \"after small 17\"?");
  CHECK(notes.items()[2].hints.at(0) == "did you mean \"before 1\"?");
}
