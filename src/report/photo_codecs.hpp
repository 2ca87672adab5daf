#pragma once

#include <string>
#include <string_view>
#include <variant>

#include "hailwright/report/photo.hpp"
#include "report/photo_pixels.hpp"

namespace hailwright::detail {

/// So many pixels are decoded at most [ours]: twice what telephones make, 300 MB of memory.
inline constexpr long long most_photo_pixels = 100'000'000;

using Decoded = std::variant<Pixels, PhotoProblem>;

/// The pixels as stored, or why there are none. Where a smaller picture costs less than the whole,
/// it may come out smaller, but its longest side no shorter than `longest` if it was that long.
Decoded decode_jpeg(std::string_view file, int longest);
/// What is seen through comes out on white.
Decoded decode_png(std::string_view file);

/// Pixels and nothing else. The same pixels give the same bytes, as long as the library is the
/// same.
std::string encode_jpeg(const Pixels& pixels);
std::string encode_png(const Pixels& pixels);

PhotoProblem too_many_pixels(int width, int height);
/// Throws std::bad_alloc where a library says that it got no memory: the file is not to blame.
void fail_on_memory(std::string_view library_says);
PhotoProblem damaged(std::string_view kind, std::string_view library_says);

}  // namespace hailwright::detail
