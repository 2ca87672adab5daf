#pragma once

#include <map>
#include <string>
#include <vector>

#include "cli/output_files.hpp"
#include "hailwright/core/diagnostic.hpp"
#include "hailwright/report/document.hpp"
#include "hailwright/report/write_up.hpp"

namespace hailwright::cli {

/// Larger files are no photos of a test [bytes; ours].
inline constexpr std::size_t largest_photo = 50'000'000;

/// The photos that some records name.
struct PhotosRead {
  /// One map a record, by the name that the record gives them; as `WriteUp::photos` wants them.
  std::vector<std::map<std::string, Photo>> of_records;
  std::vector<OutputFile> output;  ///< below "photos/", each once
  std::vector<std::string> paths;  ///< of the files that were read
  Diagnostics notes;               ///< at the lines of the records that name them
};

/// The photos of a record, and the folder that their names start from.
struct PhotosNamed {
  std::vector<PhotoName> photos;
  std::string folder;
};

/// Reads photos and takes all but their pixels away. What cannot be shown is an error.
PhotosRead read_photos(const std::vector<PhotosNamed>& records);

/// The name of a photo in a write-up: "photos/3-place-14.jpg" of the third, "Place 14.JPEG". Lower
/// case letters, digits and '-' alone, not too many.
std::string photo_output_name(std::size_t number, const std::string& file,
                              const std::string& media_type);

}  // namespace hailwright::cli
