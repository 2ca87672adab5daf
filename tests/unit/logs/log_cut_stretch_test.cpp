#include "logs/log_cut_stretch.hpp"

#include "support/catch.hpp"
#include "support/log_rows.hpp"

using namespace hailwright;
using namespace hailwright::testing;
using namespace hailwright::detail;

namespace {

StretchRules rules() {
  StretchRules rules;
  rules.longest_gap = Time::from_si(10.0);
  return rules;
}

CutStretch closed(const CutStretches& stretches, const LogBlock& rows) {
  OpenStretch open = stretches.open();
  open.take(rows, 0, rows.rows());
  return open.close("some");
}

}  // namespace

TEST_CASE("cut stretch: it begins at its first row in file and line") {
  LogBlock rows = rows_by_second(30, [](double) { return 20.0; });
  rows.file = 2;
  rows.first_line = 1000;
  OpenStretch open(rules(), 0);
  CHECK(open.empty());
  open.take(rows, 4, 4);
  CHECK(open.empty());
  open.take(rows, 4, 6);
  open.take(rows, 6, 30);
  CHECK_FALSE(open.empty());
  const CutStretch cut = open.close("before 1");
  CHECK(cut.place.file == 2);
  CHECK(cut.place.line == 1004);
  CHECK(cut.stretch.name == "before 1");
  CHECK(cut.stretch.rows == 26);
  CHECK_THAT(cut.stretch.energy.si(), WithinRel(20.0 * 25.0, 1e-12));
  CHECK(cut.stretch.kept.empty());
}

TEST_CASE("cut stretch: rows to keep are shared by all stretches and what is let go is known") {
  const LogBlock rows = rows_by_second(30, [](double) { return 20.0; });
  CutStretches stretches(rules(), 50);
  // Two that overlap in time are measured at once, each as if it were alone.
  CutStretch first = closed(stretches, rows), second = closed(stretches, rows);
  stretches.add(std::move(first));
  stretches.add(std::move(second));
  stretches.add(closed(stretches, rows));
  const std::vector<CutStretch> done = stretches.release();
  REQUIRE(done.size() == 3);
  CHECK(done[0].complete);
  CHECK(done[0].stretch.kept.size() == 30);
  CHECK_FALSE(done[1].complete);
  CHECK(done[1].stretch.kept.size() == 20);
  CHECK_FALSE(done[2].complete);
  CHECK(done[2].stretch.kept.empty());
  CHECK(done[2].stretch.rows == 30);
}
