#include <algorithm>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/render.hpp"
#include "report/html_style.hpp"
#include "report/text_layout.hpp"

namespace hailwright {

namespace {

/// The text such that it can stand between tags and in quotes. Two characters that XML forbids
/// (XML 1.0, production 2, from memory) come out as '?', like those of `printable`.
std::string escaped(std::string_view raw) {
  const std::string text = detail::printable(raw);
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const detail::Character c = detail::character_at(text, i);
    switch (c.code) {
    case U'&':
      out += "&amp;";
      break;
    case U'<':
      out += "&lt;";
      break;
    case U'>':
      out += "&gt;";
      break;
    case U'"':
      out += "&quot;";
      break;
    case U'\'':
      out += "&#39;";
      break;
    case 0xFFFE:
    case 0xFFFF:
      out += '?';
      break;
    default:
      out += text.substr(i, c.length);
    }
    i += c.length;
  }
  return out;
}

bool is_blank(const Runs& text) {
  return detail::one_line(text).empty();
}

bool is_blank(std::string_view text) {
  return detail::one_line(text).empty();
}

std::string tag(std::string_view name, const std::string& inside,
                std::string_view attributes = "") {
  std::string out = "<" + std::string(name);
  if (!attributes.empty()) out += ' ' + std::string(attributes);
  return out + '>' + inside + "</" + std::string(name) + '>';
}

/// Every tone but plain is bold; bad and open are underlined each in its own way, so that none
/// needs its colour.
std::string_view class_of(Tone tone) {
  switch (tone) {
  case Tone::plain:
  case Tone::strong:
    return "";
  case Tone::good:
    return "class=\"good\"";
  case Tone::bad:
    return "class=\"bad\"";
  case Tone::open:
    return "class=\"open\"";
  }
  return "";
}

std::string words(const Runs& text) {
  std::string out;
  for (const Run& run : text) {
    if (run.text.empty()) continue;
    const std::string plain_words = escaped(run.text);
    out += run.tone == Tone::plain ? plain_words : tag("strong", plain_words, class_of(run.tone));
  }
  return out;
}

std::string words_alone(const Runs& text) {
  std::string out;
  for (const Run& run : detail::one_line(text))
    out += run.text;
  return out;
}

/// An entry of the table of contents.
struct Part {
  int level;
  std::string id;
  std::string words;
};

/// A form that would leave much of a sheet empty may run on to the next one.
const char* form_class(const Table& table) {
  constexpr std::size_t long_form = 16;
  if (!table.to_fill_in) return "";
  return table.rows.size() > long_form ? "class=\"form long\"" : "class=\"form\"";
}

/// Collects what stands inside <main>. Our own ids hold an underscore, which those of figures do
/// not.
class Body {
public:
  Body(int top, bool titled) : top_level_(top), base_(titled ? 1 : 0), depth_(base_) {}

  void operator()(const Heading& heading) {
    expects(heading.level >= 1 && heading.level <= 3, "a heading of level 1 to 3");
    // A level left out would be a hole for whoever goes from heading to heading.
    depth_ = std::min(base_ + heading.level - top_level_ + 1, depth_ + 1);
    const std::string id = "part_" + std::to_string(parts_.size() + 1);
    parts_.push_back({depth_, id, words_alone(heading.text)});
    block("h" + std::to_string(depth_), words(heading.text), "id=\"" + id + '"');
  }

  void operator()(const Paragraph& paragraph) {
    if (!is_blank(paragraph.text)) block("p", words(paragraph.text));
  }

  void operator()(const Facts& facts) {
    if (facts.items.empty()) return;
    std::string inside = "\n";
    for (const Fact& fact : facts.items) {
      std::string lines = tag("dt", escaped(fact.label));
      for (const Runs& line : fact.lines)
        lines += tag("dd", words(line));
      if (fact.lines.empty()) lines += "<dd></dd>";
      inside += tag("div", lines) + '\n';
    }
    block("dl", inside);
  }

  void operator()(const Bullets& bullets) {
    if (bullets.items.empty()) return;
    std::string inside = "\n";
    for (const Runs& item : bullets.items)
      inside += tag("li", words(item)) + '\n';
    block("ul", inside);
  }

