#pragma once

#include <memory>
#include <string>
#include <string_view>

namespace hailwright {

/// SHA-256 (FIPS 180-4) of bytes that come in pieces.
class Sha256 {
public:
  Sha256();
  Sha256(const Sha256&) = delete;
  Sha256& operator=(const Sha256&) = delete;
  Sha256(Sha256&& other) noexcept;
  Sha256& operator=(Sha256&& other) noexcept;
  ~Sha256();
  void add(std::string_view bytes);
  /// Of all bytes added, as 64 lower-case hexadecimal digits: what `sha256sum` prints. Ends it:
  /// nothing may be added, and it may not be asked again.
  std::string hex();

private:
  struct Work;
  std::unique_ptr<Work> work_;
};

/// SHA-256 of some bytes, as `Sha256::hex` gives it.
std::string sha256_hex(std::string_view bytes);

/// Some bytes in base64 (RFC 4648, section 4: padded, no line breaks).
/// Contract: fewer than 2^30 bytes.
std::string base64(std::string_view bytes);

}  // namespace hailwright
