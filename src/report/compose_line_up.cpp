#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/report/line_up.hpp"
#include "report/caution_items.hpp"
#include "report/line_up_columns.hpp"
#include "report/line_up_rows.hpp"
#include "report/line_up_words.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using detail::LineUpRow;

/// Of records that are not ranked, in the table for people [ours]; machines get all.
constexpr std::size_t unranked_shown = 20;
constexpr const char* all_elsewhere = "line-up.csv, or --format csv, has all";

Bullets bullets(const std::vector<std::string>& sentences) {
  Bullets list;
  for (const std::string& sentence : sentences)
    list.items.push_back(plain(sentence));
  return list;
}

class LineUpWriter {
public:
  explicit LineUpWriter(const LineUpView& view) : view_(view), line_up_(*view.line_up) {}

  Document write() {
    out_.title = view_.title;
    opening();
    const std::vector<LineUpGroup>& groups = line_up_.groups;
    for (std::size_t i = 0; i < groups.size(); ++i)
      group(groups[i], i);
    pictures();
    unranked();
    if (!groups.empty()) reading();
    append_cautions(out_, detail::line_up_cautions(*view_.entries), 2);
    paragraph(std::string(closing_sentence()));
    return std::move(out_);
  }

private:
  [[nodiscard]] const LineUpEntry& entry(std::size_t index) const {
    return view_.entries->at(index);
  }
  void heading(std::string text) { out_.blocks.push_back(Heading{2, plain(std::move(text))}); }
  void small_heading(std::string text) {
    out_.blocks.push_back(Heading{3, plain(std::move(text))});
  }
  void paragraph(std::string text) { out_.blocks.push_back(Paragraph{plain(std::move(text))}); }
  void list(const std::vector<std::string>& sentences) {
    if (!sentences.empty()) out_.blocks.push_back(bullets(sentences));
  }

  void opening() {
    if (view_.entries->size() == 1) {
      return paragraph(
          "One panel is no line-up of several: its figures stand here, and nothing is ranked.");
    }
    const std::vector<std::string> twice = detail::same_panels(*view_.entries);
    paragraph(fmt::format(
        "{} {}, each tested by itself. What is said to differ was shown at {} risk for the "
        "whole group; what is not said to differ may differ all the same. Each is one specimen: "
        "nothing here is about a model or a maker.",
        view_.entries->size(), twice.empty() ? "panels" : "records",
        percent_text(Ratio::from_si(line_up_risk), 0)));
    list(twice);
    if (line_up_.order == LineUpQuantity::price_per_watt) {
      paragraph(
          "Prices are taken as exact; where lowest and highest are given, only differences beyond "
          "these ranges count.");
    }
  }

  /// Some rows in their tables; what none of them knows is said below.
  void tables(const std::vector<LineUpRow>& rows, std::string caption) {
    for (const std::vector<std::string>& words : detail::line_up_split(view_.columns)) {
      Table table = detail::line_up_table(rows, words);
      if (table.columns.empty()) continue;
      table.caption = std::exchange(caption, "The panels, in the same order.");
      out_.blocks.push_back(std::move(table));
    }
    const std::vector<std::string> unknown = detail::line_up_unknown(rows, view_.columns);
    if (!unknown.empty()) paragraph("Known of none of them: " + enumerate(unknown) + ".");
  }

  void group(const LineUpGroup& g, std::size_t number) {
    const std::string count = counted(static_cast<int>(g.ranks.size()), "panel");
    heading(line_up_.groups.size() == 1
                ? "Ranked: " + count
                : fmt::format("Group {} of {}: {}", number + 1, line_up_.groups.size(), count));
    in_common(g);
    rows_of(g);
    told_apart(g);
    not_told_apart(g);
    paragraph(detail::sharpening_sentence(view_, g));
  }

  void in_common(const LineUpGroup& g) {
    Facts facts;
    for (const LineUpTrait& trait : g.traits)
      facts.items.push_back({trait.what, {plain(trait.text.empty() ? "none" : trait.text)}});
    out_.blocks.push_back(std::move(facts));
  }

  void rows_of(const LineUpGroup& g) {
    const detail::LineUpRows shown = detail::rows_shown(g);
    std::vector<LineUpRow> rows;
    for (const std::size_t i : shown.rows)
      rows.push_back({&entry(g.ranks[i].entry), g.ranks[i]});
    const std::string order = detail::order_sentence(line_up_.order);
    if (!shown.gap()) return tables(rows, order);
    const auto cut = rows.begin() + static_cast<std::ptrdiff_t>(shown.gap_before);
    tables({rows.begin(), cut}, order + fmt::format(" The first {}.", shown.gap_before));
    paragraph(fmt::format("{} more stand between these and the last {}; {}.", shown.left_out,
                          rows.end() - cut, all_elsewhere));
    tables({cut, rows.end()}, fmt::format("The last {}.", rows.end() - cut));
  }

  void told_apart(const LineUpGroup& g) {
    small_heading("Shown to differ");
    if (!g.each_with_each) return list(detail::counted_sentences(view_, g));
    const std::vector<std::string> shown = detail::shown_sentences(view_, g);
    if (shown.empty()) paragraph("No two of these panels were shown to differ.");
    list(shown);
    pairs(g);
  }

