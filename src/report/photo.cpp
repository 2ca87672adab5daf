#include "hailwright/report/photo.hpp"

#include <new>
#include <string>
#include <utility>

#include "report/photo_codecs.hpp"
#include "report/photo_orientation.hpp"

namespace hailwright {

namespace detail {

PhotoProblem too_many_pixels(int width, int height) {
  return {"has " + std::to_string(width) + " x " + std::to_string(height) +
              " pixels, more than the 100 million that are read",
          "save it smaller"};
}

void fail_on_memory(std::string_view library_says) {
  if (library_says.find("memory") != std::string_view::npos ||
      library_says.find("Memory") != std::string_view::npos) {
    throw std::bad_alloc();
  }
}

PhotoProblem damaged(std::string_view kind, std::string_view library_says) {
  fail_on_memory(library_says);
  return {"is a damaged " + std::string(kind) + " file (" + std::string(library_says) + ")",
          "copy it from the camera again, or save it anew from a program that shows it"};
}

}  // namespace detail

namespace {

using detail::Pixels;

bool is_jpeg(std::string_view file) {
  return file.starts_with("\xFF\xD8\xFF");
}

bool is_png(std::string_view file) {
  return file.starts_with("\x89PNG\r\n\x1A\n");
}

Pixels for_a_page(Pixels stored, int orientation) {
  const auto size = detail::size_within(stored.width, stored.height, longest_photo_side);
  return detail::turned_upright(detail::shrunk(std::move(stored), size), orientation);
}

}  // namespace

std::variant<CleanPhoto, PhotoProblem> clean_photo(std::string_view file) {
  const bool jpeg = is_jpeg(file);
  if (!jpeg && !is_png(file)) {
    return PhotoProblem{"is neither a JPEG nor a PNG file",
                        "save it as JPEG; many telephones can be set to make JPEG files"};
  }
  detail::Decoded decoded =
      jpeg ? detail::decode_jpeg(file, longest_photo_side) : detail::decode_png(file);
  if (auto* problem = std::get_if<PhotoProblem>(&decoded)) return std::move(*problem);
  const Pixels pixels =
      for_a_page(std::get<Pixels>(std::move(decoded)), detail::photo_orientation(file));
  return CleanPhoto{jpeg ? "image/jpeg" : "image/png",
                    jpeg ? detail::encode_jpeg(pixels) : detail::encode_png(pixels), pixels.width,
                    pixels.height};
}

}  // namespace hailwright
