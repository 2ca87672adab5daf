#include "hailwright/input/schemas.hpp"

#include <functional>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "support/catch.hpp"
#include "support/file_bytes.hpp"

using namespace hailwright;
using nlohmann::json;

namespace {

struct Named {
  FileKind kind;
  std::string word;
};
const std::vector<Named> kinds{{FileKind::protocol, "protocol"},
                               {FileKind::panel, "panel"},
                               {FileKind::record, "record"},
                               {FileKind::columns, "columns"},
                               {FileKind::specimens, "specimens"}};

/// Every object of a schema that is itself a schema, with its path.
void walk(const json& node, const std::string& path,
          const std::function<void(const json&, const std::string&)>& visit) {
  if (node.is_array()) {
    for (std::size_t i = 0; i < node.size(); ++i)
      walk(node[i], path + "/" + std::to_string(i), visit);
  }
  if (!node.is_object()) return;
  visit(node, path);
  for (const auto& [key, value] : node.items())
    walk(value, path + "/" + key, visit);
}

}  // namespace

TEST_CASE("schemas: the files under docs are what the program gives") {
  for (const auto& [kind, word] : kinds) {
    const std::string path = "docs/schemas/" + word + ".schema.json";
    INFO("renew it:  hailwright check --schema " << word << " > " << path);
    CHECK(hailwright::testing::tree_file(path) == json_schema(kind));
  }
}

TEST_CASE("schemas: each says what it is, and a second call gives the same bytes") {
  for (const auto& [kind, word] : kinds) {
    const std::string text = json_schema(kind);
    CHECK(text == json_schema(kind));
    const json schema = json::parse(text);
    CHECK(schema["$schema"] == "https://json-schema.org/draft/2020-12/schema");
    CHECK(schema["title"] == "hailwright " + word + " 1");
    CHECK(schema["properties"]["hailwright"]["const"] == word + " 1");
    CHECK(schema["required"][0] == "hailwright");
  }
  CHECK_THROWS(json_schema(FileKind::unknown));
}

TEST_CASE("schemas: every pointer leads to a definition, and every definition is pointed at") {
  const std::string prefix = "#/$defs/";
  for (const auto& [kind, word] : kinds) {
    const json schema = json::parse(json_schema(kind));
    std::set<std::string> used;
    walk(schema, "", [&, word = word](const json& node, const std::string& path) {
      if (!node.contains("$ref")) return;
      const std::string pointer = node["$ref"];
      CAPTURE(word, path, pointer);
      REQUIRE(pointer.starts_with(prefix));
      CHECK(schema["$defs"].contains(pointer.substr(prefix.size())));
      used.insert(pointer.substr(prefix.size()));
    });
    for (const auto& [name, definition] : schema["$defs"].items()) {
      CAPTURE(word, name);
      CHECK(used.count(name) == 1);
    }
  }
}

TEST_CASE("schemas: every mapping is closed, but for names of the user's choice") {
  for (const auto& [kind, word] : kinds) {
    walk(json::parse(json_schema(kind)), "",
         [&, word = word](const json& node, const std::string& path) {
           if (!node.contains("type") || node["type"] != "object") return;
           CAPTURE(word, path);
           if (path.ends_with("/setup_scatter")) {
             CHECK(node["additionalProperties"].is_object());
           } else {
             CHECK(node["additionalProperties"] == false);
           }
         });
  }
}

TEST_CASE("schemas: every key says what it means") {
  // What the format pages leave to the name of the key alone.
  const std::set<std::string> plain{"record/$defs/set-up/properties/date",
                                    "record/$defs/look/properties/date"};
  for (const auto& [kind, word] : kinds) {
    walk(json::parse(json_schema(kind)), word,
         [&, word = word](const json& node, const std::string& path) {
           if (!node.contains("properties") || !node.contains("additionalProperties")) return;
           for (const auto& [key, value] : node["properties"].items()) {
             CAPTURE(path, key);
             const bool says = value.contains("description") && !value["description"].empty();
             CHECK((says || plain.count(path + "/properties/" + key) == 1));
           }
         });
  }
}

TEST_CASE("schemas: no word of a list is a number or a truth value to a YAML parser") {
  const std::regex typed("true|True|TRUE|false|False|FALSE|null|Null|NULL|~|"
                         "[-+]?(\\.[0-9]+|[0-9]+(\\.[0-9]*)?)([eE][-+]?[0-9]+)?|0[xo][0-9a-fA-F]+|"
                         "[-+]?\\.(inf|Inf|INF)|\\.(nan|NaN|NAN)");  // YAML 1.2.2, section 10.3.2
  CHECK(std::regex_match("0x1F", typed));
  for (const auto& [kind, word] : kinds) {
    walk(json::parse(json_schema(kind)), word,
         [&, word = word](const json& node, const std::string& path) {
           if (!node.contains("enum") || !node["enum"].is_array()) return;
           for (const json& value : node["enum"]) {
             CAPTURE(path, value);
             CHECK_FALSE(std::regex_match(value.get<std::string>(), typed));
           }
         });
  }
}
