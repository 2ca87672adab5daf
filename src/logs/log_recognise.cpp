#include "hailwright/logs/log_recognise.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/quoted.hpp"
#include "logs/log_columns.hpp"
#include "logs/log_layout.hpp"
#include "logs/log_parser_cells.hpp"
#include "logs/log_stamps.hpp"
#include "logs/log_text_kind.hpp"
#include "logs/time_zone.hpp"

namespace hailwright {

namespace {

using namespace detail;

StampColumns stamp_columns(const std::vector<LogColumn>& columns) {
  const auto place = [&](LogRole role) -> std::optional<std::size_t> {
    const auto found = std::find_if(columns.begin(), columns.end(),
                                    [&](const LogColumn& column) { return column.role == role; });
    if (found == columns.end()) return std::nullopt;
    return found->place;
  };
  if (const auto time = place(LogRole::time)) return {*time, std::nullopt};
  return {*place(LogRole::date), place(LogRole::clock)};
}

std::vector<std::size_t> number_columns(const std::vector<LogColumn>& columns) {
  std::vector<std::size_t> places;
  for (const LogColumn& column : columns) {
    if (measure_of(column.role)) places.push_back(column.place);
  }
  return places;
}

std::vector<std::string> zone_hints(const std::string& zone) {
  std::vector<std::string> hints;
  if (const auto near = TimeZone::nearest(zone)) hints.push_back(fmt::format("write {}", *near));
  hints.emplace_back(TimeZone::database_missing()
                         ? "this machine has no database of time zones (package tzdata): write the "
                           "offset from UTC, +02:00"
                         : "write an offset from UTC, +02:00, or a name such as Europe/Berlin");
  return hints;
}

/// False, and an error, when the zone that is needed is not stated, or not known.
bool check_zone(const LogLayout& layout, const StampColumns& columns, const StampForm& form,
                const LogFormat& stated, HeadNotes& notes) {
  if (!stated.zone.empty()) {
    if (TimeZone::find(stated.zone)) return true;
    notes.error("L31", stated.origin, fmt::format("{} is no time zone", quoted(stated.zone)),
                zone_hints(stated.zone));
    return false;
  }
  if (tells_utc(form)) return true;
  const HeadRow& row = layout.rows.front();
  const SourceSpan first = notes.span(row.line, row.cells[columns.first]);
  const bool has_place = stated.origin.line > 0;
  Diagnostic& note = notes.error(
      "L05", has_place ? stated.origin : first, "the stamps of the log carry no offset from UTC",
      {"state their zone: --zone +02:00, or in a record or column map  zone: Europe/Berlin"});
  if (has_place) note.related.push_back({first, "the first stamp"});
  return false;
}

std::vector<std::string> texts_of(const std::vector<HeadCell>& cells) {
  std::vector<std::string> texts;
  for (const HeadCell& cell : cells)
    texts.push_back(cell.text);
  return texts;
}

/// All that depends on the columns; every mistake is told before giving up.
std::optional<LogShape> recognise_rows(const LogLayout& layout, std::vector<LogColumn> columns,
                                       const LogFormat& stated, HeadNotes& notes) {
  const StampColumns times = stamp_columns(columns);
  const auto decimal = find_decimal(layout, number_columns(columns), stated.decimal, notes);
  const auto form = find_stamp_form(layout, times, stated.dates, notes);
  if (!form || !check_zone(layout, times, *form, stated, notes) || !decimal) return std::nullopt;
  LogShape shape;
  shape.separator = layout.separator;
  shape.decimal = *decimal;
  shape.header_line = layout.header_line.number;
  shape.first_row_line = layout.first_row_line;
  shape.headers = texts_of(layout.header_cells);
  shape.used = std::move(columns);
  shape.stamp = *form;
  shape.usual_step_s = find_usual_step(layout, times, *form);
  return shape;
}

}  // namespace

std::optional<LogShape> recognise_log(std::string_view beginning, const LogFormat& stated,
                                      std::uint32_t file, SourceSet& sources, Diagnostics& notes) {
  HeadNotes head(file, sources, notes);
  const auto layout = read_layout(beginning, stated.separator, head);
  if (!layout) return std::nullopt;
  auto columns = find_columns(*layout, stated, head);
  if (!columns) return std::nullopt;
  return recognise_rows(*layout, std::move(*columns), stated, head);
}

}  // namespace hailwright
