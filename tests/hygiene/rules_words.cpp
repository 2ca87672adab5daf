#include "hygiene/cpp_tokens.hpp"
#include "hygiene/rules.hpp"

#include <map>
#include <regex>
#include <set>

#include "support/never_printed.hpp"

namespace hygiene {

namespace {

constexpr std::string_view allowed_words = "tests/hygiene/allowed_words.txt";

struct CitationId {
  std::string id;
  std::string where;
};

bool is_mark(const Token& token, char c) {
  return token.kind == TokenKind::mark && token.value.front() == c;
}

/// Ids between one word `Citation` and the end of its statement: `.id = "x"`, or the text that
/// opens a brace.
void collect_ids(const File& file, const std::vector<Token>& tokens, std::size_t start,
                 std::vector<CitationId>& ids) {
  int depth = 0;
  for (std::size_t i = start; i < tokens.size(); ++i) {
    const Token& token = tokens[i];
    if (is_mark(token, '{')) ++depth;
    if (is_mark(token, '}')) --depth;
    if (depth < 0 || (depth == 0 && (is_mark(token, ';') || is_mark(token, ')')))) return;
    if (token.kind != TokenKind::text || depth == 0) continue;
    const bool opens = is_mark(tokens[i - 1], '{');
    const bool named = i >= 3 && is_mark(tokens[i - 1], '=') && tokens[i - 2].value == "id" &&
                       is_mark(tokens[i - 3], '.');
    if (opens || named) ids.push_back({token.value, place(file.path, token.line)});
  }
}

std::vector<CitationId> citation_ids(const Tree& tree) {
  std::map<std::string, CitationId> by_place;  // nested mentions see the same id twice
  for (const File& file : under(tree, "src/")) {
    const std::vector<Token> tokens = cpp_tokens(file.text);
    for (std::size_t i = 0; i < tokens.size(); ++i) {
      if (tokens[i].kind != TokenKind::word || tokens[i].value != "Citation") continue;
      std::vector<CitationId> ids;
      collect_ids(file, tokens, i + 1, ids);
      for (CitationId& found : ids) {
        const std::string key = found.where + found.id;
        by_place.emplace(key, std::move(found));
      }
    }
  }
  std::vector<CitationId> ids;
  for (auto& [key, found] : by_place)
    ids.push_back(std::move(found));
  return ids;
}

const std::vector<std::regex>& claims() {
  static const std::vector<std::regex> patterns = [] {
    std::vector<std::regex> made;
    for (const NeverPrinted& phrase : never_printed)
      made.emplace_back(phrase.pattern, std::regex::icase);
    return made;
  }();
  return patterns;
}

/// One sentence that may hold such words, and where.
struct Allowed {
  std::string path;
  std::string sentence;
  std::string where;
  bool needed = false;
};

std::vector<Allowed> read_allowed(const Tree& tree, Findings& findings) {
  std::vector<Allowed> allowed;
  const File* list = find_file(tree, allowed_words);
  if (list == nullptr) return allowed;
  const std::vector<std::string> lines = lines_of(list->text);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i].empty() || lines[i].front() == '#') continue;
    static const std::regex entry(R"((\S+) \| (.*\S) \| \S.*)");
    std::smatch match;
    const std::string where = place(list->path, i + 1);
    if (std::regex_match(lines[i], match, entry)) {
      allowed.push_back({match[1].str(), match[2].str(), where});
    } else {
      findings.push_back(where + "is not \"path | words | reason\"");
    }
  }
  return allowed;
}

/// The text with every allowed sentence of this file taken out of it.
std::string without_allowed(std::string text, const std::string& path,
                            std::vector<Allowed>& allowed) {
  for (Allowed& one : allowed) {
    if (one.path != path) continue;
    for (std::size_t at = text.find(one.sentence); at != std::string::npos;
         at = text.find(one.sentence)) {
      text.replace(at, one.sentence.size(), "...");
      one.needed = true;
    }
  }
  return text;
}

}  // namespace

std::size_t count_citations(const Tree& tree) {
  return citation_ids(tree).size();
}

Findings check_citation_ids(const Tree& tree) {
  Findings findings;
  std::map<std::string, std::string> first;
  for (const CitationId& found : citation_ids(tree)) {
    const auto [it, is_new] = first.emplace(found.id, found.where);
    if (!is_new) {
      findings.push_back(found.where + "citation id \"" + found.id + "\" is also at " + it->second);
    }
  }
  return findings;
}

Findings check_claims(const Tree& tree) {
  Findings findings;
  std::vector<Allowed> allowed = read_allowed(tree, findings);
  for (const File& file : under(tree, "src/")) {
    for (const Token& token : cpp_tokens(file.text)) {
      if (token.kind != TokenKind::text) continue;
      const std::string text = without_allowed(token.value, file.path, allowed);
      for (const std::regex& claim : claims()) {
        std::smatch match;
        if (std::regex_search(text, match, claim)) {
          findings.push_back(place(file.path, token.line) + "claims \"" + match.str() + "\"");
        }
      }
    }
  }
  for (const Allowed& one : allowed) {
    if (!one.needed) findings.push_back(one.where + "allows what nobody says");
  }
  return findings;
}

}  // namespace hygiene
