// `judge` with its options, as a user runs it.
#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>

#include "cli/command.hpp"
#include "report/text_layout.hpp"
#include "support/catch.hpp"

using hailwright::testing::Finished;
using hailwright::testing::run_hailwright;
using hailwright::testing::ScratchFolder;
using hailwright::testing::source_file;

namespace {

const std::string withstood = "protocols/demo/rigid-withstood.yaml";
const std::string one_setup = "protocols/demo/rigid-undecided.yaml";

Finished judge(const std::string& arguments) {
  return run_hailwright("judge " + arguments);
}

/// The words without the line breaks of the screen.
std::string words(const std::string& text) {
  return std::regex_replace(text, std::regex("\\s+"), " ");
}

}  // namespace

TEST_CASE("judge: a million random trials check the interval unless told otherwise") {
  const Finished f = judge(withstood);
  CHECK(f.exit_code == 0);
  CHECK(f.err.empty());
  CHECK_THAT(words(f.out), Contains("checked by 1 000 000 random trials of the same model: "));
  CHECK_THAT(words(judge("--trials 20000 " + withstood).out), Contains("checked by 20 000 random"));
}

TEST_CASE("judge: no trials when none are wanted") {
  const Finished f = judge("--trials 0 --explain " + withstood);
  CHECK(f.exit_code == 0);
  CHECK_THAT(words(f.out), !Contains("random trials of the same model"));
  CHECK_THAT(words(f.out), Contains("None were made (--trials 0)"));
}

TEST_CASE("judge: the same seed gives the same bytes with any number of threads") {
  const std::string arguments = "--explain --shortest --trials 50000 --seed 7 ";
  const Finished one = judge(arguments + "--threads 1 " + withstood);
  CHECK_THAT(one.out, Contains("seed 7"));
  CHECK(judge(arguments + "--threads 2 " + withstood).out == one.out);
  CHECK(judge(arguments + "--threads 7 " + withstood).out == one.out);
  const Finished other = judge("--explain --shortest --trials 50000 --seed 8 " + withstood);
  CHECK(other.out != one.out);
}

TEST_CASE("judge: trials until the result is stable, and the shortest interval") {
  const Finished f = judge("--trials adaptive --shortest " + withstood);
  CHECK(f.exit_code == 0);
  const std::string text = words(f.out);
  const bool ended = text.find("when the result was stable") != std::string::npos ||
                     text.find("the most allowed, and not stable yet") != std::string::npos;
  CHECK(ended);
  CHECK_THAT(text, Contains("the shortest interval that holds 95 % of those trials"));
}

TEST_CASE("judge: options that cannot be understood are named, all at once, with 2") {
  for (const char* wrong :
       {"--trials 19999", "--trials 10000001", "--trials -1", "--trials 1e6", "--trials many",
        "--seed -3", "--seed x", "--threads 0", "--threads 65", "--threads two"}) {
    CAPTURE(wrong);
    const Finished f = judge(std::string(wrong) + " " + withstood);
    CHECK(f.exit_code == 2);
    CHECK(f.out.empty());
    const std::string option = std::string(wrong).substr(0, std::string(wrong).find(' '));
    CHECK_THAT(f.err, Contains("hailwright: " + option + " must be"));
  }
  const Finished both = judge("--seed x --threads 0 " + withstood);
  CHECK_THAT(both.err, Contains("--seed must be") && Contains("--threads must be"));
}

// Found by review: --limit '' was passed over, and a record '' was "our mistake, not yours".
TEST_CASE("judge: an option with nothing in it is refused") {
  for (const std::string option : {"--limit", "--trials", "--seed", "--threads"}) {
    const Finished f = judge(option + " '' " + withstood);
    CAPTURE(option, f.err);
    CHECK(f.exit_code == 2);
    CHECK(f.out.empty());
    CHECK_THAT(f.err, Contains("hailwright: " + option + " has nothing in it") && Contains("help"));
  }
  CHECK(run_hailwright("grades --scheme ''").exit_code == 2);
  const Finished nameless = judge("''");
  CHECK(nameless.exit_code == 2);
  CHECK_THAT(nameless.err, Contains("hailwright: RECORD has nothing in it"));
  for (const char* command :
       {"check", "line-up", "threshold", "readings", "write -o out", "plan --panel a.yaml"}) {
    const Finished f = run_hailwright(std::string(command) + " ''");
    CAPTURE(command, f.err);
    CHECK(f.exit_code == 2);
    CHECK_THAT(f.err, Contains("has nothing in it"));
  }
}

// Found by review: these were passed over in silence.
TEST_CASE("judge: what belongs to random trials is refused without them") {
  const Finished all = judge("--trials 0 --shortest --seed 9 --threads 64 " + withstood);
  CHECK(all.exit_code == 2);
  CHECK(all.out.empty());
  for (const char* option : {"--shortest", "--seed", "--threads"}) {
    CHECK_THAT(all.err, Contains(std::string("hailwright: ") + option +
                                 " belongs to random trials, and --trials 0 makes none"));
  }
  CHECK(judge("--trials 00 --seed 9 " + withstood).exit_code == 2);
  CHECK(judge("--trials 20000 --seed 9 " + withstood).exit_code == 0);
  CHECK(run_hailwright("write --trials 0 --seed 9 -o out " + withstood).exit_code == 2);
}

