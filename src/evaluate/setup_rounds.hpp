#pragma once

#include <compare>
#include <string>
#include <vector>

#include "hailwright/evaluate/power_model.hpp"

namespace hailwright {

/// One panel of a record.
struct PanelOf {
  Role role = Role::struck;
  std::size_t unit = 0;  ///< of a sibling: index into Record::siblings
  friend auto operator<=>(const PanelOf&, const PanelOf&) = default;
};

PanelOf panel_of(const Reading& reading);

/// A name for ids of inputs that belong to one panel: "struck", "control", or a sibling's label.
std::string panel_name(const Record& record, PanelOf panel);

/// Readings that belong together: one of each panel of a list, in its order.
using Round = std::vector<const Reading*>;

/// The panels with a reading that counts in this set-up: struck, control, then the siblings.
std::vector<PanelOf> panels_read(const Test& test, const PowerQuestion& question,
                                 std::size_t setup);

/// The rounds of a set-up in which each of these panels has a reading that counts. A round is what
/// the table calls one; without that column the k-th reading of one panel belongs to the k-th of
/// the others, those that do not count included, so that a cloud does not shift the partners.
std::vector<Round> complete_rounds(const Test& test, const PowerQuestion& question,
                                   std::size_t setup, const std::vector<PanelOf>& panels);

}  // namespace hailwright
