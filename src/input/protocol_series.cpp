#include "input/protocol_series.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/quoted.hpp"
#include "hailwright/tables/impact_grades.hpp"
#include "input/shared_ranges.hpp"
#include "input/sides_text.hpp"

namespace hailwright::input {

namespace {

// Ranges of a free choice [ours]: the smallest and largest balls that anything here is meant for.
constexpr Range target_diameter_range{0.005, 0.150, "from 5 mm to 150 mm"};
constexpr Range target_mass_range{0.0, 1.0, "more than 0 g, up to 1 kg", true};
constexpr Range target_speed_range{0.0, 100.0, "more than 0 m/s, up to 100 m/s", true};
constexpr Range tolerance_range{0.005, 0.20, "from 0.5 % to 20 %"};
constexpr Range place_radius{0.005, 0.100, "from 5 mm to 100 mm"};

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

/// A scheme whose figures nobody could read: the user is told why it is not offered.
const UnreadScheme* unread_scheme(std::string_view label) {
  for (const UnreadScheme& scheme : unread_schemes()) {
    if (lower(label).find(lower(scheme.scheme)) != std::string::npos) return &scheme;
  }
  return nullptr;
}

void report_no_grade(const Node& node, Diagnostics& notes) {
  const std::string message =
      fmt::format("no published grade is called {}", detail::quoted(node.text));
  if (const UnreadScheme* scheme = unread_scheme(node.text)) {
    notes.error("K12", node.span, message,
                {fmt::format("{} is not offered: {}", scheme->scheme, scheme->why)});
    return;
  }
  std::vector<std::string> labels;
  for (const Grade& grade : impact_grades()) {
    if (grade.projectile == Projectile::ice && grade.speed) labels.push_back(grade_label(grade));
  }
  const std::optional<std::string> nearest = nearest_word(node.text, labels);
  notes.error("K12", node.span, message,
              {nearest ? fmt::format("did you mean '{}'?", *nearest)
                       : std::string("`hailwright grades` lists them")});
}

std::optional<Target> read_grade(const Node& node, Diagnostics& notes) {
  const std::optional<std::string> text = read_text(node, "'grade'", notes);
  if (!text) return std::nullopt;
  const Grade* grade = find_grade(*text);
  if (grade == nullptr) {
    report_no_grade(node, notes);
    return std::nullopt;
  }
  if (grade->projectile != Projectile::ice) {
    notes.error("C06", node.span,
                fmt::format("{} is a grade of {} balls, not of ice", grade_label(*grade),
                            hailwright::text(grade->projectile)),
                {"ice is never converted: choose a grade of ice balls, or a free ball"});
    return std::nullopt;
  }
  if (!grade->speed) {
    notes.error("C06", node.span,
                fmt::format("{} sets no speed: there the speed is what the test finds",
                            grade_label(*grade)),
                {"choose a grade with a speed, or a free ball"});
    return std::nullopt;
  }
  return Target{grade_label(*grade), grade,         grade->diameter,
                grade->mass,         *grade->speed, std::nullopt};
}

std::optional<Target> read_ball(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, ball_keys, entry.key_span, notes);
  map.require("diameter", "write it as in  diameter: 30 mm");
  map.require("mass", "write it as in  mass: 13 g");
  map.require("speed", "write it as in  speed: 24 m/s");
  const auto diameter = map.quantity<Length>("diameter", target_diameter_range);
  const auto mass = map.quantity<Mass>("mass", target_mass_range);
  const auto speed = map.quantity<Speed>("speed", target_speed_range);
  if (!diameter || !mass || !speed) return std::nullopt;
  return Target{
      fmt::format("free: {}, {}, {}", map.text("diameter"), map.text("mass"), map.text("speed")),
      nullptr,
      *diameter,
      *mass,
      *speed,
      std::nullopt};
}

std::optional<Target> read_target(const MapReader& map) {
  const Entry* grade = map.find("grade");
  const Entry* ball = map.find("ball");
  if (grade != nullptr && ball != nullptr) {
    map.notes()
        .error("C04", ball->key_span, "a series has a grade or a ball of its own, not both",
               {"keep one of the two"})
        .related.push_back({grade->key_span, "the grade is given here"});
    return std::nullopt;
  }
  if (grade != nullptr) return read_grade(grade->value, map.notes());
  if (ball != nullptr) return read_ball(*ball, map.notes());
  if (map.usable()) {
    map.notes().error("K02", map.owner(), "'grade' or 'ball' is missing in this series",
                      {"write it as in  grade: IEC 61215 25 mm",
                       "or as in  ball: {diameter: 30 mm, mass: 13 g, speed: 24 m/s}"});
  }
  return std::nullopt;
}

bool is_name(std::string_view text) {
  if (text.empty() || text.front() == ' ' || text.back() == ' ') return false;
  return std::all_of(text.begin(), text.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == ' ' || byte >= 0x80U;
  });
}

