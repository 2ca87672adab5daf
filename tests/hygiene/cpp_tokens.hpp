#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace hygiene {

/// Just enough of C++ to tell words, string literals and punctuation from comments.
enum class TokenKind { word, text, mark };

struct Token {
  TokenKind kind;
  /// For `text`: what stands between the quotes, neighbouring literals joined as the compiler does.
  std::string value;
  std::size_t line;
};

/// The tokens of a source file; comments, `#include` lines and character literals are left out.
std::vector<Token> cpp_tokens(std::string_view source);

/// One `#include`.
struct Include {
  std::string name;  ///< what stands between the quotes or angle brackets
  bool angled;
  std::size_t line;
};
std::vector<Include> includes_of(std::string_view source);

}  // namespace hygiene
