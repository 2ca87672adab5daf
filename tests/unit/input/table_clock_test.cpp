#include "input/table_clock.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;

namespace {

Cell cell(std::string_view text) {
  return {text, {1, 2, 5, 5}, false};
}

}  // namespace

TEST_CASE("table clock: times of day are read and shown") {
  Diagnostics notes;
  for (const auto& [text, minute] : {std::pair("00:00", 0), std::pair("9:07", 9 * 60 + 7),
                                     std::pair("13:05", 785), std::pair("23:59", 1439)}) {
    CAPTURE(text);
    const auto moment = read_moment(cell(text), {}, notes);
    REQUIRE(moment);
    CHECK(moment->minute == minute);
    CHECK(moment->origin.column == 5);
  }
  CHECK(notes.empty());
  CHECK(time_text(0) == "00:00");
  CHECK(time_text(13 * 60 + 5) == "13:05");
}

TEST_CASE("table clock: what is no time of day") {
  for (const char* text : {"24:00", "12:60", "13.05", "1:05 pm", "13:5", "13:05:10", ":05",
                           "13:", "12.5", "-1:05", "123:05"}) {
    CAPTURE(text);
    Diagnostics notes;
    CHECK_FALSE(read_moment(cell(text), {}, notes));
    const Diagnostic note = only(notes);
    CHECK(note.code == "T26");
    CHECK(note.where.column == 5);
    CHECK(note.hints.size() == 1);
  }
  Diagnostics notes;
  read_moment(cell("12.5"), "time ms", notes);
  CHECK(only(notes).hints.at(1) == "time ms");
}

TEST_CASE("table clock: a time that goes back names both rows") {
  Diagnostics notes;
  report_time_back({785, {1, 3, 1, 5}}, {781, {1, 4, 1, 5}}, "series \"small\"", {"mend"}, notes);
  const Diagnostic note = only(notes);
  CHECK(note.code == "T27");
  CHECK(note.message == "time goes back inside series \"small\": 13:01 after 13:05");
  CHECK(note.where.line == 4);
  CHECK(note.related.at(0).where.line == 3);
}
