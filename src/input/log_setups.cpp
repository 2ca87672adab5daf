#include "input/log_setups.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/quoted.hpp"
#include "hailwright/core/contract.hpp"
#include "input/map_reader.hpp"
#include "input/shared_ranges.hpp"
#include "logs/log_stamp.hpp"
#include "logs/time_zone.hpp"

namespace hailwright::input {

namespace {

using hailwright::detail::day_us;
using hailwright::detail::minute_us;
using hailwright::detail::quoted;
using hailwright::detail::TimeZone;
using hailwright::detail::UtcOffset;

/// Local days and minutes of moments in UTC; moments that follow each other share an offset.
class LocalClock {
public:
  explicit LocalClock(const TimeZone& zone) : zone_(zone) {}

  struct Moment {
    std::int64_t day = 0;  ///< since 1970-01-01
    int minute = 0;        ///< of the day
  };

  Moment at(std::int64_t utc_us) {
    if (utc_us < now_.begin_us || utc_us >= now_.end_us) now_ = zone_.at_utc(utc_us);
    const std::int64_t local = utc_us + now_.offset_us;
    std::int64_t day = local / day_us;
    if (local < day * day_us) --day;
    return {day, static_cast<int>((local - day * day_us) / minute_us)};
  }

private:
  TimeZone zone_;
  UtcOffset now_{};
};

std::string date_of(std::int64_t utc_us, const std::string& zone) {
  constexpr std::size_t iso_date = 10;
  return iso_time(utc_us, zone).substr(0, iso_date);
}

/// What keeps a panel's values of a row from being a reading; empty: nothing.
std::string_view what_is_missing(double power_w, double irradiance_w_m2, double temperature_k) {
  if (std::isnan(power_w)) return "no power in the log";
  if (std::isnan(irradiance_w_m2)) return "no irradiance in the log";
  if (std::isnan(temperature_k)) return "no temperature in the log";
  // Their logarithms are what is averaged.
  // What counts as 0 in a table of readings does so here.
  constexpr double least_w = least_share_of_range * most_power_w;
  constexpr double least_w_m2 = least_share_of_range * most_irradiance_w_m2;
  if (power_w < least_w) return "power not above 0 W";
  if (irradiance_w_m2 < least_w_m2) return "irradiance not above 0 W/m2";
  return {};
}

/// A reading of one panel has no weight where the other has none at that moment.
constexpr std::string_view no_partner = "no reading of the other panel in its row";

class RowsReader {
public:
  RowsReader(LogUse& use, const TimeZone& zone, const LogSetupsInto& into, Diagnostics& notes)
      : use_(use), clock_(zone), into_(into), notes_(notes) {}

  void add(const LogStretch& stretch, const SetupId& id, SourceSpan named_at) {
    const SourceSpan first = place_in_log(stretch.kept.front(), use_.question.first_file);
    const SourceSpan origin = named_at.line > 0 ? named_at : first;
    const auto setup = take_setup(stretch, id, origin);
    if (!setup) return;
    use_.setups.push_back(*setup);
    take_date(into_.record.setups[*setup], *setup, stretch);
    add_readings(stretch, *setup);
    note_rows(stretch, *setup);
  }

private:
  [[nodiscard]] const std::string& zone() const { return use_.stated.zone; }

  /// The set-up listed in the record, or a new one; nothing when its readings were read elsewhere.
  std::optional<std::size_t> take_setup(const LogStretch& stretch, const SetupId& id,
                                        SourceSpan origin) {
    std::vector<Setup>& setups = into_.record.setups;
    const auto same = std::find_if(setups.begin(), setups.end(), [&](const Setup& setup) {
      return setup.stage == id.first && setup.number == id.second;
    });
    const auto index = static_cast<std::size_t>(same - setups.begin());
    if (same == setups.end()) {
      Setup setup;
      setup.origin = origin;
      setup.name = stretch.name;
      setup.stage = id.first;
      setup.number = id.second;
      setups.push_back(std::move(setup));
      into_.rows.emplace_back();
      return index;
    }
    if (!into_.rows[index].first_row) return index;
    notes_
        .error("C05", origin,
               fmt::format("set-up {} is read from a log a second time", quoted(stretch.name)),
               {"a set-up is read in one go: give this one a number of its own"})
        .related.push_back({*into_.rows[index].first_row, "its first row elsewhere"});
    return std::nullopt;
  }

