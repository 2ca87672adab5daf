#include "report/photo_pixels.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <utility>

#include "hailwright/core/contract.hpp"

namespace hailwright::detail {

namespace {

constexpr std::size_t channels = 3;

std::size_t index(int width, int column, int row) {
  return (static_cast<std::size_t>(row) * static_cast<std::size_t>(width) +
          static_cast<std::size_t>(column)) *
         channels;
}

std::uint64_t byte_at(const std::string& rgb, std::size_t at) {
  return static_cast<unsigned char>(rgb[at]);
}

/// Bytes that lie `step` apart, `count` of them from `first` on: one colour of a row or a column.
struct Line {
  std::size_t first = 0;
  std::size_t step = 0;
  int count = 0;
};

/// Both lines are cut into from.count * to.count equal pieces: a pixel of the one has to.count of
/// them, one of the other from.count.
void average(const std::string& source, Line from, std::string& target, Line to) {
  const auto pieces_in = static_cast<std::uint64_t>(to.count);
  const auto pieces_out = static_cast<std::uint64_t>(from.count);
  std::uint64_t left_in = pieces_in;  // of the pixel at `in`
  std::size_t in = from.first;
  for (int i = 0; i < to.count; ++i) {
    std::uint64_t sum = 0;
    for (std::uint64_t wanted = pieces_out; wanted > 0;) {
      const std::uint64_t taken = std::min(wanted, left_in);
      sum += taken * byte_at(source, in);
      wanted -= taken;
      left_in -= taken;
      if (left_in > 0) continue;
      in += from.step;
      left_in = pieces_in;
    }
    target[to.first + static_cast<std::size_t>(i) * to.step] =
        static_cast<char>((sum + pieces_out / 2) / pieces_out);
  }
}

Pixels narrowed(const Pixels& wide, int width) {
  Pixels out{width, wide.height, std::string(index(width, 0, wide.height), '\0')};
  for (int row = 0; row < wide.height; ++row) {
    for (std::size_t c = 0; c < channels; ++c) {
      average(wide.rgb, {index(wide.width, 0, row) + c, channels, wide.width}, out.rgb,
              {index(width, 0, row) + c, channels, width});
    }
  }
  return out;
}

Pixels lowered(const Pixels& tall, int height) {
  Pixels out{tall.width, height, std::string(index(tall.width, 0, height), '\0')};
  const std::size_t step = index(tall.width, 0, 1);
  for (std::size_t at = 0; at < step; ++at)
    average(tall.rgb, {at, step, tall.height}, out.rgb, {at, step, height});
  return out;
}

}  // namespace

Pixels turned_upright(Pixels stored, int orientation) {
  if (orientation < 2 || orientation > 8) return stored;
  // Where the first stored row and column are to be seen: 2 top and right, 3 bottom and right,
  // 4 bottom and left, 5 left and top, 6 right and top, 7 right and bottom, 8 left and bottom.
  const bool swapped = orientation >= 5;
  const bool from_last_column = orientation == 2 || orientation == 3 || orientation >= 7;
  const bool from_last_row =
      orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7;
  Pixels out{stored.width, stored.height, std::string(stored.rgb.size(), '\0')};
  if (swapped) std::swap(out.width, out.height);
  for (int row = 0; row < out.height; ++row) {
    for (int column = 0; column < out.width; ++column) {
      const int along = swapped ? row : column;
      const int down = swapped ? column : row;
      const std::size_t from =
          index(stored.width, from_last_column ? stored.width - 1 - along : along,
                from_last_row ? stored.height - 1 - down : down);
      const std::size_t to = index(out.width, column, row);
      std::copy_n(&stored.rgb[from], channels, &out.rgb[to]);
    }
  }
  return out;
}

PixelSize size_within(int width, int height, int longest) {
  const int side = std::max(width, height);
  if (side <= longest) return {width, height};
  const auto scaled = [&](int length) {
    const std::int64_t rounded = (std::int64_t{length} * longest + side / 2) / side;
    return std::max(1, static_cast<int>(rounded));
  };
  return {scaled(width), scaled(height)};
}

Pixels shrunk(Pixels large, PixelSize size) {
  expects(size.width >= 1 && size.height >= 1 && size.width <= large.width &&
              size.height <= large.height,
          "a picture is only made smaller");
  if (size.width < large.width) large = narrowed(large, size.width);
  if (size.height < large.height) large = lowered(large, size.height);
  return large;
}

}  // namespace hailwright::detail
