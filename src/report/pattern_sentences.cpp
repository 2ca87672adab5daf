#include "report/pattern_sentences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string signed_percent(Ratio change) {
  return fmt::format("{:+.1f} %", 100.0 * change.si());
}

/// "4 times", "30 times", "more than a million times".
std::string times_text(double times) {
  constexpr double most = 1e6;
  if (!(times < most)) return "more than a million times";
  const double step = times < 10.0 ? 1.0 : std::pow(10.0, std::floor(std::log10(times)) - 1.0);
  return fmt::format("{:.0f} times", std::floor(times / step) * step);
}

std::string names_of(const std::vector<CurvePattern>& patterns) {
  std::vector<std::string> names;
  for (const CurvePattern p : patterns)
    names.push_back(pattern_name(p));
  return enumerate(names);
}

const PatternFit* fit_of(const LossPattern& p, CurvePattern pattern) {
  for (const PatternFit& fit : p.fits) {
    if (fit.pattern == pattern) return &fit;
  }
  return nullptr;
}

/// The best pattern other than this one; "no change" is none.
const PatternFit* next_best(const LossPattern& p, CurvePattern named) {
  for (const PatternFit& fit : p.fits) {
    if (fit.pattern && *fit.pattern != named) return &fit;
  }
  return nullptr;
}

std::string named_sentence(const LossPattern& p) {
  const CurvePattern named = p.named.front();
  const PatternFit& fit = *fit_of(p, named);
  std::string text = fmt::format("The change suggests {} ({}): that fits {} better than no change",
                                 pattern_name(named), pattern_size(named, fit.size),
                                 times_text(times_better(fit, p.no_change())));
  if (const PatternFit* next = next_best(p, named)) {
    text += fmt::format(" and {} better than the next pattern, {}",
                        times_text(times_better(fit, *next)), pattern_name(*next->pattern));
  }
  return text + ". Damage that is not in this list can look the same.";
}

std::string nothing_sentence(const LossPattern& p) {
  std::string text = fmt::format("Nothing is resolvable: no pattern fits {:.0f} times better than "
                                 "no change",
                                 pattern_bounds::over_nothing);
  const PatternFit& best = p.fits.front();
  if (best.pattern) {
    text += fmt::format("; the best, {}, fits {} better", pattern_name(*best.pattern),
                        times_text(std::max(1.0, times_better(best, p.no_change()))));
  }
  return text + ". A change within the intervals above stays unseen.";
}

const CurveChange* change_of(const LossPattern& p, CurveFigure figure) {
  for (const CurveChange& c : p.changes) {
    if (c.figure == figure) return &c;
  }
  return nullptr;
}

std::string reason_left_out(CurvePattern pattern, const AssumedPanel& panel) {
  if (pattern != CurvePattern::substring_gone) return "the panel is taken to be a single cell";
  return panel.substrings == 0 ? "the panel file does not say how many substrings there are; write "
                                 "substrings: 2"
                               : "the panel has one substring";
}

}  // namespace

std::string figure_name(CurveFigure figure) {
  switch (figure) {
  case CurveFigure::open_voltage:
    return "open-circuit voltage";
  case CurveFigure::short_current:
    return "short-circuit current";
  case CurveFigure::voltage_at_maximum:
    return "voltage at maximum power";
  case CurveFigure::current_at_maximum:
    return "current at maximum power";
  }
  return {};
}

std::string figure_unit(CurveFigure figure) {
  return figure == CurveFigure::open_voltage || figure == CurveFigure::voltage_at_maximum ? "V"
                                                                                          : "A";
}

std::string pattern_name(CurvePattern pattern) {
  switch (pattern) {
  case CurvePattern::substring_gone:
    return "one substring gone";
  case CurvePattern::part_of_one_cell:
    return "part of one cell cut off";
  case CurvePattern::all_cells_less:
    return "less current from all cells alike";
  case CurvePattern::series_resistance:
    return "added series resistance";
  case CurvePattern::shunt:
    return "a lower shunt resistance";
  }
  return {};
}

std::string pattern_size(CurvePattern pattern, double size) {
  switch (pattern) {
  case CurvePattern::substring_gone:
    return fmt::format("the way around it takes about {:.1f} V", size);
  case CurvePattern::part_of_one_cell:
    return fmt::format("about {:.0f} % of it", 100.0 * size);
  case CurvePattern::all_cells_less:
    return fmt::format("about {} % less", plain_number(100.0 * size, 2));
  case CurvePattern::series_resistance:
    return fmt::format("about {} ohm", plain_number(size, 2));
  case CurvePattern::shunt:
    return fmt::format("as by about {} ohm across the panel", plain_number(1.0 / size, 2));
  }
  return {};
}

std::string change_text(double log_change) {
  const double percent = 100.0 * std::expm1(log_change);
  return fmt::format("{} {:.1f} %", percent < 0.0 ? "down" : "up", std::abs(percent));
}

