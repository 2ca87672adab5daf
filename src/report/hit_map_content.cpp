#include "report/hit_map_content.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "hailwright/model/panel_geometry.hpp"
#include "report/words.hpp"

namespace hailwright::detail {

namespace {

class Gathering {
public:
  Gathering(const Judged& judged, PlaceLayout layout)
      : test_(*judged.test), assessment_(*judged.assessment) {
    content_.layout = std::move(layout);
  }

  HitMapContent gather() {
    for (const SeriesDelivery& delivery : assessment_.delivery) {
      for (const ShotResult& result : delivery.shots)
        add_throw(result);
    }
    const auto by_number = [](const auto& a, const auto& b) { return a.number < b.number; };
    std::stable_sort(content_.spots.begin(), content_.spots.end(), by_number);
    std::stable_sort(content_.undrawn.begin(), content_.undrawn.end(), by_number);
    for (const NewFinding& found : assessment_.new_findings)
      add_finding(found);
    return std::move(content_);
  }

private:
  void add_throw(const ShotResult& result) {
    const Shot& shot = test_.record.shots[result.shot];
    switch (shot.landing) {
    case Landing::miss:
      content_.missed.push_back(shot.number);
      break;
    case Landing::broke:
      content_.broken.push_back(shot.number);
      break;
    case Landing::in:
      add_in_place(shot);
      break;
    case Landing::offset:
    case Landing::at:
      add_spot(shot, result);
      break;
    }
  }

  [[nodiscard]] const PlacedTarget& aimed_at(const Shot& shot) const {
    return content_.layout.series.at(shot.series).at(shot.place);
  }

  void leave_out(const Shot& shot, std::string why) {
    content_.undrawn.push_back({shot.number, std::move(why)});
  }

  void add_in_place(const Shot& shot) {
    if (!aimed_at(shot).at) {
      leave_out(shot, fmt::format("in place {}, which has no position", aimed_at(shot).name));
      return;
    }
    auto& all = content_.in_places;
    auto same = std::find_if(all.begin(), all.end(), [&](const InPlace& in) {
      return in.series == shot.series && in.place == shot.place;
    });
    if (same == all.end()) same = all.insert(same, {shot.series, shot.place, {}});
    same->numbers.push_back(shot.number);
  }

  void add_spot(const Shot& shot, const ShotResult& result) {
    const std::optional<Position>& aimed = aimed_at(shot).at;
    Position at = *shot.where;
    if (shot.landing == Landing::offset) {
      if (!aimed) {
        leave_out(shot, offset_words(at, aimed_at(shot).name));
        return;
      }
      at = {aimed->right + at.right, aimed->up + at.up};
    }
    const Outline& size = *test_.record.panel.size;
    if (!holds({{}, {size.long_side, size.short_side}}, at)) {
      leave_out(shot, "on the panel by the record, which gives a spot beyond its edge");
      return;
    }
    content_.spots.push_back({shot.number, shot.series, at, !result.place, result.off, aimed});
  }

  static std::string offset_words(Position from_middle, const std::string& place) {
    const auto mm = [](Length length) { return fmt::format("{:.0f}", length.si() * 1000.0); };
    return fmt::format("{} x {} mm from the middle of place {}, which has no position",
                       mm(from_middle.right), mm(from_middle.up), place);
  }

  void add_finding(const NewFinding& found) {
    const PlacedTarget* place = place_named(content_.layout, found.finding->where);
    content_.findings.push_back({letters_of(content_.findings.size()), &found,
                                 place != nullptr ? place->at : std::nullopt});
  }

  const Test& test_;
  const Assessment& assessment_;
  HitMapContent content_;
};

bool is_word_character(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0;
}

/// Whether the name stands at this offset and ends there: "1" does not stand in "14".
bool stands_at(std::string_view text, std::size_t at, std::string_view name) {
  if (name.empty() || text.substr(at, name.size()) != name) return false;
  const std::size_t end = at + name.size();
  return end == text.size() || !is_word_character(text[end]);
}

}  // namespace

const PlacedTarget* place_named(const PlaceLayout& layout, std::string_view where) {
  constexpr std::string_view word = "place ";
  const std::size_t found = where.find(word);
  if (found == std::string_view::npos) return nullptr;
  if (found > 0 && is_word_character(where[found - 1])) return nullptr;
  const PlacedTarget* longest = nullptr;
  for (const std::vector<PlacedTarget>& series : layout.series) {
    for (const PlacedTarget& place : series) {
      if (!stands_at(where, found + word.size(), place.name)) continue;
      if (longest == nullptr || place.name.size() > longest->name.size()) longest = &place;
    }
  }
  return longest;
}

std::size_t places_below(const PlaceLayout& layout, const PlacedTarget& place, std::size_t series) {
  std::size_t below = 0;
  for (std::size_t s = 0; s < series; ++s) {
    const auto& places = layout.series[s];
    const bool here = std::any_of(places.begin(), places.end(), [&](const PlacedTarget& other) {
      return place.at && other.at && other.at->right == place.at->right &&
             other.at->up == place.at->up;
    });
    below += here ? 1 : 0;
  }
  return below;
}

std::optional<HitMapContent> hit_map_content(const Judged& judged) {
  const Test& test = *judged.test;
  if (!test.record.panel.size) return std::nullopt;
  Checked<PlaceLayout> layout = layout_places(test.protocol, test.record.panel, usual_place_radius);
  if (!layout.value) return std::nullopt;
  return Gathering(judged, std::move(*layout.value)).gather();
}

}  // namespace hailwright::detail
