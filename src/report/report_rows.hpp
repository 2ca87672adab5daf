#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/report/write_up.hpp"

namespace hailwright {

// What the rows of the tables of a write-up stand for, so that the tables, the CSV files and the
// sheets have the same rows in the same order.

/// A reading of a judged record. Those of one set-up stand together, and of several panels with
/// values of their own those of one panel.
struct ReadingRow {
  std::size_t record = 0;                      ///< index into WriteUp::judged
  std::size_t reading = 0;                     ///< index into Record::readings
  std::string panel;                           ///< "panel", "control", "unit D"
  std::optional<double> q;                     ///< ln of the normalised power in W
  std::vector<std::optional<double>> weights;  ///< in lambda, by ReportRows::stages
  std::optional<double> weight_in_power;       ///< in the mean of q before the shots
};

/// The value of one set-up, or of one panel in it.
struct SetupRow {
  std::size_t record = 0;
  std::size_t setup = 0;            ///< index into Record::setups
  std::optional<SetupValue> value;  ///< nothing where it is compared with nothing
  std::string value_of;             ///< "panel", "panel to control", "unit D"
  /// What the loss is reckoned from, as `PowerView::from_q`; nothing without an estimated loss.
  std::optional<double> mean_before_q;
  std::size_t first = 0, count = 0;  ///< its readings in ReportRows::readings
  /// Of each of them in the value; empty where they are not known.
  std::vector<std::optional<double>> weights;
};

/// A stage compared with what it is compared with, or a record of which none was.
struct StageRow {
  std::size_t record = 0;
  const PowerResult* power = nullptr;
  std::size_t first = 0, count = 0;  ///< the record's readings in ReportRows::readings
};

struct ReportRows {
  std::vector<ReadingRow> readings;
  std::vector<SetupRow> setups;
  std::vector<StageRow> comparisons;
  std::vector<std::string> stages;  ///< "after small", "after": of all records
};
ReportRows report_rows(const WriteUp& write_up);

}  // namespace hailwright
