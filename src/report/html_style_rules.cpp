#include "report/html_style_rules.hpp"

namespace hailwright::detail {

namespace {

// The page speaks as the map of the panel does: parts are numbered in rings with four ticks, what
// is below them in boxes, and rulers with ticks part them.
constexpr std::string_view page = R"css(
*, *::before, *::after { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0 auto; padding: 1.5rem 1.25rem 3rem; max-width: 64rem; background: var(--paper);
  color: var(--ink); font-family: "Helvetica Neue", Helvetica, Arial, "Liberation Sans", sans-serif;
  font-size: 1rem; line-height: 1.55; overflow-wrap: break-word;
  --across: repeating-linear-gradient(90deg, var(--ink) 0 1px, transparent 1px 0.625rem);
  --far-across: repeating-linear-gradient(90deg, var(--ink) 0 1px, transparent 1px 3.125rem); }
h1, h2, h3, h4 { line-height: 1.25; margin: 1.8em 0 0.6em; max-width: 46rem; text-wrap: balance; }
h1 { font-size: 1.7rem; }
h2 { font-size: 1.35rem; }
h3 { font-size: 1.05rem; }
h4 { font-size: 1rem; }
header h1, .text > h1:first-child { margin-top: 0.4em; }
h1 + h2, h2 + h3, h3 + h4 { margin-top: 0.8em; }
.text { counter-reset: part; }
.text > h2 { counter-increment: part; counter-reset: below; display: flex; align-items: center;
  gap: 0.7rem; max-width: none; margin-top: 2.4rem; padding-top: 1.3rem;
  border-top: 2px solid var(--ink);
  background: var(--far-across) 0 0 / 100% 9px no-repeat, var(--across) 0 0 / 100% 5px no-repeat; }
.text > h2:first-child { margin-top: 0; }
.text > h2::before { content: counter(part); flex: none; display: grid; place-content: center;
  width: 2.2rem; height: 2.2rem; border: 2px solid var(--ink); border-radius: 50%;
  font-size: 0.95rem; --tick: linear-gradient(var(--ink), var(--ink));
  background: var(--tick) 50% 0 / 2px 4px no-repeat, var(--tick) 50% 100% / 2px 4px no-repeat,
    var(--tick) 0 50% / 4px 2px no-repeat, var(--tick) 100% 50% / 4px 2px no-repeat; }
.text > h3 { counter-increment: below; }
.text > h3::before { content: counter(part) "." counter(below); display: inline-block;
  border: 1.5px solid var(--ink); padding: 0 0.35em; margin-right: 0.5em; font-size: 0.78em;
  line-height: 1.4; }
p, ul, ol, dl, figure, aside, pre, .scroll { margin: 0 0 1.1em; }
p, ul, ol, aside { max-width: 46rem; }
ul, ol { padding-left: 1.3em; }
li { margin-bottom: 0.35em; }
a { color: inherit; text-decoration: underline 2px var(--accent); text-underline-offset: 0.18em; }
a:hover { background: var(--tint); }
a:focus-visible, [tabindex]:focus-visible, input:focus-visible {
  outline: 3px solid var(--accent); outline-offset: 3px; }
.text:focus { outline: none; }
.skip { position: absolute; left: -100rem; }
.skip:focus { position: static; justify-self: start; }
.good, .bad, .open { text-decoration-thickness: 0.09em; text-underline-offset: 0.2em; }
.good { color: var(--good); }
.bad { color: var(--bad); text-decoration-line: underline; text-decoration-style: double; }
.open { color: var(--open); text-decoration-line: underline; text-decoration-style: dotted; }
nav { font-size: 0.92rem; margin: 1.5rem 0; line-height: 1.35; }
nav h2 { font-size: 1rem; margin: 0 0 0.6em; }
nav ol { list-style: none; padding: 0; margin: 0; columns: 16rem; column-gap: 2rem; max-width: none;
  counter-reset: part; }
nav li { position: relative; padding: 0.18em 0 0.18em 2.3em; margin: 0; break-inside: avoid; }
nav a { text-decoration-color: transparent; }
nav a:hover, nav a:focus-visible { text-decoration-color: var(--accent); }
nav li:not(.under) { counter-increment: part; counter-reset: below; }
nav li:not(.under)::before { content: counter(part); position: absolute; left: 0; top: 0.05em;
  width: 1.75em; height: 1.75em; display: grid; place-content: center; font-size: 0.86em;
  border: 1.5px solid var(--ink); border-radius: 50%; }
nav li.under { counter-increment: below; padding-left: 3.2em; }
nav li.under::before { content: counter(part) "." counter(below); position: absolute; right: 100%;
  margin-right: -2.75em; padding: 0 0.25em; font-size: 0.8em; border: 1px solid var(--quiet); }
footer { margin-top: 3rem; padding-top: 0.8rem; border-top: 2px solid var(--ink);
  font-size: 0.9rem; color: var(--quiet); }
footer p { margin: 0; max-width: none; }
.reserve, .on-paper { display: none; }
.with-opening { max-width: 108rem; padding-top: 1rem; }
@media screen and (min-width: 64rem) {
  .text { display: grid; grid-template-columns: 11.5rem minmax(0, 1fr); column-gap: 2rem;
    align-content: start; }
  .text > * { grid-column: 1 / -1; }
  .text > :is(p, ul, ol, pre, .photo) { grid-column: 2; }
  .text > p.as-file { grid-column: 1 / -1; }
  .text > :is(h3, h4) { grid-column: 1; margin: 0.4rem 0 0.6rem; }
  .text > :is(h3, h4) + :is(p, ul, ol, pre) { margin-top: 0.3rem; }
  .text > h3:has(+ h4) { grid-column: 1 / -1; }
  .text > h3::before { display: table; margin-bottom: 0.3em; }
}
@media screen and (min-width: 80rem) {
  .with-contents { max-width: 92rem; }
  .with-opening { max-width: 108rem; }
  .with-contents > main { display: grid; grid-template-columns: 14rem minmax(0, 1fr);
    grid-template-rows: auto auto 1fr; column-gap: 3rem; }
  .with-contents > main > :is(.opening, .skip) { grid-column: 1 / -1; }
  .with-contents > main > .text { grid-column: 2; grid-row: 3; }
  .with-contents > main > nav { grid-column: 1; grid-row: 3; position: sticky; top: 1.5rem;
    align-self: start; max-height: calc(100vh - 3rem); overflow: auto; margin-top: 0; }
  .with-contents nav ol { columns: auto; }
}
)css";

constexpr std::string_view blocks = R"css(
dl { font-size: 0.96rem; max-width: 60rem; line-height: 1.5; }
dl > div { padding: 0.55em 0 0.35em;
  background: linear-gradient(var(--ink), var(--ink)) 0 0.2em / 1.1rem 2px no-repeat; }
dt { font-weight: 700; }
dd { margin: 0; }
dd + dd { margin-top: 0.3em; }
@media (min-width: 40rem) {
  dl > div { display: grid; grid-template-columns: 11.5rem minmax(0, 1fr); column-gap: 2rem; }
  dt { grid-column: 1; grid-row: 1 / span 99; }
  dd { grid-column: 2; }
}
.scroll { overflow-x: auto; max-width: 100%; }
@media screen {
  .scroll { container-type: inline-size; background:
    linear-gradient(90deg, var(--paper) 50%, transparent) left / 3rem 100% no-repeat local,
    linear-gradient(270deg, var(--paper) 50%, transparent) right / 3rem 100% no-repeat local,
    linear-gradient(90deg, var(--quiet), transparent) left / 0.5rem 100% no-repeat scroll,
    linear-gradient(270deg, var(--quiet), transparent) right / 0.5rem 100% no-repeat scroll; }
  caption { max-width: min(46rem, 100cqw); }
  tbody :is(th, td):not(.number, .short, .breaks, .none) { min-width: 14em; }
  .form tbody :is(th, td):not(.number, .short, .breaks, .none) { min-width: 0; }
}
.tall { overflow: auto; max-height: 85vh; border-bottom: 2px solid var(--ink); }
.tall thead :is(th, td) { position: sticky; top: 0; }
.as-file { font-size: 0.9rem; margin-top: -0.6em; }
table { border-collapse: separate; border-spacing: 0; font-size: 0.92rem; line-height: 1.4;
  font-variant-numeric: tabular-nums lining-nums; }
caption { text-align: left; font-weight: 700; padding-bottom: 0.6em; position: sticky; left: 0; }
th, td { text-align: left; vertical-align: top; padding: 0.35em 0.8em 0.35em 0.6em;
  border-bottom: 1px solid var(--rule); font-weight: 400; }
tbody :is(th, td) + :is(th, td) { border-left: 1px solid var(--rule); }
tbody th { font-weight: 600; }
thead th, thead td { vertical-align: bottom; background: var(--tint); font-weight: 600;
  border-top: 2px solid var(--ink); border-bottom: 2px solid var(--ink); }
.number { text-align: right; padding-right: 0.6em; padding-left: 0.8em; }
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
.cautions { padding: 1rem 1.25rem 0.6rem; background: var(--tint); border: 2px solid var(--ink);
  border-left-width: 0.6rem; }
.cautions ul { list-style: none; padding: 0; margin: 0; max-width: none; }
.cautions li { margin-bottom: 0.9em; }
.cautions p { margin: 0; }
@media screen and (min-width: 64rem) {
  .text > .cautions { max-width: none; }
  .text > .cautions ul { columns: 24rem; column-gap: 2.5rem; }
  .text > .cautions li { break-inside: avoid; }
}
.source { font-size: 0.86rem; color: var(--quiet); line-height: 1.4; }
pre { background: var(--tint); border: 1px solid var(--rule); padding: 0.8rem 1rem;
  overflow-x: auto; line-height: 1.45; }
code { font-family: ui-monospace, "Cascadia Mono", Menlo, Consolas, "Liberation Mono", monospace;
  font-size: 0.9rem; }
figure { margin-left: 0; margin-right: 0; }
.picture { background: var(--picture); color: var(--picture-ink); max-width: 64rem;
  overflow-x: auto; }
.picture svg { display: block; width: 100%; height: auto; max-height: 90vh; }
.picture svg text { letter-spacing: normal !important; word-spacing: normal !important; }
@media screen and (max-width: 40rem) {
  .picture svg { min-width: 36rem; max-height: none; }
}
.photo img { display: block; max-width: 100%; height: auto; }
@media screen and (min-width: 48rem) {
  .photo { max-width: 38rem; }
}
figcaption { font-size: 0.9rem; margin-top: 0.5em; color: var(--quiet); max-width: 46rem; }
.checklist { list-style: none; padding: 0; }
.checklist label { display: flex; gap: 0.75em; align-items: flex-start; padding: 0.15em 0; }
.checklist span { min-width: 0; }
.checklist input { appearance: none; flex: none; width: 1.25em; height: 1.25em; margin: 0.15em 0 0;
  border: 2px solid var(--quiet); background: var(--paper); color: var(--ink); font: inherit;
  line-height: 1; text-align: center; }
.checklist input:checked::before { content: "\2713"; }
)css";