  void pairs(const LineUpGroup& g) {
    const std::size_t count = g.differences.size();
    Table t;
    t.caption = fmt::format(
        "Each pair: by how much {} of the first is {} than that of the second, in % of {}. low and "
        "high: simultaneous interval, {}{} (Bonferroni). p: adjusted for {} (Holm).",
        detail::words_of(line_up_.order).compared,
        line_up_.order == LineUpQuantity::price_per_watt ? "lower" : "larger",
        line_up_.order == LineUpQuantity::price_per_watt ? "the first" : "the second",
        percent_text(Ratio::from_si(1.0 - line_up_risk), 0),
        count == 1 ? "" : fmt::format(" for all {} pairs together", count),
        counted(static_cast<int>(count), "pair"));
    t.columns = {{"first"},
                 {"second"},
                 {"difference [%]", Align::right},
                 {"low [%]", Align::right},
                 {"high [%]", Align::right},
                 {"p", Align::right},
                 {"shown?"}};
    const int decimals = pair_decimals(g);
    const auto in_percent = [&](double log) { return fixed(100.0 * std::expm1(log), decimals); };
    for (const LineUpDifference& d : g.differences) {
      t.rows.push_back({entry(d.better).title, entry(d.worse).title, in_percent(d.difference),
                        in_percent(d.low), in_percent(d.high),
                        detail::adjusted_p_text(d.p_adjusted), d.shown ? "yes" : "no"});
    }
    out_.blocks.push_back(std::move(t));
  }

  /// One digit of the smallest uncertainty at least, tenths at most unless it takes more.
  static int pair_decimals(const LineUpGroup& g) {
    int most = 0;
    for (const LineUpDifference& d : g.differences) {
      const int two_digits = d.standard_u > 0.0 ? decimals_for(100.0 * d.standard_u) : 1;
      most = std::max({most, two_digits - 1, std::min(two_digits, 1)});
    }
    return most;
  }

  void not_told_apart(const LineUpGroup& g) {
    std::vector<std::string> sentences = detail::shared_rank_sentences(view_, g);
    const std::vector<std::string> cases = detail::intransitive_sentences(view_, g);
    sentences.insert(sentences.end(), cases.begin(), cases.end());
    if (sentences.empty()) return;
    small_heading("Not told apart");
    list(sentences);
  }

  void pictures() {
    std::vector<Figure> figures = line_up_pictures(view_);
    if (figures.empty()) return;
    heading("Pictures");
    for (Figure& figure : figures)
      out_.blocks.push_back(std::move(figure));
  }

  void unranked() {
    if (line_up_.unranked.empty()) return;
    heading("Listed and not ranked");
    reasons();
    const std::size_t shown = std::min(line_up_.unranked.size(), unranked_shown);
    std::vector<LineUpRow> rows;
    for (std::size_t i = 0; i < shown; ++i)
      rows.push_back({&entry(line_up_.unranked[i].entry), std::nullopt});
    tables(rows,
           shown < line_up_.unranked.size() ? fmt::format("The first {} as given.", shown) : "");
    if (shown < line_up_.unranked.size())
      paragraph(fmt::format("{} more are not ranked; {}.", line_up_.unranked.size() - shown,
                            all_elsewhere));
  }

  /// A reason once, with all whom it is about.
  void reasons() {
    std::vector<std::string> order;
    std::map<std::string, std::vector<std::string>> whom;
    for (const LineUpUnranked& u : line_up_.unranked) {
      const std::string reason = detail::unranked_sentence(view_, u);
      if (!whom.contains(reason)) order.push_back(reason);
      whom[reason].push_back(entry(u.entry).title);
    }
    Facts facts;
    for (std::size_t i = 0; i < std::min(order.size(), unranked_shown); ++i) {
      std::vector<std::string>& names = whom[order[i]];
      const std::size_t more = names.size() - std::min(names.size(), unranked_shown);
      names.resize(names.size() - more);
      if (more > 0) names.push_back(fmt::format("{} more", more));
      facts.items.push_back({detail::enumerated_titles(names), {plain(order[i])}});
    }
    out_.blocks.push_back(std::move(facts));
    if (order.size() > unranked_shown)
      paragraph(fmt::format("{} more reasons; {}.", order.size() - unranked_shown, all_elsewhere));
  }

  void reading() {
    heading("How to read this");
    const std::string level = common_level();
    std::vector<std::string> all;
    all.emplace_back(
        "A rank such as 2-4 is all that these tests leave open: 1 and the number of panels shown "
        "to be ahead, to the number of panels less those shown to be behind.");
    all.emplace_back(
        "Behind a word, as in damaged 4/5: places struck at least at the grade, of those named. "
        "Withstood needs all of them.");
    all.push_back(
        fmt::format("The interval of a loss{} is its record's own. Whether two of them overlap "
                    "decides nothing: in a difference, errors that both records share cancel, and "
                    "the differences decide.",
                    level.empty() ? "" : fmt::format(" ({})", level)));
    all.emplace_back(
        "p says how often tests of two panels alike would come out at least so far apart, made "
        "fit for all pairs of the group; it does not say how likely the two are to be alike. It "
        "decides: an interval may hold 0 beside a yes, since Holm's procedure is the sharper.");
    all.emplace_back(
        "u is a standard uncertainty. The power is that of the untouched panel at 1000 W/m2 and "
        "25 degC.");
    list(all);
  }

  [[nodiscard]] std::string common_level() const {
    std::vector<LineUpRow> rows;
    for (const LineUpEntry& e : *view_.entries)
      rows.push_back({&e, std::nullopt});
    return detail::common_level(rows);
  }

  const LineUpView& view_;
  const LineUp& line_up_;
  Document out_;
};

}  // namespace

Document compose_line_up(const LineUpView& view) {
  expects(view.entries != nullptr && view.line_up != nullptr, "a view with a line-up");
  return LineUpWriter(view).write();
}

}  // namespace hailwright
