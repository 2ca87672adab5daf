#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "hailwright/report/data_table.hpp"
#include "report/line_up_columns.hpp"

// How the columns of a line-up's table are made.

namespace hailwright::detail {

inline constexpr const char* not_stated = "not stated";
inline constexpr const char* not_measured = "not measured";

/// For whom a table is made.
enum class LineUpReader { people, machines };

/// A column with its cells, and what people read where there is none.
struct ColumnPart {
  DataColumn column;
  const char* missing;
  std::vector<DataCell> cells;
};

/// The table as it is made.
class LineUpMaking {
public:
  LineUpMaking(const std::vector<LineUpRow>& for_rows, LineUpReader for_reader)
      : rows(for_rows), reader(for_reader) {}

  template <class CellOf>
  void add(DataColumn column, const char* missing, CellOf cell_of) {
    ColumnPart& part = parts.emplace_back(ColumnPart{std::move(column), missing, {}});
    for (const LineUpRow& row : rows)
      part.cells.push_back(cell_of(row));
  }
  /// Of an entry alone.
  template <class CellOf>
  void of_entry(DataColumn column, const char* missing, CellOf cell_of) {
    add(std::move(column), missing, [&](const LineUpRow& row) { return cell_of(*row.entry); });
  }
  void words(const char* title, const char* missing, std::string LineUpEntry::*text) {
    of_entry({title, ""}, missing, [text](const LineUpEntry& e) { return text_cell(e.*text); });
  }
  /// A typed amount: as many decimals as it takes, three at most.
  template <class Q>
  void amount(const char* title, const char* unit, std::optional<Q> LineUpEntry::*quantity) {
    int decimals = 0;
    for (const LineUpRow& row : rows) {
      const std::optional<Q>& q = row.entry->*quantity;
      if (q) decimals = std::max(decimals, decimals_of_typed(q->si()));
    }
    of_entry({title, unit, decimals}, not_stated, [quantity](const LineUpEntry& e) {
      const std::optional<Q>& q = e.*quantity;
      return q ? DataCell(q->si()) : DataCell();
    });
  }

  static DataCell text_cell(const std::string& text) {
    return text.empty() ? DataCell() : DataCell(text);
  }

  const std::vector<LineUpRow>& rows;
  LineUpReader reader;
  std::vector<ColumnPart> parts;

private:
  static int decimals_of_typed(double value) {
    constexpr int most = 3;
    for (int decimals = 0; decimals < most; ++decimals) {
      const double scaled = value * std::pow(10.0, decimals);
      if (std::abs(scaled - std::round(scaled)) < 1e-6 * std::max(1.0, std::abs(scaled)))
        return decimals;
    }
    return most;
  }
};

// What was measured, and prices.
void add_loss(LineUpMaking& making);
void add_smallest_shown(LineUpMaking& making);
void add_power(LineUpMaking& making);
void add_share_of_rated(LineUpMaking& making);
void add_power_per_area(LineUpMaking& making);
void add_power_per_mass(LineUpMaking& making);
void add_shading_loss(LineUpMaking& making);
void add_price(LineUpMaking& making);
void add_price_range(LineUpMaking& making);
void add_price_per_watt(LineUpMaking& making);
void add_price_per_watt_range(LineUpMaking& making);

}  // namespace hailwright::detail
