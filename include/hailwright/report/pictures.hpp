#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/evaluate/power.hpp"
#include "hailwright/report/compose.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

// Pictures of a judged test. They are drawn in ink on white, told apart by shape, dash and words,
// never by colour alone, and say nothing that the tables beside them do not. `suffix` ends the id
// of each, "" for a single record, "-2" for the second of several; ids are unique in a document.
// Each gives nothing where there is nothing to draw.

/// The panel to scale with cells, frame, junction box and places; hits by number, those off the
/// place with their distance, misses and broken balls listed. Id "hit-map".
std::optional<Figure> hit_map(const Judged& judged, std::string_view suffix = "");

/// Energy of each throw at the panel with its 95 % bar, on a logarithmic axis, against the grades
/// of the scheme that the series aims at with their tolerance windows; one picture a scheme. Ids
/// "shot-energy", "shot-energy-b" for the second scheme.
std::vector<Figure> energy_pictures(const Judged& judged, std::string_view suffix = "");

/// Normalised power (or its ratio to the control or the siblings) by set-up, before and after:
/// readings, means of set-ups, means of the stages with their intervals. Id "power-by-set-up" with
/// the stage: "power-by-set-up-after".
std::optional<Figure> power_picture(const Judged& judged, const PowerResult& power,
                                    std::string_view suffix = "");

/// Intervals of the loss of all stages against zero and the limit, with the smallest loss that
/// each would have shown. Id "loss".
std::optional<Figure> loss_picture(const Judged& judged, std::string_view suffix = "");

/// The uncertainty budget of one stage, largest first. Id "budget-after".
std::optional<Figure> budget_picture(const Judged& judged, const PowerResult& power,
                                     std::string_view suffix = "");

/// Several records side by side: losses with limits, and delivered energies. Ids "losses" and
/// "energies". None for a single record.
std::vector<Figure> side_by_side_pictures(std::span<const Judged> judged);

}  // namespace hailwright
