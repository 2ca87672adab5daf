#include "report/chart_scale.hpp"

#include <cmath>
#include <limits>
#include <random>
#include <set>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using Catch::Matchers::Equals;

namespace {

std::vector<std::string> labels(const Scale& scale, int most) {
  std::vector<std::string> all;
  for (const Tick& t : ticks(scale, most)) {
    if (!t.label.empty()) all.push_back(t.label);
  }
  return all;
}

Scale linear(double low, double high) {
  return {Scale::Kind::linear, {low, high}, 0.0, 100.0};
}
Scale logarithmic(double low, double high) {
  return {Scale::Kind::logarithmic, {low, high}, 0.0, 100.0};
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("chart_scale: linear figures are round and have the fewest digits") {
  // Worked by hand: the smallest step of 1, 2 or 5 times a power of ten that leaves so many.
  CHECK_THAT(labels(linear(0.0, 10.0), 6), Equals(Words{"0", "2", "4", "6", "8", "10"}));
  CHECK(labels(linear(0.0, 10.0), 11).size() == 11);
  CHECK_THAT(labels(linear(0.0, 10.0), 5), Equals(Words{"0", "5", "10"}));
  CHECK_THAT(labels(linear(-0.8, 2.1), 8),
             Equals(Words{"-0.5", "0.0", "0.5", "1.0", "1.5", "2.0"}));
  CHECK_THAT(labels(linear(94.7, 102.3), 9),
             Equals(Words{"95", "96", "97", "98", "99", "100", "101", "102"}));
  CHECK_THAT(labels(linear(99.991, 100.004), 4), Equals(Words{"99.995", "100.000"}));
  CHECK_THAT(labels(linear(0.0, 3.2e-6), 4),
             Equals(Words{"0.000000", "0.000001", "0.000002", "0.000003"}));
  CHECK_THAT(labels(linear(0.0, 1e6), 3), Equals(Words{"0", "500000", "1000000"}));
  CHECK_THAT(labels(linear(-30.0, -10.0), 3), Equals(Words{"-30", "-20", "-10"}));
}

TEST_CASE("chart_scale: beyond six places the figures carry their power of ten") {
  CHECK_THAT(labels(linear(0.0, 4e-9), 3), Equals(Words{"0", "2e-9", "4e-9"}));
  CHECK_THAT(labels(linear(1.0e9, 1.2e9), 3), Equals(Words{"1.0e9", "1.1e9", "1.2e9"}));
  CHECK_THAT(labels(linear(-2e7, 2e7), 3), Equals(Words{"-2e7", "0", "2e7"}));
  CHECK_THAT(labels(logarithmic(1e-9, 1e9), 4), Equals(Words{"0.00001", "1", "100000"}));
}

TEST_CASE("chart_scale: logarithmic figures are powers of ten with 2 and 5 where they fit") {
  CHECK_THAT(labels(logarithmic(0.8, 60.0), 8), Equals(Words{"1", "2", "5", "10", "20", "50"}));
  CHECK_THAT(labels(logarithmic(0.01, 1000.0), 6),
             Equals(Words{"0.01", "0.1", "1", "10", "100", "1000"}));
  CHECK_THAT(labels(logarithmic(0.01, 1000.0), 3), Equals(Words{"0.01", "1", "100"}));
  // Where 2 and 5 times have no figure they keep a small mark.
  CHECK(ticks(logarithmic(0.01, 1000.0), 6).size() == 16);
  // Less than three of those: linear figures on the logarithmic axis.
  CHECK_THAT(labels(logarithmic(2.1, 4.9), 6), Equals(Words{"2.5", "3.0", "3.5", "4.0", "4.5"}));
  CHECK(labels(logarithmic(1e-6, 1e6), 13).size() == 13);
}

TEST_CASE("chart_scale: a range for the data with air at both ends") {
  const Scale scale = linear_scale(std::vector<double>{3.0, 1.0, 2.0}, 0.0, 220.0);
  CHECK_THAT(scale.values().low, WithinAbs(0.9, 1e-12));
  CHECK_THAT(scale.values().high, WithinAbs(3.1, 1e-12));
  CHECK_THAT(scale.at(1.0), WithinAbs(10.0, 1e-9));
  CHECK_THAT(scale.at(3.1), WithinAbs(220.0, 1e-9));
  const Scale upwards = log_scale(std::vector<double>{1.0, 100.0}, 110.0, 0.0);
  CHECK_THAT(upwards.at(1.0), WithinAbs(105.0, 1e-9));
  CHECK_THAT(upwards.at(10.0), WithinAbs(55.0, 1e-9));
  CHECK_THAT(upwards.clipped(1e9), WithinAbs(0.0, 1e-9));
  CHECK(upwards.clipped(0.0) == 110.0);
  CHECK(upwards.clipped(-1.0) == 110.0);
}

TEST_CASE("chart_scale: values all alike have an axis too") {
  for (const double value : {0.0, 5.0, -3.0, 1e-6, 1e6}) {
    const Scale scale = linear_scale(std::vector<double>{value, value}, 0.0, 100.0);
    CAPTURE(value);
    CHECK(scale.values().length() > 0.0);
    CHECK_THAT(scale.at(value), WithinAbs(50.0, 1e-6));
    CHECK(ticks(scale, 5).size() >= 2);
  }
  const Scale one = log_scale(std::vector<double>{7.0}, 0.0, 100.0);
  CHECK_THAT(one.at(7.0), WithinAbs(50.0, 1e-6));
  CHECK(ticks(one, 5).size() >= 2);
}

TEST_CASE("chart_scale: what has no axis is refused") {
  CHECK_THROWS_AS(linear_scale(std::vector<double>{}, 0.0, 1.0), BugError);
  CHECK_THROWS_AS(
      linear_scale(std::vector<double>{std::numeric_limits<double>::quiet_NaN()}, 0.0, 1.0),
      BugError);
  CHECK_THROWS_AS(log_scale(std::vector<double>{0.0, 1.0}, 0.0, 1.0), BugError);
  CHECK_THROWS_AS(linear(1.0, 1.0), BugError);
  CHECK_THROWS_AS(logarithmic(-1.0, 1.0), BugError);
  CHECK_THROWS_AS(logarithmic(1.0, 2.0).at(0.0), BugError);
  CHECK_THROWS_AS(ticks(linear(0.0, 1.0), 1), BugError);
}

// Property: whatever the data, figures are inside, rising, few enough, and no two read alike; each
// reads as the value where it stands, to half of its last digit.
TEST_CASE("chart_scale: figures of random ranges") {
  std::mt19937_64 random(5);
  std::uniform_real_distribution<double> exponent(-6.0, 6.0), share(0.0, 1.0);
  for (int i = 0; i < 4000; ++i) {
    const double size = std::pow(10.0, exponent(random));
    const double offset = share(random) < 0.5 ? 0.0 : size * 100.0 * (share(random) - 0.5);
    const bool log = i % 2 == 1;
    const double low = log ? size : offset - size * share(random);
    const double high = log ? size * std::pow(10.0, 0.01 + 8.0 * share(random)) : offset + size;
    const Scale scale = log ? logarithmic(low, high) : linear(low, high);
    const int most = 2 + i % 11;
    CAPTURE(low, high, most, log);
    std::set<std::string> seen;
    double last = -std::numeric_limits<double>::infinity();
    for (const Tick& t : ticks(scale, most)) {
      CHECK(t.value > last);
      last = t.value;
      CHECK(scale.at(t.value) >= -1e-6);
      CHECK(scale.at(t.value) <= 100.0 + 1e-6);
      if (t.label.empty()) continue;
      CHECK(seen.insert(t.label).second);
      CHECK_THAT(std::stod(t.label), WithinAbs(t.value, 1e-9 * std::abs(t.value) + 1e-15));
    }
    CHECK(seen.size() <= static_cast<std::size_t>(most));
  }
}
