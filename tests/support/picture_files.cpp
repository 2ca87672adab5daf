#include "support/picture_files.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <numeric>

#include "report/photo_codecs.hpp"

namespace hailwright::testing {

namespace {

std::string number(std::uint32_t value, std::size_t size, bool low_first = false) {
  std::string text;
  for (std::size_t i = 0; i < size; ++i) {
    const std::size_t place = low_first ? i : size - 1 - i;
    text += static_cast<char>(value >> (8U * place) & 0xFFU);
  }
  return text;
}

/// Of chunk name and content. Source: PNG specification, annex D (from memory).
std::uint32_t crc(const std::string& bytes) {
  std::uint32_t c = 0xFFFFFFFFU;
  for (const char byte : bytes) {
    c ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit)
      c = (c & 1U) != 0 ? 0xEDB88320U ^ (c >> 1U) : c >> 1U;
  }
  return c ^ 0xFFFFFFFFU;
}

detail::Pixels sample() {
  return {sample_width, sample_height, sample_rgb()};
}

std::string joined(const std::vector<std::string>& parts) {
  return std::accumulate(parts.begin(), parts.end(), std::string());
}

}  // namespace

std::string exif_data(int orientation, bool low_first) {
  const auto n = [&](std::uint32_t value, std::size_t size) {
    return number(value, size, low_first);
  };
  const auto entry = [&](std::uint32_t tag, std::uint32_t kind, std::uint32_t count,
                         const std::string& value) {
    return n(tag, 2) + n(kind, 2) + n(count, 4) + value;
  };
  constexpr std::uint32_t after_directory = 8 + 2 + 3 * 12 + 4;
  constexpr std::uint32_t gps_at = after_directory + 10;
  const std::string directory =
      n(3, 2) + entry(0x0112, 3, 1, n(static_cast<std::uint32_t>(orientation), 2) + n(0, 2)) +
      entry(0x010F, 2, 10, n(after_directory, 4)) + entry(0x8825, 4, 1, n(gps_at, 4)) + n(0, 4);
  const std::string gps = n(1, 2) + entry(0x0002, 5, 3, n(gps_at + 18, 4)) + n(0, 4) + n(51, 4) +
                          n(1, 4) + n(30, 4) + n(1, 4) + n(0, 4) + n(1, 4);
  return (low_first ? "II" : "MM") + n(42, 2) + n(8, 4) + directory +
         std::string("SecretCam\0", 10) + gps;
}

std::string jpeg_segment(char kind, const std::string& content) {
  return std::string("\xFF") + kind + number(static_cast<std::uint32_t>(content.size() + 2), 2) +
         content;
}

std::string png_chunk(const std::string& name, const std::string& content) {
  return number(static_cast<std::uint32_t>(content.size()), 4) + name + content +
         number(crc(name + content), 4);
}

std::string put_in(const std::string& jpeg_or_png, const std::vector<std::string>& parts) {
  constexpr std::size_t jpeg_mark = 2;
  constexpr std::size_t png_mark_and_header = 8 + 25;
  const std::size_t at = jpeg_or_png.starts_with("\xFF") ? jpeg_mark : png_mark_and_header;
  return jpeg_or_png.substr(0, at) + joined(parts) + jpeg_or_png.substr(at);
}

std::string jpeg_with(const std::vector<std::string>& segments) {
  return put_in(detail::encode_jpeg(sample()), segments);
}

std::string png_with(const std::vector<std::string>& chunks) {
  return put_in(detail::encode_png(sample()), chunks);
}

std::string sample_rgb() {
  std::string rgb;
  for (int row = 0; row < sample_height; ++row) {
    for (int column = 0; column < sample_width; ++column) {
      const bool black = column >= 16;
      const bool right = column >= 8;
      const bool low = row >= 8;
      const auto part = [&](bool on) { return on && !black ? '\xFF' : '\0'; };
      rgb += part(right == low);  // red: upper left, lower right
      rgb += part(right);         // green: the right half
      rgb += part(low);           // blue: the lower half
    }
  }
  return rgb;
}

}  // namespace hailwright::testing
