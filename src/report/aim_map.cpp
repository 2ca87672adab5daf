#include "hailwright/report/aim_map.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "report/aim_map_labels.hpp"
#include "report/panel_picture.hpp"
#include "report/svg.hpp"
#include "report/text_layout.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using detail::Label;
using detail::LabelBox;
using detail::Labelled;
using detail::Spot;
using detail::Svg;
using detail::svg_number;

using detail::line_height;
using detail::PanelPicture;
using detail::picture_left;
using detail::picture_mm;
using detail::picture_width;

// Sizes in units of the picture [ours].
constexpr double number_size = 17.0;  ///< of the text of a number
constexpr double digit_width = 10.0;  ///< of a bold digit of it
constexpr int most_name = 36;         ///< characters of a series' name in the legend

/// How the series differ: the line of the disc and the frame around the number.
struct SeriesStyle {
  const char* dash;
  double corner;  ///< radius of the frame's corners; below zero: no frame
  bool inverted = false;
};
constexpr std::array<SeriesStyle, 4> styles{
    {{"none", -1.0}, {"9 5", 0.0}, {"2 4", 9.0}, {"12 4 2 4", 0.0, true}}};

const SeriesStyle& style_of(std::size_t series) {
  return styles.at(series % styles.size());
}

/// "1 to 5, 8, 10 and 11".
std::string ranges(std::vector<int> numbers) {
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

std::string shortened(const std::string& name) {
  std::string out;
  const std::string clean = detail::one_line(name);
  for (std::size_t at = 0; at < clean.size();) {
    const std::size_t length = detail::character_at(clean, at).length;
    const std::string next = out + clean.substr(at, length);
    if (detail::display_width(next) > most_name) return out + "...";
    out = next;
    at += length;
  }
  return out;
}

std::vector<int> numbers_of(const std::vector<PlacedTarget>& places, bool with_position) {
  std::vector<int> numbers;
  for (const PlacedTarget& place : places) {
    if (place.at.has_value() == with_position) numbers.push_back(place.number);
  }
  return numbers;
}

class AimMap {
public:
  AimMap(const Panel& panel, const PlaceLayout& layout, const std::vector<std::string>& names)
      : layout_(layout), names_(names), panel_(panel, svg_) {
    collect_marks();
  }

  std::string draw(const Figure& figure) {
    const std::size_t lines = layout_.series.size() + panel_.legend_lines();
    const double height = panel_.legend_top() + static_cast<double>(lines) * line_height + 8.0;
    svg_.open("svg",
              {{"xmlns", "http://www.w3.org/2000/svg"},
               {"viewBox", fmt::format("0 0 {} {}", svg_number(picture_width), svg_number(height))},
               {"role", "img"},
               {"aria-labelledby", fmt::format("{0}-title {0}-desc", figure.id)},
               {"font-family", "sans-serif"},
               {"font-size", detail::text_size},
               {"fill", "#000"},
               {"stroke", "none"}});
    svg_.words("title", {{"id", figure.id + "-title"}}, figure.title);
    svg_.words("desc", {{"id", figure.id + "-desc"}}, figure.description);
    svg_.leaf("rect", {{"width", picture_width}, {"height", height}, {"fill", "#fff"}});
    panel_.draw_back();
    draw_places();
    draw_legend(panel_.legend_top());
    svg_.close();
    return svg_.str();
  }

private:
  /// A place that is drawn, with its series.
  struct Mark {
    const PlacedTarget* place;
    std::size_t series;
  };

  void collect_marks() {
    for (std::size_t s = 0; s < layout_.series.size(); ++s) {
      for (const PlacedTarget& place : layout_.series[s]) {
        if (place.at) marks_.push_back({&place, s});
      }
    }
  }

  void draw_places() {
    std::vector<Labelled> wanted;
    for (const Mark& mark : marks_) {
      const PlacedTarget& place = *mark.place;
      const Spot middle = panel_.spot(*place.at);
      const double radius = panel_.units(place.radius);
      draw_disc(middle, radius, mark.series,
                fmt::format("{}: {} x {} mm, {}", place.number, picture_mm(place.at->right),
                            picture_mm(place.at->up), place.what));
      const auto digits = static_cast<double>(std::to_string(place.number).size());
      const bool framed = style_of(mark.series).corner >= 0.0;
      wanted.push_back(
          {middle, radius, digits * digit_width + (framed ? 8.0 : 2.0), framed ? 21.0 : 16.0});
    }
    panel_.draw_front();
    const std::vector<Label> labels =
        detail::place_labels(wanted, panel_.mount_boxes(), panel_.area());
    for (std::size_t i = 0; i < marks_.size(); ++i)
      draw_number(labels[i], wanted[i], marks_[i].place->number, marks_[i].series);
  }

  /// The disc of a place, with four ticks that point at its middle.
  void draw_disc(Spot middle, double radius, std::size_t series, std::string_view words) {
    svg_.open("g");
    svg_.words("title", {}, words);
    svg_.leaf("circle", {{"cx", middle.x},
                         {"cy", middle.y},
                         {"r", radius},
                         {"fill", "#fff"},
                         {"fill-opacity", "0.75"},
                         {"stroke", "#000"},
                         {"stroke-width", 2.0},
                         {"stroke-dasharray", style_of(series).dash}});
    const double tick = std::min(5.0, radius / 3.0);
    svg_.leaf("path",
              {{"d", fmt::format("M{0} {2}v{5}M{0} {3}v-{5}M{6} {1}h{5}M{7} {1}h-{5}",
                                 svg_number(middle.x), svg_number(middle.y),
                                 svg_number(middle.y - radius), svg_number(middle.y + radius), 0,
                                 svg_number(tick), svg_number(middle.x - radius),
                                 svg_number(middle.x + radius))},
               {"stroke", "#000"},
               {"stroke-width", 1.0}});
    svg_.close();
  }

  /// A number outside its disc gets a line from the rim.
  void draw_number(const Label& label, const Labelled& disc, int number, std::size_t series) {
    const LabelBox& box = label.box;
    const SeriesStyle& style = style_of(series);
    if (!label.inside) {
      const double dx = box.middle.x - disc.middle.x;
      const double dy = box.middle.y - disc.middle.y;
      const double share = disc.radius / std::max(disc.radius, std::hypot(dx, dy));
      panel_.line({disc.middle.x + share * dx, disc.middle.y + share * dy}, box.middle);
    }
    svg_.leaf("rect", {{"x", box.middle.x - box.width / 2.0},
                       {"y", box.middle.y - box.height / 2.0},
                       {"width", box.width},
                       {"height", box.height},
                       {"rx", std::max(0.0, style.corner)},
                       {"fill", style.inverted ? "#000" : "#fff"},
                       {"stroke", style.corner >= 0.0 ? "#000" : "none"},
                       {"stroke-width", 1.0}});
    svg_.words("text",
               {{"x", box.middle.x},
                {"y", box.middle.y + 6.0},
                {"text-anchor", "middle"},
                {"font-size", number_size},
                {"font-weight", "bold"},
                {"fill", style.inverted ? "#fff" : "#000"}},
               std::to_string(number));
  }

  [[nodiscard]] std::string series_words(std::size_t series) const {
    const std::vector<PlacedTarget>& places = layout_.series[series];
    const std::vector<int> drawn = numbers_of(places, true);
    const std::vector<int> missing = numbers_of(places, false);
    std::string words = shortened(names_[series]) + ": ";
    if (!drawn.empty()) {
      words += fmt::format("{} {}, each reaching {} mm around its middle",
                           drawn.size() == 1 ? "place" : "places", ranges(drawn),
                           picture_mm(places.front().radius));
    }
    if (!missing.empty()) {
      words += fmt::format("{}not drawn, without a position: {}", drawn.empty() ? "" : "; ",
                           ranges(missing));
    }
    return words;
  }

  void draw_legend(double y) {
    constexpr double sample_x = picture_left + 12.0;
    constexpr double words_x = picture_left + 36.0;
    for (std::size_t s = 0; s < layout_.series.size(); ++s) {
      draw_sample({sample_x, y}, s);
      panel_.write(words_x, y + 5.0, series_words(s));
      y += line_height;
    }
    panel_.draw_legend(y);
  }

  void draw_sample(Spot at, std::size_t series) {
    const SeriesStyle& style = style_of(series);
    svg_.leaf("circle", {{"cx", at.x},
                         {"cy", at.y},
                         {"r", 11.0},
                         {"fill", "#fff"},
                         {"stroke", "#000"},
                         {"stroke-width", 2.0},
                         {"stroke-dasharray", style.dash}});
    if (style.corner < 0.0) return;
    svg_.leaf("rect", {{"x", at.x - 5.0},
                       {"y", at.y - 5.0},
                       {"width", 10.0},
                       {"height", 10.0},
                       {"rx", style.corner / 2.0},
                       {"fill", style.inverted ? "#000" : "#fff"},
                       {"stroke", "#000"},
                       {"stroke-width", 1.0}});
  }

  const PlaceLayout& layout_;
  const std::vector<std::string>& names_;
  Svg svg_;
  PanelPicture panel_;
  std::vector<Mark> marks_;
};

std::string description_of(const Panel& panel, const PlaceLayout& layout,
                           const std::vector<std::string>& names) {
  std::string words =
      fmt::format("The panel, {} x {} mm, from the front with its long side lying. ",
                  picture_mm(panel.size->long_side), picture_mm(panel.size->short_side));
  for (std::size_t s = 0; s < layout.series.size(); ++s) {
    const std::vector<int> drawn = numbers_of(layout.series[s], true);
    if (drawn.empty()) continue;
    words += fmt::format("Series {}: {} {}. ", names[s], drawn.size() == 1 ? "place" : "places",
                         ranges(drawn));
  }
  return words + "The list of places gives each distance from the left and the lower edge.";
}

}  // namespace

Figure aim_map(const Panel& panel, const PlaceLayout& layout,
               const std::vector<std::string>& series_names, const std::string& id) {
  expects(panel.size.has_value(), "a panel with a size");
  expects(series_names.size() == layout.series.size(), "a name for every series");
  Figure figure;
  figure.id = id;
  figure.title = "Aim map of " + panel.name;
  figure.description = description_of(panel, layout, series_names);
  figure.svg = AimMap(panel, layout, series_names).draw(figure);
  return figure;
}

}  // namespace hailwright
