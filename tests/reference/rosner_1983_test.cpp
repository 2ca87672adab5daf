// Rosner 1983, Percentage points for a generalized ESD many-outlier procedure, Technometrics 25(2),
// 165-172: data and table of the worked example in the NIST/SEMATECH e-Handbook of Statistical
// Methods, 1.3.5.17.3. Read in a copy of the handbook's commands for R with the output that R
// prints, to more digits than the page; the page itself was not read.
#include "hailwright/metrology/outliers.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

const std::vector<double> data{-0.25, 0.68, 0.94, 1.15, 1.20, 1.26, 1.26, 1.34, 1.38, 1.43, 1.49,
                               1.49,  1.55, 1.56, 1.58, 1.65, 1.69, 1.70, 1.76, 1.77, 1.81, 1.91,
                               1.94,  1.96, 1.99, 2.06, 2.09, 2.10, 2.14, 2.15, 2.23, 2.24, 2.26,
                               2.35,  2.37, 2.40, 2.47, 2.54, 2.62, 2.64, 2.90, 2.92, 2.92, 2.93,
                               3.21,  3.26, 3.30, 3.59, 3.68, 4.30, 4.64, 5.34, 5.42, 6.01};

struct Step {
  double statistic, critical;
};

constexpr Step printed[] = {{3.118906, 3.158794}, {2.942973, 3.151430}, {3.179424, 3.143890},
                            {2.810181, 3.136165}, {2.815580, 3.128247}, {2.848172, 3.120128},
                            {2.279327, 3.111796}, {2.310366, 3.103243}, {2.101581, 3.094456},
                            {2.067178, 3.085425}};

}  // namespace

TEST_CASE("Rosner 1983: statistics and critical values of the handbook") {
  REQUIRE(data.size() == 54);
  const auto steps = extreme_deviates(data, 10, 0.05);
  REQUIRE(steps.size() == 10);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    CAPTURE(i);
    CHECK_THAT(steps[i].deviation, WithinAbs(printed[i].statistic, 5e-7));
    CHECK_THAT(steps[i].bound, WithinAbs(printed[i].critical, 5e-7));
  }
}

TEST_CASE("Rosner 1983: three outliers, though the first two steps alone show none") {
  const auto found = outliers(data, 10, 0.05);
  REQUIRE(found.size() == 3);
  CHECK(found[0].index == 53);
  CHECK(found[1].index == 52);
  CHECK(found[2].index == 51);
}
