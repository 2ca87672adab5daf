#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "report/aim_map_labels.hpp"
#include "report/svg.hpp"

namespace hailwright::detail {

// How places and throws look on every picture of a panel.

/// How the series of a protocol differ: the line of their places and the frame around their
/// numbers. Four looks, then again from the first.
struct SeriesStyle {
  const char* dash = "";
  double corner = 0.0;  ///< radius of the frame's corners; below zero: no frame
  bool inverted = false;
};
const SeriesStyle& style_of(std::size_t series);

constexpr double number_size = 17.0;  ///< of the text of a number, in units of the picture [ours]
constexpr double digit_width = 10.0;  ///< of a bold digit of it

/// The disc of a place, with four ticks that point at its middle; `words` are its title.
void draw_place_disc(Svg& svg, Spot middle, double radius, std::size_t series,
                     std::string_view words);

/// A number or a few in the frame of its series.
void draw_tag(Svg& svg, const LabelBox& box, std::string_view words, std::size_t series,
              double size = number_size);

/// Disc and frame of a series, as small as a line of the legend.
void draw_series_sample(Svg& svg, Spot at, std::size_t series);

/// "1 to 5, 8, 10 and 11".
std::string number_ranges(std::vector<int> numbers);

/// "throw 4", "throws 1 to 3 and 7". Contract: one or more.
std::string throw_numbers(const std::vector<int>& numbers);

/// A series' name for a legend: its first 36 characters.
std::string legend_name(const std::string& name);

}  // namespace hailwright::detail
