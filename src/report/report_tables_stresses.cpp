// A table of a write-up: what was done of each stress other than hail.
#include "report/report_tables.hpp"
#include "report/sentences.hpp"
#include "report/stress_sentences.hpp"

namespace hailwright {

namespace {

std::string side_text(StressSide side) {
  switch (side) {
  case StressSide::not_weaker:
    return "not weaker";
  case StressSide::weaker:
    return "weaker";
  case StressSide::cannot_tell:
    return "cannot tell";
  }
  return "";
}

/// What was or was not as planned has neither a spread nor an interval.
std::vector<DataCell> stress_numbers(const StressQuantity& q) {
  const double done = q.reached.done.value.si();
  if (q.reached.yes_no) return {1.0, {}, done, {}, {}, {}};
  return {q.reached.planned, q.counts_from, done, q.reached.done.standard_u.si(), q.low, q.high};
}

std::vector<DataCell> row_of(const StressVerdict& v, const StressQuantity& q, const Test& test) {
  const StressDone& done = test.record.stresses[v.done];
  const StressPlan& plan = test.protocol.stresses[done.stress];
  std::vector<DataCell> row{test.record.title,
                            plan.name,
                            std::string(plan.kind->word),
                            std::string(word_text(v.word)),
                            done.date.empty() ? test.record.date : done.date,
                            q.reached.label,
                            q.reached.yes_no ? "1 yes, 0 no" : q.reached.unit};
  const std::vector<DataCell> numbers = stress_numbers(q);
  row.insert(row.end(), numbers.begin(), numbers.end());
  row.emplace_back(side_text(q.side));
  return row;
}

}  // namespace

DataTable stresses_table(const WriteUp& write_up) {
  constexpr int decimals = 2;
  DataTable table{"stresses",
                  "Stresses other than hail: what was done against the plan, intervals at 95 %. A "
                  "quantity counts from the planned value less its tolerance on the weak side",
                  {{"record", ""},
                   {"stress", ""},
                   {"kind", ""},
                   {"word", ""},
                   for_machines({"date", ""}),
                   {"quantity", ""},
                   {"unit", ""},
                   {"planned", "", decimals},
                   {"counts from", "", decimals},
                   {"done", "", decimals},
                   for_machines({"standard uncertainty", "", decimals}),
                   {"low", "", decimals},
                   {"high", "", decimals},
                   {"against the plan", ""}},
                  {}};
  for (const Judged& judged : write_up.judged) {
    for (const StressVerdict& v : judged.assessment->stresses) {
      for (const StressQuantity& q : v.quantities)
        table.rows.push_back(row_of(v, q, *judged.test));
    }
  }
  return table;
}

}  // namespace hailwright
