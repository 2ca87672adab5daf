#include "hailwright/report/write_up.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::seen;
using hailwright::testing::TestBuilder;

namespace {

Finding photographed(const char* word, const char* where, const char* file) {
  Finding finding = seen(word, where);
  finding.photo = file;
  return finding;
}

}  // namespace

TEST_CASE("report photos: shots then looks then the others") {
  TestBuilder b;
  b.test.record.shots[1].photo = "hit.jpg";
  b.test.record.looks[0].photos = {"front.jpg", "back.jpg"};
  b.look(0, {photographed("scuff", "place 2", "scuff.jpg")});
  b.test.record.photos = {{{}, "mounting.png", "the mounting"}};
  const auto names = photos_named(b.build());
  REQUIRE(names.size() == 5);
  CHECK(names[0].file == "hit.jpg");
  CHECK_THAT(names[0].shows, Catch::Matchers::StartsWith("Throw 2, aimed at place"));
  CHECK_THAT(names[0].description, Contains("hit the panel"));
  CHECK(names[1].shows == "Before the shots, photo 1");
  CHECK(names[2].shows == "Before the shots, photo 2");
  CHECK_THAT(names[2].description, Contains("nothing was seen"));
  CHECK(names[3].shows == "After small: scuff at place 2");
  CHECK_THAT(names[3].description, Contains("surface scratched or matt"));
  CHECK(names[4].shows == "the mounting");
}

TEST_CASE("report photos: one file is named once, with all that is said of it") {
  TestBuilder b;
  b.look(0, {photographed("scuff", "place 2", "a.jpg")});
  b.test.record.looks.back().photos = {"a.jpg"};
  b.test.record.photos = {{{}, "a.jpg", "something else"}};
  const auto names = photos_named(b.build());
  REQUIRE(names.size() == 1);
  CHECK(names[0].shows == "After small: scuff at place 2; something else");
  CHECK_THAT(names[0].description, Contains("surface scratched") && Contains("something else."));
}

// Found by review: of a photo named twice the second words were lost, and under another writing of
// its name it was shown twice.
TEST_CASE("report photos: a file is known under every writing of its name") {
  TestBuilder b;
  b.test.record.photos = {{{}, "a/x.png", "the front"}, {{}, "./a/b/../x.png", "the same, wet"}};
  const auto names = photos_named(b.build());
  REQUIRE(names.size() == 1);
  CHECK(names[0].file == "a/x.png");
  CHECK(names[0].shows == "the front; the same, wet");
  CHECK(photo_path("./a//b/../x.png") == "a/x.png");
  CHECK(photo_path("../x.png") == "../x.png");
}

TEST_CASE("report photos: throws that did not hit say so") {
  TestBuilder b;
  b.test.record.shots[0].photo = "a.jpg";
  b.test.record.shots[0].landing = Landing::miss;
  b.test.record.shots[1].photo = "b.jpg";
  b.test.record.shots[1].landing = Landing::broke;
  const auto names = photos_named(b.build());
  REQUIRE(names.size() == 2);
  CHECK_THAT(names[0].description, Contains("missed the panel"));
  CHECK_THAT(names[1].description, Contains("broke before the panel"));
}

TEST_CASE("report photos: a record without any names none") {
  CHECK(photos_named(TestBuilder().build()).empty());
}
