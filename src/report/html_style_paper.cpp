#include "report/html_style_rules.hpp"

namespace hailwright::detail {

namespace {

/// The `reserve` holds the foot's text unseen at the end of each sheet, as high as the foot itself
/// whatever it says, so that nothing lies under the fixed foot.
constexpr std::string_view paper_css = R"css(
  body { display: table; table-layout: fixed; width: 100%; max-width: none; margin: 0; padding: 0;
    background: none; font-size: 10pt; line-height: 1.42; }
  header, main { display: table-row-group; }
  .skip, nav { display: none; }
  nav.several { display: block; margin-top: 0; }
  .on-paper { display: block; break-after: avoid; }
  .off-paper { display: none; }
  .reserve { display: table-footer-group; break-inside: avoid; visibility: hidden; }
  .reserve p, footer p { margin: 0; padding-top: 2mm; font-size: 8.5pt; line-height: 1.3;
    max-width: none; }
  .reserve p { padding-top: 5mm; }
  footer { position: fixed; left: 0; right: 0; bottom: 0; margin: 0; padding: 0;
    border-top: 0.3mm solid var(--ink); color: var(--ink); }
  h1, h2, h3, h4 { break-after: avoid; break-inside: avoid; margin: 1.3em 0 0.5em;
    max-width: none; }
  h1 { font-size: 17pt; margin-top: 0; }
  h2 { font-size: 14pt; }
  h3 { font-size: 11.5pt; }
  h4 { font-size: 10pt; }
  .text > h2 { padding-top: 3.5mm; margin-top: 6mm; border-top-width: 0.4mm; }
  h3[data-of]::after { content: " (" attr(data-of) ")"; font-weight: 400; }
  p, ul, ol, aside, figcaption { max-width: none; orphans: 3; widows: 3; }
  p, ul, ol, dl, figure, aside, pre, .scroll { margin-bottom: 0.8em; }
  p:has(+ pre), p:has(+ .scroll) { break-after: avoid; }
  li, dl > div, figure, tr, .form:not(.long) { break-inside: avoid; }
  li:first-child, dl > div:first-child, tbody tr:nth-child(-n + 2) { break-after: avoid; }
  li:last-child, dl > div:last-child, tbody tr:nth-last-child(-n + 2) { break-before: avoid; }
  caption, figcaption, thead { break-inside: avoid; }
  caption { break-after: avoid; }
  figcaption { break-before: avoid; }
  thead { display: table-header-group; }
  table { font-size: 9pt; line-height: 1.3; }
  th, td { padding: 0.25em 0.45em; }
  .tall table { line-height: 1.22; }
  .tall :is(th, td) { padding-top: 0.12em; padding-bottom: 0.12em; }
  .small table { font-size: 7.5pt; }
  .smallest table { font-size: 6.5pt; }
  .smallest :is(th, td) { padding-left: 0.3em; padding-right: 0.3em; }
  .breaks, tbody .number.breaks { min-width: 5em; }
  .tall { border-bottom: none; }
  caption { font-size: 9pt; max-width: none; position: static; }
  dl { font-size: 9.5pt; max-width: none; }
  dl > div { padding: 0.45em 0 0.2em; grid-template-columns: 38mm minmax(0, 1fr);
    column-gap: 4mm; background-size: 5mm 0.4mm; }
  .scroll, .picture, pre { overflow: visible; max-height: none; }
  .tall thead :is(th, td) { position: static; }
  a { color: inherit; text-decoration-thickness: 0.2mm; }
  .as-file { font-size: 8.5pt; margin-top: -0.3em; break-before: avoid; }
  figcaption { font-size: 9pt; }
  .spelled::after { content: " (" attr(href) ")"; overflow-wrap: anywhere; }
  pre { white-space: pre-wrap; break-inside: avoid; }
  .picture { max-width: none; }
  .picture svg { max-height: 105mm; margin: 0 auto; }
  .photo { display: inline-block; width: 47%; margin-right: 2%; vertical-align: top; }
  .photo img { max-height: 90mm; width: auto; }
  .form tbody th, .form tbody td { height: 7.5mm; padding: 0.4mm 1.5mm; }
  .form thead th, .form thead td { padding: 0.8mm 1.5mm; }
  main > .opening { break-after: page; }
  .with-opening > header h1 { font-size: 14pt; margin-bottom: 2mm; }
  .opening { padding: 0 3mm; border-width: 1.6mm; outline-width: 0.3mm; }
  .opening .sentence { font-size: 13pt; margin-bottom: 2mm; padding: 2mm 0 3mm; }
  .opening dl { font-size: 9pt; line-height: 1.3; columns: 2; column-gap: 6mm; margin-bottom: 2mm; }
  .opening dl > div { padding: 0.35em 0 0.2em; }
  .opening :is(li, div):is(:first-child, :last-child) { break-before: auto; break-after: auto; }
  .opening figure { margin-bottom: 2mm; }
  .opening .picture svg { max-height: 106mm; }
  .cautions, .opening .cautions { padding: 1mm 0 0 4mm; border-width: 0 0 0 1.2mm; }
  .opening .cautions { font-size: 8.5pt; line-height: 1.3; margin-bottom: 3mm; }
  .cautions ul { columns: 2; column-gap: 7mm; font-size: 9pt; line-height: 1.32; }
  .opening .cautions ul { font-size: 8.5pt; }
  .cautions li { margin-bottom: 0.6em; break-inside: avoid; }
  .source { font-size: 7.5pt; }
  .checklist input { border-width: 0.4mm; width: 4.2mm; height: 4.2mm; }
)css";

}  // namespace

std::string_view paper_rules() {
  return paper_css.substr(1);
}

}  // namespace hailwright::detail