  void operator()(const CautionList& cautions) {
    if (cautions.items.empty()) return;
    std::string inside = "\n";
    for (const CautionItem& item : cautions.items) {
      expects(!item.title.empty() && !item.text.empty(), "a caution with title and text");
      std::string title = tag("strong", escaped(item.title));
      if (!is_blank(item.id)) title += " (" + escaped(item.id) + ')';
      std::string text = tag("p", title) + tag("p", escaped(item.text));
      if (!is_blank(item.source))
        text += tag("p", "Source: " + escaped(item.source), "class=\"source\"");
      inside += tag("li", text) + '\n';
    }
    block("aside", tag("ul", inside), "class=\"cautions\" role=\"note\" aria-label=\"Cautions\"");
  }

  void operator()(const Table& table) {
    expects(!table.columns.empty(), "a table with columns");
    const bool captioned = !is_blank(table.caption);
    std::string inside;
    if (captioned) inside += "\n" + tag("caption", escaped(table.caption));
    const bool titled = std::any_of(table.columns.begin(), table.columns.end(),
                                    [](const Column& c) { return !is_blank(c.title); });
    if (titled) inside += "\n" + tag("thead", head_row(table));
    const bool named = titled && rows_have_names(table);
    std::string rows = "\n";
    for (const auto& row : table.rows) {
      expects(row.size() == table.columns.size(), "as many cells as columns");
      std::string cells;
      for (std::size_t c = 0; c < row.size(); ++c)
        cells += cell(c == 0 && named, table.columns[c], row[c]);
      rows += tag("tr", cells) + '\n';
    }
    if (table.rows.empty()) {
      rows +=
          tag("tr", tag("td", "(no rows)",
                        "class=\"none\" colspan=\"" + std::to_string(table.columns.size()) + '"')) +
          '\n';
    }
    inside += "\n" + tag("tbody", rows) + '\n';
    scrolling("div", "class=\"scroll\"", captioned ? escaped(table.caption) : "Table",
              tag("table", inside, form_class(table)));
  }

  void operator()(const Snippet& snippet) {
    if (snippet.lines.empty()) return;
    std::string lines;
    for (const std::string& line : snippet.lines)
      lines += escaped(line) + '\n';
    scrolling("pre", "", "Lines to copy", tag("code", lines));
  }

  void operator()(const Figure& figure) {
    expects(!figure.title.empty(), "a figure with a title");
    expects(!figure.id.empty() && std::all_of(figure.id.begin(), figure.id.end(), names_a_file),
            "a figure's id of letters, digits and -");
    expects(std::string_view(figure.svg).starts_with("<svg"), "a figure's picture is an svg");
    take_id(figure.id + "_figure");
    for (const std::string& id : ids_of(figure.svg))
      take_id(id);
    const std::string seen = is_blank(figure.description) ? figure.title : figure.description;
    const std::string picture = tag(
        "div", figure.svg, "class=\"picture\" role=\"img\" aria-label=\"" + escaped(seen) + '"');
    block("figure", '\n' + picture + '\n' + tag("figcaption", escaped(figure.title)) + '\n',
          "id=\"" + figure.id + "_figure\"");
  }

  void operator()(const Checklist& list) {
    if (list.items.empty()) return;
    std::string inside = "\n";
    for (const Runs& item : list.items) {
      // A real check box is read out as one, can be ticked on a telephone, and prints as a box.
      const std::string box = "<input type=\"checkbox\" />";
      inside += tag("li", tag("label", box + tag("span", words(item)))) + '\n';
    }
    block("ol", inside, "class=\"checklist\" role=\"list\"");
  }

  void operator()(const PageBreak& /*end*/) { sheet_ended_ = true; }

  [[nodiscard]] const std::vector<Part>& parts() const { return parts_; }
  std::string finish() { return std::move(out_); }

private:
  static bool names_a_file(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-';
  }

  static std::vector<std::string> ids_of(std::string_view svg) {
    constexpr std::string_view mark = " id=\"";
    std::vector<std::string> ids;
    for (std::size_t at = svg.find(mark); at != std::string_view::npos; at = svg.find(mark, at)) {
      at += mark.size();
      ids.emplace_back(svg.substr(at, svg.find('"', at) - at));
    }
    return ids;
  }

  void take_id(const std::string& id) {
    expects(ids_.insert(id).second, "ids of pictures that differ from each other");
  }

  static std::string head_row(const Table& table) {
    std::string cells;
    for (const Column& column : table.columns) {
      const bool right = column.align == Align::right;
      if (is_blank(column.title)) {
        cells += tag("td", "");
      } else {
        cells += tag("th", escaped(column.title),
                     right ? "scope=\"col\" class=\"number\"" : "scope=\"col\"");
      }
    }
    return tag("tr", cells);
  }

