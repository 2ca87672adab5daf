#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/render.hpp"
#include "report/html_style.hpp"
#include "report/render_html_outline.hpp"
#include "report/render_html_picture.hpp"
#include "report/render_html_table.hpp"
#include "report/render_html_text.hpp"
#include "report/text_layout.hpp"

namespace hailwright {

namespace {

using detail::html_element;
using detail::html_escaped;
using detail::is_blank;

/// Collects what stands inside <main>. Our own ids hold an underscore, which those of headings and
/// figures do not.
class Body {
public:
  Body(const Document& document, const detail::Outline& outline)
      : targets_(detail::link_targets(document)), parts_(outline.parts) {}

  void operator()(const Heading& heading) {
    const detail::Part& part = parts_.at(headings_++);
    take_id(part.id);
    std::string attributes = "id=\"" + part.id + '"';
    // For paper, where the sections of several panels have the same names.
    if (!part.of.empty()) attributes += " data-of=\"" + html_escaped(part.of) + '"';
    block(element_of(part.depth), words(heading.text), attributes);
  }

  void operator()(const Paragraph& paragraph) {
    if (!is_blank(paragraph.text)) block("p", words(paragraph.text));
  }

  void operator()(const Facts& facts) {
    if (!facts.items.empty()) block("dl", inside(facts.items));
  }

  void operator()(const Bullets& bullets) {
    if (!bullets.items.empty()) block("ul", inside(bullets.items));
  }

  void operator()(const CautionList& cautions) {
    if (cautions.items.empty()) return;
    std::string items = "\n";
    for (const CautionItem& item : cautions.items)
      items += html_element("li", caution(item)) + '\n';
    block("aside", html_element("ul", items),
          "class=\"cautions\" role=\"note\" aria-label=\"Cautions\"");
  }

  void operator()(const Table& table) {
    const std::string content = detail::html_table(table);
    const detail::TableBox box = detail::table_box(table);
    const std::string attributes = "class=\"" + box.classes + '"';
    if (box.may_scroll) {
      scrolling("div", attributes, "Table", content);
    } else {
      block("div", content, attributes);
    }
    if (table.file.empty()) return;
    if (box.off_paper)
      block("p", html_escaped(table.caption) + std::string(too_wide), "class=\"on-paper\"");
    const Runs line = {{std::string(detail::same_as_file), Tone::plain},
                       {table.file, Tone::plain, table.file}};
    block("p", words(line), "class=\"as-file\"");
  }

  void operator()(const Snippet& snippet) {
    if (snippet.lines.empty()) return;
    std::string lines;
    for (const std::string& line : snippet.lines)
      lines += html_escaped(line) + '\n';
    scrolling("pre", "", "Lines to copy", html_element("code", lines));
  }

  void operator()(const Figure& figure) {
    const std::string drawing = with_its_ids(figure);
    block("figure", drawing, "id=\"" + detail::figure_id(figure.id) + '"');
  }

  void operator()(const Photo& photo) {
    block("figure", detail::html_photograph(photo), "class=\"photo\"");
  }

  void operator()(const Opening& opening) {
    expects(!is_blank(opening.sentence), "an opening with a sentence");
    // Named like a part, so that who goes from heading to heading comes by the verdict.
    const int depth = headings_ == 0 ? 2 : parts_.at(headings_ - 1).depth + 1;
    std::string parts =
        "\n" + html_element(element_of(depth), words(opening.sentence), "class=\"sentence\"");
    if (!opening.facts.empty()) parts += "\n" + html_element("dl", inside(opening.facts));
    const bool pictured = !opening.picture.svg.empty();
    if (pictured) {
      const std::string drawing = with_its_ids(opening.picture);
      parts += "\n" + html_element("figure", drawing,
                                   "id=\"" + detail::figure_id(opening.picture.id) + '"');
    }
    if (!opening.cautions.empty()) {
      parts += "\n" + html_element("aside", html_element("ul", inside(opening.cautions)),
                                   "class=\"cautions\" role=\"note\" "
                                   "aria-label=\"Cautions in short\"");
    }
    block("section", parts + '\n',
          std::string("class=\"opening") + (pictured ? " pictured" : "") + "\"");
  }

  void operator()(const Checklist& list) {
    if (list.items.empty()) return;
    std::string items = "\n";
    for (const Runs& item : list.items) {
      // A real check box is read out as one, can be ticked on a telephone, and prints as a box.
      const std::string box = "<input type=\"checkbox\" />";
      const std::string label = box + html_element("span", words(item));
      items += html_element("li", html_element("label", label)) + '\n';
    }
    block("ol", items, "class=\"checklist\" role=\"list\"");
  }

  void operator()(const PageBreak& /*end*/) { sheet_ended_ = true; }

  /// What came in since it was last taken.
  std::string take() { return std::exchange(out_, {}); }

private:
  static constexpr std::string_view too_wide =
      ": these columns are too many for paper; they are in the file.";

  static std::string element_of(int depth) { return "h" + std::to_string(depth); }

  [[nodiscard]] std::string words(const Runs& text) const {
    return detail::html_words(text, targets_);
  }

  [[nodiscard]] std::string inside(const std::vector<Fact>& facts) const {
    std::string items = "\n";
    for (const Fact& fact : facts) {
      std::string lines = html_element("dt", html_escaped(fact.label));
      for (const Runs& line : fact.lines)
        lines += html_element("dd", words(line));
      if (fact.lines.empty()) lines += "<dd></dd>";
      items += html_element("div", lines) + '\n';
    }
    return items;
  }

