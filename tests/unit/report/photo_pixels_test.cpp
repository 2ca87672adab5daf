#include "report/photo_pixels.hpp"

#include <algorithm>
#include <random>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

/// A picture of grey pixels, row by row.
Pixels grey(int width, int height, const std::string& values) {
  REQUIRE(values.size() == static_cast<std::size_t>(width * height));
  Pixels pixels{width, height, {}};
  for (const char value : values)
    pixels.rgb += std::string(3, value);
  return pixels;
}

std::string values(const Pixels& pixels) {
  std::string out;
  for (std::size_t i = 0; i < pixels.rgb.size(); i += 3) {
    REQUIRE(pixels.rgb[i] == pixels.rgb[i + 1]);
    REQUIRE(pixels.rgb[i] == pixels.rgb[i + 2]);
    out += pixels.rgb[i];
  }
  return out;
}

std::string bytes(std::initializer_list<int> numbers) {
  std::string out;
  for (const int n : numbers)
    out += static_cast<char>(n);
  return out;
}

}  // namespace

// The letter F as the EXIF specification and its readers draw the eight cases (from memory): seen
// upright each time, stored as below.
TEST_CASE("photo_pixels: eight ways of storing a picture come out as the one that is seen") {
  const std::string upright = "##"
                              "# "
                              "##"
                              "# "
                              "# ";
  const std::string stored[] = {
      "## ## # # ",
      // 1 to 4: two wide, five high
      "##"
      "# "
      "##"
      "# "
      "# ",
      "##"
      " #"
      "##"
      " #"
      " #",
      " #"
      " #"
      "##"
      " #"
      "##",
      "# "
      "# "
      "##"
      "# "
      "##",
      // 5 to 8: five wide, two high
      "#####"
      "# #  ",
      "# #  "
      "#####",
      "  # #"
      "#####",
      "#####"
      "  # #",
  };
  for (int orientation = 1; orientation <= 8; ++orientation) {
    CAPTURE(orientation);
    const bool lies = orientation >= 5;
    const Pixels seen =
        turned_upright(grey(lies ? 5 : 2, lies ? 2 : 5, stored[orientation]), orientation);
    CHECK(seen.width == 2);
    CHECK(seen.height == 5);
    CHECK(values(seen) == upright);
  }
  for (const int unknown : {-1, 0, 9, 65535})
    CHECK(values(turned_upright(grey(2, 5, upright), unknown)) == upright);
}

TEST_CASE("photo_pixels: a size keeps its shape and loses no side") {
  const auto within = [](int width, int height, int longest) {
    const PixelSize size = size_within(width, height, longest);
    return std::pair(size.width, size.height);
  };
  CHECK(within(4000, 3000, 1600) == std::pair(1600, 1200));
  CHECK(within(3000, 4000, 1600) == std::pair(1200, 1600));
  CHECK(within(1600, 1200, 1600) == std::pair(1600, 1200));
  CHECK(within(1, 1, 1600) == std::pair(1, 1));
  CHECK(within(100'000'000, 1, 1600) == std::pair(1600, 1));
  CHECK(within(1601, 1601, 1600) == std::pair(1600, 1600));
}

TEST_CASE("photo_pixels: a smaller picture is the mean of what its pixels stand for") {
  // By hand: thirds of 0, 90 and 255 shared between two pixels.
  CHECK(values(shrunk(grey(3, 1, bytes({0, 90, 255})), {2, 1})) == bytes({30, 200}));
  CHECK(values(shrunk(grey(1, 3, bytes({0, 90, 255})), {1, 2})) == bytes({30, 200}));
  CHECK(values(shrunk(grey(2, 2, bytes({0, 100, 200, 100})), {1, 1})) == bytes({100}));
  // A half is rounded up.
  CHECK(values(shrunk(grey(2, 1, bytes({0, 1})), {1, 1})) == bytes({1}));
  CHECK(values(shrunk(grey(2, 1, bytes({7, 9})), {2, 1})) == bytes({7, 9}));
  // Colours stay apart.
  const Pixels two{2, 1, bytes({10, 20, 30, 20, 40, 60})};
  CHECK(shrunk(two, {1, 1}).rgb == bytes({15, 30, 45}));
  CHECK_THROWS_AS(shrunk(two, {3, 1}), BugError);
  CHECK_THROWS_AS(shrunk(two, {0, 1}), BugError);
}

TEST_CASE("photo_pixels: one colour stays that colour and the mean stays the mean") {
  std::mt19937 random(5);
  for (int i = 0; i < 100; ++i) {
    const int width = static_cast<int>(random() % 40 + 1);
    const int height = static_cast<int>(random() % 40 + 1);
    const PixelSize size{static_cast<int>(random() % static_cast<unsigned>(width) + 1),
                         static_cast<int>(random() % static_cast<unsigned>(height) + 1)};
    CAPTURE(width, height, size.width, size.height);
    const auto area = static_cast<std::size_t>(width * height);
    const std::string white = values(shrunk(grey(width, height, std::string(area, '\xFF')), size));
    CHECK(white == std::string(white.size(), '\xFF'));
    std::string noise(area, '\0');
    std::generate(noise.begin(), noise.end(), [&] { return static_cast<char>(random()); });
    const auto mean = [](const std::string& all) {
      double sum = 0.0;
      for (const char c : all)
        sum += static_cast<unsigned char>(c);
      return sum / static_cast<double>(all.size());
    };
    // Each pixel is rounded twice, by half a unit at most.
    CHECK_THAT(mean(values(shrunk(grey(width, height, noise), size))), WithinAbs(mean(noise), 1.0));
  }
}
