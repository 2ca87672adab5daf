#include "logs/log_analysis_notes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <string_view>
#include <utility>

#include "core/quoted.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/logs/log_stream.hpp"

namespace hailwright::detail {

namespace {

using fmt::format;

/// ": " of one fall; of several ", the first of 3 resets: ", with how much they are together.
std::string first_of(std::int64_t count, const char* plural, const std::string& together = {}) {
  if (count == 1) return ": ";
  const std::string sum = together.empty() ? together : format(", {} together", together);
  return format(", the first of {} {}{}: ", count, plural, sum);
}

/// A count and its word: "1 row", "3 rows".
std::string counted(std::int64_t count, const char* word) {
  const std::string_view plural = std::string_view(word).ends_with('h') ? "es" : "s";
  return format("{} {}{}", count, word, count == 1 ? "" : plural);
}

/// `in "before 1"`, or nothing for the whole log.
std::string within(const std::string& name) {
  return name.empty() ? std::string() : " in " + quoted(name);
}

/// "; 84 rows were removed: 12 since irradiance changed, 72 in windows ..."; nothing where no row
/// was. The reasons are those of the steady rule; a window that it cannot judge is not unsteady.
std::string why_fewer(const LogStretch& stretch) {
  if (!stretch.steady) return {};
  const SteadyTally& tally = *stretch.steady;
  const std::array reasons{
      std::pair{tally.rows_irradiance, "since irradiance changed"},
      std::pair{tally.rows_ramp, "since irradiance drifted"},
      std::pair{tally.rows_temperature, "since temperature changed"},
      std::pair{tally.rows_broken,
                "in windows with a gap, cut short, or with too few rows that have irradiance"}};
  std::string why;
  std::int64_t removed = 0;
  for (const auto& [rows, reason] : reasons) {
    if (rows == 0) continue;
    removed += rows;
    why += format("{}{} {}", why.empty() ? "" : ", ", rows, reason);
  }
  if (removed == 0) return {};
  return format("; {} {} removed: {}", counted(removed, "row"), removed == 1 ? "was" : "were", why);
}

/// ": the counter shows 3.5 % less"; nothing where the integral is 0 or below. Of the integral, as
/// the page and the JSON output have it.
std::string share_apart(double counted_j, double integral_j) {
  if (integral_j <= 0.0) return {};
  const double share = (counted_j - integral_j) / integral_j;
  return format(": the counter shows {} % {}", significant(100.0 * std::fabs(share), 2),
                share < 0.0 ? "less" : "more");
}

class Warnings {
public:
  Warnings(const LogCourse& course, Diagnostics& notes) : course_(course), notes_(notes) {}

  void gaps() const;
  void counter_falls() const;
  void clipping() const;
  void disagreement() const;
  void spans() const;
  void returns() const;
  void short_stretches() const;
  void too_many() const;

private:
  void warn_of_fall(const std::optional<CounterFall>& fall, const char* does,
                    const std::string& meaning, std::vector<std::string> hints) const;
  [[nodiscard]] SourceSpan at(LogPlace place) const;
  [[nodiscard]] std::string when(std::int64_t time_us) const;
  [[nodiscard]] SourceSpan somewhere() const { return {course_.question.first_file, 0, 0, 0}; }
  void warn_of_gaps(const std::vector<const LogStretch*>& of, const std::string& whose) const;
  bool clips(const LogStretch& stretch, SourceSpan where) const;
  void warn_of_clipping(const LogClipping& met, const char* panel, const std::string& name,
                        SourceSpan where) const;
  bool disagrees(const LogStretch& stretch, SourceSpan where) const;
  void few_rows(const CutStretch& cut) const;
  void not_kept(const LogStretch& stretch, SourceSpan where) const;

