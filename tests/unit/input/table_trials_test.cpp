#include "input/table.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::input;

namespace {

struct Read {
  Diagnostics notes;
  std::vector<Trial> trials;
  explicit Read(std::string text) { trials = read_trials({1, 1, 1, std::move(text)}, notes); }
  [[nodiscard]] const Diagnostic& only_note() const {
    for (const Diagnostic& d : notes.items())
      UNSCOPED_INFO(d.code << " " << d.message);
    REQUIRE(notes.items().size() == 1);
    return notes.items().front();
  }
};

}  // namespace

TEST_CASE("table trials: trials by frames") {
  const Read r("setting,frames,landed\nmark 3,29.5,in\n,30,miss\n,30,\nmark 5,26,\n");
  REQUIRE(r.notes.empty());
  REQUIRE(r.trials.size() == 4);
  CHECK(r.trials[0].setting == "mark 3");
  CHECK(r.trials[0].frames == 29.5);
  CHECK_FALSE(r.trials[0].speed.has_value());
  CHECK(r.trials[1].setting == "mark 3");
  CHECK_FALSE(r.trials[1].hit);
  CHECK(r.trials[2].hit);
  CHECK(r.trials[3].setting == "mark 5");
  CHECK(r.trials[3].origin.line == 5);
}

TEST_CASE("table trials: trials by speed, in any unit, the panel column tells nothing") {
  const Read r("speed km/h,panel,setting\n86.4,A,\n90,B,\n");
  REQUIRE(r.notes.empty());
  REQUIRE(r.trials.size() == 2);
  CHECK_THAT(r.trials[0].speed->si(), WithinRel(24.0, 1e-12));
  CHECK_THAT(r.trials[1].speed->si(), WithinRel(25.0, 1e-12));
  CHECK(r.trials[0].setting.empty());
}

TEST_CASE("table trials: mistakes in trials") {
  struct Case {
    const char* text;
    const char* code;
    int line, column;
  };
  const auto c = GENERATE(values<Case>({
      {"setting,frames\na,29.3\n", "T14", 2, 3},
      {"setting,frames\na,0\n", "T14", 2, 3},
      {"setting,frames\na,-2\n", "T14", 2, 3},
      {"setting,frames\na,\n", "T12", 2, 1},
      {"setting,frames,speed m/s\na,29,24\n", "T15", 2, 6},
      {"setting,speed m/s\na,101\n", "T14", 2, 3},
      {"setting,speed m/s\na,0\n", "T14", 2, 3},
      {"setting,speed\na,24\n", "T09", 1, 9},
      {"setting\na\n", "T08", 1, 1},
      {"frames,landed\n29,broke\n", "T16", 2, 4},
  }));
  CAPTURE(c.text);
  const Read r(c.text);
  CHECK(r.only_note().code == c.code);
  CHECK(r.only_note().where.line == c.line);
  CHECK(r.only_note().where.column == c.column);
}
