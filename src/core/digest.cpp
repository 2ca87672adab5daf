#include "hailwright/core/digest.hpp"

#include <openssl/evp.h>

#include <array>

#include "hailwright/core/contract.hpp"

namespace hailwright {

std::string sha256_hex(std::string_view bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int size = 0;
  const int made =
      EVP_Digest(bytes.data(), bytes.size(), digest.data(), &size, EVP_sha256(), nullptr);
  expects(made == 1, "the system's library has SHA-256");
  constexpr std::string_view digits = "0123456789abcdef";
  std::string hex;
  for (unsigned int i = 0; i < size; ++i) {
    hex += digits[digest.at(i) >> 4U];
    hex += digits[digest.at(i) & 0xFU];
  }
  return hex;
}

}  // namespace hailwright
