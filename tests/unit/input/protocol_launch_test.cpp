#include "input/protocol_launch.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using Catch::WithinAbs;
using input_files::seen;
using input_files::Seen;

namespace {

Entry entry(const std::string& key, const std::string& braces) {
  return input_files::tree(key + ": " + braces + "\n").entries.front();
}

}  // namespace

TEST_CASE("protocol_launch: a launcher with all that is known of it") {
  Diagnostics notes;
  const Launch l = read_launch(
      entry("launch", "{kind: elastic, distance: 3 m, height: 120 cm, aim: level, fastest: 32 m/s, "
                      "spread: 2 %, ground_falls: 1.5 m, altitude: 1000 m, air: 20 degC, "
                      "tried: 10, hit: 8}"),
      notes);
  CHECK(notes.empty());
  CHECK(l.kind == Launcher::elastic);
  CHECK_THAT(l.fastest->si(), WithinAbs(32.0, 1e-12));
  CHECK(l.spread == percent(2));
  CHECK_THAT(l.ground_falls->si(), WithinAbs(1.5, 1e-12));
  CHECK_THAT(l.altitude->si(), WithinAbs(1000.0, 1e-9));
  CHECK_THAT(l.air->celsius(), WithinAbs(20.0, 1e-9));
  CHECK(l.tried->tried == 10);
  CHECK(l.tried->good == 8);
}

TEST_CASE("protocol_launch: what is left out is unknown") {
  Diagnostics notes;
  const Launch l = read_launch(entry("launch", "{kind: sling}"), notes);
  CHECK(notes.empty());
  CHECK_FALSE(l.fastest);
  CHECK_FALSE(l.spread);
  CHECK_FALSE(l.tried);
  CHECK_FALSE(l.altitude);
}

TEST_CASE("protocol_launch: counts that do not go together") {
  Diagnostics notes;
  CHECK_FALSE(read_launch(entry("launch", "{kind: sling, tried: 10}"), notes).tried);
  CHECK_FALSE(read_launch(entry("launch", "{kind: sling, tried: 10, hit: 12}"), notes).tried);
  CHECK_FALSE(read_ice(entry("ice", "{rejected: 2}"), notes).made);
  CHECK(seen(notes) == std::vector<Seen>{{"C19", 1, 7}, {"C19", 1, 23}, {"C19", 1, 39}});
}

TEST_CASE("protocol_launch: moulds by the diameter of the ball") {
  Diagnostics notes;
  const Ice ice =
      read_ice(entry("ice", "{moulds: {25 mm: 12, 1.5 in: 6}, made: 20, rejected: 2}"), notes);
  CHECK(notes.empty());
  REQUIRE(ice.moulds.size() == 2);
  CHECK_THAT(ice.moulds[0].ball.si(), WithinAbs(0.025, 1e-12));
  CHECK(ice.moulds[0].cavities == 12);
  CHECK_THAT(ice.moulds[1].ball.si(), WithinAbs(0.0381, 1e-12));
  CHECK(ice.made->tried == 20);
  CHECK(ice.made->good == 18);
}

TEST_CASE("protocol_launch: moulds that cannot be read say where") {
  Diagnostics notes;
  CHECK(read_ice(entry("ice", "{moulds: {25: 12}}"), notes).moulds.empty());
  CHECK(read_ice(entry("ice", "{moulds: {25 mm: 0}}"), notes).moulds.empty());
  CHECK(read_ice(entry("ice", "{moulds: {25 kg: 3}}"), notes).moulds.empty());
  CHECK(read_ice(entry("ice", "{moulds: [12]}"), notes).moulds.empty());
  std::vector<std::string> codes;
  for (const Diagnostic& note : notes.items())
    codes.emplace_back(note.code);
  CHECK(codes == std::vector<std::string>{"U02", "R02", "U03", "K05"});
}

TEST_CASE("protocol_launch: how the balls are weighed") {
  Diagnostics notes;
  CHECK(read_ice(entry("ice", "{weigh: one by one}"), notes).weighed_together == 1);
  CHECK(read_ice(entry("ice", "{weigh: ten together}"), notes).weighed_together == 10);
  CHECK(read_ice(entry("ice", "{weigh: 8 together}"), notes).weighed_together == 8);
  CHECK(notes.empty());
  for (const char* wrong : {"{weigh: yes}", "{weigh: 1 together}", "{weigh: all}"})
    CHECK_FALSE(read_ice(entry("ice", wrong), notes).weighed_together);
  CHECK(notes.items().size() == 3);
}
