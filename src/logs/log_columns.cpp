#include "logs/log_columns.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/quoted.hpp"
#include "logs/log_roles.hpp"
#include "logs/log_stamps.hpp"

namespace hailwright::detail {

namespace {

std::string units_in_words(Measure measure) {
  std::vector<std::string_view> symbols;
  for (const Unit& unit : units()) {
    if (unit.measure == measure) symbols.push_back(unit.symbol);
  }
  return fmt::format("{}", fmt::join(symbols, ", "));
}

/// The first unit of the table, for examples.
std::string_view example_unit(Measure measure) {
  const auto found = std::find_if(units().begin(), units().end(),
                                  [&](const Unit& unit) { return unit.measure == measure; });
  return measure == Measure::energy ? "Wh" : found->symbol;
}

/// How a column is stated in a column map.
std::string as_stated(LogRole role, std::string_view header, std::string_view unit) {
  if (unit.empty()) return fmt::format("{}: {}", word_of(role), quoted(header));
  return fmt::format("{}: {{name: {}, unit: {}}}", word_of(role), quoted(header), unit);
}

/// What to do about a header without a unit. What stands where the unit would may be one that is
/// not read: then no other may be stated in its place.
std::vector<std::string> mends_of_unit(LogRole role, const LogHeader& header) {
  const Measure measure = *measure_of(role);
  const std::string state =
      "state the columns with  " + as_stated(role, header.whole, example_unit(measure));
  if (header.not_read.empty())
    return {fmt::format("write its unit into the header, as in  {} {}, or {}", header.whole,
                        example_unit(measure), state),
            fmt::format("known are {}", units_in_words(measure))};
  return {fmt::format("if {} is the unit of its numbers: export them in one of {}, or name another "
                      "column",
                      header.not_read, units_in_words(measure)),
          fmt::format("if {} is no unit: {}", header.not_read, state)};
}

std::string words_of_no_unit(LogRole role, const LogHeader& header) {
  if (header.not_read.empty())
    return fmt::format("the column {} has no unit", quoted(header.whole));
  return fmt::format("the column {} has no unit that is read: {} is no unit of {}",
                     quoted(header.whole), quoted(header.not_read), name(*measure_of(role)));
}

bool has(const std::vector<LogColumn>& columns, LogRole role) {
  return std::any_of(columns.begin(), columns.end(),
                     [&](const LogColumn& column) { return column.role == role; });
}

bool tells_time(const std::vector<LogColumn>& columns) {
  return has(columns, LogRole::time) ||
         (has(columns, LogRole::date) && has(columns, LogRole::clock));
}

bool has_something_to_measure(const std::vector<LogColumn>& columns) {
  const bool parts = has(columns, LogRole::voltage) && has(columns, LogRole::current);
  return parts || has(columns, LogRole::power) || has(columns, LogRole::irradiance) ||
         has(columns, LogRole::energy);
}

/// The two ways to columns, with what both check.
class ColumnFinder {
public:
  ColumnFinder(const LogLayout& layout, const LogFormat& stated, HeadNotes& notes)
      : layout_(layout), stated_(stated), notes_(notes), candidates_(role_candidates(layout)) {}

  std::optional<std::vector<LogColumn>> find();

private:
  void take_stated(const LogColumnChoice& choice);
  std::optional<std::size_t> place_of(const LogColumnChoice& choice);
  const Unit* unit_of(const LogColumnChoice& choice, std::size_t place);
  void check_against_header(const LogColumnChoice& choice, const Unit& unit, std::size_t place);
  void report_missing_unit(const LogColumnChoice& choice, std::size_t place);

  void take_candidates();
  void take_candidate(LogRole role);
  [[nodiscard]] bool wanted(LogRole role) const;
  void report_several(LogRole role, const std::vector<RoleCandidate>& found);
  void report_no_unit(const RoleCandidate& candidate);

  void check_enough();
  void warn_of_power_left_out();
  [[nodiscard]] std::vector<std::string> columns_of_time() const;
  [[nodiscard]] const HeadCell& first_time_cell() const;
  void report_no_time();
  void fail() { failed_ = true; }

