#include "input/yaml_scalar.hpp"

#include <algorithm>
#include <optional>

namespace hailwright::input {

Places::Places(std::uint32_t file, std::string_view text) : file_(file), text_(text) {
  characters_.reserve(text.size() + 1);
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    characters_.push_back(count);
    count += count_characters(text.substr(i, 1));
    if (text[i] == '\n') starts_.push_back(i + 1);
  }
  characters_.push_back(count);
}

std::size_t Places::line_of(std::size_t offset) const {
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
  return static_cast<std::size_t>(after - starts_.begin()) - 1;
}

SourceSpan Places::at(std::size_t offset, std::size_t bytes) const {
  offset = std::min(offset, text_.size());
  const std::size_t line = line_of(offset);
  const std::size_t end = std::min(offset + bytes, text_.size());
  const auto characters = [&](std::size_t from, std::size_t to) {
    return static_cast<int>(characters_[to] - characters_[from]);
  };
  return {file_, static_cast<int>(line) + 1, 1 + characters(starts_[line], offset),
          std::max(1, characters(offset, end))};
}

std::string_view Places::rest_of_line(std::size_t offset) const {
  offset = std::min(offset, text_.size());
  const std::size_t next = line_of(offset) + 1;
  const std::size_t end = next < starts_.size() ? starts_[next] - 1 : text_.size();
  return text_.substr(offset, end - offset);
}

namespace {

/// Bytes of a quoted text up to and with its closing quote; nullopt when its line ends before.
std::optional<std::size_t> quoted_size(std::string_view line) {
  const char quote = line.front();
  for (std::size_t i = 1; i < line.size(); ++i) {
    if (quote == '"' && line[i] == '\\') {
      ++i;
    } else if (line[i] == quote) {
      const bool doubled = quote == '\'' && i + 1 < line.size() && line[i + 1] == quote;
      if (!doubled) return i + 1;
      ++i;
    }
  }
  return std::nullopt;
}

/// The blanks that the first line of a text with something in it begins with.
std::size_t indentation(std::string_view text) {
  while (!text.empty()) {
    const std::string_view line = text.substr(0, std::min(text.find('\n'), text.size()));
    const std::size_t blanks = std::min(line.find_first_not_of(' '), line.size());
    if (blanks < line.size()) return blanks;
    text.remove_prefix(std::min(line.size() + 1, text.size()));
  }
  return 0;
}

void read_quoted(WrittenText& written, const Places& places, std::size_t at) {
  const std::string_view line = places.rest_of_line(at);
  const std::optional<std::size_t> size = quoted_size(line);
  Node& node = written.node;
  node.style = TextStyle::quoted;
  node.span = places.at(at, size.value_or(line.size()));
  written.end = at + size.value_or(line.size());
  written.quote_open = !size;
  if (size && line.substr(1, *size - 2) == node.text) node.text_column = node.span.column + 1;
}

void block(Node& node, const Places& places, std::size_t at) {
  const std::string_view rest = places.rest_of_line(at);
  node.style = rest.front() == '|' ? TextStyle::literal : TextStyle::folded;
  node.span = places.at(at, 1);
  node.block_line = node.span.line + 1;
  const std::size_t below = std::min(at + rest.size() + 1, places.text().size());
  const std::size_t written = indentation(places.text().substr(below));
  const std::size_t kept = indentation(node.text);  // more than 0 after an indicator such as |2
  node.block_column = static_cast<int>(written - std::min(kept, written)) + 1;
}

void plain(Node& node, const Places& places, std::size_t at) {
  const std::string_view line = places.rest_of_line(at);
  if (line.substr(0, node.text.size()) == node.text) {
    node.span = places.at(at, node.text.size());
    node.text_column = node.span.column;
    return;
  }
  const std::size_t last = line.find_last_not_of(" \t");
  node.span = places.at(at, last == std::string_view::npos ? 1 : last + 1);
}

}  // namespace

WrittenText written_text(const Places& places, std::size_t at, const std::string& value) {
  WrittenText written;
  written.node.kind = NodeKind::text;
  written.node.text = value;
  const std::string_view line = places.rest_of_line(at);
  written.end = at + std::min(value.size(), line.size());
  const char first = line.empty() ? '\0' : line.front();
  if (first == '"' || first == '\'') {
    read_quoted(written, places, at);
  } else if (first == '|' || first == '>') {
    block(written.node, places, at);
  } else {
    plain(written.node, places, at);
  }
  return written;
}

}  // namespace hailwright::input
