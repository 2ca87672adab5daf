#include "report/readings_sections.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/quantity_text.hpp"
#include "report/log_picture_data.hpp"
#include "report/readings_clock.hpp"
#include "report/readings_json_parts.hpp"
#include "report/readings_sentences.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

constexpr std::size_t most_remarks = 20;
constexpr std::size_t most_stretches = 60;

Runs strong(std::string text) {
  return {{std::move(text), Tone::strong}};
}

void heading(Document& out, std::string text, std::string id) {
  out.blocks.push_back(Heading{2, plain(std::move(text)), std::move(id)});
}

/// "'P (W)' as power in W".
std::string column_text(const LogColumn& c) {
  const std::string in = c.unit.symbol.empty() ? "" : " in " + std::string(c.unit.symbol);
  return fmt::format("\"{}\" as {}{}", c.header, word_of(c.role), in);
}

std::vector<Runs> lines_of(const std::vector<std::string>& texts) {
  std::vector<Runs> lines;
  for (const std::string& t : texts)
    lines.push_back(plain(t));
  return lines;
}

std::vector<Runs> file_lines(const std::vector<std::string>& files) {
  std::vector<Runs> lines;
  for (const std::string& file : files)
    lines.push_back(plain(published_file(file)));
  return lines;
}

std::string place_of(const ReadingsAnswer& a, const SourceSpan& where) {
  const auto file = file_of(a, where);
  if (!file) return {};
  const std::string name = published_file(*file);
  return where.line > 0 ? fmt::format(" ({}, line {})", name, where.line)
                        : fmt::format(" ({})", name);
}

/// A line each, the first ones alone of many.
Bullets remarks_of(const std::vector<std::string>& all) {
  Bullets bullets;
  for (std::size_t i = 0; i < std::min(all.size(), most_remarks); ++i)
    bullets.items.push_back(plain(all[i]));
  if (all.size() > most_remarks) {
    bullets.items.push_back(plain(fmt::format("and {} more", all.size() - most_remarks)));
  }
  return bullets;
}

// What was read

void add_tally(Facts& facts, const LogTally& t, const std::string& whose) {
  facts.items.push_back({"rows" + whose, {plain(read_sentence(t))}});
  facts.items.push_back({"not used" + whose, {plain(unused_sentence(t))}});
  if (const std::string met = met_sentence(t); !met.empty()) {
    facts.items.push_back({"also met" + whose, {plain(met)}});
  }
}

std::string times_text(const ReadingsAnswer& a) {
  const LogStretch& whole = a.findings.whole;
  std::string text = fmt::format("{}, {}", span_text(whole.from_us, whole.to_us, a.stated.zone),
                                 zone_text(whole.from_us, whole.to_us, a.stated.zone));
  if (a.findings.usual_step_s > 0.0) {
    text += fmt::format("; a row every {} as a rule", duration_text(a.findings.usual_step_s));
  }
  return text;
}

Table gaps_table(const ReadingsAnswer& a) {
  const LogStretch& whole = a.findings.whole;
  const bool all = whole.gaps == static_cast<std::int64_t>(whole.longest_gaps.size());
  Table table{all ? "Gaps, longest first"
                  : fmt::format("The {} longest of {} gaps", whole.longest_gaps.size(), whole.gaps),
              {{"from"}, {"to"}, {"lasting"}, {"next row"}},
              {}};
  for (const LogGap& g : whole.longest_gaps) {
    const LocalClock from = local_clock(g.from_us, a.stated.zone);
    const LocalClock to = local_clock(g.to_us, a.stated.zone);
    const std::string file =
        a.files.size() > 1 && g.file < a.files.size() ? published_file(a.files[g.file]) + ", " : "";
    table.rows.push_back({from.date + ' ' + from.clock, to.date + ' ' + to.clock,
                          duration_text(g.seconds()), fmt::format("{}line {}", file, g.line)});
  }
  return table;
}

// Numbers of a stretch

