#include "hailwright/logs/log_analysis.hpp"

#include <cmath>
#include <numbers>

#include "support/catch.hpp"
#include "support/cloudy_day.hpp"
#include "support/log_rows.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

constexpr std::int64_t second = 1'000'000;

LogFindings findings_of(const std::vector<LogBlock>& blocks, const LogQuestion& question,
                        Diagnostics& notes) {
  LogAnalysis analysis(question);
  for (const LogBlock& block : blocks)
    analysis.take(block);
  return analysis.finish(notes);
}

LogQuestion plain_question() {
  LogQuestion question;
  question.first_file = 1;
  question.rules.longest_gap = Time::from_si(10.0);
  return question;
}

double half_sine(double at_s) {
  return 80.0 * std::sin(std::numbers::pi * at_s / 36'000.0);
}

void check_alike(const LogStretch& a, const LogStretch& b) {
  CHECK(a.name == b.name);
  CHECK(a.rows == b.rows);
  CHECK(a.from_us == b.from_us);
  CHECK(a.to_us == b.to_us);
  CHECK(a.gaps == b.gaps);
  CHECK(a.kept.size() == b.kept.size());
  CHECK(a.power.least == b.power.least);
  CHECK(a.power.most == b.power.most);
  CHECK_THAT(a.bridged_s, WithinRel(b.bridged_s, 1e-12));
  CHECK_THAT(a.energy.si(), WithinRel(b.energy.si(), 1e-12));
  CHECK_THAT(a.power.mean, WithinRel(b.power.mean, 1e-12));
  CHECK_THAT(a.power_series.sd, WithinRel(b.power_series.sd, 1e-9));
  REQUIRE(a.steady.has_value() == b.steady.has_value());
  if (a.steady) CHECK(a.steady->rows_kept == b.steady->rows_kept);
  REQUIRE(a.counter.has_value() == b.counter.has_value());
  if (a.counter) CHECK(a.counter->counted == b.counter->counted);
}

std::vector<std::string> told(const Diagnostics& notes) {
  std::vector<std::string> all;
  for (const Diagnostic& note : notes.items())
    all.push_back(std::string(note.code) + ":" + std::to_string(note.where.line) + " " +
                  note.message);
  return all;
}

/// Two hours of a cloudy day with a counter that is reset, a gap, markers and times without load.
LogBlock eventful_log() {
  CloudyDay day;
  day.hours = 2.0;
  LogBlock rows = two_logs(day).first;
  std::vector<double>& power = rows.values[index_of(LogRole::power)];
  double counter_j = 5e5;
  for (std::size_t row = 0; row < rows.rows(); ++row) {
    if (row % 2400 < 300) power[row] = 0.01;
    if (row > 4000) rows.time_us[row] += 95 * second;
    counter_j = row == 3000 ? 0.0 : counter_j + power[row];
    rows.values[index_of(LogRole::energy)].push_back(std::floor(counter_j / 360.0) * 360.0);
  }
  rows.markers = {{0, ""}, {400, "before 1"}, {2300, ""}, {2800, "before 2"}, {5200, "before 1"}};
  return rows;
}

}  // namespace

TEST_CASE("analysis: a log without rows") {
  Diagnostics notes;
  const LogFindings findings = findings_of({}, plain_question(), notes);
  CHECK(findings.whole.rows == 0);
  CHECK(findings.stretches.empty());
  CHECK(findings.trace.points.empty());
  CHECK(findings.usual_step_s == 0.0);
  CHECK(notes.empty());
  LogQuestion timed = plain_question();
  timed.cut = {LogCut::Kind::times, {{"x", 0, second, {}}}, {}};
  CHECK(findings_of({LogBlock{}}, timed, notes).stretches.empty());
  REQUIRE(notes.items().size() == 1);
  CHECK(notes.items()[0].code == "L27");
}

