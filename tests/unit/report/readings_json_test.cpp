#include <cmath>
#include <functional>
#include <nlohmann/json.hpp>

#include "hailwright/report/compose_readings.hpp"
#include "report/readings_json_parts.hpp"
#include "report/readings_sentences.hpp"
#include "support/catch.hpp"
#include "support/file_bytes.hpp"
#include "support/log_answers.hpp"

using namespace hailwright;
using namespace hailwright::testing;
using Json = nlohmann::ordered_json;

namespace {

Json json_of(const ReadingsAnswer& a) {
  return Json::parse(readings_json(a));
}

const Json& schema() {
  static const Json read = Json::parse(tree_file("docs/schemas/readings.schema.json"));
  return read;
}

/// Every object against the part of the schema that describes it: no key too many or too few. A
/// validator of others does the same, and more, in tests/outside.
void check_keys(const Json& node, const Json& form, const std::string& where) {
  if (form.contains("$ref")) {
    const std::string name = form["$ref"].get<std::string>().substr(8);
    check_keys(node, schema().at("$defs").at(name), where);
    return;
  }
  if (form.contains("anyOf") || form.contains("oneOf")) {
    for (const Json& choice : form.contains("anyOf") ? form["anyOf"] : form["oneOf"]) {
      const bool null = choice.contains("type") && choice["type"] == "null";
      const bool fits = null == node.is_null();
      if (fits && node.is_object() && choice.contains("properties") &&
          choice["properties"].size() != node.size()) {
        continue;
      }
      if (!fits) continue;
      if (!null) check_keys(node, choice, where);
      return;
    }
    if (!node.is_object()) return;
    FAIL("no form for " << where);
  }
  if (node.is_array() && form.contains("items")) {
    for (const Json& one : node)
      check_keys(one, form["items"], where + "[]");
  }
  if (!node.is_object()) return;
  REQUIRE(form.contains("properties"));
  for (const auto& [key, value] : node.items()) {
    CAPTURE(where, key);
    REQUIRE(form["properties"].contains(key));
    check_keys(value, form["properties"][key], where + "/" + key);
  }
  for (const Json& key : form["required"]) {
    CAPTURE(where, key);
    CHECK(node.contains(key.get<std::string>()));
  }
}

void each_object(const Json& node, const std::function<void(const Json&)>& look) {
  if (node.is_object()) look(node);
  for (const Json& part : node)
    if (part.is_structured()) each_object(part, look);
}

}  // namespace

TEST_CASE("readings json: its keys are those of its schema") {
  check_keys(json_of(day_answer()), schema(), "");
  check_keys(json_of(pair_answer()), schema(), "");
  ReadingsAnswer empty;
  empty.files = {"day.csv"};
  check_keys(json_of(empty), schema(), "");
}

TEST_CASE("readings json: the schema allows nothing that it does not name") {
  int objects = 0;
  each_object(schema(), [&](const Json& o) {
    if (!o.contains("properties") || !o["properties"].is_object()) return;
    ++objects;
    CHECK(o.contains("additionalProperties"));
    CHECK(o["additionalProperties"] == false);
    CHECK(o.contains("required"));
  });
  CHECK(objects > 40);
}

TEST_CASE("readings json: numbers read back bit for bit") {
  const ReadingsAnswer a = pair_answer();
  const Json j = json_of(a);
  const Json& energy = j["whole"]["energy"];
  const LogNumber<Energy>& e = *a.results.whole.energy;
  CHECK(energy["value"].get<double>() == e.estimate.value.si());
  CHECK(energy["standard_uncertainty"].get<double>() == e.estimate.standard_u.si());
  CHECK(energy["half_width_95"].get<double>() == e.half_width().si());
  CHECK(energy["unit"] == "J");
  CHECK(energy["degrees_of_freedom"]["word"] == "unlimited");
  CHECK(j["whole"]["ratio"]["value"].get<double>() == 0.981);
  CHECK(j["whole"]["temperature"]["mean"].get<double>() == a.findings.whole.temperature.mean);
  CHECK(j["clock"]["offset"]["value"].get<double>() == 7.02);
  CHECK(j["stretches"][1]["name"] == "before 2");
  CHECK(j["stretches"][1]["from"] == "2026-06-14T13:00:00+02:00");
  CHECK(j["read"]["unreadable"] == 2);
  CHECK(j["whole"]["gaps"]["longest"][0]["line"] == 23403);
  CHECK(j["notes"][0]["file"] == "day.csv");
  CHECK(j["notes"][0]["line"] == 812);
}

TEST_CASE("readings json: a budget makes its uncertainty") {
  const Json j = json_of(day_answer());
  for (const char* key : {"energy", "mean_power", "normalised"}) {
    const Json& number = j["whole"][key];
    double sum = 0.0;
    for (const Json& row : number["budget"])
      sum += std::pow(row["contribution"].get<double>(), 2);
    CHECK_THAT(std::sqrt(sum), WithinRel(number["standard_uncertainty"].get<double>(), 1e-12));
  }
}

TEST_CASE("readings json: the same sentences as in the page and the same bytes twice") {
  const ReadingsAnswer a = pair_answer();
  const Json j = json_of(a);
  CHECK(j["headline"] == log_headline(a));
  CHECK(j["whole"]["steady"]["sentence"] == removed_sentence(*a.findings.whole.steady));
  CHECK(j["clock"]["sentence"] == clock_sentence(*a.offset, a.offset_used));
  CHECK(readings_json(a) == readings_json(a));
  CHECK(Json::parse(readings_json(a)).dump(2) + "\n" == readings_json(a));
}

TEST_CASE("readings json: what is no number is null and bytes that are no text are replaced") {
  ReadingsAnswer a = day_answer();
  a.findings.whole.irradiance.mean = std::nan("");
  a.files = {"a\xFF.csv"};
  weigh_again(a, {});
  const Json j = json_of(a);
  CHECK(j["whole"]["irradiance"]["mean"].is_null());
  CHECK(j["whole"]["normalised"].is_null());
  CHECK(j["files"][0] == "a\xEF\xBF\xBD.csv");
}

TEST_CASE("readings json: a message of another file names none") {
  const ReadingsAnswer a = day_answer();
  CHECK(file_of(a, {1, 3, 1, 1}) == "day.csv");
  CHECK_FALSE(file_of(a, {2, 3, 1, 1}));
  CHECK_FALSE(file_of(a, {0, 0, 0, 0}));
}
