#pragma once

#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/panel.hpp"
#include "input/document.hpp"

namespace hailwright::input {

/// Reads a document of the kind panel: what could be read of it.
Panel read_panel(const Document& document, Diagnostics& notes);

/// Every mapping of a panel file with its keys, for the format page.
const std::vector<KeyList>& panel_keys();

}  // namespace hailwright::input
