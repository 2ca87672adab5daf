#include "hailwright/tables/hailstones.hpp"

#include <cmath>
#include <limits>
#include <set>
#include <string>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("hailstones: a fit gives its factor at 1 cm and grows by its power", "[tables]") {
  for (const FallSpeedFit& fit : fall_speed_fits()) {
    CAPTURE(fit.name);
    CHECK_THAT(fall_speed(fit, Length::from_si(0.01)).si(), WithinRel(fit.factor_mps, 1e-14));
    const double ratio =
        fall_speed(fit, Length::from_si(0.06)).si() / fall_speed(fit, Length::from_si(0.03)).si();
    CHECK_THAT(ratio, WithinRel(std::pow(2.0, fit.power), 1e-13));
  }
}

TEST_CASE("hailstones: outside the offered range the power law goes on", "[tables]") {
  const FallSpeedFit& fit = fall_speed_fits().front();
  CHECK(fall_speed(fit, FallSpeedRange::low) > fall_speed(fit, 0.5 * FallSpeedRange::low));
  CHECK(fall_speed(fit, 2.0 * FallSpeedRange::high) > fall_speed(fit, FallSpeedRange::high));
}

TEST_CASE("hailstones: a stone without a diameter is our bug", "[tables]") {
  const FallSpeedFit& fit = fall_speed_fits().front();
  for (const double bad_m : {0.0, -0.025, std::numeric_limits<double>::quiet_NaN(),
                             std::numeric_limits<double>::infinity()}) {
    CAPTURE(bad_m);
    CHECK_THROWS_AS(fall_speed(fit, Length::from_si(bad_m)), BugError);
    CHECK_THROWS_AS(nearest_size_name(Length::from_si(bad_m)), BugError);
  }
}

// Source: US National Weather Service size names in inches, read on a secondary sheet.
TEST_CASE("hailstones: size names of the US weather service", "[tables]") {
  struct Row {
    const char* name;
    double inch;
  };
  const Row rows[] = {{"pea", 0.25},
                      {"marble or mothball", 0.5},
                      {"dime or penny", 0.75},
                      {"nickel", 0.88},
                      {"quarter", 1.0},
                      {"half dollar", 1.25},
                      {"walnut or ping-pong ball", 1.5},
                      {"golf ball", 1.75},
                      {"hen egg", 2.0},
                      {"tennis ball", 2.5},
                      {"baseball", 2.75},
                      {"teacup", 3.0},
                      {"grapefruit", 4.0},
                      {"softball", 4.5}};
  REQUIRE(size_names().size() == std::size(rows));
  for (std::size_t i = 0; i < std::size(rows); ++i) {
    CAPTURE(i, rows[i].name);
    CHECK(size_names()[i].name == rows[i].name);
    CHECK_THAT(size_names()[i].diameter.si() * 1000.0, WithinRel(rows[i].inch * 25.4, 1e-12));
  }
}

TEST_CASE("hailstones: the nearest name goes by ratio", "[tables]") {
  struct Row {
    double mm;
    const char* name;
  };
  // Between 0.25 in (6.35 mm) and 0.5 in the ratio turns at 8.98 mm, the difference at 9.53 mm:
  // 9.2 mm tells the two rules apart.
  const Row rows[] = {{1.0, "pea"},      {8.9, "pea"},          {9.2, "marble or mothball"},
                      {25.4, "quarter"}, {44.0, "golf ball"},   {45.0, "golf ball"},
                      {76.2, "teacup"},  {107.0, "grapefruit"}, {300.0, "softball"}};
  for (const Row& row : rows) {
    CAPTURE(row.mm, row.name);
    CHECK(nearest_size_name(Length::from_si(row.mm / 1000.0)).name == row.name);
  }
}

TEST_CASE("hailstones: every fit names a source that is listed, with its status", "[tables]") {
  std::set<std::string> ids;
  for (const Citation& source : hailstone_sources()) {
    CAPTURE(source.id);
    CHECK(ids.emplace(source.id).second);
    CHECK_FALSE(source.title.empty());
    CHECK(source.read_at.empty() == (source.status != ReadStatus::read));
  }
  for (const FallSpeedFit& fit : fall_speed_fits()) {
    CAPTURE(fit.name);
    bool found = false;
    for (const Citation& source : hailstone_sources()) {
      if (source.id != fit.citation) continue;
      found = true;
      CHECK(source.status == fit.status);
    }
    CHECK(found);
  }
}

TEST_CASE("hailstones: the density of a ball lies inside its own band", "[tables]") {
  CHECK(IceDensity::low < IceDensity::nominal);
  CHECK(IceDensity::nominal < IceDensity::high);
  // CRC Handbook, read on a copy: 0.9167 g/cm3 at 0 degC, 0.9216 at -30 degC.
  CHECK_THAT(IceDensity::nominal.si(), WithinAbs(916.7, 0.5));
  CHECK(IceDensity::high.si() > 921.6);
}
