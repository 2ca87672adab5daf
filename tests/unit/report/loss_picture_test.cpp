#include <cmath>
#include <random>

#include "hailwright/report/pictures.hpp"
#include "support/catch.hpp"
#include "support/golden_picture.hpp"
#include "support/picture_boxes.hpp"
#include "support/real_files.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

std::optional<Figure> drawn(const Test& test, std::optional<Ratio> readers = std::nullopt,
                            const std::optional<CheckPlan>& check = std::nullopt) {
  const Assessment assessment = assess(test, check);
  if (!readers) return loss_picture({&test, &assessment});
  const ReaderLimit limit = answer_reader_limit(assessment, *readers);
  return loss_picture({&test, &assessment, &limit});
}

std::string demo(const char* record) {
  const auto figure = drawn(read_record(std::string("protocols/demo/") + record + ".yaml"));
  REQUIRE(figure);
  return figure->svg;
}

}  // namespace

TEST_CASE("loss_picture: byte for byte as it was looked at") {
  check_golden("loss-within", demo("rigid-withstood"));
  check_golden("loss-not-valid", demo("flexible-power-rose"));
}

// Not run with the others: it writes what the test above compares with.
TEST_CASE("loss_picture: write the pictures to look at", "[.][write-golden]") {
  write_golden("loss-within", demo("rigid-withstood"));
  write_golden("loss-not-valid", demo("flexible-power-rose"));
}

TEST_CASE("loss_picture: a row a stage, with the words of the judgement") {
  const Test test = TestBuilder().second_series().stage_after(0, 0.01).loss(0.12).build();
  const auto figure = drawn(test);
  REQUIRE(figure);
  CHECK(figure->id == "loss");
  CHECK(figure->title == "Loss of power of Panel A");
  for (const std::string& words : {picture_words(figure->svg), figure->description}) {
    CHECK_THAT(words, Contains("after small") && Contains("beyond 5 %? yes") &&
                          Contains("beyond 5 %? no, within it") && Contains("would have shown"));
  }
  CHECK_THAT(picture_words(figure->svg), Contains("limit 5 %") && Contains("no change"));
}

TEST_CASE("loss_picture: nothing without a comparison, and no answer where none is drawn") {
  CHECK_FALSE(drawn(TestBuilder().setups(1, 1).build()));
  const std::string rose = picture_words(drawn(TestBuilder().loss(-0.06).build())->svg);
  CHECK_THAT(rose, Contains("a drop? not valid") && Contains("no answer is drawn") &&
                       !Contains("would have shown"));
  const std::string few = picture_words(drawn(TestBuilder().setups(2, 2).build())->svg);
  CHECK_THAT(few, Contains("beyond 5 %? not decided") && !Contains("would have shown"));
}

// Found by review: the row was called "after", and no legend said what the triangle is.
TEST_CASE("loss_picture: the row and all of its marks are named") {
  const std::string words = picture_words(drawn(TestBuilder().build())->svg);
  CHECK_THAT(words, Contains("after the shots") &&
                        Contains("the smallest loss that would have shown") &&
                        Contains("loss and its 95 % interval") && Contains("beyond it; white"));
}

TEST_CASE("loss_picture: a reader's limit is a line of its own and stays the reader's") {
  const Test test = TestBuilder().build();
  const std::string without = picture_words(drawn(test)->svg);
  CHECK_THAT(without, !Contains("reader"));
  const std::string with = picture_words(drawn(test, percent(3))->svg);
  CHECK_THAT(with, Contains("a reader's limit 3 %") && Contains("not the protocol's") &&
                       Contains("limit 5 %"));
}

TEST_CASE("loss_picture: random trials are drawn where they were made") {
  const Test test = TestBuilder().build();
  CHECK_THAT(picture_words(drawn(test)->svg), !Contains("random trials"));
  CheckPlan plan;
  plan.trials = 50'000;
  CHECK_THAT(picture_words(drawn(test, std::nullopt, plan)->svg),
             Contains("by random trials") && Contains("interval by random trials of the same"));
}

// Property: sizes of loss and scatter over decades, long names, a reader's limit anywhere.
TEST_CASE("loss_picture: no text touches another one, all inside, in ink") {
  std::mt19937_64 random(8);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  for (int i = 0; i < 60; ++i) {
    TestBuilder b;
    b.second_series().stage_after(0, 0.3 * share(random));
    b.loss(1.4 * share(random) - 0.5).setup_scatter(std::pow(10.0, 5.0 * share(random) - 6.0));
    Test test = b.build();
    if (i % 5 == 0) test.protocol.series[0].name = std::string(100, 'W');
    const auto figure = drawn(test, percent(std::pow(10.0, 3.9 * share(random) - 2.0)));
    REQUIRE(figure);
    CAPTURE(i, figure->description);
    check_texts_apart(figure->svg);
    check_ink(figure->svg);
  }
}

TEST_CASE("loss_picture: a user's words cannot leave their element") {
  Test test = TestBuilder().second_series().stage_after(0, 0.01).build();
  test.protocol.series[0].name = "<b>\"A\" & =1+1 |x|";
  test.record.title = "<b>\"A\" & =1+1 |x|";
  const auto figure = drawn(test);
  REQUIRE(figure);
  CHECK_THAT(figure->svg, !Contains("<b>"));
  CHECK_THAT(picture_words(figure->svg), Contains("after <b>\"A\" & =1+1 |x|"));
}
