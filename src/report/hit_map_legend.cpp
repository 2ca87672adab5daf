#include "report/hit_map_legend.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <utility>

#include "hailwright/core/quantity_text.hpp"
#include "report/judgement_looks.hpp"
#include "report/place_marks.hpp"
#include "report/words.hpp"

namespace hailwright::detail {

namespace {

std::string missed_text(const HitMapContent& content) {
  return content.missed.empty() ? "no throw missed the panel"
                                : "missed the panel: " + throw_numbers(content.missed);
}

std::string broken_text(const HitMapContent& content) {
  return content.broken.empty() ? "none broke before it"
                                : "broke before it: " + throw_numbers(content.broken);
}

std::vector<int> throws_of(const Test& test, std::size_t series) {
  std::vector<int> numbers;
  for (const Shot& shot : test.record.shots) {
    if (shot.series == series) numbers.push_back(shot.number);
  }
  return numbers;
}

std::string series_throws(const Test& test, std::size_t series) {
  const std::vector<int> numbers = throws_of(test, series);
  return numbers.empty() ? "no throw" : throw_numbers(numbers);
}

/// Hits that are not drawn, those of one reason together.
std::vector<std::string> undrawn_lines(const HitMapContent& content) {
  std::vector<std::pair<std::string, std::vector<int>>> by_reason;
  for (const HitMapContent::Undrawn& hit : content.undrawn) {
    auto same = std::find_if(by_reason.begin(), by_reason.end(),
                             [&](const auto& reason) { return reason.first == hit.why; });
    if (same == by_reason.end()) same = by_reason.insert(same, {hit.why, {}});
    same->second.push_back(hit.number);
  }
  std::vector<std::string> lines;
  for (const auto& [why, numbers] : by_reason)
    lines.push_back(fmt::format("not drawn: {}, {}", throw_numbers(numbers), why));
  return lines;
}

class LegendWriter {
public:
  LegendWriter(const Judged& judged, const HitMapContent& content)
      : test_(*judged.test), assessment_(*judged.assessment), content_(content) {}

  std::vector<LegendEntry> write(const std::vector<MapLabel>& crowded) {
    add(missed_text(content_) + "; " + broken_text(content_));
    for (std::string& line : undrawn_lines(content_))
      add(std::move(line));
    add_crowded(crowded);
    for (std::size_t s = 0; s < content_.layout.series.size(); ++s)
      add(series_words(s), [s](Chart& chart, Spot at) { draw_series_sample(chart.svg(), at, s); });
    add_marks();
    add_places(crowded);
    for (const MapFinding& finding : content_.findings)
      add(finding_words(finding),
          [letter = finding.letter](Chart& chart, Spot at) { draw_finding(chart, at, letter); });
    return std::move(entries_);
  }

private:
  void add(std::string words, std::function<void(Chart&, Spot)> sign = {}) {
    entries_.push_back({std::move(sign), std::move(words)});
  }

  [[nodiscard]] std::string series_words(std::size_t series) const {
    const std::vector<PlacedTarget>& places = content_.layout.series[series];
    std::vector<int> missing;
    for (const PlacedTarget& place : places) {
      if (!place.at) missing.push_back(place.number);
    }
    return fmt::format(
        "{}: {}; each place reaches {} mm{}", legend_name(test_.protocol.series[series].name),
        series_throws(test_, series), picture_mm(assessment_.delivery[series].place_radius),
        missing.empty()
            ? ""
            : "; not drawn, without a position: place " + number_ranges(std::move(missing)));
  }

  void add_marks() {
    const auto off = [](const SpotHit& hit) { return hit.off_place; };
    const auto& spots = content_.spots;
    if (!std::all_of(spots.begin(), spots.end(), off)) {
      add("a hit where it was measured, with its throw's number",
          [](Chart& chart, Spot at) { draw_hit(chart, at, false); });
    }
    if (std::any_of(spots.begin(), spots.end(), off)) {
      add("a hit on no place of its series, with its distance from the middle aimed at",
          [](Chart& chart, Spot at) { draw_hit(chart, at, true); });
    }
    if (content_.in_places.empty()) return;
    const InPlace& first = content_.in_places.front();
    add("a number without a mark: a hit somewhere in that place",
        [series = first.series, number = first.numbers.front()](Chart& chart, Spot at) {
          draw_tag(chart.svg(), {at, 24.0, 20.0}, std::to_string(number), series, hit_number_size);
        });
    for (const InPlace& in : content_.in_places) {
      if (short_numbers(in.numbers).find('+') == std::string::npos) continue;
      add(fmt::format("in {}: {}", place_tag(place(in.series, in.place)),
                      throw_numbers(in.numbers)));
    }
  }

  [[nodiscard]] const PlacedTarget& place(std::size_t series, std::size_t index) const {
    return content_.layout.series.at(series).at(index);
  }

  /// What each place is; places of one kind together.
  [[nodiscard]] std::vector<std::string> places_in_words() const {
    std::vector<std::pair<std::string, std::vector<std::string>>> kinds;
    for (const auto& series : content_.layout.series) {
      for (const PlacedTarget& place : series) {
        const std::string what = place_words(place);
        auto same = std::find_if(kinds.begin(), kinds.end(),
                                 [&](const auto& kind) { return kind.first == what; });
        if (same == kinds.end()) same = kinds.insert(same, {what, {}});
        same->second.push_back(place_tag(place));
      }
    }
    std::vector<std::string> words;
    for (const auto& [what, tags] : kinds)
      words.push_back(fmt::format("{} {}", what, enumerate(tags)));
    return words;
  }

