// Every reader of amounts, times and dates, each with the whole input as its text. Checked beyond
// "no crash": a value is finite, or there is a problem inside the text; what is printed reads back.

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "hailwright/core/calendar.hpp"
#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/logs/log_stream.hpp"
#include "input/sides_text.hpp"
#include "input/stated_text.hpp"
#include "logs/log_number.hpp"
#include "logs/log_stamp.hpp"
#include "logs/time_zone.hpp"
#include "named_parts.hpp"

namespace {

using namespace hailwright;  // NOLINT(google-build-using-namespace): one file, one program
using fuzzing::require;

constexpr auto measures = static_cast<std::size_t>(Measure::volume) + 1;

void check_problem(const TextProblem& problem, std::string_view text) {
  require(!problem.code.empty() && !problem.message.empty(), "a problem has a code and words");
  require(problem.offset + problem.length <= count_characters(text), "a problem lies in its text");
}

/// Whether there is a value; exactly one of value and problem must be there.
template <class T>
bool read_well(const TextResult<T>& result, std::string_view text) {
  require(result.value.has_value() != result.problem.has_value(), "a value, or a problem");
  if (result.problem) check_problem(*result.problem, text);
  return result.value.has_value();
}

bool read_amount_well(const TextResult<Amount>& result, std::string_view text) {
  if (!read_well(result, text)) return false;
  const Amount& amount = *result.value;
  require(std::isfinite(amount.si) && !(amount.si == 0.0 && std::signbit(amount.si)),
          "an amount is finite, and zero has no sign");
  require(std::isfinite(amount.step_si) && amount.step_si >= 0.0, "a step is finite");
  return true;
}

/// What `significant` prints to 17 digits is the same number when it is read.
void read_back_number(double value) {
  const std::string printed = significant(value, 17);
  const TextResult<Amount> again = read_number(printed);
  require(again.value && again.value->si == value, "17 digits read back to the same number");
}

/// What `in_unit` prints reads back to what prints the same.
void read_back_amount(double si, const Unit& unit) {
  const double number = number_in(si, unit);
  if (!std::isfinite(number) || std::abs(number) > 1e9) return;
  for (const int decimals : {0, 2, 5}) {
    const std::string printed = in_unit(si, unit.measure, unit.symbol, decimals);
    const TextResult<Amount> again = read_amount(printed, unit.measure);
    require(again.value.has_value(), "a printed amount can be read");
    require(in_unit(again.value->si, unit.measure, unit.symbol, decimals) == printed,
            "a printed amount reads back");
  }
}

void read_numbers(std::string_view text) {
  for (const char decimal : {'.', ','}) {
    const TextResult<Amount> number = read_number(text, decimal);
    if (read_amount_well(number, text)) read_back_number(number.value->si);
    double logged = 0.0;
    if (!detail::read_log_number(text, decimal, logged)) continue;
    require(std::isfinite(logged), "a number of a log is finite");
    // Loggers write leading zeros, which the reader of files refuses.
    require(!number.value || number.value->si == logged, "one number, whoever reads it");
  }
  read_well(read_count(text), text);
  read_well(read_money(text), text);
}

void read_amounts(std::string_view text) {
  std::array<std::optional<Amount>, measures> amounts;
  for (std::size_t i = 0; i < measures; ++i) {
    const auto measure = static_cast<Measure>(i);
    const TextResult<Amount> amount = read_amount(text, measure);
    if (read_amount_well(amount, text)) amounts[i] = amount.value;
    read_well(read_unit(text, measure), text);
  }
  for (const Unit& unit : units()) {
    const TextResult<Amount> cell = read_number_in(text, unit);
    if (read_amount_well(cell, text)) read_back_amount(cell.value->si, unit);
    if (const auto& amount = amounts[static_cast<std::size_t>(unit.measure)])
      read_back_amount(amount->si, unit);
  }
  const auto sides = input::read_sides(text, 2, 3);
  if (read_well(sides, text)) require(sides.value->size() >= 2, "as many sides as were asked for");
  read_well(input::read_grid(text), text);
}

/// "1 % + 3 digits", "-0.35 %/K", as an entry of a file has them.
void read_statements(const std::string& text) {
  SourceSet sources;
  const std::uint32_t file = sources.add("entry.yaml", text);
  input::Node node;
  node.kind = input::NodeKind::text;
  node.text = text;
  const bool one_line = text.find('\n') == std::string::npos;
  node.text_column = one_line ? 1 : 0;
  node.span = {file, 1, 1, static_cast<int>(count_characters(text))};
  Diagnostics notes;
  for (const Measure measure : {Measure::power, Measure::temperature_difference, Measure::length}) {
    const bool percent = measure != Measure::temperature_difference;
    if (const auto read = input::read_accuracy(node, "'accuracy'", {measure, percent}, notes)) {
      require(std::isfinite(read->relative) && std::isfinite(read->absolute_si) &&
                  std::isfinite(read->digits),
              "an accuracy is finite");
    }
  }
  constexpr input::Range any{-1e9, 1e9, "anything"};
  for (const Measure measure : {Measure::temperature_coefficient, Measure::mass}) {
    if (const auto read = input::read_value(node, "value", node.span, measure, any, notes))
      require(std::isfinite(read->value_si), "a value is finite");
  }
  fuzzing::say(notes, sources);
}

void read_stamp(std::string_view text, const StampForm& form) {
  detail::StampReader reader(form);
  std::int64_t us = 0;
  if (reader.read(text, us)) {
    std::int64_t again = 0;
    require(reader.read(text, again) && again == us, "a stamp that is remembered reads the same");
    return;
  }
  const detail::StampTrouble trouble = reader.trouble(text);
  require(!trouble.message.empty(), "a stamp that is refused is explained");
  require(trouble.offset + trouble.length <= text.size(), "the trouble lies in the stamp");
}

void read_stamps(std::string_view text) {
  for (const DateOrder order : {DateOrder::year_first, DateOrder::day_first}) {
    const auto glance = detail::glance_at_stamp(text, order);
    if (glance) read_stamp(text, glance->form);
  }
  read_stamp(text, StampForm{});
  read_stamp(text, StampForm{.kind = StampForm::Kind::unix_seconds});
  read_stamp(text, StampForm{.dates = DateOrder::day_first, .date_mark = '.'});
  read_stamp(text, StampForm{.date_mark = '/', .twelve_hour = true});
}

/// To compare a word with the names of all zones takes as long as all the rest.
constexpr unsigned nearest_zone_in = 256;

/// A moment goes to local time and back.
void there_and_back(const detail::TimeZone& zone, std::int64_t utc_us) {
  const std::int64_t offset_us = zone.at_utc(utc_us).offset_us;
  const detail::LocalTime local = zone.at_local(utc_us + offset_us);
  require(local.kind != detail::LocalTime::Kind::skipped, "the local time of a moment exists");
  require(local.offset_us == offset_us || local.second_offset_us == offset_us,
          "a local time has the offset of its moment");
}

void read_times(const std::string& text) {
  static_cast<void>(day_number(text));
  const auto stated = detail::read_stated_time(text);
  if (stated) {
    const std::string printed = iso_time(stated->us, "UTC");
    const auto again = detail::read_stated_time(printed);
    require(again && again->utc && again->us == stated->us, "a time reads back");
    const auto berlin = detail::TimeZone::find("Europe/Berlin");
    if (berlin) there_and_back(*berlin, stated->us);
  }
  if (const auto zone = detail::TimeZone::find(text)) {
    constexpr std::int64_t quarter_us = 91 * detail::day_us;
    for (int i = 0; i < 8; ++i)
      there_and_back(*zone, 1'700'000'000 * detail::second_us + i * quarter_us);
  } else if (fuzzing::one_in(nearest_zone_in, text)) {
    static_cast<void>(detail::TimeZone::nearest(text));
  }
  if (const auto offset = detail::written_offset_us(text))
    require(std::abs(*offset) <= detail::largest_offset_us, "an offset is one in use");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(fuzzing::text_of(data, size));
  read_numbers(text);
  read_amounts(text);
  read_statements(text);
  read_stamps(text);
  read_times(text);
  return 0;
}
