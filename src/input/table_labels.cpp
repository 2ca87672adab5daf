#include "input/table_labels.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace hailwright::input {

std::optional<Whose> PanelSorter::sort(const CellRow& row, Diagnostics& notes) {
  if (!has_column_) return Whose{};
  const Cell* cell = sheet_.required_cell(row, "panel", notes);
  if (cell == nullptr) return std::nullopt;
  if (cell->text == labels_.struck) {
    struck_seen_ = true;
    return Whose{};
  }
  if (labels_.control_expected && cell->text == labels_.control) {
    control_seen_ = true;
    return Whose{false, Role::control};
  }
  for (std::size_t unit = 0; unit < labels_.siblings.size(); ++unit) {
    if (cell->text != labels_.siblings[unit].label) continue;
    sibling_seen_[unit] = true;
    return Whose{false, Role::sibling, unit};
  }
  constexpr std::size_t most_kept = 100;
  if (seen_.size() < most_kept &&
      std::find(seen_.begin(), seen_.end(), cell->text) == seen_.end()) {
    seen_.emplace_back(cell->text);
  }
  return Whose{true};
}

void PanelSorter::check_labels(bool unstruck_too, Diagnostics& notes) const {
  if (!has_column_ || sheet_.rows().empty()) return;
  const auto report = [&](const std::string& label, SourceSpan where, std::string_view mend) {
    if (where.file == 0) where = sheet_.header();
    std::vector<std::string> hints = word_hints(label, seen_);
    if (seen_.empty()) hints.clear();
    hints.emplace_back(mend);
    notes
        .error("T23", where, fmt::format("no row of the table is of panel {}", shown(label)),
               std::move(hints))
        .related.push_back({sheet_.header(), "the table is here"});
  };
  if (!struck_seen_) {
    report(labels_.struck, labels_.struck_origin,
           "label: in the record is the word in the table's panel column");
  }
  if (!unstruck_too) return;
  if (labels_.control_expected && !control_seen_) {
    report(labels_.control, labels_.control_origin,
           "control: {label: ...} in the record is the word in the table's panel column");
  }
  for (std::size_t unit = 0; unit < sibling_seen_.size(); ++unit) {
    if (sibling_seen_[unit]) continue;
    report(labels_.siblings[unit].label, labels_.siblings[unit].origin,
           "siblings: [{label: ...}] in the record has the words in the table's panel column");
  }
}

}  // namespace hailwright::input
