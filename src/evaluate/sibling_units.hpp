#pragma once

#include <set>
#include <string>
#include <vector>

#include "evaluate/setup_units.hpp"

namespace hailwright {

/// One panel of a comparison with siblings.
struct PanelSetups {
  PanelOf panel;
  std::vector<SetupValue> setups;  ///< its own means of q
  std::set<std::string> dates;

  [[nodiscard]] std::vector<double> values() const;
  [[nodiscard]] double mean() const;
};

/// The struck panel and its siblings in one stage.
struct SiblingBlocks {
  /// Set-ups with the panels that were read together in it; all values added are lambda: the struck
  /// panel's mean over its set-ups less the mean of the siblings' means over theirs.
  std::vector<UnitSetup> setups;
  std::vector<PanelSetups> struck;    ///< one, or none when it was not read
  std::vector<PanelSetups> unstruck;  ///< those that were read
};

/// The panels of a set-up are read together when rounds hold them all; when none does, each stands
/// alone in it.
SiblingBlocks collect_sibling_blocks(const Test& test, const PowerQuestion& question);

/// Units measured, with the standard deviation of their means.
SiblingSpread spread_of(const SiblingBlocks& blocks);

/// Whether no date is shared by two panels: then how units differ holds how their days do.
bool days_differ(const SiblingBlocks& blocks);

/// Dates on which the struck panel and the siblings do not balance.
std::vector<std::string> uneven_dates(const SiblingBlocks& blocks);

/// Type A rows of the scatter of set-ups that were repeated with the same panels: the set-ups of
/// one list of panels make one row. Empty when a list of panels was set up only once.
std::vector<BudgetRow> repeated_setups(const SiblingBlocks& blocks);

/// Where the struck panel was set up less often than its siblings, how units differ holds too
/// little of the scatter of its set-ups: the rest, by what the set-ups of one panel differ. Nothing
/// where it was set up as often or more often.
std::optional<BudgetRow> fewer_struck_setups(const SiblingBlocks& blocks);

}  // namespace hailwright