  [[nodiscard]] std::string inside(const std::vector<Runs>& bullets) const {
    std::string items = "\n";
    for (const Runs& item : bullets)
      items += html_element("li", words(item)) + '\n';
    return items;
  }

  static std::string caution(const CautionItem& item) {
    expects(!item.title.empty() && !item.text.empty(), "a caution with title and text");
    std::string title = html_element("strong", html_escaped(item.title));
    if (!is_blank(item.id)) title += " (" + html_escaped(item.id) + ')';
    std::string text = html_element("p", title) + html_element("p", html_escaped(item.text));
    if (!is_blank(item.source)) {
      text += html_element("p", "Source: " + html_escaped(item.source), "class=\"source\"");
    }
    return text;
  }

  std::string with_its_ids(const Figure& figure) {
    std::string drawing = detail::html_drawing(figure);
    take_id(detail::figure_id(figure.id));
    for (const std::string& id : detail::ids_in(figure.svg))
      take_id(id);
    return drawing;
  }

  void take_id(const std::string& id) {
    expects(ids_.insert(id).second, "ids of parts and pictures that differ from each other");
  }

  /// What may be too wide for a telephone scrolls in a box of its own, also by keyboard.
  void scrolling(std::string_view name, const std::string& attributes, const std::string& label,
                 const std::string& content) {
    const std::string first = attributes.empty() ? "" : attributes + ' ';
    block(name, content, first + "role=\"group\" tabindex=\"0\" aria-label=\"" + label + '"');
  }

  /// What follows the end of a sheet begins a new one; the end of the last sheet begins none.
  void block(std::string_view name, const std::string& content,
             const std::string& attributes = "") {
    const bool begins_sheet = sheet_ended_ && begun_;
    const std::string gap = attributes.empty() ? "" : " ";
    const std::string more = begins_sheet ? gap + "style=\"break-before: page\"" : "";
    out_ += html_element(name, content, attributes + more) + '\n';
    sheet_ended_ = false;
    begun_ = true;
  }

  detail::LinkTargets targets_;
  const std::vector<detail::Part>& parts_;
  std::size_t headings_ = 0;  ///< so far
  std::set<std::string> ids_;
  std::string out_;
  bool begun_ = false;
  bool sheet_ended_ = false;
};

std::string head(const std::string& title) {
  return "<head>\n<meta charset=\"utf-8\" />\n"
         "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src &#39;none&#39;; "
         "style-src &#39;unsafe-inline&#39;; img-src data:; base-uri &#39;none&#39;; "
         "form-action &#39;none&#39;\" />\n"
         "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\" />\n"
         "<meta name=\"color-scheme\" content=\"light dark\" />\n" +
         html_element("title", html_escaped(title)) + "\n<style>\n" + detail::html_style(title) +
         "</style>\n</head>\n";
}

/// What stands in the parts of a page.
struct Page {
  std::string header;   ///< the heading of the page; empty where it stands further down
  std::string opening;  ///< before the contents
  std::string text;
};

template <class Kind>
bool is(const std::vector<Block>& blocks, std::size_t i) {
  return i < blocks.size() && std::holds_alternative<Kind>(blocks[i]);
}

Page page_of(const Document& document, const detail::Outline& outline) {
  Page page;
  Body body(document, outline);
  const std::vector<Block>& blocks = document.blocks;
  std::size_t i = 0;
  if (!outline.first_part_is_title) {
    page.header = html_element("h1", html_escaped(outline.title));
  } else if (is<Heading>(blocks, 0)) {
    std::visit(body, blocks[i++]);
    page.header = body.take();
  }
  if (is<Opening>(blocks, i)) {
    std::visit(body, blocks[i++]);
    page.opening = body.take();
  }
  for (; i < blocks.size(); ++i)
    std::visit(body, blocks[i]);
  page.text = body.take();
  return page;
}

std::string body_classes(bool contents, bool opening) {
  std::string classes = contents ? "with-contents" : "";
  if (opening) classes += contents ? " with-opening" : "with-opening";
  return classes.empty() ? "" : " class=\"" + classes + '"';
}

}  // namespace

std::string render_html(const Document& document) {
  const detail::Outline outline = detail::outline_of(document);
  const Page page = page_of(document, outline);
  const std::string contents = detail::html_contents(outline);

  std::string out = "<!DOCTYPE html>\n<html lang=\"en\">\n" + head(outline.title);
  out += "<body" + body_classes(!contents.empty(), !page.opening.empty()) + ">\n";
  if (!page.header.empty()) out += html_element("header", page.header) + '\n';
  out += "<main>\n" + page.opening;
  if (!contents.empty()) {
    out += "<a class=\"skip\" href=\"#the_text\">Skip the contents</a>\n" + contents;
  }
  out += html_element("div", '\n' + page.text, "class=\"text\" id=\"the_text\" tabindex=\"-1\"");
  out += "\n</main>\n";
  if (!is_blank(document.foot)) {
    const std::string foot = html_element("p", html_escaped(document.foot));
    out += html_element("div", foot, "class=\"reserve\" aria-hidden=\"true\"") + '\n';
    out += html_element("footer", foot) + '\n';
  }
  return out + "</body>\n</html>\n";
}

}  // namespace hailwright
