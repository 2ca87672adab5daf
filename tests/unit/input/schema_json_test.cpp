#include "input/schema_json.hpp"

#include <nlohmann/json.hpp>

#include "support/catch.hpp"

using hailwright::input::SchemaNode;

TEST_CASE("schema_json: texts, numbers and truth values as JSON writes them") {
  CHECK(SchemaNode("plain").dump() == "\"plain\"\n");
  CHECK(SchemaNode(std::string("a \"b\" \\ \n\x01")).dump() ==
        "\"a \\\"b\\\" \\\\ \\u000a\\u0001\"\n");
  CHECK(SchemaNode(-3).dump() == "-3\n");
  CHECK(SchemaNode(true).dump() == "true\n");
}

TEST_CASE("schema_json: blanks that nobody sees are written by their number") {
  CHECK(SchemaNode("a\u00A0b\u202Fc°").dump() == "\"a\\u00a0b\\u202fc°\"\n");
}

TEST_CASE("schema_json: members keep their order, short lists stay in one line") {
  SchemaNode node = SchemaNode::object({{"z", 1}});
  node.set("a", SchemaNode::texts({"one", "two"}));
  node.set("empty", SchemaNode::object());
  node.set("none", SchemaNode::list({}));
  node.set("list", SchemaNode::list({SchemaNode::object({{"k", false}})}));
  CHECK(node.dump() == R"({
  "z": 1,
  "a": ["one", "two"],
  "empty": {},
  "none": [],
  "list": [
    {
      "k": false
    }
  ]
}
)");
}

TEST_CASE("schema_json: a list too long for one line has a line for each item") {
  const std::vector<std::string> words(12, "a long word");
  const std::string text = SchemaNode::texts(words).dump();
  CHECK(text.starts_with("[\n  \"a long word\",\n"));
  CHECK(nlohmann::json::parse(text) == nlohmann::json(words));
}

TEST_CASE("schema_json: what was written reads back") {
  const std::string odd = "\t<b>\"A\" & =1+1 |x| \\d+(?:−|[²])*$\u202F\x1f";
  const SchemaNode node = SchemaNode::object({{odd, SchemaNode::list({odd, 7, true})}});
  const nlohmann::json read = nlohmann::json::parse(node.dump());
  REQUIRE(read.contains(odd));
  CHECK(read[odd] == nlohmann::json::array({odd, 7, true}));
}

TEST_CASE("schema_json: members are found, and stand once") {
  SchemaNode node = SchemaNode::object({{"a", "b"}});
  REQUIRE(node.find("a") != nullptr);
  CHECK(node.find("a")->text() == "b");
  CHECK(node.find("b") == nullptr);
  CHECK_THROWS(node.set("a", 1));
  CHECK_THROWS(SchemaNode(1).set("a", 1));
  node.add(SchemaNode::object({{"c", 2}}));
  CHECK(node.values().size() == 2);
}
