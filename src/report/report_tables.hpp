#pragma once

#include <optional>
#include <string>

#include "hailwright/report/data_table.hpp"
#include "report/report_rows.hpp"

namespace hailwright {

// Titles of columns that the live formulas of the spreadsheet use, too.
namespace column {
inline constexpr const char* power = "power";
inline constexpr const char* sun = "irradiance";
inline constexpr const char* temperature = "temperature";
inline constexpr const char* normalised = "normalised power";
inline constexpr const char* q = "q";
inline constexpr const char* mean_q = "mean of q";
inline constexpr const char* ratio = "panel to control";
inline constexpr const char* lambda = "lambda";
inline constexpr const char* u_lambda = "u of lambda";
inline constexpr const char* expanded = "U of lambda";
inline constexpr const char* loss = "loss";
inline constexpr const char* u_loss = "u of the loss";
inline constexpr const char* low = "loss, low";
inline constexpr const char* high = "loss, high";
inline constexpr const char* price = "price";
inline constexpr const char* power_before = "measured power before";
inline constexpr const char* u_power = "u of the measured power";
inline constexpr const char* per_watt = "price per measured watt";
inline constexpr const char* u_per_watt = "u of the price per watt";
}  // namespace column

/// Title of the column that holds the weights in lambda of a stage.
std::string weight_title(const std::string& stage);

// Each has a row for each row of `rows` that it is made from; places, shots and budget for each
// place, throw and input.
DataTable readings_table(const WriteUp& write_up, const ReportRows& rows);
DataTable setups_table(const WriteUp& write_up, const ReportRows& rows);
DataTable places_table(const WriteUp& write_up);
DataTable shots_table(const WriteUp& write_up);
DataTable budget_table(const WriteUp& write_up);
/// A row for each set-up that stands in a log.
DataTable logs_table(const WriteUp& write_up);
/// A row for each session, or for each log of sessions that was not cut.
DataTable sessions_table(const WriteUp& write_up);
/// A row for each stress that was done, for each quantity of it.
DataTable stresses_table(const WriteUp& write_up);
/// A row for each round of a shade.
DataTable shading_table(const WriteUp& write_up);
/// A row for each session read off a meter.
DataTable meter_sessions_table(const WriteUp& write_up);
/// A row for each reading of the curve's figures.
DataTable curves_table(const WriteUp& write_up);
DataTable comparison_table(const WriteUp& write_up, const ReportRows& rows);

/// A number or nothing.
DataCell cell(const std::optional<double>& number);

/// A temperature as it was typed in degC, without what the conversion to kelvin and back adds.
double typed_celsius(TemperaturePoint temperature);

/// Decimals of a display's step: 1 for 0.1.
int decimals_of_step(double step);

}  // namespace hailwright
