#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "hailwright/core/quantity_text.hpp"
#include "input/schema_json.hpp"
#include "input/stated_text.hpp"

/// What may stand behind a key, as a schema says it. What many keys have in common is a definition
/// that they point at.
namespace hailwright::input::value {

/// Any text but an answer that is still to come. A YAML parser takes some texts for numbers or
/// truth values, the readers never.
SchemaNode text();
/// The path of a file, or the rows of a table in a `|` block.
SchemaNode table();
/// One text, or a list of them.
SchemaNode texts();
SchemaNode date();
SchemaNode yes_no();
/// A stage and a number: "before 1".
SchemaNode setup_name();
/// One of these and nothing else.
SchemaNode words(const std::vector<std::string>& all);
/// A list of them, each at most once.
SchemaNode words_list(const std::vector<std::string>& all);
/// A whole number in this range, quoted or not; of a quoted one the range is not seen.
SchemaNode count(int low, int high);
/// A plain number of 1 or more, such as a coverage factor.
SchemaNode factor();

/// An amount with its unit.
SchemaNode amount(Measure measure, std::string_view example);
/// A plain amount, or one with its error.
SchemaNode stated_value(Measure measure, std::string_view example);
/// A maker's figure.
SchemaNode accuracy(const StatedForm& form, std::string_view example);
/// One size of an error.
SchemaNode size(const StatedForm& form, std::string_view example);
/// What a certificate says.
SchemaNode within(const StatedForm& form, std::string_view example);

/// A text of this form.
SchemaNode matching(const std::string& pattern, const std::vector<std::string>& examples);
/// The definition of this name.
SchemaNode defined(std::string_view name);
/// A list of what the definition says, of at least so many.
SchemaNode list_of(SchemaNode item, int least);
SchemaNode either(std::vector<SchemaNode> ways);

/// Names of definitions that depend on a measure: "uncertainty of power", "power with its error".
std::string name_for(std::string_view what, const StatedForm& form);
std::string name_with_error(Measure measure);

/// The definitions that these values point at, each with its name.
std::vector<std::pair<std::string, SchemaNode>> definitions();

}  // namespace hailwright::input::value
