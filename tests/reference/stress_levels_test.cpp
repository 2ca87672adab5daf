// Levels of stresses other than hail, typed a second time from the facts file that the pages were
// noted in: MQT 16 (ulmeka.com, a maker's manual), MQT 22 (from memory), IEC 60068-2-21
// (instrumentstrade.com), EN 50521 (studylib.net), IEC 60529 (dlsemc.com).
#include "hailwright/model/stress.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

struct Row {
  const char *kind, *level, *key;
  double si;
};

constexpr Row rows[] = {
    {"static load", "IEC 61215 2400 Pa", "pressure", 2400.0},
    {"static load", "IEC 61215 2400 Pa", "held", 3600.0},  // one hour
    {"static load", "IEC 61215 5400 Pa", "pressure", 5400.0},
    {"static load", "IEC 61215 5400 Pa", "held", 3600.0},
    {"bending", "IEC 61215 25 bends", "times", 25.0},
    {"cable pull", "IEC 60068-2-21 40 N", "force", 40.0},
    {"cable pull", "IEC 60068-2-21 20 N and 10 bends", "force", 20.0},
    {"cable pull", "IEC 60068-2-21 20 N and 10 bends", "times", 10.0},
    {"cable pull", "UL 89 N", "force", 89.0},
    {"cable pull", "UL 89 N", "held", 60.0},  // one minute
    {"cable pull", "EN 50521 60 N", "force", 60.0},
    {"spray", "IEC 60529 IPX4", "per_minute", 0.010},  // 10 l
    {"spray", "IEC 60529 IPX4", "lasting", 300.0},     // at least 5 min
    {"spray", "IEC 60529 IPX5", "per_minute", 0.0125},
    {"spray", "IEC 60529 IPX5", "lasting", 180.0},  // at least 3 min
    {"spray", "IEC 60529 IPX5", "distance", 3.0},   // 2.5 m to 3 m
};

}  // namespace

TEST_CASE("levels of other stresses as published") {
  for (const Row& row : rows) {
    CAPTURE(row.kind, row.level, row.key);
    const StressKind* kind = find_stress_kind(row.kind);
    REQUIRE(kind != nullptr);
    const StressLevel* level = find_stress_level(*kind, row.level);
    REQUIRE(level != nullptr);
    CHECK_THAT(level->values.at(row.key), WithinRel(row.si, 1e-12));
  }
  std::size_t levels = 0;
  for (const StressKind& kind : stress_kinds())
    levels += kind.levels.size();
  CHECK(levels == 9);
}
