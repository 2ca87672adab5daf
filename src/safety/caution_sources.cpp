#include <algorithm>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/safety/cautions.hpp"

namespace hailwright {
namespace {

std::vector<Citation> collect_sources() {
  std::vector<Citation> sources;
  for (const Caution& caution : all_cautions())
    sources.push_back({.id = caution.id,
                       .title = caution.source,
                       .read_at = caution.read_at,
                       .status = caution.status,
                       .note = caution.status_note});
  return sources;
}

}  // namespace

std::string_view text(CautionGroup group) {
  switch (group) {
  case CautionGroup::people:
    return "People";
  case CautionGroup::eyes:
    return "Eyes";
  case CautionGroup::launcher:
    return "Launcher";
  case CautionGroup::panel:
    return "Panel";
  case CautionGroup::ice:
    return "Ice";
  case CautionGroup::afterwards:
    return "Afterwards";
  }
  fail_contract("unknown caution group");
}

const Caution& caution(std::string_view id) {
  const auto all = all_cautions();
  const auto found =
      std::find_if(all.begin(), all.end(), [id](const Caution& c) { return c.id == id; });
  expects(found != all.end(), "no caution has this id");
  return *found;
}

std::span<const Citation> caution_sources() {
  static const std::vector<Citation> sources = collect_sources();
  return sources;
}

}  // namespace hailwright
