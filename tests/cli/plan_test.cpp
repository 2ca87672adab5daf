// `hailwright plan` as a user runs it: above all, what it does not print.
#include <nlohmann/json.hpp>

#include <array>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <vector>

#include "cli/command.hpp"
#include "support/catch.hpp"

using hailwright::testing::Finished;
using hailwright::testing::run_hailwright;
using hailwright::testing::ScratchFolder;
using hailwright::testing::source_file;

namespace {

const std::vector<std::string> formats{"text", "md", "html", "json"};

std::string today() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  localtime_r(&now, &local);
  std::array<char, 32> text{};
  return {text.data(), std::strftime(text.data(), text.size(), "%Y-%m-%d", &local)};
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

/// The demonstration protocol, its safety answers given today.
std::string answered() {
  std::string text = source_file("protocols/demo/protocol.yaml");
  const std::size_t on = text.find("agreed: {by: MK, on: ");
  REQUIRE(on != std::string::npos);
  return text.replace(on + 21, 10, today());
}

std::string without_safety(const std::string& text) {
  return text.substr(0, text.find("\nsafety:") + 1);
}

/// HTML keeps a number and its unit on one line by a blank of another kind; searched for are both.
std::string with_plain_blanks(std::string text) {
  const std::string unbroken = "\u00a0";
  for (std::size_t at = 0; (at = text.find(unbroken, at)) != std::string::npos;)
    text.replace(at, unbroken.size(), " ");
  return text;
}

/// A folder with a protocol and a panel, and plans made there.
class Garden {
public:
  explicit Garden(const std::string& protocol) {
    folder_.write("protocol.yaml", protocol);
    folder_.write("panel.yaml", source_file("protocols/demo/panels/rigid-a.yaml"));
  }
  [[nodiscard]] Finished plan(const std::string& options = {}) const {
    Finished done =
        run_hailwright("plan protocol.yaml --panel panel.yaml " + options, folder_.path());
    done.out = with_plain_blanks(std::move(done.out));
    return done;
  }
  [[nodiscard]] const std::string& path() const { return folder_.path(); }
  [[nodiscard]] std::string write(const std::string& name, const std::string& text) const {
    return folder_.write(name, text);
  }

private:
  ScratchFolder folder_;
};

/// A number as the outputs print it, and as JSON does.
std::vector<std::string> spellings(const nlohmann::json& amount) {
  std::array<char, 32> fixed{};
  const double value = amount["value"];
  std::snprintf(fixed.data(), fixed.size(), "%.1f", value);  // NOLINT: a test
  const std::string unit = amount["unit"];
  return {std::string(fixed.data()) + " " + unit, amount["value"].dump()};
}

/// Everything of a cleared plan that would set a launcher or aim it.
std::vector<std::string> launch_words(const nlohmann::json& plan) {
  std::vector<std::string> words{"aim-map",     "planned: 20", "\"planned\"", "\"launch\"",
                                 "Launch</h2>", "mark 3",      "mark 5"};
  for (const auto& series : plan["launch"]["series"]) {
    for (const char* key : {"speed_at_panel", "speed_at_launcher", "speed_where_measured",
                            "least_speed_where_measured", "mass_of_one_ball",
                            "least_mass_of_one_ball", "diameter_low", "diameter_high"}) {
      for (const std::string& s : spellings(series[key]))
        words.push_back(s);
    }
  }
  for (const auto& panel : plan["launch"]["panels"]) {
    for (const auto& series : panel["series"])
      for (const auto& place : series["places"])
        if (place.contains("right")) words.push_back(place["right"]["value"].dump() + " x");
  }
  return words;
}

}  // namespace

