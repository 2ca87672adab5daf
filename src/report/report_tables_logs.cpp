// Tables of a write-up: set-ups that stand in logs, and sessions.
#include <algorithm>
#include <array>

#include "report/log_answer.hpp"
#include "report/readings_clock.hpp"
#include "report/readings_sentences.hpp"
#include "report/report_tables.hpp"
#include "report/skipped_readings.hpp"
#include "report/stretch_table.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

/// What became of the rows of a set-up.
struct Counts {
  double counted = 0.0, left_out = 0.0;
  std::vector<std::string> why;
};

Counts counts_of(const Record& record, std::size_t setup) {
  Counts counts;
  for (const Reading& r : record.readings) {
    if (r.setup == setup) (r.skip.empty() ? counts.counted : counts.left_out) += 1.0;
  }
  for (const SkippedReadings& s : skipped_of_logs(record)) {
    if (s.setup == setup) counts.why.push_back(s.reason + ": " + std::to_string(s.count));
  }
  return counts;
}

void add_setups(DataTable& table, const Record& record, const LogUse& use) {
  for (std::size_t i = 0; i < use.setups.size(); ++i) {
    const LogStretch& s = use.findings.stretches.at(i);
    const std::string& zone = use.stated.zone;
    const LocalClock from = local_clock(s.from_us, zone);
    const LocalClock to = local_clock(s.to_us, zone);
    const Counts counts = counts_of(record, use.setups[i]);
    table.rows.push_back({record.title, record.setups[use.setups[i]].name, files_text(use.files),
                          from.date + ' ' + from.clock, to.date + ' ' + to.clock,
                          iso_time(s.from_us, zone), iso_time(s.to_us, zone),
                          static_cast<double>(s.rows), counts.counted, counts.left_out,
                          enumerate(counts.why), static_cast<double>(s.gaps), s.in_gaps_s});
  }
}

/// Left to files and sheets: a page has room for the numbers with their intervals.
void leave_to_machines(DataTable& table) {
  constexpr std::array titles{"log", "rows", "time bridged", "normalised power, second",
                              "± normalised power, second"};
  for (DataColumn& column : table.columns) {
    if (std::find(titles.begin(), titles.end(), column.title) != titles.end())
      column = for_machines(column);
  }
}

}  // namespace

DataTable logs_table(const WriteUp& write_up) {
  DataTable table{"logs",
                  "Set-ups from logs: their rows, and how many readings those gave. A row gives a "
                  "reading of each panel",
                  {{"record", ""},
                   {"set-up", ""},
                   {"log", ""},
                   {"from", ""},
                   {"to", ""},
                   for_machines({"first row", ""}),
                   for_machines({"last row", ""}),
                   {"rows", "", 0},
                   {"readings that count", "", 0},
                   {"left out", "", 0},
                   {"because", ""},
                   {"gaps", "", 0},
                   for_machines({"time in gaps", "s", 1})},
                  {}};
  for (const Judged& judged : write_up.judged) {
    for (const LogUse& use : judged.test->record.logs)
      add_setups(table, judged.test->record, use);
  }
  return table;
}

DataTable sessions_table(const WriteUp& write_up) {
  DataTable table{"sessions",
                  "Sessions: energy and power by the log, intervals at 95 %. They judge nothing",
                  {{"record", ""}, {"session", ""}, {"log", ""}},
                  {}};
  std::vector<std::vector<ReadingsAnswer>> answers;
  for (const Judged& judged : write_up.judged)
    answers.push_back(session_answers(*judged.test, *judged.assessment));
  std::vector<StretchRow> rows;
  for (std::size_t i = 0; i < answers.size(); ++i) {
    for (const ReadingsAnswer& answer : answers[i]) {
      for (const NamedStretch& session : told_stretches(answer)) {
        table.rows.push_back(
            {write_up.judged[i].test->record.title, session.name, files_text(answer.files)});
        rows.push_back({session.stretch, session.numbers, answer.stated.zone});
      }
    }
  }
  table = stretch_table(std::move(table), rows, StretchTimes::minute);
  leave_to_machines(table);
  return table;
}

}  // namespace hailwright
