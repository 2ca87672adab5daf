// The door to libjpeg-turbo.
#include <turbojpeg.h>

#include <algorithm>
#include <memory>
#include <new>
#include <string>

#include "hailwright/core/contract.hpp"
#include "report/photo_codecs.hpp"

namespace hailwright::detail {

namespace {

/// Of what a page shows: no difference can be seen at this size [ours].
constexpr int quality = 88;
constexpr int pixel_bytes = 3;
/// A progressive file of many scans can cost minutes: that is an attack, no photo.
constexpr int decoding = TJFLAG_ACCURATEDCT | TJFLAG_LIMITSCANS | TJFLAG_STOPONWARNING;

struct Destroy {
  void operator()(void* codec) const { tjDestroy(codec); }
};
using Codec = std::unique_ptr<void, Destroy>;

struct Release {
  void operator()(unsigned char* bytes) const { tjFree(bytes); }
};

const unsigned char* bytes_of(std::string_view text) {
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-reinterpret-cast): the library's bytes are unsigned
  return reinterpret_cast<const unsigned char*>(text.data());
}

/// The smallest of a half, a quarter and an eighth that is still as long as wanted: the library
/// then decodes a part of the file's frequencies alone.
PixelSize decoded_size(int width, int height, int longest) {
  for (const int part : {8, 4, 2}) {
    const tjscalingfactor factor{1, part};
    const PixelSize size{TJSCALED(width, factor), TJSCALED(height, factor)};
    if (std::max(size.width, size.height) >= longest) return size;
  }
  return {width, height};
}

}  // namespace

Decoded decode_jpeg(std::string_view file, int longest) {
  const Codec codec(tjInitDecompress());
  if (codec == nullptr) throw std::bad_alloc();
  int width = 0;
  int height = 0;
  int sampling = 0;
  int colours = 0;
  if (tjDecompressHeader3(codec.get(), bytes_of(file), file.size(), &width, &height, &sampling,
                          &colours) != 0) {
    return damaged("JPEG", tjGetErrorStr2(codec.get()));
  }
  if (colours == TJCS_CMYK || colours == TJCS_YCCK) {
    return PhotoProblem{"is a JPEG file in the colours of a printing press",
                        "save it in the colours of a screen (RGB)"};
  }
  if (static_cast<long long>(width) * height > most_photo_pixels)
    return too_many_pixels(width, height);
  const PixelSize size = decoded_size(width, height, longest);
  Pixels pixels{size.width, size.height, {}};
  pixels.rgb.resize(static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height) *
                    pixel_bytes);
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-reinterpret-cast): the library's bytes are unsigned
  auto* rows = reinterpret_cast<unsigned char*>(pixels.rgb.data());
  if (tjDecompress2(codec.get(), bytes_of(file), file.size(), rows, size.width, 0, size.height,
                    TJPF_RGB, decoding) != 0) {
    return damaged("JPEG", tjGetErrorStr2(codec.get()));
  }
  return pixels;
}

std::string encode_jpeg(const Pixels& pixels) {
  const Codec codec(tjInitCompress());
  if (codec == nullptr) throw std::bad_alloc();
  unsigned char* made = nullptr;
  unsigned long size = 0;
  const int failed = tjCompress2(codec.get(), bytes_of(pixels.rgb), pixels.width, 0, pixels.height,
                                 TJPF_RGB, &made, &size, TJSAMP_420, quality, TJFLAG_ACCURATEDCT);
  const std::unique_ptr<unsigned char, Release> owned(made);
  if (failed != 0) fail_on_memory(tjGetErrorStr2(codec.get()));
  expects(failed == 0, "pixels that fit into a JPEG file");
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-reinterpret-cast): the library's bytes are unsigned
  return {reinterpret_cast<const char*>(made), size};
}

}  // namespace hailwright::detail
