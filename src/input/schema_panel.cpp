#include "input/schema_mappings.hpp"

#include "input/panel_reader.hpp"
#include "input/schema_patterns.hpp"
#include "input/schema_values.hpp"

namespace hailwright::input {

namespace {

using enum Need;

SchemaNode money(const std::string& example) {
  return value::matching(pattern::money(), {example});
}

Mapping panel_mapping() {
  return {
      "panel",
      keys_named(panel_keys(), "the panel"),
      {
          {"hailwright", SchemaNode::object({{"const", "panel 1"}}), required,
           "first key of the file: `panel 1`"},
          {"name", value::text(), required, "What the panel is called in the write-up"},
          {"build", value::defined("build"), required, "See Build"},
          {"rated", value::defined("rated"), optional, "What the label says, see Rated", "",
           "not shown"},
          {"temperature",
           value::either(
               {SchemaNode::object({{"const", "unknown"}}), value::defined("temperature")}),
           optional, "Temperature coefficients, see Temperature, or `unknown`", "",
           "see defaults.md"},
          {"size", value::matching(pattern::sides(2, 3), {"1020 x 510 x 35 mm", "1020 x 510 mm"}),
           optional, "Outer size, long side first: `1020 x 510 x 35 mm` or `1020 x 510 mm`",
           "up to 5 m", "positions are not checked"},
          {"frame", value::amount(Measure::length, "12 mm"), optional,
           "Width of one side of the frame over the glass, seen from the front: `12 mm`. Nothing "
           "but `0 mm` for `frameless glass` and `flexible`",
           "0 mm to 100 mm", "12 mm for `framed glass` [ours], see places.md; none for the others"},
          {"cells", value::defined("cells"), optional, "Grid of cells, see Cells", "",
           "not drawn, and no places over cells"},
          {"junction_box", value::defined("junction box"), optional, "See Junction_box", "",
           "not drawn, and no place over it"},
          {"mounts", value::list_of(value::matching(pattern::sides(2, 2), {"100 x 20 mm"}), 0),
           optional, "List of the points where the panel is held: `[100 x 20 mm, 920 x 20 mm]`",
           "on the panel", "not drawn, and no places near them"},
          {"weight", value::amount(Measure::mass, "6.9 kg"), optional, "",
           "more than 0 kg, up to 100 kg", "not shown"},
          {"price", value::either({money("89 EUR"), value::defined("price")}), optional,
           "With its currency, three capital letters: `89 EUR`; or several, see Price", "0 or more",
           "not shown"},
          {"leads", value::defined("leads"), optional, "Its cables, see Leads", "", "not shown"},
          {"substrings", value::count(1, 12), optional,
           "Groups of cells with a bypass diode each: `2`. Against them a drop of the open-circuit "
           "voltage in the shade is held",
           "1 to 12", "such a drop is not judged"},
          {"smallest_radius", value::amount(Measure::length, "300 mm"), optional,
           "To which the maker says that a flexible panel may be bent: `300 mm`",
           "more than 0 m, up to 20 m", "not shown"},
          {"came", value::defined("came"), optional, "Where it came from, see Came", "",
           "not shown"},
      }};
}

Mapping build() {
  return {"build",
          keys_named(panel_keys(), "build"),
          {
              {"kind", value::words({"framed glass", "frameless glass", "flexible"}), required,
               "`framed glass`, `frameless glass` or `flexible`: decides which cautions apply"},
              {"glass", value::amount(Measure::length, "3.2 mm"), optional,
               "Thickness of the front glass, up to 20 mm"},
          }};
}

Mapping rated() {
  return {"rated",
          keys_named(panel_keys(), "rated"),
          {
              {"power", value::amount(Measure::power, "100 W"), optional, "Maximum power",
               "more than 0 W, up to 2000 W"},
              {"open_voltage", value::amount(Measure::voltage, "22.1 V"), optional,
               "Open-circuit voltage", "more than 0 V, up to 1500 V"},
              {"short_current", value::amount(Measure::current, "5.9 A"), optional,
               "Short-circuit current", "more than 0 A, up to 100 A"},
          }};
}

Mapping temperature() {
  return {
      "temperature",
      keys_named(panel_keys(), "temperature"),
      {
          {"power", value::stated_value(Measure::temperature_coefficient, "-0.35 %/K"), optional,
           "Relative change of the maximum power per kelvin: `-0.35 %/K`", "",
           "see defaults.md; so does the error of a plain value"},
          {"voltage", value::stated_value(Measure::temperature_coefficient, "-0.28 %/K"), optional,
           "Relative change of the open-circuit voltage per kelvin: `-0.28 %/K`", "", "not stated"},
      }};
}

Mapping cells() {
  return {"cells",
          keys_named(panel_keys(), "cells"),
          {
              {"grid", value::matching(pattern::grid(), {"9 x 4"}), required,
               "Cells along the long side x along the short side: `9 x 4`, up to 200 each"},
              {"margin", value::amount(Measure::length, "25 mm"), optional,
               "From the outer edge of the panel to the first cell, up to 500 mm; the width of the "
               "frame when left out"},
              {"gap", value::amount(Measure::length, "2 mm"), optional,
               "Between neighbouring cells, up to 50 mm; 0 mm when left out"},
          }};
}

Mapping junction_box() {
  return {"junction box",
          keys_named(panel_keys(), "junction_box"),
          {
              {"at", value::matching(pattern::sides(2, 2), {"510 x 60 mm"}), required,
               "Its middle: `510 x 60 mm`"},
              {"size", value::matching(pattern::sides(2, 2), {"90 x 70 mm"}), required,
               "Width x height: `90 x 70 mm`"},
          }};
}

Mapping price() {
  return {"price",
          keys_named(panel_keys(), "price"),
          {
              {"low", money("79 EUR"), required, "The lowest that was asked for it"},
              {"high", money("99 EUR"), required, "The highest"},
              {"average", money("89 EUR"), required, "With which prices per watt are reckoned"},
          }};
}

Mapping leads() {
  return {"leads",
          keys_named(panel_keys(), "leads"),
          {
              {"length", value::amount(Measure::length, "0.9 m"), optional,
               "Of one lead: `0.9 m`, up to 50 m"},
              {"connector", value::text(), optional, "At their ends, in words"},
          }};
}

Mapping came() {
  return {"came",
          keys_named(panel_keys(), "came"),
          {
              {"bought_by", value::text(), optional, "Who paid"},
              {"from", value::text(), optional, "Where"},
              {"on", value::date(), optional, "The date"},
              {"condition", value::text(), optional, "Of the panel when it came"},
          }};
}

}  // namespace

std::vector<Mapping> panel_mappings() {
  return {panel_mapping(), build(),
          rated(),         temperature(),
          cells(),         junction_box(),
          price(),         leads(),
          came(),          value_mapping(Measure::temperature_coefficient, "-0.35 %/K")};
}

}  // namespace hailwright::input