std::string change_sentence(const CurveChange& change) {
  const std::string unit = figure_unit(change.figure);
  return fmt::format("{}: {:.2f} {} before, {:.2f} {} after, {} (95 %: {} to {})",
                     figure_name(change.figure), change.mean_before, unit, change.mean_after, unit,
                     change_text(change.log_change), signed_percent(change.low),
                     signed_percent(change.high));
}

std::string pattern_sentence(const LossPattern& p) {
  switch (p.word) {
  case PatternWord::named:
    return named_sentence(p);
  case PatternWord::alike:
    return fmt::format("The change fits {} nearly alike, none {:.0f} times better than the "
                       "others, and the best of them {} better than no change.",
                       names_of(p.named), pattern_bounds::told_apart,
                       times_text(times_better(p.fits.front(), p.no_change())));
  case PatternWord::nothing_resolvable:
    return nothing_sentence(p);
  case PatternWord::none_fits:
    return "Something changed that fits none of these patterns, and \"no change\" does not fit "
           "either: several things at once, damage of another kind, or a slip in a reading.";
  }
  return {};
}

std::vector<std::string> pattern_remarks(const LossPattern& p) {
  std::vector<std::string> lines;
  std::vector<std::string> tell;
  std::vector<std::string> missing;
  for (const CurveFigure f : p.would_tell)
    tell.push_back(figure_name(f));
  if (!tell.empty()) {
    lines.push_back(fmt::format("They cannot be told apart by what was read: they differ in {}, "
                                "which was not read before and after.",
                                enumerate(tell)));
  }
  for (const CurveFigure f : p.missing)
    missing.push_back(figure_name(f));
  if (!missing.empty()) lines.push_back("Not read before and after: " + enumerate(missing) + ".");
  if (p.scatter_assumed) {
    lines.push_back("The scatter of the readings is not known: it takes five readings of each "
                    "figure over both stages, three and two.");
  }
  return lines;
}

std::vector<std::string> curve_power_sentences(const LossPattern& p, const Assessment& a) {
  if (!p.power) return {};
  std::vector<std::string> lines{
      fmt::format("By voltage and current at the maximum it is {} (95 %: {} to {}).",
                  change_text(p.power->log_change), signed_percent(p.power->low),
                  signed_percent(p.power->high))};
  if (a.power.empty()) return lines;
  if (const auto agrees = agrees_with_power(p, a.power.back())) {
    lines.push_back(fmt::format(
        "The loss judged from the readings of power was {}: {}.",
        percent_text(a.power.back().estimate.loss()),
        *agrees ? "the two agree as well as both are known"
                : "the two differ by more than both leave open, so one of them is wrong"));
  }
  return lines;
}

std::vector<std::string> kept_voltage_sentences(const LossPattern& p) {
  if (!p.voltage_kept) return {};
  const CurveChange& open = *change_of(p, CurveFigure::open_voltage);
  // An interval wider than that hides a change that would need explaining [ours].
  constexpr double narrow = 0.02;
  if ((open.high - open.low).si() / 2.0 > narrow) return {};
  return {fmt::format(
              "The maximum power fell, and no change of the open-circuit voltage was shown ({} to "
              "{}). That is no contradiction: at open circuit nothing flows through joints and "
              "fingers, and the voltage follows the logarithm of the current. All cells with a "
              "tenth less current lose a tenth of the power and only about {:.1f} % of this "
              "voltage.",
              signed_percent(open.low), signed_percent(open.high),
              -100.0 * p.panel.voltage_per_log_current() * std::log(0.9)),
          "So the open-circuit voltage alone says little about a panel."};
}

std::vector<std::string> left_out_sentences(const LossPattern& p) {
  std::vector<std::string> lines;
  for (const CurvePattern pattern : p.left_out)
    lines.push_back(pattern_name(pattern) + ": " + reason_left_out(pattern, p.panel));
  if (p.panel.substrings == 0)
    lines.push_back("part of one cell cut off: weighed as without bypass diodes");
  return lines;
}

std::vector<std::string> pattern_basis(const LossPattern& p) {
  std::vector<std::string> lines{fmt::format(
      "predictions: {} equal cells in series by the single-diode model, scaled to the panel; each "
      "is taken to be right within {:.0f} % of its largest change (standard), ours",
      p.panel.cells, 100.0 * pattern_bounds::prediction_share)};
  const auto add = [&](bool assumed, const char* words) {
    if (assumed) lines.emplace_back(words);
  };
  add(p.panel.cells_assumed, "number of cells: the panel file has no grid, so 0.61 V a cell, ours");
  add(p.panel.voltage_assumed, "open-circuit voltage of the panel: 0.61 V a cell, ours");
  add(p.panel.current_assumed, "short-circuit current of the panel: 5 A, ours");
  add(p.panel.power_assumed, "fill factor of the panel: 0.75, ours");
  add(p.panel.power_out_of_reach,
      "power of the panel: no cells of this voltage and current make it; the nearest is taken");
  lines.insert(lines.end(), p.assumed.begin(), p.assumed.end());
  return lines;
}

}  // namespace hailwright