  const LogCourse& course_;
  Diagnostics& notes_;
};

SourceSpan Warnings::at(LogPlace place) const {
  const std::int64_t line = std::min<std::int64_t>(place.line, std::numeric_limits<int>::max());
  return {course_.question.first_file + static_cast<std::uint32_t>(place.file),
          static_cast<int>(line), 1, 0};
}

std::string Warnings::when(std::int64_t time_us) const {
  return iso_time(time_us, course_.question.zone);
}

/// The time between stretches that were cut out is in no number of theirs.
void Warnings::gaps() const {
  if (course_.question.cut.kind == LogCut::Kind::whole) {
    warn_of_gaps({&course_.whole}, "the log");
    return;
  }
  std::vector<const LogStretch*> broken;
  for (const CutStretch& cut : course_.cut.stretches) {
    if (cut.stretch.gaps > 0) broken.push_back(&cut.stretch);
  }
  warn_of_gaps(broken, broken.size() == 1
                           ? quoted(broken.front()->name)
                           : counted(static_cast<std::int64_t>(broken.size()), "stretch"));
}

void Warnings::warn_of_gaps(const std::vector<const LogStretch*>& of,
                            const std::string& whose) const {
  std::int64_t gaps = 0;
  double in_gaps_s = 0.0;
  double all_s = 0.0;
  const LogGap* longest = nullptr;
  for (const LogStretch* s : of) {
    gaps += s->gaps;
    in_gaps_s += s->in_gaps_s;
    all_s += static_cast<double>(s->to_us - s->from_us) * 1e-6;
    if (s->longest_gaps.empty()) continue;
    const LogGap& gap = s->longest_gaps.front();
    if (longest == nullptr || gap.seconds() > longest->seconds()) longest = &gap;
  }
  if (gaps == 0 || longest == nullptr) return;
  notes_.warning(
      "L23", at({longest->file, longest->line}),
      format("{} longer than {}, together {} ({} % of {}), not bridged; the longest, {} from {} to "
             "{}, ends in this line",
             counted(gaps, "gap"), duration_words(course_.question.rules.longest_gap.si()),
             duration_words(in_gaps_s), significant(100.0 * in_gaps_s / all_s, 2), whose,
             duration_words(longest->seconds()), when(longest->from_us), when(longest->to_us)));
}

void Warnings::counter_falls() const {
  const std::optional<CounterReading>& counter = course_.whole.counter;
  if (!counter) return;
  if (counter->resets > 0) {
    warn_of_fall(
        course_.falls.reset, "falls",
        format("{}taken for a reset, after which it counts from 0",
               first_of(counter->resets, "resets")),
        {"if it begins anew at a fixed value, state that value: --counter-wraps, or in a record  "
         "wraps_at"});
  }
  if (counter->wraps > 0) {
    warn_of_fall(course_.falls.wrap, "falls",
                 format("{}taken for a wrap-around", first_of(counter->wraps, "wrap-arounds")), {});
  }
  if (counter->steps_back > 0) {
    warn_of_fall(
        course_.falls.back, "steps back",
        format("{}nothing is counted for {}",
               first_of(counter->steps_back, "steps back", in_unit(counter->stepped_back, "Wh", 3)),
               counter->steps_back == 1 ? "it" : "them"),
        {});
  }
}

void Warnings::warn_of_fall(const std::optional<CounterFall>& fall, const char* does,
                            const std::string& meaning, std::vector<std::string> hints) const {
  const std::string from_to =
      fall ? format(" from {} to {}", in_unit(fall->from_j, Measure::energy, "Wh", 3),
                    in_unit(fall->to_j, Measure::energy, "Wh", 3))
           : std::string();
  notes_.warning("L24", fall ? at(fall->place) : somewhere(),
                 format("the energy counter {}{}{}", does, from_to, meaning), std::move(hints));
}

void Warnings::clipping() const {
  if (clips(course_.whole, somewhere())) return;
  for (const CutStretch& cut : course_.cut.stretches)
    clips(cut.stretch, at(cut.place));
}

bool Warnings::clips(const LogStretch& stretch, SourceSpan where) const {
  if (stretch.clipping) warn_of_clipping(*stretch.clipping, "power", stretch.name, where);
  if (stretch.clipping_beside)
    warn_of_clipping(*stretch.clipping_beside, "power beside", stretch.name, where);
  return stretch.clipping || stretch.clipping_beside;
}

void Warnings::warn_of_clipping(const LogClipping& met, const char* panel, const std::string& name,
                                SourceSpan where) const {
  notes_.warning("L25", where,
                 format("{}{} stays near {} W while irradiance rises from {} to {} W/m2 ({}): the "
                        "load sets it, not the panel",
                        panel, within(name), significant(met.level.si(), 3),
                        significant(met.from.si(), 3), significant(met.to.si(), 3),
                        counted(met.rows, "row")),
                 {"leave those rows out, or measure with a load that takes all the power"});
}

void Warnings::disagreement() const {
  const CounterFalls& falls = course_.falls;
  const std::optional<CounterFall>& fall = falls.reset  ? falls.reset
                                           : falls.back ? falls.back
                                                        : falls.wrap;
  if (disagrees(course_.whole, fall ? at(fall->place) : somewhere())) return;
  for (const CutStretch& cut : course_.cut.stretches)
    disagrees(cut.stretch, at(cut.place));
}

bool Warnings::disagrees(const LogStretch& stretch, SourceSpan where) const {
  if (!stretch.counter || stretch.counter->rows < 2 || stretch.bridged_s <= 0.0) return false;
  const double counted_j = stretch.counter->counted.si() - stretch.counter->in_gaps.si();
  const double integral_j = stretch.energy.si();
  const double apart_j = std::fabs(counted_j - integral_j);
  const double agrees_j = counter_agrees * std::fabs(integral_j);
  if (apart_j <= std::max(agrees_j, stretch.counter->step_j)) return false;
  notes_.warning("L26", where,
                 format("the energy counter says {}{}, the integral of power over the same time "
                        "{}{}",
                        in_unit(counted_j, Measure::energy, "Wh", 3), within(stretch.name),
                        in_unit(integral_j, Measure::energy, "Wh", 3),
                        share_apart(counted_j, integral_j)),
                 {"see whether both columns have the unit that is stated, and whether the counter "
                  "counts this panel alone"});
  return true;
}

void Warnings::spans() const {
  const LogStretch& whole = course_.whole;
  const std::string log = whole.rows == 0 ? "the log has none"
                                          : format("the log runs from {} to {}",
                                                   when(whole.from_us), when(whole.to_us));
  for (const LogSpan& span : course_.cut.remarks.without_rows)
    notes_.warning("L27", span.origin,
                   format("{} has no rows from {} to {}: {}", quoted(span.name), when(span.from_us),
                          when(span.to_us), log),
                   {"see whether the zone of the stamps is the one that is stated"});
  for (const CutRemarks::Beyond& beyond : course_.cut.remarks.beyond) {
    std::string how;
    if (beyond.before_s > 0.0) how = format("begins {} before", duration_words(beyond.before_s));
    if (beyond.after_s > 0.0)
      how += format("{}ends {} after", how.empty() ? "" : " and ", duration_words(beyond.after_s));
    notes_.warning("L27", beyond.span.origin,
                   format("{} {} the log: {}", quoted(beyond.span.name), how, log));
  }
}

void Warnings::returns() const {
  const std::vector<CutRemarks::Return>& all = course_.cut.remarks.returns;
  const std::size_t told = std::min(all.size(), most_problems);
  for (std::size_t i = 0; i < told; ++i)
    notes_.warning("L28", at(all[i].place),
                   format("marker {} comes back after other rows: this is another stretch, named "
                          "{}",
                          quoted(all[i].text), quoted(all[i].name)),
                   {"give each set-up a marker of its own"});
  if (told == all.size()) return;
  const auto more = static_cast<std::int64_t>(all.size() - told);
  notes_.warning("L28", at(all.back().place),
                 format("and {} that {} back, the last in this line", counted(more, "more marker"),
                        more == 1 ? "comes" : "come"));
}

void Warnings::short_stretches() const {
  for (const CutStretch& cut : course_.cut.stretches) {
    few_rows(cut);
    if (!cut.complete) not_kept(cut.stretch, at(cut.place));
  }
  if (!course_.whole_complete) not_kept(course_.whole, somewhere());
  const CutRemarks& remarks = course_.cut.remarks;
  if (remarks.too_short == 0) return;
  notes_.warning("L29", at(remarks.first_too_short),
                 format("{} with the load on {} left out, the first from this line: less than {} "
                        "of steady time, {} at most",
                        counted(remarks.too_short, "stretch"),
                        remarks.too_short == 1 ? "is" : "are",
                        duration_words(course_.question.cut.plateaus.shortest.si()),
                        duration_words(remarks.longest_too_short_s)));
}

void Warnings::few_rows(const CutStretch& cut) const {
  const LogStretch& stretch = cut.stretch;
  const std::int64_t rows = stretch.power_series.count;
  if (rows >= fewest_rows) return;
  std::string message =
      rows == 0 ? format("no row of {} counts", quoted(stretch.name))
                : format("only {} of {} {}: fewer than {} do not show how much their mean scatters",
                         counted(rows, "row"), quoted(stretch.name), rows == 1 ? "counts" : "count",
                         fewest_rows);
  message += why_fewer(stretch);
  notes_.warning("L29", at(cut.place), std::move(message));
}

void Warnings::not_kept(const LogStretch& stretch, SourceSpan where) const {
  notes_.warning("L29", where,
                 format("only {} of the {} rows{} are kept one by one: {} are the most; all of "
                        "them are in its sums and means",
                        stretch.kept.size(), stretch.rows, within(stretch.name),
                        course_.question.kept_rows),
                 {"cut shorter stretches, or log at longer steps"});
}

void Warnings::too_many() const {
  const CutRemarks& remarks = course_.cut.remarks;
  if (remarks.too_many == 0) return;
  notes_.error("L32", at(remarks.first_too_many),
               format("more than {} stretches: {} from this line on {} not measured",
                      most_stretches, counted(remarks.too_many, "more stretch"),
                      remarks.too_many == 1 ? "is" : "are"),
               {course_.question.cut.kind == LogCut::Kind::markers
                    ? "see whether the column of markers holds words that name set-ups"
                    : "state longer interruptions, or cut by times"});
}

std::string in_two(std::int64_t amount, std::int64_t part, const char* large, const char* small) {
  std::string words = format("{} {}", amount / part, large);
  if (amount % part != 0) words += format(" {} {}", amount % part, small);
  return words;
}

}  // namespace

std::string duration_words(double seconds) {
  if (seconds < 59.95) return format("{:.3g} s", seconds);
  const auto whole = static_cast<std::int64_t>(std::llround(seconds));
  if (whole < 3600) return in_two(whole, 60, "min", "s");
  constexpr std::int64_t minutes_a_day = 1440;
  const std::int64_t minutes = (whole + 30) / 60;
  if (minutes < minutes_a_day) return in_two(minutes, 60, "h", "min");
  return in_two((minutes + 30) / 60, 24, "d", "h");
}

void warn_of(const LogCourse& course, Diagnostics& notes) {
  const Warnings warnings(course, notes);
  warnings.gaps();
  warnings.counter_falls();
  warnings.clipping();
  warnings.disagreement();
  warnings.spans();
  warnings.returns();
  warnings.short_stretches();
  warnings.too_many();
}

}  // namespace hailwright::detail
