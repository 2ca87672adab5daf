#include "input/record_curves.hpp"

#include <algorithm>

#include "input/shared_ranges.hpp"
#include "input/side_values.hpp"

namespace hailwright::input {

namespace {

// Ranges [ours]: wide enough for anything of the size of a panel.
constexpr Range voltage_step{0.0, 10.0, "more than 0 V, up to 10 V", true};
constexpr Range current_step{0.0, 1.0, "more than 0 A, up to 1 A", true};
/// The sun may rise between the two currents of one reading, by so much at most.
constexpr double current_tolerance = 1.02;

template <class Q>
void read_meter(const MapReader& curves, const KeyList& keys, const Range& step_range,
                std::optional<Stated<Q>>& error, std::optional<Q>& step) {
  const Entry* entry = curves.find(keys.where);
  if (entry == nullptr) return;
  const MapReader map(entry->value, keys, entry->key_span, curves.notes());
  error = read_side_accuracy<Q>(map);
  step = map.quantity<Q>("step", step_range);
  if (error && error->digits > 0.0)
    map.require("step", "digits of a display need its step, as in  step: 0.01 V  or  step: 0.01 A");
}

void check_figures(const MapReader& map, const CurveReading& r) {
  if (r.open_circuit && r.at_maximum && *r.at_maximum >= *r.open_circuit) {
    map.notes().error("C55", map.find("voltage_at_maximum")->value.span,
                      "the voltage at maximum power is not below the open-circuit voltage",
                      {"no panel shows that: were the two exchanged, or read in other sun?"});
  }
  if (r.short_circuit && r.current_at_maximum &&
      *r.current_at_maximum > current_tolerance * *r.short_circuit) {
    map.notes().error("C55", map.find("current_at_maximum")->value.span,
                      "the current at maximum power is more than 2 % above the short-circuit "
                      "current",
                      {"no panel shows that: were the two exchanged, or read in other sun?"});
  }
}

CurveReading read_reading(const Node& node, Diagnostics& notes) {
  const MapReader map(node, curve_reading_keys, node.span, notes);
  CurveReading r;
  r.origin = node.span;
  r.open_circuit = map.quantity<Voltage>("open_voltage", voltage_range);
  r.short_circuit = map.quantity<Current>("short_current", current_range);
  r.at_maximum = map.quantity<Voltage>("voltage_at_maximum", voltage_range);
  r.current_at_maximum = map.quantity<Current>("current_at_maximum", current_range);
  map.require("sun", "write the irradiance of this reading: sun: 905 W/m2");
  map.require("back", "write the temperature of the panel at this reading: back: 44 degC");
  r.sun = map.quantity<Irradiance>("sun", side_sun_range).value_or(Irradiance{});
  r.back = map.quantity<TemperaturePoint>("back", side_back_range).value_or(TemperaturePoint{});
  const auto given = [&](const char* key) { return map.find(key) != nullptr; };
  if (map.usable() && !given("open_voltage") && !given("short_current") &&
      !given("voltage_at_maximum") && !given("current_at_maximum")) {
    notes.error("K02", node.span, "this reading has none of the four figures of the curve",
                {"write at least one, as in  open_voltage: 21.4 V"});
  }
  check_figures(map, r);
  return r;
}

std::vector<CurveReading> read_stage(const MapReader& curves, std::string_view key) {
  std::vector<CurveReading> stage;
  if (curves.require(key, "curves are compared: write the readings of both, before: [...] and "
                          "after: [...]") == nullptr) {
    return stage;
  }
  for (const Node& node : side_items(curves, key,
                                     "before: [{open_voltage: 21.4 V, sun: 905 W/m2, back: 44 "
                                     "degC}]")) {
    stage.push_back(read_reading(node, curves.notes()));
  }
  return stage;
}

template <class Member>
bool read_in(const std::vector<CurveReading>& stage, Member member) {
  return std::any_of(stage.begin(), stage.end(),
                     [&](const CurveReading& r) { return (r.*member).has_value(); });
}

bool compares_anything(const CurveReadings& curves) {
  const auto both = [&](auto member) {
    return read_in(curves.before, member) && read_in(curves.after, member);
  };
  return both(&CurveReading::open_circuit) || both(&CurveReading::short_circuit) ||
         both(&CurveReading::at_maximum) || both(&CurveReading::current_at_maximum);
}

}  // namespace

std::optional<CurveReadings> read_curves(const MapReader& record, Diagnostics& notes) {
  const Entry* entry = record.find("curves");
  if (entry == nullptr) return std::nullopt;
  const MapReader map(entry->value, curves_keys, entry->key_span, notes);
  if (!map.usable()) return std::nullopt;
  CurveReadings curves;
  curves.origin = entry->key_span;
  read_meter(map, voltmeter_keys, voltage_step, curves.voltmeter, curves.voltmeter_step);
  read_meter(map, ammeter_keys, current_step, curves.ammeter, curves.ammeter_step);
  const std::size_t so_far = notes.items().size();
  curves.before = read_stage(map, "before");
  curves.after = read_stage(map, "after");
  if (notes.items().size() == so_far && !compares_anything(curves)) {
    notes.error("C56", entry->key_span, "no figure of the curve was read before and after",
                {"a pattern is found from what changed: write the same figures in both stages"});
  }
  return curves;
}

}  // namespace hailwright::input
