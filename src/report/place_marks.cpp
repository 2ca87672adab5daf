#include "report/place_marks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "hailwright/core/contract.hpp"
#include "report/text_layout.hpp"
#include "report/words.hpp"

namespace hailwright::detail {

namespace {

constexpr std::array<SeriesStyle, 4> styles{
    {{"none", -1.0}, {"9 5", 0.0}, {"2 4", 9.0}, {"12 4 2 4", 0.0, true}}};

constexpr int most_name = 36;  ///< characters of a series' name in a legend

}  // namespace

const SeriesStyle& style_of(std::size_t series) {
  return styles.at(series % styles.size());
}

void draw_place_disc(Svg& svg, Spot middle, double radius, std::size_t series,
                     std::string_view words) {
  svg.open("g");
  svg.words("title", {}, words);
  svg.leaf("circle", {{"cx", middle.x},
                      {"cy", middle.y},
                      {"r", radius},
                      {"fill", "#fff"},
                      {"fill-opacity", "0.75"},
                      {"stroke", "#000"},
                      {"stroke-width", 2.0},
                      {"stroke-dasharray", style_of(series).dash}});
  const double tick = std::min(5.0, radius / 3.0);
  svg.leaf("path", {{"d", fmt::format("M{0} {2}v{5}M{0} {3}v-{5}M{6} {1}h{5}M{7} {1}h-{5}",
                                      svg_number(middle.x), svg_number(middle.y),
                                      svg_number(middle.y - radius), svg_number(middle.y + radius),
                                      0, svg_number(tick), svg_number(middle.x - radius),
                                      svg_number(middle.x + radius))},
                    {"stroke", "#000"},
                    {"stroke-width", 1.0}});
  svg.close();
}

void draw_tag(Svg& svg, const LabelBox& box, std::string_view words, std::size_t series,
              double size) {
  const SeriesStyle& style = style_of(series);
  const bool framed = style.corner >= 0.0;
  svg.leaf("rect", {{"x", box.middle.x - box.width / 2.0},
                    {"y", box.middle.y - box.height / 2.0},
                    {"width", box.width},
                    {"height", box.height},
                    {"rx", std::max(0.0, style.corner)},
                    {"fill", style.inverted ? "#000" : "#fff"},
                    // What lies below a number without a frame shows through.
                    {"fill-opacity", framed ? "1" : "0.7"},
                    {"stroke", framed ? "#000" : "none"},
                    {"stroke-width", 1.0}});
  svg.words("text",
            {{"x", box.middle.x},
             {"y", box.middle.y + 0.35 * size},
             {"text-anchor", "middle"},
             {"font-size", size},
             {"font-weight", "bold"},
             {"fill", style.inverted ? "#fff" : "#000"}},
            words);
}

void draw_series_sample(Svg& svg, Spot at, std::size_t series) {
  const SeriesStyle& style = style_of(series);
  svg.leaf("circle", {{"cx", at.x},
                      {"cy", at.y},
                      {"r", 11.0},
                      {"fill", "#fff"},
                      {"stroke", "#000"},
                      {"stroke-width", 2.0},
                      {"stroke-dasharray", style.dash}});
  if (style.corner < 0.0) return;
  svg.leaf("rect", {{"x", at.x - 5.0},
                    {"y", at.y - 5.0},
                    {"width", 10.0},
                    {"height", 10.0},
                    {"rx", style.corner / 2.0},
                    {"fill", style.inverted ? "#000" : "#fff"},
                    {"stroke", "#000"},
                    {"stroke-width", 1.0}});
}

std::string number_ranges(std::vector<int> numbers) {
  std::sort(numbers.begin(), numbers.end());
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < numbers.size();) {
    std::size_t k = i;
    while (k + 1 < numbers.size() && numbers[k + 1] == numbers[k] + 1)
      ++k;
    if (k - i >= 2) {
      parts.push_back(fmt::format("{} to {}", numbers[i], numbers[k]));
    } else {
      for (std::size_t n = i; n <= k; ++n)
        parts.push_back(std::to_string(numbers[n]));
    }
    i = k + 1;
  }
  return enumerate(parts);
}

std::string throw_numbers(const std::vector<int>& numbers) {
  expects(!numbers.empty(), "one throw or more");
  return fmt::format("{} {}", numbers.size() == 1 ? "throw" : "throws", number_ranges(numbers));
}

std::string legend_name(const std::string& name) {
  std::string out;
  const std::string clean = one_line(name);
  for (std::size_t at = 0; at < clean.size();) {
    const std::size_t length = character_at(clean, at).length;
    const std::string next = out + clean.substr(at, length);
    if (display_width(next) > most_name) return out + "...";
    out = next;
    at += length;
  }
  return out;
}

}  // namespace hailwright::detail
