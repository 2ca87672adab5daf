// The program as a user runs it.
#include <nlohmann/json.hpp>

#include <cmath>
#include <filesystem>
#include <regex>
#include <sstream>
#include <vector>

#include "cli/command.hpp"
#include "report/text_layout.hpp"
#include "support/catch.hpp"

using hailwright::testing::Finished;
using hailwright::testing::hailwright_program;
using hailwright::testing::run_hailwright;
using hailwright::testing::ScratchFolder;
using hailwright::testing::source_file;

namespace {

std::vector<std::string> lines(const std::string& text) {
  std::vector<std::string> out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    out.push_back(line);
  return out;
}

int count(const std::string& text, const std::string& what) {
  int n = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1))
    ++n;
  return n;
}

const std::vector<std::string> demo_records{
    "protocols/demo/rigid-withstood.yaml", "protocols/demo/flexible-damaged.yaml",
    "protocols/demo/rigid-undecided.yaml", "protocols/demo/rigid-not-reached.yaml",
    "protocols/demo/flexible-power-rose.yaml"};

}  // namespace

TEST_CASE("cli: grades as CSV hold all IEC and Swiss rows") {
  const Finished f = run_hailwright("grades --format csv");
  CHECK(f.exit_code == 0);
  CHECK(count(f.out, "\nIEC 61215,") == 8);
  CHECK(count(f.out, "\nVKF,") == 10);
  CHECK_THAT(f.out, Contains("IEC 61215,25 mm,ice,25,7.53,23,1.9917,"));
  CHECK_THAT(f.out, Contains("from memory"));
}

TEST_CASE("cli: grades as JSON parse and mark what is from memory") {
  const Finished f = run_hailwright("grades --scheme 'ISO 9806 ice' --format json");
  REQUIRE(f.exit_code == 0);
  const auto j = nlohmann::json::parse(f.out);
  REQUIRE(j["grades"].size() == 4);
  for (const auto& g : j["grades"])
    CHECK(g["status"]["row"] == "from memory");
}

TEST_CASE("cli: grades and sources as text and Markdown") {
  for (const char* command : {"grades", "grades --format md", "sources", "sources --format md"}) {
    const Finished f = run_hailwright(command);
    CAPTURE(command);
    CHECK(f.exit_code == 0);
    CHECK_THAT(f.out, Contains("from memory"));
  }
  CHECK(run_hailwright("grades --scheme 'IEC 99999'").exit_code == 2);
}

// The IEC 25 mm figures (read at secondary sources); sqrt((5/sqrt 3)^2 + (2*5/sqrt 3)^2) % = 6.455
// %.
TEST_CASE("cli: one shot") {
  const Finished f = run_hailwright(
      "shot --diameter 25mm --mass 7.53g --speed 23m/s --mass-accuracy 5% --speed-accuracy 5% "
      "--format json");
  REQUIRE(f.exit_code == 0);
  const auto j = nlohmann::json::parse(f.out);
  CHECK_THAT(j["energy"]["value"].get<double>(), WithinAbs(1.9917, 0.00005));
  CHECK_THAT(j["energy"]["relative_standard_uncertainty"].get<double>() * 100,
             WithinAbs(6.455, 0.0005));
  CHECK_THAT(j["grades"][2]["share"].get<double>(), WithinAbs(1.0, 1e-12));
  CHECK_THAT(j["equal_energy_hailstone"]["smallest"].get<double>(), WithinAbs(24.9, 0.05));
  CHECK_THAT(j["equal_energy_hailstone"]["largest"].get<double>(), WithinAbs(30.0, 0.05));
  CHECK_FALSE(j["cautions"].empty());
}

TEST_CASE("cli: a ball too dense for ice is warned of") {
  CHECK_THAT(run_hailwright("shot --diameter 34.40mm --mass 20.444g --speed 27.95m/s").out,
             Contains("0.959 g/cm3"));
  CHECK_THAT(run_hailwright("shot --diameter 35.10mm --mass 20.497g --speed 26.34m/s").out,
             !Contains("g/cm3"));
}

TEST_CASE("cli: wrong command lines say what to write and end with 2") {
  CHECK(run_hailwright("").exit_code == 2);
  CHECK(run_hailwright("guess").exit_code == 2);
  CHECK(run_hailwright("judge").exit_code == 2);
  const Finished unit = run_hailwright("shot --diameter 25 --speed 23mm");
  CHECK(unit.exit_code == 2);
  CHECK_THAT(unit.err, Contains("--diameter") && Contains("--speed"));
  CHECK(run_hailwright("shot --diameter nan --speed 0x10m/s").exit_code == 2);
  CHECK(run_hailwright("shot --diameter 25mm --speed 0m/s").exit_code == 2);
  // They ended as a bug of ours: no number was left to print.
  CHECK(run_hailwright("shot --diameter 25mm --speed 1e200m/s").exit_code == 2);
  CHECK(run_hailwright("shot --diameter 25mm --speed 23m/s --speed-spread 1e305m/s").exit_code ==
        2);
  CHECK(run_hailwright("grades --format yaml").exit_code == 2);
  CHECK(run_hailwright("--help").exit_code == 0);
  CHECK(run_hailwright("--version").exit_code == 0);
}