TEST_CASE("analysis: a sine-shaped day by its closed form") {
  Diagnostics notes;
  const LogFindings findings =
      findings_of({rows_by_second(36'001, half_sine)}, plain_question(), notes);
  // The trapezoid rule over a half sine of n steps h: h A cot(pi / 2n).
  const double wanted = 80.0 / std::tan(std::numbers::pi / 72'000.0);
  CHECK_THAT(findings.whole.energy.si(), WithinRel(wanted, 1e-12));
  REQUIRE(findings.whole.mean_power);
  CHECK_THAT(findings.whole.mean_power->si(), WithinRel(wanted / 36'000.0, 1e-12));
  CHECK(findings.usual_step_s == 1.0);
  CHECK(findings.stretches.empty());
  CHECK(findings.trace.points.size() <= 1024);
  CHECK(notes.empty());
}

TEST_CASE("analysis: rows are kept of the whole only when nothing is cut") {
  LogQuestion question = plain_question();
  question.kept_rows = 30;
  const LogBlock rows = rows_by_second(100, half_sine);
  Diagnostics notes;
  CHECK(findings_of({rows}, question, notes).whole.kept.size() == 30);
  REQUIRE(notes.items().size() == 1);
  CHECK(notes.items()[0].code == "L29");
  question.cut = {LogCut::Kind::times, {{"x", 0, 19 * second, {}}}, {}};
  const LogFindings cut = findings_of({rows}, question, notes);
  CHECK(cut.whole.kept.empty());
  REQUIRE(cut.stretches.size() == 1);
  CHECK(cut.stretches[0].kept.size() == 20);
  CHECK(notes.items().size() == 1);
}

TEST_CASE("analysis: warnings point at lines of the file in which they are") {
  LogBlock first = rows_by_second(100, [](double) { return 36.0; });
  add_column(first, LogRole::energy, [](double at_s) { return 1e5 + 36.0 * at_s; });
  LogBlock next = rows_by_second(100, [](double) { return 36.0; });
  for (std::int64_t& at_us : next.time_us)
    at_us += 160 * second;
  add_column(next, LogRole::energy, [](double at_s) { return 36.0 * (at_s - 150.0); });
  next.file = 1;
  Diagnostics notes;
  findings_of({first, next}, plain_question(), notes);
  REQUIRE(notes.items().size() == 2);
  CHECK(notes.items()[0].code == "L23");
  CHECK(notes.items()[0].where.file == 2);
  CHECK(notes.items()[0].where.line == 2);
  CHECK(notes.items()[1].code == "L24");
  CHECK(notes.items()[1].where.file == 2);
  CHECK(notes.items()[1].where.line == 2);
}

TEST_CASE("analysis: any split of the rows gives the same findings and messages") {
  const LogBlock rows = eventful_log();
  RandomStream random(6, 9);
  const std::int64_t from = rows.time_us.front();
  for (const LogCut::Kind kind :
       {LogCut::Kind::whole, LogCut::Kind::times, LogCut::Kind::markers, LogCut::Kind::plateaus}) {
    LogQuestion question = plain_question();
    question.cut.kind = kind;
    question.cut.spans = {{"a", from + 1000 * second, from + 3000 * second, {}},
                          {"b", from + 2000 * second, from + 9000 * second, {}},
                          {"c", from + 9000 * second, from + 9900 * second, {}}};
    question.rules.steady.emplace();
    question.kept_rows = 4000;
    Diagnostics whole_notes;
    const LogFindings whole = findings_of({rows}, question, whole_notes);
    CHECK((kind == LogCut::Kind::whole || whole.stretches.size() > 1));
    for (int trial = 1; trial <= 12; ++trial) {
      CAPTURE(static_cast<int>(kind), trial);
      Diagnostics notes;
      const LogFindings split =
          findings_of(split_at_random(rows, trial * trial, random), question, notes);
      check_alike(split.whole, whole.whole);
      REQUIRE(split.stretches.size() == whole.stretches.size());
      for (std::size_t i = 0; i < whole.stretches.size(); ++i)
        check_alike(split.stretches[i], whole.stretches[i]);
      CHECK(split.usual_step_s == whole.usual_step_s);
      CHECK(split.trace.points.size() == whole.trace.points.size());
      CHECK(told(notes) == told(whole_notes));
    }
  }
}

TEST_CASE("analysis: an eventful log tells all that happened") {
  LogQuestion question = plain_question();
  question.cut.kind = LogCut::Kind::markers;
  Diagnostics notes;
  const LogFindings findings = findings_of({eventful_log()}, question, notes);
  REQUIRE(findings.stretches.size() == 3);
  CHECK(findings.stretches[2].name == "before 1 (2)");
  CHECK(findings.whole.gaps == 1);
  std::vector<std::string_view> codes;
  for (const Diagnostic& note : notes.items())
    codes.push_back(note.code);
  CHECK(codes == std::vector<std::string_view>{"L23", "L24", "L28"});
  CHECK(notes.items()[0].where.line == 2 + 4001);
  CHECK(notes.items()[1].where.line == 2 + 3000);
  CHECK(notes.items()[2].where.line == 2 + 5200);
}