void add_normalised(Facts& facts, const std::optional<LogNumber<Power>>& n,
                    const std::optional<SeriesMean>& series, const std::string& label) {
  if (!n || !series) return;
  std::vector<std::string> lines{number_text(*n, "W") + " at 1000 W/m2 and 25 degC",
                                 worth_sentence(*series)};
  if (auto few = few_readings_sentence(n->scatter, *series); !few.empty()) {
    lines.push_back(std::move(few));
  }
  facts.items.push_back({label, lines_of(lines)});
}

void add_clipping(Facts& facts, const LogStretch& s) {
  if (s.clipping) {
    facts.items.push_back({"clipping", {{{clipping_sentence(*s.clipping, ""), Tone::bad}}}});
  }
  if (s.clipping_beside) {
    facts.items.push_back(
        {"clipping",
         {{{clipping_sentence(*s.clipping_beside, " of the second panel"), Tone::bad}}}});
  }
}

// Stretches

/// What is to be said of a stretch beyond its row of the table.
std::vector<std::string> stretch_remarks(const ReadingsAnswer& a, std::size_t i) {
  const LogStretch& s = a.findings.stretches[i];
  const StretchNumbers& n = a.results.stretches.at(i);
  std::vector<std::string> texts;
  if (s.rows == 0) return {"no rows"};
  texts.push_back(named_worth_sentence(s));
  if (n.normalised && s.normalised) {
    const std::string few = few_readings_sentence(n.normalised->scatter, *s.normalised);
    if (!few.empty()) texts.push_back(few);
  }
  if (s.steady) texts.push_back(removed_sentence(*s.steady));
  if (s.gaps > 0) texts.push_back(gaps_sentence(s, a.question.rules.longest_gap));
  if (s.counter) texts.push_back(counter_sentence(s, n));
  if (s.clipping) texts.push_back(clipping_sentence(*s.clipping, ""));
  if (s.clipping_beside)
    texts.push_back(clipping_sentence(*s.clipping_beside, " of the second panel"));
  if (n.ratio && s.beside) {
    const std::int64_t windows = s.beside->windows.count;
    texts.push_back(fmt::format("second over first {}, over {} {} of a minute",
                                ratio_text(*n.ratio), windows,
                                windows == 1 ? "window" : "windows"));
  }
  return texts;
}

/// "12.73 ± 0.72"; the unit stands above.
template <class Q>
std::string within_cell(const std::optional<LogNumber<Q>>& n, const char* unit) {
  if (!n) return {};
  const Unit* in = *unit == '\0' ? nullptr : find_unit(unit, MeasureOf<Q>::value);
  const auto shown = [in](Q q) { return in == nullptr ? q.si() : number_in(q.si(), *in); };
  const double u = shown(n->estimate.standard_u);
  if (!(u > 0.0)) return plain_number(shown(n->estimate.value), 6);
  const int decimals = decimals_for(u);
  return fixed(shown(n->estimate.value), decimals) + " ±\u00a0" +
         fixed(shown(n->half_width()), decimals);
}

Table stretches_table(const ReadingsAnswer& a) {
  Table table{"The stretches, with intervals at 95 %",
              {{"stretch"},
               {"from"},
               {"lasting", Align::right},
               {"energy, Wh", Align::right},
               {"mean power, W", Align::right},
               {"normalised, W", Align::right}},
              {}};
  const LogStretch& whole = a.findings.whole;
  const bool days = local_clock(whole.from_us, a.stated.zone).date !=
                    local_clock(whole.to_us, a.stated.zone).date;
  for (std::size_t i = 0; i < std::min(a.findings.stretches.size(), most_stretches); ++i) {
    const LogStretch& s = a.findings.stretches[i];
    const StretchNumbers& n = a.results.stretches.at(i);
    const LocalClock from = local_clock(s.from_us, a.stated.zone);
    const double lasting = static_cast<double>(s.to_us - s.from_us) / 1e6;
    table.rows.push_back({detail::stretch_name(a.findings, i),
                          s.rows == 0 ? "" : (days ? from.day() + ' ' : "") + from.clock,
                          s.rows == 0 ? "" : duration_text(lasting), within_cell(n.energy, "Wh"),
                          within_cell(n.mean_power, "W"), within_cell(n.normalised, "W")});
  }
  return table;
}

// Uncertainty

