#include "hailwright/report/photo.hpp"

#include <algorithm>
#include <cstdlib>
#include <random>

#include "report/photo_codecs.hpp"
#include "support/catch.hpp"
#include "support/picture_files.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

CleanPhoto cleaned(const std::string& file) {
  const auto result = clean_photo(file);
  if (const auto* problem = std::get_if<PhotoProblem>(&result)) FAIL(problem->problem);
  return std::get<CleanPhoto>(result);
}

PhotoProblem problem(const std::string& file) {
  const auto result = clean_photo(file);
  REQUIRE(std::holds_alternative<PhotoProblem>(result));
  PhotoProblem found = std::get<PhotoProblem>(result);
  CHECK_FALSE(found.mend.empty());
  return found;
}

detail::Pixels pixels_of(const CleanPhoto& photo) {
  const detail::Decoded decoded = photo.media_type == "image/png"
                                      ? detail::decode_png(photo.bytes)
                                      : detail::decode_jpeg(photo.bytes, longest_photo_side);
  REQUIRE(std::holds_alternative<detail::Pixels>(decoded));
  return std::get<detail::Pixels>(decoded);
}

/// The colour of a pixel in letters: each of r, g, b if more than half of it is there.
std::string colour(const detail::Pixels& pixels, int column, int row) {
  const auto at = static_cast<std::size_t>(3 * (row * pixels.width + column));
  std::string letters;
  for (std::size_t i = 0; i < 3; ++i) {
    if (static_cast<unsigned char>(pixels.rgb[at + i]) > 127) letters += "rgb"[i];
  }
  return letters.empty() ? "black" : letters;
}

/// Things that must not come out. `exif_data` has the maker; the others are put in below.
const std::vector<std::string> secrets{"SecretCam", "Exif", "home address", "ICC_PROFILE",
                                       "tEXt",      "eXIf", "zTXt",         "iTXt",
                                       "MM\0*",     "xap",  "preview",      "at the end"};

void check_no_secrets(const std::string& bytes) {
  for (const std::string& secret : secrets) {
    CAPTURE(secret);
    CHECK(bytes.find(secret) == std::string::npos);
  }
}

std::string jpeg_full_of_secrets(int orientation) {
  return jpeg_with(
             {jpeg_segment('\xE1', "Exif" + std::string(2, '\0') + exif_data(orientation, true)),
              jpeg_segment('\xE1', "http://ns.adobe.com/xap/1.0/ home address"),
              jpeg_segment('\xE2', "ICC_PROFILE and a preview"),
              jpeg_segment('\xFE', "home address")}) +
         "home address at the end";
}

std::string png_full_of_secrets(int orientation) {
  return png_with({png_chunk("eXIf", exif_data(orientation, false)),
                   png_chunk("tEXt", std::string("Comment\0home address", 20)),
                   png_chunk("iTXt", std::string("XML:com.adobe.xmp\0\0\0\0\0home address", 34))}) +
         "home address at the end";
}

}  // namespace

TEST_CASE("photo: of a JPEG file nothing but its pixels comes out and upright") {
  const std::string file = jpeg_full_of_secrets(6);
  for (const std::string there : {"SecretCam", "home address", "ICC_PROFILE", "at the end"})
    REQUIRE(file.find(there) != std::string::npos);
  const CleanPhoto photo = cleaned(file);
  CHECK(photo.media_type == "image/jpeg");
  check_no_secrets(photo.bytes);
  // A quarter turn to the right: what was stored at the left is at the top.
  CHECK(photo.width == sample_height);
  CHECK(photo.height == sample_width);
  const detail::Pixels seen = pixels_of(photo);
  CHECK(colour(seen, 3, 3) == "b");
  CHECK(colour(seen, 12, 3) == "r");
  CHECK(colour(seen, 3, 11) == "rgb");
  CHECK(colour(seen, 12, 11) == "g");
  CHECK(colour(seen, 3, 20) == "black");
}