  void take_date(Setup& setup, std::size_t index, const LogStretch& stretch) {
    const std::string day = date_of(stretch.kept.front().time_us, zone());
    const bool stated = index < into_.dates.size() && into_.dates[index];
    if (stated && setup.date != day) {
      notes_
          .error("C44", *into_.dates[index],
                 fmt::format("set-up {} is dated {}, and its rows in the log are of {}",
                             quoted(setup.name), setup.date, day),
                 {"delete 'date': a set-up from a log has the day of its rows",
                  "or check the time zone of the log"})
          .related.push_back(
              {place_in_log(stretch.kept.front(), use_.question.first_file), "its first row"});
    }
    setup.date = day;
  }

  void add_readings(const LogStretch& stretch, std::size_t setup) {
    int round = 0;
    for (const LogRow& row : stretch.kept) {
      Reading reading;
      reading.origin = place_in_log(row, use_.question.first_file);
      reading.setup = setup;
      reading.minute = clock_.at(row.time_us).minute;
      const std::string_view missing = what_is_missing(row.power, row.irradiance, row.temperature);
      if (!into_.with_control) {
        add_reading(reading, row, {row.power, row.temperature, missing, {}});
        continue;
      }
      const std::string_view missing_beside =
          what_is_missing(row.power_beside, row.irradiance, row.temperature_beside);
      reading.round = ++round;
      add_reading(reading, row, {row.power, row.temperature, missing, missing_beside});
      reading.role = Role::control;
      add_reading(reading, row,
                  {row.power_beside, row.temperature_beside, missing_beside, missing});
    }
  }

  /// One panel's values in a row, and what keeps its and the other's from being readings.
  struct OfPanel {
    double power_w, temperature_k;
    std::string_view missing, missing_of_other;
  };

  void add_reading(Reading reading, const LogRow& row, const OfPanel& panel) {
    reading.measured = panel.missing.empty();
    if (!reading.measured) {
      reading.skip = panel.missing;
    } else if (!row.removed.empty()) {
      reading.skip = row.removed;
    } else if (!panel.missing_of_other.empty()) {
      reading.skip = no_partner;
    }
    if (reading.measured) {
      reading.power = Power::from_si(panel.power_w);
      reading.irradiance = Irradiance::from_si(row.irradiance);
      reading.temperature = TemperaturePoint::from_kelvin(panel.temperature_k);
    }
    into_.record.readings.push_back(std::move(reading));
  }

  void note_rows(const LogStretch& stretch, std::size_t setup) {
    const LocalClock::Moment begin = clock_.at(stretch.kept.front().time_us);
    const LocalClock::Moment end = clock_.at(stretch.kept.back().time_us);
    const SourceSpan first = place_in_log(stretch.kept.front(), use_.question.first_file);
    const SourceSpan last = place_in_log(stretch.kept.back(), use_.question.first_file);
    SetupRows& rows = into_.rows[setup];
    rows.from_log = true;
    rows.first_row = first;
    rows.seen[static_cast<std::size_t>(Role::struck)] = true;
    rows.seen[static_cast<std::size_t>(Role::control)] = into_.with_control;
    rows.begin = Moment{begin.minute, first};
    rows.end = Moment{end.minute, last};
    if (begin.day == end.day) return;
    notes_
        .error("C42", last,
               fmt::format("set-up {} goes past midnight", quoted(into_.record.setups[setup].name)),
               {"check its times, and the time zone of the log: a set-up is read in one go, in the "
                "sun"})
        .related.push_back({first, "its first row"});
  }

  LogUse& use_;
  LocalClock clock_;
  const LogSetupsInto& into_;
  Diagnostics& notes_;
};

/// Where the record names a stretch; no place when the log does.
SourceSpan named_at(const LogUse& use, const std::string& name) {
  const auto& spans = use.question.cut.spans;
  const auto span =
      std::find_if(spans.begin(), spans.end(), [&](const LogSpan& s) { return s.name == name; });
  return span == spans.end() ? SourceSpan{} : span->origin;
}

}  // namespace

SourceSpan place_in_log(const LogRow& row, std::uint32_t first_file) {
  const auto line = std::min<std::int64_t>(row.line, std::numeric_limits<int>::max());
  return {first_file + static_cast<std::uint32_t>(row.file), static_cast<int>(line), 1, 0};
}

void add_log_setups(LogUse& use, const std::vector<SetupId>& setups, const LogSetupsInto& into,
                    Diagnostics& notes) {
  const auto zone = TimeZone::find(use.stated.zone);
  expects(zone.has_value(), "a zone that the reader of the entry knew");
  expects(setups.size() == use.findings.stretches.size(), "a set-up for each stretch");
  RowsReader reader(use, *zone, into, notes);
  for (std::size_t i = 0; i < setups.size(); ++i) {
    const LogStretch& stretch = use.findings.stretches[i];
    expects(!stretch.kept.empty(), "a stretch that has rows, and kept them");
    reader.add(stretch, setups[i], named_at(use, stretch.name));
  }
}

}  // namespace hailwright::input
