#include "report/report_tables.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/core/quantity_text.hpp"

namespace hailwright {

std::string weight_title(const std::string& stage) {
  return "weight, " + stage;
}

DataCell cell(const std::optional<double>& number) {
  return number ? DataCell(*number) : DataCell();
}

double typed_celsius(TemperaturePoint temperature) {
  constexpr int most_decimals = 6;
  const double celsius = temperature.celsius();
  for (int decimals = 0; decimals <= most_decimals; ++decimals) {
    const double scale = std::pow(10.0, decimals);
    const double typed = std::round(celsius * scale) / scale;
    if (TemperaturePoint::from_celsius(typed).kelvin() == temperature.kelvin()) return typed;
  }
  return celsius;
}

int decimals_of_step(double step) {
  return std::clamp(static_cast<int>(std::lround(-std::log10(step))), 0, 6);
}

std::vector<DataTable> report_tables(const WriteUp& write_up) {
  const ReportRows rows = report_rows(write_up);
  std::vector<DataTable> tables{setups_table(write_up, rows), readings_table(write_up, rows),
                                places_table(write_up),       shots_table(write_up),
                                budget_table(write_up),       logs_table(write_up),
                                sessions_table(write_up),     stresses_table(write_up),
                                shading_table(write_up),      meter_sessions_table(write_up),
                                curves_table(write_up),       comparison_table(write_up, rows)};
  std::erase_if(tables, [](const DataTable& table) { return table.rows.empty(); });
  return tables;
}

}  // namespace hailwright
