#include "report/html_style.hpp"

#include <fmt/format.h>

#include <utility>

#include "report/html_style_rules.hpp"
#include "report/text_layout.hpp"

namespace hailwright::detail {

namespace {

constexpr Palette light{.paper = "#ffffff",
                        .tint = "#f0f0ee",
                        .ink = "#15181c",
                        .quiet = "#4d545c",
                        .rule = "#cbccca",
                        .accent = "#9a5a00",
                        .good = "#0d5468",
                        .bad = "#8a2f25",
                        .open = "#574785",
                        .picture = "#ffffff",
                        .picture_ink = "#15181c"};
constexpr Palette dark{.paper = "#14181d",
                       .tint = "#1f252c",
                       .ink = "#e4e6e8",
                       .quiet = "#a7b0ba",
                       .rule = "#3b434d",
                       .accent = "#f0b45a",
                       .good = "#86ccd8",
                       .bad = "#f0a898",
                       .open = "#c4b6ef",
                       .picture = "#ffffff",
                       .picture_ink = "#1c232d"};
constexpr Palette paper{.paper = "#ffffff",
                        .tint = "#ffffff",
                        .ink = "#000000",
                        .quiet = "#3d434b",
                        .rule = "#9a9a9a",
                        .accent = "#000000",
                        .good = "#000000",
                        .bad = "#000000",
                        .open = "#000000",
                        .picture = "#ffffff",
                        .picture_ink = "#000000"};

std::string variables(const Palette& p, std::string_view scheme) {
  return fmt::format(":root {{ color-scheme: {}; --paper: {}; --tint: {}; --ink: {}; --quiet: {}; "
                     "--rule: {}; --accent: {}; --good: {}; --bad: {}; --open: {}; --picture: {}; "
                     "--picture-ink: {}; }}\n",
                     scheme, p.paper, p.tint, p.ink, p.quiet, p.rule, p.accent, p.good, p.bad,
                     p.open, p.picture, p.picture_ink);
}

/// A CSS string. All but letters, digits and blanks is written as a code point and the blank that
/// ends it, so that no text can end the string or the element it stands in (CSS Syntax 3,
/// section 4.3.7, from memory).
std::string css_string(std::string_view raw) {
  const std::string text = one_line(raw);
  std::string out = "\"";
  for (std::size_t i = 0; i < text.size();) {
    const Character c = character_at(text, i);
    const bool letter = (c.code >= U'a' && c.code <= U'z') || (c.code >= U'A' && c.code <= U'Z');
    if (letter || (c.code >= U'0' && c.code <= U'9') || c.code == U' ') {
      out += text[i];
    } else {
      out += fmt::format("\\{:x} ", static_cast<unsigned>(c.code));
    }
    i += c.length;
  }
  return out + '"';
}

/// The title as far as it fits on the line that runs over every sheet; the first sheet has all.
std::string shortened(std::string_view title) {
  constexpr int room = 80;  // columns of small type beside the page number [ours]
  std::string text = one_line(title);
  if (display_width(text) <= room) return text;
  std::string out;
  int used = 0;
  for (std::size_t i = 0; used < room - 3;) {
    const Character c = character_at(text, i);
    out += text.substr(i, c.length);
    used += character_width(c.code);
    i += c.length;
  }
  if (const std::size_t end = out.rfind(' '); end != std::string::npos && end > out.size() / 2)
    out.resize(end);
  return out + "...";
}

constexpr std::string_view paper_size = R"css(
@page { margin: 17mm 15mm 13mm; }
)css";

}  // namespace

const Palette& light_palette() {
  return light;
}

const Palette& dark_palette() {
  return dark;
}

const Palette& paper_palette() {
  return paper;
}

std::vector<ColourPair> colour_pairs(const Palette& p) {
  return {{"text", p.ink, p.paper, true},
          {"text of cautions and heads of tables", p.ink, p.tint, true},
          {"captions, labels and the foot", p.quiet, p.paper, true},
          {"sources of cautions", p.quiet, p.tint, true},
          {"lines under links", p.accent, p.paper, false},
          {"lines under links in cautions", p.accent, p.tint, false},
          {"good", p.good, p.paper, true},
          {"good in cautions", p.good, p.tint, true},
          {"bad", p.bad, p.paper, true},
          {"bad in cautions", p.bad, p.tint, true},
          {"open", p.open, p.paper, true},
          {"open in cautions", p.open, p.tint, true},
          {"words on pictures", p.picture_ink, p.picture, true},
          {"boxes to tick and forms", p.quiet, p.paper, false},
          {"the focus", p.accent, p.paper, false},
          {"the focus on lines to copy", p.accent, p.tint, false}};
}

std::string html_style(std::string_view running_title) {
  std::string out = variables(light, "light");
  out += "@media (prefers-color-scheme: dark) {\n" + variables(dark, "dark") + "}\n";
  out += page_rules();
  out += block_rules();
  out += opening_rules();
  out += "@media print {\n" + variables(paper, "light");
  out += paper_rules();
  out += "}\n";
  out += paper_size.substr(1);
  // Margin boxes: Chromium from 131 on; other browsers leave them out.
  const std::string look = "font: 8.5pt sans-serif; color: #000000; vertical-align: bottom; "
                           "padding-bottom: 4mm; white-space: nowrap;";
  out += fmt::format("@page {{ @top-left {{ content: {}; width: 75%; text-align: left; {} }} "
                     "@top-right {{ content: counter(page) \" / \" counter(pages); {} }} }}\n"
                     "@page :first {{ @top-left {{ content: \"\"; }} }}\n",
                     css_string(shortened(running_title)), look, look);
  return out;
}

}  // namespace hailwright::detail
