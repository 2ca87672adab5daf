#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "input/table.hpp"
#include "input/table_columns.hpp"

namespace hailwright::input {

/// Whose row it is.
struct Whose {
  bool another = false;  ///< of a panel that is not this record's
  Role role = Role::struck;
  std::size_t unit = 0;  ///< of a sibling, as in Reading
};

/// Sorts the rows of a table by its `panel` column; without one all rows are the struck panel's.
class PanelSorter {
public:
  PanelSorter(const Sheet& sheet, const TableLabels& labels)
      : sheet_(sheet), labels_(labels), has_column_(sheet.has("panel")),
        sibling_seen_(labels.siblings.size()) {}

  /// nullopt, with an error, when a row does not say.
  std::optional<Whose> sort(const CellRow& row, Diagnostics& notes);
  /// An error for a label of the record that stood in no row of a table that has rows.
  /// `unstruck_too`: the control and the siblings must be there as well.
  void check_labels(bool unstruck_too, Diagnostics& notes) const;

private:
  const Sheet& sheet_;
  const TableLabels& labels_;
  bool has_column_;
  bool struck_seen_ = false;
  bool control_seen_ = false;
  std::vector<bool> sibling_seen_;
  std::vector<std::string> seen_;  ///< labels of other panels
};

}  // namespace hailwright::input
