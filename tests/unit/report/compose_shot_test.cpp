#include "hailwright/report/compose.hpp"

#include <cmath>
#include <numbers>

#include "hailwright/report/render.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

ShotQuestion iec_25mm() {
  ShotQuestion q;
  q.mass = Estimate<Mass>{7.53_g};
  q.diameter = {25.0_mm};
  q.speed = {23.0_mps};
  q.scheme = "IEC 61215";
  return q;
}

}  // namespace

TEST_CASE("shot: the nominal IEC ball is the whole of its grade") {
  const ShotAnswer a = answer_shot(iec_25mm());
  CHECK_THAT(a.energy.value.si(), WithinAbs(1.9917, 0.00005));
  REQUIRE(a.grades.size() == 8);
  CHECK_THAT(a.grades[2].share.value.si(), WithinAbs(1.0, 1e-12));
  CHECK(a.density_believable);
  CHECK_FALSE(a.mass_from_diameter);
  CHECK_FALSE(a.cautions.empty());
}

TEST_CASE("shot: without a mass the density carries the uncertainty") {
  ShotQuestion q = iec_25mm();
  q.mass.reset();
  const ShotAnswer a = answer_shot(q);
  CHECK(a.mass_from_diameter);
  CHECK_THAT(a.energy.relative_u(), WithinRel(30.0 / 900.0 / std::sqrt(3.0), 1e-9));
}

TEST_CASE("shot: cautions answer the upper energy") {
  ShotQuestion q = iec_25mm();
  q.mass = Estimate<Mass>{Mass::from_si(0.0439)};
  q.diameter = {45.0_mm};
  q.speed = {30.7_mps};
  const auto shown = [](const ShotAnswer& a, std::string_view id) {
    for (const Caution* c : a.cautions) {
      if (c->id == id) return true;
    }
    return false;
  };
  CHECK(shown(answer_shot(q), "body_hit_serious"));
  CHECK_FALSE(shown(answer_shot(iec_25mm()), "body_hit_serious"));
}

TEST_CASE("shot: screen") {
  ShotQuestion q = iec_25mm();
  q.angle = Angle::from_si(30 * std::numbers::pi / 180);
  const std::string s = render_console(compose_shot(answer_shot(q)), {});
  CHECK_THAT(s, Contains("75.0 % of it") && Contains("hailstone of 24.9 to 30.0 mm"));
  CHECK_THAT(s, Contains("EN 166") && Contains("Cautions"));
}
