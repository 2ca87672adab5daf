#include "hygiene/rules.hpp"

#include <algorithm>
#include <array>
#include <regex>

namespace hygiene {

namespace {

constexpr std::string_view methods = "docs/methods/";
constexpr std::string_view methods_index = "docs/methods/README.md";

/// What each page says, in this order, so that a reader finds the same thing at the same place.
constexpr std::array<std::string_view, 7> headings{
    "Question",    "Inputs and units", "Formula and source", "Valid range",
    "Uncertainty", "Checked against",  "Do not use when"};

bool is_page(const File& file) {
  return file.path.starts_with(methods) && file.path.ends_with(".md") && file.path != methods_index;
}

struct Heading {
  std::string text;
  std::size_t line;
};

std::vector<Heading> second_level(const File& page) {
  std::vector<Heading> found;
  const std::vector<std::string> lines = lines_of(page.text);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i].starts_with("## ")) found.push_back({lines[i].substr(3), i + 1});
  }
  return found;
}

void check_headings(const File& page, Findings& findings) {
  const std::vector<Heading> found = second_level(page);
  for (std::size_t i = 0; i < std::max(found.size(), headings.size()); ++i) {
    const std::string wanted =
        i < headings.size() ? "\"" + std::string(headings[i]) + "\"" : "no further heading";
    if (i >= found.size()) {
      findings.push_back(place(page.path, lines_of(page.text).size()) + "lacks " + wanted);
      return;
    }
    if (i >= headings.size() || found[i].text != headings[i]) {
      findings.push_back(place(page.path, found[i].line) + "\"" + found[i].text + "\" where " +
                         wanted + " belongs");
      return;
    }
  }
}

/// Files that a page names in backticks as proof: they must be there.
void check_named_files(const Tree& tree, const File& page, Findings& findings) {
  static const std::regex named(R"(`((?:tests|src|include)/[\w./-]+)`)");
  const std::vector<std::string> lines = lines_of(page.text);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    for (std::sregex_iterator it(lines[i].begin(), lines[i].end(), named), end; it != end; ++it) {
      const std::string path = (*it)[1].str();
      if (under(tree, path).empty())
        findings.push_back(place(page.path, i + 1) + "there is no " + path);
    }
  }
}

}  // namespace

Findings check_method_pages(const Tree& tree) {
  Findings findings;
  const File* index = find_file(tree, methods_index);
  for (const File& page : under(tree, methods)) {
    if (!is_page(page)) continue;
    check_headings(page, findings);
    check_named_files(tree, page, findings);
    const std::string link = "](" + page.path.substr(methods.size()) + ")";
    if (index == nullptr || index->text.find(link) == std::string::npos)
      findings.push_back(place(page.path, 1) + "is not in " + std::string(methods_index));
  }
  return findings;
}

Findings check_schemas(const Tree& tree) {
  constexpr std::string_view schemas = "docs/schemas/";
  Findings findings;
  const Tree pages = under(tree, "docs/");
  for (const File& schema : under(tree, schemas)) {
    const std::string link = "](schemas/" + schema.path.substr(schemas.size()) + ")";
    const bool linked = std::any_of(pages.begin(), pages.end(), [&](const File& page) {
      return page.path.ends_with(".md") && page.text.find(link) != std::string::npos;
    });
    if (!linked) findings.push_back(place(schema.path, 1) + "no page of docs links it");
    if (schema.text.find("\"https://json-schema.org/draft/2020-12/schema\"") == std::string::npos)
      findings.push_back(place(schema.path, 1) + "does not say that it is of draft 2020-12");
    if (!schema.text.ends_with("}\n") || schema.text.find('\r') != std::string::npos)
      findings.push_back(place(schema.path, 1) + "does not end in one line break");
  }
  return findings;
}

}  // namespace hygiene
