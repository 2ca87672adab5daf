#include "report/photo_orientation.hpp"

#include <random>
#include <string>

#include "support/catch.hpp"
#include "support/picture_files.hpp"

using namespace hailwright::testing;
using hailwright::detail::photo_orientation;

TEST_CASE("photo_orientation: both byte orders are read in both kinds of file") {
  for (int orientation = 1; orientation <= 8; ++orientation) {
    for (const bool low_first : {false, true}) {
      CAPTURE(orientation, low_first);
      const std::string exif = exif_data(orientation, low_first);
      CHECK(photo_orientation(jpeg_with(
                {jpeg_segment('\xE1', "Exif" + std::string(2, '\0') + exif)})) == orientation);
      CHECK(photo_orientation(png_with({png_chunk("eXIf", exif)})) == orientation);
    }
  }
}

TEST_CASE("photo_orientation: other segments and chunks before it are passed over") {
  const std::string exif = "Exif" + std::string(2, '\0') + exif_data(6, false);
  CHECK(photo_orientation(jpeg_with({jpeg_segment('\xE0', "JFIF"), jpeg_segment('\xFE', "a word"),
                                     jpeg_segment('\xE1', "http://example.org/xap"),
                                     jpeg_segment('\xE1', exif)})) == 6);
  CHECK(photo_orientation(png_with({png_chunk("tEXt", std::string("Comment\0a word", 14)),
                                    png_chunk("eXIf", exif_data(6, false))})) == 6);
}

TEST_CASE("photo_orientation: what says nothing sensible is seen as stored") {
  const auto in_jpeg = [](const std::string& exif) {
    return photo_orientation(
        jpeg_with({jpeg_segment('\xE1', "Exif" + std::string(2, '\0') + exif)}));
  };
  CHECK(photo_orientation("") == 1);
  CHECK(photo_orientation("no picture") == 1);
  CHECK(photo_orientation("\xFF\xD8") == 1);
  CHECK(photo_orientation(jpeg_with({})) == 1);
  CHECK(photo_orientation(png_with({})) == 1);
  CHECK(in_jpeg("") == 1);
  CHECK(in_jpeg("XX" + exif_data(6, false).substr(2)) == 1);
  CHECK(in_jpeg(exif_data(0, false)) == 1);
  CHECK(in_jpeg(exif_data(9, true)) == 1);
  // The directory lies past the end.
  CHECK(in_jpeg(std::string("MM\0*\xFF\xFF\xFF\xFF", 8)) == 1);
  // A number of another kind than the tag has.
  std::string long_number = exif_data(6, false);
  long_number[exif_orientation_at + 3] = 4;
  CHECK(in_jpeg(long_number) == 1);
}

TEST_CASE("photo_orientation: files cut off or garbled anywhere give one of the eight") {
  const std::string exif = exif_data(8, true);
  const std::string files[] = {
      jpeg_with({jpeg_segment('\xE1', "Exif" + std::string(2, '\0') + exif)}),
      png_with({png_chunk("eXIf", exif)})};
  std::mt19937 random(3);
  for (const std::string& file : files) {
    for (std::size_t size = 0; size < file.size(); ++size) {
      const int seen = photo_orientation(std::string_view(file).substr(0, size));
      CHECK((seen == 1 || seen == 8));
    }
    for (int i = 0; i < 5000; ++i) {
      std::string garbled = file;
      for (int k = 0; k < 3; ++k)
        garbled[random() % garbled.size()] = static_cast<char>(random());
      const int seen = photo_orientation(garbled);
      REQUIRE((seen >= 1 && seen <= 8));
    }
  }
}