TEST_CASE("photo: of a PNG file nothing but its pixels comes out and upright") {
  const std::string file = png_full_of_secrets(8);
  REQUIRE(file.find("home address") != std::string::npos);
  const CleanPhoto photo = cleaned(file);
  CHECK(photo.media_type == "image/png");
  check_no_secrets(photo.bytes);
  CHECK(photo.width == sample_height);
  CHECK(photo.height == sample_width);
  // A quarter turn to the left.
  const detail::Pixels seen = pixels_of(photo);
  CHECK(colour(seen, 3, 23) == "r");
  CHECK(colour(seen, 12, 23) == "b");
  CHECK(colour(seen, 3, 12) == "g");
  CHECK(colour(seen, 12, 12) == "rgb");
  CHECK(colour(seen, 3, 3) == "black");
  // Nothing is lost on the way.
  CHECK(pixels_of(cleaned(png_with({}))).rgb == sample_rgb());
}

TEST_CASE("photo: the chunks and segments that come out are those of pixels alone") {
  const std::string png = cleaned(png_full_of_secrets(1)).bytes;
  std::string chunks;
  for (std::size_t at = 8; at + 8 <= png.size();) {
    chunks += png.substr(at + 4, 4) + " ";
    std::size_t length = 0;
    for (std::size_t i = 0; i < 4; ++i)
      length = length * 256 + static_cast<unsigned char>(png[at + i]);
    at += 12 + length;
  }
  // sRGB says which colours numbers mean: it is the same in all.
  CHECK(chunks == "IHDR sRGB IDAT IEND ");
  const std::string jpeg = cleaned(jpeg_full_of_secrets(1)).bytes;
  std::string kinds;
  for (std::size_t at = 2; at + 4 <= jpeg.size();) {
    const auto kind = static_cast<unsigned char>(jpeg[at + 1]);
    if (kind == 0xDA) break;
    if (kind >= 0xE1 || kind == 0xFE) kinds += std::to_string(kind) + " ";
    at += 2 + static_cast<unsigned char>(jpeg[at + 2]) * 256U +
          static_cast<unsigned char>(jpeg[at + 3]);
  }
  CHECK(kinds.empty());  // APP1 to APP15 and comments
}

TEST_CASE("photo: the same file gives the same bytes whatever it says about itself") {
  const std::string once = cleaned(jpeg_full_of_secrets(1)).bytes;
  CHECK(cleaned(jpeg_full_of_secrets(1)).bytes == once);
  CHECK(cleaned(jpeg_with({})).bytes == once);
  CHECK(cleaned(png_full_of_secrets(1)).bytes == cleaned(png_with({})).bytes);
}

TEST_CASE("photo: a large one becomes as large as a page needs") {
  detail::Pixels large{3500, 2100, std::string(std::size_t{3500} * 2100 * 3, '\x80')};
  for (const std::string& file : {detail::encode_jpeg(large), detail::encode_png(large)}) {
    const CleanPhoto photo = cleaned(file);
    CHECK(photo.width == longest_photo_side);
    CHECK(photo.height == 960);
    const detail::Pixels seen = pixels_of(photo);
    CHECK(seen.width == photo.width);
    CHECK(seen.height == photo.height);
    CHECK(std::all_of(seen.rgb.begin(), seen.rgb.end(),
                      [](char c) { return std::abs(static_cast<unsigned char>(c) - 0x80) <= 1; }));
  }
  // Turned after it is made smaller: the longest side stays the longest.
  const CleanPhoto upright =
      cleaned(put_in(detail::encode_jpeg(large),
                     {jpeg_segment('\xE1', "Exif" + std::string(2, '\0') + exif_data(6, true))}));
  CHECK(upright.width == 960);
  CHECK(upright.height == longest_photo_side);
}

