#include "report/place_words.hpp"

namespace hailwright {

std::string what_it_is(const PlacedTarget& place) {
  if (!place.at) return "no position: " + place.why_not;
  return place.repeats_earlier ? place.what + "; an earlier series aims here too" : place.what;
}

std::vector<std::string> what_places_are(const Test& test, std::size_t series) {
  std::vector<std::string> words(test.protocol.series.at(series).places.size());
  const Checked<PlaceLayout> layout =
      layout_places(test.protocol, test.record.panel, usual_place_radius);
  if (!layout.value) return words;
  const std::vector<PlacedTarget>& targets = layout.value->series.at(series);
  for (std::size_t i = 0; i < words.size(); ++i)
    words[i] = what_it_is(targets.at(i));
  return words;
}

}  // namespace hailwright
