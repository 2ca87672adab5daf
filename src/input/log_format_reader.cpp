#include "input/log_format_reader.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/quoted.hpp"
#include "hailwright/input/readers.hpp"
#include "logs/time_zone.hpp"

namespace hailwright::input {

namespace {

using hailwright::detail::quoted;
using hailwright::detail::TimeZone;

std::string units_in_words(Measure measure) {
  std::string all;
  for (const Unit& unit : units()) {
    if (unit.measure == measure) all += fmt::format("{}{}", all.empty() ? "" : ", ", unit.symbol);
  }
  return all;
}

/// The unit must be one of the role's measure; times and words have none.
void check_unit(const LogColumnChoice& column, SourceSpan where, Diagnostics& notes) {
  const std::optional<Measure> measure = measure_of(column.role);
  if (!measure) {
    notes.error("L04", where, fmt::format("the column of '{}' has no unit", word_of(column.role)),
                {"delete 'unit'"});
  } else if (find_unit(column.unit, *measure) == nullptr) {
    notes.error("L04", where,
                fmt::format("{} is no unit of {}", quoted(column.unit), name(*measure)),
                {fmt::format("known are {}", units_in_words(*measure))});
  }
}

/// The header alone, or a mapping with its unit. Nothing, and an error, when there is no header.
std::optional<LogColumnChoice> read_column(LogRole role, const Entry& entry, Diagnostics& notes) {
  LogColumnChoice column;
  column.role = role;
  column.origin = entry.value.span;
  if (entry.value.kind == NodeKind::text) {
    column.header = entry.value.text;
    return column;
  }
  const MapReader map(entry.value, column_keys, entry.key_span, notes);
  const Entry* name = map.require("name", "write the header as it stands in the file");
  column.header = map.text("name");
  if (const Entry* unit = map.find("unit")) {
    column.unit = map.text("unit");
    if (!column.unit.empty()) check_unit(column, unit->value.span, notes);
  }
  if (name == nullptr || column.header.empty()) return std::nullopt;
  column.origin = name->value.span;
  return column;
}

/// One column is taken for one thing.
void check_headers_differ(const std::vector<LogColumnChoice>& columns, Diagnostics& notes) {
  for (auto column = columns.begin(); column != columns.end(); ++column) {
    const auto same = std::find_if(columns.begin(), column, [&](const LogColumnChoice& earlier) {
      return earlier.header == column->header;
    });
    if (same == column) continue;
    notes
        .error("L03", column->origin,
               fmt::format("the column {} is taken for '{}' and for '{}'", quoted(column->header),
                           word_of(same->role), word_of(column->role)),
               {"name another column here, or delete one of the two keys"})
        .related.push_back({same->origin, "named here first"});
  }
}

std::vector<LogColumnChoice> read_columns(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, columns_keys, entry.key_span, notes);
  std::vector<LogColumnChoice> columns;
  for (std::size_t i = 0; i < log_roles; ++i) {
    const auto role = static_cast<LogRole>(i);
    const Entry* column = map.find(word_of(role));
    if (column == nullptr) continue;
    if (auto read = read_column(role, *column, notes)) columns.push_back(std::move(*read));
  }
  check_headers_differ(columns, notes);
  if (map.find("clock") != nullptr)
    map.require("date", "name the column of the dates: 'clock' is the time of day alone");
  if (map.find("date") != nullptr)
    map.require("clock", "name the column of the times of day: 'date' is the date alone");
  const Entry* whole = map.find("time");
  for (const std::string_view part : {"date", "clock"}) {
    if (whole == nullptr || map.find(part) == nullptr) continue;
    notes
        .error("C01", map.at(part), fmt::format("'time' and '{}' both say when", part),
               {"'time' is one column with date and time of day; for two columns write 'date' and "
                "'clock'"})
        .related.push_back({whole->key_span, "said here too"});
  }
  return columns;
}

std::string read_zone(const MapReader& map, Diagnostics& notes) {
  std::string zone = map.text("zone");
  if (zone.empty() || TimeZone::find(zone)) return zone;
  std::vector<std::string> hints;
  if (const auto near = TimeZone::nearest(zone))
    hints.push_back(fmt::format("write  zone: {}", *near));
  if (TimeZone::database_missing()) {
    hints.emplace_back("this machine has no database of time zones (package tzdata): write the "
                       "offset from UTC, as in  zone: +02:00");
  } else {
    hints.emplace_back("write an offset from UTC, +02:00, or a name such as Europe/Berlin");
  }
  notes.error("L31", map.find("zone")->value.span, fmt::format("{} is no time zone", quoted(zone)),
              std::move(hints));
  return {};
}

}  // namespace

LogFormat read_log_format(const MapReader& map, Diagnostics& notes) {
  LogFormat format;
  format.origin = map.owner();
  if (const Entry* columns = map.find("columns")) format.columns = read_columns(*columns, notes);
  format.separator =
      map.choice<char>("separator", {{"comma", ','}, {"semicolon", ';'}, {"tab", '\t'}});
  format.decimal = map.choice<char>("decimal", {{"point", '.'}, {"comma", ','}});
  format.dates = map.choice<DateOrder>("dates", {{"year first", DateOrder::year_first},
                                                 {"day first", DateOrder::day_first},
                                                 {"month first", DateOrder::month_first}});
  format.zone = read_zone(map, notes);
  return format;
}

LogFormat read_column_map(const Document& document, Diagnostics& notes) {
  return read_log_format(MapReader(document.root, column_map_keys, document.head(), notes), notes);
}

const std::vector<KeyList>& column_map_key_lists() {
  static const std::vector<KeyList> lists{column_map_keys, columns_keys, column_keys};
  return lists;
}

}  // namespace hailwright::input

namespace hailwright {

Checked<LogFormat> read_log_format(const std::string& path, const Loader& load,
                                   SourceSet& sources) {
  Checked<LogFormat> result;
  const auto document =
      input::open_document(path, FileKind::columns, std::nullopt, load, sources, result.notes);
  if (!document) return result;
  LogFormat format = input::read_column_map(*document, result.notes);
  if (!result.notes.has_errors()) result.value = std::move(format);
  return result;
}

}  // namespace hailwright
