#include "report/readings_yaml_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/text_layout.hpp"

namespace hailwright {

namespace {

bool letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// Words that YAML 1.1 or 1.2 take for a value that is no text. Source: yaml.org/type/bool.html and
/// null.html [from memory].
bool means_something(std::string_view text) {
  static constexpr std::array<std::string_view, 9> words{"y",    "n",     "yes", "no",  "on",
                                                         "true", "false", "off", "null"};
  std::string lower(text);
  std::transform(lower.begin(), lower.end(), lower.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return std::find(words.begin(), words.end(), lower) != words.end();
}

/// A letter first, then letters, digits, and single marks that mean nothing inside of a word.
bool plain_is_clear(std::string_view text) {
  if (text.empty() || !letter(text.front()) || text.back() == ' ' || means_something(text)) {
    return false;
  }
  return std::all_of(text.begin(), text.end(), [](char c) {
    return letter(c) || (c >= '0' && c <= '9') || c == ' ' || c == '.' || c == '_' || c == '-' ||
           c == '/';
  });
}

std::string escaped(char32_t code) {
  const auto number = static_cast<std::uint32_t>(code);
  if (number <= 0xFF) return fmt::format("\\x{:02X}", number);
  if (number <= 0xFFFF) return fmt::format("\\u{:04X}", number);
  return fmt::format("\\U{:08X}", number);
}

}  // namespace

std::string yaml_text(std::string_view text) {
  if (plain_is_clear(text)) return std::string(text);
  std::string out = "\"";
  for (std::size_t at = 0; at < text.size();) {
    const detail::Character c = detail::character_at(text, at);
    const std::string_view bytes = text.substr(at, c.length);
    at += c.length;
    if (bytes == "\"" || bytes == "\\") {
      out += '\\';
      out += bytes;
    } else if (c.code == U'?' && bytes != "?") {
      out += '?';
    } else if (detail::printable(bytes) != bytes) {
      out += escaped(c.code);
    } else {
      out += bytes;
    }
  }
  return out + '"';
}

std::string_view key_of(LogPlace place) {
  switch (place) {
  case LogPlace::before:
    return "before";
  case LogPlace::after:
    return "after";
  case LogPlace::sessions:
    break;
  }
  return "sessions";
}

}  // namespace hailwright
