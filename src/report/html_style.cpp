#include "report/html_style.hpp"

#include <fmt/format.h>

#include <utility>

#include "report/text_layout.hpp"

namespace hailwright::detail {

namespace {

constexpr Palette light{.paper = "#fcfbf8",
                        .tint = "#f1efe8",
                        .ink = "#1c232d",
                        .quiet = "#525b67",
                        .rule = "#cfcdc4",
                        .accent = "#1d4f74",
                        .good = "#0d5468",
                        .bad = "#8a2f25",
                        .open = "#574785",
                        .picture = "#ffffff",
                        .picture_ink = "#1c232d"};
constexpr Palette dark{.paper = "#14181d",
                       .tint = "#1f252c",
                       .ink = "#e4e6e8",
                       .quiet = "#a7b0ba",
                       .rule = "#3b434d",
                       .accent = "#93c4e2",
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
  const std::string text = one_line(title);
  if (display_width(text) <= room) return text;
  std::string out;
  int used = 0;
  for (std::size_t i = 0; used < room - 3;) {
    const Character c = character_at(text, i);
    out += text.substr(i, c.length);
    used += character_width(c.code);
    i += c.length;
  }
  return out + "...";
}

constexpr std::string_view text_rules = R"css(
*, *::before, *::after { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0 auto; padding: 1.5rem 1.25rem 3rem; max-width: 64rem; background: var(--paper);
  color: var(--ink); font-family: Charter, "Iowan Old Style", "Palatino Linotype", Palatino, Georgia,
  serif; font-size: 1.0625rem; line-height: 1.6; overflow-wrap: break-word; }
h1, h2, h3, h4 { line-height: 1.25; margin: 2.2em 0 0.6em; max-width: 44rem; text-wrap: balance; }
h1 { font-size: 2rem; }
h2 { font-size: 1.45rem; }
h3 { font-size: 1.15rem; }
h4 { font-size: 1.0625rem; font-style: italic; }
header h1, .text > h1:first-child { margin-top: 0.4em; }
.text > h2:first-child { margin-top: 0; }
h1 + h2, h2 + h3, h3 + h4 { margin-top: 0.8em; }
p, ul, ol, dl, figure, aside, pre, .scroll { margin: 0 0 1.1em; }
p, ul, ol, aside { max-width: 44rem; }
li { margin-bottom: 0.35em; }
a { color: var(--accent); text-underline-offset: 0.15em; }
a:focus-visible, [tabindex]:focus-visible, input:focus-visible {
  outline: 3px solid var(--accent); outline-offset: 3px; }
.text:focus { outline: none; }
.skip { position: absolute; left: 1rem; top: -10rem; padding: 0.5rem 1rem;
  background: var(--paper); border: 2px solid var(--accent); z-index: 1; }
.skip:focus { top: 0.5rem; }
.good, .bad, .open { text-decoration-thickness: 0.09em; text-underline-offset: 0.2em; }
.good { color: var(--good); }
.bad { color: var(--bad); text-decoration-line: underline; text-decoration-style: double; }
.open { color: var(--open); text-decoration-line: underline; text-decoration-style: dotted; }
nav, dl, table, figcaption, pre, .source, .as-file, .none, footer, .checklist, .opening .cautions {
  font-family: system-ui, "Segoe UI", Roboto, "Helvetica Neue", "Liberation Sans", sans-serif; }
nav { font-size: 0.95rem; margin: 1.5rem 0; }
nav h2 { font-size: 1rem; margin: 0 0 0.4em; }
nav ol { list-style: none; padding: 0; margin: 0; }
nav li { margin-bottom: 0.2em; break-inside: avoid; }
nav ol { columns: 16rem; column-gap: 2rem; }
nav .under { padding-left: 1.1em; }
footer { margin-top: 3rem; padding-top: 0.8rem; border-top: 1px solid var(--rule);
  font-size: 0.9rem; color: var(--quiet); }
footer p { margin: 0; }
.reserve { display: none; }
.with-opening { max-width: 78rem; }
@media screen and (min-width: 82rem) {
  .with-contents { max-width: 92rem; padding-left: 1.5rem; padding-right: 1.5rem; }
  .with-contents > header, .with-contents > footer { margin-left: 18rem; }
  .with-contents > main { display: grid; grid-template-columns: 15rem minmax(0, 1fr);
    grid-template-rows: auto 1fr; column-gap: 3rem; }
  .with-contents > main > .opening, .with-contents > main > .text { grid-column: 2; }
  .with-contents > main > nav { grid-column: 1; grid-row: 1 / span 2; position: sticky; top: 1.5rem;
    align-self: start; max-height: calc(100vh - 3rem); overflow: auto; margin-top: 0; }
}
)css";

constexpr std::string_view block_rules = R"css(
dl { font-size: 0.98rem; max-width: 52rem; }
dl > div { padding: 0.5em 0; border-top: 1px solid var(--rule); }
dl > div:last-child { border-bottom: 1px solid var(--rule); }
dt { color: var(--quiet); font-weight: 600; }
dd { margin: 0; }
dd + dd { margin-top: 0.3em; }
@media (min-width: 40rem) {
  dl > div { display: grid; grid-template-columns: 11rem minmax(0, 1fr); column-gap: 1.5rem; }
  dt { grid-column: 1; }
  dd { grid-column: 2; }
}
.scroll { overflow-x: auto; max-width: 100%; }
.tall { overflow: auto; max-height: 85vh; border-bottom: 1px solid var(--quiet); }
.tall thead :is(th, td) { position: sticky; top: 0; }
.as-file { font-size: 0.9rem; margin-top: -0.6em; }
table { border-collapse: separate; border-spacing: 0; font-size: 0.94rem; line-height: 1.45;
  font-variant-numeric: tabular-nums lining-nums; }
caption { text-align: left; font-weight: 600; padding-bottom: 0.5em; position: sticky; left: 0;
  max-width: calc(100vw - 2.5rem); }
th, td { text-align: left; vertical-align: top; padding: 0.4em 0.9em 0.4em 0.6em;
  border-bottom: 1px solid var(--rule); min-width: 3em; font-weight: 400; }
thead th, thead td { vertical-align: bottom; background: var(--tint); font-weight: 600;
  border-bottom: 2px solid var(--quiet); }
.number { text-align: right; padding-right: 0.6em; padding-left: 0.9em; }
tbody .number, tbody .short { white-space: nowrap; }
.breaks, tbody .number.breaks { overflow-wrap: anywhere; white-space: normal; min-width: 7em; }
@media (max-width: 40rem) {
  table:not(.form) { width: max-content; }
  th, td { max-width: 16rem; }
}
table.form { width: 100%; }
table.form { border-collapse: collapse; }
.form th, .form td { border: 1px solid var(--quiet); }
.form tbody th, .form tbody td { height: 2.5em; vertical-align: middle; }
.form :is(th, td):nth-child(2):last-child { width: 80%; }
.form :is(th, td):nth-child(n + 4):last-child { width: 26%; }
.none { color: var(--quiet); }
.cautions { padding: 1rem 1.25rem 0.6rem; background: var(--tint);
  border-left: 0.4rem solid var(--ink); }
.cautions ul { list-style: none; padding: 0; margin: 0; }
.cautions li { margin-bottom: 0.9em; }
.cautions p { margin: 0; }
.source { font-size: 0.86rem; color: var(--quiet); line-height: 1.4; }
pre { background: var(--tint); border: 1px solid var(--rule); padding: 0.8rem 1rem;
  overflow-x: auto; line-height: 1.45; }
code { font-family: ui-monospace, "Cascadia Mono", Menlo, Consolas, "Liberation Mono", monospace;
  font-size: 0.9rem; }
figure { margin-left: 0; margin-right: 0; }
.picture { background: var(--picture); color: var(--picture-ink); max-width: 60rem;
  overflow-x: auto; }
.picture svg { display: block; width: 100%; height: auto; max-height: 90vh; }
@media screen and (max-width: 40rem) {
  .picture svg { min-width: 36rem; max-height: none; }
}
.photo img { display: block; max-width: 100%; height: auto; }
@media screen and (min-width: 48rem) {
  .photo { display: inline-block; width: calc(50% - 1.3rem); margin-right: 0.9rem;
    vertical-align: top; }
}
figcaption { font-size: 0.94rem; margin-top: 0.5em; color: var(--quiet); max-width: 44rem; }
.checklist { list-style: none; padding: 0; }
.checklist label { display: flex; gap: 0.75em; align-items: flex-start; padding: 0.15em 0; }
.checklist span { min-width: 0; }
.checklist input { appearance: none; flex: none; width: 1.25em; height: 1.25em; margin: 0.15em 0 0;
  border: 2px solid var(--quiet); background: var(--paper); color: var(--ink); font: inherit;
  line-height: 1; text-align: center; }
.checklist input:checked::before { content: "\2713"; }
)css";

