#pragma once

#include <optional>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/model/record.hpp"
#include "input/table_columns.hpp"

namespace hailwright::input {

/// Where one ball ended.
struct Landed {
  Landing kind = Landing::miss;
  std::optional<Position> where;
};

/// Reads "in", "miss", "broke", "8 x 12 mm" (right and up of the middle of the place aimed at) or
/// "at 312 x 480 mm" (right and up on the panel). A place outside the panel is an error where the
/// panel's size is known. `place` is the place aimed at, nullptr when it could not be read.
std::optional<Landed> read_landing(const Sheet& sheet, const Cell& cell, const Place* place,
                                   const Panel& panel, Diagnostics& notes);

}  // namespace hailwright::input
