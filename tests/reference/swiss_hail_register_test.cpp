// Table of the Swiss hail register, typed a second time from the fact base (section 4). Read on the
// register's own page; the energy from the printed mass and speed is computed.

#include <cmath>
#include <numbers>
#include <string_view>
#include <vector>

#include "hailwright/tables/impact_grades.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

struct Row {
  const char* name;
  double mm, kg, mps, printed_J;  // read
  double computed_J;              // half the mass times the speed squared
};

const Row rows[] = {
    {"HW1", 10, 0.0005, 13.8, 0.04, 0.0476},      {"15 mm", 15, 0.0015, 16.9, 0.22, 0.2142},
    {"HW2", 20, 0.0036, 19.5, 0.69, 0.6845},      {"25 mm", 25, 0.0071, 21.8, 1.69, 1.6871},
    {"HW3", 30, 0.0123, 23.9, 3.5, 3.5129},       {"HW4", 40, 0.0292, 27.5, 11.1, 11.0412},
    {"HW5", 50, 0.0569, 30.8, 27.0, 26.9888},     {"60 mm", 60, 0.0984, 33.7, 56.0, 55.8759},
    {"70 mm", 70, 0.1562, 36.4, 103.7, 103.4794}, {"80 mm", 80, 0.2332, 39.0, 176.9, 177.3486},
};

std::vector<const Grade*> swiss_grades() {
  std::vector<const Grade*> found;
  for (const Grade& grade : impact_grades()) {
    if (grade.scheme == "VKF") found.push_back(&grade);
  }
  return found;
}

}  // namespace

TEST_CASE("Swiss hail register: ten rows as read", "[reference]") {
  const auto grades = swiss_grades();
  REQUIRE(grades.size() == std::size(rows));
  for (std::size_t i = 0; i < std::size(rows); ++i) {
    const Grade& grade = *grades[i];
    CAPTURE(i, rows[i].name);
    CHECK(grade.name == rows[i].name);
    CHECK(grade.projectile == Projectile::ice);
    CHECK_THAT(grade.diameter.si() * 1000.0, WithinRel(rows[i].mm, 1e-12));
    CHECK_THAT(grade.mass.si(), WithinRel(rows[i].kg, 1e-12));
    REQUIRE(grade.speed.has_value());
    CHECK_THAT(grade.speed->si(), WithinRel(rows[i].mps, 1e-12));
    REQUIRE(grade.printed.has_value());
    CHECK_THAT(grade.printed->si(), WithinRel(rows[i].printed_J, 1e-12));
    CHECK_THAT(grade.energy()->si(), WithinAbs(rows[i].computed_J, 0.0000501));
    CHECK(grade.status == ReadStatus::read);
    CHECK(grade.energy_status == FieldStatus::read);
  }
}

// Source: hail section 4: 870 kg/m3 was read; drag 0.5 and air 1.2 kg/m3 are inferred; the model
// reproduces the printed table to its rounding, except the two smallest rows, whose printed mass
// and energy are rounded too far.
TEST_CASE("Swiss hail register: a falling sphere reproduces the printed table", "[reference]") {
  for (const Grade* grade : swiss_grades()) {
    CAPTURE(grade_label(*grade));
    const double d_m = grade->diameter.si();
    const double mass_kg = 870.0 * std::numbers::pi / 6.0 * d_m * d_m * d_m;
    const double speed_mps = std::sqrt(4.0 * 870.0 * 9.81 * d_m / (3.0 * 0.5 * 1.2));
    CAPTURE(mass_kg, speed_mps);
    CHECK_THAT(grade->speed->si(), WithinAbs(speed_mps, 0.05));
    if (grade->name == "HW1" || grade->name == "15 mm") continue;
    const double model_J = 0.5 * mass_kg * speed_mps * speed_mps;
    CHECK_THAT(grade->printed->si(), WithinRel(model_J, 0.015));
    CHECK_THAT(grade->energy()->si(), WithinRel(model_J, 0.015));
  }
}

TEST_CASE("Swiss hail register: class n is a ball n cm wide, and the largest class is 5",
          "[reference]") {
  int classes = 0;
  for (const Grade* grade : swiss_grades()) {
    if (grade->name.substr(0, 2) != "HW") continue;
    ++classes;
    CAPTURE(grade_label(*grade));
    REQUIRE(grade->name.size() == 3);
    CHECK_THAT(grade->diameter.si() * 100.0, WithinRel(double(grade->name[2] - '0'), 1e-12));
  }
  CHECK(classes == 5);
  CHECK(find_grade("HW6") == nullptr);
  CHECK(find_grade("HW7") == nullptr);
  for (const char* label : {"VKF 60 mm", "VKF 70 mm"}) {
    CAPTURE(label);
    REQUIRE(find_grade(label) != nullptr);
    CHECK(find_grade(label)->note == "remark only, no class");
  }
}

// Source: a Swiss test report, read: 12.77 g at 25.49 m/s, printed 4.1 J; computed 4.1486 J.
TEST_CASE("Swiss hail register: energy of a shot in a published report", "[reference]") {
  Grade shot = *find_grade("HW3");
  shot.mass = Mass::from_si(0.01277);
  shot.speed = Speed::from_si(25.49);
  REQUIRE(shot.energy().has_value());
  CHECK_THAT(shot.energy()->si(), WithinAbs(4.1486, 0.0000501));
  CHECK_THAT(shot.energy()->si(), WithinAbs(4.1, 0.05));
}
