// `hailwright write` as a user runs it: what lies in the folder afterwards, and what never does.
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <sys/wait.h>

#include "cli/command.hpp"
#include "support/catch.hpp"

using hailwright::testing::Finished;
using hailwright::testing::hailwright_program;
using hailwright::testing::run_hailwright;
using hailwright::testing::ScratchFolder;
using hailwright::testing::source_file;
namespace fs = std::filesystem;

namespace {

const std::string demo = "protocols/demo/rigid-withstood.yaml";
const std::string quick = " --trials 0";

/// Every file of a folder by its name there.
std::map<std::string, std::string> contents(const std::string& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file()) continue;
    std::ifstream file(entry.path(), std::ios::binary);
    files[fs::relative(entry.path(), folder).string()] = {std::istreambuf_iterator<char>(file), {}};
  }
  return files;
}

std::vector<std::string> names(const std::map<std::string, std::string>& files) {
  std::vector<std::string> all;
  for (const auto& [name, bytes] : files)
    all.push_back(name);
  return all;
}

/// Exit code of a command of the shell.
int shell(const std::string& command) {
  const int status = std::system(command.c_str());
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/// The demonstration files in a folder of one's own.
class Desk {
public:
  Desk() {
    fs::copy(std::string(HAILWRIGHT_SOURCE_DIR) + "/protocols/demo", folder_ / "demo",
             fs::copy_options::recursive);
  }
  [[nodiscard]] std::string operator/(const std::string& name) const { return folder_ / name; }
  [[nodiscard]] const std::string& path() const { return folder_.path(); }
  [[nodiscard]] Finished write(const std::string& arguments) const {
    return run_hailwright("write " + arguments + quick, folder_.path());
  }
  /// Puts another text in place of one that is in a file.
  void change(const std::string& name, const std::string& from, const std::string& to) const {
    std::string text = contents(fs::path(folder_ / name).parent_path().string())
                           .at(fs::path(name).filename().string());
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    folder_.write(name, text.replace(at, from.size(), to));
  }

private:
  ScratchFolder folder_;
};

}  // namespace

TEST_CASE("write: all formats and pictures and inputs with sums that another program finds right") {
  const ScratchFolder scratch;
  const Finished f = run_hailwright("write " + demo + " -o " + (scratch / "w") + quick);
  CAPTURE(f.err);
  REQUIRE(f.exit_code == 0);
  CHECK(f.err.empty());
  const auto files = contents(scratch / "w");
  for (const std::string name :
       {"report.html", "report.md", "report.json", "report.xlsx", "readings.csv", "shots.csv",
        "hit-map.svg", "inputs/rigid-withstood.yaml", "inputs/protocol.yaml",
        "inputs/panels/rigid-a.yaml", "inputs/readings.csv", "checksums.txt"}) {
    CAPTURE(name);
    CHECK(files.contains(name));
    CHECK_THAT(f.out, Contains((scratch / "w") + "/" + name + "\n"));
  }
  CHECK(std::count(f.out.begin(), f.out.end(), '\n') == static_cast<long>(files.size()));
  CHECK(files.at("inputs/rigid-withstood.yaml") == source_file(demo));
  CHECK(files.at("inputs/readings.csv") == source_file("protocols/demo/readings.csv"));
  CHECK(files.at("report.xlsx").starts_with("PK"));
  CHECK(nlohmann::json::accept(files.at("report.json")));
  // GNU coreutils finds all as listed, and lists as many.
  CHECK(shell("cd '" + (scratch / "w") + "' && sha256sum --check --strict --quiet checksums.txt") ==
        0);
  const std::string& sums = files.at("checksums.txt");
  CHECK(std::count(sums.begin(), sums.end(), '\n') == static_cast<long>(files.size()) - 1);
}

TEST_CASE("write: a reader judges the copies and comes to the same") {
  const ScratchFolder scratch;
  REQUIRE(run_hailwright("write " + demo + " -o " + (scratch / "w") + quick).exit_code == 0);
  const Finished original = run_hailwright("judge rigid-withstood.yaml --explain" + quick,
                                           std::string(HAILWRIGHT_SOURCE_DIR) + "/protocols/demo");
  const Finished copy =
      run_hailwright("judge rigid-withstood.yaml --explain" + quick, scratch / "w/inputs");
  REQUIRE(original.exit_code == 0);
  CHECK(copy.out == original.out);
}

