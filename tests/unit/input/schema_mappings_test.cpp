// The words of the schemas against docs/*-format.md, row by row, and the rules on keys.
#include "input/schema_mappings.hpp"

#include <fstream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>

#include "input/log_format_reader.hpp"
#include "input/panel_reader.hpp"
#include "input/protocol_reader.hpp"
#include "input/record_reader.hpp"
#include "input/specimens_reader.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::input;
using nlohmann::json;

namespace {

/// A row of a page's table of keys, without links and bold type.
struct PageRow {
  bool required = false;
  std::string means, range, left_out;
};
using PageRows = std::map<std::string, PageRow>;

std::string without_markup(std::string cell) {
  cell = std::regex_replace(cell, std::regex("^\\*\\*required\\*\\*([.,] ?|$)"), "");
  cell = std::regex_replace(cell, std::regex("\\[([^\\]]*)\\]\\([^)]*\\)"), "$1");
  return std::regex_replace(cell, std::regex("\\*\\*"), "");
}

/// "| a | b |" to its cells.
std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream stream(line.substr(1));
  for (std::string cell; std::getline(stream, cell, '|');) {
    const std::size_t begin = cell.find_first_not_of(' ');
    cells.push_back(begin == std::string::npos
                        ? ""
                        : cell.substr(begin, cell.find_last_not_of(' ') + 1 - begin));
  }
  return cells;
}

PageRow row_of(const std::vector<std::string>& heads, const std::vector<std::string>& cells) {
  PageRow row;
  row.required = std::regex_search(cells[1], std::regex("^\\*\\*required\\*\\*([.,]|$)"));
  row.means = without_markup(cells[1]);
  for (std::size_t i = 2; i < heads.size(); ++i) {
    if (heads[i].starts_with("range")) row.range = without_markup(cells[i]);
    if (heads[i] == "left out") row.left_out = without_markup(cells[i]);
  }
  return row;
}

std::string lower(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return text;
}

/// The tables of keys of a page by their headings, in lower case.
std::map<std::string, PageRows> tables_of(const std::string& page) {
  std::ifstream file(std::string(HAILWRIGHT_SOURCE_DIR) + "/docs/" + page);
  REQUIRE(file);
  std::map<std::string, PageRows> tables;
  std::string heading;
  std::vector<std::string> heads;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with("#")) heading = lower(line.substr(line.find(' ') + 1));
    if (!line.starts_with("|")) {
      heads.clear();
      continue;
    }
    const std::vector<std::string> cells = cells_of(line);
    if (heads.empty()) {
      heads = cells;
    } else if (heads[0] == "key" && cells[0].starts_with("`")) {
      tables[heading][cells[0].substr(1, cells[0].size() - 2)] = row_of(heads, cells);
    }
  }
  return tables;
}

/// "this series" and "the record" have the headings "Series" and "Record".
std::string heading_of(std::string_view where) {
  for (const std::string_view article : {"this ", "the "}) {
    if (where.starts_with(article)) where.remove_prefix(article.size());
  }
  return lower(std::string(where));
}

std::size_t compare(const std::string& page, const std::vector<Mapping>& mappings) {
  const auto tables = tables_of(page);
  std::size_t rows = 0;
  for (const Mapping& mapping : mappings) {
    const auto table = tables.find(heading_of(mapping.keys.where));
    CAPTURE(page, mapping.name);
    REQUIRE(table != tables.end());
    for (const KeyRow& row : mapping.rows) {
      const auto found = table->second.find(std::string(row.key));
      CAPTURE(row.key);
      REQUIRE(found != table->second.end());
      CHECK(row.means == found->second.means);
      CHECK(row.range == found->second.range);
      CHECK(row.left_out == found->second.left_out);
      CHECK((row.need == Need::required) == found->second.required);
      ++rows;
    }
  }
  return rows;
}

json parsed(const SchemaNode& node) {
  return json::parse(node.dump());
}

