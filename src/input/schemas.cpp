#include "hailwright/input/schemas.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>

#include "hailwright/core/contract.hpp"
#include "input/schema_mappings.hpp"
#include "input/schema_values.hpp"

namespace hailwright {

namespace input {

namespace {

constexpr std::string_view ref_prefix = "#/$defs/";

using Definitions = std::vector<std::pair<std::string, SchemaNode>>;

/// As a pointer has it: "uncertainty_of_power".
std::string pointer_name(std::string name) {
  std::replace(name.begin(), name.end(), ' ', '_');
  return name;
}

/// The names that a schema points at, behind those found already.
void gather_refs(const SchemaNode& schema, std::vector<std::string>& names) {
  std::vector<const SchemaNode*> left{&schema};
  while (!left.empty()) {
    const SchemaNode& node = *left.back();
    left.pop_back();
    if (const SchemaNode* ref = node.find("$ref"))
      names.push_back(ref->text().substr(ref_prefix.size()));
    for (const SchemaNode& value : node.values())
      left.push_back(&value);
  }
}

/// What the file points at, and what that points at in turn; a name that has no definition is our
/// mistake.
std::set<std::string> reached(const SchemaNode& file, const Definitions& all) {
  std::set<std::string> names;
  std::vector<std::string> left;
  gather_refs(file, left);
  while (!left.empty()) {
    const std::string name = left.back();
    left.pop_back();
    if (!names.insert(name).second) continue;
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const auto& d) { return pointer_name(d.first) == name; });
    expects(found != all.end(), "a definition for each name that a schema points at");
    gather_refs(found->second, left);
  }
  return names;
}

SchemaNode schema_of_file(std::string_view word, const std::vector<Mapping>& mappings,
                          Definitions definitions) {
  for (auto mapping = mappings.begin() + 1; mapping != mappings.end(); ++mapping)
    definitions.emplace_back(mapping->name, schema_of(*mapping));
  const SchemaNode file = schema_of(mappings.front());
  const std::set<std::string> used = reached(file, definitions);
  SchemaNode defs = SchemaNode::object();
  for (const auto& [name, definition] : definitions) {
    if (used.contains(pointer_name(name))) defs.set(pointer_name(name), definition);
  }
  SchemaNode schema = SchemaNode::object(
      {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
       {"$id", fmt::format("urn:hailwright:{}:1", word)},
       {"title", fmt::format("hailwright {} 1", word)},
       {"description", fmt::format("A file that begins with  hailwright: {0} 1.  Read as YAML 1.2. "
                                   "`hailwright check` finds more: see docs/{0}-format.md",
                                   word)}});
  return schema.add(file).set("$defs", defs);
}

/// A record lists only the tools that were others after the shots; what a column map has at the top
/// stands beside each log.
std::vector<Mapping> whole_record() {
  std::vector<Mapping> all = record_mappings();
  std::vector<Mapping> columns = column_map_mappings();
  std::move(columns.begin() + 1, columns.end(), std::back_inserter(all));
  for (Mapping& mapping : tool_mappings())
    all.push_back(std::move(mapping));
  for (Mapping& mapping : uncertainty_mappings())
    all.push_back(std::move(mapping));
  return all;
}

}  // namespace

}  // namespace input

std::string json_schema(FileKind kind) {
  using namespace input;
  switch (kind) {
  case FileKind::protocol:
    return schema_of_file("protocol", protocol_mappings(), value::definitions()).dump();
  case FileKind::panel:
    return schema_of_file("panel", panel_mappings(), value::definitions()).dump();
  case FileKind::record:
    return schema_of_file("record", whole_record(), value::definitions()).dump();
  case FileKind::columns:
    return schema_of_file("columns", column_map_mappings(), value::definitions()).dump();
  case FileKind::specimens:
    return schema_of_file("specimens", specimens_mappings(), value::definitions()).dump();
  case FileKind::unknown:
    break;
  }
  fail_contract("a kind of file that has a schema");
}

}  // namespace hailwright
