#include "input/schema_values.hpp"

#include <nlohmann/json.hpp>

#include <regex>
#include <set>

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::input;
using nlohmann::json;

namespace {

json parsed(const SchemaNode& node) {
  return json::parse(node.dump());
}

std::string pattern_of(const std::string& name) {
  for (const auto& [key, node] : value::definitions()) {
    if (key == name) return parsed(node)["pattern"];
  }
  FAIL("no definition is called " + name);
  return {};
}

}  // namespace

TEST_CASE("schema_values: a count is a number or a text of digits, in its range") {
  const json count = parsed(value::count(1, 500));
  CHECK(count["type"] == json::array({"integer", "string"}));
  CHECK(count["minimum"] == 1);
  CHECK(count["maximum"] == 500);
  const std::regex digits(count["pattern"].get<std::string>());
  CHECK(std::regex_match("11", digits));
  CHECK_FALSE(std::regex_match("011", digits));
  CHECK_FALSE(std::regex_match("2.5", digits));
}

TEST_CASE("schema_values: a text is anything but an answer to come") {
  CHECK(parsed(value::text())["$ref"] == "#/$defs/text");
  const json text = parsed(value::definitions().front().second);
  CHECK(text["not"]["const"] == "???");
  CHECK(text["type"] == json::array({"string", "number", "boolean"}));
}

TEST_CASE("schema_values: lists, words and either") {
  CHECK(parsed(value::yes_no())["enum"] == json::array({"yes", "no"}));
  const json words = parsed(value::words_list({"mount", "aim"}));
  CHECK(words["uniqueItems"] == true);
  CHECK(words["items"]["enum"] == json::array({"mount", "aim"}));
  CHECK_FALSE(words.contains("minItems"));
  CHECK(parsed(value::list_of(value::text(), 1))["minItems"] == 1);
  CHECK(parsed(value::texts())["anyOf"].size() == 2);
}

TEST_CASE("schema_values: an example fits the definition that its key points at") {
  for (const auto& [node, example] :
       {std::pair(value::amount(Measure::ratio, "5 %"), "5 %"),
        std::pair(value::amount(Measure::temperature, "-18 degC"), "-18 degC"),
        std::pair(value::accuracy({Measure::power, true, true}, "1 % + 3 digits"),
                  "1 % + 3 digits"),
        std::pair(value::size({Measure::mass, true, true}, "0.1 g"), "0.1 g"),
        std::pair(value::within({Measure::length, true, true}, "0.1 mm, 95 %"), "0.1 mm, 95 %")}) {
    const json written = parsed(node);
    std::string name = written["$ref"].get<std::string>().substr(std::string("#/$defs/").size());
    std::replace(name.begin(), name.end(), '_', ' ');
    CAPTURE(name, example);
    CHECK(written["examples"] == json::array({example}));
    CHECK(std::regex_match(example, std::regex(pattern_of(name))));
  }
}

TEST_CASE("schema_values: each definition has a name of its own, a description and a form") {
  std::set<std::string> names;
  for (const auto& [name, node] : value::definitions()) {
    CAPTURE(name);
    CHECK(names.insert(name).second);
    const json definition = parsed(node);
    CHECK_FALSE(definition["description"].get<std::string>().empty());
    CHECK(definition.contains("type"));
  }
  CHECK(names.count("amount of length") == 1);
  CHECK(names.count("accuracy of length") == 1);
  CHECK(names.count("accuracy of length or digits") == 1);
}
