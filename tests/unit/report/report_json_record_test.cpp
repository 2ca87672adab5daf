#include "hailwright/evaluate/price.hpp"
#include "support/catch.hpp"
#include "support/json_report.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using hailwright::testing::BitByBit;
using hailwright::testing::demo_names;
using hailwright::testing::few_trials;
using hailwright::testing::json_of;
using hailwright::testing::TestBuilder;
using hailwright::testing::written_demo;
using hailwright::testing::WrittenUp;
using Json = nlohmann::ordered_json;

namespace {

void hold_rest(BitByBit& bits, const Json& j, const Assessment& a, const Test& test) {
  REQUIRE(j.at("readings").size() == test.record.readings.size());
  for (std::size_t i = 0; i < test.record.readings.size(); ++i) {
    const Reading& r = test.record.readings[i];
    if (!r.measured) continue;
    bits.number(j.at("readings")[i].at("power"), r.power.si());
    bits.number(j.at("readings")[i].at("irradiance"), r.irradiance.si());
    bits.number(j.at("readings")[i].at("temperature"), r.temperature.kelvin());
  }
  REQUIRE(j.at("assumed").size() == a.assumed.size());
  for (std::size_t i = 0; i < a.assumed.size(); ++i) {
    const Json& one = j.at("assumed")[i];
    bits.number(one.at("adds_to_energy"), a.assumed[i].on_energy);
    REQUIRE(one.at("adds_to_loss").is_null() == !a.assumed[i].on_loss.has_value());
    if (a.assumed[i].on_loss) bits.number(one.at("adds_to_loss"), a.assumed[i].on_loss->points());
  }
  for (const HitEvidence& e : a.evidence) {
    const Json& one = j.at("series").at(e.series).at("evidence");
    bits.count(one.at("places"), e.places);
    bits.count(one.at("with_damage"), e.with_damage);
    bits.number(one.at("upper"), e.upper);
  }
  const auto price = price_per_watt(test);
  REQUIRE(j.at("price_per_watt").is_null() == !price.has_value());
  if (price) bits.number(j.at("price_per_watt").at("price_per_watt"), price->value);
}

}  // namespace

TEST_CASE("report json: every reading and every default of the demo reads back bit by bit") {
  BitByBit bits;
  for (const std::string& name : demo_names()) {
    CAPTURE(name);
    const WrittenUp written = written_demo({name}, few_trials());
    hold_rest(bits, json_of(written.write_up).at("records").at(0), written.assessment(),
              written.test());
  }
  CHECK(bits.numbers > 1000);
  CHECK(bits.differing == 0);
}

TEST_CASE("report json: no incident and nothing stated are told apart") {
  // Found by review: both came out as an empty list.
  const auto incidents = [](const TestBuilder& b) {
    return json_of(WrittenUp(b).write_up).at("records").at(0).at("circumstances").at("incidents");
  };
  TestBuilder b;
  CHECK(incidents(b).is_null());
  b.test.record.incidents.emplace();
  CHECK(incidents(b) == Json::array());
  b.test.record.incidents->push_back("a ball went over the fence");
  CHECK(incidents(b) == Json::array({"a ball went over the fence"}));
}
