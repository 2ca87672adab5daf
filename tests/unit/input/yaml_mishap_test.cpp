#include "input/yaml_mishap.hpp"

#include "input/yaml_cursor.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;

namespace {

/// What the parser's stumbling over a text becomes.
Diagnostic mishap(const std::string& text) {
  Diagnostics notes;
  const auto root = read_yaml(1, text, notes);
  CAPTURE(text);
  CHECK_FALSE(root);
  return input_files::only(notes);
}

void check(const std::string& text, std::string_view code, int line, int column,
           const std::string& part, const std::string& hint) {
  CAPTURE(text);
  const Diagnostic note = mishap(text);
  CHECK(note.code == code);
  CHECK(note.where.line == line);
  CHECK(note.where.column == column);
  CHECK_THAT(note.message, Contains(part));
  CHECK_THAT(note.hints.at(0), Contains(hint));
}

}  // namespace

TEST_CASE("yaml_mishap: the parser's complaints in plain words, with the mend") {
  check("a: é part: two\n", "Y07", 1, 10, "colon followed by a blank", "\"é part: two\"");
  check("a: 1\n b: 2\n", "Y07", 2, 3, "indentation", "same column");
  check("a:\n  b: 1\n c: 2\n", "Y07", 3, 2, "indentation", "same column");
  check("a: 1\n\tb: 2\n", "Y08", 2, 1, "tab", "blanks");
  check("a:\n\tb: 2\n", "Y08", 2, 1, "tab", "blanks");
  check("a: {b: 1\nc: 2\n", "Y13", 1, 4, "{ is not closed", "}");
  check("a: [1, 2\nc: 2\n", "Y13", 1, 4, "[ is not closed", "]");
  check("a: \"b\" c\n", "Y07", 1, 8, "closing quote", "quotes");
  check("a: %x\n", "Y07", 1, 4, "cannot begin with %", "in quotes");
  check("a: @x\n", "Y07", 1, 4, "cannot begin with @", "in quotes");
  check("a: }\n", "Y07", 1, 4, "closes nothing", "quotes");
  check("a: - b\n", "Y07", 1, 4, "list entry", "[first, second]");
  check("a: \"C:\\photos\"\n", "Y07", 1, 7, "backslash", "single quotes");
  check("a: \"x\\ud800\"\n", "Y07", 1, 6, "backslash", "twice");
  check("a: \"\\x\"\nb: 1\n", "Y07", 1, 5, "backslash", "twice");
  check("a: *x\n", "Y09", 1, 4, "alias", "in quotes");
  check("a: {b: [1, 2}\n", "Y13", 1, 8, "[ is not closed", "]");
}

TEST_CASE("yaml_mishap: a complaint without plain words keeps the parser's") {
  const Diagnostic note = explain({3, "something new", std::nullopt}, 1, "ab\ncd\n");
  CHECK(note.code == "Y07");
  CHECK(note.where.line == 2);
  CHECK(note.where.column == 1);
  CHECK_THAT(note.message, Contains("something new"));
  // The parser may give up behind the last byte.
  CHECK(explain({99, "unknown token", std::nullopt}, 1, "ab").where.line == 1);
}
