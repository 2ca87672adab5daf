#include "hailwright/core/digest.hpp"

#include <openssl/evp.h>

#include <array>
#include <vector>

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

std::string base64(std::string_view bytes) {
  constexpr std::size_t most = std::size_t{1} << 30U;  // the library counts in int
  expects(bytes.size() < most, "bytes for base64 in one piece");
  std::vector<unsigned char> text((bytes.size() + 2) / 3 * 4 + 1);  // and the library's final zero
  std::vector<unsigned char> octets(bytes.begin(), bytes.end());
  const int written = EVP_EncodeBlock(text.data(), octets.data(), static_cast<int>(octets.size()));
  return {text.begin(), text.begin() + written};
}

}  // namespace hailwright
