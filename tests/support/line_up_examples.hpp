#pragma once

#include <string>
#include <vector>

#include "hailwright/evaluate/line_up.hpp"
#include "hailwright/report/line_up.hpp"

namespace hailwright::testing {

/// Entries with their line-up, made by hand. All values invented; of normal errors without anything
/// shared, so that every difference can be checked with a table of the normal distribution.
struct LineUpExample {
  std::vector<LineUpEntry> entries;
  LineUp line_up;

  /// Refers to this example.
  [[nodiscard]] LineUpView view(std::vector<std::string> columns = usual_line_up_columns()) const;
};

/// A panel with everything known: struck at IEC 25 mm and 35 mm, compared with a control.
/// @param loss  as a share; its standard uncertainty in lambda is `u`
LineUpEntry line_up_panel(const std::string& name, double loss, double u);

/// Five panels: A and B, B and C cannot be told apart, A and C can; D and E differ from all.
LineUpExample five_panels();

/// The five and three that are not ranked: another series, no comparison, one that is not valid.
LineUpExample eight_panels();

/// So many panels of ever larger loss: neighbours cannot be told apart.
LineUpExample many_panels(std::size_t count);

/// One panel, alone.
LineUpExample single_panel();

}  // namespace hailwright::testing
