#include "hailwright/model/place_kind.hpp"

#include <array>
#include <utility>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

constexpr std::array<std::pair<PlaceKind, std::string_view>, 7> words{{
    {PlaceKind::corner, "corner"},
    {PlaceKind::edge, "edge"},
    {PlaceKind::cell_edge, "cell edge"},
    {PlaceKind::near_mount, "near mount"},
    {PlaceKind::far_from_mounts, "far from mounts"},
    {PlaceKind::junction_box, "junction box"},
    {PlaceKind::cell_centre, "cell centre"},
}};

}  // namespace

std::string_view text(PlaceKind kind) {
  if (kind == PlaceKind::named) return "named";
  for (const auto& [known, word] : words) {
    if (known == kind) return word;
  }
  fail_contract("a kind of place");
}

std::optional<PlaceKind> find_place_kind(std::string_view word) {
  for (const auto& [kind, known] : words) {
    if (known == word) return kind;
  }
  return std::nullopt;
}

std::vector<std::string> place_kind_words() {
  std::vector<std::string> all;
  for (const auto& [kind, word] : words)
    all.emplace_back(word);
  return all;
}

std::optional<PlaceKind> kind_in_name(std::string_view name) {
  const std::size_t last = name.find_last_not_of("0123456789");
  if (last == std::string_view::npos) return std::nullopt;
  const bool numbered = last + 1 < name.size() && name[last] == ' ';
  return find_place_kind(numbered ? name.substr(0, last) : name);
}

}  // namespace hailwright
