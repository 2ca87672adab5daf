#include "hailwright/core/diagnostic.hpp"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "support/catch.hpp"

using namespace hailwright;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t end = text.find('\n', begin);
    REQUIRE(end != std::string::npos);
    lines.push_back(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return lines;
}

/// The characters of `line` that stand above the carets of `carets`.
std::string marked(const std::string& line, const std::string& carets) {
  const std::size_t first = carets.find('^');
  REQUIRE(first != std::string::npos);
  const std::size_t count = carets.size() - first;
  std::string out;
  std::size_t column = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const bool starts = (static_cast<unsigned char>(line[i]) & 0xC0U) != 0x80U;
    if (starts) ++column;
    if (column > first && column <= first + count) out += line[i];
  }
  return out;
}

std::string rendered(const std::string& line, int column, int length) {
  SourceSet sources;
  const std::uint32_t file = sources.add("record.yaml", line + "\n");
  Diagnostics notes;
  notes.error("U02", {file, 1, column, length}, "no unit");
  return render_diagnostics(notes, sources);
}

}  // namespace

TEST_CASE("diagnostic: place, line, carets and help") {
  SourceSet sources;
  const std::uint32_t file = sources.add("record.yaml", "title: a\nspeed: 23\n");
  Diagnostics notes;
  notes.error("U02", {file, 2, 8, 2}, "\"23\" has no unit, a speed was expected",
              {"write 23 m/s", "units of a speed: m/s, km/h"});
  CHECK(render_diagnostics(notes, sources) ==
        "record.yaml:2:8: error: \"23\" has no unit, a speed was expected\n"
        "  speed: 23\n"
        "         ^^\n"
        "  help: write 23 m/s\n"
        "  help: units of a speed: m/s, km/h\n");
}

TEST_CASE("diagnostic: severities are named") {
  SourceSet sources;
  const std::uint32_t file = sources.add("a", "x\n");
  Diagnostics notes;
  notes.add({Severity::note, "K01", {file, 1, 1, 1}, "first", {}, {}});
  notes.warning("K02", {file, 1, 1, 1}, "second");
  CHECK_FALSE(notes.has_errors());
  notes.error("K03", {file, 1, 1, 1}, "third");
  CHECK(notes.has_errors());
  const std::string out = render_diagnostics(notes, sources);
  CHECK_THAT(out, Contains("a:1:1: note: first\n"));
  CHECK_THAT(out, Contains("a:1:1: warning: second\n"));
  CHECK_THAT(out, Contains("a:1:1: error: third\n"));
}

TEST_CASE("diagnostic: columns count characters, so carets stand under the word in UTF-8 lines") {
  const std::string line = "größe: 25 µm";
  const std::vector<std::string> out = lines_of(rendered(line, 11, 2));
  REQUIRE(out.size() == 3);
  CHECK(out[0] == "record.yaml:1:11: error: no unit");
  CHECK(out[1] == "  " + line);
  CHECK(out[2] == "            ^^");
  CHECK(marked(out[1], out[2]) == "µm");
}

TEST_CASE("diagnostic: tabs and control characters do not move the carets") {
  const std::vector<std::string> out = lines_of(rendered("\ta\x1B: 5", 5, 1));
  REQUIRE(out.size() == 3);
  CHECK(out[1] == "   a?: 5");
  CHECK(out[2] == "      ^");
}

TEST_CASE("diagnostic: a caret run ends with the line and is never empty") {
  CHECK(lines_of(rendered("ab", 1, 500))[2] == "  ^^");
  CHECK(lines_of(rendered("ab", 3, 0))[2] == "    ^");
}

TEST_CASE("diagnostic: long lines are shown in a window that holds the place") {
  std::string line;
  for (int i = 0; i < 100; ++i)
    line += "word" + std::to_string(1000 + i) + " ";  // 9 characters each, 900 together
  const int index = GENERATE(0, 5, 7, 8, 50, 91, 99);
  CAPTURE(index);
  const std::string word = "word" + std::to_string(1000 + index);
  const std::vector<std::string> out = lines_of(rendered(line, index * 9 + 1, 8));
  REQUIRE(out.size() == 3);
  CHECK(out[1].size() <= 2 + 3 + 96 + 3);
  CHECK(marked(out[1], out[2]) == word);
  CHECK(out[0] == "record.yaml:1:" + std::to_string(index * 9 + 1) + ": error: no unit");
}