TEST_CASE("write: the same record gives the same bytes wherever it lies and however often") {
  const Desk desk;
  const std::string few = " --trials 20000";
  REQUIRE(run_hailwright("write demo/rigid-withstood.yaml demo/flexible-damaged.yaml -o a" + few,
                         desk.path())
              .exit_code == 0);
  REQUIRE(
      run_hailwright("write rigid-withstood.yaml flexible-damaged.yaml -o ../b --threads 1" + few,
                     desk / "demo")
          .exit_code == 0);
  const std::string folder = desk / "demo/";
  REQUIRE(run_hailwright("write " + folder + "rigid-withstood.yaml " + folder +
                         "flexible-damaged.yaml -o " + (desk / "c") + few)
              .exit_code == 0);
  const auto first = contents(desk / "a");
  CHECK(first.size() > 10);
  for (const std::string other : {"b", "c"}) {
    const auto again = contents(desk / other);
    CHECK(names(again) == names(first));
    for (const auto& [name, bytes] : first) {
      CAPTURE(other, name);
      CHECK((again.at(name) == bytes));
    }
  }
  // Nothing tells where it lay.
  for (const auto& [name, bytes] : first) {
    CAPTURE(name);
    CHECK(bytes.find(desk.path()) == std::string::npos);
  }
}

TEST_CASE("write: random trials give the same bytes with any number of threads") {
  const ScratchFolder scratch;
  const std::string command = "write " + demo + " --trials 20000 -o ";
  REQUIRE(run_hailwright(command + (scratch / "a") + " --threads 1").exit_code == 0);
  REQUIRE(run_hailwright(command + (scratch / "b") + " --threads 3").exit_code == 0);
  CHECK(contents(scratch / "a") == contents(scratch / "b"));
}

TEST_CASE("write: a folder that is there is written anew only when told so") {
  const Desk desk;
  REQUIRE(desk.write("demo/rigid-withstood.yaml -o w").exit_code == 0);
  const auto before = contents(desk / "w");
  const Finished refused = desk.write("demo/rigid-undecided.yaml -o w");
  CHECK(refused.exit_code == 5);
  CHECK_THAT(refused.err, Contains("w holds something already, and stays as it is"));
  CHECK_THAT(refused.err, Contains("--replace"));
  CHECK(contents(desk / "w") == before);

  std::ofstream(desk / "w/inputs/shots.csv") << "mine";
  std::ofstream(desk / "w/notes.txt") << "mine";
  const Finished replaced = desk.write("demo/rigid-undecided.yaml -o w --replace");
  CHECK(replaced.exit_code == 0);
  CHECK(replaced.err ==
        "hailwright: w/inputs/shots.csv is not part of what was written, and stays\n"
        "hailwright: w/notes.txt is not part of what was written, and stays\n");
  const auto after = contents(desk / "w");
  CHECK(after.at("notes.txt") == "mine");
  CHECK(after.at("inputs/shots.csv") == "mine");
  CHECK_FALSE(after.contains("inputs/rigid-withstood.yaml"));
  CHECK_FALSE(after.contains("inputs/trials.csv"));
  CHECK(after.contains("inputs/rigid-undecided.yaml"));
}

// Found by review: where no write-up was, --replace wrote over the tables of other records.
TEST_CASE("write: a folder without a write-up is not written anew") {
  const Desk desk;
  const auto before = contents(desk / "demo");
  for (const char* replace : {"", " --replace"}) {
    const Finished refused = desk.write(std::string("demo/rigid-logged.yaml -o demo") + replace);
    CHECK(refused.exit_code == 5);
    CHECK_THAT(refused.err, Contains("and stays as it is") && Contains("name another folder"));
    CHECK(contents(desk / "demo") == before);
  }
}

// Found by review: in the folder of a record, --replace put the tables of the write-up in the place
// of the record's own.
TEST_CASE("write: the files that a write-up is made from are never replaced") {
  const Desk desk;
  REQUIRE(desk.write("demo/rigid-undecided.yaml -o earlier").exit_code == 0);
  std::filesystem::copy(desk / "earlier/report.json", desk / "demo");
  const auto before = contents(desk / "demo");
  const Finished refused = desk.write("demo/rigid-withstood.yaml -o demo --replace");
  CHECK(refused.exit_code == 5);
  CHECK_THAT(refused.err, Contains("demo/shots.csv is a file that this is made from") &&
                              Contains("demo/readings.csv is a file that this is made from") &&
                              Contains("help: name another folder"));
  CHECK(contents(desk / "demo") == before);

  // From its own copies a folder is made anew, the same.
  REQUIRE(desk.write("demo/flexible-damaged.yaml -o w --without-photos").exit_code == 0);
  const auto written = contents(desk / "w");
  const Finished again =
      desk.write("w/inputs/flexible-damaged.yaml -o w --replace --without-photos");
  CHECK(again.exit_code == 0);
  CHECK(contents(desk / "w") == written);
}

