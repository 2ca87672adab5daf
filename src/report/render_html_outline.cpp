#include "report/render_html_outline.hpp"

#include <algorithm>
#include <functional>
#include <set>
#include <variant>

#include "hailwright/core/contract.hpp"
#include "report/render_html_picture.hpp"
#include "report/render_html_text.hpp"
#include "report/text_layout.hpp"

namespace hailwright::detail {

namespace {

using Ids = std::set<std::string, std::less<>>;

std::vector<const Heading*> headings_of(const Document& document) {
  std::vector<const Heading*> headings;
  for (const Block& block : document.blocks) {
    if (const auto* heading = std::get_if<Heading>(&block)) {
      expects(heading->level >= 1 && heading->level <= 3, "a heading of level 1 to 3");
      headings.push_back(heading);
    }
  }
  return headings;
}

/// The ids that are given: of headings, and inside drawings.
Ids given_ids(const Document& document) {
  Ids ids;
  for (const Block& block : document.blocks) {
    if (const auto* heading = std::get_if<Heading>(&block)) ids.insert(heading->id);
    const auto* opening = std::get_if<Opening>(&block);
    const auto* figure = opening != nullptr ? &opening->picture : std::get_if<Figure>(&block);
    if (figure == nullptr) continue;
    for (std::string& id : ids_in(figure->svg))
      ids.insert(std::move(id));
  }
  return ids;
}

/// Small letters and digits of the words with - between them.
std::string id_of(std::string_view words) {
  std::string id;
  for (const char c : words) {
    const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const bool kept = (small >= 'a' && small <= 'z') || (small >= '0' && small <= '9');
    if (kept) id += small;
    if (!kept && !id.empty() && id.back() != '-') id += '-';
  }
  if (id.ends_with('-')) id.pop_back();
  return id.empty() ? "part" : id;
}

std::string new_id(const std::string& words, Ids& taken) {
  const std::string first = id_of(words);
  std::string id = first;
  for (int i = 2; !taken.insert(id).second; ++i)
    id = first + '-' + std::to_string(i);
  return id;
}

/// The words of the highest headings that have parts under them.
std::vector<std::string> divided(const std::vector<const Heading*>& headings, int top) {
  std::vector<std::string> words;
  for (std::size_t i = 0; i + 1 < headings.size(); ++i) {
    if (headings[i]->level == top && headings[i + 1]->level > top)
      words.push_back(words_alone(headings[i]->text));
  }
  return words;
}

std::string joined(const std::vector<std::string>& names) {
  if (names.size() == 2) return names[0] + " and " + names[1];
  return names[0] + " and " + std::to_string(names.size() - 1) + " more";
}

bool has_several_openings(const Document& document) {
  return std::count_if(document.blocks.begin(), document.blocks.end(), [](const Block& block) {
           return std::holds_alternative<Opening>(block);
         }) > 1;
}

void place(Outline& outline, const std::vector<const Heading*>& headings, int top, Ids taken) {
  int depth = outline.first_part_is_title ? 0 : 1;
  bool under_title = false;  // parts of the heading that took the title's place
  for (const Heading* heading : headings) {
    const bool is_title = outline.first_part_is_title && outline.parts.empty();
    const bool is_top = heading->level == top;
    if (is_title) under_title = true;
    if (!is_title && is_top) under_title = false;
    const int wanted = heading->level - top + (under_title ? 1 : 2);
    depth = is_title ? 1 : std::max(2, std::min(wanted, depth + 1));
    const std::string words = words_alone(heading->text);
    outline.parts.push_back(
        {depth, heading->id.empty() ? new_id(words, taken) : heading->id, words});
  }
}

/// Each part below one of the second depth is about that.
void name_panels(std::vector<Part>& parts) {
  std::string panel;
  for (Part& part : parts) {
    if (part.depth <= 2) panel = part.words;
    if (part.depth == 3) part.of = panel;
  }
}

}  // namespace

Outline outline_of(const Document& document) {
  const std::vector<const Heading*> headings = headings_of(document);
  const int top = top_level(document);
  const std::vector<std::string> panels = divided(headings, top);
  Outline outline;
  outline.title = one_line(document.title);
  if (outline.title.empty()) {
    if (panels.size() > 1) {
      outline.title = joined(panels);
    } else if (!headings.empty()) {
      outline.title = words_alone(headings.front()->text);
      outline.first_part_is_title = !outline.title.empty();
    }
    if (outline.title.empty()) outline.title = "hailwright";
    if (panels.size() > 1) outline.listed_depth = 3;
  }
  if (has_several_openings(document)) outline.listed_depth = 3;
  outline.several_panels = outline.listed_depth > 2;
  place(outline, headings, top, given_ids(document));
  if (outline.several_panels) name_panels(outline.parts);
  return outline;
}

std::string html_contents(const Outline& outline) {
  constexpr int enough = 3;  // [ours], as is the next
  constexpr int most = 30;   // more than these: the highest alone
  const auto count_to = [&](int depth) {
    return std::count_if(outline.parts.begin(), outline.parts.end(),
                         [&](const Part& part) { return part.depth >= 2 && part.depth <= depth; });
  };
  const int depth = count_to(outline.listed_depth) > most ? 2 : outline.listed_depth;
  std::string items = "\n";
  int listed = 0;
  for (const Part& part : outline.parts) {
    if (part.depth < 2 || part.depth > depth) continue;
    ++listed;
    const std::string link =
        html_element("a", html_escaped(part.words), "href=\"#" + part.id + '"');
    items += html_element("li", link, part.depth > 2 ? "class=\"under\"" : "") + '\n';
  }
  if (listed < enough) return {};
  return html_element("nav",
                      html_element("h2", "Contents", "id=\"the_contents\"") + '\n' +
                          html_element("ol", items) + '\n',
                      std::string("aria-labelledby=\"the_contents\"") +
                          (outline.several_panels ? " class=\"several\"" : "")) +
         '\n';
}

}  // namespace hailwright::detail
