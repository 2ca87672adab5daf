#include "logs/usual_step.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include "hailwright/metrology/random.hpp"
#include "support/catch.hpp"

using hailwright::RandomStream;
using hailwright::detail::UsualStep;

namespace {

double usual(const std::vector<std::int64_t>& times) {
  UsualStep step;
  step.take(times);
  return step.seconds();
}

}  // namespace

TEST_CASE("usual step: fewer than two times have none") {
  CHECK(usual({}) == 0.0);
  CHECK(usual({5}) == 0.0);
  CHECK(usual({5, 5, 5}) == 0.0);
}

TEST_CASE("usual step: a regular log gives its step as it is") {
  for (const std::int64_t step_us :
       std::vector<std::int64_t>{1, 999, 1'000'000, 60'000'000, 86'400'000'000}) {
    CAPTURE(step_us);
    std::vector<std::int64_t> times;
    for (std::int64_t i = 0; i < 50; ++i)
      times.push_back(1'781'416'800'000'000 + i * step_us);
    CHECK_THAT(usual(times), WithinRel(static_cast<double>(step_us) * 1e-6, 1e-15));
  }
}

TEST_CASE("usual step: gaps and repeated times do not move the median") {
  std::vector<std::int64_t> times;
  for (std::int64_t i = 0; i < 100; ++i)
    times.push_back(i * 1'000'000 + (i > 50 ? 7'200'000'000 : 0));
  times.push_back(times.back());
  times.push_back(times.back());
  CHECK(usual(times) == 1.0);
}

TEST_CASE("usual step: within 1 part in 50 of the median of random steps whatever the blocks") {
  RandomStream random(6, 1);
  for (int trial = 0; trial < 200; ++trial) {
    CAPTURE(trial);
    const double size = std::exp(12.0 * random.uniform() + 3.0);  // 20 us to 3 s
    std::vector<std::int64_t> times{0}, steps;
    for (int i = 0; i < 401; ++i) {
      steps.push_back(1 + static_cast<std::int64_t>(size * std::exp(random.normal())));
      times.push_back(times.back() + steps.back());
    }
    UsualStep split;
    const auto cut = static_cast<std::ptrdiff_t>(400.0 * random.uniform());
    split.take({times.begin(), times.begin() + cut});
    split.take({times.begin() + cut, times.end()});
    CHECK(split.seconds() == usual(times));
    std::sort(steps.begin(), steps.end());
    CHECK_THAT(split.seconds(), WithinRel(static_cast<double>(steps[200]) * 1e-6, 0.02));
  }
}

TEST_CASE("usual step: a log that is regular in parts is the same by any blocks") {
  RandomStream random(6, 4);
  const std::vector<std::int64_t> lengths{1, 1'000'000, 1'000'000, 60'000'000, 999'999, 0};
  for (int trial = 0; trial < 50; ++trial) {
    CAPTURE(trial);
    std::vector<std::int64_t> times{0};
    std::vector<std::int64_t> steps;
    while (times.size() < 3000) {
      const std::int64_t step = lengths[static_cast<std::size_t>(6.0 * random.uniform())];
      for (auto run = static_cast<int>(700.0 * random.uniform() * random.uniform()); run > 0;
           --run) {
        times.push_back(times.back() + step);
        if (step > 0) steps.push_back(step);
      }
    }
    UsualStep one_by_one;
    for (const std::int64_t time_us : times)
      one_by_one.take({time_us});
    CHECK(one_by_one.seconds() == usual(times));
    std::sort(steps.begin(), steps.end());
    CHECK_THAT(usual(times),
               WithinRel(static_cast<double>(steps[(steps.size() - 1) / 2]) * 1e-6, 0.02));
  }
}
