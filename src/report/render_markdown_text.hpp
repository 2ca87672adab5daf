#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>

#include "hailwright/report/document.hpp"
#include "report/render_link.hpp"

namespace hailwright::detail {

/// The text such that it comes out literally inside a paragraph, heading or cell. Any ASCII
/// punctuation may carry a backslash (CommonMark 0.30, section 2.4, from memory); only what some
/// common flavour would act upon gets one. A bar is written as an entity: not every table reader
/// knows `\|`.
std::string markdown_escaped(std::string_view text);

/// Text that begins a line, such that it begins no list.
std::string at_line_start(std::string line);

/// Where the links of a document lead on its page of Markdown.
class MarkdownLinks {
public:
  explicit MarkdownLinks(const Document& document);

  /// The address of a link; empty where the words must do: no link, a picture, or a heading that
  /// flavours name differently.
  /// Contract: a link as `link_kind` says; "#id" is one of the document's.
  [[nodiscard]] std::string address(std::string_view link) const;

private:
  void take(const std::string& id, const std::string& words);

  LinkTargets targets_;
  std::map<std::string, int> seen_;  ///< how often a heading's name came up
  std::map<std::string, std::string, std::less<>> anchors_;
};

/// Words on one line: those of a tone other than plain are strong where Markdown can write that,
/// those that lead somewhere stand in brackets with the address behind them.
std::string markdown_words(const Runs& text, const MarkdownLinks& links);

}  // namespace hailwright::detail
