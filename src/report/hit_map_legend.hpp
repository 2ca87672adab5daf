#pragma once

#include <string>
#include <vector>

#include "report/chart_legend.hpp"
#include "report/hit_map_labels.hpp"

namespace hailwright::detail {

/// What the map shows and what it can only say: series with their throws, kinds of marks, misses,
/// broken balls, hits that are not drawn, findings, words that found no room.
std::vector<LegendEntry> hit_map_legend(const Judged& judged, const HitMapContent& content,
                                        const std::vector<MapLabel>& crowded);

/// For whoever cannot see the map.
std::string hit_map_description(const Judged& judged, const HitMapContent& content);

// Marks of the map, as in its legend.
void draw_hit(Chart& chart, Spot at, bool off_place);
void draw_finding(Chart& chart, Spot middle, const std::string& letter);
void draw_place_tag(Chart& chart, Spot middle, const std::string& words);

}  // namespace hailwright::detail
