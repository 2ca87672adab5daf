#include "hygiene/cpp_tokens.hpp"

#include "hygiene/source_tree.hpp"

#include <cctype>
#include <regex>

namespace hygiene {

namespace {

bool is_word_character(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
}

/// Walks once over a source text.
class Scanner {
public:
  explicit Scanner(std::string_view source) : rest_(source) {}

  std::vector<Token> run() {
    while (!rest_.empty()) {
      step();
    }
    return std::move(tokens_);
  }

private:
  void step() {
    if (rest_.starts_with("//")) {
      skip(std::min(rest_.find('\n'), rest_.size()));
    } else if (rest_.starts_with("/*")) {
      const std::size_t end = rest_.find("*/", 2);
      skip(end == std::string_view::npos ? rest_.size() : end + 2);
    } else if (rest_.starts_with("R\"")) {
      raw_text();
    } else if (rest_.front() == '"') {
      quoted_text();
    } else if (rest_.front() == '\'') {
      skip(quoted_length('\''));
    } else if (is_word_character(rest_.front())) {
      word();
    } else {
      if (rest_.front() == '#') {
        if (const std::size_t length = include_length(); length > 0) return skip(length);
      }
      if (std::isspace(static_cast<unsigned char>(rest_.front())) == 0) {
        tokens_.push_back({TokenKind::mark, std::string(1, rest_.front()), line_});
      }
      skip(1);
    }
  }

  /// Length of the line at hand if it is an `#include`, else 0.
  [[nodiscard]] std::size_t include_length() const {
    const std::string_view line = rest_.substr(0, rest_.find('\n'));
    return line.find("include") < line.find_first_of("\"<") ? line.size() : 0;
  }

  void word() {
    std::size_t length = 0;
    // A quote between digits only groups them: 1'000.
    const bool is_number = std::isdigit(static_cast<unsigned char>(rest_.front())) != 0;
    while (length < rest_.size() &&
           (is_word_character(rest_[length]) || (is_number && rest_[length] == '\'')))
      ++length;
    tokens_.push_back({TokenKind::word, std::string(rest_.substr(0, length)), line_});
    skip(length);
  }

  [[nodiscard]] std::size_t quoted_length(char quote) const {
    std::size_t i = 1;
    while (i < rest_.size() && rest_[i] != quote)
      i += rest_[i] == '\\' ? 2 : 1;
    return std::min(i + 1, rest_.size());
  }

  void quoted_text() {
    const std::size_t length = quoted_length('"');
    std::string value;
    for (std::size_t i = 1; i + 1 < length; ++i) {
      if (rest_[i] == '\\' && i + 2 < length) {
        ++i;
        value += rest_[i] == 'n' || rest_[i] == 't' ? ' ' : rest_[i];
      } else {
        value += rest_[i];
      }
    }
    add_text(std::move(value));
    skip(length);
  }

  void raw_text() {
    const std::size_t open = rest_.find('(');
    const std::string close = ")" + std::string(rest_.substr(2, open - 2)) + "\"";
    const std::size_t end = rest_.find(close, open);
    const std::size_t stop = end == std::string_view::npos ? rest_.size() : end;
    add_text(std::string(rest_.substr(open + 1, stop - open - 1)));
    skip(std::min(stop + close.size(), rest_.size()));
  }

  void add_text(std::string value) {
    if (!tokens_.empty() && tokens_.back().kind == TokenKind::text) {
      tokens_.back().value += value;
    } else {
      tokens_.push_back({TokenKind::text, std::move(value), line_});
    }
  }

  void skip(std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
      if (rest_[i] == '\n') ++line_;
    }
    rest_.remove_prefix(count);
  }

  std::string_view rest_;
  std::size_t line_ = 1;
  std::vector<Token> tokens_;
};

}  // namespace

std::vector<Token> cpp_tokens(std::string_view source) {
  return Scanner(source).run();
}

std::vector<Include> includes_of(std::string_view source) {
  static const std::regex pattern(R"re(^\s*#\s*include\s*(["<])([^">]+)[">].*)re");
  std::vector<Include> includes;
  const std::vector<std::string> lines = lines_of(source);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    std::smatch match;
    if (std::regex_match(lines[i], match, pattern)) {
      includes.push_back({match[2].str(), match[1].str() == "<", i + 1});
    }
  }
  return includes;
}

}  // namespace hygiene
