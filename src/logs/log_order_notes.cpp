#include "logs/log_order_notes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <utility>
#include <vector>

#include "hailwright/core/contract.hpp"

namespace hailwright::detail {

namespace {

struct CodeWords {
  std::string_view code;
  bool unusable;          ///< a row with it is not given on
  std::string_view more;  ///< "and 7 more rows ..."
};

constexpr std::array code_words{
    CodeWords{"L10", true, "with another number of cells than the header"},
    CodeWords{"L11", true, "with a cell that is not a number"},
    CodeWords{"L12", true, "whose time cannot be read"},
    CodeWords{"L13", true, "with a value outside what an instrument shows"},
    CodeWords{"L14", true, "before the time of an earlier row"},
    CodeWords{"L15", true, "with a local time that a change of the clock skipped"},
    CodeWords{"L16", true, "with quotes that do not fit"},
    CodeWords{"L17", true, "in lines too long to be read"},
    CodeWords{"L18", true, "with bytes that are no UTF-8 text or control characters"},
    CodeWords{"L20", false, "with the time of the row before"},
    CodeWords{"L21", false, "that repeat the header"},
    CodeWords{"L22", false, "that end without a line break"},
    CodeWords{"L33", false, "with a local time that came twice, taken for the first"},
};

const CodeWords& words_for(std::string_view code) {
  const auto found = std::find_if(code_words.begin(), code_words.end(),
                                  [&](const CodeWords& w) { return w.code == code; });
  expects(found != code_words.end(), "a problem of a row has a code of rows");
  return *found;
}

bool is_unusable(std::string_view code) {
  return std::any_of(code_words.begin(), code_words.end(),
                     [&](const CodeWords& w) { return w.code == code && w.unusable; });
}

int shown_line(std::int64_t line) {
  return static_cast<int>(std::min<std::int64_t>(line, std::numeric_limits<int>::max()));
}

std::string row_count(std::int64_t count) {
  return count == 1 ? "1 row" : fmt::format("{} rows", count);
}

/// To go on without most of a log is no mend.
std::vector<std::string> mends_of(std::int64_t unusable, std::int64_t all) {
  if (2 * unusable >= all) {
    return {"so many are no slips: check that the columns, the decimal mark and the form of the "
            "times are as stated"};
  }
  return {"mend or delete these rows",
          fmt::format("or leave them out, and have the output say so: --tolerate {0}, or in a "
                      "record  tolerate: {0}",
                      unusable)};
}

}  // namespace

void LogNotes::add(const LogBlock& block, std::uint32_t file) {
  if (block.counted.empty()) return;
  tell_first(block, file);
  for (const ProblemCount& counted : block.counted) {
    counts_[counted.code] += counted.count;
    last_[counted.code] = {file, block.first_line + counted.last_line};
  }
}

void LogNotes::tell_first(const LogBlock& block, std::uint32_t file) {
  std::vector<const LogProblem*> in_order;
  for (const LogProblem& problem : block.problems)
    in_order.push_back(&problem);
  std::stable_sort(in_order.begin(), in_order.end(),
                   [](const LogProblem* a, const LogProblem* b) { return a->line < b->line; });
  for (const LogProblem* problem : in_order) {
    const CodeWords& words = words_for(problem->code);
    const std::int64_t line = block.first_line + problem->line;
    if (words.unusable && !first_unusable_) first_unusable_ = Place{file, line};
    if (++told_[problem->code] > most_problems) continue;
    sources_.keep_line(file, shown_line(line), problem->text);
    const Severity severity =
        words.unusable && tolerated_ == 0 ? Severity::error : Severity::warning;
    notes_.add({severity,
                problem->code,
                {file, shown_line(line), problem->column, problem->length},
                problem->message,
                problem->hints,
                {}});
  }
}

void LogNotes::error(std::string_view code, SourceSpan where, std::string message,
                     std::vector<std::string> hints) {
  notes_.error(code, where, std::move(message), std::move(hints));
}

void LogNotes::finish(const LogTally& tally, bool given_up) {
  say_how_many_more();
  const std::int64_t unusable = tally.unreadable + tally.out_of_order;
  if (unusable == 0) return;
  const std::int64_t all = tally.rows + unusable;
  expects(first_unusable_.has_value(), "rows that cannot be used have problems");
  const SourceSpan where{first_unusable_->file, shown_line(first_unusable_->line), 1, 1};
  if (unusable <= tolerated_ && !given_up && tally.rows > 0) {
    notes_.warning("L19", where,
                   fmt::format("{} of {} could not be used and are left out, the first in line {}; "
                               "up to {} are tolerated",
                               unusable, row_count(all), first_unusable_->line, tolerated_));
    return;
  }
  raise_to_errors();
  if (given_up) {
    notes_.error(
        "L19", where,
        fmt::format("none of the first {} could be used: reading stopped there", row_count(all)),
        {"check that the columns, the decimal mark and the form of the times are as "
         "stated"});
    return;
  }
  const std::string tolerance = tolerated_ == 0 || unusable <= tolerated_
                                    ? ""
                                    : fmt::format(", and only {} are tolerated", tolerated_);
  notes_.error("L19", where,
               fmt::format("{} of {} cannot be used, the first in line {}{}", unusable,
                           row_count(all), first_unusable_->line, tolerance),
               mends_of(unusable, all));
}

void LogNotes::say_how_many_more() {
  for (const auto& [code, count] : counts_) {
    if (count <= static_cast<std::int64_t>(most_problems)) continue;
    const CodeWords& words = words_for(code);
    const Place& last = last_.at(code);
    const Severity severity =
        words.unusable && tolerated_ == 0 ? Severity::error : Severity::warning;
    notes_.add({severity,
                code,
                {last.file, shown_line(last.line), 0, 0},
                fmt::format("and {} more {} {}, the last in line {}",
                            count - static_cast<std::int64_t>(most_problems),
                            count - static_cast<std::int64_t>(most_problems) == 1 ? "row" : "rows",
                            words.more, last.line),
                {},
                {}});
  }
}

/// What was a warning while it could still be tolerated.
void LogNotes::raise_to_errors() {
  Diagnostics raised;
  for (Diagnostic note : notes_.items()) {
    if (is_unusable(note.code)) note.severity = Severity::error;
    raised.add(std::move(note));
  }
  notes_ = std::move(raised);
}

}  // namespace hailwright::detail
