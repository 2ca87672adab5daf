#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/report/pictures.hpp"
#include "report/chart.hpp"
#include "report/hit_map_legend.hpp"
#include "report/panel_picture.hpp"
#include "report/place_marks.hpp"

namespace hailwright {

namespace {

using detail::Chart;
using detail::HitMapContent;
using detail::Legend;
using detail::MapLabel;
using detail::MapLabels;
using detail::PanelPicture;
using detail::Spot;
using detail::SpotHit;

constexpr double legend_left = 14.0;

class HitMap {
public:
  HitMap(const HitMapContent& content, const MapLabels& labels, const Legend& legend, Chart& chart,
         PanelPicture& panel)
      : content_(content), labels_(labels), legend_(legend), chart_(chart), panel_(panel) {}

  void draw() {
    panel_.draw_back();
    draw_places();
    draw_distances();
    panel_.draw_front();
    draw_labels();
    draw_legend();
  }

private:
  void draw_places() {
    for (std::size_t s = 0; s < content_.layout.series.size(); ++s) {
      for (const PlacedTarget& place : content_.layout.series[s]) {
        if (!place.at) continue;
        draw_place_disc(chart_.svg(), panel_.spot(*place.at), radius_of(place, s), s,
                        fmt::format("place {}: {}", place.name, place.what));
      }
    }
  }

  /// A place on the spot of earlier series' places is drawn inside them, so that the line of each
  /// can be seen.
  [[nodiscard]] double radius_of(const PlacedTarget& place, std::size_t series) const {
    constexpr double inside = 5.0;
    const std::size_t below = detail::places_below(content_.layout, place, series);
    return std::max(inside, panel_.units(place.radius) - inside * static_cast<double>(below));
  }

  /// From where a hit landed on no place to the middle of the one aimed at.
  void draw_distances() {
    for (const SpotHit& hit : content_.spots) {
      if (hit.off_place && hit.aimed)
        chart_.line(panel_.spot(hit.at), panel_.spot(*hit.aimed), {1.0, "3 3"});
    }
  }

  /// Lines first, then marks, then words, so that no line crosses a word.
  void draw_labels() {
    for (const MapLabel& label : labels_.placed) {
      if (!label.label.inside) draw_leader(label);
    }
    for (const SpotHit& hit : content_.spots)
      detail::draw_hit(chart_, panel_.spot(hit.at), hit.off_place);
    for (const MapLabel& label : labels_.placed)
      draw_words(label);
  }

  void draw_leader(const MapLabel& label) {
    const Spot from = label.of.middle;
    const Spot to = label.label.box.middle;
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    const double share = label.of.radius / std::max(label.of.radius, length);
    chart_.line({from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)}, to);
  }

  void draw_words(const MapLabel& label) {
    switch (label.kind) {
    case MapLabel::Kind::hit:
      detail::draw_tag(chart_.svg(), label.label.box, label.words, label.series,
                       detail::hit_number_size);
      break;
    case MapLabel::Kind::finding:
      detail::draw_finding(chart_, label.label.box.middle, label.words);
      break;
    case MapLabel::Kind::place:
      detail::draw_place_tag(chart_, label.label.box.middle, label.words);
      break;
    }
  }

  void draw_legend() {
    const double top = panel_.legend_top() - detail::chart_line / 2.0;
    legend_.draw(chart_, top);
    panel_.draw_legend(top + legend_.height() + detail::line_height / 2.0, legend_left + 2.0);
  }

  const HitMapContent& content_;
  const MapLabels& labels_;
  const Legend& legend_;
  Chart& chart_;
  PanelPicture& panel_;
};

std::string drawn(const Figure& figure, const Judged& judged, const HitMapContent& content) {
  const Panel& panel = judged.test->record.panel;
  detail::Svg unused;
  const PanelPicture measured(panel, unused, detail::hit_map_width);
  const MapLabels labels = detail::place_map_labels(content, measured);
  const Legend legend(detail::hit_map_legend(judged, content, labels.crowded), legend_left,
                      detail::hit_map_width);
  const double height = measured.legend_top() + legend.height() +
                        static_cast<double>(measured.legend_lines()) * detail::line_height + 8.0;
  Chart chart(figure, height, detail::hit_map_width);
  PanelPicture picture(panel, chart.svg(), detail::hit_map_width);
  HitMap(content, labels, legend, chart, picture).draw();
  return chart.finish();
}

}  // namespace

std::optional<Figure> hit_map(const Judged& judged, std::string_view suffix) {
  // Where nothing was to be thrown, a map without hits would only say that nothing struck.
  if (judged.test->protocol.series.empty()) return std::nullopt;
  const std::optional<HitMapContent> content = detail::hit_map_content(judged);
  if (!content) return std::nullopt;
  Figure figure;
  figure.id = fmt::format("hit-map{}", suffix);
  figure.title = "Hits on " + judged.test->record.title;
  figure.description = detail::hit_map_description(judged, *content);
  figure.svg = drawn(figure, judged, *content);
  return figure;
}

}  // namespace hailwright
