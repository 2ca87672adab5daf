// `hailwright start` as a user runs it.
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

#include "cli/command.hpp"
#include "support/catch.hpp"

using hailwright::testing::Finished;
using hailwright::testing::run_hailwright;
using hailwright::testing::ScratchFolder;
namespace fs = std::filesystem;

namespace {

std::string contents(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// Every file below a folder, hidden or not.
std::set<std::string> files_in(const std::string& folder) {
  std::set<std::string> names;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_directory()) names.insert(fs::relative(entry.path(), folder).string());
  }
  return names;
}

const std::set<std::string> usual_files{"protocol.yaml", "panels/panel-a.yaml", "record.yaml",
                                        "balls.csv",     "trials.csv",          "shots.csv",
                                        "readings.csv",  "tables.xlsx"};

}  // namespace

TEST_CASE("cli: start writes what to begin from and says what comes next") {
  const ScratchFolder scratch;
  const Finished f = run_hailwright("start garden", scratch.path());
  CHECK(f.exit_code == 0);
  CHECK(f.err.empty());
  CHECK(files_in(scratch.path() + "/garden") == usual_files);
  for (const std::string& name : usual_files)
    CHECK_THAT(f.out, Contains(name));
  const std::size_t check = f.out.find("hailwright check garden/protocol.yaml");
  const std::size_t plan = f.out.find("hailwright plan garden/protocol.yaml --panel");
  const std::size_t judge = f.out.find("hailwright judge garden/record.yaml");
  REQUIRE(judge != std::string::npos);
  CHECK(check < plan);
  CHECK(plan < judge);
}

TEST_CASE("cli: start, then check names what is to be filled in and nothing else") {
  const ScratchFolder scratch;
  for (const std::string kind :
       {"control-panel", "same-panel", "sibling-panel", "one-series", "looks-only"}) {
    CAPTURE(kind);
    REQUIRE(run_hailwright("start " + kind + " --from " + kind, scratch.path()).exit_code == 0);
    const Finished f = run_hailwright("check record.yaml", scratch.path() + "/" + kind);
    CHECK(f.exit_code == 3);
    std::size_t errors = 0;
    for (std::size_t at = f.err.find("error: "); at != std::string::npos;
         at = f.err.find("error: ", at + 1)) {
      ++errors;
      const std::string line = f.err.substr(at, f.err.find('\n', at) - at);
      CAPTURE(line);
      CHECK((line.find("is not filled in yet") != std::string::npos ||
             line.find("is not answered yet") != std::string::npos));
    }
    CHECK(errors > 60);
    CHECK_THAT(f.err, !Contains("warning"));
  }
}

TEST_CASE("cli: start overwrites nothing") {
  const ScratchFolder scratch;
  scratch.write("shots.csv", "mine\n");
  scratch.write("record.yaml", "mine too\n");
  const Finished f = run_hailwright("start .", scratch.path());
  CHECK(f.exit_code == 5);
  CHECK(f.out.empty());
  CHECK_THAT(f.err, Contains("./shots.csv is there already") &&
                        Contains("./record.yaml is there already") && Contains("help: ") &&
                        Contains("Nothing was written."));
  CHECK(files_in(scratch.path()) == std::set<std::string>{"record.yaml", "shots.csv"});
  CHECK(contents(scratch.path() + "/shots.csv") == "mine\n");

  // A second start finds the files of the first.
  REQUIRE(run_hailwright("start new", scratch.path()).exit_code == 0);
  const std::string before = contents(scratch.path() + "/new/protocol.yaml");
  CHECK(run_hailwright("start new --from looks-only", scratch.path()).exit_code == 5);
  CHECK(contents(scratch.path() + "/new/protocol.yaml") == before);
}

TEST_CASE("cli: start with an unknown kind lists them") {
  const ScratchFolder scratch;
  const Finished f = run_hailwright("start garden --from roof", scratch.path());
  CHECK(f.exit_code == 2);
  CHECK_THAT(f.err, Contains("'roof'") && Contains("control-panel") && Contains("same-panel") &&
                        Contains("one-series") && Contains("looks-only"));
  CHECK(files_in(scratch.path()).empty());
  CHECK(run_hailwright("start", scratch.path()).exit_code == 2);
}

TEST_CASE("cli: start where no folder can be made") {
  const ScratchFolder scratch;
  const Finished f = run_hailwright("start none/garden", scratch.path());
  CHECK(f.exit_code == 5);
  CHECK_THAT(f.err, Contains("none/garden cannot be made: the folder above it is not there") &&
                        Contains("help: "));
  scratch.write("file", "mine\n");
  CHECK(run_hailwright("start file", scratch.path()).exit_code == 5);
  CHECK(contents(scratch.path() + "/file") == "mine\n");
  CHECK(run_hailwright("start ''", scratch.path()).exit_code == 2);
}

TEST_CASE("cli: start makes the same bytes each time, and commands that can be copied") {
  const ScratchFolder scratch;
  REQUIRE(run_hailwright("start one", scratch.path(), "TZ=Asia/Tokyo").exit_code == 0);
  REQUIRE(run_hailwright("start two", scratch.path(), "TZ=America/Lima").exit_code == 0);
  for (const std::string& name : usual_files) {
    CAPTURE(name);
    CHECK(contents(scratch.path() + "/one/" + name) == contents(scratch.path() + "/two/" + name));
  }
  CHECK(contents(scratch.path() + "/one/tables.xlsx").substr(0, 2) == "PK");
  const Finished f = run_hailwright("start \"my tests\"", scratch.path());
  CHECK_THAT(f.out, Contains("hailwright judge 'my tests/record.yaml'"));
}

// Found by review: a tab in the name was a blank in the commands to copy.
TEST_CASE("cli: start takes no name that cannot be copied from a terminal") {
  const ScratchFolder scratch;
  for (const char* name :
       {"\"$(printf 'a\\tb')\"", "\"$(printf 'a\\033b')\"", "\"$(printf 'a\\377b')\""}) {
    const Finished f = run_hailwright(std::string("start ") + name, scratch.path());
    CAPTURE(name, f.err);
    CHECK(f.exit_code == 2);
    CHECK_THAT(f.err, Contains("the folder's name 'a") && Contains("help: give it another name"));
  }
  CHECK(files_in(scratch.path()).empty());
}
