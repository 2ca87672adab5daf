#include "input/log_clocks.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;

namespace {

constexpr std::int64_t minute_us = 60'000'000;
// 2026-06-14T08:00:00Z: 20618 days from 1970-01-01, by `date -d 2026-06-14T08:00:00Z +%s`.
constexpr std::int64_t morning_us = 1'781'424'000'000'000;

/// A record whose set-ups come from logs of one set-up each.
struct Logged {
  Record record;
  std::vector<SetupRows> rows;

  void add(const std::string& name, StageKind kind, int from_minute, int to_minute,
           const std::string& zone = "+02:00") {
    Setup setup;
    setup.name = name;
    setup.stage = {kind, 0};
    record.setups.push_back(setup);
    LogUse use = used(zone, from_minute);
    use.setups = {record.setups.size() - 1};
    LogStretch& stretch = use.findings.stretches.emplace_back();
    stretch.name = name;
    stretch.from_us = morning_us + from_minute * minute_us;
    stretch.to_us = morning_us + to_minute * minute_us;
    record.logs.push_back(std::move(use));
    const int line = 10 * static_cast<int>(record.setups.size());
    SetupRows& of = rows.emplace_back();
    of.first_row = SourceSpan{7, line, 1, 0};
    of.end = Moment{0, {7, line + 5, 1, 0}};
  }
  void add_session(const std::string& zone, bool own_offset = false) {
    record.sessions.push_back(used(zone, 0));
    record.sessions.back().shape.stamp.own_offset = own_offset;
  }
  [[nodiscard]] Diagnostics notes() const {
    Diagnostics told;
    check_log_clocks(record, rows, told);
    return told;
  }

private:
  [[nodiscard]] LogUse used(const std::string& zone, int from_minute) const {
    LogUse use;
    use.stated.zone = zone;
    use.origin = {1, 20 + static_cast<int>(record.logs.size() + record.sessions.size()), 1, 1};
    use.findings.whole.from_us = morning_us + from_minute * minute_us;
    return use;
  }
};

}  // namespace

// Found by review: the logs of before and after changed places, and nothing was said.
TEST_CASE("log_clocks: what came after the shots does not begin before what came before them ends",
          "[input]") {
  Logged well;
  well.add("before 1", StageKind::before, 0, 10);
  well.add("before 2", StageKind::baseline, 15, 25);
  well.add("after 1", StageKind::after, 26, 40);
  CHECK(seen(well.notes()).empty());

  Logged wrong;
  wrong.add("after 2", StageKind::after, 30, 40);
  wrong.add("before 1", StageKind::before, 0, 10);
  wrong.add("before 2", StageKind::before, 15, 25);
  wrong.add("after 1", StageKind::after, 25, 29);
  const Diagnostic note = only(wrong.notes());
  CHECK(note.code == "T33");
  CHECK(note.severity == Severity::error);
  CHECK(note.where.line == 40);
  CHECK(
      note.message ==
      "set-up \"after 1\" begins at 2026-06-14T10:25:00+02:00, before set-up \"before 2\" ends at "
      "2026-06-14T10:25:00+02:00: the shots lie between the two");
  CHECK(note.related.at(0).where.line == 35);
}

TEST_CASE("log_clocks: zones that tell another time are warned of once", "[input]") {
  Logged same;
  same.add("before 1", StageKind::before, 0, 10, "+02:00");
  same.add("after 1", StageKind::after, 60, 70, "Europe/Berlin");  // UTC+2 in June
  same.add_session("", true);
  same.add_session("Pacific/Auckland", true);
  CHECK(seen(same.notes()).empty());

  same.add_session("Pacific/Auckland");
  same.add_session("UTC");
  const Diagnostic note = only(same.notes());
  CHECK(note.code == "C46");
  CHECK(note.severity == Severity::warning);
  CHECK(note.where.line == 24);
  CHECK_THAT(note.message, Contains("Pacific/Auckland") && Contains("+02:00"));
  CHECK(note.related.at(0).where.line == 20);
}
