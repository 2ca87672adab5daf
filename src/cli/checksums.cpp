#include "cli/checksums.hpp"

#include <algorithm>
#include <array>
#include <filesystem>
#include <optional>
#include <utility>

namespace hailwright::cli {

namespace {

constexpr std::size_t digits = 64;
constexpr std::string_view between = "  ";

/// What stands for a character of a name after a backslash.
constexpr std::array<std::pair<char, char>, 3> escapes{{{'\\', '\\'}, {'\n', 'n'}, {'\r', 'r'}}};

std::string escaped(const std::string& name) {
  std::string out;
  for (const char c : name) {
    const auto* const found =
        std::find_if(escapes.begin(), escapes.end(), [c](auto e) { return e.first == c; });
    out += found == escapes.end() ? std::string(1, c) : std::string{'\\', found->second};
  }
  return out;
}

std::optional<std::string> unescaped(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\') {
      out += text[i];
      continue;
    }
    if (++i == text.size()) return std::nullopt;
    const char letter = text[i];
    const auto* const found = std::find_if(escapes.begin(), escapes.end(),
                                           [letter](auto e) { return e.second == letter; });
    if (found == escapes.end()) return std::nullopt;
    out += found->first;
  }
  return out;
}

bool stays_inside(const std::string& name) {
  const std::filesystem::path path(name);
  return !name.empty() && path.is_relative() && *path.begin() != "." &&
         std::find(path.begin(), path.end(), "..") == path.end();
}

std::optional<Checksum> read_line(std::string_view line) {
  const bool has_escapes = line.starts_with('\\');
  if (has_escapes) line.remove_prefix(1);
  const std::string_view sum = line.substr(0, digits);
  if (sum.size() < digits || sum.find_first_not_of("0123456789abcdef") != std::string_view::npos)
    return std::nullopt;
  line.remove_prefix(digits);
  if (!line.starts_with(between)) return std::nullopt;
  line.remove_prefix(between.size());
  const auto name = has_escapes ? unescaped(line) : std::string(line);
  if (!name || !stays_inside(*name)) return std::nullopt;
  return Checksum{*name, std::string(sum)};
}

}  // namespace

std::string checksums_text(const std::vector<OutputFile>& files) {
  std::string text;
  for (const OutputFile& file : files) {
    const std::string name = escaped(file.name);
    if (name != file.name) text += '\\';
    text += sha256_of(file);
    text += between;
    text += name;
    text += '\n';
  }
  return text;
}

std::vector<Checksum> read_checksums(std::string_view text) {
  std::vector<Checksum> sums;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    if (auto sum = read_line(text.substr(0, end))) sums.push_back(std::move(*sum));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return sums;
}

}  // namespace hailwright::cli
