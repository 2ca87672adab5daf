#pragma once

#include <string>

namespace hailwright::detail {

/// A picture of three bytes a pixel (red, green, blue), row by row from the top.
struct Pixels {
  int width = 0, height = 0;
  std::string rgb;
};

/// As an EXIF orientation of 1 to 8 says that it is to be seen; any other number changes nothing.
/// Source: CIPA DC-008 (EXIF 2.32), 4.6.4, tag Orientation (from memory).
Pixels turned_upright(Pixels stored, int orientation);

/// The size of a picture whose longest side is at most `longest`, its shape kept, no side below 1.
struct PixelSize {
  int width = 0, height = 0;
};
PixelSize size_within(int width, int height, int longest);

/// Each pixel the mean of the area that it stands for. Whole numbers only, so that every machine
/// comes to the same.
/// Contract: the size is at least 1 each way and no larger than the picture.
Pixels shrunk(Pixels large, PixelSize size);

}  // namespace hailwright::detail
