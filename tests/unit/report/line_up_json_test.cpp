#include <algorithm>
#include <nlohmann/json.hpp>

#include "hailwright/report/line_up.hpp"
#include "support/catch.hpp"
#include "support/file_bytes.hpp"
#include "support/line_up_examples.hpp"

using namespace hailwright;
using namespace hailwright::testing;
using Json = nlohmann::ordered_json;

namespace {

Json json_of(const LineUpExample& example) {
  return Json::parse(line_up_json(example.view()));
}

const Json& schema() {
  static const Json read = Json::parse(tree_file("docs/schemas/line-up.schema.json"));
  return read;
}

/// Every object has the keys of its form, no more and no fewer. A validator of others does the
/// same, and more, in tests/outside.
void check_keys(const Json& node, const Json& form, const std::string& where) {
  if (form.contains("$ref")) {
    const std::string name = form["$ref"].get<std::string>().substr(8);
    return check_keys(node, schema().at("$defs").at(name), where);
  }
  for (std::size_t i = 0; node.is_array() && i < node.size(); ++i)
    check_keys(node[i], form.at("items"), where + "[]");
  if (form.contains("enum")) {
    CAPTURE(where, node);
    CHECK(std::find(form["enum"].begin(), form["enum"].end(), node) != form["enum"].end());
  }
  if (!node.is_object()) return;
  CAPTURE(where);
  CHECK(form.at("additionalProperties") == false);
  CHECK(form.at("required").size() == form.at("properties").size());
  CHECK(node.size() == form.at("required").size());
  for (const auto& [key, value] : node.items()) {
    CAPTURE(key);
    REQUIRE(form["properties"].contains(key));
    check_keys(value, form["properties"][key], where + "/" + key);
  }
}

}  // namespace

TEST_CASE("line_up_json: its keys and words are those of the schema") {
  for (const LineUpExample& example :
       {five_panels(), eight_panels(), single_panel(), many_panels(50)})
    check_keys(json_of(example), schema(), "");
}

TEST_CASE("line_up_json: numbers whole, records by their index") {
  const LineUpExample five = five_panels();
  const Json j = json_of(five);
  CHECK(j["schema"] == "hailwright line-up 1");
  CHECK(j["order"]["by"] == "loss");
  REQUIRE(j["records"].size() == 5);
  const Json& a = j["records"][0];
  CHECK(a["loss"]["loss"].get<double>() == five.entries[0].loss->loss().si());
  CHECK(a["loss"]["degrees_of_freedom"].is_null());
  CHECK(a["panel"]["weight"]["value"].get<double>() == 6.9);
  CHECK(a["panel"]["price"]["highest"].get<double>() == 104.0);
  const Json& group = j["groups"][0];
  CHECK(group["ranks"][2]["record"] == 2);
  CHECK(group["ranks"][2]["first"] == 2);
  CHECK(group["ranks"][2]["last"] == 3);
  const LineUpDifference& d = five.line_up.groups[0].differences[1];
  CHECK(group["differences"][1]["p_adjusted"].get<double>() == d.p_adjusted);
  CHECK(group["differences"][1]["shown"] == true);
}

TEST_CASE("line_up_json: errors of the number in order, and of no other") {
  LineUpExample five = five_panels();
  five.entries[0].numbers.at(LineUpQuantity::loss).errors = {
      {"meter/M1/gain", -0.002, 8.0, "meter/gain"}, {"", 0.004}};
  const Json j = json_of(five);
  for (const Json& number : j["records"][0]["numbers"]) {
    CAPTURE(number["quantity"]);
    if (number["quantity"] != "loss") {
      CHECK(number["errors"].is_null());
      continue;
    }
    REQUIRE(number["errors"].size() == 2);
    CHECK(number["errors"][0]["key"] == "meter/M1/gain");
    CHECK(number["errors"][0]["contribution"].get<double>() == -0.002);
    CHECK(number["errors"][1]["key"].is_null());
  }
}

TEST_CASE("line_up_json: what is missing is null, and why it is not ranked a sentence") {
  const Json j = json_of(eight_panels());
  const Json& g = j["records"][6];
  CHECK(g["loss"].is_null());
  CHECK(g["panel"]["price"].is_null());
  CHECK(g["panel"]["connector"].is_null());
  CHECK(g["numbers"].empty());
  CHECK(g["gap"]["kind"] == "not compared");
  CHECK(j["unranked"][1]["sentence"] == "no power was compared");
  CHECK(j["unranked"][0]["differs"][0]["what"] == "series");
  CHECK(j["cautions"].size() == 2);
  CHECK(j["closing"].get<std::string>().size() > 50);
}
