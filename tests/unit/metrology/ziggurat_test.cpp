#include "metrology/ziggurat.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "hailwright/metrology/distributions.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using detail::Ziggurat;
using detail::ziggurat;

namespace {

double bell(double x) {
  return std::exp(-0.5 * x * x);
}

/// Area below exp(-t^2/2) from x on.
double area_beyond(double x) {
  return std::sqrt(2.0 * std::numbers::pi) * normal_cdf(-x);
}

double width(std::size_t i) {
  return 0.5 * ziggurat().full_width()[i];
}

}  // namespace

TEST_CASE("rectangles of the ziggurat have one area and reach the curve") {
  const double whole = std::sqrt(std::numbers::pi / 2.0);
  double below = 0.0;
  for (std::size_t i = 0; i < ziggurat().rectangles(); ++i) {
    CAPTURE(i);
    const double top = bell(width(i));
    CHECK_THAT(width(i) * (top - below), WithinRel(whole / Ziggurat::layers, 1e-11));
    if (i > 0) CHECK(width(i) < width(i - 1));
    below = top;
  }
  // None fits above the last: at any width the area left is too small.
  for (int k = 1; k <= 100; ++k) {
    const double x = 0.01 * k * width(ziggurat().rectangles() - 1);
    CHECK(x * (bell(x) - below) < whole / Ziggurat::layers);
  }
  CHECK(ziggurat().full_width()[ziggurat().rectangles()] == 0.0);
}

// The rest is what of each strip between two widths lies above the wider rectangle, and the tail.
// Its areas by the normal distribution function are held against the draws from it.
TEST_CASE("the rest of the ziggurat is drawn by its areas") {
  const std::size_t n = ziggurat().rectangles();
  std::vector<double> areas{area_beyond(width(0))};
  for (std::size_t i = 1; i <= n; ++i) {
    const double inner = i < n ? width(i) : 0.0;
    areas.push_back(area_beyond(inner) - area_beyond(width(i - 1)) -
                    (width(i - 1) - inner) * bell(width(i - 1)));
  }
  double rest = 0.0;
  for (const double a : areas)
    rest += a;
  const double whole = std::sqrt(std::numbers::pi / 2.0);
  CHECK_THAT(rest / whole,
             WithinRel(static_cast<double>(Ziggurat::layers - n) / Ziggurat::layers, 1e-9));

  constexpr int draws = 150'000;
  std::vector<int> counts(areas.size());
  int positive = 0;
  RandomStream random(11);
  const auto widths = std::span(ziggurat().full_width()).first(n);
  const std::uint64_t on_the_rest = Ziggurat::layers - 1;
  for (int i = 0; i < draws; ++i) {
    const double x = ziggurat().draw(on_the_rest, random);
    if (x > 0.0) ++positive;
    // Widths fall: the number of those that are wider.
    const auto strip = static_cast<std::size_t>(
        std::lower_bound(widths.begin(), widths.end(), 2.0 * std::abs(x), std::greater<>()) -
        widths.begin());
    ++counts[strip];
  }
  double chi_squared = 0.0;
  for (std::size_t i = 0; i < areas.size(); ++i) {
    const double expected = draws * areas[i] / rest;
    REQUIRE(expected > 5.0);
    chi_squared += (counts[i] - expected) * (counts[i] - expected) / expected;
  }
  const auto dof = static_cast<double>(areas.size() - 1);
  CHECK(chi_squared < chi_squared_quantile(1.0 - 1e-4, dof));
  CHECK(chi_squared > chi_squared_quantile(1e-4, dof));
  CHECK_THAT(positive, WithinAbs(0.5 * draws, 4.0 * std::sqrt(0.25 * draws)));
}

// A tail drawn until it succeeded, whatever its box is filled, came 6 % too often. Beyond its start
// s it has mean bell(s)/area - s of what it goes beyond (integration by parts), and shares by the
// distribution function.
TEST_CASE("the tail of the ziggurat") {
  const double start = width(0);
  RandomStream random(12);
  constexpr int draws = 600'000;
  int n = 0;
  double beyond = 0.0;
  double squares = 0.0;
  int half_farther = 0;
  for (int i = 0; i < draws; ++i) {
    const double x = std::abs(ziggurat().draw(Ziggurat::layers - 1, random));
    if (x < start) continue;
    ++n;
    beyond += x - start;
    squares += (x - start) * (x - start);
    if (x > start + 0.5) ++half_farther;
  }
  const auto not_rest = static_cast<double>(ziggurat().rectangles()) / Ziggurat::layers;
  const double share = 2.0 * normal_cdf(-start) / (1.0 - not_rest);
  CHECK_THAT(n, WithinAbs(share * draws, 4.0 * std::sqrt(share * draws)));
  const double mean = beyond / n;
  const double u = std::sqrt((squares / n - mean * mean) / n);
  CHECK_THAT(mean, WithinAbs(bell(start) / area_beyond(start) - start, 4.0 * u));
  const double p = area_beyond(start + 0.5) / area_beyond(start);
  CHECK_THAT(half_farther, WithinAbs(p * n, 4.0 * std::sqrt(n * p * (1.0 - p))));
}
