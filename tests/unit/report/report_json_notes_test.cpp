#include <algorithm>
#include <sstream>

#include "report/report_json_parts.hpp"
#include "report/report_json_words.hpp"
#include "support/catch.hpp"
#include "support/json_report.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::report_schema;

namespace {

/// What the schema says that the numbers of a remark are: "... Numbers: found, bound."
std::vector<std::string> numbers_in_schema(std::string_view remark) {
  for (const auto& one : report_schema()["$defs"]["remark"]["oneOf"]) {
    if (one["const"] != remark) continue;
    const std::string said = one["description"];
    const std::size_t at = said.find("Number");
    if (at == std::string::npos) return {};
    std::string list = said.substr(said.find(": ", at) + 2);
    // "slope of ln P on ln G." and "ratio, F over its 97.5 % point." explain their only number.
    const bool only = said.compare(at, 8, "Number: ") == 0;
    std::vector<std::string> names;
    std::stringstream words(list.substr(0, only ? list.find_first_of(" ,.") : list.rfind('.')));
    for (std::string name; std::getline(words >> std::ws, name, ',');)
      names.push_back(name);
    return names;
  }
  FAIL("the schema lacks the remark " << remark);
  return {};
}

}  // namespace

TEST_CASE("report json notes: numbers of every remark are named as the schema says") {
  const Test test = hailwright::testing::TestBuilder().build();
  json::Ledger ledger{WriteUp{}};
  int numbers = 0;
  for (int i = 0; i <= static_cast<int>(PowerRemark::trend_fitted); ++i) {
    const auto remark = static_cast<PowerRemark>(i);
    CAPTURE(json::word(remark));
    const std::vector<std::string> names = numbers_in_schema(json::word(remark));
    PowerNote note{remark, std::vector<double>(names.size(), 0.5), "meter", {}};
    PowerResult power;
    power.notes = {note};
    // Its sentence asks for no number that is not there.
    const json::Json said = json::notes(power, test, ledger).at(0);
    CHECK(said.at("remark") == json::word(remark));
    CHECK_FALSE(said.at("sentence").get<std::string>().empty());
    REQUIRE(said.at("numbers").size() == names.size());
    for (std::size_t n = 0; n < names.size(); ++n) {
      CHECK(said.at("numbers")[n].at("name") == names[n]);
      ++numbers;
    }
    power.notes[0].numbers.push_back(1.0);
    CHECK_THROWS(json::notes(power, test, ledger));
  }
  CHECK(numbers > 30);
}
