#include "logs/row_keeper.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "unit/logs/made_rows.hpp"

using namespace hailwright;
using detail::RowKeeper;

namespace {

LogBlock some_rows(std::size_t count) {
  LogBlock block = made::rows(count, 1.0,
                              {{LogRole::power, [](double t) { return 50.0 + t; }},
                               {LogRole::temperature, made::always(300.0)}});
  block.file = 2;
  block.first_line = 100;
  return block;
}

}  // namespace

TEST_CASE("row keeper: a row with its place and blanks where a column is missing") {
  RowKeeper keeper(10);
  keeper.add(some_rows(5), 3, 4);
  keeper.close_window({});
  const auto rows = keeper.take();
  REQUIRE(rows.size() == 1);
  CHECK(rows[0].time_us == 3'000'000);
  CHECK(rows[0].file == 2);
  CHECK(rows[0].line == 103);
  CHECK(rows[0].power == 53.0);
  CHECK(rows[0].temperature == 300.0);
  CHECK(std::isnan(rows[0].irradiance));
  CHECK(std::isnan(rows[0].power_beside));
  CHECK(rows[0].removed.empty());
}

TEST_CASE("row keeper: the reason goes to the rows of one window") {
  RowKeeper keeper(10);
  const LogBlock block = some_rows(6);
  keeper.add(block, 0, 2);
  keeper.add(block, 2, 3);
  keeper.close_window("irradiance changed");
  keeper.add(block, 3, 6);
  keeper.close_window({});
  const auto rows = keeper.take();
  REQUIRE(rows.size() == 6);
  CHECK(rows[0].removed == "irradiance changed");
  CHECK(rows[2].removed == "irradiance changed");
  CHECK(rows[3].removed.empty());
}

TEST_CASE("row keeper: no more than asked for and says so") {
  RowKeeper keeper(4);
  keeper.add(some_rows(4), 0, 4);
  CHECK(keeper.complete());
  keeper.add(some_rows(5), 4, 5);
  CHECK_FALSE(keeper.complete());
  keeper.close_window("window cut short or with a gap");
  CHECK(keeper.take().size() == 4);
  RowKeeper none(0);
  none.add(some_rows(4), 0, 4);
  CHECK(none.complete());
  CHECK(none.take().empty());
}
