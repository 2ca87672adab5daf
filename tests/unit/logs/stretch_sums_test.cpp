#include "logs/stretch_sums.hpp"

#include <vector>

#include "support/catch.hpp"
#include "unit/logs/made_rows.hpp"

using namespace hailwright;
using detail::StretchSums;

namespace {

constexpr std::int64_t longest_us = 10 * made::second_us;

LogBlock some_rows() {
  return made::rows(100, 1.0,
                    {{LogRole::power, [](double t) { return 10.0 + t; }},
                     {LogRole::power_beside, [](double t) { return 20.0 + t; }},
                     {LogRole::irradiance, [](double t) { return 900.0 - t; }},
                     {LogRole::temperature, [](double t) { return 300.0 + t / 10.0; }},
                     {LogRole::temperature_beside, made::always(310.0)}});
}

}  // namespace

TEST_CASE("stretch sums: each column in its place") {
  const LogBlock block = some_rows();
  const std::vector<double> ninety(100, 90.0);
  const std::vector<double> eighty(100, 80.0);
  LogStretch out;
  StretchSums::of({block, ninety, eighty}, 0, 100, longest_us).write_to(out);
  CHECK(out.power.mean == 59.5);
  CHECK(out.power.most == 109.0);
  CHECK(out.power_beside.mean == 69.5);
  CHECK(out.irradiance.mean == 850.5);
  CHECK(out.irradiance.least == 801.0);
  CHECK_THAT(out.temperature.mean, WithinRel(304.95, 1e-15));
  CHECK(out.temperature_beside.mean == 310.0);
  CHECK(out.power_series.mean == 59.5);
  CHECK(out.power_series.count == 100);
  CHECK(out.normalised.value().mean == 90.0);
  CHECK(out.normalised_beside.value().mean == 80.0);
}

TEST_CASE("stretch sums: columns that are not there count nothing") {
  const LogBlock block = made::rows(5, 1.0, {{LogRole::power, made::always(3.0)}});
  const std::vector<double> none;
  LogStretch out;
  StretchSums::of({block, none, none}, 0, 5, longest_us).write_to(out);
  CHECK(out.power.count == 5);
  CHECK(out.irradiance.count == 0);
  CHECK_FALSE(out.normalised);
  CHECK_FALSE(out.normalised_beside);
}

TEST_CASE("stretch sums: parts merge as neighbours or apart") {
  const LogBlock block = some_rows();
  const std::vector<double> none;
  const detail::StretchRows rows{block, none, none};
  for (const bool neighbours : {true, false}) {
    StretchSums sums = StretchSums::of(rows, 0, 37, longest_us);
    sums.append(StretchSums::of(rows, 37, 37, longest_us), neighbours, longest_us);
    sums.append(StretchSums::of(rows, 37, 100, longest_us), neighbours, longest_us);
    CHECK(sums.power.count == 100);
    CHECK(sums.power_series.pairs == (neighbours ? 99 : 98));
    CHECK_THAT(sums.power_series.mean, WithinRel(59.5, 1e-15));
    CHECK(sums.irradiance.most == 900.0);
  }
}