TEST_CASE("diagnostic: long lines in UTF-8 are cut between characters") {
  std::string line;
  for (int i = 0; i < 200; ++i)
    line += "Ω";
  line += "x";
  const std::vector<std::string> out = lines_of(rendered(line, 201, 1));
  REQUIRE(out.size() == 3);
  CHECK(marked(out[1], out[2]) == "x");
  CHECK_THAT(out[1], Catch::StartsWith("  ...Ω"));
  const std::vector<std::string> start = lines_of(rendered(line, 1, 1));
  CHECK_THAT(start[1], Catch::EndsWith("Ω..."));
  CHECK(count_characters(start[1]) == 2 + 96 + 3);
}

TEST_CASE("diagnostic: a second place has its own line and carets") {
  SourceSet sources;
  const std::uint32_t file = sources.add("p.yaml", "see: 5 %\nrisk: 1 %\nsee: 6 %\n");
  Diagnostics notes;
  notes.error("K04", {file, 3, 1, 3}, "\"see\" is given twice")
      .related.push_back({{file, 1, 1, 3}, "first given here"});
  CHECK(render_diagnostics(notes, sources) == "p.yaml:3:1: error: \"see\" is given twice\n"
                                              "  see: 6 %\n"
                                              "  ^^^\n"
                                              "p.yaml:1:1: note: first given here\n"
                                              "  see: 5 %\n"
                                              "  ^^^\n");
}

TEST_CASE("diagnostic: two second places in two files keep their order") {
  SourceSet sources;
  const std::uint32_t record = sources.add("record.yaml", "a\n");
  const std::uint32_t panel = sources.add("panel.yaml", "b\n");
  Diagnostics notes;
  Diagnostic& d = notes.warning("C01", {record, 1, 1, 1}, "they disagree");
  d.related.push_back({{panel, 1, 1, 1}, "this one"});
  d.related.push_back({{panel, 0, 0, 0}, "and this file"});
  CHECK(render_diagnostics(notes, sources) == "record.yaml:1:1: warning: they disagree\n"
                                              "  a\n"
                                              "  ^\n"
                                              "panel.yaml:1:1: note: this one\n"
                                              "  b\n"
                                              "  ^\n"
                                              "panel.yaml: note: and this file\n");
}

TEST_CASE("diagnostic: whole files and command-line arguments have no excerpt") {
  SourceSet sources;
  const std::uint32_t file = sources.add("record.yaml", "a\n");
  Diagnostics notes;
  notes.error("F01", {file, 0, 0, 0}, "is empty", {"write the record"});
  notes.error("F02", {}, "no such option");
  CHECK(render_diagnostics(notes, sources) == "hailwright: error: no such option\n"
                                              "record.yaml: error: is empty\n"
                                              "  help: write the record\n");
}

TEST_CASE("diagnostic: sorted by file, line and column, equal places in the order found") {
  SourceSet sources;
  const std::uint32_t one = sources.add("1", "aaa\nbbb\n");
  const std::uint32_t two = sources.add("2", "ccc\n");
  Diagnostics notes;
  notes.error("K01", {two, 1, 1, 1}, "e");
  notes.error("K01", {one, 2, 1, 1}, "d");
  notes.error("K01", {one, 1, 3, 1}, "c");
  notes.error("K01", {one, 1, 1, 1}, "a");
  notes.warning("K01", {one, 1, 1, 1}, "b");
  std::string order;
  for (const std::string& line : lines_of(render_diagnostics(notes, sources))) {
    if (line.find(": error: ") != std::string::npos ||
        line.find(": warning: ") != std::string::npos)
      order += line.back();
  }
  CHECK(order == "abcde");
  CHECK(notes.items().front().message == "e");
}

