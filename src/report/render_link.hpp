#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/report/document.hpp"

namespace hailwright::detail {

enum class LinkKind {
  none,    ///< words alone
  web,     ///< "https://..."
  within,  ///< "#id" of a block of this document
  beside   ///< a file below the document: "photos/1-look-2.jpg"
};

/// What a run's link leads to. Contract: nothing but these. An address holds only characters of
/// RFC 3986 (section 2, from memory); a path none that steers, is not absolute, has neither "." nor
/// ".." nor an empty name in it, and no colon before the first slash, where it would name a scheme.
LinkKind link_kind(std::string_view link);

/// A file's path as a relative address: all but letters, digits and - . _ ~ / as per cent and two
/// digits (RFC 3986, sections 2.1 and 2.3, from memory).
std::string path_address(std::string_view path);

/// The ids that "#id" may lead to: those that headings were given, and those of pictures.
struct LinkTargets {
  std::set<std::string, std::less<>> headings;
  std::set<std::string, std::less<>> pictures;
  /// Contract: the id is one of these.
  void expect(std::string_view id) const;
};
/// Contract: no id twice; ids of letters, digits and -.
LinkTargets link_targets(const Document& document);

/// What stands in front of `Table::file`.
constexpr std::string_view same_as_file = "All columns as a file: ";

/// Runs that follow each other and lead to the same place, or nowhere.
struct LinkedRuns {
  std::string link;
  Runs runs;
};
std::vector<LinkedRuns> by_link(const Runs& text);

/// Whether the words hold the address that they lead to, with its scheme or without.
bool says_where(const LinkedRuns& linked);

/// Of a to z, A to Z and 0 to 9.
inline bool is_letter_or_digit(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

/// Whether a text is a name of letters, digits and - : an id, a file's name without its ending.
bool is_plain_name(std::string_view text);

}  // namespace hailwright::detail
