#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace hailwright::detail {

/// What a local time means in a zone.
struct LocalTime {
  enum class Kind {
    unique,
    skipped,  ///< clocks jumped over it: no such time
    repeated  ///< clocks were set back: it came twice
  };
  Kind kind = Kind::unique;
  /// UTC is the local time less this. Of a repeated time: in the first pass. Of a skipped one: the
  /// offset before the jump.
  std::int64_t offset_us = 0;
  std::int64_t second_offset_us = 0;  ///< of a repeated time, in the second pass; else `offset_us`
  /// Local times from `begin_us` on and before `end_us` have the same kind and offsets.
  std::int64_t begin_us = 0;
  std::int64_t end_us = 0;

  [[nodiscard]] bool holds_for(std::int64_t local_us) const {
    return local_us >= begin_us && local_us < end_us;
  }
};

/// The offset from UTC of a moment, and for how long it stands.
struct UtcOffset {
  std::int64_t offset_us = 0;
  std::int64_t begin_us = 0;  ///< UTC
  std::int64_t end_us = 0;  ///< UTC; the first moment with another offset, or the end of the table
};

/// A rule that turns local times into UTC: a fixed offset, or a zone of the IANA database. The only
/// door to that database. Immutable, cheap to copy, may be shared between threads.
class TimeZone {
public:
  /// By "UTC", "Z", "+02:00", "-0330", "+02" (up to 14 hours), or the name of a zone. Nothing for
  /// another name, or when the machine has no database (`database_missing`). Never throws.
  static std::optional<TimeZone> find(std::string_view name);
  /// A name that was likely meant: "Europe/Berlin" for "europe/berln", "+02:00" for "UTC+2".
  static std::optional<std::string> nearest(std::string_view name);
  static bool database_missing();

  /// True of "UTC", "Z" and written offsets.
  [[nodiscard]] bool fixed() const { return zone_ == nullptr; }
  [[nodiscard]] LocalTime at_local(std::int64_t local_us) const;
  [[nodiscard]] UtcOffset at_utc(std::int64_t utc_us) const;

private:
  explicit TimeZone(std::int64_t offset_us) : offset_us_(offset_us) {}
  explicit TimeZone(const void* zone) : zone_(zone) {}

  std::int64_t offset_us_ = 0;  ///< of a fixed one
  const void* zone_ = nullptr;  ///< date::time_zone, which lives as long as the program
};

/// "Z", "+02:00", "-0330", "+02": microseconds east of Greenwich; nothing for anything else or
/// beyond `largest_offset_us`.
std::optional<std::int64_t> written_offset_us(std::string_view text);

}  // namespace hailwright::detail
