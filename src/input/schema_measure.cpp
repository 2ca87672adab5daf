#include "input/schema_mappings.hpp"

#include "input/protocol_measure.hpp"
#include "input/schema_values.hpp"

namespace hailwright::input {

namespace {

using enum Need;

constexpr StatedForm share_of_power{Measure::ratio, true, false};

/// Names of the user's choice, each with a size or a component.
SchemaNode setup_scatter() {
  return SchemaNode::object(
      {{"type", "object"},
       {"additionalProperties",
        value::either({value::amount(Measure::ratio, "0.3 %"), value::defined("component")})}});
}

/// With a second panel it matters whether both are read at once.
SchemaNode meters_for_two_panels() {
  const SchemaNode two_panels = value::words({"control-panel", "sibling-panel"});
  return SchemaNode::object(
      {{"if", SchemaNode::object({{"properties", SchemaNode::object({{"compare", two_panels}})},
                                  {"required", SchemaNode::texts({"compare"})}})},
       {"then", SchemaNode::object({{"required", SchemaNode::texts({"meters"})}})}});
}

Mapping measure() {
  return {
      "measure",
      measure_keys,
      {
          {"compare", value::words({"same-panel", "control-panel", "sibling-panel"}), required,
           "`same-panel` before and after; `control-panel`: the same, with an unstruck panel "
           "beside it; `sibling-panel`: after the shots alone, against unstruck units of the same "
           "model"},
          {"before", value::count(1, 1000), optional,
           "Planned set-ups before the first shot; not for `sibling-panel`", "1 to 1000",
           "the plan proposes 3"},
          {"after", value::count(1, 1000), optional, "Planned set-ups after the last shot",
           "1 to 1000", "the plan proposes 3"},
          {"readings", value::count(1, 1000), optional, "Planned readings of a set-up", "1 to 1000",
           "not judged in the plan"},
          {"meters", value::count(1, 2), optional,
           "required for `control-panel` and `sibling-panel`. `1`: the panels are read in turn. "
           "`2`: at once",
           "1 or 2"},
          {"maximum_power", value::words({"sweep", "tracker settled", "fixed load"}), required,
           "How the load finds the maximum: `sweep`, `tracker settled` or `fixed load`. No "
           "default: a load that does not take all the power makes every reading meaningless"},
          {"load", value::text(), optional, "In words: `power station`"},
          {"redone", value::words_list({"mount", "aim", "probe", "leads"}), optional,
           "What each set-up does anew: a list of `mount`, `aim`, `probe`, `leads`", "",
           "not stated"},
          {"setup_scatter", setup_scatter(), optional,
           "Scatter from set-up to set-up that is stated, not observed. Names of your choice, each "
           "a standard deviation, `{alignment: 0.3 %}`, or a component",
           "0 % to 50 %", "observed scatter only"},
          {"expected_scatter", value::amount(Measure::ratio, "0.6 %"), optional,
           "Standard deviation from set-up to set-up, of the power or of its difference to the "
           "control, that the plan reckons with: `0.6 %`. Never judged by: a record decides by the "
           "scatter that it shows",
           "more than 0 %, up to 50 %",
           "the plan takes `setup_scatter`, or tries 0.3 %, 0.6 % and 1.0 %"},
          {"day", value::amount(Measure::ratio, "0.3 %"), optional,
           "Standard uncertainty that all set-ups of a day share. `0 %` is a statement too",
           "0 % to 50 %", "see defaults.md"},
          {"stage", value::amount(Measure::ratio, "0.2 %"), optional,
           "Standard uncertainty of the panel's own drift between the stages", "0 % to 50 %",
           "see defaults.md"},
          {"control_stability", value::amount(Measure::ratio, "0.2 %"), optional,
           "The same of the control against the struck panel; for `control-panel` alone",
           "0 % to 50 %", "see defaults.md"},
          {"siblings", value::count(1, 100), optional,
           "Planned number of unstruck units; for `sibling-panel` alone. Three or more show how "
           "far units differ, which a decision needs",
           "1 to 100", "not stated"},
          {"unit_tolerance", value::amount(Measure::ratio, "3 %"), optional,
           "Half-width within which the maker says that the power of each unit lies: `3 %`; for "
           "`sibling-panel` alone. It gives an interval where the spread of the units was not "
           "measured, and no decision",
           "more than 0 %, up to 50 %", "not stated"},
          {"trend", value::words({"fitted", "none"}), optional,
           "`fitted`: a straight line in time through all set-ups is taken out, which needs four "
           "or more timed set-ups before and after; not for `sibling-panel`. `none`: nothing is",
           "", "`none`"},
          {"readings_independent", value::text(), optional,
           "The reason why the readings of a set-up count one by one", "", "they do not"},
          {"cell_above_back", value::stated_value(Measure::temperature_difference, "3 K"), optional,
           "How much warmer the cells are than the back at 1000 W/m2: `3 K`, or a value with its "
           "error, or `unknown`",
           "-5 K to 20 K", "see defaults.md; a plain value takes the half-width there"},
      },
      meters_for_two_panels()};
}

Mapping component() {
  return {
      "component",
      component_keys,
      {
          {"accuracy", value::accuracy(share_of_power, "0.3 %"), optional, "A half-width: `0.3 %`"},
          {"spread", value::size(share_of_power, "0.1 %"), optional,
           "A standard deviation: `0.1 %`"},
          {"within", value::within(share_of_power, "0.2 %, 95 %"), optional,
           "A certificate: `0.2 %, 95 %`"},
          {"uncertainty", value::defined(value::name_for("uncertainty", share_of_power)), optional,
           "The metrologist's ways"},
          {"of", value::words({"mount", "aim", "probe", "leads"}), optional,
           "The step it belongs to: `mount`, `aim`, `probe` or `leads`. What a set-up did not redo "
           "is shared with the one before"},
      },
      rule::exactly_one(words_of(stated_keys))};
}

}  // namespace

std::vector<Mapping> measure_mappings() {
  return {measure(), component()};
}

}  // namespace hailwright::input
