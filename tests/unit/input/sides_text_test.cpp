#include "input/sides_text.hpp"

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::input;

TEST_CASE("sides_text: lengths with one unit at the end") {
  const auto three = read_sides("1020 x 510 x 35 mm", 2, 3);
  REQUIRE(three.value);
  REQUIRE(three.value->size() == 3);
  CHECK(three.value->at(0) == 1020.0_mm);
  CHECK(three.value->at(1) == 510.0_mm);
  CHECK(three.value->at(2) == 35.0_mm);
  CHECK(read_sides("1.02x0.51 m", 2, 3).value->at(1) == 0.51_m);
  CHECK(read_sides("255 × 12 mm", 2, 2).value->at(1) == 12.0_mm);
  CHECK(read_sides("0 x 0 in", 2, 2).value->at(0) == 0.0_m);
  CHECK(read_sides("\t255 \tx\t 12\tmm \t", 2, 2).value->at(1) == 12.0_mm);
}

TEST_CASE("sides_text: what is wrong is located inside the text") {
  struct Row {
    const char* text;
    const char* code;
    std::size_t offset;
    std::size_t length;
  };
  const Row row = GENERATE(Row{"255 mm", "U20", 0, 6}, Row{"1 x 2 x 3 mm", "U20", 0, 12},
                           Row{"255 x 12", "U02", 6, 2}, Row{"255 mm x 12 mm", "U13", 4, 2},
                           Row{"255 x 12 kg", "U03", 9, 2}, Row{"a x 12 mm", "U12", 0, 1},
                           Row{"-5 x 12 mm", "R01", 0, 2}, Row{"5 × -12 mm", "R01", 4, 6},
                           Row{"x 12 mm", "U01", 0, 0}, Row{"1,5 x 2 mm", "U05", 0, 3});
  CAPTURE(row.text);
  const auto sides = read_sides(row.text, 2, 2);
  REQUIRE_FALSE(sides.value);
  REQUIRE(sides.problem);
  CHECK(sides.problem->code == row.code);
  CHECK(sides.problem->offset == row.offset);
  CHECK(sides.problem->length == row.length);
  CHECK_FALSE(sides.problem->hints.empty());
}

TEST_CASE("sides_text: grids") {
  CHECK(read_grid("9 x 4").value == std::pair{9, 4});
  CHECK(read_grid("9").problem->code == "U20");
  CHECK(read_grid("9 x 0").problem->code == "R02");
  CHECK(read_grid("9 x 201").problem->code == "R02");
  CHECK(read_grid("9 x 4.5").problem->code == "U14");
  CHECK(read_grid("9 x 4.5").problem->offset == 4);
}
