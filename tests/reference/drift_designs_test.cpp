// Orders of readings of two panels under a drift of the instruments: invented cases, status
// computed. The double substitution A B B A is read in S R Davis, J. Res. NBS 92(3) 239 (1987).
#include <cmath>
#include <string>

#include "evaluate/setup_drift.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

/// Estimate mean(B) - mean(A) with readings at t = 0, 1, 2, ...
struct Design {
  const char* order;
  double t, t2, t3;  ///< what a drift of that form leaves in it
  double variance;   ///< over that of one reading
};

constexpr Design designs[] = {
    {"AB", 1, 1, 1, 2},          {"ABA", 0, -1, -3, 1.5},       {"ABBA", 0, -2, -9, 1},
    {"ABAB", 1, 3, 10, 1},       {"AABB", 2, 6, 17, 1},         {"ABBABAAB", 0, 0, 12, 0.5},
    {"ABABABAB", 1, 7, 52, 0.5}, {"AAAABBBB", 4, 28, 178, 0.5},
};

std::vector<std::size_t> panels(const std::string& order) {
  std::vector<std::size_t> out;
  for (const char c : order)
    out.push_back(c == 'B' ? 1 : 0);
  return out;
}

std::vector<double> step_of(const LineWeights& weights) {
  std::vector<double> step;
  for (std::size_t i = 0; i < weights.mean[0].size(); ++i)
    step.push_back(weights.mean[1][i] - weights.mean[0][i]);
  return step;
}

double bias(const std::vector<double>& step, int power) {
  double sum = 0.0;
  for (std::size_t i = 0; i < step.size(); ++i)
    sum += step[i] * std::pow(static_cast<double>(i), power);
  return sum;
}

double variance(const std::vector<double>& step) {
  double sum = 0.0;
  for (const double w : step)
    sum += w * w;
  return sum;
}

std::vector<double> times(std::size_t n) {
  std::vector<double> t;
  for (std::size_t i = 0; i < n; ++i)
    t.push_back(static_cast<double>(i));
  return t;
}

}  // namespace

TEST_CASE("check drift_designs: what a drift leaves in plain means") {
  for (const Design& d : designs) {
    CAPTURE(d.order);
    const std::vector<double> step = step_of(plain_means(panels(d.order)));
    CHECK_THAT(bias(step, 1), WithinAbs(d.t, 1e-9));
    CHECK_THAT(bias(step, 2), WithinAbs(d.t2, 1e-9));
    CHECK_THAT(bias(step, 3), WithinAbs(d.t3, 1e-9));
    CHECK_THAT(variance(step), WithinAbs(d.variance, 1e-9));
  }
}

TEST_CASE("check drift_designs: beside a line a steady drift leaves nothing") {
  for (const Design& d : designs) {
    CAPTURE(d.order);
    const std::vector<std::size_t> order = panels(d.order);
    const auto line = means_beside_line(order, times(order.size()));
    if (std::string(d.order) == "AB") {
      CHECK_FALSE(line.has_value());  // a drift and a difference look alike
      continue;
    }
    REQUIRE(line.has_value());
    const std::vector<double> step = step_of(*line);
    CHECK_THAT(bias(step, 0), WithinAbs(0.0, 1e-9));
    CHECK_THAT(bias(step, 1), WithinAbs(0.0, 1e-9));
    // No unbiased estimate scatters less than the plain one where that is unbiased already.
    CHECK(variance(step) > d.variance - 1e-9);
    if (d.t == 0.0) CHECK_THAT(variance(step), WithinAbs(d.variance, 1e-9));
  }
}

// Least squares of a mean, a step of -1/2 and +1/2 and linear time, by the normal equations in
// exact fractions (computed): A B B A A B B at uneven times.
TEST_CASE("drift designs: the line of the normal equations") {
  const std::vector<std::size_t> order = panels("ABBAABB");
  const std::vector<double> t{0, 1, 3, 4, 8, 9, 12};
  const std::vector<double> q{5.0, 5.2, 5.7, 5.4, 6.1, 6.6, 7.0};
  const auto line = means_beside_line(order, t);
  REQUIRE(line.has_value());
  const std::vector<double> step = step_of(*line);
  double value = 0.0;
  double slope = 0.0;
  for (std::size_t i = 0; i < q.size(); ++i) {
    value += step[i] * q[i];
    slope += line->slope[i] * q[i];
  }
  CHECK_THAT(value, WithinAbs(1241.0 / 4430.0, 1e-12));
  CHECK_THAT(slope, WithinAbs(679.0 / 4430.0, 1e-12));
  CHECK_THAT(variance(step), WithinAbs(836.0 / 1329.0, 1e-12));
  CHECK_THAT(step[0], WithinAbs(-335.0 / 1329.0, 1e-12));
  CHECK_THAT(step[6], WithinAbs(59.0 / 443.0, 1e-12));
}
