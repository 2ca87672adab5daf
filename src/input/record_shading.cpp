#include "input/record_shading.hpp"

#include <fmt/format.h>

#include "input/shared_ranges.hpp"
#include "input/side_values.hpp"

namespace hailwright::input {

namespace {

constexpr Range free_range{0.0, 2000.0, "more than 0 W, up to 2000 W", true};
/// A shade may take all of the power.
constexpr Range shaded_range{0.0, 2000.0, "from 0 W to 2000 W"};
constexpr Range open_range{0.0, 1500.0, "more than 0 V, up to 1500 V", true};
constexpr Range open_shaded_range{0.0, 1500.0, "from 0 V to 1500 V"};
constexpr Range voltage_step_range{0.0, 10.0, "more than 0 V, up to 10 V", true};

/// One value for both readings of a round, or `{free: ..., shaded: ...}`.
template <class Q>
void read_pair(const MapReader& round, const char* key, const KeyList& keys, const Range& range,
               const char* example, Q& free, Q& shaded, bool& typed_once) {
  const Entry* entry = round.require(key, example);
  if (entry == nullptr) return;
  typed_once = entry->value.kind != NodeKind::map;
  if (typed_once) {
    free = round.quantity<Q>(key, range).value_or(Q{});
    shaded = free;
    return;
  }
  const MapReader both(entry->value, keys, entry->key_span, round.notes());
  for (const char* which : {"free", "shaded"})
    both.require(which, example);
  free = both.quantity<Q>("free", range).value_or(Q{});
  shaded = both.quantity<Q>("shaded", range).value_or(Q{});
}

ShadeRound read_round(const Node& node, Diagnostics& notes) {
  const MapReader map(node, shade_round_keys, node.span, notes);
  ShadeRound round;
  round.origin = node.span;
  map.require("free", "write the maximum power without the shade: free: 81.2 W");
  map.require("shaded", "write the maximum power in the shade: shaded: 39.9 W");
  round.free = map.quantity<Power>("free", free_range).value_or(Power{});
  round.shaded = map.quantity<Power>("shaded", shaded_range).value_or(Power{});
  read_pair(map, "sun", sun_shade_keys, side_sun_range,
            "write it once, sun: 905 W/m2, or as in  sun: {free: 905 W/m2, shaded: 903 W/m2}",
            round.sun_free, round.sun_shaded, round.sun_typed_once);
  read_pair(map, "back", back_shade_keys, side_back_range,
            "write it once, back: 44 degC, or as in  back: {free: 44 degC, shaded: 45 degC}",
            round.back_free, round.back_shaded, round.back_typed_once);
  return round;
}

void read_open_voltage(const Entry& entry, const std::optional<int>& substrings, ShadeTrial& trial,
                       Diagnostics& notes) {
  const MapReader map(entry.value, open_shade_keys, entry.key_span, notes);
  const char* const hint =
      "write it as in  open_voltage: {free: 21.8 V, shaded: 11.2 V, substrings: 1}";
  for (const char* key : {"free", "shaded", "substrings"})
    map.require(key, hint);
  trial.open_free = map.quantity<Voltage>("free", open_range);
  trial.open_shaded = map.quantity<Voltage>("shaded", open_shaded_range);
  trial.substrings_shaded = map.count("substrings", 1, most_substrings);
  if (substrings && trial.substrings_shaded && *trial.substrings_shaded > *substrings) {
    notes.error("C19", map.at("substrings"),
                fmt::format("{} substrings in the shade, and the panel has {}",
                            *trial.substrings_shaded, *substrings),
                {"write how many whole substrings the shade covered, or mend  substrings:  of the "
                 "panel file"});
  }
  trial.voltmeter = read_side_accuracy<Voltage>(map);
  trial.voltmeter_step = map.quantity<Voltage>("step", voltage_step_range);
}

ShadeTrial read_shade(const Node& node, const std::optional<int>& substrings, Diagnostics& notes) {
  const MapReader map(node, shade_keys, node.span, notes);
  ShadeTrial trial;
  trial.origin = node.span;
  map.require("shade", "write in words what was covered: shade: lower left cell covered whole");
  trial.shade = map.text("shade");
  trial.after = read_when(map);
  trial.date = map.date("date");
  if (map.find("rounds") != nullptr) {
    for (const Node& round :
         side_items(map, "rounds",
                    "rounds: [{free: 81.2 W, shaded: 39.9 W, sun: 905 W/m2, back: 44 degC}]"))
      trial.rounds.push_back(read_round(round, notes));
  }
  if (const Entry* e = map.find("open_voltage")) read_open_voltage(*e, substrings, trial, notes);
  if (map.usable() && map.find("rounds") == nullptr && map.find("open_voltage") == nullptr) {
    notes.error("K02", node.span, "nothing was read in this shade",
                {"write  rounds:  with the power without the shade and in it",
                 "or  open_voltage:  for the bypass diodes"});
  }
  return trial;
}

}  // namespace

std::vector<ShadeTrial> read_shading(const MapReader& record, const std::optional<int>& substrings,
                                     Diagnostics& notes) {
  std::vector<ShadeTrial> trials;
  for (const Node& item :
       side_items(record, "shading", "shading: [{shade: one cell covered, rounds: [...]}]"))
    trials.push_back(read_shade(item, substrings, notes));
  return trials;
}

}  // namespace hailwright::input
