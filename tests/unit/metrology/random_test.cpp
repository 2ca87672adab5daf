#include "hailwright/metrology/random.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <set>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "metrology/random_kernels.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

/// splitmix64 as its authors print it.
std::vector<std::uint64_t> splitmix(std::uint64_t seed, std::size_t n) {
  std::vector<std::uint64_t> words;
  for (std::size_t i = 0; i < n; ++i) {
    std::uint64_t z = (seed += 0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111eb;
    words.push_back(z ^ (z >> 31U));
  }
  return words;
}

/// `draw` many times: the counts beyond the given points must fit their probabilities.
template <class Draw>
void check_shares(const std::vector<double>& points, const std::vector<double>& beyond, int draws,
                  Draw draw) {
  std::vector<int> counts(points.size());
  for (int i = 0; i < draws; ++i) {
    const double x = draw();
    for (std::size_t k = 0; k < points.size(); ++k)
      if (x > points[k]) ++counts[k];
  }
  for (std::size_t k = 0; k < points.size(); ++k) {
    const double p = beyond[k];
    CAPTURE(points[k], p, counts[k]);
    CHECK_THAT(counts[k], WithinAbs(p * draws, 4.5 * std::sqrt(draws * p * (1.0 - p))));
  }
}

}  // namespace

// Outputs of the authors' C program for the state 1, 2, 3, 4, read in the tests of the rand_xoshiro
// crate; of splitmix64 for 1234567, read in tests of several implementations.
TEST_CASE("xoshiro256++ and splitmix64 give their published numbers") {
  std::uint64_t s[] = {1, 2, 3, 4};
  for (const std::uint64_t published :
       {41943041ULL, 58720359ULL, 3588806011781223ULL, 3591011842654386ULL, 9228616714210784205ULL,
        9973669472204895162ULL, 14011001112246962877ULL, 12406186145184390807ULL,
        15849039046786891736ULL, 10450023813501588000ULL})
    CHECK(detail::xoshiro_step(s[0], s[1], s[2], s[3]) == published);
  CHECK(splitmix(1234567, 5) ==
        std::vector<std::uint64_t>{6457827717110365317ULL, 3203168211198807973ULL,
                                   9817491932198370423ULL, 4593380528125082431ULL,
                                   16408922859458223821ULL});
}

TEST_CASE("a seed sets the stream and its lanes by splitmix64") {
  for (const std::uint64_t seed : {0ULL, 1ULL, 20260614ULL, ~0ULL}) {
    CAPTURE(seed);
    const std::vector<std::uint64_t> words = splitmix(seed, 36);
    RandomStream random(seed);
    for (std::size_t lane = 0; lane < RandomLanes::count; ++lane)
      for (std::size_t word = 0; word < 4; ++word)
        CHECK(random.lanes().state[word][lane] == words[4 + 4 * lane + word]);
    std::uint64_t s[] = {words[0], words[1], words[2], words[3]};
    for (int i = 0; i < 100; ++i)
      CHECK(random.bits() == detail::xoshiro_step(s[0], s[1], s[2], s[3]));
  }
}

TEST_CASE("the same seed gives the same numbers, another seed or block others") {
  RandomStream a(1);
  RandomStream b(1);
  CHECK(a.bits() == b.bits());
  CHECK(a.normal() == b.normal());
  std::set<std::uint64_t> first;
  int made = 0;
  for (std::uint64_t seed = 0; seed < 40; ++seed) {
    first.insert(RandomStream(seed).bits());
    ++made;
    for (std::uint64_t block = 0; block < 40; ++block, ++made)
      first.insert(RandomStream(seed, block).bits());
  }
  CHECK(first.size() == static_cast<std::size_t>(made));
  RandomStream c(5, 6);
  RandomStream d(5, 6);
  CHECK(c.bits() == d.bits());
}