TEST_CASE("plan: a cleared plan has the launch figures, the maps and the line to keep") {
  const Garden garden(answered());
  const Finished f = garden.plan("--format json");
  CAPTURE(f.err, f.out);
  REQUIRE(f.exit_code == 0);
  const auto plan = nlohmann::json::parse(f.out);
  CHECK(plan["gate"]["cleared"] == true);
  REQUIRE(plan["launch"]["series"].size() == 2);
  const auto& small = plan["launch"]["series"][0];
  // Aimed at the grade's 23 m/s or a little above; faster where it leaves the launcher.
  CHECK(small["speed_at_panel"]["value"] >= 23.0);
  CHECK(small["speed_at_panel"]["value"] < 23.0 * 1.16);
  CHECK(small["speed_at_launcher"]["value"] > small["speed_at_panel"]["value"]);
  CHECK(plan["launch"]["panels"][0]["series"][0]["places"].size() == 11);
  CHECK(plan["planned"].get<std::string>().substr(0, 10) == today());
  const Finished text = garden.plan();
  CHECK_THAT(text.out, Contains("planned: " + plan["planned"].get<std::string>()));
  CHECK_THAT(text.out, Contains("setting mark 3"));
  CHECK_THAT(garden.plan("--format html").out, Contains("<svg"));
}

TEST_CASE("plan: without safety answers nothing that helps to launch is printed in any format") {
  const Garden cleared(answered());
  const auto plan = nlohmann::json::parse(cleared.plan("--format json").out);
  const std::vector<std::string> words = launch_words(plan);
  REQUIRE(words.size() > 40);
  const Garden refused(without_safety(answered()));
  for (const std::string& format : formats) {
    for (const std::string more : {"", " --estimate-only"}) {
      const Finished f = refused.plan("--format " + format + more);
      CAPTURE(format, more, f.err);
      CHECK(f.exit_code == (more.empty() ? 4 : 0));
      REQUIRE_FALSE(f.out.empty());
      for (const std::string& word : words) {
        CAPTURE(word);
        CHECK(f.out.find(word) == std::string::npos);
      }
    }
  }
  // The same words are found where the gate is open: the search above can fail.
  std::string open;
  for (const std::string& format : formats)
    open += cleared.plan("--format " + format).out;
  int found = 0;
  for (const std::string& word : words)
    found += open.find(word) != std::string::npos ? 1 : 0;
  CHECK(found > static_cast<int>(words.size()) / 2);
}

TEST_CASE("plan: a refusal gives the missing answers as lines, which check refuses until they are "
          "filled in") {
  const Garden garden(without_safety(answered()));
  const Finished f = garden.plan();
  CHECK(f.exit_code == 4);
  CHECK_THAT(f.out, Contains("safety:"));
  CHECK_THAT(f.out, Contains("Not printed yet"));
  // Pasted as it stands, the file says what is still to be answered.
  std::string pasted = without_safety(answered());
  std::string line;
  bool inside = false;
  for (const char c : f.out) {
    if (c != '\n') {
      line += c;
      continue;
    }
    if (line.find("safety:") != std::string::npos && line.find("safety: ") == std::string::npos)
      inside = true;
    if (inside && line.empty()) break;
    if (inside) pasted += line + "\n";
    line.clear();
  }
  const std::string path = garden.write("pasted.yaml", pasted);
  const Finished check = run_hailwright("check " + path);
  CAPTURE(check.err);
  CHECK(check.exit_code == 3);
  CHECK_THAT(check.err, Contains("error"));
}

TEST_CASE("plan: 74 J with its tolerance is refused whatever is answered") {
  // 110 g at 36.7 m/s: 74.08 J; with 5 % on both it is 85.8 J, above 58 foot-pounds (78.63 J).
  std::string text = answered();
  text = replaced(text, "  - {name: large, grade: IEC 61215 35 mm, places: 5, setting: mark 5}",
                  "  - {name: large, ball: {diameter: 61 mm, mass: 110 g, speed: 36.7 m/s}, "
                  "tolerance: 5 %, places: 5, setting: mark 5}");
  const Garden garden(text);
  for (const std::string& format : formats) {
    const Finished f = garden.plan("--format " + format);
    CAPTURE(format, f.err);
    CHECK(f.exit_code == 4);
    CHECK_THAT(f.out, Contains("78.63 J"));
    CHECK_THAT(f.out, !Contains("mark 5"));
  }
}

