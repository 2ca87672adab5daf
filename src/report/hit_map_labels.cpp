#include "report/hit_map_labels.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "hailwright/core/quantity_text.hpp"
#include "report/chart_text.hpp"
#include "report/place_marks.hpp"

namespace hailwright::detail {

namespace {

LabelBox box_around(Spot middle, double radius) {
  return {middle, 2.0 * radius, 2.0 * radius};
}

/// A bare number is taken as wide as bold digits of DejaVu Sans are (0.696 em), without the air of
/// `text_units`, so that two digits find room in a place of the usual size.
double words_width(const std::string& words) {
  const bool bare =
      std::all_of(words.begin(), words.end(), [](char c) { return c >= '0' && c <= '9'; });
  constexpr double digit = 0.7 * hit_number_size;
  return bare ? digit * static_cast<double>(words.size())
              : text_units(words, hit_number_size, Weight::bold);
}

class Placing {
public:
  Placing(const HitMapContent& content, const PanelPicture& panel)
      : content_(content), panel_(panel), taken_(panel.mount_boxes()) {
    for (const SpotHit& hit : content.spots)
      taken_.push_back(box_around(panel.spot(hit.at), hit_dot));
  }

  MapLabels place() {
    find_room(hits_in_places(), {});
    find_room(hits_on_spots(true), place_boxes());
    find_room(hits_on_spots(false), {});
    find_room(findings(), {});
    find_room(places(), place_boxes());
    return std::move(result_);
  }

private:
  [[nodiscard]] std::vector<MapLabel> hits_in_places() const {
    std::vector<MapLabel> labels;
    for (const InPlace& in : content_.in_places) {
      const PlacedTarget& place = content_.layout.series.at(in.series).at(in.place);
      labels.push_back(
          hit(short_numbers(in.numbers), in.series, *place.at, panel_.units(place.radius)));
    }
    return labels;
  }

  [[nodiscard]] std::vector<MapLabel> hits_on_spots(bool off_place) const {
    std::vector<MapLabel> labels;
    for (const SpotHit& spot : content_.spots) {
      if (spot.off_place != off_place) continue;
      std::string words = std::to_string(spot.number);
      if (spot.off_place && spot.off) words += ": " + in_unit(*spot.off, "mm", 0);
      labels.push_back(hit(std::move(words), spot.series, spot.at, hit_dot));
    }
    return labels;
  }

  [[nodiscard]] MapLabel hit(std::string words, std::size_t series, Position at,
                             double radius) const {
    const bool framed = style_of(series).corner >= 0.0;
    const double width = words_width(words) + (framed ? 4.0 : 2.0);
    return {MapLabel::Kind::hit,
            std::move(words),
            series,
            {panel_.spot(at), radius, width, framed ? 17.0 : 15.0}};
  }

  [[nodiscard]] std::vector<MapLabel> findings() const {
    std::vector<MapLabel> labels;
    for (const MapFinding& finding : content_.findings) {
      if (!finding.at) continue;
      const double width = text_units(finding.letter, number_size, Weight::bold) + 20.0;
      labels.push_back({MapLabel::Kind::finding,
                        finding.letter,
                        0,
                        {panel_.spot(*finding.at), hit_dot, width, 22.0}});
    }
    return labels;
  }

  [[nodiscard]] std::vector<MapLabel> places() const {
    std::vector<MapLabel> labels;
    for (std::size_t s = 0; s < content_.layout.series.size(); ++s) {
      for (const PlacedTarget& place : content_.layout.series[s]) {
        if (!place.at) continue;
        const std::string words = place_tag(place);
        labels.push_back({MapLabel::Kind::place,
                          words,
                          s,
                          {panel_.spot(*place.at), panel_.units(place.radius),
                           text_units(words, place_tag_size) + 2.0, place_tag_size + 2.0}});
      }
    }
    return labels;
  }

  /// Around the discs of the places, in which the word of another would mislead.
  [[nodiscard]] std::vector<LabelBox> place_boxes() const {
    std::vector<LabelBox> boxes;
    for (const std::vector<PlacedTarget>& series : content_.layout.series) {
      for (const PlacedTarget& place : series) {
        if (place.at)
          boxes.push_back(box_around(panel_.spot(*place.at), panel_.units(place.radius)));
      }
    }
    return boxes;
  }

  /// @param kept_off  what else the labels stand off, if there is room for that
  void find_room(std::vector<MapLabel> labels, const std::vector<LabelBox>& kept_off) {
    std::vector<LabelBox> fixed = taken_;
    fixed.insert(fixed.end(), kept_off.begin(), kept_off.end());
    std::vector<MapLabel> left = settle(std::move(labels), fixed);
    if (!kept_off.empty()) left = settle(std::move(left), taken_);
    for (MapLabel& label : left)
      result_.crowded.push_back(std::move(label));
  }

  /// Settles those that find a spot; gives back the others.
  std::vector<MapLabel> settle(std::vector<MapLabel> labels, const std::vector<LabelBox>& fixed) {
    std::vector<Labelled> wanted;
    for (const MapLabel& label : labels)
      wanted.push_back(label.of);
    const std::vector<Label> found = place_labels(wanted, fixed, panel_.area());
    std::vector<MapLabel> left;
    for (std::size_t i = 0; i < found.size(); ++i) {
      labels[i].label = found[i];
      if (!found[i].crowded) taken_.push_back(found[i].box);
      (found[i].crowded ? left : result_.placed).push_back(std::move(labels[i]));
    }
    return left;
  }

  const HitMapContent& content_;
  const PanelPicture& panel_;
  std::vector<LabelBox> taken_;
  MapLabels result_;
};

}  // namespace

MapLabels place_map_labels(const HitMapContent& content, const PanelPicture& panel) {
  return Placing(content, panel).place();
}

std::string place_tag(const PlacedTarget& place) {
  return fmt::format("P{}", place.number);
}

std::string short_numbers(const std::vector<int>& numbers) {
  constexpr std::size_t most = 3;
  const bool in_a_row = numbers.back() - numbers.front() + 1 == static_cast<int>(numbers.size());
  if (numbers.size() > most && in_a_row)
    return fmt::format("{} to {}", numbers.front(), numbers.back());
  if (numbers.size() <= most) return fmt::format("{}", fmt::join(numbers, ", "));
  return fmt::format("{}, {} +{}", numbers[0], numbers[1], numbers.size() - 2);
}

}  // namespace hailwright::detail
