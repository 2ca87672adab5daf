#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "hailwright/evaluate/power.hpp"
#include "hailwright/model/record.hpp"
#include "support/property.hpp"

namespace hailwright::testing {

/// What a drawn test is like.
struct DrawnKind {
  Comparison compare = Comparison::same_panel;
  /// One set-up a stage, whose scatter is stated; else three to five of each, whose scatter is
  /// observed, on one day or on two a stage.
  bool stated = false;
  /// No error has a part in watts, so that nothing hangs on how large the power is.
  bool proportional = false;
  /// Stated set-up components may have few degrees of freedom.
  bool few_degrees_of_freedom = false;
};

/// A comparison of one stage before and one after the shots, with drawn powers, loss, sun,
/// temperatures, scatter and a stated size of every error that there is.
Test drawn_test(Draw& draw, const DrawnKind& kind);

/// same-panel or control-panel, with observed or stated scatter.
DrawnKind drawn_kind(Draw& draw);

/// Readings and set-ups of a stage, by index.
std::vector<std::size_t> readings_of(const Test& test, StageKind stage);

/// Multiplies the power that one panel showed.
void multiply(Reading& reading, double factor);

/// An error that can be made larger.
struct Growing {
  std::string name;
  std::function<void(Test&, double)> grow;
};

/// Every stated error of a test by `drawn_test`. One that the comparison does not have, such as the
/// stability of a control without one, must not matter.
std::vector<Growing> stated_errors();

/// The power after the shots, by what decides alone; it must have been possible to judge it.
PowerResult judged_briefly(const Test& test);

}  // namespace hailwright::testing
