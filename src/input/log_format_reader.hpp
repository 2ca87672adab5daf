#pragma once

#include <vector>

#include "hailwright/logs/log_format.hpp"
#include "input/document.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

/// The keys that say how a logger's file is written, in a file of their own and beside `log`.
inline constexpr KeyList column_map_keys{"the column map",
                                         "hailwright columns separator decimal dates zone"};
inline constexpr KeyList columns_keys{
    "columns", "time date clock power voltage current irradiance temperature energy power_beside "
               "temperature_beside marker"};
inline constexpr KeyList column_keys{"this column", "name unit"};

/// Reads `columns`, `separator`, `decimal`, `dates` and `zone` of a mapping that has these keys
/// among others. `origin` of what comes back is the mapping's owner.
LogFormat read_log_format(const MapReader& map, Diagnostics& notes);

/// Reads a document of the kind columns.
LogFormat read_column_map(const Document& document, Diagnostics& notes);

/// Every mapping of a column map with its keys, for the format page.
const std::vector<KeyList>& column_map_key_lists();

}  // namespace hailwright::input
