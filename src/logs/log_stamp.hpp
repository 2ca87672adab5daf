#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <optional>
#include <string>
#include <string_view>

#include "hailwright/logs/log_format.hpp"

namespace hailwright::detail {

inline constexpr std::int64_t second_us = 1'000'000;
inline constexpr std::int64_t minute_us = 60 * second_us;
inline constexpr std::int64_t hour_us = 60 * minute_us;
inline constexpr std::int64_t day_us = 24 * hour_us;
/// The largest offset from UTC in use: Pacific/Kiritimati in the IANA time zone database.
inline constexpr std::int64_t largest_offset_us = 14 * hour_us;

/// True when stamps of this form are read as UTC, so that no zone is needed.
constexpr bool tells_utc(const StampForm& form) {
  return form.own_offset || form.kind != StampForm::Kind::calendar;
}

/// Days from 1970-01-01 to a date of the Gregorian calendar, which must be one.
std::int64_t days_from_civil(int year, int month, int day) noexcept;

struct StampScan;

/// Why a stamp cannot be read, and which bytes of its cell are to blame.
struct StampTrouble {
  std::size_t offset = 0;
  std::size_t length = 0;
  std::string message;  ///< "month 13", "no minutes after 10"
  std::string hint;     ///< empty, or what to write or state instead
};

/// Reads stamps of one form: microseconds since 1970-01-01T00:00 as the stamp is written, or in UTC
/// where `tells_utc`. Cells come without quotes and without blanks around them. A cell that is no
/// stamp of exactly this form is not read, and `us` stays as it is.
///
/// Cheap to make, one for each thread: it remembers the last stamp up to its minute, so that
/// usually only the seconds are parsed.
class StampReader {
public:
  explicit StampReader(const StampForm& form) : form_(form) {}

  /// Date and time in one column.
  bool read(std::string_view cell, std::int64_t& us) {
    if (usual_ && cell.size() == usual_prefix + 2 && same_usual_prefix(cell.data())) {
      const unsigned tens = digit(cell[usual_prefix]);
      const unsigned ones = digit(cell[usual_prefix + 1]);
      if (tens <= 5 && ones <= 9) {
        us = known_us_ + static_cast<std::int64_t>(tens * 10 + ones) * second_us;
        return true;
      }
      return false;
    }
    return read_other({}, cell, us);
  }

  /// Date in one column, time of day in another.
  bool read(std::string_view date, std::string_view clock, std::int64_t& us) {
    return !date.empty() && read_other(date, clock, us);
  }

  /// Why `read` did not take a cell. Contract: it did not.
  [[nodiscard]] StampTrouble trouble(std::string_view cell) const;
  /// The same of two columns; `in_date` tells which of the cells the offset belongs to.
  [[nodiscard]] StampTrouble trouble(std::string_view date, std::string_view clock,
                                     bool& in_date) const;

private:
  // "2026-06-01T00:00:" and "01.06.2026 00:00:" are so long.
  static constexpr std::size_t usual_prefix = 17;
  static constexpr std::size_t longest_part = 31;

  struct Part {
    std::array<char, longest_part + 1> text{};
    std::size_t size = 0;
    [[nodiscard]] std::string_view view() const { return {text.data(), size}; }
    bool keep(std::string_view other);
  };

  static constexpr unsigned digit(char c) {
    return static_cast<unsigned>(static_cast<unsigned char>(c)) - unsigned{'0'};
  }
  /// Of constant length, so that it becomes three comparisons of registers.
  [[nodiscard]] bool same_usual_prefix(const char* cell) const {
    return std::memcmp(cell, known_.text.data(), usual_prefix) == 0;
  }
  bool read_other(std::string_view date, std::string_view clock, std::int64_t& us);
  void remember(std::string_view date, std::string_view clock, const StampScan& scan);
  bool read_by_minute(std::string_view clock, std::int64_t& us) const;

  StampForm form_;
  // The last stamp that was read in full: its date where that has a column of its own, its text up
  // to the seconds, and what follows them (an offset, AM).
  Part date_;
  Part known_;
  Part known_tail_;
  std::int64_t known_us_ = 0;  ///< of its minute
  bool usual_ = false;         ///< one column, `usual_prefix` long, nothing after the seconds
};

/// What one stamp tells about the form of all.
struct StampGlance {
  StampForm form;
  bool order_told = false;  ///< false: day and month could change places
};

/// Looks at a cell that may be a stamp: nothing when it is none by any form. `dates`, where stated,
/// settles the order of day and month.
std::optional<StampGlance> glance_at_stamp(std::string_view cell, std::optional<DateOrder> dates);
std::optional<StampGlance> glance_at_stamp(std::string_view date, std::string_view clock,
                                           std::optional<DateOrder> dates);

/// A time that somebody states, in a record or on the command line.
struct StatedTime {
  std::int64_t us = 0;  ///< since 1970; in UTC, or local to a zone
  bool utc = false;     ///< it carries its offset
};

/// Reads year, month, day and time of day, ISO 8601; nothing for anything else.
std::optional<StatedTime> read_stated_time(std::string_view text);

}  // namespace hailwright::detail
