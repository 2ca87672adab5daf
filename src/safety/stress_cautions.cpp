#include <algorithm>

#include "safety/caution_lists.hpp"

namespace hailwright {

std::vector<Caution> stress_cautions() {
  std::vector<Caution> cautions;
  for (const StressKind& kind : stress_kinds())
    for (const StressCaution& c : kind.cautions)
      cautions.push_back({.id = c.id,
                          .group = c.people ? CautionGroup::people : CautionGroup::panel,
                          .hazard = c.hazard,
                          .text = c.text,
                          .trigger = c.trigger,
                          .source = c.source,
                          .read_at = c.read_at,
                          .status = c.status,
                          .status_note = c.status_note});
  return cautions;
}

const StressKind* kind_of_caution(std::string_view id) {
  const auto kinds = stress_kinds();
  const auto found = std::find_if(kinds.begin(), kinds.end(), [&](const StressKind& kind) {
    return std::any_of(kind.cautions.begin(), kind.cautions.end(),
                       [&](const StressCaution& c) { return c.id == id; });
  });
  return found == kinds.end() ? nullptr : &*found;
}

}  // namespace hailwright
