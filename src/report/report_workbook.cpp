#include "report/report_workbook.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "evaluate/panel_thermal.hpp"
#include "report/report_tables.hpp"
#include "report/sentences.hpp"

namespace hailwright {

namespace {

// Columns that the sheets have beyond their tables.
constexpr const char* coefficient = "temperature coefficient";
constexpr const char* cell_above_back = "cells above the sensor";
constexpr const char* weight_in_setup = "weight in the set-up";
constexpr const char* weight_in_power = "weight in the power before";
constexpr const char* q_as_judged = "q as judged";

void add_column(DataTable& table, DataColumn column, const std::vector<DataCell>& cells) {
  table.columns.push_back(std::move(column));
  for (std::size_t i = 0; i < table.rows.size(); ++i)
    table.rows[i].push_back(cells[i]);
}

/// Makes the sheets, their formulas with the values that the tables have.
class WorkbookWriter {
public:
  explicit WorkbookWriter(const WriteUp& write_up)
      : write_up_(write_up), rows_(report_rows(write_up)), readings_(live_readings()),
        setups_(setups_table(write_up, rows_)), comparison_(live_comparison()),
        verdict_(write_up, rows_, comparison_) {}

  Workbook write() {
    for (std::size_t i = 0; i < rows_.readings.size(); ++i)
      follow_reading(i);
    for (const char* title : {column::power, column::sun, column::temperature})
      readings_.to_change(title);
    for (std::size_t i = 0; i < rows_.setups.size(); ++i)
      follow_setup(i);
    for (std::size_t i = 0; i < rows_.comparisons.size(); ++i)
      follow_comparison(i);
    return take();
  }

private:
  TableSheet live_readings() {
    DataTable table = readings_table(write_up_, rows_);
    std::vector<DataCell> coefficients;
    std::vector<DataCell> above;
    std::vector<DataCell> in_setup(rows_.readings.size());
    std::vector<DataCell> in_power;
    std::vector<DataCell> judged;
    for (const ReadingRow& row : rows_.readings) {
      const Test& test = *write_up_.judged[row.record].test;
      const PanelThermal thermal = panel_thermal(test, test.record.readings[row.reading].role);
      coefficients.emplace_back(100.0 * thermal.gamma.si());
      above.emplace_back(thermal.cell_above_back.si());
      in_power.push_back(cell(row.weight_in_power));
      judged.push_back(cell(row.q));
    }
    for (const SetupRow& row : rows_.setups) {
      for (std::size_t i = 0; i < row.weights.size(); ++i)
        in_setup[row.first + i] = cell(row.weights[i]);
    }
    add_column(table, {coefficient, "%/K", 3}, coefficients);
    add_column(table, {cell_above_back, "K", 1}, above);
    add_column(table, {weight_in_setup, "", 5}, in_setup);
    add_column(table, {weight_in_power, "", 5}, in_power);
    add_column(table, {q_as_judged, "", 5}, judged);
    return TableSheet(table);
  }

  TableSheet live_comparison() {
    DataTable table = comparison_table(write_up_, rows_);
    std::vector<DataCell> kept;
    for (const StageRow& row : rows_.comparisons)
      kept.emplace_back(row.count > 0 ? readings_as_judged : "");
    add_column(table, {readings_kept, ""}, kept);
    return TableSheet(table);
  }

  /// P / (G / 1000) / (1 + gamma (Tc - 25)), as `power_factors` has it.
  void follow_reading(std::size_t i) {
    const ReadingRow& row = rows_.readings[i];
    const std::pair key(row.record, std::string(row.panel == "control" ? "control" : "panel"));
    readings_.make_live(coefficient, i, "=" + verdict_.cells().coefficient.at(key));
    readings_.make_live(cell_above_back, i, "=" + verdict_.cells().cell_above_back.at(key));
    const auto at = [&](const char* title) { return readings_.here(title, i); };
    readings_.make_live(column::normalised, i,
                        fmt::format("={}/({}/1000)/(1+{}/100*({}+{}*{}/1000-25))",
                                    at(column::power), at(column::sun), at(coefficient),
                                    at(column::temperature), at(cell_above_back), at(column::sun)));
    readings_.make_live(column::q, i, fmt::format("=LN({})", at(column::normalised)));
  }

  /// Sum of weight times q over a range of readings.
  [[nodiscard]] std::string weighed(const std::string& weights, std::size_t first,
                                    std::size_t count) const {
    return fmt::format("SUMPRODUCT({},{})", readings_.range(weights, first, count),
                       readings_.range(column::q, first, count));
  }

