#include "input/yaml_cursor.hpp"

#include <chrono>

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;
using input_files::Seen;
using input_files::tree;

namespace {

Diagnostics faults(const std::string& text) {
  Diagnostics notes;
  read_yaml(1, text, notes);
  return notes;
}

}  // namespace

TEST_CASE("yaml_cursor: a tree with its places") {
  const Node root = tree("a: 1\nlist:\n  - x\n  - {k: v, w: [y, z]}\nm:\n  n: \"q\"\n");
  REQUIRE(root.kind == NodeKind::map);
  REQUIRE(root.entries.size() == 3);
  CHECK(root.span.line == 1);
  const Node& list = root.entries[1].value;
  REQUIRE(list.kind == NodeKind::list);
  CHECK(list.items.at(0).text == "x");
  CHECK(list.items.at(0).span.line == 3);
  CHECK(list.items.at(0).span.column == 5);
  const Node& flow = list.items.at(1);
  CHECK(flow.span.column == 5);
  CHECK(flow.entries.at(1).value.items.at(1).text == "z");
  CHECK(root.entries[2].value.span.line == 6);  // a block mapping stands where its first key does
  CHECK(root.entries[2].value.span.column == 3);
}

TEST_CASE("yaml_cursor: numbers, dates and truth values stay texts") {
  const Node root = tree("a: 010\nb: .nan\nc: yes\nd: 2026-06-14\ne: 1e3\n");
  CHECK(root.entries.at(0).value.text == "010");
  CHECK(root.entries.at(1).value.text == ".nan");
  CHECK(root.entries.at(2).value.text == "yes");
  CHECK(root.entries.at(3).value.text == "2026-06-14");
}

// Each of these is taken in silence by yaml-cpp 0.7 (measured).
TEST_CASE("yaml_cursor: what the parser would let pass is refused at its place") {
  CHECK(seen(faults("a: 1\nb: 2\na: 3\n")) == std::vector<Seen>{{"K03", 3, 1}});
  CHECK(only(faults("a: 1\nb: 2\na: 3\n")).related.at(0).where.line == 1);
  CHECK(seen(faults("a: \"x\nb: 2\n")) == std::vector<Seen>{{"Y15", 1, 4}});
  CHECK(seen(faults("a: 'x\nb: 2\n")) == std::vector<Seen>{{"Y15", 1, 4}});
  CHECK(seen(faults("a: \"x\nb: \"2\"\n")) == std::vector<Seen>{{"Y15", 1, 4}});
  CHECK(seen(faults("a: x\nfoo\n")) == std::vector<Seen>{{"Y06", 2, 1}});
  CHECK(seen(faults("a: 1\n---\nb: 2\n")) == std::vector<Seen>{{"Y11", 2, 1}});
  CHECK(seen(faults("a:\nb: ~\nc: null\n")) ==
        std::vector<Seen>{{"K04", 1, 1}, {"K04", 2, 1}, {"K04", 3, 1}});
  CHECK(seen(faults("a: \"\"\n")) == std::vector<Seen>{{"K04", 1, 1}});
  // Found by review: a title of blanks, or of a space without width, was an empty heading.
  for (const char* nothing : {"'   '", "\"\\t\"", "\u200b", "'\u00a0\u2060'", "\u3164", "\u2800"}) {
    CAPTURE(nothing);
    CHECK(seen(faults(std::string("a: ") + nothing + "\n")) == std::vector<Seen>{{"K04", 1, 1}});
    CHECK(faults(std::string("a: x") + "\n").empty());
  }
  CHECK(faults("a: '\u200b.'\n").empty());
  CHECK(seen(faults("a: [x, ~]\nb:\n  -\n  - y\n")) ==
        std::vector<Seen>{{"K04", 1, 6}, {"K04", 3, 3}});
  CHECK(seen(faults("a: &x 1\nb: *x\n")) == std::vector<Seen>{{"Y09", 1, 4}, {"Y09", 2, 4}});
  CHECK(seen(faults("a: !!int 1\nb: !x {c: 1}\nc: ! d\n")) ==
        std::vector<Seen>{{"Y10", 1, 4}, {"Y10", 2, 4}, {"Y10", 3, 4}});
  CHECK(seen(faults("a: {<<: 1}\n")) == std::vector<Seen>{{"Y16", 1, 5}});
  CHECK(seen(faults("[a]: 1\n? {b: c}\n: 2\n")) == std::vector<Seen>{{"Y14", 1, 1}, {"Y14", 2, 3}});
  CHECK(seen(faults(": 1\n")) == std::vector<Seen>{{"Y14", 1, 1}});
}

