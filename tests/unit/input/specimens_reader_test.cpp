#include "input/specimens_reader.hpp"

#include "hailwright/input/readers.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using input_files::Files;
using input_files::Seen;

namespace {

const std::string head = "hailwright: specimens 1\ntitle: Coupons\ndamage: a crack\n";

Checked<Specimens> read(const std::string& rest, Files files = {}) {
  files["s.yaml"] = head + rest;
  SourceSet sources;
  return read_specimens("s.yaml", input_files::loader(files), sources);
}

const std::string two_tests = "tests: |\n  specimen,energy J,damaged,note\n  S1,6.0,no,first\n"
                              "  S2,7.5,yes,\n";

}  // namespace

TEST_CASE("specimens: tests in a block, with staircase and errors") {
  const auto read_file =
      read("staircase: {start: 6 J, step: 25 %}\nenergy: {accuracy: 4 %}\n" + two_tests);
  REQUIRE(read_file.value);
  const Specimens& s = *read_file.value;
  CHECK(s.title == "Coupons");
  CHECK(s.damage == "a crack");
  REQUIRE(s.staircase);
  CHECK(s.staircase->start.si() == 6.0);
  CHECK_THAT(s.staircase->step.si(), WithinRel(0.25, 1e-15));
  REQUIRE(s.energy_error);
  CHECK_THAT(s.energy_error->relative.si(), WithinRel(0.04, 1e-15));
  REQUIRE(s.tests.size() == 2);
  CHECK(s.tests[0].specimen == "S1");
  CHECK(s.tests[0].note == "first");
  CHECK_FALSE(s.tests[0].damaged);
  CHECK(s.tests[1].energy.si() == 7.5);
  CHECK(s.tests[1].damaged);
}

// By hand: 10 g at 30 m/s are 4.5 J.
TEST_CASE("specimens: the energy of a ball's mass and speed, from a file") {
  const auto read_file = read("tests: t.csv\nmass: {accuracy: 0.1 g}\nspeed: {spread: 2 %}\n",
                              {{"t.csv", "specimen;mass g;speed m/s;damaged\nA;10,0;30,0;yes\n"}});
  REQUIRE(read_file.value);
  const SpecimenTest& test = read_file.value->tests.at(0);
  CHECK_THAT(test.energy.si(), WithinRel(4.5, 1e-12));
  CHECK(test.mass);
  CHECK(test.speed);
  CHECK(read_file.value->mass_error);
  CHECK(read_file.value->speed_error);
}

TEST_CASE("specimens: faults at their places") {
  struct Row {
    std::string text;
    Seen fault;
  };
  const std::string header = "tests: |\n  specimen,energy J,mass g,speed m/s,damaged\n";
  for (const Row& row : std::vector<Row>{
           {header + "  S1,6,,,no\n  S1,7,,,yes\n", {"T35", 7, 3}},
           {header + "  S1,,,,no\n", {"T12", 6, 3}},
           {header + "  S1,,10,,no\n", {"T12", 6, 3}},
           {header + "  S1,6,10,,no\n", {"T15", 6, 6}},
           {header + "  S1,6,,,maybe\n", {"T16", 6, 10}},
           {header + "  S1,0,,,no\n", {"T14", 6, 6}},
       }) {
    CAPTURE(row.text);
    CHECK(input_files::seen(read(row.text).notes) == std::vector{row.fault});
  }
}

// Found by review: 1e-300 J was read, and ended as an internal error in the picture.
TEST_CASE("specimens: energies that no ball has are refused at their place") {
  const std::string header = "tests: |\n  specimen,energy J,mass g,speed m/s,damaged\n";
  CHECK(input_files::seen(read(header + "  S1,1e-300,,,no\n").notes) ==
        std::vector{Seen{"T14", 6, 6}});
  CHECK(input_files::seen(read(header + "  S1,0.0009,,,no\n").notes) ==
        std::vector{Seen{"T14", 6, 6}});
  CHECK(input_files::seen(read(header + "  S1,,0.001,1e-3,no\n").notes) ==
        std::vector{Seen{"T14", 6, 7}});
  // 0.5 x 1 kg x (100 m/s)^2 = 5000 J.
  CHECK(input_files::seen(read(header + "  S1,,1000,100,no\n").notes) ==
        std::vector{Seen{"T14", 6, 7}});
  CHECK(read(header + "  S1,0.001,,,no\n  S2,1000,,,no\n").value);
  CHECK(input_files::only(read("staircase: {start: 0.0001 J, step: 20 %}\n" + two_tests).notes)
            .code == "R01");
}

TEST_CASE("specimens: a protocol that is named must be there and be one") {
  Files files = input_files::good_files();
  const auto good = read("protocol: protocol.yaml\n" + two_tests, files);
  REQUIRE(good.value);
  CHECK(good.value->protocol == "protocol.yaml");
  CHECK(input_files::only(read("protocol: none.yaml\n" + two_tests).notes).code == "F01");
  CHECK(input_files::only(read("protocol: panel.yaml\n" + two_tests, files).notes).code == "K11");
}

TEST_CASE("specimens: more than anybody strikes are refused before they are judged") {
  std::string table = "specimen,energy J,damaged\n";
  for (int i = 0; i < 2001; ++i)
    table += "S" + std::to_string(i) + ",6,no\n";
  CHECK(input_files::only(read("tests: t.csv\n", {{"t.csv", table}}).notes).code == "T01");
}
