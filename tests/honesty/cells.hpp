#pragma once

#include <string>
#include <vector>

#include "honesty/design.hpp"
#include "honesty/errors.hpp"

namespace hailwright::honesty {

/// Which promise a cell is held to.
enum class Part {
  promised,  ///< a cell of the grid of MEASUREMENT M17
  further,   ///< other paths through the judging, held to the same limits
  broken,    ///< the protocol does not tell the truth; a limit must break, else nothing is measured
  shown      ///< the same, with nothing asked of it
};

/// One way to test a panel, in one world.
struct Cell {
  Part part = Part::promised;
  std::string comparison;  ///< "same panel, one day a stage"
  Design design;
  std::string world;  ///< "day 0.4 %"
  Errors stated;      ///< what the protocol says
  Errors truth;       ///< what nature does
  Mischief mischief{};

  /// Unique among the cells: "same panel, one day a stage; K = 3; day 0.4 %".
  [[nodiscard]] std::string name() const;
};

/// All cells in the order of the tables.
std::vector<Cell> all_cells();

}  // namespace hailwright::honesty
