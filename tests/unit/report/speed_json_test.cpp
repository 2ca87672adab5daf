#include <nlohmann/json.hpp>

#include "hailwright/report/compose_speed.hpp"
#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("json: a speed with its terms, largest first") {
  SpeedQuestion q;
  q.method.by = SpeedSource::each_shot;
  q.method.gates = GatesWay{{}, Length::from_si(0.3), {}, {}};
  q.reading.time = Time::from_si(0.0125);
  q.method.to_panel = Length::from_si(1.0);
  q.diameter = Length::from_si(0.025);
  const auto a = answer_speed(q);
  REQUIRE(a);
  const auto j = nlohmann::json::parse(speed_json(*a));
  CHECK(j["schema"] == "hailwright speed 1");
  CHECK_THAT(j["speed"]["value"].get<double>(), WithinRel(24.0, 1e-12));
  const double u = j["speed"]["standard_uncertainty"];
  CHECK_THAT(j["speed"]["half_width_k2"].get<double>(), WithinRel(2 * u, 1e-12));
  CHECK(j["speed"]["supports_grade"] == true);
  CHECK(j["at_panel"]["value"].get<double>() < 24.0);
  CHECK(j["motion_blur"].is_null());
  double last = 1.0;
  double squares = 0.0;
  for (const auto& term : j["terms"]) {
    const double share = term["relative_standard_uncertainty"];
    CHECK(share <= last);
    last = share;
    squares += share * share;
  }
  CHECK_THAT(squares * 24.0 * 24.0, WithinRel(u * u, 1e-9));
  CHECK(j["assumed"].size() == a->assumptions.used().size());
  CHECK_FALSE(j["cautions"].empty());
}

TEST_CASE("json: a setting is no measurement") {
  SpeedQuestion q;
  q.method.by = SpeedSource::setting;
  q.nominal = Speed::from_si(23);
  const auto j = nlohmann::json::parse(speed_json(*answer_speed(q)));
  CHECK(j["speed"]["supports_grade"] == false);
  CHECK(j["warnings"] == nlohmann::json::array({"not_measured"}));
  CHECK(j["at_panel"].is_null());
}
