// Table of a write-up: sessions whose energy was read off a meter.
#include <algorithm>
#include <cmath>
#include <optional>

#include "hailwright/core/quantity_text.hpp"
#include "report/report_tables.hpp"

namespace hailwright {

namespace {

/// Value and half of its interval; standard uncertainty and degrees of freedom for machines.
template <class Q>
void add_number(std::vector<DataCell>& cells, const std::optional<LogNumber<Q>>& n,
                const Unit& unit) {
  if (!n) {
    cells.insert(cells.end(), 4, DataCell());
    return;
  }
  cells.emplace_back(number_in(n->estimate.value.si(), unit));
  cells.emplace_back(number_in(n->half_width().si(), unit));
  cells.emplace_back(number_in(n->estimate.standard_u.si(), unit));
  const double dof = n->estimate.degrees_of_freedom;
  cells.push_back(std::isfinite(dof) ? DataCell(dof) : DataCell());
}

void add_columns(DataTable& table, const std::string& title, const char* unit, int decimals) {
  table.columns.push_back({title, unit, decimals});
  table.columns.push_back({"± " + title, unit, decimals});
  table.columns.push_back(
      for_machines({title + ", standard uncertainty", unit, std::min(decimals + 1, 4)}));
  table.columns.push_back(for_machines({title + ", degrees of freedom", "", 1}));
}

std::vector<DataCell> row_of(const Record& record, const MeterSession& s,
                             const MeterSessionResult& r) {
  const Unit watt_hour = *find_unit("Wh", Measure::energy);
  const Unit watt = *find_unit("W", Measure::power);
  constexpr Unit one{"", Measure::ratio, 1.0};
  std::vector<DataCell> cells{record.title, s.name, s.after ? "after" : "before",
                              s.lasting.si() / 60.0};
  add_number(cells, std::optional(r.energy), watt_hour);
  add_number(cells, std::optional(r.mean_power), watt);
  add_number(cells, r.normalised, watt);
  cells.emplace_back(s.beside ? s.beside->label : "");
  add_number(cells, r.energy_beside, watt_hour);
  add_number(cells, r.ratio, one);
  return cells;
}

}  // namespace

DataTable meter_sessions_table(const WriteUp& write_up) {
  DataTable table{
      "meter-sessions",
      "Sessions by meter, intervals at 95 %. They judge nothing",
      {{"record", ""}, {"session", ""}, for_machines({"stage", ""}), {"lasting", "min", 0}},
      {}};
  add_columns(table, "energy", "Wh", 1);
  add_columns(table, "mean power", "W", 1);
  add_columns(table, "normalised power", "W", 1);
  table.columns.push_back({"beside it", ""});
  const auto beside = static_cast<std::ptrdiff_t>(table.columns.size());
  add_columns(table, "energy beside", "Wh", 1);
  // A page has room for the ratio.
  std::transform(table.columns.begin() + beside, table.columns.end(),
                 table.columns.begin() + beside, for_machines);
  add_columns(table, "beside over this", "", 3);
  for (const Judged& judged : write_up.judged) {
    for (const MeterSessionResult& result : judged.assessment->energy) {
      const Record& record = judged.test->record;
      table.rows.push_back(row_of(record, record.energy.at(result.session), result));
    }
  }
  return table;
}

}  // namespace hailwright
