#include "input/log_entry.hpp"
#include "input/log_format_reader.hpp"
#include "input/schema_mappings.hpp"
#include "input/schema_values.hpp"

namespace hailwright::input {

namespace {

using enum Need;

/// Date and time of day, with or without an offset. The reader looks closer.
SchemaNode moment() {
  return value::matching("^[0-9]{4}-[0-9]{2}-[0-9]{2}[Tt ]+[0-9]{1,2}:[0-9]{2}.*$",
                         {"2026-06-14T10:02:00", "2026-06-14T10:02:00+02:00"});
}

SchemaNode files() {
  return value::either({value::text(), value::list_of(value::text(), 1)});
}

SchemaNode column() {
  return value::either({value::text(), value::defined("column")});
}

/// How a file is written: the same keys in a column map and beside `log`.
std::vector<KeyRow> format_rows(Need zone) {
  return {
      {"columns", value::defined("columns"), optional,
       "Which column is what, by its header, see Columns", "", "by the headers"},
      {"separator", value::words({"comma", "semicolon", "tab"}), optional,
       "Between the cells: `comma`, `semicolon` or `tab`", "", "the one that fits the file"},
      {"decimal", value::words({"point", "comma"}), optional,
       "Decimal mark of the numbers: `point` or `comma`", "",
       "the one that the file shows; asked for where it leaves a choice"},
      {"dates", value::words({"year first", "day first", "month first"}), optional,
       "Order in the dates: `year first`, `day first` or `month first`", "",
       "where the file leaves no choice"},
      {"zone", value::text(), zone,
       "Time zone of stamps without an offset: `+02:00`, `UTC`, or a name such as `Europe/Berlin`",
       "", zone == required ? "" : "the stamps must carry their offset"},
  };
}

/// The keys that `before`, `after` and `sessions` have in common.
std::vector<KeyRow> log_rows(Need zone, std::string_view steady_left_out) {
  std::vector<KeyRow> rows{
      {"log", files(), required,
       "Path of the logger's file, or a list of paths of files that follow each other"}};
  for (KeyRow& row : format_rows(zone))
    rows.push_back(std::move(row));
  rows.push_back({"longest_gap", value::amount(Measure::time, "10 s"), optional,
                  "A longer step in time is not bridged and counts for no energy",
                  "more than 0 s, up to 24 h", "5 usual steps, from 10 s to 15 min"});
  rows.push_back({"tolerate", value::count(0, 1'000'000), optional,
                  "So many rows may be unreadable or out of order without an error", "0 to 1000000",
                  "`0`"});
  rows.push_back({"load_on", value::amount(Measure::power, "1 W"), optional,
                  "The panel gives power from here on", "more than 0 W, up to 100 kW", "`1 W`"});
  rows.push_back({"wraps_at", value::amount(Measure::energy, "10000 Wh"), optional,
                  "The energy counter begins anew at 0 when it gets here", "more than 0 J",
                  "a fall below half is a reset, a smaller one a step back that counts nothing"});
  rows.push_back({"steady", value::either({value::yes_no(), value::defined("steady")}), optional,
                  "Windows that are not steady do not count: `yes`, `no`, or see Steady", "",
                  steady_left_out});
  rows.push_back({"cut", value::words({"markers", "plateaus"}), optional,
                  "How the log is cut, where no times are given: `markers` by the words of that "
                  "column, `plateaus` by the load going on and off"});
  rows.push_back(
      {"plateaus", value::defined("plateaus"), optional, "With `cut: plateaus`, see Plateaus"});
  return rows;
}

Mapping log() {
  std::vector<KeyRow> rows = log_rows(required, "`yes`");
  rows.push_back({"setups", value::list_of(value::defined("set-up of a log"), 1), optional,
                  "List of set-ups by their times, see Set-up of a log"});
  return {"log", log_keys, std::move(rows), rule::exactly_one({"cut", "setups"})};
}

Mapping log_of_sessions() {
  std::vector<KeyRow> rows = log_rows(optional, "`no`");
  rows.push_back({"times", value::list_of(value::defined("session"), 1), optional,
                  "List of sessions by their times, see Session", "", "the whole log"});
  return {"log of sessions", session_log_keys, std::move(rows),
          rule::at_most_one({"cut", "times"})};
}

std::vector<KeyRow> span_rows(SchemaNode name, std::string_view means) {
  return {
      {"name", std::move(name), required, means},
      {"from", moment(), required,
       "Its first moment: `2026-06-14T10:02:00`, in the log's zone, or with an offset behind it"},
      {"to", moment(), required, "Its last moment, written alike"},
  };
}

Mapping log_setup() {
  return {
      "set-up of a log", log_setup_keys,
      span_rows(value::setup_name(), "As in the table of readings: `before 1`, `after small 1`")};
}

Mapping session() {
  return {"session", session_keys, span_rows(value::text(), "Any words: `morning`")};
}

Mapping steady() {
  return {"steady",
          steady_keys,
          {
              {"window", value::amount(Measure::time, "60 s"), optional,
               "Rows are kept or removed by windows of this length", "1 s to 1 h",
               "`60 s`, or 6 usual steps where that is longer"},
              {"irradiance_change", value::amount(Measure::ratio, "2 %"), optional,
               "Largest less smallest irradiance in a window, of their mean",
               "more than 0 %, up to 100 %", "`2 %`"},
              {"ramp", value::amount(Measure::ratio, "1 %"), optional,
               "Change of the mean irradiance from the first third of a window to the last",
               "more than 0 %, up to 100 %", "`1 %`"},
              {"temperature_change", value::amount(Measure::temperature_difference, "1 K"),
               optional, "Largest less smallest temperature of the panel in a window",
               "more than 0 K, up to 100 K", "`1 K`"},
          }};
}

Mapping plateaus() {
  return {"plateaus",
          plateau_keys,
          {
              {"shortest", value::amount(Measure::time, "120 s"), optional,
               "A plateau has at least so much steady time", "1 s to 24 h", "`120 s`"},
              {"shortest_off", value::amount(Measure::time, "60 s"), optional,
               "The load is off at least so long between two", "1 s to 24 h", "`60 s`"},
          }};
}

Mapping column_map() {
  std::vector<KeyRow> rows{{"hailwright", SchemaNode::object({{"const", "columns 1"}}), required,
                            "first key of the file: `columns 1`"}};
  for (KeyRow& row : format_rows(optional))
    rows.push_back(std::move(row));
  return {"column map", column_map_keys, std::move(rows)};
}

Mapping columns() {
  return {
      "columns",
      columns_keys,
      {
          {"time", column(), optional, "Date and time of day"},
          {"date", column(), optional, "Date alone, where the time of day has its own column"},
          {"clock", column(), optional, "Time of day alone, beside `date`"},
          {"power", column(), optional, "Power of the panel", "-1 kW to 100 kW"},
          {"voltage", column(), optional, "With `current`: power where there is no column of it",
           "-1000 V to 1500 V"},
          {"current", column(), optional, "With `voltage`", "-1000 A to 1000 A"},
          {"irradiance", column(), optional, "On the plane of the panel", "-50 W/m2 to 2000 W/m2"},
          {"temperature", column(), optional, "Of the panel", "-60 degC to 150 degC"},
          {"energy", column(), optional, "Counter of the panel's energy", "0 J to 1e13 J"},
          {"power_beside", column(), optional, "Power of a second panel logged along",
           "-1 kW to 100 kW"},
          {"temperature_beside", column(), optional, "Of the second panel", "-60 degC to 150 degC"},
          {"marker", column(), optional, "Words that name the set-up or session of a row"},
      },
      rule::needs({{"date", "clock"}, {"clock", "date"}})};
}

Mapping one_column() {
  return {"column",
          column_keys,
          {
              {"name", value::text(), required, "The header as it stands in the file"},
              {"unit", value::text(), optional, "Unit of its numbers: `W`", "",
               "the one in the header"},
          }};
}

}  // namespace

std::vector<Mapping> log_mappings() {
  return {log(), log_of_sessions(), log_setup(), session(), steady(), plateaus()};
}

std::vector<Mapping> column_map_mappings() {
  return {column_map(), columns(), one_column()};
}

}  // namespace hailwright::input
