#include "input/yaml_scalar.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright::input;
using input_files::tree;

namespace {

const Node& value(const Node& root, std::size_t i = 0) {
  return root.entries.at(i).value;
}

}  // namespace

TEST_CASE("yaml_scalar: spans cover the text as written, in characters") {
  const Node root = tree("é: 25 mm   # c\nb: \"q ü\"\n'c': 'it''s'\nd: long\n  text # c\n");
  CHECK(root.entries.at(0).key_span.length == 1);
  CHECK(value(root).span.column == 4);
  CHECK(value(root).span.length == 5);
  CHECK(value(root).text_column == 4);
  CHECK(value(root, 1).span.column == 4);
  CHECK(value(root, 1).span.length == 5);
  CHECK(value(root, 1).text_column == 5);
  CHECK(value(root, 1).style == TextStyle::quoted);
  CHECK(root.entries.at(2).key == "c");
  CHECK(root.entries.at(2).key_span.length == 3);
  CHECK(value(root, 2).text == "it's");
  CHECK(value(root, 2).text_column == 0);  // the doubled quote shifts what follows
  CHECK(value(root, 3).text == "long text");
  CHECK(value(root, 3).span.length == 4);
  CHECK(value(root, 3).text_column == 0);
}

TEST_CASE("yaml_scalar: part of a text is located when its characters stand there") {
  const Node root = tree("a: 25 min\nb: \"25\\x20min\"\n");
  CHECK(span_in(value(root), 3, 3).column == 7);
  CHECK(span_in(value(root), 3, 3).length == 3);
  CHECK(span_in(value(root, 1), 3, 3).column == value(root, 1).span.column);
}

TEST_CASE("yaml_scalar: a block tells where its first character stands") {
  const Node root = tree("t:\n  shots: |   # rows\n\n      a,b\n       1,2\n  folded: >\n    x\n");
  const Node& shots = value(root).entries.at(0).value;
  CHECK(shots.style == TextStyle::literal);
  CHECK(shots.text == "\na,b\n 1,2\n");
  CHECK(shots.block_line == 3);  // a blank line belongs to the text
  CHECK(shots.block_column == 7);
  CHECK(value(root).entries.at(1).value.style == TextStyle::folded);
  // With an indentation indicator the text keeps blanks of its own.
  const Node indicated = tree("t: |2\n    a\n");
  CHECK(value(indicated).text == "  a\n");
  CHECK(value(indicated).block_column == 3);
}

TEST_CASE("yaml_scalar: quotes that do not close on their line") {
  const std::string text = GENERATE(as<std::string>{}, "\"abc\nd\"", "'abc\nd'", "\"abc\\\"\n");
  const Places places(1, text);
  CHECK(written_text(places, 0, "abc").quote_open);
  CHECK_FALSE(written_text(Places(1, "'a''b'\n"), 0, "a'b").quote_open);
  CHECK(written_text(Places(1, "'a''b'\n"), 0, "a'b").end == 6);
}
