#pragma once

#include <string>
#include <string_view>
#include <variant>

namespace hailwright {

/// A photo as pixels alone, upright, for a page.
struct CleanPhoto {
  std::string media_type;  ///< "image/jpeg" or "image/png"
  std::string bytes;
  int width = 0, height = 0;
};

/// Why a file cannot be shown.
struct PhotoProblem {
  std::string problem;  ///< "is neither a JPEG nor a PNG file"
  std::string mend;     ///< "convert it, or ..."
};

/// Longest side of a photo in a page, in pixels [ours]: what a screen of twice the usual density
/// shows over the width of the text.
inline constexpr int longest_photo_side = 1600;

/// Decodes a JPEG or PNG file and encodes its pixels anew, turned upright as the file says and made
/// no larger than `longest_photo_side`: whatever else the file held (place, time, camera, preview,
/// comments, colour profile, bytes after its end) does not come out. The same bytes give the same
/// bytes. Damaged files and those above 100 megapixels are a problem, never a crash.
std::variant<CleanPhoto, PhotoProblem> clean_photo(std::string_view file);

}  // namespace hailwright