TEST_CASE("cli: the demonstration records get their words") {
  const std::vector<std::string> words{"withstood", "damaged", "undecided", "not reached",
                                       "undecided"};
  for (std::size_t i = 0; i < demo_records.size(); ++i) {
    CAPTURE(demo_records[i]);
    const Finished f = run_hailwright("judge " + demo_records[i]);
    CHECK(f.exit_code == 0);
    CHECK(f.err.empty());
    for (const char* word : {"withstood", "damaged", "undecided", "not reached"}) {
      const bool said = f.out.find(" " + std::string(word) + " (IEC") != std::string::npos;
      CHECK(said == (word == words[i]));
    }
    CHECK(run_hailwright("judge --strict " + demo_records[i]).exit_code == (i == 0 ? 0 : 1));
  }
  CHECK_THAT(run_hailwright("judge " + demo_records[3]).out, Contains("struck at 3 of 5 places"));
  CHECK_THAT(run_hailwright("judge " + demo_records[4]).out, Contains("not valid"));
}

TEST_CASE("cli: two records from any folder, the same bytes twice") {
  const ScratchFolder folder;
  const std::string tree = HAILWRIGHT_SOURCE_DIR;
  const std::string arguments =
      "judge '" + tree + "/" + demo_records[0] + "' '" + tree + "/" + demo_records[1] + "'";
  const Finished first = run_hailwright(arguments, folder.path());
  const Finished second = run_hailwright(arguments);
  CHECK(first.exit_code == 0);
  CHECK(first.out == second.out);
  CHECK(count(first.out, "\nCautions\n") == 1);
}

// A bare Debian has no such locale, and one that is not there changes nothing: it is made here.
TEST_CASE("cli: the same bytes in a locale with a decimal comma") {
  const ScratchFolder folder;
  const std::string german = "LOCPATH='" + folder.path() + "' LC_ALL=de_DE.UTF-8 ";
  const std::string make =
      "localedef -i de_DE -f UTF-8 --no-archive '" + (folder / "de_DE.UTF-8") + "'";
  const std::string half = "test \"$(env " + german + "printf %.1f 1,5)\" = 1,5";
  if (std::system(make.c_str()) != 0)
    FAIL("no locale: localedef and its sources are in the package locales");
  REQUIRE(std::system(half.c_str()) == 0);
  const std::string arguments = "judge " + demo_records[0] + " " + demo_records[1];
  const Finished plain = run_hailwright(arguments);
  const Finished comma = run_hailwright(arguments, {}, german);
  CHECK(plain.exit_code == 0);
  CHECK(comma.exit_code == 0);
  CHECK(comma.out == plain.out);
}

TEST_CASE("cli: everything fits 80 columns and carries its cautions") {
  for (const std::string& record : demo_records) {
    const Finished f = run_hailwright("judge " + record);
    CHECK_THAT(f.out, Contains("Cautions") && Contains("(bystanders)"));
    for (const std::string& line : lines(f.out)) {
      INFO(line);
      CHECK(hailwright::detail::display_width(line) <= 80);
    }
    CHECK_THAT(run_hailwright("judge --format md " + record).out, Contains("# Cautions"));
  }
}

// MEASUREMENT M18: what no output may say. "no damage shown" is a statement about the showing.
TEST_CASE("cli: no output claims what a home test cannot show") {
  const std::regex never(
      "passed|met the standard|IEC-rated|undamaged|no damage(?! shown)|unaffected|hail-?proof|"
      "safe distance|safe to use|within error|probability that nothing|is certified|was certified|"
      "set-ups will settle",
      std::regex::icase);
  std::vector<std::string> outputs{"shot --diameter 45mm --speed 31m/s", "grades", "sources"};
  for (const std::string& record : demo_records) {
    outputs.push_back("judge " + record);
    outputs.push_back("judge --format md " + record);
    outputs.push_back("judge --explain --shortest --trials 20000 --format html " + record);
  }
  for (const std::string& command : outputs) {
    // The line breaks of the screen must not hide a phrase.
    const std::string text =
        std::regex_replace(run_hailwright(command).out, std::regex("\\s+"), " ");
    std::smatch found;
    CAPTURE(command);
    if (std::regex_search(text, found, never)) FAIL_CHECK("said: " << found.str());
  }
}

