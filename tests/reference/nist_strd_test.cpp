// NIST Statistical Reference Datasets, univariate: certified mean, standard deviation and lag-1
// autocorrelation. Status: read, in the NIST files beside this test; recomputed with 60 digits.
// The tolerances of sd and r1 follow what doubles can hold: the values of NumAcc3 and NumAcc4 have
// no exact double, and nearly all of their digits are the same, so that 9.5 and 8.3 digits of the
// standard deviation are left, whatever the formula. A one-pass sum of squares, the usual
// mistake, loses them all.
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "hailwright/metrology/statistics.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

struct Dataset {
  std::size_t observations = 0;  ///< as the header gives it
  double mean = 0.0, sd = 0.0, lag1 = 0.0;
  std::vector<double> values;
};

/// What follows the colon of a header line: "  0.1       (exact)".
double after_colon(const std::string& line) {
  return std::stod(line.substr(line.rfind(':') + 1));
}

Dataset read_dataset(const std::string& name) {
  std::ifstream file(std::string(HAILWRIGHT_SOURCE_DIR) + "/tests/reference/nist_strd/" + name +
                     ".dat");
  REQUIRE(file);
  Dataset set;
  std::string line;
  for (int number = 1; std::getline(file, line); ++number) {
    if (number == 41) set.mean = after_colon(line);
    if (number == 42) set.sd = after_colon(line);
    if (number == 43) set.lag1 = after_colon(line);
    if (number == 45) set.observations = static_cast<std::size_t>(after_colon(line));
    if (number < 61) continue;
    std::istringstream values(line);
    for (double v = 0.0; values >> v;)
      set.values.push_back(v);
  }
  return set;
}

/// Digits that agree, as the NIST scores of packages count them: log relative error.
double digits(double computed, double certified) {
  const double off = std::abs(computed - certified);
  return off == 0.0 ? 17.0 : -std::log10(off / std::abs(certified));
}

struct Tolerance {
  double mean_rel, sd_rel, lag1_abs;
};
constexpr Tolerance holdable{1e-14, 1e-12, 1e-12};

void check(const std::string& name, const Tolerance& allowed) {
  const Dataset set = read_dataset(name);
  REQUIRE(set.values.size() == set.observations);
  const double m = mean(set.values);
  const double sd = sample_sd(set.values).value();
  const double r1 = lag1_autocorrelation(set.values).value();
  CAPTURE(name, m, set.mean, sd, set.sd, r1, set.lag1);
  CHECK(digits(m, set.mean) >= -std::log10(allowed.mean_rel));
  CHECK(digits(sd, set.sd) >= -std::log10(allowed.sd_rel));
  CHECK_THAT(r1, WithinAbs(set.lag1, allowed.lag1_abs));
}

/// The formula of a pocket calculator, for comparison.
double one_pass_variance(const std::vector<double>& values) {
  double sum = 0.0;
  double squares = 0.0;
  for (const double v : values) {
    sum += v;
    squares += v * v;
  }
  const auto n = static_cast<double>(values.size());
  return (squares - sum * sum / n) / (n - 1.0);
}

}  // namespace

TEST_CASE("check strd_lew: NIST mean, sd and lag-1 autocorrelation", "[reference]") {
  check("Lew", holdable);
}

TEST_CASE("check strd_lottery: NIST mean, sd and lag-1 autocorrelation", "[reference]") {
  check("Lottery", holdable);
}

TEST_CASE("check strd_mavro: NIST mean, sd and lag-1 autocorrelation", "[reference]") {
  check("Mavro", holdable);
}

TEST_CASE("check strd_michelso: NIST mean, sd and lag-1 autocorrelation", "[reference]") {
  check("Michelso", holdable);
}

TEST_CASE("check strd_numacc1: NIST mean, sd and lag-1 autocorrelation", "[reference]") {
  check("NumAcc1", holdable);
}

TEST_CASE("check strd_numacc2: NIST mean, sd and lag-1 autocorrelation", "[reference]") {
  check("NumAcc2", holdable);
}

TEST_CASE("check strd_numacc3: NIST mean, sd and lag-1 autocorrelation", "[reference]") {
  check("NumAcc3", {1e-14, 2e-9, 2e-8});
}

TEST_CASE("check strd_numacc4: NIST mean, sd and lag-1 autocorrelation", "[reference]") {
  check("NumAcc4", {1e-14, 2e-8, 2e-7});
}

TEST_CASE("check strd_pidigits: NIST mean, sd and lag-1 autocorrelation", "[reference]") {
  check("PiDigits", holdable);
}

TEST_CASE("nist strd: a one-pass sum of squares would fail", "[reference]") {
  const Dataset hardest = read_dataset("NumAcc4");
  CHECK(digits(std::sqrt(std::abs(one_pass_variance(hardest.values))), hardest.sd) < 2.0);
}
