#include "input/record_energy.hpp"

#include <fmt/format.h>

#include "input/side_values.hpp"
#include "input/stated_text.hpp"

namespace hailwright::input {

namespace {

// Ranges [ours]: wide enough for any panel meant here, narrow enough to catch a slip in the unit.
constexpr Range meter_energy_range{0.0, 3.6e8, "from 0 Wh to 100 kWh"};
constexpr Range meter_step_range{0.0, 3.6e6, "more than 0 Wh, up to 1 kWh", true};
constexpr Range lasting_range{0.0, 31.0 * 86400.0, "more than 0 s, up to 744 h", true};

/// "3 h 10 min", which stands for 190 min; nullopt for any other form.
std::optional<Amount> hours_and_minutes(const std::string& text) {
  const std::vector<std::string> words = words_of(text);
  if (words.size() != 4 || words[1] != "h" || words[3] != "min") return std::nullopt;
  const auto hours = read_count(words[0]);
  const auto minutes = read_count(words[2]);
  if (!hours.value || !minutes.value) return std::nullopt;
  return Amount{*hours.value * 3600.0 + *minutes.value * 60.0, 60.0};
}

std::optional<Amount> read_lasting(const Node& node, Diagnostics& notes) {
  if (node.kind == NodeKind::text) {
    const auto amount = hours_and_minutes(node.text);
    if (amount && lasting_range.holds(amount->si)) return amount;
    if (amount) {
      notes.error("R01", node.span, fmt::format("'lasting' must be {}", lasting_range.words));
      return std::nullopt;
    }
  }
  return read_amount_of(node, "'lasting'", Measure::time, lasting_range, notes);
}

/// What a meter showed, with the step of its last digit as typed.
template <class Session>
void read_meter(const MapReader& map, Session& session) {
  if (const Entry* e = map.require("energy", "write what the meter showed: energy: 212 Wh")) {
    const auto energy =
        read_amount_of(e->value, "'energy'", Measure::energy, meter_energy_range, map.notes());
    if (energy) {
      session.energy = Energy::from_si(energy->si);
      session.typed_step = Energy::from_si(energy->step_si);
    }
  }
  session.energy_step = map.quantity<Energy>("step", meter_step_range);
  session.meter = read_side_accuracy<Energy>(map);
}

template <class Q>
void read_ends(const MapReader& map, const char* key, const KeyList& keys, const Range& range,
               std::optional<Q>& start, std::optional<Q>& end) {
  const Entry* entry = map.find(key);
  if (entry == nullptr) return;
  const MapReader ends(entry->value, keys, entry->key_span, map.notes());
  for (const char* which : {"start", "end"})
    ends.require(which, fmt::format("write both:  {}: {{start: ..., end: ...}}", key));
  start = ends.quantity<Q>("start", range);
  end = ends.quantity<Q>("end", range);
}

EnergyBeside read_beside(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, energy_beside_keys, entry.key_span, notes);
  EnergyBeside beside;
  beside.origin = entry.key_span;
  map.require("label", "write which panel it was, as in  label: C");
  beside.label = map.text("label");
  read_meter(map, beside);
  read_ends(map, "back", back_ends_keys, side_back_range, beside.back_start, beside.back_end);
  return beside;
}

MeterSession read_session(const Node& node, Diagnostics& notes) {
  const MapReader map(node, energy_keys, node.span, notes);
  MeterSession session;
  session.origin = node.span;
  map.require("name", "write what you call it, as in  name: morning");
  session.name = map.text("name");
  session.after = read_when(map);
  session.date = map.date("date");
  if (const Entry* e = map.require("lasting", "write for how long: lasting: 3 h 10 min")) {
    if (const auto lasting = read_lasting(e->value, notes)) {
      session.lasting = Time::from_si(lasting->si);
      session.lasting_step = Time::from_si(lasting->step_si);
    }
  }
  read_meter(map, session);
  read_ends(map, "sun", sun_ends_keys, side_sun_range, session.sun_start, session.sun_end);
  read_ends(map, "back", back_ends_keys, side_back_range, session.back_start, session.back_end);
  if (const Entry* e = map.find("beside")) session.beside = read_beside(*e, notes);
  return session;
}

}  // namespace

std::vector<MeterSession> read_energy(const MapReader& record, Diagnostics& notes) {
  std::vector<MeterSession> sessions;
  for (const Node& item : side_items(record, "energy",
                                     "energy: [{name: morning, lasting: 3 h 10 min, "
                                     "energy: 212 Wh}]"))
    sessions.push_back(read_session(item, notes));
  return sessions;
}

}  // namespace hailwright::input
