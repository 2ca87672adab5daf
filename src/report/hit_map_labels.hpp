#pragma once

#include <string>
#include <vector>

#include "report/hit_map_content.hpp"
#include "report/panel_picture.hpp"

namespace hailwright::detail {

constexpr double hit_map_width =
    760.0;  ///< 14 units are 11 px where it is shown 600 px wide [ours]
constexpr double hit_number_size = 15.0;  ///< of the text of a hit's number [ours]
constexpr double hit_dot = 5.0;           ///< radius of the mark of a hit [ours]
constexpr double place_tag_size = 14.0;   ///< of the text of a place's tag [ours]

/// Words on the map of hits, with what they belong to.
struct MapLabel {
  enum class Kind { hit, finding, place } kind = Kind::hit;
  std::string words;
  std::size_t series = 0;
  Labelled of;
  Label label{};
};

struct MapLabels {
  std::vector<MapLabel> placed;   ///< no two of them touch
  std::vector<MapLabel> crowded;  ///< for which there was no room on the panel
};

/// Finds room for the numbers of hits, then for letters of findings, then for tags of places.
MapLabels place_map_labels(const HitMapContent& content, const PanelPicture& panel);

/// "P7": a place, by its number on the aim map.
std::string place_tag(const PlacedTarget& place);

/// "12, 13 +9": the first few of many numbers; all of them where they are few: "3", "8 to 14".
std::string short_numbers(const std::vector<int>& numbers);

}  // namespace hailwright::detail