/// The `reserve` holds the foot's text unseen at the end of each sheet, as high as the foot itself
/// whatever it says, so that nothing lies under the fixed foot.
constexpr std::string_view paper_rules = R"css(
  body { display: table; table-layout: fixed; width: 100%; max-width: none; margin: 0; padding: 0;
    background: none; font-size: 10.5pt; line-height: 1.42; }
  header, main { display: table-row-group; }
  .skip, nav { display: none; }
  .reserve { display: table-footer-group; break-inside: avoid; visibility: hidden; }
  .reserve p, footer p { margin: 0; padding-top: 2mm; font-size: 8.5pt; line-height: 1.3;
    max-width: none; }
  .reserve p { padding-top: 5mm; }
  footer { position: fixed; left: 0; right: 0; bottom: 0; margin: 0; padding: 0;
    border-top: 0.3mm solid var(--ink); color: var(--ink); }
  h1, h2, h3, h4 { break-after: avoid; break-inside: avoid; margin: 1.3em 0 0.5em; max-width: none; }
  h1 { font-size: 19pt; margin-top: 0; }
  h2 { font-size: 14pt; }
  h3 { font-size: 12pt; }
  h4 { font-size: 10.5pt; }
  p, ul, ol, aside, figcaption { max-width: none; orphans: 3; widows: 3; }
  p, ul, ol, dl, figure, aside, pre, .scroll { margin-bottom: 0.8em; }
  li, dl > div, figure, tr, .form:not(.long) { break-inside: avoid; }
  caption, figcaption, thead { break-inside: avoid; }
  caption { break-after: avoid; }
  figcaption { break-before: avoid; }
  thead { display: table-header-group; }
  table { font-size: 9.5pt; line-height: 1.35; }
  th, td { padding-top: 0.25em; padding-bottom: 0.25em; }
  .tall table { font-size: 8pt; line-height: 1.25; }
  .tall th, .tall td { padding-top: 0.12em; padding-bottom: 0.12em; }
  .wide table { font-size: 6.5pt; width: 100%; overflow-wrap: anywhere; }
  .wide :is(th, td) { padding-left: 0.3em; padding-right: 0.3em; min-width: 0; }
  .wide tbody :is(th, td) { white-space: normal; }
  .tall { border-bottom: none; }
  caption { font-size: 9.5pt; max-width: none; position: static; }
  dl { font-size: 10pt; max-width: none; }
  dl > div { padding: 0.3em 0; }
  .scroll, .picture, pre { overflow: visible; max-height: none; }
  .tall thead :is(th, td) { position: static; }
  a { color: inherit; }
  .as-file { font-size: 9pt; margin-top: -0.3em; }
  figcaption { font-size: 9.5pt; }
  .spelled::after { content: " (" attr(href) ")"; overflow-wrap: anywhere; }
  pre { white-space: pre-wrap; break-inside: avoid; }
  .picture svg { max-height: 115mm; margin: 0 auto; }
  .photo { display: inline-block; width: 47%; margin-right: 2%; vertical-align: top; }
  .photo img { max-height: 90mm; width: auto; }
  .form tbody th, .form tbody td { height: 7.5mm; padding: 0.4mm 1.5mm; }
  .form thead th, .form thead td { padding: 0.8mm 1.5mm; }
  main > .opening { break-after: page; }
  .opening .sentence { font-size: 14pt; }
  .opening dl { font-size: 10pt; }
  .opening dl > div { display: grid; grid-template-columns: 38mm minmax(0, 1fr); column-gap: 4mm; }
  .cautions, .opening .cautions { padding: 0 0 0 4mm; border-left-width: 1.2mm; }
  .cautions ul { columns: 2; column-gap: 7mm; font-size: 9pt; line-height: 1.32; }
  .cautions li { margin-bottom: 0.6em; }
  .source { font-size: 7.5pt; }
  .checklist input { border-width: 0.4mm; width: 4.2mm; height: 4.2mm; }
)css";

