#pragma once

#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/specimens.hpp"
#include "input/document.hpp"
#include "input/stated_text.hpp"
#include "input/table_columns.hpp"

namespace hailwright::input {

inline constexpr KeyList specimens_keys{
    "the specimens", "hailwright title damage protocol staircase energy mass speed tests"};
inline constexpr KeyList staircase_keys{"staircase", "start step"};
/// Of `energy`, `mass` and `speed`.
inline constexpr KeyList specimen_error_keys{"error", stated_keys};

/// What an energy may be [ours]: any ball that a home launcher throws, and no slip in the unit.
inline constexpr Energy least_specimen_energy = Energy::from_si(0.001);
inline constexpr Energy most_specimen_energy = Energy::from_si(1000.0);

/// The columns of the table of tests.
std::vector<ColumnRule> specimen_columns();

/// Reads a document of the kind specimens with its table: what could be read. `path` is its own,
/// from whose folder the table is taken.
Specimens read_specimens(const Document& document, const std::string& path, const Loader& load,
                         SourceSet& sources, Diagnostics& notes);

/// Every mapping of the file with its keys, for the format page.
const std::vector<KeyList>& specimens_key_lists();

}  // namespace hailwright::input
