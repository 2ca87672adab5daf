#include "report/aim_map_labels.hpp"

#include <cmath>
#include <random>

#include "support/catch.hpp"

using namespace hailwright::detail;

namespace {

const LabelBox area{{500.0, 250.0}, 1000.0, 500.0};

}  // namespace

TEST_CASE("aim_map_labels: in the middle of a disc that has room") {
  const auto labels = place_labels({{{100.0, 100.0}, 22.0, 22.0, 16.0}}, {}, area);
  REQUIRE(labels.size() == 1);
  CHECK(labels[0].inside);
  CHECK_FALSE(labels[0].crowded);
  CHECK(labels[0].box.middle.x == 100.0);
  CHECK(labels[0].box.middle.y == 100.0);
}

TEST_CASE("aim_map_labels: off the middle where a mount is in the way") {
  const LabelBox mount{{100.0, 111.0}, 12.0, 12.0};
  const auto labels = place_labels({{{100.0, 100.0}, 22.0, 12.0, 16.0}}, {mount}, area);
  CHECK(labels[0].inside);
  CHECK(labels[0].box.middle.y < 100.0);
  CHECK_FALSE(touch(labels[0].box, mount));
}

TEST_CASE("aim_map_labels: beside a small disc, and beside one whose middle is taken") {
  const auto small = place_labels({{{100.0, 100.0}, 6.0, 22.0, 16.0}}, {}, area);
  CHECK_FALSE(small[0].inside);
  CHECK(small[0].box.middle.x > 100.0 + 6.0 + 11.0);
  const std::vector<Labelled> twice{{{100.0, 100.0}, 22.0, 22.0, 16.0},
                                    {{100.0, 100.0}, 22.0, 28.0, 21.0}};
  const auto labels = place_labels(twice, {}, area);
  CHECK(labels[0].inside);
  CHECK_FALSE(labels[1].inside);
  CHECK_FALSE(touch(labels[0].box, labels[1].box));
}

TEST_CASE("aim_map_labels: never outside the panel") {
  const auto labels = place_labels({{{995.0, 100.0}, 6.0, 22.0, 16.0}}, {}, area);
  CHECK(labels[0].box.middle.x + 11.0 <= 1000.0);
  CHECK_FALSE(labels[0].crowded);
}

TEST_CASE("aim_map_labels: no room at all is said") {
  const LabelBox all{{500.0, 250.0}, 1000.0, 500.0};
  const auto labels = place_labels({{{100.0, 100.0}, 22.0, 22.0, 16.0}}, {all}, area);
  CHECK(labels[0].crowded);
}

TEST_CASE("aim_map_labels: no two labels touch, wherever the discs lie") {
  std::mt19937 random(7);
  const auto uniform = [&](double high) {
    return high * static_cast<double>(random()) / 4294967296.0;
  };
  for (int trial = 0; trial < 200; ++trial) {
    std::vector<Labelled> discs;
    for (int i = 0; i < 16; ++i)
      discs.push_back({{uniform(1000.0), uniform(500.0)}, 5.0 + uniform(30.0), 22.0, 16.0});
    const auto labels = place_labels(discs, {}, area);
    for (std::size_t i = 0; i < labels.size(); ++i) {
      CHECK_FALSE(labels[i].crowded);
      for (std::size_t k = 0; k < i; ++k) {
        const bool apart = !touch(labels[i].box, labels[k].box);
        CHECK(apart);
      }
    }
  }
}