  static std::string place_words(const PlacedTarget& place) {
    const std::string& name = place.name;
    if (read_count(name).value && name != std::to_string(place.number)) return "named " + name;
    if (name != std::to_string(place.number)) return name;
    return place.kind == PlaceKind::named ? place.what : std::string(text(place.kind));
  }

  void add_places(const std::vector<MapLabel>& crowded) {
    add(fmt::format("places: {}", fmt::join(places_in_words(), "; ")),
        tags_drawn(crowded) ? [](Chart& chart, Spot at) { draw_place_tag(chart, at, "P1"); }
                            : std::function<void(Chart&, Spot)>{});
    if (any_coincide()) add("places of two series on one spot are drawn one inside the other");
  }

  /// Whether there was room for the tag of any place.
  [[nodiscard]] bool tags_drawn(const std::vector<MapLabel>& crowded) const {
    std::ptrdiff_t with_position = 0;
    for (const auto& series : content_.layout.series) {
      with_position += std::count_if(series.begin(), series.end(), [](const PlacedTarget& place) {
        return place.at.has_value();
      });
    }
    return with_position > std::count_if(crowded.begin(), crowded.end(), [](const MapLabel& label) {
             return label.kind == MapLabel::Kind::place;
           });
  }

  [[nodiscard]] bool any_coincide() const {
    const auto& all = content_.layout.series;
    for (std::size_t s = 1; s < all.size(); ++s) {
      if (std::any_of(all[s].begin(), all[s].end(), [&](const PlacedTarget& place) {
            return places_below(content_.layout, place, s) > 0;
          }))
        return true;
    }
    return false;
  }

  [[nodiscard]] std::string finding_words(const MapFinding& finding) const {
    const NewFinding& found = *finding.found;
    return fmt::format("{}{}", finding_text(*found.finding, found.look, test_.record, assessment_),
                       finding.at ? "" : ", not drawn: its words name no place that is drawn");
  }

  /// Bare numbers together as ranges, the others word by word.
  void add_crowded(const std::vector<MapLabel>& crowded) {
    if (crowded.empty()) return;
    std::vector<int> numbers;
    std::vector<std::string> words;
    for (const MapLabel& label : crowded) {
      if (label.kind != MapLabel::Kind::hit) {
        words.push_back(label.words);
      } else if (const auto number = read_count(label.words).value) {
        numbers.push_back(*number);
      } else {
        words.push_back("throw " + label.words);
      }
    }
    if (!numbers.empty()) words.insert(words.begin(), throw_numbers(numbers));
    add(fmt::format("no room on the panel for the words of {}", enumerate(words)));
  }

  const Test& test_;
  const Assessment& assessment_;
  const HitMapContent& content_;
  std::vector<LegendEntry> entries_;
};

std::string off_place_text(const SpotHit& hit) {
  return hit.off ? fmt::format("{} ({})", hit.number, in_unit(*hit.off, "mm", 0))
                 : std::to_string(hit.number);
}

}  // namespace

std::vector<LegendEntry> hit_map_legend(const Judged& judged, const HitMapContent& content,
                                        const std::vector<MapLabel>& crowded) {
  return LegendWriter(judged, content).write(crowded);
}

std::string hit_map_description(const Judged& judged, const HitMapContent& content) {
  const Test& test = *judged.test;
  const Outline& size = *test.record.panel.size;
  std::string words =
      fmt::format("The panel, {} x {} mm, from the front with its long side lying. ",
                  picture_mm(size.long_side), picture_mm(size.short_side));
  for (std::size_t s = 0; s < test.protocol.series.size(); ++s)
    words += fmt::format("Series {}: {}. ", test.protocol.series[s].name, series_throws(test, s));
  std::vector<std::string> off;
  for (const SpotHit& hit : content.spots) {
    if (hit.off_place) off.push_back(off_place_text(hit));
  }
  if (!off.empty()) {
    words += fmt::format("On no place, with the distance from the one aimed at: {} {}. ",
                         off.size() == 1 ? "throw" : "throws", enumerate(off));
  }
  return words + fmt::format("Of all throws: {}; {}. The table of throws has each with its place.",
                             missed_text(content), broken_text(content));
}

void draw_hit(Chart& chart, Spot at, bool off_place) {
  chart.mark(at, {off_place ? MarkShape::cross : MarkShape::disc, true, hit_dot});
}

void draw_finding(Chart& chart, Spot middle, const std::string& letter) {
  const double half = text_units(letter, number_size, Weight::bold) / 2.0 + 10.0;
  chart.svg().leaf(
      "path", {{"d", fmt::format("M{} {}l7 -10h{}l7 10l-7 10h-{}z", svg_number(middle.x - half),
                                 svg_number(middle.y), svg_number(2.0 * half - 14.0),
                                 svg_number(2.0 * half - 14.0))},
               {"fill", "#fff"},
               {"stroke", ink},
               {"stroke-width", 2.0}});
  chart.write({middle.x, middle.y + 6.0}, letter, {"middle", number_size, Weight::bold});
}

void draw_place_tag(Chart& chart, Spot middle, const std::string& words) {
  const double half = text_units(words, place_tag_size) / 2.0 + 1.0;
  chart.svg().leaf("rect", {{"x", middle.x - half},
                            {"y", middle.y - 8.0},
                            {"width", 2.0 * half},
                            {"height", 16.0},
                            {"fill", "#fff"},
                            {"fill-opacity", "0.7"}});
  chart.write({middle.x, middle.y + 5.0}, words, {"middle", place_tag_size});
}

}  // namespace hailwright::detail