// The opening is framed as the panel is on its map, its facts are cells of it, each with its name
// in a box. From 64rem the picture has more than half of the width; below, nothing stands beside
// it.
constexpr std::string_view opening = R"css(
.with-opening > header h1 { font-size: 1.35rem; max-width: none; margin: 0 0 0.5rem; }
.opening { margin: 0 0 2.5rem; padding: 0 1rem; border: 7px solid var(--rule);
  outline: 1.5px solid var(--ink); box-shadow: inset 0 0 0 1.5px var(--ink); }
.opening .sentence { font-size: 1.35rem; line-height: 1.3; max-width: none; margin: 0 0 0.7rem;
  padding: 0.6rem 0 0.9rem; border-bottom: 2px solid var(--ink); text-wrap: pretty;
  background: var(--far-across) 0 100% / 100% 9px no-repeat,
    var(--across) 0 100% / 100% 5px no-repeat; }
.opening dl { margin: 0 0 0.7rem; font-size: 0.9rem; line-height: 1.35; max-width: none; }
.opening dl > div { display: block; padding: 0.4em 0; background: none; break-inside: avoid;
  border-bottom: 1px solid var(--rule); }
.opening dl > div:first-child { padding-top: 0.1em; }
.opening dt { float: left; margin-right: 0.5em; padding: 0 0.35em; font-size: 0.9em;
  line-height: 1.2; border: 1.5px solid var(--ink); }