TEST_CASE("cli: colour only on a terminal, and NO_COLOR is respected") {
  CHECK_THAT(run_hailwright("judge " + demo_records[0]).out, !Contains("\x1b"));
  const ScratchFolder folder;
  const std::string tree = HAILWRIGHT_SOURCE_DIR;
  const auto on_terminal = [&](const std::string& environment) {
    const std::string typescript = folder.path() + "/typescript";
    const std::string command = "env -u NO_COLOR TERM=xterm " + environment + " script -qec \"'" +
                                hailwright_program() + "' judge '" + tree + "/" + demo_records[0] +
                                "'\" '" + typescript + "' >/dev/null </dev/null";
    REQUIRE(std::system(command.c_str()) == 0);
    return source_file("../" + std::filesystem::relative(typescript, tree + "/..").string());
  };
  CHECK_THAT(on_terminal(""), Contains("\x1b[1"));
  CHECK_THAT(on_terminal("NO_COLOR=1"), !Contains("\x1b["));
  CHECK_THAT(on_terminal("TERM=dumb"), !Contains("\x1b["));
}

TEST_CASE("cli: output that cannot be written ends with 5") {
  const std::string command = "'" + hailwright_program() + "' grades >/dev/full 2>/dev/null";
  CHECK(WEXITSTATUS(std::system(command.c_str())) == 5);
}

TEST_CASE("cli: files that are no record end in a located error and 3") {
  const ScratchFolder folder;
  const auto refused = [&](const std::string& path, const std::string& says) {
    CAPTURE(path);
    const Finished f = run_hailwright("judge '" + path + "'");
    CHECK(f.exit_code == 3);
    CHECK_THAT(f.err, Contains("error:") && Contains(says));
    CHECK(f.err.size() < 65536);
  };
  refused(folder.path() + "/none.yaml", "is not there");
  refused(folder.path(), "folder");
  refused(folder.write("empty.yaml", ""), "empty");
  refused(folder.write("binary.yaml", std::string("\x7f"
                                                  "ELF\0\1\2\0",
                                                  8)),
          "binary.yaml:1");
  refused(folder.write("large.yaml", std::string(50U << 20U, 'a')), "too large");
  refused(folder.write("deep.yaml", "hailwright: record 1\nx: " + std::string(20000, '[')), "deep");
  std::string bomb = "hailwright: record 1\na: &a [x, x, x, x, x, x, x, x, x]\n";
  for (char c = 'b'; c < 'k'; ++c) {
    const std::string previous(1, static_cast<char>(c - 1));
    bomb += std::string(1, c) + ": &" + c + " [";
    for (int i = 0; i < 9; ++i)
      bomb += (i > 0 ? ", *" : "*") + previous;
    bomb += "]\n";
  }
  refused(folder.write("bomb.yaml", bomb), "bomb.yaml:2");
  const std::string fifo = folder.path() + "/pipe.yaml";
  REQUIRE(std::system(("mkfifo '" + fifo + "'").c_str()) == 0);
  refused(fifo, "not an ordinary file");
  refused("/dev/zero", "not an ordinary file");
}

TEST_CASE("cli: five mistakes in one protocol are five located errors in one run") {
  const ScratchFolder folder;
  std::string text = source_file("protocols/demo/protocol.yaml");
  const auto swap = [&](const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    text.replace(at, from.size(), to);
  };
  swap("decide: {limit: 5 %}", "decide: {limt: 5 %}");
  swap("length: 3.00 m", "length: 3.00");
  swap("freezer: -18 degC", "freezer: -18 m");
  swap("compare: control-panel", "compare: control-pannel");
  swap("accuracy: 0.1 mm", "accuracy: ±0.1 mm");
  const Finished f = run_hailwright("check '" + folder.write("protocol.yaml", text) + "'");
  CHECK(f.exit_code == 3);
  CHECK(count(f.err, ": error: ") == 5);
  CHECK_THAT(f.err, Contains("did you mean 'limit'") && Contains("^"));
}

TEST_CASE("cli: check says of good files that nothing is wrong") {
  const Finished f = run_hailwright(
      "check protocols/demo/protocol.yaml protocols/demo/panels/rigid-a.yaml " + demo_records[0]);
  CHECK(f.exit_code == 0);
  CHECK(count(f.out, "nothing wrong") == 3);
}

// The README shows real output.
TEST_CASE("cli: the README's example is what the program prints") {
  const std::string readme = source_file("README.md");
  const std::string mark = "<!-- output of: hailwright ";
  std::size_t at = readme.find(mark);
  REQUIRE(at != std::string::npos);
  while (at != std::string::npos) {
    const std::size_t end = readme.find(" -->", at);
    const std::string arguments = readme.substr(at + mark.size(), end - at - mark.size());
    const std::size_t block = readme.find("```\n", end) + 4;
    const std::string shown = readme.substr(block, readme.find("```", block) - block);
    CHECK_THAT(run_hailwright(arguments).out, Contains(shown));
    at = readme.find(mark, block);
  }
}