/// What a reader sees first: the sentence; beside the picture, where there is room for both, the
/// facts and below them the cautions in short.
constexpr std::string_view opening_rules = R"css(
.with-opening { padding-top: 1rem; }
.with-opening h1 { font-size: 1.2rem; margin-bottom: 0; }
.opening { margin: 0.6rem 0 2.5rem; }
.opening .sentence { font-size: 1.35rem; line-height: 1.35; max-width: none;
  margin: 0 0 0.8rem; padding-bottom: 0.7rem; border-bottom: 2px solid var(--ink);
  text-wrap: pretty; }
.opening dl { margin: 0 0 1rem; font-size: 0.94rem; line-height: 1.4; }
.opening dl > div { padding: 0.3em 0; display: block; }
.opening dl > div:first-child { border-top: none; padding-top: 0; }
.opening dd { font-weight: 400; }
.opening .cautions { padding: 0.6rem 1rem; font-size: 0.9rem; line-height: 1.4; margin: 0 0 1rem;
  align-self: start; max-width: none; }
.opening .cautions li { margin-bottom: 0.35em; }
.opening .cautions li:last-child { margin-bottom: 0; }
.opening figure { margin: 0; }
@media screen and (min-width: 30rem) and (max-width: 47.99rem), screen and (min-width: 64rem) {
  .opening dl > div { display: grid; grid-template-columns: 7.5rem minmax(0, 1fr);
    column-gap: 1rem; }
}
@media screen and (min-width: 48rem) {
  .opening.pictured { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1.1fr);
    grid-template-rows: auto auto 1fr; column-gap: 2rem; }
  .pictured > .sentence { grid-column: 1 / span 2; }
  .pictured > dl, .pictured > .cautions { grid-column: 1; }
  .pictured > figure { grid-column: 2; grid-row: 2 / span 2; }
  .pictured .picture svg { max-height: 31rem; }
}
@media screen and (min-width: 64rem) {
  .opening .sentence { font-size: 1.5rem; }
}
)css";

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
          {"links", p.accent, p.paper, true},
          {"links in cautions", p.accent, p.tint, true},
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
  out += text_rules.substr(1);
  out += block_rules.substr(1);
  out += opening_rules.substr(1);
  out += "@media print {\n" + variables(paper, "light");
  out += paper_rules.substr(1);
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
