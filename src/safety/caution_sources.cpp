#include <algorithm>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/safety/cautions.hpp"
#include "safety/caution_lists.hpp"

namespace hailwright {
namespace {

/// In each group those of every test first.
std::vector<Caution> collect_cautions() {
  const auto usual = usual_cautions();
  std::vector<Caution> cautions(usual.begin(), usual.end());
  const auto add = [&](const Caution& more) {
    const auto after = std::find_if(cautions.begin(), cautions.end(),
                                    [&](const Caution& c) { return c.group > more.group; });
    cautions.insert(after, more);
  };
  for (const Caution& of_shade : shade_cautions())
    add(of_shade);
  for (const Caution& of_stress : stress_cautions())
    add(of_stress);
  return cautions;
}

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

std::span<const Caution> all_cautions() {
  static const std::vector<Caution> cautions = collect_cautions();
  return cautions;
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
