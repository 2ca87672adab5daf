#include "hailwright/report/aim_map.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "report/aim_map_labels.hpp"
#include "report/panel_picture.hpp"
#include "report/place_marks.hpp"
#include "report/svg.hpp"

namespace hailwright {

namespace {

using detail::digit_width;
using detail::draw_place_disc;
using detail::Label;
using detail::LabelBox;
using detail::Labelled;
using detail::line_height;
using detail::number_ranges;
using detail::PanelPicture;
using detail::picture_left;
using detail::picture_mm;
using detail::picture_width;
using detail::Spot;
using detail::style_of;
using detail::Svg;
using detail::svg_number;

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
      draw_place_disc(svg_, middle, radius, mark.series,
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

  /// A number outside its disc gets a line from the rim.
  void draw_number(const Label& label, const Labelled& disc, int number, std::size_t series) {
    const LabelBox& box = label.box;
    if (!label.inside) {
      const double dx = box.middle.x - disc.middle.x;
      const double dy = box.middle.y - disc.middle.y;
      const double share = disc.radius / std::max(disc.radius, std::hypot(dx, dy));
      panel_.line({disc.middle.x + share * dx, disc.middle.y + share * dy}, box.middle);
    }
    detail::draw_tag(svg_, box, std::to_string(number), series);
  }

  [[nodiscard]] std::string series_words(std::size_t series) const {
    const std::vector<PlacedTarget>& places = layout_.series[series];
    const std::vector<int> drawn = numbers_of(places, true);
    const std::vector<int> missing = numbers_of(places, false);
    std::string words = detail::legend_name(names_[series]) + ": ";
    if (!drawn.empty()) {
      words += fmt::format("{} {}, each reaching {} mm around its middle",
                           drawn.size() == 1 ? "place" : "places", number_ranges(drawn),
                           picture_mm(places.front().radius));
    }
    if (!missing.empty()) {
      words += fmt::format("{}not drawn, without a position: {}", drawn.empty() ? "" : "; ",
                           number_ranges(missing));
    }
    return words;
  }

  void draw_legend(double y) {
    constexpr double sample_x = picture_left + 12.0;
    constexpr double words_x = picture_left + 36.0;
    for (std::size_t s = 0; s < layout_.series.size(); ++s) {
      detail::draw_series_sample(svg_, {sample_x, y}, s);
      panel_.write(words_x, y + 5.0, series_words(s));
      y += line_height;
    }
    panel_.draw_legend(y);
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
                         number_ranges(drawn));
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
