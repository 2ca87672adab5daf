#include "report/chart_labels.hpp"

#include <algorithm>
#include <numeric>
#include <random>

#include "hailwright/core/contract.hpp"
#include "report/chart.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

constexpr Ends across{80.0, 900.0};
constexpr double size = 14.0;

/// Checks that no two labels touch and none leaves the axis.
void check_apart(const AxisLabels& placed, const std::vector<std::string>& words) {
  for (std::size_t i = 0; i < placed.labels.size(); ++i) {
    const auto& a = placed.labels[i];
    const double a_width = placed.upright ? size : text_units(words[a.item], size);
    CAPTURE(i, a.item, a.x, a.row);
    if (!placed.upright) {
      CHECK(a.x - a_width / 2.0 >= across.low - 1e-9);
      CHECK(a.x + a_width / 2.0 <= across.high + 1e-9);
      CHECK(placed.height >= label_row * (a.row + 1));
    }
    for (std::size_t k = i + 1; k < placed.labels.size(); ++k) {
      const auto& b = placed.labels[k];
      if (a.row != b.row) continue;
      const double b_width = placed.upright ? size : text_units(words[b.item], size);
      CHECK(std::abs(a.x - b.x) >= (a_width + b_width) / 2.0);
    }
  }
}

}  // namespace

TEST_CASE("chart_labels: room for all in one row then in two or three") {
  const std::vector<double> at{100.0, 200.0, 300.0};
  const AxisLabels level = labels_along(at, {"1", "2", "3"}, size, across);
  REQUIRE(level.labels.size() == 3);
  CHECK(level.every == 1);
  CHECK(level.height == label_row);
  CHECK(level.labels[1].x == 200.0);
  const std::vector<std::string> longer(3, "fifteen letters");
  const AxisLabels staggered = labels_along(at, longer, size, across);
  CHECK(staggered.labels.size() == 3);
  CHECK(staggered.labels[1].row == 1);
  CHECK(staggered.labels[2].row == 0);
  CHECK(staggered.height == 2.0 * label_row);
}

TEST_CASE("chart_labels: where rows do not do they stand upright or are thinned out") {
  std::vector<double> at(30);
  std::iota(at.begin(), at.end(), 0.0);
  for (double& x : at)
    x = 100.0 + 20.0 * x;
  const AxisLabels upright =
      labels_along(at, std::vector<std::string>(30, "a rather long name"), size, across);
  CHECK(upright.upright);
  CHECK(upright.labels.size() == 30);
  CHECK(upright.height > text_units("a rather long name", size));
  for (double& x : at)
    x = 100.0 + (x - 100.0) / 10.0;
  const AxisLabels thinned =
      labels_along(at, std::vector<std::string>(30, "a rather long name"), size, across);
  CHECK(thinned.every > 1);
  CHECK(thinned.labels.front().item == 0);
}

TEST_CASE("chart_labels: nothing and labels without room") {
  CHECK(labels_along({}, {}, size, across).labels.empty());
  CHECK_THROWS_AS(labels_along({1.0}, {}, size, across), BugError);
  CHECK_THROWS_AS(labels_along({1.0}, {std::string(200, 'm')}, size, across), BugError);
}

// Property: from 1 to 60 items at random places with random names.
TEST_CASE("chart_labels: random labels never touch") {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> place(across.low, across.high);
  for (int n = 1; n <= 60; ++n) {
    for (int round = 0; round < 8; ++round) {
      std::vector<double> at;
      std::vector<std::string> words;
      for (int i = 0; i < n; ++i) {
        at.push_back(round % 2 == 0 ? place(random) : across.low + 820.0 / n * (i + 0.5));
        words.push_back(round < 4 ? std::to_string(i + 1) : std::string(1 + random() % 18, 'w'));
      }
      std::sort(at.begin(), at.end());
      const AxisLabels placed = labels_along(at, words, size, across);
      CAPTURE(n, round);
      check_apart(placed, words);
      CHECK(placed.labels.front().item == 0);
      const auto every = static_cast<std::size_t>(placed.every);
      CHECK(placed.labels.size() == (at.size() + every - 1) / every);
      // Numbers evenly spread, as those of set-ups are, all have room.
      if (round == 1) CHECK(placed.every == 1);
    }
  }
}

TEST_CASE("chart_labels: spread apart as isotonic regression does it") {
  // R 4.2.2: isoreg(c(3, 1, 2, 6, 5, 5, 9, 7))$yf. With the gaps 10 that are taken off and put back
  // the same comes out 10 apart.
  const std::vector<double> fitted{2.0, 2.0, 2.0, 16.0 / 3.0, 16.0 / 3.0, 16.0 / 3.0, 8.0, 8.0};
  const std::vector<double> y{3.0, 1.0, 2.0, 6.0, 5.0, 5.0, 9.0, 7.0};
  std::vector<double> wanted;
  for (std::size_t i = 0; i < y.size(); ++i)
    wanted.push_back(y[i] + 10.0 * static_cast<double>(i));
  const std::vector<double> placed = spread_apart(wanted, 10.0, {-1000.0, 1000.0});
  for (std::size_t i = 0; i < y.size(); ++i)
    CHECK_THAT(placed[i], WithinAbs(fitted[i] + 10.0 * static_cast<double>(i), 1e-12));
}

TEST_CASE("chart_labels: spread apart inside the ends and in the order of what is meant") {
  CHECK(spread_apart({}, 5.0, {0.0, 1.0}).empty());
  CHECK(spread_apart({50.0}, 20.0, {0.0, 100.0}) == std::vector<double>{50.0});
  CHECK(spread_apart({99.0, 98.0}, 20.0, {0.0, 100.0}) == std::vector<double>{100.0, 80.0});
  CHECK(spread_apart({50.0, 50.0}, 20.0, {0.0, 100.0}) == std::vector<double>{40.0, 60.0});
  CHECK_THROWS_AS(spread_apart({1.0, 2.0, 3.0}, 60.0, {0.0, 100.0}), BugError);
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> place(-50.0, 450.0);
  for (int n = 1; n <= 21; ++n) {
    std::vector<double> wanted(static_cast<std::size_t>(n));
    for (double& w : wanted)
      w = place(random);
    const std::vector<double> placed = spread_apart(wanted, 19.0, {0.0, 400.0});
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      CHECK(placed[i] >= -1e-9);
      CHECK(placed[i] <= 400.0 + 1e-9);
      for (std::size_t k = 0; k < wanted.size(); ++k) {
        if (wanted[i] < wanted[k]) CHECK(placed[k] - placed[i] >= 19.0 - 1e-9);
      }
    }
  }
}