TEST_CASE("diagnostic: the same message about the same place is said once") {
  SourceSet sources;
  const std::uint32_t file = sources.add("a", "xy\n");
  Diagnostics notes;
  notes.error("K01", {file, 1, 1, 1}, "same");
  notes.error("K01", {file, 1, 1, 1}, "same");
  notes.error("K01", {file, 1, 1, 1}, "other");
  notes.error("K01", {file, 1, 2, 1}, "same");
  CHECK(render_diagnostics(notes, sources) == "a:1:1: error: same\n  xy\n  ^\n"
                                              "a:1:1: error: other\n  xy\n  ^\n"
                                              "a:1:2: error: same\n  xy\n   ^\n");
}

TEST_CASE("diagnostic: nothing found renders nothing") {
  const Diagnostics notes;
  CHECK(notes.empty());
  CHECK_FALSE(notes.has_errors());
  CHECK(render_diagnostics(notes, SourceSet{}).empty());
}

TEST_CASE("diagnostic: appended messages come after one's own") {
  Diagnostics all;
  all.warning("A", {}, "one");
  Diagnostics more;
  more.error("B", {}, "two", {"hint"});
  all.append(more);
  REQUIRE(all.items().size() == 2);
  CHECK(all.items()[1].message == "two");
  CHECK(all.items()[1].hints == std::vector<std::string>{"hint"});
  CHECK(all.has_errors());
}

TEST_CASE("nearest_word: slips of the pen are found") {
  const std::vector<std::string> known{"series", "speed", "safety", "launch", "measure"};
  CHECK(nearest_word("sereis", known) == "series");  // neighbours swapped
  CHECK(nearest_word("sped", known) == "speed");     // one missing
  CHECK(nearest_word("speeed", known) == "speed");   // one too many
  CHECK(nearest_word("saftey", known) == "safety");
  CHECK(nearest_word("measuer", known) == "measure");
  CHECK(nearest_word("speed", known) == "speed");
}

TEST_CASE("nearest_word: what is not near is not offered") {
  const std::vector<std::string> known{"series", "speed", "safety"};
  CHECK_FALSE(nearest_word("colour", known).has_value());
  CHECK_FALSE(nearest_word("", known).has_value());
  CHECK_FALSE(nearest_word("speed", {}).has_value());
  CHECK_FALSE(nearest_word(std::string(65, 's'), {std::string(66, 's')}).has_value());
  CHECK(nearest_word(std::string(64, 's'), {std::string(66, 's')}).has_value());
}

TEST_CASE("nearest_word: the nearest wins, then the first") {
  CHECK(nearest_word("befor", {"after", "before", "beef"}) == "before");
  CHECK(nearest_word("ab", {"aa", "bb"}) == "aa");
}

TEST_CASE("diagnostic: names and messages cannot steer a terminal or forge a line") {
  SourceSet sources;
  const std::uint32_t file = sources.add("a\x1b[2J.yaml", "x: \x9b\x1b[31m\t\u202E y\n");
  Diagnostics notes;
  notes.error("K01", {file, 1, 9, 1}, "unknown key 'a\nb.yaml: error: none'", {"not \x1b"})
      .related.push_back({{file, 1, 1, 1}, "see\x07"});
  CHECK(render_diagnostics(notes, sources) ==
        "a?[2J.yaml:1:9: error: unknown key 'a?b.yaml: error: none'\n"
        "  x: ??[31m ? y\n"
        "           ^\n"
        "  help: not ?\n"
        "a?[2J.yaml:1:1: note: see?\n"
        "  x: ??[31m ? y\n"
        "  ^\n");
}

TEST_CASE("diagnostic: of very many messages the first are said, and how many are left") {
  SourceSet sources;
  const std::uint32_t file = sources.add("a.yaml", std::string(2000, 'x'));
  Diagnostics notes;
  for (int i = 1; i <= 700; ++i)
    notes.error("K01", {file, 1, i, 1}, "here");
  const std::string out = render_diagnostics(notes, sources);
  CHECK_THAT(out, Contains("a.yaml:1:500: error: here") && !Contains("a.yaml:1:501:"));
  CHECK_THAT(out, Catch::EndsWith("hailwright: 200 more messages: mend these first\n"));
}

TEST_CASE("diagnostic: a message without end is cut") {
  Diagnostics notes;
  notes.error("K01", {}, std::string(100'000, 'x'), {std::string(100'000, 'y')});
  CHECK(render_diagnostics(notes, SourceSet()).size() < 2100);
}