/// "throw 7", as looks name a single throw.
bool is_throw(std::string_view text) {
  constexpr std::string_view word = "throw ";
  return text.starts_with(word) && read_count(text.substr(word.size())).value.has_value();
}

/// Reads the entries of the list one after the other; names and numbers run through all of them.
class SeriesReader {
public:
  explicit SeriesReader(Diagnostics& notes) : notes_(notes) {}

  SeriesPlan read(const Node& node) {
    const MapReader map(node, series_keys, node.span, notes_);
    SeriesPlan series;
    series.origin = node.span;
    read_name(map, series);
    if (auto target = read_target(map)) series.target = std::move(*target);
    series.target.tolerance = map.quantity<Ratio>("tolerance", tolerance_range);
    series.place_radius = map.quantity<Length>("place_size", place_radius);
    series.setting = map.text("setting");
    if (const Entry* places = map.require("places", "write it as in  places: 11")) {
      read_places(places->value, series);
    }
    return series;
  }

private:
  void read_name(const MapReader& map, SeriesPlan& series) {
    const Entry* entry = map.require("name", "write it as in  name: small");
    if (entry == nullptr) return;
    series.origin = entry->value.span;
    series.name = map.text("name");
    if (series.name.empty()) return;
    check_stage_name(series.name, entry->value.span, "series", notes_);
    report_twice(names_, series.name, entry->value.span, "series");
  }

  void report_twice(std::vector<std::pair<std::string, SourceSpan>>& seen, const std::string& name,
                    SourceSpan where, std::string_view what) {
    const auto first = std::find_if(seen.begin(), seen.end(),
                                    [&](const auto& other) { return other.first == name; });
    if (first != seen.end()) {
      notes_
          .error("C05", where, fmt::format("a second {} is called {}", what, detail::quoted(name)),
                 {"give one of the two another name"})
          .related.push_back({first->second, "the first one"});
      return;
    }
    seen.emplace_back(name, where);
  }

  void add_place(SeriesPlan& series, Place place) {
    report_twice(places_, place.name, place.origin, "place");
    series.places.push_back(std::move(place));
  }

  void read_places(const Node& node, SeriesPlan& series) {
    if (node.kind == NodeKind::text) {
      read_number_of_places(node, series);
    } else if (node.kind == NodeKind::list) {
      if (node.items.empty()) {
        notes_.error("K14", node.span, "'places' is an empty list", {"name at least one place"});
      }
      for (const Node& item : node.items)
        read_place(item, series);
    } else if (node.kind == NodeKind::map) {
      notes_.error("K05", node.span, "'places' must be a count or a list, found a mapping",
                   {"write it as in  places: [corner, {name: edge, at: 255 x 30 mm}]"});
    }
  }

  /// "11" or "11 places": they are called by numbers that run on through all series.
  void read_number_of_places(const Node& node, SeriesPlan& series) {
    std::string_view text = node.text;
    for (const std::string_view word : {" places", " place"}) {
      if (text.ends_with(word)) text.remove_suffix(word.size());
    }
    const TextResult<int> count = read_count(text);
    if (count.problem) {
      add_problem(node, *count.problem, "'places'", notes_);
      return;
    }
    if (*count.value < 1 || *count.value > most_places) {
      notes_.error(
          "R02", node.span,
          fmt::format("'places' must be from 1 to {}, found {}", most_places, *count.value));
      return;
    }
    series.places_counted = true;
    for (int i = 0; i < *count.value; ++i)
      add_place(series, {std::to_string(next_number_++), std::nullopt, node.span});
  }

