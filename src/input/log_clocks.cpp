#include "input/log_clocks.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/quoted.hpp"
#include "hailwright/logs/log_stream.hpp"
#include "input/log_entry.hpp"
#include "logs/time_zone.hpp"

namespace hailwright::input {

namespace {

using hailwright::detail::quoted;
using hailwright::detail::TimeZone;

/// A set-up that was read from a log.
struct LoggedSetup {
  const LogUse* log = nullptr;
  const LogStretch* stretch = nullptr;
  std::size_t setup = 0;  ///< index in the record
};

std::vector<LoggedSetup> logged_setups(const Record& record, LogStage stage) {
  std::vector<LoggedSetup> all;
  for (const LogUse& use : record.logs) {
    for (std::size_t i = 0; i < use.setups.size(); ++i) {
      if (!belongs_under(stage, record.setups[use.setups[i]].stage)) continue;
      all.push_back({&use, &use.findings.stretches[i], use.setups[i]});
    }
  }
  return all;
}

std::string when(std::int64_t time_us, const LoggedSetup& of) {
  return iso_time(time_us, of.log->stated.zone);
}

/// The shots lie between, so that the last set-up before them ends first.
void check_order(const Record& record, const std::vector<SetupRows>& rows, Diagnostics& notes) {
  const std::vector<LoggedSetup> before = logged_setups(record, LogStage::before);
  const std::vector<LoggedSetup> after = logged_setups(record, LogStage::after);
  if (before.empty() || after.empty()) return;
  const LoggedSetup& last =
      *std::max_element(before.begin(), before.end(), [](const auto& a, const auto& b) {
        return a.stretch->to_us < b.stretch->to_us;
      });
  const LoggedSetup& first =
      *std::min_element(after.begin(), after.end(), [](const auto& a, const auto& b) {
        return a.stretch->from_us < b.stretch->from_us;
      });
  if (first.stretch->from_us > last.stretch->to_us) return;
  notes
      .error("T33", *rows[first.setup].first_row,
             fmt::format("set-up {} begins at {}, before set-up {} ends at {}: the shots lie "
                         "between the two",
                         quoted(first.stretch->name), when(first.stretch->from_us, first),
                         quoted(last.stretch->name), when(last.stretch->to_us, last)),
             {"check the clocks of the loggers and the 'zone' of each log",
              "and whether the two files changed places"})
      .related.push_back({rows[last.setup].end->origin, "its last row"});
}

/// The zone that the stamps of a log are taken in; nothing where they carry their own offset.
std::optional<TimeZone> zone_of_stamps(const LogUse& use) {
  if (use.shape.stamp.own_offset || use.shape.stamp.kind != StampForm::Kind::calendar ||
      use.stated.zone.empty()) {
    return std::nullopt;
  }
  return TimeZone::find(use.stated.zone);
}

/// "Europe/Berlin" and "+02:00" are one in summer: what counts is the time that they tell.
void check_zones(const Record& record, Diagnostics& notes) {
  std::vector<const LogUse*> logs;
  for (const auto* list : {&record.logs, &record.sessions}) {
    for (const LogUse& use : *list) {
      if (zone_of_stamps(use)) logs.push_back(&use);
    }
  }
  if (logs.empty()) return;
  const LogUse& first = *logs.front();
  const TimeZone zone = *zone_of_stamps(first);
  for (const LogUse* use : logs) {
    const std::int64_t at = use->findings.whole.from_us;
    if (zone_of_stamps(*use)->at_utc(at).offset_us == zone.at_utc(at).offset_us) continue;
    notes
        .warning("C46", use->origin,
                 fmt::format("the stamps of this log are taken in the zone {}, and those of "
                             "another log of the record in {}",
                             quoted(use->stated.zone), quoted(first.stated.zone)),
                 {"see that the clock of each logger was set to the zone that is stated for it"})
        .related.push_back({first.origin, "the other log"});
    return;
  }
}

}  // namespace

void check_log_clocks(const Record& record, const std::vector<SetupRows>& rows,
                      Diagnostics& notes) {
  check_order(record, rows, notes);
  check_zones(record, notes);
}

}  // namespace hailwright::input