  /// Whether the first cell of a row says which row it is.
  static bool rows_have_names(const Table& table) {
    std::set<std::string> names;
    return std::all_of(table.rows.begin(), table.rows.end(), [&](const auto& row) {
      return !row.empty() && !is_blank(row.front()) && names.insert(row.front()).second;
    });
  }

  static std::string cell(bool name, const Column& column, std::string_view text) {
    std::string attributes = name ? "scope=\"row\"" : "";
    if (column.align == Align::right) {
      attributes += name ? " class=\"number\"" : "class=\"number\"";
    }
    return tag(name ? "th" : "td", escaped(text), attributes);
  }

  /// What may be too wide for a telephone scrolls in a box of its own, also by keyboard.
  void scrolling(std::string_view name, const std::string& attributes, const std::string& label,
                 const std::string& inside) {
    const std::string first = attributes.empty() ? "" : attributes + ' ';
    block(name, inside, first + "role=\"group\" tabindex=\"0\" aria-label=\"" + label + '"');
  }

  /// What follows the end of a sheet begins a new one; the end of the last sheet begins none.
  void block(std::string_view name, const std::string& inside, const std::string& attributes = "") {
    const bool begins_sheet = sheet_ended_ && !out_.empty();
    const std::string gap = attributes.empty() ? "" : " ";
    const std::string more = begins_sheet ? gap + "style=\"break-before: page\"" : "";
    out_ += tag(name, inside, attributes + more) + '\n';
    sheet_ended_ = false;
  }

  std::string out_;
  std::vector<Part> parts_;
  std::set<std::string> ids_;
  int top_level_;
  int base_;   ///< 1 when the title took the first level
  int depth_;  ///< of the last heading
  bool sheet_ended_ = false;
};

/// A table of contents where three or more parts make it worth its room. With several headings of
/// the first level these are in it too.
std::string contents(const std::vector<Part>& parts) {
  constexpr int enough = 3;  // [ours]
  const auto count = [&](int level) {
    return std::count_if(parts.begin(), parts.end(),
                         [=](const Part& part) { return part.level == level; });
  };
  if (count(2) < enough) return {};
  const bool with_first = count(1) > 1;
  std::string items = "\n";
  for (const Part& part : parts) {
    if (part.level > 2 || (part.level == 1 && !with_first)) continue;
    const bool under = with_first && part.level == 2;
    items += tag("li", tag("a", escaped(part.words), "href=\"#" + part.id + '"'),
                 under ? "class=\"under\"" : "") +
             '\n';
  }
  return tag("nav", tag("h2", "Contents", "id=\"the_contents\"") + '\n' + tag("ol", items) + '\n',
             "aria-labelledby=\"the_contents\"") +
         '\n';
}

std::string head(const std::string& title) {
  return "<head>\n<meta charset=\"utf-8\" />\n"
         "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src &#39;none&#39;; "
         "style-src &#39;unsafe-inline&#39;; img-src data:; base-uri &#39;none&#39;; "
         "form-action &#39;none&#39;\" />\n"
         "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\" />\n"
         "<meta name=\"color-scheme\" content=\"light dark\" />\n" +
         tag("title", escaped(title)) + "\n<style>\n" + detail::html_style(title) +
         "</style>\n</head>\n";
}

}  // namespace

std::string render_html(const Document& document) {
  const bool titled = !is_blank(document.title);
  Body body(detail::top_level(document), titled);
  for (const Block& block : document.blocks)
    std::visit(body, block);
  const std::vector<Part>& parts = body.parts();
  const std::string named_after_part = parts.empty() ? "" : parts.front().words;
  const std::string title = titled ? detail::one_line(document.title) : named_after_part;
  const std::string nav = contents(parts);

  std::string out = "<!DOCTYPE html>\n<html lang=\"en\">\n";
  out += head(title.empty() ? "hailwright" : title);
  out += nav.empty() ? "<body>\n" : "<body class=\"with-contents\">\n";
  out += "<a class=\"skip\" href=\"#the_text\">Skip to the text</a>\n";
  if (titled) out += tag("header", tag("h1", escaped(title))) + '\n';
  out += nav;
  out += tag("main", '\n' + body.finish(), "id=\"the_text\" tabindex=\"-1\"") + '\n';
  if (!is_blank(document.foot)) {
    const std::string foot = tag("p", escaped(document.foot));
    out += tag("div", foot, "class=\"reserve\" aria-hidden=\"true\"") + '\n';
    out += tag("footer", foot) + '\n';
  }
  return out + "</body>\n</html>\n";
}

}  // namespace hailwright
