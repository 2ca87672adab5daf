#include "input/record_curves.hpp"
#include "input/schema_mappings.hpp"
#include "input/schema_values.hpp"

namespace hailwright::input {

namespace {

using enum Need;

Mapping meter(std::string name, const KeyList& keys, Measure measure, std::string_view step) {
  return {
      std::move(name),
      keys,
      {
          {"accuracy", value::accuracy({measure, true, true}, "0.5 % + 2 digits"), optional,
           "Maker's figure: `0.5 % + 2 digits`, or `unknown`", "", "5 % and 3 digits"},
          {"step", value::amount(measure, step), optional,
           "One step of the display. Required where `accuracy` has digits",
           measure == Measure::voltage ? "more than 0 V, up to 10 V" : "more than 0 A, up to 1 A",
           measure == Measure::voltage ? "0.01 V" : "0.01 A"},
      }};
}

Mapping curves() {
  return {"curves",
          curves_keys,
          {
              {"voltmeter", value::defined("voltmeter"), optional,
               "The one that read all voltages, see Voltmeter", "", "a cheap one"},
              {"ammeter", value::defined("ammeter"), optional,
               "The one that read all currents, see Ammeter", "", "a cheap one"},
              {"before", value::list_of(value::defined("a reading of the curve"), 1), required,
               "List of readings before the shots, see A reading of the curve. Three or more show "
               "their scatter"},
              {"after", value::list_of(value::defined("a reading of the curve"), 1), required,
               "The same after the shots, with the same instruments"},
          }};
}

Mapping reading() {
  return {"a reading of the curve",
          curve_reading_keys,
          {
              {"open_voltage", value::amount(Measure::voltage, "21.4 V"), optional,
               "Open-circuit voltage", "more than 0 V, up to 1500 V", "not read"},
              {"short_current", value::amount(Measure::current, "5.2 A"), optional,
               "Short-circuit current", "more than 0 A, up to 100 A", "not read"},
              {"voltage_at_maximum", value::amount(Measure::voltage, "17.2 V"), optional,
               "Voltage at maximum power; below the open-circuit voltage",
               "more than 0 V, up to 1500 V", "not read"},
              {"current_at_maximum", value::amount(Measure::current, "4.9 A"), optional,
               "Current at maximum power; not more than 2 % above the short-circuit current",
               "more than 0 A, up to 100 A", "not read"},
              {"sun", value::amount(Measure::irradiance, "905 W/m2"), required,
               "Irradiance at this reading, by the protocol's sun meter",
               "more than 0 W/m2, up to 2000 W/m2"},
              {"back", value::amount(Measure::temperature, "44 degC"), required,
               "Temperature of the panel at this reading, by the protocol's thermometer",
               "-60 degC to 150 degC"},
          }};
}

}  // namespace

std::vector<Mapping> curve_mappings() {
  return {curves(), meter("voltmeter", voltmeter_keys, Measure::voltage, "0.01 V"),
          meter("ammeter", ammeter_keys, Measure::current, "0.01 A"), reading()};
}

}  // namespace hailwright::input