// Found by review: records of one panel without titles had one name; a record could count twice.
TEST_CASE("write: records are told apart by their files and named once each") {
  const Desk desk;
  const Finished twice = desk.write("demo/rigid-withstood.yaml demo/./rigid-withstood.yaml -o w");
  CHECK(twice.exit_code == 3);
  CHECK_THAT(twice.err, Contains("demo/rigid-withstood.yaml is the same file"));
  desk.change("demo/rigid-undecided.yaml", "title: Rigid A, one set-up each", "title: Rigid A");
  REQUIRE(desk.write("demo/rigid-withstood.yaml demo/rigid-undecided.yaml -o w").exit_code == 0);
  const auto files = contents(desk / "w");
  for (const char* title : {"Rigid A (rigid-withstood.yaml)", "Rigid A (rigid-undecided.yaml)"}) {
    CAPTURE(title);
    for (const char* file : {"report.html", "report.json", "set-ups.csv", "readings.csv"})
      CHECK_THAT(files.at(file), Contains(title));
  }
}

// Found by review: 40,000 characters of title ended with "our mistake, not yours".
TEST_CASE("write: a title beyond all measure is written whole but for the spreadsheet") {
  const Desk desk;
  const std::string title(40'000, 't');
  desk.change("demo/rigid-withstood.yaml", "title: Rigid A", "title: " + title);
  const Finished f = desk.write("demo/rigid-withstood.yaml -o w");
  CHECK(f.exit_code == 0);
  CHECK(f.err.empty());
  CHECK_THAT(contents(desk / "w").at("report.json"), Contains(title));
}

TEST_CASE("write: a file that is named by its whole path is an error with a mend") {
  const Desk desk;
  desk.change("demo/rigid-withstood.yaml", "panel: panels/rigid-a.yaml",
              "panel: " + (desk / "demo/panels/rigid-a.yaml"));
  for (const std::string& record : {std::string("demo"), desk / "demo"}) {
    CAPTURE(record);
    const Finished f = desk.write(record + "/rigid-withstood.yaml -o w");
    CHECK(f.exit_code == 3);
    CHECK_THAT(f.err, Contains(record + "/rigid-withstood.yaml:6:8: error: the file"));
    CHECK_THAT(f.err, Contains("help: name it from the folder of the record: panels/rigid-a.yaml"));
    CHECK_FALSE(fs::exists(desk / "w"));
  }
  // Judging does without.
  CHECK(run_hailwright("judge demo/rigid-withstood.yaml" + quick, desk.path()).exit_code == 0);
}

TEST_CASE("write: files above the record keep their places") {
  const Desk desk;
  fs::create_directory(desk / "records");
  fs::rename(desk / "demo/rigid-undecided.yaml", desk / "records/r.yaml");
  desk.change("records/r.yaml", "protocol: ", "protocol: ../demo/");
  desk.change("records/r.yaml", "panel: ", "panel: ../demo/");
  const Finished f = run_hailwright("write r.yaml -o ../w" + quick, desk / "records");
  CAPTURE(f.err);
  REQUIRE(f.exit_code == 0);
  CHECK(fs::exists(desk / "w/inputs/records/r.yaml"));
  CHECK(fs::exists(desk / "w/inputs/demo/panels/rigid-a.yaml"));
  CHECK(run_hailwright("judge inputs/records/r.yaml" + quick, desk / "w").exit_code == 0);
}

TEST_CASE("write: photos come without what else they held and a missing one is an error") {
  const Desk desk;
  const std::string photo = source_file("protocols/demo/photos/rigid-a-place-14.png");
  REQUIRE(photo.size() > 100);
  // A comment behind the header of 33 bytes; its sum need not be right for what is optional.
  const std::string comment = std::string("\0\0\0\14tEXt", 8) + "home address" + "sum.";
  const std::string told = photo.substr(0, 33) + comment + photo.substr(33) + "after the end";
  std::ofstream(desk / "demo/photos/rigid-a-place-14.png", std::ios::binary) << told;
  const Finished f = desk.write("demo/rigid-withstood.yaml -o w");
  CAPTURE(f.err);
  REQUIRE(f.exit_code == 0);
  const auto files = contents(desk / "w");
  REQUIRE(files.contains("photos/1-rigid-a-place-14.png"));
  for (const auto& [name, bytes] : files) {
    CAPTURE(name);
    CHECK(bytes.find("home address") == std::string::npos);
    CHECK(bytes.find("after the end") == std::string::npos);
  }

  fs::remove(desk / "demo/photos/rigid-a-place-14.png");
  const Finished missing = desk.write("demo/rigid-withstood.yaml -o v");
  CHECK(missing.exit_code == 3);
  CHECK_THAT(missing.err, Contains("demo/rigid-withstood.yaml:25:"));
  CHECK_THAT(missing.err, Contains("error: the photo photos/rigid-a-place-14.png is not there"));
  CHECK_THAT(missing.err, Contains("--without-photos"));
  CHECK_FALSE(fs::exists(desk / "v"));
  CHECK(desk.write("demo/rigid-withstood.yaml -o v --without-photos").exit_code == 0);
  CHECK_FALSE(fs::exists(desk / "v/photos"));
}

TEST_CASE("write: where files can be no larger what was there stays and the mend is said") {
  const Desk desk;
  REQUIRE(desk.write("demo/rigid-withstood.yaml -o w").exit_code == 0);
  const auto before = contents(desk / "w");
  // At most one block, which shells take for 512 or 1024 bytes.
  CHECK(shell("cd '" + desk.path() + "' && ulimit -f 1 && '" + hailwright_program() +
              "' write demo/rigid-undecided.yaml -o w --replace" + quick + " >/dev/null 2>&1") ==
        5);
  CHECK(contents(desk / "w") == before);
  // A folder whose name is a file's.
  const Finished file = desk.write("demo/rigid-withstood.yaml -o demo/protocol.yaml");
  CHECK(file.exit_code == 5);
  CHECK_THAT(file.err, Contains("demo/protocol.yaml is no folder"));
  CHECK_THAT(file.err, Contains("help: "));
}

TEST_CASE("write: a full disk leaves what was there and says what to do") {
  const Desk desk;
  REQUIRE(desk.write("demo/rigid-withstood.yaml -o w").exit_code == 0);
  fs::create_directory(desk / "disk");
  if (shell("mount -t tmpfs -o size=16m none '" + (desk / "disk") + "' 2>/dev/null") != 0) {
    WARN("only root can make a small disk: not tried");
    return;
  }
  fs::copy(desk / "w", desk / "disk/w", fs::copy_options::recursive);
  const auto before = contents(desk / "disk/w");
  // Fills what is left but for 100 kB; a page does not fit.
  shell("cd '" + (desk / "disk") +
        "' && dd if=/dev/zero of=filler bs=1k 2>/dev/null; truncate -s -100k filler");
  const Finished full = desk.write("demo/rigid-undecided.yaml -o disk/w --replace");
  const auto after = contents(desk / "disk/w");
  fs::remove(desk / "disk/filler");
  const Finished roomy = desk.write("demo/rigid-undecided.yaml -o disk/w --replace");
  const int unmounted = shell("umount '" + (desk / "disk") + "'");
  CHECK(full.exit_code == 5);
  CHECK_THAT(full.err, Contains("could not be written: No space left on device"));
  CHECK_THAT(full.err, Contains("help: make room on the disk"));
  CHECK(after == before);
  CHECK(roomy.exit_code == 0);
  CHECK(unmounted == 0);
}

TEST_CASE("write: killed at any moment it leaves whole files and the next run cleans up") {
  const Desk desk;
  REQUIRE(desk.write("demo/rigid-withstood.yaml -o a").exit_code == 0);
  REQUIRE(desk.write("demo/flexible-damaged.yaml -o b").exit_code == 0);
  fs::create_directory(desk / "tmp");
  const auto one = contents(desk / "a");
  const auto other = contents(desk / "b");
  fs::copy(desk / "a", desk / "w", fs::copy_options::recursive);
  const auto known = [](const auto& files, const std::string& name, const std::string& bytes) {
    const auto found = files.find(name);
    return found != files.end() && found->second == bytes;
  };
  for (int i = 0; i < 25; ++i) {
    const std::string record = i % 2 == 0 ? "flexible-damaged" : "rigid-withstood";
    shell("cd '" + desk.path() + "' && TMPDIR=tmp timeout -s KILL 0." + (i < 10 ? "00" : "0") +
          std::to_string(i) + " '" + hailwright_program() + "' write demo/" + record +
          ".yaml -o w --replace" + quick + " >/dev/null 2>&1");
    for (const auto& [name, bytes] : contents(desk / "w")) {
      if (name.find(".hailwright-") != std::string::npos) continue;
      CAPTURE(i, name);
      CHECK((known(one, name, bytes) || known(other, name, bytes)));
    }
  }
  REQUIRE(desk.write("demo/rigid-withstood.yaml -o w --replace").exit_code == 0);
  for (const auto& [name, bytes] : contents(desk / "w")) {
    CAPTURE(name);
    CHECK(name.find(".hailwright-") == std::string::npos);
  }
  CHECK(shell("cd '" + (desk / "w") + "' && sha256sum --check --strict --quiet checksums.txt") ==
        0);
  // Found by review: each left a folder for good. A kill may fall into the microseconds in which a
  // temporary file still has its name.
  CHECK(std::distance(fs::directory_iterator(desk / "tmp"), fs::directory_iterator()) <= 1);
}

TEST_CASE("write: all demonstration records together and each by itself") {
  const ScratchFolder scratch;
  std::string all;
  for (const auto& entry :
       fs::directory_iterator(std::string(HAILWRIGHT_SOURCE_DIR) + "/protocols/demo")) {
    const std::string name = entry.path().filename().string();
    if (!name.ends_with(".yaml") || name.starts_with("protocol")) continue;
    const std::string record = "protocols/demo/" + name;
    all += " " + record;
    const Finished f = run_hailwright("write " + record + " -o " + (scratch / name) + quick);
    CAPTURE(record, f.err);
    CHECK(f.exit_code == 0);
  }
  const Finished f = run_hailwright("write" + all + " -o " + (scratch / "all") + quick);
  CAPTURE(f.err);
  CHECK(f.exit_code == 0);
}

TEST_CASE("write: its page lists the files that it writes") {
  const std::string page = source_file("docs/writing-up.md");
  const std::size_t mark = page.find("<!-- output of: hailwright write " + demo + " -o DIR -->");
  REQUIRE(mark != std::string::npos);
  const std::size_t block = page.find("```\n", mark) + 4;
  const Desk desk;
  CHECK(desk.write("demo/rigid-withstood.yaml -o DIR").out ==
        page.substr(block, page.find("```", block) - block));
}

TEST_CASE("write: what cannot be understood is refused before anything is read") {
  CHECK(run_hailwright("write " + demo).exit_code == 2);
  CHECK(run_hailwright("write -o somewhere").exit_code == 2);
  CHECK(run_hailwright("write " + demo + " -o /nowhere/w --trials 7").exit_code == 2);
  CHECK(run_hailwright("write none.yaml -o /nowhere/w").exit_code == 3);
  CHECK(run_hailwright("write " + demo + " -o /nowhere/w" + quick).exit_code == 5);
}

TEST_CASE("judge: a reader's limit is printed beside the verdict and changes none") {
  const Finished plain = run_hailwright("judge " + demo + quick);
  const Finished asked = run_hailwright("judge " + demo + quick + " --limit 0.1%");
  REQUIRE(asked.exit_code == 0);
  CHECK_THAT(asked.out, Contains("a reader's limit of 0.1 %"));
  CHECK(asked.out.substr(0, 200) == plain.out.substr(0, 200));
  for (const std::string refused : {"2", "0%", "100%", "-1%", "120%", "x", "2mm", "nan%"}) {
    const Finished f = run_hailwright("judge " + demo + " '--limit=" + refused + "'");
    CAPTURE(refused);
    CHECK(f.exit_code == 2);
    CHECK(f.out.empty());
    CHECK_THAT(f.err, Contains("--limit must be more than 0 % and less than 100 %"));
  }
}

TEST_CASE("judge: for machines it names the files with their sums") {
  const Finished f = run_hailwright("judge " + demo + quick + " --limit 2% --format json");
  CAPTURE(f.err);
  REQUIRE(f.exit_code == 0);
  CHECK(nlohmann::json::accept(f.out));
  CHECK_THAT(f.out, Contains(demo));
  CHECK(run_hailwright("judge " + demo + " --explain --format json").exit_code == 2);
}

TEST_CASE("check: a schema of each kind of file for editors") {
  for (const std::string kind : {"protocol", "panel", "record"}) {
    const Finished f = run_hailwright("check --schema " + kind);
    CAPTURE(kind);
    CHECK(f.exit_code == 0);
    CHECK(nlohmann::json::accept(f.out));
  }
  CHECK(run_hailwright("check --schema table").exit_code == 2);
  CHECK(run_hailwright("check --schema panel README.md").exit_code == 2);
  const Finished none = run_hailwright("check");
  CHECK(none.exit_code == 2);
  CHECK_THAT(none.err, Contains("check needs files"));
}
