#include "input/protocol_launch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/quoted.hpp"
#include "input/shared_ranges.hpp"

namespace hailwright::input {

namespace {

// Ranges [ours]: wide enough for anything meant, narrow enough to catch a slip in the unit.
constexpr Range distance_range{0.0, 100.0, "more than 0 m, up to 100 m", true};
constexpr Range height_range{0.0, 100.0, "from 0 m to 100 m"};
constexpr Range fastest_range{0.0, 200.0, "more than 0 m/s, up to 200 m/s", true};
constexpr Range spread_range{0.0, 0.5, "from 0 % to 50 %"};
constexpr Range altitude_range{-430.0, 6000.0, "from -430 m to 6000 m"};
constexpr Range freezer_range{193.15, 273.15, "from -80 degC to 0 degC"};
constexpr Range mould_range{0.005, 0.150, "from 5 mm to 150 mm"};
constexpr int most_tried = 10000;

/// Two counts of which the second is part of the first.
std::optional<Tally> read_tally(const MapReader& map, std::string_view whole, std::string_view part,
                                bool part_is_good, int least) {
  const Entry* all = map.find(whole);
  const Entry* some = map.find(part);
  if (all == nullptr && some == nullptr) return std::nullopt;
  if (all == nullptr || some == nullptr) {
    const Entry* given = all != nullptr ? all : some;
    map.notes().error(
        "C19", given->key_span,
        fmt::format("'{}' says nothing without '{}'", given->key, all != nullptr ? part : whole),
        {fmt::format("write both, as in  {}: 10  and  {}: 8", whole, part)});
    return std::nullopt;
  }
  const auto tried = map.count(whole, least, most_tried);
  const auto counted = map.count(part, 0, most_tried);
  if (!tried || !counted) return std::nullopt;
  if (*counted > *tried) {
    map.notes()
        .error("C19", some->value.span,
               fmt::format("'{}' is {}, more than '{}' ({})", part, *counted, whole, *tried),
               {fmt::format("'{}' counts some of '{}'", part, whole)})
        .related.push_back({all->value.span, fmt::format("'{}' is given here", whole)});
    return std::nullopt;
  }
  return Tally{all->key_span, *tried, part_is_good ? *counted : *tried - *counted};
}

/// `moulds: {25 mm: 12, 35 mm: 6}`: cavities by diameter of the ball.
std::vector<Mould> read_moulds(const Entry& entry, Diagnostics& notes) {
  std::vector<Mould> moulds;
  if (entry.value.kind == NodeKind::broken) return moulds;
  if (entry.value.kind != NodeKind::map) {
    notes.error(
        "K05", entry.value.span,
        fmt::format("'moulds' must be {}, found {}", name(NodeKind::map), name(entry.value.kind)),
        {"write how many cavities each diameter has: moulds: {25 mm: 12, 35 mm: 6}"});
    return moulds;
  }
  for (const Entry& mould : entry.value.entries) {
    Node key;
    key.kind = NodeKind::text;
    key.text = mould.key;
    key.span = mould.key_span;
    const auto diameter =
        read_amount_of(key, "the diameter of a mould", Measure::length, mould_range, notes);
    const auto text = read_text(mould.value, fmt::format("'{}'", mould.key), notes);
    if (!diameter || !text) continue;
    const TextResult<int> cavities = read_count(*text);
    if (cavities.problem) {
      add_problem(mould.value, *cavities.problem, fmt::format("'{}'", mould.key), notes);
    } else if (*cavities.value < 1 || *cavities.value > most_cavities) {
      notes.error("R02", mould.value.span,
                  fmt::format("a mould has from 1 to {} cavities, found {}", most_cavities,
                              *cavities.value));
    } else {
      moulds.push_back({mould.key_span, Length::from_si(diameter->si), *cavities.value});
    }
  }
  return moulds;
}

/// "one by one", "ten together", "12 together".
std::optional<int> read_weigh(const Entry& entry, Diagnostics& notes) {
  constexpr std::array<std::string_view, 13> numbers{"",     "",       "two",   "three", "four",
                                                     "five", "six",    "seven", "eight", "nine",
                                                     "ten",  "eleven", "twelve"};
  const auto text = read_text(entry.value, "'weigh'", notes);
  if (!text) return std::nullopt;
  if (*text == "one by one") return 1;
  const std::vector<std::string> words = words_of(*text);
  if (words.size() == 2 && words[1] == "together") {
    const auto named = std::find(numbers.begin() + 2, numbers.end(), words[0]);
    if (named != numbers.end()) return static_cast<int>(named - numbers.begin());
    const TextResult<int> count = read_count(words[0]);
    if (count.value && *count.value >= 2 && *count.value <= most_cavities) return *count.value;
  }
  notes.error("K06", entry.value.span,
              fmt::format("'weigh' cannot be {}", hailwright::detail::quoted(*text)),
              {"write  one by one  or how many are weighed at once, as in  ten together"});
  return std::nullopt;
}

}  // namespace

Launch read_launch(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, launch_keys, entry.key_span, notes);
  Launch launch;
  launch.origin = entry.key_span;
  map.require("kind", "write what throws the balls, as in  kind: sling");
  launch.kind = map.choice<Launcher>("kind", {{"sling", Launcher::sling},
                                              {"elastic", Launcher::elastic},
                                              {"spring", Launcher::spring},
                                              {"compressed air", Launcher::compressed_air},
                                              {"ball machine", Launcher::ball_machine},
                                              {"drop", Launcher::drop},
                                              {"thrown by hand", Launcher::throw_by_hand},
                                              {"other", Launcher::other}})
                    .value_or(Launcher::other);
  launch.distance = map.quantity<Length>("distance", distance_range);
  launch.height = map.quantity<Length>("height", height_range);
  launch.aim = map.text("aim");
  launch.fastest = map.quantity<Speed>("fastest", fastest_range);
  launch.spread = map.quantity<Ratio>("spread", spread_range);
  launch.ground_falls = map.quantity<Length>("ground_falls", height_range);
  launch.altitude = map.quantity<Length>("altitude", altitude_range);
  launch.air = map.quantity<TemperaturePoint>("air", air_range);
  launch.tried = read_tally(map, "tried", "hit", true, 1);
  return launch;
}

Ice read_ice(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, ice_keys, entry.key_span, notes);
  Ice ice;
  ice.origin = entry.key_span;
  ice.water = map.text("water");
  ice.freezer = map.quantity<TemperaturePoint>("freezer", freezer_range);
  if (const Entry* weigh = map.find("weigh")) ice.weighed_together = read_weigh(*weigh, notes);
  if (const Entry* moulds = map.find("moulds")) ice.moulds = read_moulds(*moulds, notes);
  ice.made = read_tally(map, "made", "rejected", false, 1);
  return ice;
}

}  // namespace hailwright::input
