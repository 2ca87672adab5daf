// Two logs side by side, as a user runs the program on them.
#include <nlohmann/json.hpp>

#include <string>

#include "cli/command.hpp"
#include "cli/logged_rows.hpp"
#include "support/catch.hpp"

using hailwright::testing::Finished;
using hailwright::testing::header;
using hailwright::testing::parsed;
using hailwright::testing::rows;
using hailwright::testing::run_hailwright;
using hailwright::testing::ScratchFolder;
using hailwright::testing::zone;

namespace {

using nlohmann::json;

}  // namespace

TEST_CASE("readings: two logs are laid side by side") {
  const ScratchFolder scratch;
  scratch.write("a.csv", header + rows(0, 601, 80.0));
  scratch.write("b.csv", header + rows(7, 608, 60.0));
  const json j = parsed(
      run_hailwright(std::string("readings a.csv --beside b.csv --offset -7s --format json") + zone,
                     scratch.path()));
  CHECK(j["read_beside"]["rows"] == 601);
  CHECK(j["clock_offset_used"]["value"] == -7.0);
  CHECK_THAT(j["whole"]["ratio"]["value"].get<double>(), WithinRel(0.75, 1e-9));
  // Powers that never change show no offset.
  const Finished f = run_hailwright(
      std::string("readings a.csv --beside b.csv --offset auto") + zone, scratch.path());
  CHECK(f.exit_code == 0);
  CHECK_THAT(f.err, Contains("the offset between the two clocks was not found"));
  const Finished piped = run_hailwright(
      std::string("readings - --beside b.csv --offset auto") + zone + "< a.csv", scratch.path());
  CHECK(piped.exit_code == 2);
  CHECK_THAT(piped.err, Contains("reads both logs twice"));
}

TEST_CASE("readings: a second log leaves the energy of the first as it is") {
  const ScratchFolder scratch;
  // A gap of a minute: more than five steps of the first log, less than five of the second.
  scratch.write("a.csv", header + rows(0, 300, 80.0) + rows(360, 660, 80.0));
  std::string slow = header;
  for (int s = 0; s <= 660; s += 30)
    slow += rows(s, s + 1, 60.0);
  scratch.write("slow.csv", slow);
  const json alone =
      parsed(run_hailwright(std::string("readings a.csv --format json") + zone, scratch.path()));
  const json both = parsed(run_hailwright(
      std::string("readings a.csv --beside slow.csv --format json") + zone, scratch.path()));
  CHECK(alone["whole"]["energy"]["value"] == both["whole"]["energy"]["value"]);
  CHECK(both["whole"]["gaps"] == alone["whole"]["gaps"]);
  // The second log is bridged by its own steps.
  CHECK_THAT(both["whole"]["ratio"]["value"].get<double>(), WithinRel(0.75, 1e-9));
}

TEST_CASE("readings: a second log and a second panel in the first one are two of them") {
  const ScratchFolder scratch;
  scratch.write("both.csv", "time,power [W],power_beside [W]\n2026-06-14T10:00:00,80.0,79.0\n"
                            "2026-06-14T10:00:01,80.0,79.0\n2026-06-14T10:00:02,80.0,79.0\n");
  scratch.write("map.yaml",
                "hailwright: columns 1\ncolumns:\n  time: time\n  power: {name: \"power "
                "[W]\", unit: W}\n  power_beside: {name: \"power_beside [W]\", unit: "
                "W}\n");
  scratch.write("b.csv", header + rows(0, 3, 60.0));
  scratch.write("b.yaml", "hailwright: columns 1\ncolumns:\n  time: time\n  power: {name: \"power "
                          "[W]\", unit: W}\n");
  const Finished f = run_hailwright(
      std::string("readings both.csv --columns map.yaml --beside b.csv --beside-columns b.yaml") +
          zone,
      scratch.path());
  CHECK(f.exit_code == 3);
  CHECK(f.out.empty());
  CHECK_THAT(f.err, Contains("both.csv: error: --beside names") &&
                        Contains("has one already, in its column \"power_beside [W]\""));
}

TEST_CASE("readings: two logs without a ratio are told why") {
  const ScratchFolder scratch;
  scratch.write("a.csv", header + rows(0, 300, 80.0));
  scratch.write("b.csv", header + rows(3600, 3900, 60.0));
  for (const char* offset : {"", " --offset auto"}) {
    const Finished f = run_hailwright(std::string("readings a.csv --beside b.csv") + zone + offset,
                                      scratch.path());
    CAPTURE(offset, f.err);
    CHECK(f.exit_code == 0);
    CHECK_THAT(f.err,
               Contains("warning: no ratio of the two panels: the logs have no time in common") &&
                   Contains("from 2026-06-14T11:00:00+02:00 to 2026-06-14T11:04:59+02:00") &&
                   Contains("see whether both zones are right") &&
                   !Contains("state it with --offset"));
  }
  scratch.write("off.csv", header + rows(0, 300, 0.0));
  const Finished f =
      run_hailwright(std::string("readings a.csv --beside off.csv") + zone, scratch.path());
  CHECK(f.exit_code == 0);
  CHECK_THAT(f.err, Contains("in no window of a minute do both give power"));
}
