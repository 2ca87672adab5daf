#pragma once

#include <string>
#include <vector>

#include "hailwright/model/record.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

inline constexpr KeyList sibling_keys{"this sibling", "label"};

/// Reads `siblings:` of a record, the unstruck units of the struck panel's model. A sibling whose
/// label cannot be read is left out.
std::vector<Sibling> read_siblings(const MapReader& record, Diagnostics& notes);

/// A panel's label with its place.
struct PanelLabel {
  std::string text;
  SourceSpan origin;
};

/// An error, and false, for each label that an earlier panel has: the tables could not tell them
/// apart. An empty label could not be read, and says nothing.
bool check_labels_differ(const std::vector<PanelLabel>& labels, Diagnostics& notes);

}  // namespace hailwright::input
