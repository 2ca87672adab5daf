#include "input/schema_mappings.hpp"

#include "input/schema_values.hpp"
#include "input/tools_reader.hpp"

namespace hailwright::input {

namespace {

using enum Need;

/// What an editor shows beside the keys of one tool.
struct ToolExamples {
  std::string_view accuracy, spread, within, step;
};

std::vector<KeyRow> tool_rows(const StatedForm& form, const ToolExamples& shown) {
  return {
      {"id", value::text(), optional, "Which one it is, in your words: `clamp meter 2`", "",
       "not said"},
      {"accuracy", value::accuracy(form, shown.accuracy), optional,
       "Maker's figure: `1 % + 3 digits`, or `unknown`", "", "see defaults.md"},
      {"spread", value::size(form, shown.spread), optional,
       "Standard deviation of your own repeats: `0.3 g`"},
      {"within", value::within(form, shown.within), optional, "A certificate: `0.6 g, 95 %`"},
      {"uncertainty", value::defined(value::name_for("uncertainty", form)), optional,
       "The metrologist's ways"},
      {"step", value::amount(form.measure, shown.step), optional, "One step of the display",
       "up to 100 W, 100 W/m2, 100 g, 10 mm", "the finest step typed in that column"},
  };
}

/// A tool for the balls, whose gain is one for all stages.
Mapping sizing_tool(std::string name, Measure measure, const ToolExamples& shown) {
  return {std::move(name), sizing_tool_keys, tool_rows({measure, true, true}, shown),
          rule::at_most_one(words_of(stated_keys))};
}

Mapping tool(std::string name, Measure measure, const ToolExamples& shown) {
  Mapping mapping = sizing_tool(std::move(name), measure, shown);
  mapping.keys = tool_keys;
  mapping.rows.push_back({"between_stages", value::amount(Measure::ratio, "0.5 %"), optional,
                          "Share of the reading by which the gain may change between the stages",
                          "0 % to 100 %", "see defaults.md"});
  return mapping;
}

Mapping thermometer() {
  // As in the reader: per cent of a temperature depend on where its scale begins.
  constexpr StatedForm form{Measure::temperature_difference, false, false};
  return {"thermometer",
          thermometer_keys,
          {
              {"id", value::text(), optional, "Which one it is, in your words", "", "not said"},
              {"accuracy", value::accuracy(form, "2 degC"), optional,
               "Maker's figure, the same error all the time: `2 degC`, or `unknown`", "",
               "see defaults.md"},
              {"spread", value::size(form, "0.5 K"), optional,
               "Standard deviation of your own repeats"},
              {"within", value::within(form, "1 K, 95 %"), optional, "A certificate: `1 K, 95 %`"},
              {"uncertainty", value::defined(value::name_for("uncertainty", form)), optional,
               "The metrologist's ways"},
              {"each_time", value::accuracy(form, "1 K"), optional,
               "Half-width of the error of attaching or aiming it anew, written like `accuracy`",
               "", "see defaults.md"},
              {"where", value::words({"back", "cell", "front"}), optional,
               "`back`, `cell` or `front`", "", "back, see defaults.md under cell above back"},
              {"kind", value::words({"infrared", "contact"}), optional, "`infrared` or `contact`",
               "", "contact"},
              {"one_per", value::words({"panel"}), optional,
               "`panel`: each panel has a thermometer of its own", "", "one for all"},
          },
          rule::at_most_one(words_of(stated_keys))};
}

Mapping tools() {
  return {
      "tools",
      tools_keys,
      {
          {"meter", value::defined("meter"), optional, "Power meter, see Tool"},
          {"sun", value::defined("sun"), optional, "Irradiance meter, see Tool"},
          {"thermometer", value::defined("thermometer"), optional, "Of the panel, see Thermometer"},
          {"scales", value::defined("scales"), optional,
           "For the balls, see Tool, without `between_stages`"},
          {"calipers", value::defined("calipers"), optional,
           "For the balls, see Tool, without `between_stages`"},
      }};
}

}  // namespace

std::vector<Mapping> tool_mappings() {
  return {tools(),
          tool("meter", Measure::power, {"1 % + 3 digits", "0.2 W", "0.6 W, 95 %", "0.1 W"}),
          tool("sun", Measure::irradiance, {"5 %", "10 W/m2", "30 W/m2, 95 %", "1 W/m2"}),
          thermometer(),
          sizing_tool("scales", Measure::mass, {"0.2 g", "0.1 g", "0.6 g, 95 %", "0.1 g"}),
          sizing_tool("calipers", Measure::length, {"0.1 mm", "0.1 mm", "0.1 mm, 95 %", "0.1 mm"})};
}

}  // namespace hailwright::input
