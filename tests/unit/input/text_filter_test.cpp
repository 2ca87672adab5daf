#include "input/text_filter.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;
using input_files::Seen;

namespace {

Diagnostics check(std::string_view text, TextKind kind = TextKind::yaml) {
  Diagnostics notes;
  const bool fine = check_bytes(1, text, kind, notes);
  CHECK(fine == notes.empty());
  return notes;
}

}  // namespace

TEST_CASE("text_filter: texts that people write pass") {
  CHECK(check("").empty());
  CHECK(check("a: 25 mm\n\tb\n").empty());
  CHECK(check("é ß € 𝄞 ±\n").empty());
  CHECK(check("a: 5 %\n").empty());
}

TEST_CASE("text_filter: a byte order mark and CRLF leave no trace") {
  CHECK(plain_line_ends("\xEF\xBB\xBF"
                        "a\r\nb\r\n") == "a\nb\n");
  CHECK(plain_line_ends("a\rb") == "a\rb");
  CHECK(plain_line_ends("") == "");
}

TEST_CASE("text_filter: control characters are located, counted and named") {
  const std::string text("ab\xC3\xA9\0x\x01", 7);
  const Diagnostic note = only(check(text));
  CHECK(note.code == "Y01");
  CHECK(note.where.line == 1);
  CHECK(note.where.column == 4);
  CHECK_THAT(note.message, Contains("U+0000") && Contains("and 1 more"));
  CHECK(only(check("a\n\x7F")).where.line == 2);
  CHECK(only(check("\xC2\x85")).code == "Y01");  // U+0085, a line break to some programs
  CHECK_THAT(only(check("a\rb")).hints.at(0), Contains("LF"));
}

TEST_CASE("text_filter: bytes that are not UTF-8") {
  // The Unicode Standard, table 3-7 (from memory): overlong, surrogate, too large, cut short.
  const std::string bytes =
      GENERATE(as<std::string>{}, "\xFF", "\xC0\x80", "\xE0\x80\x80", "\xED\xA0\x80",
               "\xF4\x90\x80\x80", "\xF0\x80\x80\x80", "\xE2\x82", "\x80", "\xC3");
  CAPTURE(bytes);
  const Diagnostics notes = check("a: é\nbc" + bytes);
  REQUIRE_FALSE(notes.empty());
  CHECK(notes.items().front().code == "Y02");
  CHECK(notes.items().front().where.line == 2);
  CHECK(notes.items().front().where.column == 3);
}

TEST_CASE("text_filter: UTF-16 is named") {
  const Diagnostic note = only(check(std::string_view("\xFF\xFE"
                                                      "a\0",
                                                      4)));
  CHECK(note.code == "Y03");
  CHECK(note.where.line == 0);
  CHECK_THAT(note.hints.at(0), Contains("UTF-8"));
}

TEST_CASE("text_filter: UTF-16 without its mark is named, too") {
  using namespace std::string_view_literals;
  CHECK(only(check("a\0:\0"sv)).code == "Y03");
  CHECK(only(check("\0a\0:"sv)).code == "Y03");
  // A zero byte somewhere is none.
  CHECK(only(check("a\0bc"sv)).code == "Y01");
  CHECK(only(check("\0\0\0\0"sv)).code == "Y01");
}

TEST_CASE("text_filter: characters that turn the direction of writing round") {
  const Diagnostic note = only(check("name: \u202EA\u2069\n"));
  CHECK(note.code == "Y01");
  CHECK(note.where.column == 7);
  CHECK_THAT(note.message, Contains("U+202E") && Contains("and 1 more"));
  CHECK_THAT(note.hints.at(0), Contains("delete the character"));
  CHECK(check("שלום, مرحبا\n").empty());
}

TEST_CASE("text_filter: a directive is refused only at the start of a line") {
  const Diagnostics notes = check("a: 1\n%YAML 1.2\nb: %\n%TAG\n");
  CHECK(seen(notes) == std::vector<Seen>{{"Y04", 2, 1}});
  CHECK_THAT(only(notes).message, Contains("and 1 more"));
  CHECK(check("% share,x\n", TextKind::table).empty());
  CHECK_THAT(only(check("gr\xFC", TextKind::table)).hints.at(0), Contains("CSV UTF-8"));
}

TEST_CASE("text_filter: a binary file gives few messages") {
  std::string binary;
  for (int i = 0; i < 4096; ++i)
    binary += static_cast<char>(i * 37 % 256);
  const Diagnostic note = only(check(binary));
  CHECK(note.code == "Y01");
  CHECK_THAT(note.hints.at(0), Contains("no text file"));
  // Without a zero byte, by the number of such bytes; a slip of a person is told as two.
  CHECK(only(check("\x1F\x8B\x08\x02")).code == "Y01");
  CHECK(check("a note of a person in Latin-1: gr\xFCn \x07").items().size() == 2);
}

TEST_CASE("text_filter: places of bytes") {
  const SourceSpan place = place_of_byte(3, "é\nüx", 5, 2);
  CHECK(place.file == 3);
  CHECK(place.line == 2);
  CHECK(place.column == 2);
  CHECK(place.length == 2);
  CHECK(place_of_byte(1, "", 9).line == 1);
}
