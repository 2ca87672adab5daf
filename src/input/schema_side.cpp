#include "input/record_energy.hpp"
#include "input/record_shading.hpp"
#include "input/schema_mappings.hpp"
#include "input/schema_values.hpp"

namespace hailwright::input {

namespace {

using enum Need;

// Keys that several of these mappings have.

KeyRow when_row() {
  return {"when",   value::words({"before", "after"}),
          optional, "`before` the shots, or `after`",
          "",       "`before`"};
}

KeyRow date() {
  return {"date", value::date(), optional, "", "", "the day of the test"};
}

KeyRow accuracy(Measure measure, std::string_view example, std::string_view left_out) {
  return {"accuracy", value::accuracy({measure}, example),
          optional,   "Maker's figure of the meter, or `unknown`",
          "",         left_out};
}

KeyRow step(Measure measure, std::string_view example, std::string_view range,
            std::string_view left_out) {
  return {"step",  value::amount(measure, example), optional, "One step of the display", range,
          left_out};
}

constexpr std::string_view last_digit = "that of the last digit as typed";

/// One amount for both readings, or one each.
SchemaNode pair_of(Measure measure, std::string_view example, std::string_view name) {
  return value::either({value::amount(measure, example), value::defined(name)});
}

Mapping pair(std::string name, const KeyList& keys, Measure measure, std::string_view example,
             std::string_view range) {
  return {std::move(name),
          keys,
          {
              {"free", value::amount(measure, example), required, "Without the shade", range},
              {"shaded", value::amount(measure, example), required, "In the shade", range},
          }};
}

Mapping ends(std::string name, const KeyList& keys, Measure measure, std::string_view example,
             std::string_view range) {
  return {std::move(name),
          keys,
          {
              {"start", value::amount(measure, example), required, "At the start", range},
              {"end", value::amount(measure, example), required, "At the end", range},
          }};
}

constexpr std::string_view sun_range = "more than 0 W/m2, up to 2000 W/m2";
constexpr std::string_view back_range = "-60 degC to 150 degC";

Mapping shade() {
  SchemaNode some = SchemaNode::object();
  some.set("anyOf", SchemaNode::list(
                        {SchemaNode::object({{"required", SchemaNode::texts({"rounds"})}}),
                         SchemaNode::object({{"required", SchemaNode::texts({"open_voltage"})}})}));
  return {"shade",
          shade_keys,
          {
              {"shade", value::text(), required,
               "What was covered, in words: `lower left cell covered whole`"},
              when_row(),
              date(),
              {"rounds", value::list_of(value::defined("shade round"), 1), optional,
               "List of rounds, see Round of a shade. Three or more show how far rounds differ", "",
               "no loss of power"},
              {"open_voltage", value::defined("open voltage in the shade"), optional,
               "For the bypass diodes, see Open_voltage", "", "they are not looked at"},
          },
          std::move(some)};
}

Mapping shade_round() {
  return {"shade round",
          shade_round_keys,
          {
              {"free", value::amount(Measure::power, "81.2 W"), required,
               "Maximum power without the shade", "more than 0 W, up to 2000 W"},
              {"shaded", value::amount(Measure::power, "39.9 W"), required,
               "Maximum power in the shade, right after or right before", "0 W to 2000 W"},
              {"sun", pair_of(Measure::irradiance, "905 W/m2", "sun of a round"), required,
               "Irradiance in the plane of the panel, beside the shade: once for both, or see Sun "
               "of a round",
               sun_range},
              {"back", pair_of(Measure::temperature, "44 degC", "back of a round"), required,
               "Temperature of the back, behind a cell in the sun: once for both, or see Back of a "
               "round",
               back_range},
          }};
}

Mapping open_voltage() {
  return {
      "open voltage in the shade",
      open_shade_keys,
      {
          {"free", value::amount(Measure::voltage, "21.8 V"), required,
           "Open-circuit voltage without the shade", "more than 0 V, up to 1500 V"},
          {"shaded", value::amount(Measure::voltage, "11.2 V"), required,
           "The same with whole substrings in full shade", "0 V to 1500 V"},
          {"substrings", value::count(1, 12), required,
           "How many whole substrings were in full shade; not more than the panel file has",
           "1 to 12"},
          accuracy(Measure::voltage, "0.5 % + 2 digits", "as of a power meter, see defaults.md"),
          step(Measure::voltage, "0.01 V", "up to 10 V", "the finest step typed here"),
      }};
}

Mapping meter_session() {
  return {"session by meter",
          energy_keys,
          {
              {"name", value::text(), required, "What you call it: `morning`"},
              when_row(),
              date(),
              {"lasting",
               value::either({value::amount(Measure::time, "190 min"),
                              value::matching("^ *[0-9]+ +h +[0-9]+ +min *$", {"3 h 10 min"})}),
               required, "For how long: `190 min` or `3 h 10 min`", "more than 0 s, up to 744 h"},
              {"energy", value::amount(Measure::energy, "212 Wh"), required,
               "What the meter showed at the end, having begun at zero", "0 Wh to 100 kWh"},
              step(Measure::energy, "0.1 Wh", "up to 1 kWh", last_digit),
              accuracy(Measure::energy, "1 % + 1 digit", "as of a power meter, see defaults.md"),
              {"sun", value::defined("sun at the ends"), optional,
               "Irradiance in the plane of the panel, see Sun at the ends", "", "not normalised"},
              {"back", value::defined("back at the ends"), optional,
               "Temperature of the back of the panel, see Back at the ends", "", "not normalised"},
              {"beside", value::defined("panel beside"), optional,
               "A panel beside it, read by a meter of its own over the same time, see Panel beside",
               "", "none"},
          }};
}

Mapping beside() {
  return {"panel beside",
          energy_beside_keys,
          {
              {"label", value::text(), required, "Which panel it was: `C`"},
              {"energy", value::amount(Measure::energy, "205 Wh"), required,
               "What its meter showed at the end, having begun at zero", "0 Wh to 100 kWh"},
              step(Measure::energy, "0.1 Wh", "up to 1 kWh", "as of the first meter"),
              accuracy(Measure::energy, "1 % + 1 digit", "as of the first meter"),
              {"back", value::defined("back at the ends"), optional,
               "Temperature of its back, see Back at the ends", "", "not stated"},
          }};
}

}  // namespace

std::vector<Mapping> side_mappings() {
  return {shade(),
          shade_round(),
          pair("sun of a round", sun_shade_keys, Measure::irradiance, "905 W/m2", sun_range),
          pair("back of a round", back_shade_keys, Measure::temperature, "44 degC", back_range),
          open_voltage(),
          meter_session(),
          ends("sun at the ends", sun_ends_keys, Measure::irradiance, "640 W/m2", sun_range),
          ends("back at the ends", back_ends_keys, Measure::temperature, "41 degC", back_range),
          beside()};
}

}  // namespace hailwright::input
