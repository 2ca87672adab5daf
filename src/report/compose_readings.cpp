#include "hailwright/report/compose_readings.hpp"

#include "report/caution_items.hpp"
#include "report/readings_sections.hpp"
#include "report/readings_sentences.hpp"

namespace hailwright {

namespace {

/// Columns of a sketch: what a terminal of 80 has room for under a heading.
constexpr int sketch_width = 72;

Figure picture_of(const ReadingsAnswer& a) {
  Figure figure = log_picture("log", "Course of " + names_text(a.files), a.findings, a.stated.zone);
  if (!figure.svg.empty()) figure.sketch = log_sketch(a.findings, a.stated.zone, sketch_width);
  return figure;
}

/// The answer, and what must not be overlooked beside it.
Opening opening_of(const ReadingsAnswer& a) {
  Opening opening;
  opening.sentence = {{log_headline(a), Tone::strong}};
  opening.picture = picture_of(a);
  const StretchNumbers& n = a.results.whole;
  if (n.normalised) {
    opening.facts.push_back({"at full sun", {plain(number_text(*n.normalised, "W"))}});
  }
  if (n.ratio) opening.facts.push_back({"second over first", {plain(ratio_text(*n.ratio))}});
  const bool all = a.tally.unreadable + a.tally.out_of_order == 0;
  opening.facts.push_back(
      {"not used", {{{unused_sentence(a.tally), all ? Tone::plain : Tone::bad}}}});
  opening.facts.push_back(
      {"gaps", {plain(gaps_sentence(a.findings.whole, a.question.rules.longest_gap))}});
  if (a.findings.whole.clipping) {
    opening.facts.push_back(
        {"clipping", {{{clipping_sentence(*a.findings.whole.clipping, ""), Tone::bad}}}});
  }
  opening.cautions = {{{std::string(caution("pv_energised").hazard) + ". "},
                       {"All cautions stand at the end", Tone::plain, "#cautions"}}};
  return opening;
}

void append_yaml(Document& out, const ReadingsAnswer& a) {
  if (a.findings.whole.rows == 0) return;
  out.blocks.push_back(Heading{2, plain("To paste into a record"), "record"});
  ReadingsAnswer shown = a;
  for (std::string& file : shown.files) {
    // Standard input has words of its own there.
    if (file != "-") file = published_file(file);
  }
  out.blocks.push_back(Snippet{readings_yaml(shown)});
}

}  // namespace

Document compose_readings(const ReadingsAnswer& a) {
  Document out;
  out.title = "Readings of " + names_text(a.files);
  out.blocks.push_back(opening_of(a));
  append_reading(out, a);
  append_remarks(out, a);
  append_whole(out, a);
  append_stretches(out, a);
  append_side_by_side(out, a);
  append_budgets(out, a);
  append_assumed(out, a);
  append_yaml(out, a);
  append_cautions(out, log_cautions(a.findings), 2);
  return out;
}

}  // namespace hailwright
