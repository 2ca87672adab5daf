#include "input/open_answers.hpp"

#include "hailwright/input/readers.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using input_files::Files;
using input_files::only;
using input_files::seen;
using input_files::Seen;

namespace {

/// The good files with one text replaced by another.
Files changed(const std::string& file, const std::string& from, const std::string& to) {
  Files files = input_files::good_files();
  std::string& text = files[file];
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
  return files;
}

Diagnostics check(const Files& files, const std::string& path) {
  SourceSet sources;
  return check_file(path, input_files::loader(files), sources);
}

}  // namespace

TEST_CASE("open_answers: a value still to come is one message, at its place") {
  const Files files = changed("protocol.yaml", "title: Garden test", "title: ???");
  const Diagnostic d = only(check(files, "protocol.yaml"));
  CHECK(d.code == "K18");
  CHECK(d.where.line == 2);
  CHECK(d.where.column == 8);
  CHECK(d.where.length == 3);
  CHECK(d.message == "'title' is not filled in yet");
  REQUIRE(d.hints.size() == 1);
  CHECK_THAT(d.hints[0], Contains("in place of ???"));
}

TEST_CASE("open_answers: amounts, words, counts and dates alike, in lists and maps") {
  Files files = changed("panel.yaml", "build: {kind: framed glass}", "build:\n  kind: ???");
  files["panel.yaml"] += "mounts:\n  - ???\n  - 100 x 20 mm\nrated:\n  power: ???\n"
                         "came:\n  on: \"???\"\n";
  CHECK(seen(check(files, "panel.yaml")) ==
        std::vector<Seen>{{"K18", 4, 9}, {"K18", 7, 5}, {"K18", 10, 10}, {"K18", 12, 7}});
}

TEST_CASE("open_answers: what else is wrong is found beside them, and nothing false is added") {
  Files files = changed("protocol.yaml", "launch: {kind: sling}", "launch:\n  kind: ???\n  aim: 3");
  files["protocol.yaml"] += "colour: red\n";
  CHECK(seen(check(files, "protocol.yaml")) == std::vector<Seen>{{"K18", 8, 9}, {"K01", 12, 1}});

  // A record with open answers in all its files complains of nothing else.
  files = changed("protocol.yaml", "title: Garden test", "title: ???");
  files["panel.yaml"] += "price: ???\n";
  files["record.yaml"] += "mounting: ???\n";
  CHECK(check(files, "record.yaml").items().size() == 3);
}

TEST_CASE("open_answers: a text that only begins so is a text") {
  const Files files = changed("protocol.yaml", "title: Garden test", "title: \"??? what now\"");
  CHECK(check(files, "protocol.yaml").empty());
}

TEST_CASE("open_answers: nothing is judged while an answer is to come") {
  const Files files = changed("protocol.yaml", "title: Garden test", "title: ???");
  SourceSet sources;
  CHECK_FALSE(read_protocol("protocol.yaml", input_files::loader(files), sources).value);
}

TEST_CASE("open_answers: the safety questions speak for themselves") {
  Files files = input_files::good_files();
  files["protocol.yaml"] += "safety:\n  people:\n    lookout: ???\n";
  const Diagnostic d = only(check(files, "protocol.yaml"));
  CHECK(d.code == "S01");
}

TEST_CASE("open_answers: what is still open in one file raises no complaint about another") {
  // Both settings are still open: they are not the same one.
  Files files = input_files::good_files();
  std::string& protocol = files["protocol.yaml"];
  for (const std::string setting : {"mark 3", "mark 5"}) {
    const std::size_t at = protocol.find(setting);
    protocol.replace(at, setting.size(), "\"???\"");
  }
  for (const auto& s : seen(check(files, "record.yaml")))
    CHECK(s.code == "K18");

  // A control is named, and whether there is one is still open.
  files = changed("protocol.yaml", "measure: {compare: same-panel, maximum_power: sweep}",
                  "measure:\n  compare: ???\n  maximum_power: sweep");
  files["record.yaml"] += "label: A\ncontrol: {panel: panel.yaml, label: C}\n";
  CHECK(only(check(files, "record.yaml")).code == "K18");

  // The speed is that of a drop, and what launches is still open.
  files = changed("protocol.yaml", "launch: {kind: sling}", "launch:\n  kind: ???\n  height: 3 m");
  std::string& text = files["protocol.yaml"];
  const std::string speed = "speed: {by: trial shots, video: 240 fps, length: 3.00 m}";
  text.replace(text.find(speed), speed.size(), "speed: {by: drop}");
  CHECK(only(check(files, "protocol.yaml")).code == "K18");
}