TEST_CASE("cli: an option that changes nothing beside another one is refused") {
  const std::string plan =
      "plan protocols/demo/protocol.yaml --panel protocols/demo/panels/rigid-a.yaml ";
  const auto refused = [](const std::string& arguments, const std::string& why) {
    const Finished f = run_hailwright(arguments);
    CAPTURE(arguments, f.err);
    CHECK(f.exit_code == 2);
    CHECK(f.out.empty());
    CHECK_THAT(f.err, Contains("hailwright: " + why));
  };
  refused(plan + "-o out --format json", "--format says nothing with -o");
  refused(plan + "--replace", "--replace belongs to -o");
  refused(plan + "--estimate-only --order random", "--order says nothing with --estimate-only");
  refused("line-up -o out --format csv " + withstood, "--format says nothing with -o");
  refused("line-up --format csv --columns all " + withstood, "--columns says nothing with");
  refused("line-up --format json --columns all " + withstood, "--columns says nothing with");
  refused("line-up --format csv --title x " + withstood, "--title says nothing with");
  const std::string readings = "readings protocols/demo/logs/morning.csv --zone Europe/Berlin ";
  refused(readings + "--as before --format csv", "--as says nothing with --format csv");
  refused(readings + "--as before --format json", "--as says nothing with --format json");
}

TEST_CASE("judge: a record that is named twice is an error") {
  const Finished twice = judge(withstood + " protocols/demo/../demo/rigid-withstood.yaml");
  CHECK(twice.exit_code == 3);
  CHECK_THAT(twice.err, Contains("named twice") && Contains(withstood + " is the same file"));
}

TEST_CASE("judge: every step is explained, with its source and the page that tells more") {
  const Finished f = judge("--explain --trials 20000 " + withstood);
  CHECK(f.exit_code == 0);
  for (int step = 1; step <= 10; ++step) {
    CAPTURE(step);
    CHECK_THAT(f.out, Contains("\n  " + std::to_string(step) + ". "));
  }
  CHECK_THAT(f.out, Contains("docs/methods/normalised-power.md") && Contains("JCGM 100:2008"));
  std::istringstream screen(f.out);
  for (std::string line; std::getline(screen, line);) {
    INFO(line);
    CHECK(hailwright::detail::display_width(line) <= 80);
  }
}

TEST_CASE("judge: an explanation says why steps are left out") {
  CHECK_THAT(words(judge("--explain " + one_setup).out),
             Contains("Steps 1 to 8 are left out for the stage 'after'"));
}

TEST_CASE("judge: an undecided limit comes with what would settle it") {
  const ScratchFolder folder;
  std::filesystem::copy(std::string(HAILWRIGHT_SOURCE_DIR) + "/protocols/demo", folder.path(),
                        std::filesystem::copy_options::recursive);
  std::string protocol = source_file("protocols/demo/protocol.yaml");
  const std::string limit = "limit: 5 %";
  const std::size_t at = protocol.find(limit);
  REQUIRE(at != std::string::npos);
  folder.write("protocol.yaml", protocol.replace(at, limit.size(), "limit: 1.5 %"));
  const Finished f = run_hailwright("judge rigid-withstood.yaml", folder.path());
  REQUIRE(f.exit_code == 0);
  CHECK_THAT(words(f.out), Contains("whether it is beyond 1.5 % stays open"));
  CHECK_THAT(words(f.out), Contains("no number of set-ups settles this"));
}

TEST_CASE("judge: a line of JSON a record, each as if it were alone") {
  const Finished both = judge("--trials 0 --format jsonl " + one_setup + " " + withstood);
  CHECK(both.exit_code == 0);
  const std::size_t line_break = both.out.find('\n');
  REQUIRE(line_break != std::string::npos);
  CHECK(both.out.substr(0, line_break + 1) == judge("--trials 0 --format jsonl " + one_setup).out);
  CHECK(both.out.substr(line_break + 1) == judge("--trials 0 --format jsonl " + withstood).out);
  const auto alone = nlohmann::json::parse(judge("--trials 0 --format json " + withstood).out);
  CHECK(nlohmann::json::parse(both.out.substr(line_break + 1)) == alone);
}

TEST_CASE("judge: lines of JSON count in --strict and have no explanation") {
  CHECK(judge("--trials 0 --strict --format jsonl " + withstood).exit_code == 0);
  const Finished open = judge("--trials 0 --strict --format jsonl " + withstood + " " + one_setup);
  CHECK(open.exit_code == 1);
  CHECK(std::count(open.out.begin(), open.out.end(), '\n') == 2);
  CHECK(judge("--explain --format jsonl " + withstood).exit_code == 2);
}

TEST_CASE("judge: no line of JSON while a record has errors, and none twice") {
  const Finished twice = judge("--trials 0 --format jsonl " + withstood + " " + withstood);
  CHECK(twice.exit_code == 3);
  CHECK(twice.out.empty());
  const Finished missing = judge("--trials 0 --format jsonl " + withstood + " no-such.yaml");
  CHECK(missing.exit_code == 3);
  CHECK(missing.out.empty());
}