// The reason for 52 bits and the half: 53 bits and a half round to 1 now and then.
TEST_CASE("uniform numbers stay off 0 and 1 and lie the same way from both") {
  CHECK(detail::open_unit(0) == 0x1p-53);
  CHECK(detail::open_unit(~0ULL) == 1.0 - 0x1p-53);
  for (const std::uint64_t word : {0x0123456789abcdefULL, 0xfedcba9876543210ULL, 1ULL << 63U})
    CHECK(detail::open_unit(word) == 1.0 - detail::open_unit(~word));
  CHECK(detail::centred_unit(0) == -0.5);
  CHECK(detail::centred_unit(1ULL << 63U) == 0.0);
}

// A generator is judged over many streams: the squares of the standardised means of each add up to
// chi squared. Blocks of one seed are such streams.
TEST_CASE("moments of single draws over many blocks") {
  constexpr int streams = 60;
  constexpr int draws = 5'000;
  // Powers 1 to 4 of the normal, 1 of the uniform: means and variances.
  const double mean_of[] = {0.0, 1.0, 0.0, 3.0, 0.5};
  const double variance_of[] = {1.0, 2.0, 15.0, 96.0, 1.0 / 12.0};
  double squares[5] = {};
  for (std::uint64_t block = 0; block < streams; ++block) {
    RandomStream random(99, block);
    double sums[5] = {};
    for (int i = 0; i < draws; ++i) {
      const double z = random.normal();
      sums[0] += z;
      sums[1] += z * z;
      sums[2] += z * z * z;
      sums[3] += z * z * z * z;
      sums[4] += random.uniform();
    }
    for (std::size_t k = 0; k < 5; ++k) {
      const double off = (sums[k] / draws - mean_of[k]) / std::sqrt(variance_of[k] / draws);
      squares[k] += off * off;
    }
  }
  for (const double sum : squares) {
    CHECK(sum < chi_squared_quantile(1.0 - 1e-4, streams));
    CHECK(sum > chi_squared_quantile(1e-4, streams));
  }
}

TEST_CASE("single normal draws reach as far as the normal distribution") {
  RandomStream random(21);
  const std::vector<double> points{-3.0, -1.0, 0.0, 0.5, 1.0, 2.0, 3.0, 3.5, 4.0};
  std::vector<double> beyond;
  for (const double x : points)
    beyond.push_back(normal_cdf(-x));
  check_shares(points, beyond, 300'000, [&] { return random.normal(); });
}

TEST_CASE("single t draws have the quantiles of t") {
  const std::vector<double> shares{0.5, 0.9, 0.975, 0.995, 0.9995};
  for (const double nu : {0.5, 1.0, 2.0, 2.5, 3.0, 30.0}) {
    CAPTURE(nu);
    RandomStream random(22);
    std::vector<double> points;
    std::vector<double> beyond;
    for (const double p : shares) {
      points.push_back(t_quantile(p, nu));
      beyond.push_back(1.0 - p);
    }
    check_shares(points, beyond, 60'000, [&] { return random.student_t(nu); });
  }
}

TEST_CASE("t with extreme degrees of freedom") {
  RandomStream random(23);
  for (int i = 0; i < 1000; ++i)
    CHECK(std::isfinite(random.student_t(1e-3)));
  // From one side of the bound to the other the draws are the same distribution.
  for (const double nu : {0.9e8, 1.1e8}) {
    double squares = 0.0;
    for (int i = 0; i < 20'000; ++i) {
      const double t = random.student_t(nu);
      squares += t * t;
    }
    CHECK_THAT(squares / 20'000, WithinAbs(1.0, 4.0 * std::sqrt(2.0 / 20'000)));
  }
  CHECK_THROWS_AS(random.student_t(0.0), BugError);
}

TEST_CASE("chi squared has its moments") {
  RandomStream random(7);
  double chi = 0.0;
  for (int i = 0; i < 20'000; ++i)
    chi += random.chi_squared(6);
  CHECK_THAT(chi / 20'000, WithinAbs(6.0, 4.0 * std::sqrt(12.0 / 20'000)));
  CHECK_THROWS_AS(random.chi_squared(0), BugError);
}
