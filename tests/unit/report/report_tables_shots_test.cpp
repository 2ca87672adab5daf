// shots_table.
#include "report/report_tables.hpp"
#include "support/catch.hpp"
#include "support/table_cells.hpp"
#include "support/test_builder.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("shots_table: every throw, in place, beside it, missed and broken") {
  const WrittenUp written = written_demo({"rigid-withstood"});
  const DataTable table = shots_table(written.write_up);
  REQUIRE(table.rows.size() == written.test().record.shots.size());
  // Lines of shots.csv.
  CHECK(words_of(table, "landed", 0) == "in its place");
  CHECK(words_of(table, "place hit", 0) == "1");
  CHECK(is_blank(table, "off", 0));
  CHECK(words_of(table, "landed", 1) == "missed");
  CHECK(words_of(table, "place hit", 1).empty());
  CHECK(words_of(table, "note", 1) == "over the top edge");
  CHECK(words_of(table, "landed", 2) == "on the panel");
  CHECK(number_of(table, "offset right", 2) == 8.0);
  CHECK(number_of(table, "offset up", 2) == 12.0);
  CHECK_THAT(number_of(table, "off", 2), WithinAbs(14.4222, 0.0001));
  CHECK(words_of(table, "landed", 4) == "broke before the panel");
  CHECK(words_of(table, "landed", 8) == "on the panel");  // 31 x -14 mm, on no place
  CHECK(words_of(table, "place hit", 8).empty());
  const DataTable people = table;
  CHECK(to_table(people).file == "shots.csv");
}

TEST_CASE("shots_table: quantities are those of the judgement, with their interval") {
  const WrittenUp written(TestBuilder().build());
  const DataTable table = shots_table(written.write_up);
  const ShotResult& shot = written.assessment().delivery[0].shots[0];
  REQUIRE(shot.energy);
  CHECK(number_of(table, "energy", 0) == shot.energy->value.si());
  CHECK(number_of(table, "u of the energy", 0) == shot.energy->standard_u.si());
  CHECK_THAT(number_of(table, "mass", 0), WithinRel(1000.0 * shot.mass->value, 1e-12));
  CHECK_THAT(number_of(table, "u of the speed", 0),
             WithinRel(combined<Speed>(*shot.speed).standard_u.si(), 1e-12));
  const double low = number_of(table, "energy, low", 0);
  const double high = number_of(table, "energy, high", 0);
  CHECK_THAT(0.5 * (low + high), WithinRel(shot.energy->value.si(), 1e-12));
  CHECK_THAT(probability_at_least(*shot.energy, Energy::from_si(low)), WithinAbs(0.975, 1e-9));
}

TEST_CASE("shots_table: how each hit stands to the grade") {
  const WrittenUp strong(TestBuilder().build());
  const DataTable yes = shots_table(strong.write_up);
  CHECK(words_of(yes, "at least the grade", 0) == "yes");
  CHECK(words_of(yes, "doubt", 0).empty());
  const WrittenUp weak(TestBuilder().speed(18.0).build());
  const DataTable below = shots_table(weak.write_up);
  CHECK(words_of(below, "at least the grade", 0) == "below it");
  CHECK_FALSE(words_of(below, "doubt", 0).empty());
}

TEST_CASE("shots_table: what is unknown is blank") {
  TestBuilder b;
  Shot& shot = b.test.record.shots[0];
  shot.photo = "hit.jpg";
  shot.minute = 605;
  shot.landing = Landing::miss;
  Test test = b.build();
  test.record.trials.clear();
  test.protocol.speed = {};
  const WrittenUp written(test);
  const DataTable table = shots_table(written.write_up);
  for (const char* title : {"off", "right", "offset up"})
    CHECK(is_blank(table, title, 0));
  CHECK(is_blank(table, "at least the grade", 0));
  CHECK(words_of(table, "time", 0) == "10:05");
  CHECK(words_of(table, "photo", 0) == "hit.jpg");
}
