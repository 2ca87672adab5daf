#include "named_parts.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <memory>
#include <utility>

namespace hailwright::fuzzing {

namespace {

constexpr std::string_view marker = "--- ";

std::string plain(const std::string& path) {
  return std::filesystem::path(path).lexically_normal().generic_string();
}

}  // namespace

NamedParts::NamedParts(std::string_view input, std::string main_name)
    : main_name_(std::move(main_name)) {
  std::string* part = &parts_[main_name_];
  std::string_view rest = input;
  while (!rest.empty()) {
    const std::size_t end = std::min(rest.find('\n'), rest.size() - 1) + 1;
    std::string_view line = rest.substr(0, end);
    rest.remove_prefix(end);
    if (!line.starts_with(marker)) {
      *part += line;
      continue;
    }
    line.remove_prefix(marker.size());
    part = &parts_[plain(std::string(line.substr(0, line.find('\n'))))];
    part->clear();
  }
}

void NamedParts::add_unless_there(const std::string& name, std::string_view text) {
  parts_.try_emplace(name, text);
}

const std::string* NamedParts::find(const std::string& path) const {
  const auto found = parts_.find(plain(path));
  return found == parts_.end() ? nullptr : &found->second;
}

Loader NamedParts::loader() const {
  return [this](const std::string& path, std::size_t largest) -> Loaded {
    const std::string* text = find(path);
    if (text == nullptr) return {std::nullopt, "is not there", "check the name"};
    if (text->size() > largest) return {std::nullopt, "is too large", {}};
    return {*text, {}, {}};
  };
}

LogOpener NamedParts::log_opener() const {
  return [this](const std::string& path) -> OpenedLog {
    const std::string* text = find(path);
    if (text == nullptr) return {std::nullopt, "is not there", "check the name"};
    return {bytes_of(*text), {}, {}};
  };
}

LogBytes bytes_of(const std::string& text) {
  constexpr std::size_t piece = 1021;
  LogBytes bytes;
  bytes.read = [&text, at = std::size_t{0}](char* into, std::size_t most) mutable {
    const std::size_t count = std::min({most, piece, text.size() - at});
    if (count > 0) std::memcpy(into, text.data() + at, count);
    at += count;
    return count;
  };
  bytes.problem = [] { return std::string(); };
  return bytes;
}

void say(const Diagnostics& notes, const SourceSet& sources) {
  for (const Diagnostic& note : notes.items())
    require(!note.message.empty() && !note.code.empty(), "a message has words and a code");
  require(notes.empty() || !render_diagnostics(notes, sources).empty(), "messages are rendered");
}

std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

bool one_in(unsigned share, std::string_view input) {
  std::uint64_t hash = 14695981039346656037U;
  for (const char c : input)
    hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211U;
  return (hash >> 32U) % share == 0;
}

void require(bool holds, const char* promise) {
  if (holds) return;
  std::fprintf(stderr, "broken promise: %s\n", promise);
  std::abort();
}

}  // namespace hailwright::fuzzing
