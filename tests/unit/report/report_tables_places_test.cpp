// places_table.
#include "report/report_tables.hpp"
#include "support/catch.hpp"
#include "support/struck_panel.hpp"
#include "support/table_cells.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

// Found by review: "scuff (place 14)" and "not struck: places 1, 2, 7" told a reader nothing.
TEST_CASE("places_table: every place with what it is and what struck it") {
  const WrittenUp written = written_demo({"rigid-withstood"});
  const DataTable table = places_table(written.write_up);
  REQUIRE(table.rows.size() == 16);
  CHECK(words_of(table, "place", 13) == "14");
  CHECK(words_of(table, "series", 13) == "large");
  CHECK_FALSE(words_of(table, "what it is", 13).empty());
  CHECK(words_of(table, "throws that hit", 13) == "20");
  CHECK(words_of(table, "at least the grade", 13) == "yes");
  CHECK(number_of(table, "strongest hit", 13) == 20.0);
  const SeriesDelivery& large = written.assessment().delivery[1];
  const ShotResult& best = large.shots[*large.places[2].best];
  CHECK(number_of(table, "energy", 13) == best.energy->value.si());
  CHECK(number_of(table, "energy, low", 13) < number_of(table, "energy", 13));
  // Throw 12 landed 12 mm right of and 10 mm below the middle.
  const DataTable shots = shots_table(written.write_up);
  CHECK_THAT(number_of(table, "right", 7), WithinAbs(number_of(shots, "right", 11) - 12.0, 1e-9));
  CHECK_THAT(number_of(table, "up", 7), WithinAbs(number_of(shots, "up", 11) + 10.0, 1e-9));
}

TEST_CASE("places_table: a place not struck and one whose hit shows too little") {
  Test test = panel_to_strike();
  add_throw(test, throw_of_unknown_energy(test, 0, 2));
  add_throw(test, throw_of_unknown_energy(test, 0, 2));
  add_throw(test, throw_at(test, 0, 3, Landing::miss));
  const WrittenUp written(test);
  const DataTable table = places_table(written.write_up);
  CHECK(words_of(table, "at least the grade", 2) == "not shown");
  CHECK(words_of(table, "throws that hit", 2) == "1 and 2");
  CHECK(is_blank(table, "energy", 2));
  CHECK(words_of(table, "at least the grade", 3) == "not struck");
  CHECK(words_of(table, "throws that hit", 3).empty());
  CHECK(is_blank(table, "strongest hit", 3));
}

TEST_CASE("places_table: a place without a position says why") {
  Test test = panel_to_strike();
  test.record.panel.size.reset();
  for (Place& place : test.protocol.series[0].places)
    place.at.reset();
  const WrittenUp written(test);
  const DataTable table = places_table(written.write_up);
  CHECK(is_blank(table, "right", 0));
  CHECK(table.rows.size() == 16);
}