  void follow_setup(std::size_t i) {
    const SetupRow& row = rows_.setups[i];
    if (row.weights.empty()) return;
    setups_.make_live(column::mean_q, i, "=" + weighed(weight_in_setup, row.first, row.count));
    const std::string mean = setups_.here(column::mean_q, i);
    setups_.make_live(column::normalised, i, fmt::format("=EXP({})", mean));
    setups_.make_live(column::ratio, i, fmt::format("=100*EXP({})", mean));
  }

  void follow_comparison(std::size_t i) {
    const StageRow& row = rows_.comparisons[i];
    if (row.power != nullptr && row.power->estimated()) follow_loss(i, row);
    if (row.count > 0) follow_readings_kept(i, row);
    follow_price(i, row);
  }

  void follow_loss(std::size_t i, const StageRow& row) {
    const Test& test = *write_up_.judged[row.record].test;
    const auto at = [&](const char* title) { return comparison_.here(title, i); };
    const std::string lambda = at(column::lambda);
    comparison_.make_live(
        column::lambda, i,
        "=" + weighed(weight_title(stage_text(row.power->stage, test)), row.first, row.count));
    comparison_.make_live(column::loss, i, fmt::format("=100*(1-EXP({}))", lambda));
    comparison_.make_live(column::u_loss, i,
                          fmt::format("=100*EXP({})*{}", lambda, at(column::u_lambda)));
    comparison_.make_live(column::low, i,
                          fmt::format("=100*(1-EXP({}+{}))", lambda, at(column::expanded)));
    comparison_.make_live(column::high, i,
                          fmt::format("=100*(1-EXP({}-{}))", lambda, at(column::expanded)));
  }

  /// q follows whatever a reader changes; its sum of squared changes is zero but for rounding.
  void follow_readings_kept(std::size_t i, const StageRow& row) {
    comparison_.make_live(readings_kept, i,
                          fmt::format("=IF(SUMXMY2({},{})>1E-18,\"{}\",\"{}\")",
                                      readings_.range(column::q, row.first, row.count),
                                      readings_.range(q_as_judged, row.first, row.count),
                                      readings_changed, readings_as_judged));
  }

  void follow_price(std::size_t i, const StageRow& row) {
    const auto at = [&](const char* title) { return comparison_.here(title, i); };
    if (row.count > 0) {
      comparison_.make_live(
          column::power_before, i,
          fmt::format("=EXP({})", weighed(weight_in_power, row.first, row.count)));
    }
    const auto price = verdict_.cells().price.find(row.record);
    if (price == verdict_.cells().price.end()) return;
    comparison_.make_live(column::price, i, "=" + price->second);
    comparison_.make_live(column::per_watt, i,
                          fmt::format("={}/{}", at(column::price), at(column::power_before)));
    comparison_.make_live(column::u_per_watt, i,
                          fmt::format("={}*{}/100", at(column::per_watt), at(column::u_power)));
  }

  Workbook take() {
    Workbook book{title(), {}, created()};
    book.sheets.push_back(verdict_.take());
    if (!rows_.readings.empty()) book.sheets.push_back(readings_.take());
    if (!rows_.setups.empty()) book.sheets.push_back(setups_.take());
    for (const DataTable& table :
         {places_table(write_up_), shots_table(write_up_), budget_table(write_up_),
          logs_table(write_up_), sessions_table(write_up_)}) {
      if (!table.rows.empty()) book.sheets.push_back(TableSheet(table).take());
    }
    book.sheets.push_back(comparison_.take());
    return book;
  }

  [[nodiscard]] std::string title() const {
    std::string text = "Hail test";
    for (const Judged& judged : write_up_.judged)
      text += fmt::format("{} {}", &judged == write_up_.judged.data() ? ":" : ",",
                          judged.test->record.title);
    return text;
  }

  /// The latest day on which a write-up was issued, or a panel tested where no such day is stated.
  [[nodiscard]] std::string created() const {
    std::string latest;
    for (const Judged& judged : write_up_.judged) {
      const Record& record = judged.test->record;
      const std::string& day =
          record.write_up.issued.empty() ? record.date : record.write_up.issued;
      latest = std::max(latest, day);
    }
    return latest;
  }

  const WriteUp& write_up_;
  ReportRows rows_;
  TableSheet readings_, setups_, comparison_;
  VerdictSheet verdict_;
};

}  // namespace

Workbook report_workbook(const WriteUp& write_up) {
  return WorkbookWriter(write_up).write();
}

}  // namespace hailwright
