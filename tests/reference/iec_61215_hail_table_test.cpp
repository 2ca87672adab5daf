// IEC 61215 hail test table, typed a second time from the fact base (section 1.1). The diameters,
// masses and speeds were read on two secondary pages that agree; energy, momentum and density are
// computed from them.

#include <numbers>
#include <string>
#include <vector>

#include "hailwright/tables/impact_grades.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

struct Row {
  const char* name;
  double mm, g, mps;                       // read
  double joule, newton_second, g_per_cm3;  // computed
};

const Row rows[] = {
    {"12.5 mm", 12.5, 0.94, 16.0, 0.1203, 0.0150, 0.9192},
    {"15 mm", 15, 1.63, 17.8, 0.2582, 0.0290, 0.9224},
    {"25 mm", 25, 7.53, 23.0, 1.9917, 0.1732, 0.9204},
    {"35 mm", 35, 20.7, 27.2, 7.6573, 0.5630, 0.9221},
    {"45 mm", 45, 43.9, 30.7, 20.6877, 1.3477, 0.9201},
    {"55 mm", 55, 80.2, 33.9, 46.0833, 2.7188, 0.9206},
    {"65 mm", 65, 132.0, 36.7, 88.8947, 4.8444, 0.9180},
    {"75 mm", 75, 203.0, 39.5, 158.3654, 8.0185, 0.9190},
};

std::vector<const Grade*> iec_grades() {
  std::vector<const Grade*> found;
  for (const Grade& grade : impact_grades()) {
    if (grade.scheme == "IEC 61215") found.push_back(&grade);
  }
  return found;
}

}  // namespace

TEST_CASE("IEC 61215 hail table: eight rows as read", "[reference]") {
  const auto grades = iec_grades();
  REQUIRE(grades.size() == std::size(rows));
  for (std::size_t i = 0; i < std::size(rows); ++i) {
    const Grade& grade = *grades[i];
    CAPTURE(i, rows[i].name);
    CHECK(grade.name == rows[i].name);
    CHECK(grade.projectile == Projectile::ice);
    CHECK_THAT(grade.diameter.si() * 1000.0, WithinRel(rows[i].mm, 1e-12));
    CHECK_THAT(grade.mass.si() * 1000.0, WithinRel(rows[i].g, 1e-12));
    REQUIRE(grade.speed.has_value());
    CHECK_THAT(grade.speed->si(), WithinRel(rows[i].mps, 1e-12));
    CHECK_FALSE(grade.printed.has_value());
    CHECK(grade.status == ReadStatus::read);
    CHECK(grade.diameter_status == FieldStatus::read);
    CHECK(grade.mass_status == FieldStatus::read);
    CHECK(grade.speed_status == FieldStatus::read);
    CHECK(grade.energy_status == FieldStatus::not_printed);
  }
}

TEST_CASE("IEC 61215 hail table: energy, momentum and density that follow", "[reference]") {
  const auto grades = iec_grades();
  REQUIRE(grades.size() == std::size(rows));
  for (std::size_t i = 0; i < std::size(rows); ++i) {
    const Grade& grade = *grades[i];
    CAPTURE(rows[i].name);
    REQUIRE(grade.energy().has_value());
    CHECK_THAT(grade.energy()->si(), WithinAbs(rows[i].joule, 0.0000501));
    CHECK_THAT((grade.mass * *grade.speed).si(), WithinAbs(rows[i].newton_second, 0.0000501));
    const double d_m = grade.diameter.si();
    const double density = grade.mass.si() / (std::numbers::pi / 6.0 * d_m * d_m * d_m) / 1000.0;
    CHECK_THAT(density, WithinAbs(rows[i].g_per_cm3, 0.0000501));
    CHECK(density >= 0.917);
    CHECK(density <= 0.923);
  }
}

// Source: EuroSun 2008 page, read: 5 % on diameter, mass and speed.
TEST_CASE("IEC 61215 hail table: the tolerance is 5 % and belongs to no other scheme",
          "[reference]") {
  for (const Grade& grade : impact_grades()) {
    CAPTURE(grade_label(grade));
    if (grade.scheme == "IEC 61215") {
      REQUIRE(grade.tolerance.has_value());
      CHECK_THAT(grade.tolerance->si(), WithinAbs(0.05, 1e-15));
    } else {
      CHECK_FALSE(grade.tolerance.has_value());
    }
  }
}