TEST_CASE("photo: what a PNG file lets through comes out on white") {
  // One pixel, red and wholly transparent, then half transparent black: by the PNG specification,
  // filter 0 and colour type 6 (from memory), in a stored block of deflate (RFC 1951, RFC 1950).
  const std::string row("\0\xFF\0\0\0\0\0\0\x80", 9);
  std::uint32_t a = 1;
  std::uint32_t b = 0;
  for (const char c : row) {
    a = (a + static_cast<unsigned char>(c)) % 65521;
    b = (b + a) % 65521;
  }
  std::string data("\x78\x01\x01\x09\x00\xF6\xFF", 7);
  data += row;
  for (const std::uint32_t half : {b, a})
    data += std::string{static_cast<char>(half >> 8U), static_cast<char>(half & 0xFFU)};
  const std::string file = "\x89PNG\r\n\x1A\n" +
                           png_chunk("IHDR", std::string("\0\0\0\2\0\0\0\1\10\6\0\0\0", 13)) +
                           png_chunk("IDAT", data) + png_chunk("IEND", "");
  const detail::Pixels seen = pixels_of(cleaned(file));
  REQUIRE(seen.width == 2);
  CHECK(seen.rgb.substr(0, 3) == "\xFF\xFF\xFF");
  CHECK(static_cast<unsigned char>(seen.rgb[3]) > 0x60);
  CHECK(seen.rgb[3] == seen.rgb[5]);
}

TEST_CASE("photo: what is no picture is told apart") {
  for (const std::string file :
       {"", "x", "no picture", "GIF89a", "<svg/>", "\xFF\xD8", "\x89PNG"}) {
    CAPTURE(file);
    CHECK(problem(file).problem == "is neither a JPEG nor a PNG file");
  }
  CHECK_THAT(problem("\xFF\xD8\xFF").problem, Contains("is a damaged JPEG file"));
  CHECK_THAT(problem("\x89PNG\r\n\x1A\n").problem, Contains("is a damaged PNG file"));
}

TEST_CASE("photo: too many pixels are a problem before room is made for them") {
  // Only the header of each says so.
  std::string png = png_with({});
  const std::string header = png_chunk("IHDR", std::string("\0\1\0\0\0\1\0\0\10\2\0\0\0", 13));
  png.replace(8, header.size(), header);
  CHECK_THAT(problem(png).problem, Contains("has 65536 x 65536 pixels"));
  std::string jpeg = jpeg_with({});
  const std::size_t frame = jpeg.find("\xFF\xC0");
  REQUIRE(frame != std::string::npos);
  jpeg.replace(frame + 5, 4, "\xFF\xDC\xFF\xDC");
  CHECK_THAT(problem(jpeg).problem, Contains("has 65500 x 65500 pixels"));
}

TEST_CASE("photo: a file that was cut off is damaged") {
  // The last bytes only say that it ends; what is seen is there without them.
  const std::size_t ends_in = 14;
  for (const std::string& file : {jpeg_full_of_secrets(6), png_full_of_secrets(6)}) {
    const std::size_t whole = file.find("home address at the end");
    for (std::size_t size = 8; size + ends_in < whole; ++size) {
      CAPTURE(size);
      CHECK_THAT(problem(file.substr(0, size)).problem, Contains("is a damaged"));
    }
  }
}

TEST_CASE("photo: garbled files are a problem or a picture") {
  std::mt19937 random(11);
  int problems = 0;
  for (const std::string& file : {jpeg_full_of_secrets(6), png_full_of_secrets(6)}) {
    for (int i = 0; i < 250; ++i) {
      std::string garbled = file;
      for (unsigned k = 0; k < 1 + random() % 4; ++k)
        garbled[3 + random() % (garbled.size() - 3)] = static_cast<char>(random());
      const auto result = clean_photo(garbled);
      if (const auto* photo = std::get_if<CleanPhoto>(&result)) {
        REQUIRE(photo->width >= 1);
        REQUIRE(std::max(photo->width, photo->height) <= longest_photo_side);
      } else {
        ++problems;
      }
    }
  }
  CHECK(problems > 50);
  for (int i = 0; i < 500; ++i) {
    std::string noise(random() % 300, '\0');
    std::generate(noise.begin(), noise.end(), [&] { return static_cast<char>(random()); });
    for (const std::string mark : {"\xFF\xD8\xFF", "\x89PNG\r\n\x1A\n"})
      CHECK(std::holds_alternative<PhotoProblem>(clean_photo(mark + noise)));
  }
}
