// Table of a write-up: figures of the curve as they were read.
#include "report/report_tables.hpp"

namespace hailwright {

namespace {

template <class Q>
DataCell figure(const std::optional<Q>& q) {
  return q ? DataCell(q->si()) : DataCell();
}

void add_readings(DataTable& table, const std::string& title, const char* stage,
                  const std::vector<CurveReading>& readings) {
  double number = 0.0;
  for (const CurveReading& r : readings) {
    number += 1.0;
    table.rows.push_back({title, stage, number, figure(r.open_circuit), figure(r.short_circuit),
                          figure(r.at_maximum), figure(r.current_at_maximum), r.sun.si(),
                          typed_celsius(r.back)});
  }
}

}  // namespace

DataTable curves_table(const WriteUp& write_up) {
  DataTable table{"curves",
                  "Figures of the curve as they were read",
                  {{"record", ""},
                   {"stage", ""},
                   {"reading", "", 0},
                   {"open-circuit voltage", "V", 2},
                   {"short-circuit current", "A", 3},
                   {"voltage at maximum", "V", 2},
                   {"current at maximum", "A", 3},
                   {"irradiance", "W/m2", 0},
                   {"back", "degC", 1}},
                  {}};
  for (const Judged& judged : write_up.judged) {
    const Record& record = judged.test->record;
    if (!record.curves) continue;
    add_readings(table, record.title, "before", record.curves->before);
    add_readings(table, record.title, "after", record.curves->after);
  }
  return table;
}

}  // namespace hailwright