TEST_CASE("plan: plastic under pressure is refused whatever is answered") {
  std::string text = replaced(answered(), "kind: sling", "kind: compressed air");
  text = replaced(text, "pressure_part: none", "pressure_part: any plastic part");
  const Finished f = Garden(text).plan();
  CAPTURE(f.out, f.err);
  CHECK(f.exit_code == 4);
  CHECK_THAT(f.out, Contains("This plan is refused"));
  CHECK_THAT(f.out, !Contains("mark 3"));
}

TEST_CASE("plan: answers older than 30 days are asked again") {
  const Garden garden(source_file("protocols/demo/protocol.yaml"));
  const Finished f = garden.plan();
  CHECK(f.exit_code == 4);
  CHECK_THAT(f.out, Contains("agreed: on"));
}

TEST_CASE("plan: a folder gets every format and its pictures, and nothing is overwritten") {
  const Garden garden(answered());
  CHECK(garden.plan("-o out").exit_code == 0);
  for (const char* name : {"plan.html", "plan.md", "plan.json", "aim-map-1.svg"}) {
    CAPTURE(name);
    CHECK(std::filesystem::exists(garden.path() + "/out/" + name));
  }
  const Finished again = garden.plan("-o out");
  CHECK(again.exit_code == 5);
  CHECK_THAT(again.err, Contains("plan.html"));
  CHECK(garden.plan("-o out --replace").exit_code == 0);
}

TEST_CASE("plan: the protocol is not replaced by the plan of the same name") {
  const Garden garden(answered());
  const std::string protocol = garden.write("plan.json", answered());
  const Finished f =
      run_hailwright("plan plan.json --panel panel.yaml -o . --replace", garden.path());
  CHECK(f.exit_code == 5);
  CHECK_THAT(f.err, Contains("plan.json is a file that this is made from"));
  CHECK(std::filesystem::file_size(protocol) == answered().size());
}

TEST_CASE("plan: a refused plan leaves no picture in the folder") {
  const Garden garden(without_safety(answered()));
  CHECK(garden.plan("-o out").exit_code == 4);
  CHECK(std::filesystem::exists(garden.path() + "/out/plan.html"));
  CHECK_FALSE(std::filesystem::exists(garden.path() + "/out/aim-map-1.svg"));
}

TEST_CASE("plan: a random order comes from its seed") {
  const Garden garden(answered());
  const auto order = [&](const std::string& options) {
    const Finished f = garden.plan("--format json " + options);
    REQUIRE(f.exit_code == 0);
    return nlohmann::json::parse(f.out)["launch"]["panels"][0]["series"][0]["order"].dump();
  };
  CHECK(order("--order random --seed 3") == order("--order random --seed 3"));
  CHECK(order("--order random --seed 3") != order("--order random --seed 4"));
  CHECK(garden.plan("--seed 3").exit_code == 2);
  CHECK(garden.plan("--order random --seed x").exit_code == 2);
}

TEST_CASE("plan: the line it prints lets judge see whether the rules are still the same") {
  const Garden garden(answered());
  const auto plan = nlohmann::json::parse(garden.plan("--format json").out);
  const std::string mark = plan["planned"].get<std::string>().substr(11);
  std::string record = source_file("protocols/demo/rigid-withstood.yaml");
  record = replaced(record, "\npanel: panels/rigid-a.yaml",
                    "\nplanned: 2026-06-10 " + mark + "\npanel: panel.yaml");
  record = replaced(record, "{panel: panels/rigid-a.yaml", "{panel: panel.yaml");
  for (const char* table : {"balls.csv", "trials.csv", "shots.csv", "readings.csv"})
    (void)garden.write(table, source_file(std::string("protocols/demo/") + table));
  const std::string path = garden.write("record.yaml", record);
  CHECK_THAT(run_hailwright("judge " + path).out, Contains("protocol unchanged since 2026-06-10"));
  (void)garden.write("protocol.yaml", replaced(answered(), "limit: 5 %", "limit: 6 %"));
  CHECK_THAT(run_hailwright("judge " + path).out,
             Contains("protocol changed since 2026-06-10: the decision rule"));
}
