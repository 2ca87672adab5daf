// Tables of a write-up: readings and set-ups.
#include <algorithm>
#include <cmath>

#include "evaluate/power_inputs.hpp"
#include "input/table_clock.hpp"
#include "report/judged_stages.hpp"
#include "report/report_tables.hpp"
#include "report/sentences.hpp"

namespace hailwright {

namespace {

/// Decimals that show all values of the records as they were typed.
struct TypedDecimals {
  int power = 0, sun = 0, temperature = 0;
};

TypedDecimals typed_decimals(const WriteUp& write_up) {
  TypedDecimals most;
  for (const Judged& judged : write_up.judged) {
    const Record& record = judged.test->record;
    std::vector<double> celsius;
    for (const Reading& r : record.readings) {
      if (r.measured) celsius.push_back(typed_celsius(r.temperature));
    }
    if (celsius.empty()) continue;
    most.power = std::max(most.power, decimals_of_step(typed_power_step(record).si()));
    most.sun = std::max(most.sun, decimals_of_step(typed_sun_step(record).si()));
    most.temperature = std::max(most.temperature, decimals_of_step(typed_step(celsius)));
  }
  return most;
}

/// Why it does not count, or what else there is to say.
std::string remark_of(const Test& test, const Assessment& assessment, std::size_t reading) {
  const std::string& skip = test.record.readings[reading].skip;
  if (!skip.empty()) return "left out: " + skip;
  for (const PowerResult* p : all_stages(assessment)) {
    if (std::find(p->outlying.begin(), p->outlying.end(), reading) != p->outlying.end())
      return "lies apart; counted";
  }
  return "";
}

std::vector<DataCell> reading_cells(const WriteUp& write_up, const ReadingRow& row) {
  const Judged& judged = write_up.judged[row.record];
  const Record& record = judged.test->record;
  const Reading& r = record.readings[row.reading];
  const Setup& setup = record.setups[r.setup];
  const auto measured = [&](double value) { return r.measured ? DataCell(value) : DataCell(); };
  std::vector<DataCell> cells{record.title,
                              setup.name,
                              stage_text(setup.stage, *judged.test),
                              setup.date,
                              row.panel,
                              r.minute ? input::time_text(*r.minute) : "",
                              r.round ? DataCell(static_cast<double>(*r.round)) : DataCell(),
                              measured(r.power.si()),
                              measured(r.irradiance.si()),
                              measured(typed_celsius(r.temperature)),
                              row.q ? DataCell(std::exp(*row.q)) : DataCell(),
                              cell(row.q)};
  for (const auto& weight : row.weights)
    cells.push_back(cell(weight));
  cells.emplace_back(remark_of(*judged.test, *judged.assessment, row.reading));
  return cells;
}

bool is_ratio(const WriteUp& write_up, const SetupRow& row) {
  return write_up.judged[row.record].test->protocol.measure.compare == Comparison::control_panel;
}

std::vector<DataCell> setup_cells(const WriteUp& write_up, const SetupRow& row) {
  const Test& test = *write_up.judged[row.record].test;
  const Setup& setup = test.record.setups[row.setup];
  std::vector<DataCell> cells{test.record.title, setup.name, stage_text(setup.stage, test),
                              setup.date, row.value_of};
  if (!row.value) {
    cells.resize(cells.size() + 7);
    return cells;
  }
  const SetupValue& value = *row.value;
  const double power_or_ratio = std::exp(value.q);
  const bool ratio = is_ratio(write_up, row);
  const auto hundredfold = [](const std::optional<double>& share) {
    return share ? DataCell(100.0 * *share) : DataCell();
  };
  cells.insert(
      cells.end(),
      {static_cast<double>(value.readings), value.q, ratio ? DataCell() : DataCell(power_or_ratio),
       ratio ? DataCell(100.0 * power_or_ratio) : DataCell(),
       row.mean_before_q ? DataCell(100.0 * std::exp(value.q - *row.mean_before_q)) : DataCell(),
       hundredfold(value.reading_sd), hundredfold(value.drift_per_hour)});
  return cells;
}

}  // namespace

DataTable readings_table(const WriteUp& write_up, const ReportRows& rows) {
  const TypedDecimals typed = typed_decimals(write_up);
  DataTable table{"readings",
                  "Every reading; the normalised power is what it comes to at 1000 W/m2 and 25 "
                  "degC",
                  {{"record", ""},
                   {"set-up", ""},
                   for_machines({"stage", ""}),
                   for_machines({"date", ""}),
                   {"of", ""},
                   {"time", ""},
                   for_machines({"round", "", 0}),
                   {column::power, "W", typed.power},
                   {column::sun, "W/m2", typed.sun},
                   {column::temperature, "degC", typed.temperature},
                   {column::normalised, "W", std::max(2, typed.power)},
                   for_machines({column::q, "", 5})},
                  {}};
  for (const std::string& stage : rows.stages)
    table.columns.push_back(for_machines({weight_title(stage), "", 5}));
  table.columns.push_back({"remark", ""});
  for (const ReadingRow& row : rows.readings)
    table.rows.push_back(reading_cells(write_up, row));
  return table;
}

DataTable setups_table(const WriteUp& write_up, const ReportRows& rows) {
  const bool compared = std::any_of(rows.setups.begin(), rows.setups.end(),
                                    [](const SetupRow& row) { return row.value.has_value(); });
  DataTable table{
      "set-ups",
      !compared ? "Set-ups by name and date. Their readings were compared with nothing, "
                  "so there are no means of them"
                : "Set-ups: the mean of each over its readings, at 1000 W/m2 and 25 degC or as the "
                  "ratio of panel to control, the same against the mean that the loss is reckoned "
                  "from, the scatter of its readings, and the drift that was taken out",
      {{"record", ""},
       {"set-up", ""},
       {"stage", ""},
       {"date", ""},
       {"of", ""},
       {"readings", "", 0},
       for_machines({column::mean_q, "", 5}),
       {column::normalised, "W", std::max(2, typed_decimals(write_up).power)},
       {column::ratio, "%", 2},
       {"of the mean before", "%", 2},
       {"scatter of readings", "%", 2},
       {"drift", "%/h", 2}},
      {}};
  for (const SetupRow& row : rows.setups)
    table.rows.push_back(setup_cells(write_up, row));
  return table;
}

}  // namespace hailwright