Mapping sample(std::vector<KeyRow> rows) {
  return {"sample", {"sample", "one two"}, std::move(rows)};
}

}  // namespace

TEST_CASE("schema_mappings: the words of the format pages") {
  CHECK(compare("protocol-format.md", protocol_mappings()) > 150);
  CHECK(compare("panel-format.md", panel_mappings()) > 30);
  CHECK(compare("record-format.md", record_mappings()) > 90);
  CHECK(compare("columns-format.md", column_map_mappings()) > 15);
  CHECK(compare("specimens-format.md", specimens_mappings()) > 15);
}

TEST_CASE("schema_mappings: every list of keys of the readers has a mapping") {
  // compare() above finds no list that is not there at all.
  const auto names = [](const std::vector<Mapping>& mappings) {
    std::vector<std::string> all;
    for (const Mapping& mapping : mappings)
      all.emplace_back(mapping.keys.keys);
    return all;
  };
  const auto check = [&](const std::vector<KeyList>& lists, std::vector<Mapping> mappings) {
    const std::vector<std::string> known = names(mappings);
    for (const KeyList& list : lists) {
      CAPTURE(list.where);
      CHECK(std::find(known.begin(), known.end(), list.keys) != known.end());
    }
  };
  check(protocol_keys(), protocol_mappings());
  check(panel_keys(), panel_mappings());
  std::vector<Mapping> of_record = record_mappings();
  for (Mapping& mapping : tool_mappings())
    of_record.push_back(std::move(mapping));
  check(record_keys(), of_record);
  check(column_map_key_lists(), column_map_mappings());
  check(specimens_key_lists(), specimens_mappings());
}

TEST_CASE("schema_mappings: a mapping is closed and names what it requires") {
  const json schema = parsed(schema_of(sample({
      {"two", SchemaNode::object(), Need::optional, "Second", "1 to 3", "2"},
      {"one", SchemaNode::object({{"type", "string"}}), Need::required, "First.", "", "`a word`"},
  })));
  CHECK(schema["additionalProperties"] == false);
  CHECK(schema["required"] == json::array({"one"}));
  CHECK(schema["properties"]["one"]["description"] == "First. Left out: `a word`");
  CHECK(schema["properties"]["one"]["default"] == "a word");
  CHECK(schema["properties"]["two"]["description"] == "Second. Range: 1 to 3. Left out: 2");
  CHECK(schema["properties"]["two"]["default"] == 2);
}

TEST_CASE("schema_mappings: only what could be typed as it stands is a default") {
  for (const char* words : {"see defaults.md", "`a` or `b`", "3 %", "", "`", "12 mm"}) {
    CAPTURE(words);
    const json schema =
        parsed(schema_of(sample({{"one", SchemaNode::object(), Need::optional, "", "", words},
                                 {"two", SchemaNode::object()}})));
    CHECK_FALSE(schema["properties"]["one"].contains("default"));
  }
}

TEST_CASE("schema_mappings: a key without a row, or a row without a key, is our mistake") {
  CHECK_THROWS(schema_of(sample({{"one", SchemaNode::object()}})));
  CHECK_THROWS(schema_of(sample({{"one", SchemaNode::object()}, {"three", SchemaNode::object()}})));
  CHECK_THROWS(keys_named(panel_keys(), "no such list"));
}

TEST_CASE("schema_mappings: rules on which keys go together") {
  CHECK(parsed(rule::exactly_one({"a", "b"})) ==
        json::parse(R"({"oneOf": [{"required": ["a"]}, {"required": ["b"]}]})"));
  CHECK(parsed(rule::at_most_one({"a", "b", "c"})) ==
        json::parse(R"({"not": {"anyOf": [{"required": ["a", "b"]}, {"required": ["a", "c"]},
                                          {"required": ["b", "c"]}]}})"));
  CHECK(parsed(rule::needs({{"k", "expanded"}})) ==
        json::parse(R"({"dependentRequired": {"k": ["expanded"]}})"));
}
