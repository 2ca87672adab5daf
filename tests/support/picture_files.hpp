#pragma once

#include <string>
#include <vector>

namespace hailwright::testing {

// Parts of picture files, put together byte by byte from the formats' own pages (from memory):
// ITU-T T.81 for JPEG, the PNG specification, CIPA DC-008 for EXIF.

/// EXIF data of an orientation, a place (51.5 degrees north) and the maker "SecretCam"; without the
/// letters "Exif" in front.
std::string exif_data(int orientation, bool low_first);
/// Where in it the entry of the orientation begins.
inline constexpr std::size_t exif_orientation_at = 10;

/// A segment of a JPEG file: its kind is the second byte of its mark.
std::string jpeg_segment(char kind, const std::string& content);
/// A small JPEG file with segments put in after its first two bytes.
std::string jpeg_with(const std::vector<std::string>& segments);

std::string png_chunk(const std::string& name, const std::string& content);
/// A small PNG file with chunks put in after its first one.
std::string png_with(const std::vector<std::string>& chunks);

/// The picture that both files hold: red, green, blue and white quarters of 8 pixels each way, from
/// the left and then from the top; 24 wide and 16 high, its last third black.
inline constexpr int sample_width = 24;
inline constexpr int sample_height = 16;
std::string sample_rgb();

/// Puts parts into a picture file of one's own.
std::string put_in(const std::string& jpeg_or_png, const std::vector<std::string>& parts);

}  // namespace hailwright::testing
