#include <nlohmann/json.hpp>

#include "hailwright/report/compose.hpp"
#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("json: grades carry values, units, statuses and sources") {
  const auto j = nlohmann::json::parse(grades_json(""));
  CHECK(j["grades"].size() == impact_grades().size());
  CHECK(j["grades"][2]["energy_computed"]["unit"] == "J");
  for (const auto& g : j["grades"]) {
    CAPTURE(g["label"]);
    CHECK_FALSE(g["status"]["row"].get<std::string>().empty());
    bool sourced = false;
    for (const auto& s : j["sources"])
      sourced = sourced || s["id"] == g["source"];
    CHECK(sourced);
  }
}

TEST_CASE("json: a speed that is the result of the test is null, never zero") {
  const auto j = nlohmann::json::parse(grades_json("EN 13583"));
  REQUIRE(j["grades"].size() == 1);
  CHECK(j["grades"][0]["speed"].is_null());
  CHECK(j["grades"][0]["energy_computed"].is_null());
}
