#pragma once

#include <string_view>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "input/map_reader.hpp"
#include "input/stated_text.hpp"

// What the keys of a record for what was measured beside the test have in common.

namespace hailwright::input {

// Ranges [ours]: those of the table of readings.
inline constexpr Range side_sun_range{0.0, 2000.0, "more than 0 W/m2, up to 2000 W/m2", true};
inline constexpr Range side_back_range{213.15, 423.15, "from -60 degC to 150 degC"};

/// The items of a list; an error where it is empty, and none where the key is not there.
const std::vector<Node>& side_items(const MapReader& record, std::string_view key,
                                    std::string_view example);

/// `when: before`, the shots that is, or `when: after`: whether after them. Left out: before.
bool read_when(const MapReader& map);

/// A maker's figure; nothing for `unknown` and where it is left out.
template <class Q>
std::optional<Stated<Q>> read_side_accuracy(const MapReader& map) {
  const Entry* entry = map.find("accuracy");
  if (entry == nullptr) return std::nullopt;
  return stated_as<Q>(
      read_accuracy(entry->value, "'accuracy'", {MeasureOf<Q>::value}, map.notes()));
}

}  // namespace hailwright::input
