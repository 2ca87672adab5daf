#include "hailwright/report/aim_map.hpp"

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/place_words.hpp"

namespace hailwright {

namespace {

/// To a tenth of a millimetre, finer than a tape shows; no ".0".
std::string in_mm(Length length) {
  std::string text = fixed(length.si() * 1000.0, 1);
  if (text.ends_with(".0")) text.resize(text.size() - 2);
  return text;
}

}  // namespace

Table places_table(const PlaceLayout& layout, const std::vector<std::string>& series_names) {
  expects(series_names.size() == layout.series.size(), "a name for every series");
  Table table;
  table.caption =
      "Middles of the places, from the left and the lower edge of the panel, its long side lying; "
      "cells count from the left, rows from below";
  table.columns = {{"number", Align::right},   {"place", Align::left},
                   {"series", Align::left},    {"right, mm", Align::right},
                   {"up, mm", Align::right},   {"radius, mm", Align::right},
                   {"what it is", Align::left}};
  for (std::size_t s = 0; s < layout.series.size(); ++s) {
    for (const PlacedTarget& place : layout.series[s]) {
      table.rows.push_back({std::to_string(place.number), place.name, series_names[s],
                            place.at ? in_mm(place.at->right) : "-",
                            place.at ? in_mm(place.at->up) : "-", in_mm(place.radius),
                            what_it_is(place)});
    }
  }
  return table;
}

}  // namespace hailwright