.opening dd + dd { margin-top: 0.12em; clear: left; }
.opening .cautions { padding: 0.5rem 0.8rem 0.4rem; font-size: 0.86rem; line-height: 1.35;
  margin: 0 0 0.9rem; align-self: start; max-width: none; }
.opening .cautions li { margin-bottom: 0.25em; }
.opening figure { margin: 0 0 0.7rem; }
.opening figcaption { margin-top: 0.1em; }
@media screen and (min-width: 40rem) and (max-width: 63.99rem) {
  .opening dl { columns: 2; column-gap: 1.5rem; }
}
@media screen and (min-width: 64rem) {
  .opening.pictured { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1.15fr);
    grid-template-rows: auto auto 1fr; column-gap: 1.5rem; }
  .pictured > .sentence { grid-column: 1 / span 2; }
  .pictured > dl { grid-column: 1; grid-row: 2; }
  .pictured > figure { grid-column: 2; grid-row: 2; }
  .pictured > .cautions { grid-column: 1 / span 2; grid-row: 3; }
  .pictured > .cautions ul { columns: 2; column-gap: 2rem; }
  .pictured > .cautions li { break-inside: avoid; }
  .pictured .picture { max-width: none; }
  .pictured .picture svg { max-height: max(28rem, calc(100vh - 18rem)); }
}
@media screen and (min-width: 80rem) {
  .pictured > figure { grid-row: 2 / span 2; }
  .pictured > .cautions { grid-column: 1; }
  .pictured > .cautions ul { columns: auto; }
  .pictured .picture svg { max-height: max(30rem, calc(100vh - 11rem)); }
}
)css";

}  // namespace

std::string_view page_rules() {
  return page.substr(1);
}

std::string_view block_rules() {
  return blocks.substr(1);
}

std::string_view opening_rules() {
  return opening.substr(1);
}

}  // namespace hailwright::detail
