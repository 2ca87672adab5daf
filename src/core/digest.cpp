#include "hailwright/core/digest.hpp"

#include <openssl/evp.h>

#include <array>
#include <memory>
#include <vector>

#include "hailwright/core/contract.hpp"

namespace hailwright {

struct Sha256::Work {
  struct Free {
    void operator()(EVP_MD_CTX* context) const { EVP_MD_CTX_free(context); }
  };
  std::unique_ptr<EVP_MD_CTX, Free> context{EVP_MD_CTX_new()};
};

Sha256::Sha256() : work_(std::make_unique<Work>()) {
  const bool begun = work_->context != nullptr &&
                     EVP_DigestInit_ex(work_->context.get(), EVP_sha256(), nullptr) == 1;
  expects(begun, "the system's library has SHA-256");
}

Sha256::Sha256(Sha256&& other) noexcept = default;
Sha256& Sha256::operator=(Sha256&& other) noexcept = default;
Sha256::~Sha256() = default;

void Sha256::add(std::string_view bytes) {
  expects(work_ != nullptr, "a digest that was not ended");
  expects(EVP_DigestUpdate(work_->context.get(), bytes.data(), bytes.size()) == 1,
          "the system's library takes bytes");
}

std::string Sha256::hex() {
  expects(work_ != nullptr, "a digest that was not ended");
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int size = 0;
  expects(EVP_DigestFinal_ex(work_->context.get(), digest.data(), &size) == 1,
          "the system's library ends a digest");
  work_.reset();
  constexpr std::string_view digits = "0123456789abcdef";
  std::string hex;
  for (unsigned int i = 0; i < size; ++i) {
    hex += digits[digest.at(i) >> 4U];
    hex += digits[digest.at(i) & 0xFU];
  }
  return hex;
}

std::string sha256_hex(std::string_view bytes) {
  Sha256 sum;
  sum.add(bytes);
  return sum.hex();
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
