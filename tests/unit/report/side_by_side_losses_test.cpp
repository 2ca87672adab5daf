#include <cmath>
#include <random>

#include "report/side_by_side.hpp"
#include "support/catch.hpp"
#include "support/golden_picture.hpp"
#include "support/picture_boxes.hpp"
#include "support/test_builder.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

Figure drawn(const WrittenUp& records) {
  const auto figure = detail::side_by_side_losses(records.judged());
  REQUIRE(figure);
  return *figure;
}

WrittenUp demos() {
  return written_demo({"rigid-withstood", "flexible-damaged", "rigid-undecided",
                       "flexible-siblings", "flexible-power-rose"});
}

}  // namespace

TEST_CASE("side by side losses: byte for byte as they were looked at") {
  check_golden("losses-side-by-side", drawn(demos()).svg);
}

// Not run with the others: it writes what the test above compares with.
TEST_CASE("side by side losses: write the picture to look at", "[.][write-golden]") {
  write_golden("losses-side-by-side", drawn(demos()).svg);
}

TEST_CASE("side by side losses: every record has its row in the order given, and none is ranked") {
  const Figure figure = drawn(demos());
  const std::string words = picture_words(figure.svg);
  CHECK(words.find("Rigid A ") < words.find("Flex B "));
  CHECK_THAT(words, Contains("Rigid A, one set-up each") && Contains("no comparison:") &&
                        Contains("beyond 5 %? not valid") && Contains("rank nothing"));
  CHECK_THAT(figure.description, Contains("The rows rank nothing."));
}

TEST_CASE("side by side losses: a limit of all is one line, different ones are ticks") {
  WrittenUp same;
  same.add(TestBuilder().build());
  same.add(TestBuilder().loss(0.1).build());
  CHECK_THAT(picture_words(drawn(same).svg),
             Contains("limit 5 %") && !Contains("this row's protocol"));
  WrittenUp different;
  different.add(TestBuilder().build());
  TestBuilder strict;
  strict.test.protocol.decide.limit = percent(2);
  different.add(strict.build());
  CHECK_THAT(picture_words(drawn(different).svg),
             !Contains("limit 5 %") && Contains("limit of this row's protocol") &&
                 Contains("beyond 2 %?") && Contains("beyond 5 %?"));
}

TEST_CASE("side by side losses: stages of one record are told apart") {
  WrittenUp all;
  all.add(TestBuilder().second_series().stage_after(0, 0.01).build());
  all.add(TestBuilder().build());
  CHECK_THAT(picture_words(drawn(all).svg),
             Contains("Panel A, after small") && Contains("Panel A, after loss"));
}

TEST_CASE("side by side losses: many records, long names, all apart") {
  std::mt19937_64 random(4);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  WrittenUp all;
  for (int i = 0; i < 24; ++i) {
    Test test = TestBuilder().loss(share(random) - 0.3).setup_scatter(0.02 * share(random)).build();
    test.record.title = i % 3 == 0 ? std::string(150, 'W') : "<b>\"A\" & =1+1 |x|";
    all.add(std::move(test));
  }
  const Figure figure = drawn(all);
  check_texts_apart(figure.svg);
  check_ink(figure.svg);
  CHECK_THAT(figure.svg, !Contains("<b>"));
}
