#include "logs/log_order_notes.hpp"

#include <algorithm>

#include "logs/log_problems.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

LogBlock faulty_block(int faults, std::string_view code = "L11", std::int64_t first_line = 101) {
  LogBlock block;
  block.first_line = first_line;
  block.lines = static_cast<std::uint32_t>(faults);
  for (int line = 0; line < faults; ++line)
    add_problem(code, line, "a,ERR", 2, 5, block, [] {
      return ToldProblem{"\"ERR\" is not a number", {}};
    });
  block.unreadable = static_cast<std::uint32_t>(faults);
  return block;
}

LogTally tally_of(std::int64_t rows, std::int64_t unreadable) {
  LogTally tally;
  tally.rows = rows;
  tally.unreadable = unreadable;
  return tally;
}

struct Notes {
  SourceSet sources;
  std::uint32_t file = sources.add_unkept("day.csv");
  LogNotes notes;
  explicit Notes(std::int64_t tolerated) : notes(sources, tolerated) {}
  std::string text() { return render_diagnostics(notes.notes(), sources); }
};

}  // namespace

TEST_CASE("log_order_notes: twenty are told, the rest counted", "[logs]") {
  Notes n(0);
  n.notes.add(faulty_block(15), n.file);
  n.notes.add(faulty_block(30, "L11", 201), n.file);
  n.notes.finish(tally_of(100, 45), false);
  CHECK(n.notes.counts().at("L11") == 45);
  CHECK(n.notes.notes().items().size() == 20 + 1 + 1);
  CHECK(n.notes.notes().has_errors());
  CHECK_THAT(n.text(),
             Contains("day.csv:101:3: error: \"ERR\" is not a number\n  a,ERR\n    ^^^") &&
                 Contains("and 25 more rows with a cell that is not a number, the last "
                          "in line 230") &&
                 Contains("45 of 145 rows cannot be used, the first in line 101") &&
                 Contains("--tolerate 45"));
  const std::vector<std::string>& hints = n.notes.notes().items().back().hints;
  REQUIRE(hints.size() == 2);
  CHECK_THAT(hints[0], Contains("mend"));
  CHECK_THAT(hints[1], Contains("--tolerate"));
}

// Found by review: to leave out 624 of 625 rows was advised, and by a flag alone.
TEST_CASE("log_order_notes: most rows are not to be left out", "[logs]") {
  Notes few(0);
  few.notes.add(faulty_block(3), few.file);
  few.notes.finish(tally_of(4, 3), false);
  CHECK_THAT(few.notes.notes().items().back().hints.at(1),
             Contains("--tolerate 3") && Contains("tolerate: 3"));
  Notes most(0);
  most.notes.add(faulty_block(3), most.file);
  most.notes.finish(tally_of(3, 3), false);
  const std::vector<std::string>& hints = most.notes.notes().items().back().hints;
  REQUIRE(hints.size() == 1);
  CHECK_THAT(hints[0], Contains("as stated") && !Contains("tolerate"));
}

TEST_CASE("log_order_notes: what is tolerated is warned of", "[logs]") {
  Notes n(3);
  n.notes.add(faulty_block(3), n.file);
  n.notes.finish(tally_of(100, 3), false);
  CHECK_FALSE(n.notes.notes().has_errors());
  CHECK_THAT(n.text(), Contains("warning: 3 of 103 rows could not be used"));

  Notes more(2);
  more.notes.add(faulty_block(3), more.file);
  CHECK_FALSE(more.notes.notes().has_errors());
  more.notes.finish(tally_of(100, 3), false);
  for (const Diagnostic& note : more.notes.notes().items())
    CHECK(note.severity == Severity::error);
  CHECK_THAT(more.text(), Contains("only 2 are tolerated"));
}

TEST_CASE("log_order_notes: what is counted stands at the last row of its kind", "[logs]") {
  Notes n(0);
  n.notes.add(faulty_block(30), n.file);
  n.notes.finish(tally_of(100, 30), false);
  const std::vector<Diagnostic>& notes = n.notes.notes().items();
  const auto more = std::find_if(notes.begin(), notes.end(), [](const Diagnostic& note) {
    return note.message.starts_with("and 10 more");
  });
  REQUIRE(more != notes.end());
  CHECK(more->where.line == 130);
}

TEST_CASE("log_order_notes: where no row is left nothing is tolerated", "[logs]") {
  Notes n(50);
  n.notes.add(faulty_block(50), n.file);
  n.notes.finish(tally_of(0, 50), false);
  CHECK(n.notes.notes().has_errors());
  CHECK_THAT(n.text(), Contains("50 of 50 rows cannot be used") &&
                           Contains("so many are no slips") && !Contains("--tolerate") &&
                           !Contains("tolerated"));
}

TEST_CASE("log_order_notes: warnings alone are no error, giving up is", "[logs]") {
  Notes n(0);
  n.notes.add(faulty_block(2, "L20"), n.file);
  n.notes.finish(tally_of(100, 0), false);
  CHECK_FALSE(n.notes.notes().has_errors());
  CHECK(n.notes.notes().items().size() == 2);

  Notes hopeless(1000000);
  hopeless.notes.add(faulty_block(5), hopeless.file);
  hopeless.notes.finish(tally_of(0, 10000), true);
  CHECK(hopeless.notes.notes().has_errors());
  CHECK_THAT(hopeless.text(), Contains("none of the first 10000 rows could be used"));
}
