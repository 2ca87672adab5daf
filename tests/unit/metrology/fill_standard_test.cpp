#include "metrology/fill_standard.hpp"

#include <bit>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using detail::Vectors;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

struct Kind {
  const char* name;
  Shape shape;
  double degrees_of_freedom;
};

const Kind kinds[] = {{"rectangular", Shape::rectangular, infinite},
                      {"triangular", Shape::triangular, infinite},
                      {"arcsine", Shape::arcsine, infinite},
                      {"normal", Shape::normal, infinite},
                      {"t 2.5", Shape::normal, 2.5},
                      {"t 0.01", Shape::normal, 0.01}};

std::vector<double> filled(const Kind& kind, std::size_t n, RandomStream random) {
  std::vector<double> values(n);
  fill_standard(random, kind.shape, kind.degrees_of_freedom, values);
  return values;
}

/// FNV-1a over the bits.
std::uint64_t digest(const std::vector<double>& values) {
  std::uint64_t hash = 0xcbf29ce484222325;
  for (const double v : values) {
    const auto bits = std::bit_cast<std::uint64_t>(v);
    for (unsigned byte = 0; byte < 64; byte += 8)
      hash = (hash ^ ((bits >> byte) & 0xffU)) * 0x100000001b3;
  }
  return hash;
}

}  // namespace

// The whole point of the lanes: results do not depend on the processor.
TEST_CASE("arrays have the same bits with every set of vector instructions") {
  for (const Kind& kind : kinds) {
    for (const std::size_t n : {1U, 7U, 8U, 9U, 31U, 33U, 511U, 512U, 513U, 5000U}) {
      CAPTURE(kind.name, n);
      RandomStream plain(4, n);
      std::vector<double> expected(n);
      fill_standard_with(Vectors::plain, plain, kind.shape, kind.degrees_of_freedom, expected);
      for (const Vectors vectors : {Vectors::avx2, Vectors::avx512}) {
        if (vectors > detail::widest_vectors()) continue;
        RandomStream random(4, n);
        std::vector<double> values(n);
        fill_standard_with(vectors, random, kind.shape, kind.degrees_of_freedom, values);
        CHECK(digest(values) == digest(expected));
        // And it goes on from the same place.
        RandomStream went_on = plain;
        CHECK(random.bits() == went_on.bits());
        CHECK(random.lanes().state == went_on.lanes().state);
      }
    }
  }
}

