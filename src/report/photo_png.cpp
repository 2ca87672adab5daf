// The door to libpng.
#include <png.h>

#include <cstddef>
#include <iterator>
#include <string>

#include "hailwright/core/contract.hpp"
#include "report/photo_codecs.hpp"

namespace hailwright::detail {

namespace {

/// The library's record of one picture, which it fills and empties itself.
class Image {
public:
  Image() { image_.version = PNG_IMAGE_VERSION; }
  Image(const Image&) = delete;
  Image& operator=(const Image&) = delete;
  Image(Image&&) = delete;
  Image& operator=(Image&&) = delete;
  ~Image() { png_image_free(&image_); }
  png_image* operator->() { return &image_; }
  png_image* get() { return &image_; }

private:
  png_image image_{};
};

std::size_t bytes_of(const png_image& image) {
  return PNG_IMAGE_SIZE(image);
}

}  // namespace

Decoded decode_png(std::string_view file) {
  Image image;
  if (png_image_begin_read_from_memory(image.get(), file.data(), file.size()) == 0)
    return damaged("PNG", std::data(image->message));
  // Of each side the format allows 2^31 - 1.
  const auto width = static_cast<int>(image->width);
  const auto height = static_cast<int>(image->height);
  if (static_cast<long long>(width) * height > most_photo_pixels)
    return too_many_pixels(width, height);
  image->format = PNG_FORMAT_RGB;
  Pixels pixels{width, height, std::string(bytes_of(*image.get()), '\0')};
  constexpr png_color white{255, 255, 255};
  if (png_image_finish_read(image.get(), &white, pixels.rgb.data(), 0, nullptr) == 0)
    return damaged("PNG", std::data(image->message));
  return pixels;
}

std::string encode_png(const Pixels& pixels) {
  Image image;
  image->width = static_cast<png_uint_32>(pixels.width);
  image->height = static_cast<png_uint_32>(pixels.height);
  image->format = PNG_FORMAT_RGB;
  png_alloc_size_t size = PNG_IMAGE_PNG_SIZE_MAX(*image.get());
  std::string made(size, '\0');
  const int written =
      png_image_write_to_memory(image.get(), made.data(), &size, 0, pixels.rgb.data(), 0, nullptr);
  if (written == 0) fail_on_memory(std::data(image->message));
  expects(written != 0, "pixels that fit into a PNG file");
  made.resize(size);
  return made;
}

}  // namespace hailwright::detail
