#include "support/catch.hpp"
#include "support/json_report.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using hailwright::testing::BitByBit;
using hailwright::testing::demo_names;
using hailwright::testing::few_trials;
using hailwright::testing::json_of;
using hailwright::testing::written_demo;
using hailwright::testing::WrittenUp;
using Json = nlohmann::ordered_json;

namespace {

void hold_shots(BitByBit& bits, const Json& j, const SeriesDelivery& d, const Test& test) {
  REQUIRE(j.size() == d.shots.size());
  for (std::size_t i = 0; i < d.shots.size(); ++i) {
    const ShotResult& r = d.shots[i];
    bits.count(j[i].at("number"), test.record.shots[r.shot].number);
    CHECK(j[i].at("on_panel") == r.on_panel);
    CHECK(j[i].at("repeat") == r.repeat);
    CHECK(j[i].at("place").is_null() == !r.place.has_value());
    bits.number(j[i].at("off"), r.off);
    bits.number(j[i].at("diameter"), r.diameter);
    bits.shot_quantity<Mass>(j[i].at("mass"), r.mass);
    bits.shot_quantity<Speed>(j[i].at("speed"), r.speed);
    REQUIRE(j[i].at("energy").is_null() == !r.energy.has_value());
    if (r.energy) bits.estimate(j[i].at("energy").at("estimate"), *r.energy);
    CHECK(j[i].at("sides").at("not_weaker") == r.sides.not_weaker);
    CHECK(j[i].at("sides").at("not_stronger") == r.sides.not_stronger);
    CHECK(j[i].at("sides").at("weaker") == r.sides.weaker);
  }
}

void hold_series(BitByBit& bits, const Json& series, const SeriesDelivery& d, const Test& test) {
  const Json& j = series.at("delivery");
  bits.number(series.at("target").at("tolerance"), d.tolerance.si());
  bits.number(series.at("place_radius"), d.place_radius.si());
  bits.count(j.at("throws"), d.throws);
  bits.count(j.at("hits"), d.hits);
  bits.count(j.at("off_places"), d.off_places);
  bits.count(j.at("misses"), d.misses);
  bits.count(j.at("broken"), d.broken);
  bits.count(j.at("places_hit"), d.places_hit);
  bits.count(j.at("places_struck"), d.places_struck);
  bits.count(j.at("places_struck_first"), d.places_struck_first);
  bits.count(j.at("places_with_energy"), d.places_with_energy);
  bits.number(j.at("at_least"), d.at_least);
  bits.number(j.at("at_most"), d.at_most);
  bits.number(j.at("joint_probability"), d.joint_probability);
  REQUIRE(j.at("trials").is_null() == !d.trials.has_value());
  if (d.trials) {
    bits.count(j.at("trials").at("count"), d.trials->n);
    bits.number(j.at("trials").at("mean"), d.trials->mean.si());
    bits.number(j.at("trials").at("scatter"), d.trials->scatter);
    bits.number(j.at("trials").at("speed_at_panel"), d.trial_speed_at_panel);
  }
  REQUIRE(series.at("places").size() == d.places.size());
  for (std::size_t i = 0; i < d.places.size(); ++i)
    bits.count(series.at("places")[i].at("hits"), d.places[i].hits);
  CHECK(series.at("places")[0].at("what").is_string());
  hold_shots(bits, series.at("shots"), d, test);
}

}  // namespace

TEST_CASE("report json: every number of a delivery of the demo reads back bit by bit") {
  for (const std::string& name : demo_names()) {
    CAPTURE(name);
    const WrittenUp written = written_demo({name}, few_trials());
    const Assessment& a = written.assessment();
    const Json series = json_of(written.write_up).at("records").at(0).at("series");
    BitByBit bits;
    REQUIRE(series.size() == a.delivery.size());
    for (std::size_t i = 0; i < a.delivery.size(); ++i)
      hold_series(bits, series[i], a.delivery[i], written.test());
    CHECK(bits.numbers > 100);
    CHECK(bits.differing == 0);
  }
}
