#include "report/readings_yaml_text.hpp"

#include "hailwright/input/readers.hpp"
#include "report/text_layout.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

/// A text as the project's own reader of YAML takes it back: the title of a panel.
std::string read_back(const std::string& written) {
  SourceSet sources;
  const Loader load = [&](const std::string&, std::size_t) {
    Loaded file;
    file.text = "hailwright: panel 1\nname: " + written + "\nbuild: {kind: flexible}\n";
    return file;
  };
  const Checked<Panel> panel = read_panel("panel.yaml", load, sources);
  INFO(render_diagnostics(panel.notes, sources));
  REQUIRE(panel.value);
  return panel.value->name;
}

}  // namespace

TEST_CASE("yaml_text: plain where nothing can be misread") {
  CHECK(yaml_text("day.csv") == "day.csv");
  CHECK(yaml_text("logs/june 14.csv") == "logs/june 14.csv");
  CHECK(yaml_text("before 1") == "before 1");
  for (const char* text :
       {"",     " a",  "a ", "+02:00", "2026-06-14", "no", "Off", "null", "P [W]", "a: b",
        "a #b", "- a", "&a", "*a",     "!a",         "%",  "@",   "`",    "'a'",   "~"}) {
    CAPTURE(text);
    CHECK(yaml_text(text) == '"' + std::string(text) + '"');
  }
}

TEST_CASE("yaml_text: what could steer a terminal or reorder words is written by its code") {
  CHECK(yaml_text("a\x1b[31m") == "\"a\\x1B[31m\"");
  CHECK(yaml_text("a\"b\\c") == "\"a\\\"b\\\\c\"");
  CHECK(yaml_text("a\xE2\x80\xAE"
                  "b") == "\"a\\u202Eb\"");
  CHECK(yaml_text("a\tb") == "\"a\\x09b\"");
  CHECK(yaml_text("Größe ☀ 😀") == "\"Größe ☀ 😀\"");
  CHECK(yaml_text("a\xFF"
                  "b?") == "\"a?b?\"");
  for (const char* text : {"a\tb", "a\x1b[31m",
                           "a\xE2\x80\xAE"
                           "b",
                           "x\ny"})
    CHECK(detail::printable(yaml_text(text)) == yaml_text(text));
}

TEST_CASE("yaml_text: reads back to the same text") {
  for (const char* text : {"day.csv", "+02:00", "P [W]", "no", "a\"b\\c", "Größe (°C)", "x: y # z",
                           "😀", "'", "C:\\logs\\a.csv"}) {
    CAPTURE(text);
    CHECK(read_back(yaml_text(text)) == text);
  }
}
