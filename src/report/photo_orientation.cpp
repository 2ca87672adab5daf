#include "report/photo_orientation.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>

namespace hailwright::detail {

namespace {

/// Bytes from a place on; none past the end.
std::string_view from(std::string_view bytes, std::size_t at) {
  return at <= bytes.size() ? bytes.substr(at) : std::string_view();
}

enum class ByteOrder { high_first, low_first };

/// A whole number of so many bytes; nothing past the end.
std::optional<std::uint32_t> number(std::string_view bytes, std::size_t at, std::size_t size,
                                    ByteOrder order = ByteOrder::high_first) {
  const std::string_view digits = from(bytes, at).substr(0, size);
  if (digits.size() < size) return std::nullopt;
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < size; ++i) {
    const std::size_t next = order == ByteOrder::high_first ? i : size - 1 - i;
    value = value << 8U | static_cast<unsigned char>(digits[next]);
  }
  return value;
}

/// Of the directory that EXIF data begin with.
int orientation_in(std::string_view exif) {
  constexpr std::uint32_t orientation_tag = 0x0112;
  constexpr std::uint32_t short_number = 3;
  constexpr std::size_t entry_size = 12;
  const bool low_first = exif.starts_with("II");
  if (!low_first && !exif.starts_with("MM")) return 1;
  const ByteOrder order = low_first ? ByteOrder::low_first : ByteOrder::high_first;
  const std::string_view directory = from(exif, number(exif, 4, 4, order).value_or(0));
  const std::uint32_t entries = number(directory, 0, 2, order).value_or(0);
  for (std::uint32_t i = 0; i < entries; ++i) {
    const std::string_view entry = from(directory, 2 + i * entry_size);
    if (number(entry, 0, 2, order) != orientation_tag) continue;
    if (number(entry, 2, 2, order) != short_number) return 1;
    const std::uint32_t value = number(entry, 8, 2, order).value_or(1);
    return value >= 1 && value <= 8 ? static_cast<int>(value) : 1;
  }
  return 1;
}

/// The segments before the pixels: FF, kind, length with its own two bytes, content.
int orientation_of_jpeg(std::string_view file) {
  constexpr std::string_view exif_mark("Exif\0\0", 6);
  constexpr std::uint32_t app1 = 0xFFE1;
  constexpr std::uint32_t first_kind = 0xFF00;
  constexpr std::uint32_t scan = 0xFFDA;
  for (std::size_t at = 2;;) {
    const auto kind = number(file, at, 2);
    const auto length = number(file, at + 2, 2);
    if (!kind || *kind < first_kind || *kind == scan || !length || *length < 2) return 1;
    const std::string_view content = from(file, at + 4).substr(0, *length - 2);
    if (*kind == app1 && content.starts_with(exif_mark))
      return orientation_in(content.substr(exif_mark.size()));
    at += 2 + *length;
  }
}

/// Chunks: length of the content, four letters, content, four bytes of check.
int orientation_of_png(std::string_view file) {
  for (std::size_t at = 8;;) {
    const auto length = number(file, at, 4);
    if (!length) return 1;
    const std::string_view content = from(file, at + 8).substr(0, *length);
    if (from(file, at + 4).starts_with("eXIf")) return orientation_in(content);
    at += std::size_t{12} + *length;
  }
}

}  // namespace

int photo_orientation(std::string_view file) {
  if (file.starts_with("\xFF\xD8")) return orientation_of_jpeg(file);
  if (file.starts_with("\x89PNG")) return orientation_of_png(file);
  return 1;
}

}  // namespace hailwright::detail