template <class Q>
void add_budget(Document& out, const std::optional<LogNumber<Q>>& n, const std::string& of,
                const char* unit) {
  if (!n || n->budget.empty()) return;
  const Unit* in = *unit == '\0' ? nullptr : find_unit(unit, MeasureOf<Q>::value);
  Table table{fmt::format("{} (standard uncertainties)", capitalised(of)),
              {{"from"},
               {*unit == '\0' ? std::string("u") : fmt::format("u, {}", unit), Align::right},
               {"of the variance", Align::right}},
              {}};
  for (const BudgetLine& line : summarise(n->budget)) {
    const double u = in == nullptr ? line.standard_u : number_in(line.standard_u, *in);
    table.rows.push_back({line.label, significant(u, 2), share_text(line.share.si(), 1.0)});
  }
  out.blocks.push_back(std::move(table));
}

void add_rules(Facts& facts, const ReadingsAnswer& a) {
  const StretchRules& r = a.question.rules;
  facts.items.push_back(
      {"longest gap",
       {plain(fmt::format("energy is counted across steps in time of up to {}, by straight lines "
                          "from row to row; what the power did between is not in its uncertainty",
                          duration_text(r.longest_gap.si())))}});
  facts.items.push_back(
      {"steady rule", {plain(r.steady ? steady_rule_text(*r.steady) : "none: no row is removed")}});
  if (r.normalise) {
    facts.items.push_back(
        {"normalised",
         {plain(fmt::format("rows of {} and more, with {} and a cell {} K above the back at 1000 "
                            "W/m2",
                            in_unit(r.normalise->least_irradiance, "W/m2", 0),
                            in_unit(r.normalise->gamma, "%/K", 2),
                            plain_number(r.normalise->cell_above_back.si(), 3)))}});
  }
  facts.items.push_back(
      {"load on", {plain(fmt::format("from {} on", in_unit(r.load_on, "W", 1)))}});
}

}  // namespace

void append_reading(Document& out, const ReadingsAnswer& a) {
  heading(out, "What was read", "read");
  Facts facts;
  facts.items.push_back({a.files.size() == 1 ? "file" : "files", file_lines(a.files)});
  add_tally(facts, a.tally, "");
  std::vector<std::string> columns;
  for (const LogColumn& c : a.shape.used)
    columns.push_back(column_text(c));
  if (!columns.empty()) facts.items.push_back({"columns", lines_of(columns)});
  if (a.findings.whole.rows > 0) facts.items.push_back({"time", {plain(times_text(a))}});
  facts.items.push_back(
      {"gaps", {plain(gaps_sentence(a.findings.whole, a.question.rules.longest_gap))}});
  if (!a.files_beside.empty()) facts.items.push_back({"second log", file_lines(a.files_beside)});
  if (a.tally_beside) add_tally(facts, *a.tally_beside, ", second");
  out.blocks.push_back(std::move(facts));
  if (!a.findings.whole.longest_gaps.empty()) out.blocks.push_back(gaps_table(a));
}

void append_whole(Document& out, const ReadingsAnswer& a) {
  const LogStretch& s = a.findings.whole;
  const StretchNumbers& n = a.results.whole;
  if (s.rows == 0) return;
  heading(out, "The whole log", "whole");
  Facts facts;
  if (n.energy) {
    facts.items.push_back({"energy",
                           {strong(number_text(*n.energy, "Wh")),
                            plain("in " + duration_text(s.bridged_s) + " that rows cover")}});
  }
  if (n.mean_power)
    facts.items.push_back({"mean power", {strong(number_text(*n.mean_power, "W"))}});
  add_normalised(facts, n.normalised, s.normalised, "normalised");
  add_normalised(facts, n.normalised_beside, s.normalised_beside, "second panel");
  if (!n.normalised) {
    facts.items.push_back({"normalised", {plain("none: " + why_not_normalised(a))}});
    if (s.power_series.count > 0)
      facts.items.push_back({"readings", {plain(worth_sentence(s.power_series, "power"))}});
  }
  if (s.steady) facts.items.push_back({"not steady", {plain(removed_sentence(*s.steady))}});
  if (s.counter) facts.items.push_back({"counter", {plain(counter_sentence(s, n))}});
  add_clipping(facts, s);
  out.blocks.push_back(std::move(facts));
}

