#include "hailwright/safety/yardsticks.hpp"

#include <algorithm>
#include <set>
#include <string>

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::literals;

namespace {

const Yardstick& named(std::string_view name) {
  const auto all = yardsticks();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Yardstick& y) { return y.name == name; });
  REQUIRE(found != all.end());
  return *found;
}

}  // namespace

// The energies beside the printed tests of the standards' summaries (tests read,
// joules computed there). The tolerance is half of the last digit given.
TEST_CASE("yardsticks carry the energies computed from their printed tests") {
  struct Row {
    const char* name;
    double given_J;
    double half_digit_J;
  };
  const Row row =
      GENERATE(Row{"rigid toy projectile, older limit", 0.08, 0.005},
               Row{"toy projectile with resilient tip, older limit", 0.5, 0.05},
               Row{"lethal barrelled weapon in the United Kingdom, above", 1.0, 0.5},
               Row{"hard ball on the chest, some hearts upset", 9.1, 0.05},
               Row{"rigid object, aircraft over people, category 2", 14.9, 0.05},
               Row{"rigid object, aircraft over people, category 3", 33.9, 0.05},
               Row{"hazardous fragment", 79.0, 0.5}, Row{"spectacles, EN 166 S", 0.56, 0.005},
               Row{"spectacles, Z87 basic", 0.84, 0.005}, Row{"spectacles, EN 166 F", 0.87, 0.005},
               Row{"spectacles, Z87+", 1.1, 0.05}, Row{"goggles, Z87+", 3.1, 0.05},
               Row{"face shield, Z87+", 4.4, 0.05}, Row{"goggles, EN 166 B", 6.2, 0.05},
               Row{"any Z87+, high mass", 6.2, 0.05}, Row{"face shield, EN 166 A", 15.5, 0.05});
  CAPTURE(row.name, row.given_J);
  CHECK_THAT(named(row.name).energy.si(), WithinAbs(row.given_J, row.half_digit_J));
}

TEST_CASE("58 ft-lbf lies between 78.63 J and 78.64 J") {
  CHECK(named("hazardous fragment").energy > 78.63_J);
  CHECK(named("hazardous fragment").energy < 78.64_J);
}

TEST_CASE("yardsticks are whole, each under a source that is listed") {
  std::set<std::string_view> known;
  for (const Citation& c : yardstick_sources()) {
    CAPTURE(c.id);
    CHECK(known.insert(c.id).second);
    CHECK_FALSE(c.title.empty());
    CHECK_FALSE(c.read_at.empty());
  }
  std::set<std::string_view> names, used;
  CHECK(yardsticks().size() == 16);
  for (const Yardstick& y : yardsticks()) {
    CAPTURE(y.name);
    CHECK(names.insert(y.name).second);
    CHECK_FALSE(y.printed.empty());
    CHECK(known.count(y.citation) == 1);
    used.insert(y.citation);
  }
  CHECK(used == known);
}

TEST_CASE("eyewear is a part of the yardsticks, weakest first") {
  const auto all = eyewear();
  CHECK(all.size() == 9);
  CHECK(std::all_of(all.begin(), all.end(),
                    [](const Yardstick& y) { return y.kind == YardstickKind::eyewear; }));
  CHECK(std::count_if(yardsticks().begin(), yardsticks().end(),
                      [](const Yardstick& y) { return y.kind == YardstickKind::eyewear; }) == 9);
  CHECK(std::is_sorted(all.begin(), all.end(),
                       [](const Yardstick& a, const Yardstick& b) { return a.energy < b.energy; }));
}

// Computed beforehand: 25 mm (2.0 J) beats F and Z87+ spectacles; 35 mm (7.7 J) beats
// B; 45 mm (20.7 J) beats A [computed].
TEST_CASE("balls of hail tests against eyewear") {
  REQUIRE(strongest_eyewear_below(2.0_J) != nullptr);
  CHECK(strongest_eyewear_below(2.0_J)->name == "spectacles, Z87+");
  CHECK(weakest_eyewear_above(2.0_J)->name == "goggles, Z87+");

  const auto at_35_mm = eyewear_against(7.7_J);
  REQUIRE(at_35_mm.size() == 9);
  CHECK(strongest_eyewear_below(7.7_J)->name == "any Z87+, high mass");
  for (const auto& one : at_35_mm) {
    CAPTURE(one.eyewear->name);
    CHECK(one.outdone == (one.eyewear->name != "face shield, EN 166 A"));
  }

  CHECK(strongest_eyewear_below(20.7_J)->name == "face shield, EN 166 A");
  CHECK(weakest_eyewear_above(20.7_J) == nullptr);
}

TEST_CASE("eyewear at, below and above the energy of a ball") {
  const Energy weakest = eyewear().front().energy;
  CHECK(strongest_eyewear_below(0.0_J) == nullptr);
  CHECK(strongest_eyewear_below(weakest - 0.001_J) == nullptr);
  // As much as it is proved with: not protected.
  CHECK(strongest_eyewear_below(weakest) == &eyewear().front());
  CHECK(eyewear_against(weakest).front().outdone);
  CHECK_FALSE(eyewear_against(weakest - 0.001_J).front().outdone);
  CHECK(weakest_eyewear_above(weakest) == &eyewear()[1]);
}
