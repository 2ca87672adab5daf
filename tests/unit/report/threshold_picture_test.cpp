#include <vector>

#include "hailwright/report/compose_threshold.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

Specimens ten_specimens(const std::vector<int>& damaged) {
  Specimens specimens;
  specimens.title = "Coupons <A> & co";
  for (std::size_t i = 0; i < damaged.size(); ++i) {
    SpecimenTest test;
    test.specimen = "S" + std::to_string(i);
    test.energy = Energy::from_si(5.0 + static_cast<double>(i));
    test.damaged = damaged[i] == 1;
    specimens.tests.push_back(test);
  }
  return specimens;
}

std::optional<Figure> picture_of(const Specimens& specimens) {
  return threshold_picture(answer_threshold(specimens, nullptr));
}

}  // namespace

TEST_CASE("threshold picture: none without a test") {
  CHECK_FALSE(picture_of(Specimens{}));
}

TEST_CASE("threshold picture: the curve stands only where there is an estimate") {
  const auto fitted = picture_of(ten_specimens({0, 0, 1, 0, 0, 0, 1, 1, 1, 1}));
  REQUIRE(fitted);
  CHECK_THAT(fitted->svg, Contains("share damaged in %"));
  CHECK_THAT(fitted->svg, Contains("as fitted"));
  CHECK_THAT(fitted->description, Contains("E50: "));
  const auto separated = picture_of(ten_specimens({0, 0, 0, 0, 0, 1, 1, 1, 1, 1}));
  REQUIRE(separated);
  CHECK(separated->svg.find("as fitted") == std::string::npos);
  CHECK_THAT(separated->svg, Contains("damage began between these energies"));
}

TEST_CASE("threshold picture: words of the user are escaped, numbers are numbers") {
  const auto picture = picture_of(ten_specimens({0, 0, 1, 0, 0, 0, 1, 1, 1, 1}));
  CHECK(picture->svg.find("<A>") == std::string::npos);
  CHECK(picture->svg.find("nan") == std::string::npos);
  CHECK(picture->svg.find("inf") == std::string::npos);
}

// Found by review: an energy far out ended as a coordinate that is no number.
TEST_CASE("threshold picture: the least and the most energy of a file in one picture") {
  for (const std::vector<int>& damaged : {std::vector<int>{0, 0, 1, 0, 0, 0, 1, 1, 1, 1},
                                          std::vector<int>{0, 1, 1, 0, 1, 0, 0, 1, 0, 1},
                                          std::vector<int>{0, 0, 0, 0, 0, 1, 1, 1, 1, 1}}) {
    Specimens specimens = ten_specimens(damaged);
    specimens.tests.front().energy = Energy::from_si(0.001);
    specimens.tests.back().energy = Energy::from_si(1000.0);
    const auto picture = picture_of(specimens);
    REQUIRE(picture);
    CHECK(picture->svg.find("nan") == std::string::npos);
    CHECK(picture->svg.find("inf") == std::string::npos);
  }
}

// Found by review: "damage began between these energies" beside 8 J without and 8 J with damage.
TEST_CASE("threshold picture: outcomes that touch at one energy have no gap") {
  Specimens specimens = ten_specimens({0, 0, 0, 0, 0, 1, 1, 1, 1, 1});
  specimens.tests[5].energy = specimens.tests[4].energy;
  const auto picture = picture_of(specimens);
  CHECK(picture->svg.find("damage began") == std::string::npos);
  CHECK_THAT(picture->description, Contains("At 9.00 J some were damaged and some not."));
  CHECK_THAT(picture->description, Contains("10 specimens, each struck once: 5 damaged"));
}

TEST_CASE("threshold picture: one test, and many at one energy") {
  CHECK(picture_of(ten_specimens({1})));
  Specimens many = ten_specimens(std::vector<int>(200, 0));
  for (SpecimenTest& test : many.tests)
    test.energy = Energy::from_si(7.0);
  CHECK(picture_of(many));
}