void append_stretches(Document& out, const ReadingsAnswer& a) {
  if (a.question.cut.kind == LogCut::Kind::whole) return;
  heading(out, "Stretches", "stretches");
  const std::size_t n = a.findings.stretches.size();
  out.blocks.push_back(Paragraph{plain(cut_sentence(a.question.cut, n))});
  if (n == 0) return;
  out.blocks.push_back(stretches_table(a));
  if (n > most_stretches) {
    out.blocks.push_back(Paragraph{plain(
        fmt::format("The first {} of them are told here, all in CSV and JSON.", most_stretches))});
  }
  Facts remarks;
  for (std::size_t i = 0; i < std::min(n, most_stretches); ++i)
    remarks.items.push_back({detail::stretch_name(a.findings, i), lines_of(stretch_remarks(a, i))});
  out.blocks.push_back(std::move(remarks));
}

void append_side_by_side(Document& out, const ReadingsAnswer& a) {
  const LogStretch& s = a.findings.whole;
  const bool ratio = a.results.whole.ratio && s.beside;
  if (!ratio && !a.offset) return;
  heading(out, "Side by side", "side-by-side");
  Facts facts;
  if (ratio) {
    std::vector<Runs> lines{strong(ratio_text(*a.results.whole.ratio)),
                            plain(ratio_sentence(*a.results.whole.ratio, *s.beside))};
    const std::string few =
        few_readings_sentence(a.results.whole.ratio->scatter, s.beside->windows);
    if (!few.empty()) lines.push_back(plain(few));
    lines.push_back(plain("As logged: the panels' temperatures, tilts and shades are not taken "
                          "out, and a meter of its own is taken for each panel."));
    facts.items.push_back({"second over first", std::move(lines)});
  }
  if (a.offset) {
    facts.items.push_back({"clocks", {plain(clock_sentence(*a.offset, a.offset_used))}});
  } else if (a.offset_used.si() != 0.0) {
    facts.items.push_back(
        {"clocks",
         {plain(fmt::format("{} s were added to the second log's stamps, as stated; no offset was "
                            "looked for, and none of its error is in the ratio",
                            plain_number(a.offset_used.si(), 6)))}});
  }
  out.blocks.push_back(std::move(facts));
}

void append_budgets(Document& out, const ReadingsAnswer& a) {
  const StretchNumbers& n = a.results.whole;
  if (!n.energy && !n.normalised && !n.ratio) return;
  heading(out, "Where the uncertainty comes from", "uncertainty");
  out.blocks.push_back(Paragraph{
      plain("Each error of an instrument is one for all rows: more rows do not make it smaller.")});
  add_budget(out, n.energy, "energy", "Wh");
  add_budget(out, n.normalised, "normalised power", "W");
  add_budget(out, n.normalised_beside, "normalised power of the second panel", "W");
  add_budget(out, n.ratio, "second over first", "");
}

void append_assumed(Document& out, const ReadingsAnswer& a) {
  heading(out, "By what rules", "rules");
  Facts facts;
  add_rules(facts, a);
  out.blocks.push_back(std::move(facts));
  const std::vector<DefaultId> used = a.results.assumptions.used();
  if (used.empty()) return;
  heading(out, "Assumed for you", "assumed");
  Table table{"", {{"what"}, {"taken"}, {"state instead"}, {"known"}}, {}};
  for (const DefaultId id : used) {
    const DefaultRow& row = default_row(id);
    table.rows.push_back({std::string(row.what), std::string(row.taken), std::string(row.replace),
                          std::string(text(row.status))});
  }
  out.blocks.push_back(std::move(table));
}

void append_remarks(Document& out, const ReadingsAnswer& a) {
  std::vector<std::string> remarks;
  for (const Diagnostic& d : a.notes.items()) {
    // Gaps stand with what was read.
    if (d.code != "L23") remarks.push_back(d.message + place_of(a, d.where));
  }
  if (remarks.empty()) return;
  heading(out, "Remarks on the reading", "remarks");
  out.blocks.push_back(remarks_of(remarks));
}

}  // namespace hailwright
