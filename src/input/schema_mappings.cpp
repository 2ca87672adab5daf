#include "input/schema_mappings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "hailwright/core/contract.hpp"

namespace hailwright::input {

namespace {

/// "Of the shots. Range: 1 to 20. Left out: the plan proposes 3."
std::string description_of(const KeyRow& row) {
  std::string text(row.means);
  const auto append = [&](std::string_view head, std::string_view words) {
    if (words.empty()) return;
    if (!text.empty()) text += text.ends_with('.') ? " " : ". ";
    text += fmt::format("{}{}", head, words);
  };
  append("Range: ", row.range);
  append("Left out: ", row.left_out);
  return text;
}

/// The default of a key, where the page gives one that could be typed.
const SchemaNode* default_of(const KeyRow& row, SchemaNode& made) {
  const std::string_view words = row.left_out;
  const bool word =
      words.size() > 2 && words.starts_with('`') && words.find('`', 1) + 1 == words.size();
  int number = 0;
  const auto [end, error] = std::from_chars(words.data(), words.data() + words.size(), number);
  if (word) {
    made = SchemaNode(words.substr(1, words.size() - 2));
  } else if (!words.empty() && error == std::errc{} && end == words.data() + words.size()) {
    made = SchemaNode(number);
  } else {
    return nullptr;
  }
  return &made;
}

SchemaNode property_of(const KeyRow& row) {
  SchemaNode property = SchemaNode::object();
  if (const std::string text = description_of(row); !text.empty())
    property.set("description", text);
  property.add(row.value);
  SchemaNode made("");
  if (const SchemaNode* value = default_of(row, made)) property.set("default", *value);
  return property;
}

SchemaNode required_of(const std::vector<std::string>& keys) {
  return SchemaNode::object({{"required", SchemaNode::texts(keys)}});
}

}  // namespace

SchemaNode schema_of(const Mapping& mapping) {
  const std::vector<std::string> keys = words_of(mapping.keys.keys);
  expects(keys.size() == mapping.rows.size(), "a row for each key of a mapping");
  SchemaNode properties = SchemaNode::object();
  std::vector<std::string> required;
  for (const std::string& key : keys) {
    const auto row = std::find_if(mapping.rows.begin(), mapping.rows.end(),
                                  [&](const KeyRow& r) { return r.key == key; });
    expects(row != mapping.rows.end(), "each key of a mapping has a row");
    properties.set(key, property_of(*row));
    if (row->need == Need::required) required.push_back(key);
  }
  for (const KeyRow& word : mapping.words)
    properties.set(word.key, property_of(word));
  SchemaNode schema = SchemaNode::object({{"type", "object"}});
  schema.set("properties", properties);
  if (!required.empty()) schema.set("required", SchemaNode::texts(required));
  schema.set("additionalProperties", false);
  return schema.add(mapping.rules);
}

KeyList keys_named(const std::vector<KeyList>& lists, std::string_view where) {
  const auto found = std::find_if(lists.begin(), lists.end(),
                                  [&](const KeyList& list) { return list.where == where; });
  expects(found != lists.end(), "a list of keys of this name");
  return *found;
}

namespace rule {

SchemaNode exactly_one(const std::vector<std::string>& keys) {
  std::vector<SchemaNode> ways;
  for (const std::string& key : keys)
    ways.push_back(required_of({key}));
  return SchemaNode::object({{"oneOf", SchemaNode::list(std::move(ways))}});
}

SchemaNode at_most_one(const std::vector<std::string>& keys) {
  std::vector<SchemaNode> pairs;
  for (auto first = keys.begin(); first != keys.end(); ++first) {
    for (auto second = first + 1; second != keys.end(); ++second)
      pairs.push_back(required_of({*first, *second}));
  }
  return SchemaNode::object(
      {{"not", SchemaNode::object({{"anyOf", SchemaNode::list(std::move(pairs))}})}});
}

SchemaNode needs(std::initializer_list<std::pair<std::string_view, std::string_view>> pairs) {
  SchemaNode all = SchemaNode::object();
  for (const auto& [key, other] : pairs)
    all.set(key, SchemaNode::texts({std::string(other)}));
  return SchemaNode::object({{"dependentRequired", all}});
}

}  // namespace rule

}  // namespace hailwright::input
