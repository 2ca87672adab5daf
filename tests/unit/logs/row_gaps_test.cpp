#include "logs/row_gaps.hpp"

#include <random>

#include "hailwright/logs/stretch_meter.hpp"
#include "support/catch.hpp"
#include "unit/logs/made_rows.hpp"

using namespace hailwright;
using detail::RowGaps;

namespace {

constexpr std::int64_t longest_us = 10 * made::second_us;

LogStretch gaps_of(const LogBlock& block, std::size_t cut = 0) {
  RowGaps gaps(longest_us);
  gaps.take(block, 0, cut);
  gaps.take(block, cut, block.rows());
  LogStretch out;
  gaps.write_to(out);
  return out;
}

}  // namespace

TEST_CASE("row gaps: number, time, place") {
  LogBlock block = made::rows(6, 1.0, {});
  block.time_us = {0, 10'000'000, 20'000'001, 21'000'000, 51'000'000, 52'000'000};
  block.file = 1;
  block.first_line = 7;
  for (const std::size_t cut : {0U, 1U, 2U, 4U, 6U}) {
    const LogStretch out = gaps_of(block, cut);
    CAPTURE(cut);
    CHECK(out.gaps == 2);
    CHECK(out.in_gaps_s == 40.000001);
    REQUIRE(out.longest_gaps.size() == 2);
    CHECK(out.longest_gaps[0].from_us == 21'000'000);
    CHECK(out.longest_gaps[0].to_us == 51'000'000);
    CHECK(out.longest_gaps[0].seconds() == 30.0);
    CHECK(out.longest_gaps[0].file == 1);
    CHECK(out.longest_gaps[0].line == 11);
    CHECK(out.longest_gaps[1].line == 9);
  }
}

TEST_CASE("row gaps: of a dozen the ten longest, the earlier of two alike first") {
  LogBlock block = made::rows(13, 1.0, {});
  std::int64_t now = 0;
  for (std::size_t i = 0; i < 13; ++i) {
    block.time_us[i] = now;
    now += (11 + static_cast<std::int64_t>(i) / 2) * made::second_us;
  }
  const LogStretch out = gaps_of(block);
  CHECK(out.gaps == 12);
  REQUIRE(out.longest_gaps.size() == 10);
  CHECK(out.longest_gaps[0].seconds() == 16.0);
  CHECK(out.longest_gaps[0].line == 13);
  CHECK(out.longest_gaps[1].line == 14);
  CHECK(out.longest_gaps[9].seconds() == 12.0);
}

TEST_CASE("row gaps: as the integral counts them, blanks and all") {
  std::mt19937 random(3);
  for (int run = 0; run < 50; ++run) {
    LogBlock block = made::rows(900, 1.0, {{LogRole::power, made::always(5.0)}});
    std::int64_t now = 0;
    for (std::size_t i = 0; i < block.rows(); ++i) {
      now += random() % 100 == 0 ? 30 * made::second_us : made::second_us;
      block.time_us[i] = now;
      if (random() % 3 == 0 && i % 300 < 40)
        block.values[index_of(LogRole::power)][i] = made::blank;
    }
    const LogStretch out = gaps_of(block, random() % 900);
    const PowerIntegral integral =
        PowerIntegral::of(block.time_us, block.column(LogRole::power), 0, block.rows(), 10.0);
    CHECK(out.gaps == integral.gaps);
    CHECK(out.in_gaps_s == integral.in_gaps_s());
  }
}

TEST_CASE("row gaps: blank powers make a gap where rows go on") {
  const LogBlock block = made::rows(
      40, 1.0, {{LogRole::power, [](double t) { return t > 10 && t < 30 ? made::blank : 5.0; }}});
  const LogStretch out = gaps_of(block);
  CHECK(out.gaps == 1);
  CHECK(out.in_gaps_s == 20.0);
  CHECK(out.longest_gaps[0].line == 32);
}
