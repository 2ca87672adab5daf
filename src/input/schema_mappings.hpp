#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "input/map_reader.hpp"
#include "input/schema_json.hpp"
#include "input/stated_text.hpp"

/// What each key of the files means and may be. The lists of keys are those of the readers;
/// the words are those of the format pages, and a test holds the two together.
namespace hailwright::input {

enum class Need { required, optional };

/// One key of a mapping: a row of the format page and what its value may be.
struct KeyRow {
  std::string_view key;
  SchemaNode value;
  Need need = Need::optional;
  std::string_view means = {};
  std::string_view range = {};  ///< as the page has it: "0.1 % to 10 %"
  std::string_view left_out =
      {};  ///< what happens without the key; in `backticks` it is the default
};

struct Mapping {
  std::string name;  ///< of its definition in the schema: "decide"
  KeyList keys;      ///< of the reader; `where` is the heading on the page
  std::vector<KeyRow> rows;
  SchemaNode rules = SchemaNode::object();  ///< which keys go with which
  std::vector<KeyRow> words = {};           ///< keys that are words of a list of their own
};

/// The mapping in JSON Schema. Contract: the rows are those of the list of keys, each once.
SchemaNode schema_of(const Mapping& mapping);

/// The first mapping of each is the file itself.
std::vector<Mapping> protocol_mappings();
std::vector<Mapping> panel_mappings();
std::vector<Mapping> record_mappings();
std::vector<Mapping> column_map_mappings();
std::vector<Mapping> specimens_mappings();

/// Parts of more than one file, or too long for one page of code.
std::vector<Mapping> speed_mappings();
std::vector<Mapping> tool_mappings();
std::vector<Mapping> measure_mappings();
std::vector<Mapping> safety_mappings();
std::vector<Mapping> log_mappings();
/// What a record may hold beside the test itself.
std::vector<Mapping> side_mappings();
/// Stresses other than hail as a protocol plans them, and what a record says was done.
std::vector<Mapping> stress_mappings();
std::vector<Mapping> stress_done_mappings();
/// Figures of the curve.
std::vector<Mapping> curve_mappings();
/// An entry of `stresses` of a protocol.
SchemaNode planned_stress_of_any_kind();
/// What the metrologist writes, for each measure that has a tool.
std::vector<Mapping> uncertainty_mappings();
/// A value with its error.
Mapping value_mapping(Measure measure, std::string_view example);

/// The list of keys that messages name so: "decide". Contract: there is one.
KeyList keys_named(const std::vector<KeyList>& lists, std::string_view where);

/// Rules on which keys go with which.
namespace rule {

/// One of them, and only one.
SchemaNode exactly_one(const std::vector<std::string>& keys);
SchemaNode at_most_one(const std::vector<std::string>& keys);
/// Who has the first has the second too.
SchemaNode needs(std::initializer_list<std::pair<std::string_view, std::string_view>> pairs);

}  // namespace rule

}  // namespace hailwright::input
