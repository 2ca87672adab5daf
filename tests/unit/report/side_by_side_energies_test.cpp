#include "report/side_by_side.hpp"
#include "support/catch.hpp"
#include "support/golden_picture.hpp"
#include "support/judged_records.hpp"
#include "support/picture_boxes.hpp"
#include "support/real_files.hpp"
#include "support/struck_panel.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

std::optional<Figure> drawn(const JudgedRecords& records) {
  return detail::side_by_side_energies(records.judged);
}

std::string demos() {
  JudgedRecords all;
  for (const char* name : {"rigid-withstood", "rigid-not-reached", "flexible-siblings"})
    all.add(read_record(std::string("protocols/demo/") + name + ".yaml"));
  return drawn(all)->svg;
}

}  // namespace

TEST_CASE("side by side energies: byte for byte as they were looked at") {
  check_golden("energies-side-by-side", demos());
}

// Not run with the others: it writes what the test above compares with.
TEST_CASE("side by side energies: write the picture to look at", "[.][write-golden]") {
  write_golden("energies-side-by-side", demos());
}

TEST_CASE("side by side energies: a row a series, with what is not known said") {
  JudgedRecords all;
  Test some = panel_to_strike();
  add_throw(some, throw_at(some, 0, 0, Landing::in));
  add_throw(some, throw_at(some, 1, 0, Landing::miss));
  all.add(some);
  CHECK(drawn(all));
  const std::string words = picture_words(drawn(all)->svg);
  CHECK_THAT(words, Contains("small, aimed at IEC 61215 25 mm: 1.99 J") &&
                        Contains("1 of 11 places hit:") && Contains("no place was hit") &&
                        Contains("rank nothing"));
  CHECK_THAT(drawn(all)->description, Contains("The rows rank nothing."));
  JudgedRecords none;
  none.add(panel_to_strike());
  CHECK_FALSE(drawn(none));
}

TEST_CASE("side by side energies: many records, long names, all apart") {
  std::mt19937_64 random(9);
  JudgedRecords all;
  for (int i = 0; i < 12; ++i) {
    Test test = randomly_struck(random, 1 + 4 * i);
    test.record.title = i % 3 == 0 ? std::string(150, 'W') : "<b>\"A\" & =1+1 |x|";
    test.protocol.series[1].name = i % 4 == 0 ? std::string(80, 'M') : "large";
    all.add(std::move(test));
  }
  const auto figure = drawn(all);
  REQUIRE(figure);
  check_texts_apart(figure->svg);
  check_ink(figure->svg);
  CHECK_THAT(figure->svg, !Contains("<b>"));
}
