#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/core/source.hpp"

namespace hailwright {

/// What a column of a logger's file is taken for.
enum class LogRole : std::size_t {
  time,     ///< date and time of day
  date,     ///< date alone, with `clock` in another column
  clock,    ///< time of day alone
  power,    ///< of the panel
  voltage,  ///< with `current`: power where there is no column of it
  current,
  irradiance,
  temperature,         ///< of the panel
  energy,              ///< a counter of the panel's energy
  power_beside,        ///< of a second panel, logged along with the first
  temperature_beside,  ///< of the second panel
  marker               ///< words that name the set-up or session of a row
};
inline constexpr std::size_t log_roles = 12;

constexpr std::size_t index_of(LogRole role) {
  return static_cast<std::size_t>(role);
}

/// The word for it in a column map: "time", "power_beside".
std::string_view word_of(LogRole role);
/// What its numbers are; nothing for times and words.
std::optional<Measure> measure_of(LogRole role);

enum class DateOrder { year_first, day_first, month_first };

/// A column as the user names it.
struct LogColumnChoice {
  LogRole role = LogRole::time;
  std::string header;  ///< as it stands in the file, without blanks around it and without quotes
  std::string unit;    ///< "W"; empty: the header's
  SourceSpan origin;
};

/// What a user states about a file. The rest is recognised from the file's beginning, and where
/// that leaves a choice, asked for: nothing is guessed.
struct LogFormat {
  std::vector<LogColumnChoice> columns;  ///< empty: as `recognise_log` finds them by their headers
  std::optional<char> separator;         ///< ',', ';' or tab
  std::optional<char> decimal;           ///< '.' or ','
  std::optional<DateOrder> dates;
  /// Of stamps that carry no offset: "UTC", "+02:00", or a name of the IANA time zone database,
  /// "Europe/Berlin". Empty: not stated.
  std::string zone;
  SourceSpan origin;  ///< what messages about a missing statement point at; may be no file
};

/// How the stamps of a file are written.
struct StampForm {
  DateOrder dates = DateOrder::year_first;
  bool own_offset = false;  ///< every stamp carries its offset: Z, +02:00
  enum class Kind { calendar, unix_seconds, unix_milliseconds } kind = Kind::calendar;
  char date_mark = '-';      ///< between the parts of a date: '-', '/' or '.'
  bool twelve_hour = false;  ///< every stamp carries AM or PM
};

/// A column that is read.
struct LogColumn {
  LogRole role = LogRole::time;
  std::size_t place = 0;  ///< in a row, from 0
  Unit unit{};            ///< of its numbers
  std::string header;
};

/// How a file is built, once recognised.
struct LogShape {
  char separator = ',';
  char decimal = '.';
  int header_line = 1;               ///< counts from 1
  int first_row_line = 2;            ///< a line of units may stand between
  std::vector<std::string> headers;  ///< all, in their order
  std::vector<LogColumn> used;       ///< one a role at most
  StampForm stamp;
  /// Usual time from row to row in the file's beginning [s]; 0 where that does not show.
  double usual_step_s = 0.0;

  /// Nullptr when the file has no such column.
  [[nodiscard]] const LogColumn* column(LogRole role) const;
};

/// Fills a buffer of so many bytes as far as it can. Gives how many; 0 only at the end.
/// What goes wrong is told to `problem`, and then 0 comes back.
struct LogBytes {
  std::function<std::size_t(char* into, std::size_t most)> read;
  /// Empty unless reading failed: "the compressed data is damaged".
  std::function<std::string()> problem;
};

/// One file of a log, opened by the caller: the library itself touches no file.
struct LogFile {
  std::string name;  ///< as messages print it
  LogBytes bytes;
};

}  // namespace hailwright
