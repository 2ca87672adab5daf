#include "core/utf8.hpp"

#include "hailwright/core/contract.hpp"

namespace hailwright::detail {

namespace {

/// The bytes that a leading byte announces; 0 for a byte that cannot lead.
std::size_t announced_size(unsigned char lead) {
  if (lead < 0x80U) return 1;
  if (lead >= 0xC2U && lead <= 0xDFU) return 2;
  if (lead >= 0xE0U && lead <= 0xEFU) return 3;
  if (lead >= 0xF0U && lead <= 0xF4U) return 4;
  return 0;
}

}  // namespace

Utf8Character utf8_at(std::string_view text, std::size_t offset) {
  expects(offset < text.size(), "a character within the text");
  const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(text[offset + k]); };
  const std::size_t size = announced_size(byte(0));
  if (size == 1) return {1, byte(0)};
  if (size == 0 || size > text.size() - offset) return {};
  char32_t code = byte(0) & (0x7FU >> size);
  for (std::size_t k = 1; k < size; ++k) {
    if ((byte(k) & 0xC0U) != 0x80U) return {};
    code = (code << 6U) | (byte(k) & 0x3FU);
  }
  const bool overlong = (size == 3 && code < 0x800U) || (size == 4 && code < 0x10000U);
  const bool surrogate = code >= 0xD800U && code <= 0xDFFFU;
  if (overlong || surrogate || code > 0x10FFFFU) return {};
  return {size, code};
}

bool steers(char32_t code) {
  return code < 0x20U || (code >= 0x7FU && code <= 0x9FU) || (code >= 0x202AU && code <= 0x202EU) ||
         (code >= 0x2066U && code <= 0x2069U);
}

std::string without_steering(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const Utf8Character c = utf8_at(text, at);
    if (c.code == U'\t') {
      out += ' ';
    } else if (c.size == 0 || steers(c.code)) {
      out += '?';
    } else {
      out += text.substr(at, c.size);
    }
    at += c.size == 0 ? 1 : c.size;
  }
  return out;
}

}  // namespace hailwright::detail