  const LogLayout& layout_;
  const LogFormat& stated_;
  HeadNotes& notes_;
  std::vector<RoleCandidate> candidates_;
  std::vector<LogColumn> columns_;
  bool failed_ = false;
};

std::optional<std::vector<LogColumn>> ColumnFinder::find() {
  if (stated_.columns.empty()) {
    take_candidates();
  } else {
    for (const LogColumnChoice& choice : stated_.columns)
      take_stated(choice);
  }
  if (!failed_) check_enough();
  if (failed_) return std::nullopt;
  return columns_;
}

void ColumnFinder::take_stated(const LogColumnChoice& choice) {
  const std::optional<std::size_t> place = place_of(choice);
  if (!place) return fail();
  const Unit* unit = nullptr;
  if (measure_of(choice.role)) {
    unit = unit_of(choice, *place);
    if (unit == nullptr) return fail();
  }
  columns_.push_back(
      {choice.role, *place, unit == nullptr ? Unit{} : *unit, layout_.header_cells[*place].text});
}

std::optional<std::size_t> ColumnFinder::place_of(const LogColumnChoice& choice) {
  const std::string wanted = trimmed(choice.header);
  std::vector<std::size_t> places;
  std::vector<std::string> known;
  for (std::size_t i = 0; i < layout_.header_cells.size(); ++i) {
    known.push_back(layout_.header_cells[i].text);
    if (known.back() == wanted) places.push_back(i);
  }
  if (places.size() == 1) return places.front();
  if (places.empty()) {
    std::vector<std::string> hints;
    if (const auto near = nearest_word(wanted, known))
      hints.push_back(fmt::format("write {}", quoted(*near)));
    Diagnostic& error = notes_.error(
        "L03", choice.origin, fmt::format("the log has no column {}", quoted(wanted)), hints);
    error.related.push_back(
        {notes_.span(layout_.header_line, {{}, 0, layout_.header_line.text.size()}),
         "its columns are these"});
    return std::nullopt;
  }
  notes_
      .error("L03", choice.origin,
             fmt::format("the log has {} columns {}", places.size(), quoted(wanted)),
             {"give one of them another name in the line of headers of the file"})
      .related.push_back({notes_.span(layout_.header_line, layout_.header_cells[places[1]]),
                          "here the second time"});
  return std::nullopt;
}

const Unit* ColumnFinder::unit_of(const LogColumnChoice& choice, std::size_t place) {
  const Measure measure = *measure_of(choice.role);
  const LogHeader& header = layout_.headers[place];
  if (choice.unit.empty()) {
    const Unit* unit = header.unit.empty() ? nullptr : logger_unit(header.unit, measure);
    if (unit == nullptr) report_missing_unit(choice, place);
    return unit;
  }
  const Unit* unit = logger_unit(choice.unit, measure);
  if (unit == nullptr) {
    notes_.error("L04", choice.origin,
                 fmt::format("{} is no unit of {}", quoted(choice.unit), name(measure)),
                 {fmt::format("known are {}", units_in_words(measure))});
  } else {
    check_against_header(choice, *unit, place);
  }
  return unit;
}

/// What is stated counts; that the header says otherwise is said.
void ColumnFinder::check_against_header(const LogColumnChoice& choice, const Unit& unit,
                                        std::size_t place) {
  const LogHeader& header = layout_.headers[place];
  if (header.unit.empty()) return;
  const Unit* there = logger_unit(header.unit, unit.measure);
  if (there != nullptr && there->factor == unit.factor && there->offset == unit.offset) return;
  // One letter at the end of a name is as likely part of it: "panel A" is no current.
  if (there == nullptr && !header.unit_apart && header.unit.size() == 1) return;
  const std::string mend = there == nullptr ? "name another column" : "delete the unit here";
  Diagnostic& warning = notes_.notes().warning(
      "L04", choice.origin,
      fmt::format("the header {} says {}{}; its numbers are read as {}, as stated",
                  quoted(header.whole), header.unit,
                  there == nullptr ? fmt::format(", no unit of {}", name(unit.measure)) : "",
                  choice.unit),
      {mend + " if the header is right",
       "if the logger writes a wrong unit there, leave it so: what is stated counts"});
  warning.related.push_back(
      {notes_.span(layout_.header_line, layout_.header_cells[place]), "the header"});
}

void ColumnFinder::report_missing_unit(const LogColumnChoice& choice, std::size_t place) {
  const LogHeader& header = layout_.headers[place];
  if (header.unit.empty()) {
    notes_.error("L04", choice.origin, words_of_no_unit(choice.role, header),
                 mends_of_unit(choice.role, header));
    return;
  }
  const Measure measure = *measure_of(choice.role);
  std::vector<std::string> hints{"name another column: this one holds something else"};
  if (!header.unit_apart)
    hints.push_back(fmt::format("if {} is no unit there: {}", header.unit,
                                as_stated(choice.role, header.whole, example_unit(measure))));
  hints.push_back(fmt::format("known are {}", units_in_words(measure)));
  notes_.error("L04", choice.origin,
               fmt::format("{} of the column {} is no unit of {}", quoted(header.unit),
                           quoted(header.whole), name(measure)),
               std::move(hints));
}

void ColumnFinder::take_candidates() {
  for (std::size_t i = 0; i < log_roles; ++i)
    take_candidate(static_cast<LogRole>(i));
}

/// Voltage and current are only needed where no column has the power, date and clock where none has
/// both.
bool ColumnFinder::wanted(LogRole role) const {
  if (role == LogRole::voltage || role == LogRole::current)
    return candidates_for(LogRole::power, candidates_).empty();
  if (role == LogRole::date || role == LogRole::clock)
    return candidates_for(LogRole::time, candidates_).empty();
  return true;
}

void ColumnFinder::take_candidate(LogRole role) {
  if (!wanted(role)) return;
  const std::vector<RoleCandidate> found = candidates_for(role, candidates_);
  if (found.empty()) return;
  if (found.size() > 1) return report_several(role, found);
  const RoleCandidate& only = found.front();
  if (measure_of(role) && only.unit == nullptr) return report_no_unit(only);
  columns_.push_back({role, only.column, only.unit == nullptr ? Unit{} : *only.unit,
                      layout_.header_cells[only.column].text});
}

void ColumnFinder::report_several(LogRole role, const std::vector<RoleCandidate>& found) {
  const auto header = [&](const RoleCandidate& each) {
    return layout_.header_cells[each.column].text;
  };
  std::vector<std::string> hints;
  if (header(found[0]) == header(found[1])) {
    // To state a header that stands there twice says nothing.
    hints.emplace_back("give one of them another name in the line of headers of the file");
  } else {
    hints.emplace_back("state the columns:  columns:");
    for (const RoleCandidate& each : found)
      hints.push_back(fmt::format("  {}", as_stated(role, header(each), "")));
    hints.emplace_back("with one of these lines, and one line for every other column to be read");
  }
  notes_
      .error("L03", layout_.header_line, layout_.header_cells[found[1].column],
             fmt::format("{} and {} could both be the {}", quoted(header(found[0])),
                         quoted(header(found[1])), word_of(role)),
             std::move(hints))
      .related.push_back({notes_.span(layout_.header_line, layout_.header_cells[found[0].column]),
                          "the first stands here"});
  fail();
}

void ColumnFinder::report_no_unit(const RoleCandidate& candidate) {
  const LogHeader& header = layout_.headers[candidate.column];
  notes_.error("L04", layout_.header_line, layout_.header_cells[candidate.column],
               words_of_no_unit(candidate.role, header), mends_of_unit(candidate.role, header));
  fail();
}

void ColumnFinder::check_enough() {
  if (!tells_time(columns_)) {
    report_no_time();
    return fail();
  }
  if (has_something_to_measure(columns_)) return warn_of_power_left_out();
  const std::vector<std::string> hints{
      "name the column of the power, voltage and current, irradiance or energy, as in  " +
      as_stated(LogRole::power, "P (W)", "")};
  if (stated_.columns.empty()) {
    notes_.error("L09", layout_.header_line, "no column tells what to measure", hints);
  } else {
    notes_.error("L09", stated_.origin, "no column is stated that tells what to measure", hints);
  }
  fail();
}

/// A header such as "Panel W": its unit is that of a power, its name does not say of what.
void ColumnFinder::warn_of_power_left_out() {
  if (!stated_.columns.empty() || has(columns_, LogRole::power) || has(columns_, LogRole::current))
    return;
  for (std::size_t i = 0; i < layout_.headers.size(); ++i) {
    const std::string& unit = layout_.headers[i].unit;
    if (unit.empty() || logger_unit(unit, Measure::power) == nullptr) continue;
    notes_.notes().warning(
        "L03", notes_.span(layout_.header_line, layout_.header_cells[i]),
        fmt::format("no column is read as power; {} could be it", quoted(layout_.headers[i].whole)),
        {fmt::format("call it power {}, or state the columns:  {}", unit,
                     as_stated(LogRole::power, layout_.header_cells[i].text, ""))});
    return;
  }
}

/// A column that could tell the time, as it would be stated; of date and clock both are needed.
std::vector<std::string> ColumnFinder::columns_of_time() const {
  std::vector<LogRole> roles{LogRole::time};
  if (!candidates_for(LogRole::date, candidates_).empty() &&
      !candidates_for(LogRole::clock, candidates_).empty())
    roles.insert(roles.end(), {LogRole::date, LogRole::clock});
  std::vector<std::string> columns;
  for (const LogRole role : roles) {
    for (const RoleCandidate& each : candidates_for(role, candidates_))
      columns.push_back(
          fmt::format("write  {}", as_stated(role, layout_.header_cells[each.column].text, "")));
  }
  return columns;
}

/// The first cell of what is likely the column of the time: in nearly every log the first one.
const HeadCell& ColumnFinder::first_time_cell() const {
  const HeadRow& row = layout_.rows.front();
  for (const LogRole role : {LogRole::date, LogRole::clock}) {
    const std::vector<RoleCandidate> found = candidates_for(role, candidates_);
    if (!found.empty()) return row.cells[found.front().column];
  }
  return row.cells.front();
}

void ColumnFinder::report_no_time() {
  std::vector<std::string> hints = columns_of_time();
  const bool known = !hints.empty();
  const HeadCell& cell = first_time_cell();
  if (!known) {
    std::string mend = mend_of_times(cell.text);
    hints.push_back(mend.empty() ? "a row needs its date and time of day: 2026-06-14 10:02:03"
                                 : std::move(mend));
  }
  Diagnostic& error =
      stated_.columns.empty()
          ? notes_.error("L09", layout_.header_line, "no column tells the time", std::move(hints))
          : notes_.error("L09", stated_.origin, "no column is stated that tells the time",
                         std::move(hints));
  if (!known)
    error.related.push_back({notes_.span(layout_.rows.front().line, cell), "the first row has"});
}

}  // namespace

std::optional<std::vector<LogColumn>> find_columns(const LogLayout& layout, const LogFormat& stated,
                                                   HeadNotes& notes) {
  return ColumnFinder(layout, stated, notes).find();
}

}  // namespace hailwright::detail