// Computed by this program, so that another compiler, library or processor that gave others would
// be seen: plans and results are compared bit by bit.
TEST_CASE("arrays have the bits they always had") {
  const std::uint64_t known[] = {0xc3ca3ce16b78e802, 0x58ea597111917d88, 0xad73f92e167d0456,
                                 0xb62ddd884e1fe289, 0x937dca3f9e3fef31, 0xf8f3c008e096460e};
  for (std::size_t i = 0; i < std::size(kinds); ++i) {
    CAPTURE(kinds[i].name);
    CHECK(digest(filled(kinds[i], 20'000, RandomStream(1))) == known[i]);
  }
}

TEST_CASE("a length that rows of eight do not divide is filled to its end") {
  for (const Kind& kind : kinds) {
    CAPTURE(kind.name);
    const std::vector<double> longer = filled(kind, 24, RandomStream(9));
    const std::vector<double> shorter = filled(kind, 21, RandomStream(9));
    if (kind.shape != Shape::triangular && std::isinf(kind.degrees_of_freedom))
      CHECK(std::equal(shorter.begin(), shorter.end(), longer.begin()));
    CHECK(std::all_of(shorter.begin(), shorter.end(), [](double v) { return v != 0.0; }));
  }
  CHECK(filled(kinds[0], 0, RandomStream(9)).empty());
}

// Even moments of a shape with standard deviation 1: of the rectangle of half-width a = sqrt(3)
// a^(2k)/(2k + 1); of the triangle of a = sqrt(6) 2 a^(2k)/((2k + 1)(2k + 2)); of the arcsine of
// a = sqrt(2) a^(2k) (2k)!/(4^k k!^2); of the normal (2k - 1)!!. Elementary integrals.
TEST_CASE("moments of all shapes over many seeds") {
  struct Moments {
    Kind kind;
    double m2, m4, m6, m8;
  };
  const Moments all[] = {{kinds[0], 1.0, 9.0 / 5.0, 27.0 / 7.0, 9.0},
                         {kinds[1], 1.0, 12.0 / 5.0, 54.0 / 7.0, 144.0 / 5.0},
                         {kinds[2], 1.0, 1.5, 2.5, 35.0 / 8.0},
                         {kinds[3], 1.0, 3.0, 15.0, 105.0}};
  constexpr int seeds = 100;
  constexpr std::size_t draws = 5'000;
  for (const Moments& m : all) {
    CAPTURE(m.kind.name);
    const double mean_of[] = {0.0, m.m2, 0.0, m.m4};
    const double variance_of[] = {m.m2, m.m4 - m.m2 * m.m2, m.m6, m.m8 - m.m4 * m.m4};
    double offs[4] = {};
    double squares[4] = {};
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
      double sums[4] = {};
      for (const double x : filled(m.kind, draws, RandomStream(seed))) {
        const double xx = x * x;
        sums[0] += x;
        sums[1] += xx;
        sums[2] += x * xx;
        sums[3] += xx * xx;
      }
      for (std::size_t k = 0; k < 4; ++k) {
        const double off = (sums[k] / draws - mean_of[k]) / std::sqrt(variance_of[k] / draws);
        offs[k] += off;
        squares[k] += off * off;
      }
    }
    for (std::size_t k = 0; k < 4; ++k) {
      CAPTURE(k + 1);
      CHECK(squares[k] < chi_squared_quantile(1.0 - 1e-4, seeds));
      CHECK(squares[k] > chi_squared_quantile(1e-4, seeds));
      CHECK_THAT(offs[k] / std::sqrt(seeds), WithinAbs(0.0, 4.0));
    }
  }
}

TEST_CASE("shapes keep their bounds") {
  const double half_width[] = {std::sqrt(3.0), std::sqrt(6.0), std::sqrt(2.0)};
  for (std::size_t i = 0; i < 3; ++i) {
    const std::vector<double> values = filled(kinds[i], 100'000, RandomStream(3));
    const auto [least, most] = std::minmax_element(values.begin(), values.end());
    CAPTURE(kinds[i].name, *least, *most);
    CHECK(*least >= -half_width[i] * (1.0 + 1e-15));
    CHECK(*most <= half_width[i] * (1.0 + 1e-15));
    // They get near them: of the triangle, the farthest of 10^5 is at about a (1 - 1/sqrt(N/2)).
    CHECK(*most > 0.98 * half_width[i]);
    CHECK(*least < -0.98 * half_width[i]);
  }
}

// The bell in 250 parts of one probability, for some seeds, and its tails.
TEST_CASE("arrays of normal draws fit the distribution function") {
  constexpr std::size_t draws = 600'000;
  constexpr int parts = 250;
  const double far[] = {3.0, 3.5, 4.0, 4.5};
  int beyond[4] = {};
  double chi_squared = 0.0;
  constexpr int seeds = 3;
  for (std::uint64_t seed = 0; seed < seeds; ++seed) {
    std::vector<int> counts(parts);
    for (const double z : filled(kinds[3], draws, RandomStream(seed, 1))) {
      const double p = 0.5 * std::erfc(-z * std::sqrt(0.5));
      ++counts[static_cast<std::size_t>(std::min(p * parts, parts - 1.0))];
      if (std::abs(z) < far[0]) continue;
      for (std::size_t k = 0; k < 4; ++k)
        if (std::abs(z) > far[k]) ++beyond[k];
    }
    const double expected = static_cast<double>(draws) / parts;
    for (const int n : counts)
      chi_squared += (n - expected) * (n - expected) / expected;
  }
  CHECK(chi_squared < chi_squared_quantile(1.0 - 1e-4, seeds * (parts - 1)));
  CHECK(chi_squared > chi_squared_quantile(1e-4, seeds * (parts - 1)));
  for (std::size_t k = 0; k < 4; ++k) {
    const double expected = 2.0 * normal_cdf(-far[k]) * draws * seeds;
    CAPTURE(far[k], beyond[k]);
    CHECK_THAT(beyond[k], WithinAbs(expected, 4.0 * std::sqrt(expected)));
  }
}

TEST_CASE("arrays of t draws have the quantiles of t") {
  constexpr std::size_t draws = 100'000;
  for (const double nu : {1.0, 2.0, 2.5, 3.0, 30.0}) {
    const std::vector<double> values = filled({"t", Shape::normal, nu}, draws, RandomStream(17));
    for (const double p : {0.0005, 0.025, 0.5, 0.9, 0.975, 0.995, 0.9995}) {
      const double point = t_quantile(p, nu);
      const auto n =
          std::count_if(values.begin(), values.end(), [&](double t) { return t < point; });
      CAPTURE(nu, p, n);
      CHECK_THAT(static_cast<double>(n),
                 WithinAbs(p * draws, 4.5 * std::sqrt(draws * p * (1.0 - p))));
    }
  }
}

// Neighbours in an array come from different lanes, the ninth number from the lane of the first.
TEST_CASE("numbers of one array do not follow from each other") {
  for (const Kind& kind : {kinds[0], kinds[3]}) {
    const std::vector<double> x = filled(kind, 200'000, RandomStream(31));
    for (const std::size_t lag : {1U, 2U, 4U, 7U, 8U, 16U, 512U}) {
      double sum = 0.0;
      for (std::size_t i = 0; i + lag < x.size(); ++i)
        sum += x[i] * x[i + lag];
      CAPTURE(kind.name, lag);
      const auto n = static_cast<double>(x.size() - lag);
      CHECK_THAT(sum / std::sqrt(n), WithinAbs(0.0, 4.0));
    }
  }
}

TEST_CASE("degrees of freedom count for normal alone and lie above 0") {
  CHECK(filled({"", Shape::rectangular, 0.0}, 16, RandomStream(1)) ==
        filled(kinds[0], 16, RandomStream(1)));
  CHECK(filled({"", Shape::normal, 1e9}, 16, RandomStream(1)) ==
        filled(kinds[3], 16, RandomStream(1)));
  CHECK_THROWS_AS(filled({"", Shape::normal, 0.0}, 16, RandomStream(1)), BugError);
}
