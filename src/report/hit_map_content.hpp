#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/model/place_layout.hpp"
#include "hailwright/report/compose.hpp"

namespace hailwright::detail {

/// A hit whose spot was measured.
struct SpotHit {
  int number = 0;  ///< of the throw
  std::size_t series = 0;
  Position at;
  /// On no place of its series. Its distance from the place aimed at, where that is known.
  bool off_place = false;
  std::optional<Length> off;
  std::optional<Position> aimed;  ///< middle of the place aimed at
};

/// Hits known only to lie in one place.
struct InPlace {
  std::size_t series = 0, place = 0;
  std::vector<int> numbers;  ///< of the throws
};

/// A new thing seen.
struct MapFinding {
  std::string letter;  ///< "A", ..., "Z", "AA", ...
  const NewFinding* found = nullptr;
  std::optional<Position> at;  ///< the place that its words name; nothing: none, or no position
};

/// What a picture of the hits shows of a judged test, and what it can only say.
struct HitMapContent {
  PlaceLayout layout;
  std::vector<SpotHit> spots;
  std::vector<InPlace> in_places;  ///< those with a position
  std::vector<MapFinding> findings;
  std::vector<int> missed, broken;
  /// Throws that hit the panel and are not drawn, with the reason: "in a place without a position".
  struct Undrawn {
    int number = 0;
    std::string why;
  };
  std::vector<Undrawn> undrawn;
};

/// Nothing where the panel has no size or its places cannot be laid out.
std::optional<HitMapContent> hit_map_content(const Judged& judged);

/// How many places of earlier series lie on the spot of this one of `series`.
std::size_t places_below(const PlaceLayout& layout, const PlacedTarget& place, std::size_t series);

/// The place that words such as "place 14, lower rim" name; nothing where they name none.
const PlacedTarget* place_named(const PlaceLayout& layout, std::string_view where);

}  // namespace hailwright::detail