  void read_place(const Node& item, SeriesPlan& series) {
    if (item.kind == NodeKind::text) {
      add_place(series, {item.text, std::nullopt, item.span, kind_in_name(item.text)});
      return;
    }
    const MapReader map(item, place_keys, item.span, notes_);
    const Entry* name = map.require("name", "write it as in  {name: edge, at: 255 x 30 mm}");
    if (name == nullptr) return;
    Place place{map.text("name"), std::nullopt, name->value.span};
    read_kind(map, place);
    if (const Entry* at = map.find("at")) {
      if (const auto text = read_text(at->value, "'at'", notes_)) {
        const auto sides = read_sides(*text, 2, 2);
        if (sides.problem) {
          add_problem(at->value, *sides.problem, "'at'", notes_);
        } else {
          place.at = Position{sides.value->at(0), sides.value->at(1)};
        }
      }
    }
    if (!place.name.empty()) add_place(series, std::move(place));
  }

  /// What to look for on each panel: `kind`, else the name where it is the word of a kind.
  void read_kind(const MapReader& map, Place& place) {
    const Entry* kind = map.find("kind");
    if (kind == nullptr) {
      place.kind = kind_in_name(place.name);
      return;
    }
    const std::vector<std::string> words = place_kind_words();
    if (const auto index = read_word(kind->value, "'kind'", words, notes_))
      place.kind = find_place_kind(words.at(*index));
  }

  Diagnostics& notes_;
  int next_number_ = 1;
  std::vector<std::pair<std::string, SourceSpan>> names_;
  std::vector<std::pair<std::string, SourceSpan>> places_;
};

double energy_J(const Target& target) {
  return 0.5 * target.mass.si() * target.speed.si() * target.speed.si();
}

/// Weakest first, by the energy that each series aims at.
void check_order(const std::vector<SeriesPlan>& series, Diagnostics& notes) {
  constexpr double rounding = 1e-9;
  for (std::size_t i = 1; i < series.size(); ++i) {
    const double before_J = energy_J(series[i - 1].target);
    const double here_J = energy_J(series[i].target);
    if (before_J == 0.0 || here_J == 0.0 || here_J >= before_J * (1.0 - rounding)) continue;
    notes
        .error("C07", series[i].origin,
               fmt::format("series {} aims at {} J, less than the one before it ({} J)",
                           detail::quoted(series[i].name), significant(here_J, 3),
                           significant(before_J, 3)),
               {"put the weakest first: what a stronger ball broke cannot be blamed on a weaker"})
        .related.push_back({series[i - 1].origin, "the stronger series before it"});
  }
}

}  // namespace

void check_stage_name(const std::string& name, SourceSpan where, std::string_view what,
                      Diagnostics& notes) {
  const std::string other = fmt::format("give the {} another name", what);
  if (!is_name(name)) {
    notes.error("K13", where,
                fmt::format("{} cannot be the name of a {}", detail::quoted(name), what),
                {"use letters, digits, blanks and -"});
  }
  for (const std::string_view stage : {"before", "after", "later", "baseline"}) {
    if (lower(name) != stage) continue;
    notes.error("K13", where, fmt::format("'{}' is the name of a stage of the measurement", stage),
                {other});
  }
  if (is_throw(name)) {
    notes.error("K13", where,
                fmt::format("'{}' would be taken for one throw: a look at the panel can come "
                            "after {}",
                            name, name),
                {other});
  }
}

std::vector<SeriesPlan> read_series(const std::vector<Node>& items, Diagnostics& notes) {
  SeriesReader reader(notes);
  std::vector<SeriesPlan> series;
  for (const Node& item : items)
    series.push_back(reader.read(item));
  check_order(series, notes);
  return series;
}

}  // namespace hailwright::input
