#include "input/tools_reader.hpp"

namespace hailwright::input {

namespace {

/// Steps of a display up to these [ours]: anything coarser is a slip in the unit.
constexpr Range power_step{0.0, 100.0, "more than 0 W, up to 100 W", true};
constexpr Range sun_step{0.0, 100.0, "more than 0 W/m2, up to 100 W/m2", true};
constexpr Range mass_step{0.0, 0.1, "more than 0 g, up to 100 g", true};
constexpr Range length_step{0.0, 0.01, "more than 0 mm, up to 10 mm", true};
constexpr Range share{0.0, 1.0, "from 0 % to 100 %"};

/// `keys` has between_stages for a tool whose gain is drawn in part anew in each stage.
template <class Q>
Tool<Q> read_tool(const Entry& entry, const KeyList& keys, const Range& step, Diagnostics& notes) {
  Tool<Q> tool;
  tool.origin = entry.key_span;
  const MapReader map(entry.value, keys, entry.key_span, notes);
  tool.id = map.text("id");
  tool.error = stated_as<Q>(read_statement(map, {MeasureOf<Q>::value}));
  tool.step = map.quantity<Q>("step", step);
  if (map.knows("between_stages"))
    tool.between_stages = map.quantity<Ratio>("between_stages", share);
  return tool;
}

Thermometer read_thermometer(const Entry& entry, Diagnostics& notes) {
  Thermometer thermometer;
  thermometer.origin = entry.key_span;
  const MapReader map(entry.value, thermometer_keys, entry.key_span, notes);
  thermometer.id = map.text("id");
  // Per cent of a temperature depend on where its scale begins.
  const StatedForm form{Measure::temperature_difference, false, false};
  thermometer.error = stated_as<TemperatureDifference>(read_statement(map, form));
  if (const Entry* each = map.find("each_time")) {
    thermometer.each_time =
        stated_as<TemperatureDifference>(read_accuracy(each->value, "'each_time'", form, notes));
  }
  thermometer.where = map.choice<SensorPlace>(
      "where",
      {{"back", SensorPlace::back}, {"cell", SensorPlace::cell}, {"front", SensorPlace::front}});
  thermometer.infrared =
      map.choice<bool>("kind", {{"infrared", true}, {"contact", false}}).value_or(false);
  thermometer.one_per_panel = map.choice<bool>("one_per", {{"panel", true}}).value_or(false);
  return thermometer;
}

}  // namespace

Tools read_tools(const Node& node, SourceSpan owner, Diagnostics& notes) {
  Tools tools;
  const MapReader map(node, tools_keys, owner, notes);
  if (const Entry* e = map.find("meter"))
    tools.meter = read_tool<Power>(*e, tool_keys, power_step, notes);
  if (const Entry* e = map.find("sun"))
    tools.sun = read_tool<Irradiance>(*e, tool_keys, sun_step, notes);
  if (const Entry* e = map.find("thermometer")) tools.thermometer = read_thermometer(*e, notes);
  if (const Entry* e = map.find("scales"))
    tools.scales = read_tool<Mass>(*e, sizing_tool_keys, mass_step, notes);
  if (const Entry* e = map.find("calipers"))
    tools.calipers = read_tool<Length>(*e, sizing_tool_keys, length_step, notes);
  return tools;
}

}  // namespace hailwright::input