TEST_CASE("yaml_cursor: a text with a comma inside braces needs quotes") {
  const Diagnostic note = only(faults("came: {condition: new, no marks}\n"));
  CHECK(note.code == "Y06");
  CHECK(note.where.column == 24);
  CHECK(note.where.length == 8);
  CHECK_THAT(note.hints.at(0), Contains("in quotes"));
}

TEST_CASE("yaml_cursor: several faults of one text come back together") {
  CHECK(seen(faults("a: &x 1\na: 2\nb:\nc: !t d\n")) ==
        std::vector<Seen>{{"Y09", 1, 4}, {"K03", 2, 1}, {"K04", 3, 1}, {"Y10", 4, 4}});
}

TEST_CASE("yaml_cursor: texts without a tree") {
  CHECK(only(faults("")).code == "Y05");
  CHECK(only(faults("# remark\n\n")).code == "Y05");
  CHECK(only(faults("a: b: c\n")).code == "Y07");
}

TEST_CASE("yaml_cursor: hostile texts end soon, with one message") {
  const auto begin = std::chrono::steady_clock::now();
  std::string stairs;
  for (int i = 0; i < 2000; ++i)
    stairs += std::string(static_cast<std::size_t>(i), ' ') + "a:\n";
  const std::string braces = [] {
    std::string text;
    for (int i = 0; i < 10000; ++i)
      text += "{a: ";
    return text;
  }();
  for (const std::string& text :
       {std::string(10000, '['), braces, stairs, std::string("a: ") + std::string(10000, '-')}) {
    const Diagnostics notes = faults(text);
    CHECK(notes.items().size() <= 1);
  }
  CHECK(only(faults(std::string(10000, '['))).code == "Y13");
  CHECK(only(faults(braces)).code == "Y13");
  CHECK(only(faults(std::string(40, '[') + "x" + std::string(40, ']'))).code == "Y12");
  CHECK(only(faults(std::string(10000, '[') + std::string(10000, ']'))).code == "Y12");
  CHECK(only(faults(stairs)).code == "Y12");
  // Doubling aliases: no alias is ever followed.
  std::string bomb = "a0: &a0 [x, x]\n";
  for (int i = 1; i < 30; ++i) {
    const std::string before = "*a" + std::to_string(i - 1);
    bomb += "a" + std::to_string(i) + ": &a" + std::to_string(i) + " [" + before + ", " + before +
            "]\n";
  }
  const Diagnostics refused = faults(bomb);
  CHECK(refused.items().size() > 29);
  for (const Diagnostic& note : refused.items())
    CHECK(note.code == "Y09");
  std::string many = "a: [";
  for (int i = 0; i < 110000; ++i)
    many += "x,";
  CHECK(only(faults(many + "]\n")).code == "Y12");
  std::string twice;
  for (int i = 0; i < 1000; ++i)
    twice += "a: 1\n";
  CHECK(faults(twice).items().size() == 100);
  const auto spent = std::chrono::steady_clock::now() - begin;
  CHECK(std::chrono::duration_cast<std::chrono::seconds>(spent).count() < 20);
}

TEST_CASE("yaml_cursor: a tree says whether something in it could not be read") {
  CHECK_FALSE(has_gaps(input_files::tree("a: 1\nb: [x, {c: y}]\n")));
  Diagnostics notes;
  const auto root = read_yaml(1, "a: 1\nb: [x, {c: }]\n", notes);
  REQUIRE(root);
  CHECK(has_gaps(*root));
  CHECK_FALSE(has_gaps(root->entries[0].value));
  CHECK(has_gaps(root->entries[1].value));
}

// Found by review: "\\0" in a path named another file than was read, "\\e" went to the terminal.
TEST_CASE("yaml_cursor: what steers cannot be written as an escape either") {
  for (const std::string escape : {"\\0", "\\e[2J", "\\x9b", "\\u202e", "\\a"}) {
    CAPTURE(escape);
    Diagnostics notes;
    const auto root = read_yaml(1, "a: \"x" + escape + "\"\n\"" + escape + "\": 1\n", notes);
    REQUIRE(root);
    CHECK(input_files::seen(notes) == std::vector<input_files::Seen>{{"Y01", 1, 4}, {"Y01", 2, 1}});
  }
  Diagnostics none;
  CHECK(read_yaml(1, "a: \"x\\ny\\tz \\u00e9\"\n", none));
  CHECK(none.empty());
}
