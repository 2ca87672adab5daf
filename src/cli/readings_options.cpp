#include "cli/readings_options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <thread>
#include <utility>

#include "cli/option_reader.hpp"
#include "core/quoted.hpp"
#include "logs/log_layout.hpp"
#include "logs/log_stamp.hpp"
#include "logs/time_zone.hpp"

namespace hailwright::cli {

namespace {

using CutKind = LogCut::Kind;

// Ranges as in a record [ours]: wide enough for anything meant.
constexpr Bounds gaps{0.0, 86400.0, "more than 0 s, up to 24 h", true};
constexpr Bounds windows{1.0, 3600.0, "from 1 s to 1 h"};
constexpr Bounds changes{0.0, 1.0, "more than 0 %, up to 100 %", true};
constexpr Bounds warmings{0.0, 100.0, "more than 0 K, up to 100 K", true};
constexpr Bounds plateaus{1.0, 86400.0, "from 1 s to 24 h"};
constexpr Bounds loads{0.0, 100e3, "more than 0 W, up to 100 kW", true};
constexpr Bounds counters{0.0, 1e13, "more than 0 Wh, up to 1e13 J", true};
constexpr Bounds offsets{-86400.0, 86400.0, "from -24 h to 24 h"};
constexpr Bounds searches{1.0, 3600.0, "from 1 s to 1 h"};
constexpr Bounds tolerances{0.0, 2147483647.0, "0 or more"};
constexpr Bounds thread_counts{1.0, 64.0, "from 1 to 64"};

constexpr Time usual_search = Time::from_si(120.0);  // [ours]

template <class T>
using WordsFor = std::initializer_list<std::pair<std::string_view, T>>;

/// Nothing for an option that was not given, or, with an error, for another word.
template <class T>
std::optional<T> word(std::string_view option, const std::string& text, WordsFor<T> words,
                      OptionReader& reader) {
  if (text.empty()) return std::nullopt;
  std::string all;
  for (const auto& [name, value] : words) {
    if (name == text) return value;
    all += (all.empty() ? "" : ", ") + std::string(name);
  }
  reader.error("K06", dashed(option) + " cannot be " + text, {"it is one of " + all});
  return std::nullopt;
}

std::string zone_hint(const std::string& zone) {
  const auto near = detail::TimeZone::nearest(zone);
  return near ? "did you mean " + *near + "?"
              : "write an offset from UTC, +02:00, or a name such as Europe/Berlin";
}

/// Every option as part of a request.
class Request {
public:
  explicit Request(const ReadingsOptions& options) : o_(options) {}

  Checked<ReadingsRequest> read() {
    format();
    cut();
    steady();
    rules();
    second_log();
    rest();
    if (reader_.notes.has_errors()) return {std::nullopt, std::move(reader_.notes)};
    return {std::move(r_), std::move(reader_.notes)};
  }

private:
  void format() {
    zone();
    r_.stated.separator = word<char>("separator", o_.separator,
                                     {{"comma", ','}, {"semicolon", ';'}, {"tab", '\t'}}, reader_);
    r_.stated.decimal =
        word<char>("decimal", o_.decimal, {{"point", '.'}, {"comma", ','}}, reader_);
    r_.stated.dates = word<DateOrder>("dates", o_.dates,
                                      {{"year-first", DateOrder::year_first},
                                       {"day-first", DateOrder::day_first},
                                       {"month-first", DateOrder::month_first}},
                                      reader_);
  }

  void zone() {
    r_.stated.zone = o_.zone;
    // Where the machine has no database of zones, that is told for the log that needs one.
    if (o_.zone.empty() || detail::TimeZone::find(o_.zone) || detail::TimeZone::database_missing())
      return;
    reader_.error("L31", "--zone: " + detail::quoted(o_.zone) + " is no time zone",
                  {zone_hint(o_.zone)});
  }

  void cut() {
    const auto stated = word<CutKind>(
        "cut", o_.cut,
        {{"whole", CutKind::whole}, {"plateaus", CutKind::plateaus}, {"markers", CutKind::markers}},
        reader_);
    if (!o_.cut.empty() && !o_.spans.empty()) {
      reader_.error("C20", "--cut and --span are two ways to cut one log",
                    {"give the one that you mean"});
    }
    LogCut& cut = r_.question.cut;
    cut.kind = stated.value_or(o_.spans.empty() ? CutKind::whole : CutKind::times);
    spans();
    const auto shortest = reader_.quantity<Time>("shortest", o_.shortest, plateaus);
    const auto off = reader_.quantity<Time>("shortest-off", o_.shortest_off, plateaus);
    if (cut.kind != CutKind::plateaus) {
      needless("shortest", o_.shortest, "without --cut plateaus");
      needless("shortest-off", o_.shortest_off, "without --cut plateaus");
    }
    cut.plateaus.shortest = shortest.value_or(cut.plateaus.shortest);
    cut.plateaus.shortest_off = off.value_or(cut.plateaus.shortest_off);
  }

  /// The command-line library counts the values of the first --span alone.
  void spans() {
    std::size_t i = 0;
    for (; i + 3 <= o_.spans.size(); i += 3)
      span(o_.spans[i], o_.spans[i + 1], o_.spans[i + 2]);
    if (i == o_.spans.size()) return;
    reader_.error("K02", "--span " + o_.spans[i] + " has no name, beginning and end",
                  {"write all three, as in --span a 2026-06-14T10:02:00 2026-06-14T10:08:00"});
  }

  void span(const std::string& name, const std::string& from, const std::string& to) {
    const bool twice = std::any_of(r_.spans.begin(), r_.spans.end(),
                                   [&](const TypedSpan& s) { return s.name == name; });
    if (twice) {
      reader_.error("C05", "--span " + name + " is given twice", {"give each a name of its own"});
      return;
    }
    const auto begin = time(name, from);
    const auto end = time(name, to);
    if (begin && end) r_.spans.push_back({name, *begin, *end});
  }

  std::optional<TypedTime> time(const std::string& span, const std::string& text) {
    const auto time = detail::read_stated_time(text);
    if (!time) {
      reader_.error("R07", "--span " + span + ": " + text + " is no date and time",
                    {"write year, month, day and the time of day, as in 2026-06-14T10:02:00"});
      return std::nullopt;
    }
    return TypedTime{text, time->us, time->utc};
  }

  void steady() {
    if (o_.steady && o_.not_steady) {
      reader_.error("C20", "--steady and --not-steady contradict each other",
                    {"give the one that you mean"});
    }
    SteadyRule rule;
    r_.steady_window = reader_.quantity<Time>("window", o_.window, windows);
    rule.window = r_.steady_window.value_or(rule.window);
    rule.irradiance_change =
        reader_.quantity<Ratio>("irradiance-change", o_.irradiance_change, changes)
            .value_or(rule.irradiance_change);
    rule.ramp = reader_.quantity<Ratio>("ramp", o_.ramp, changes).value_or(rule.ramp);
    rule.temperature_change =
        reader_
            .quantity<TemperatureDifference>("temperature-change", o_.temperature_change, warmings)
            .value_or(rule.temperature_change);
    // What is cut out is measured; of the whole log the energy is asked for, clouds and all.
    const bool wanted = o_.steady || (!o_.not_steady && r_.question.cut.kind != CutKind::whole);
    if (wanted) {
      r_.question.rules.steady = rule;
      return;
    }
    const char* when = o_.not_steady ? "with --not-steady" : "without --steady";
    needless("window", o_.window, when);
    needless("irradiance-change", o_.irradiance_change, when);
    needless("ramp", o_.ramp, when);
    needless("temperature-change", o_.temperature_change, when);
  }

  void rules() {
    StretchRules& rules = r_.question.rules;
    r_.longest_gap = reader_.quantity<Time>("longest-gap", o_.longest_gap, gaps);
    rules.load_on = reader_.quantity<Power>("load-on", o_.load_on, loads).value_or(rules.load_on);
    rules.counter_wraps_at = reader_.quantity<Energy>("counter-wraps", o_.counter_wraps, counters);
  }

  void second_log() {
    r_.find_offset = o_.offset == "auto";
    if (!r_.find_offset) r_.offset = reader_.quantity<Time>("offset", o_.offset, offsets);
    r_.offset_search =
        reader_.quantity<Time>("offset-search", o_.offset_search, searches).value_or(usual_search);
    if (!r_.find_offset) needless("offset-search", o_.offset_search, "without --offset auto");
    if (!o_.beside.empty()) return;
    needless("beside-columns", o_.beside_columns, "without --beside");
    needless("offset", o_.offset, "without --beside");
  }

  void rest() {
    const auto place = word<LogPlace>("as", o_.place,
                                      {{"before", LogPlace::before},
                                       {"after", LogPlace::after},
                                       {"sessions", LogPlace::sessions}},
                                      reader_);
    r_.place = place.value_or(r_.place);
    r_.tolerated_rows = reader_.count("tolerate", o_.tolerate, tolerances).value_or(0);
    const unsigned cores = std::clamp(std::thread::hardware_concurrency(), 1U, 64U);
    const auto threads = reader_.count("threads", o_.threads, thread_counts);
    r_.threads = threads ? static_cast<unsigned>(*threads) : cores;
  }

  void needless(std::string_view option, const std::string& text, std::string_view when) {
    if (text.empty()) return;
    reader_.error("C21", dashed(option) + " says nothing " + std::string(when), {"leave it out"});
  }

  const ReadingsOptions& o_;
  OptionReader reader_;
  ReadingsRequest r_;
};

/// Turns typed times into UTC.
class SpanClock {
public:
  SpanClock(const std::string& zone, Diagnostics& notes)
      : name_(zone), zone_(detail::TimeZone::find(zone)), notes_(notes) {}

  /// 0, with an error, for a time that cannot be told.
  std::int64_t utc_us(const std::string& span, const TypedTime& time) {
    if (time.utc) return time.us;
    const std::string what = "--span " + span + ": " + time.text;
    if (!zone_) {
      no_zone(what, time.text);
      return 0;
    }
    using Kind = detail::LocalTime::Kind;
    const detail::LocalTime local = zone_->at_local(time.us);
    if (local.kind == Kind::unique) return time.us - local.offset_us;
    notes_.error("R07", {},
                 what + (local.kind == Kind::skipped ? " is a time that the clocks jumped over"
                                                     : " came twice: the clocks were set back"),
                 {"write the offset from UTC behind it, as in 2026-06-14T10:02:00+02:00"});
    return 0;
  }

private:
  void no_zone(const std::string& what, const std::string& text) {
    if (name_.empty()) {
      notes_.error("L05", {}, what + " could be of any time zone",
                   {"write its offset from UTC, as in " + text + "+02:00",
                    "or state the zone of the log: --zone Europe/Berlin"});
      return;
    }
    const auto near = detail::TimeZone::nearest(name_);
    notes_.error("L31", {}, "the time zone '" + name_ + "' is not known",
                 {near ? "did you mean " + *near + "?" : "write an offset, such as +02:00"});
  }

  std::string name_;
  std::optional<detail::TimeZone> zone_;
  Diagnostics& notes_;
};

/// Spans may overlap, but set-ups never do.
void warn_of_overlap(const std::vector<LogSpan>& before, const std::string& name,
                     std::int64_t from_us, std::int64_t to_us, Diagnostics& notes) {
  if (notes.has_errors()) return;
  for (const LogSpan& other : before) {
    if (from_us >= other.to_us || to_us <= other.from_us) continue;
    notes.warning("C38", {},
                  "--span " + name + " and --span " + other.name +
                      " overlap: the rows of both count in both",
                  {"check their times: set-ups of a panel follow each other"});
  }
}

/// "Z" is "UTC", and "+02" is "+02:00".
bool same_zone(const std::string& one, const std::string& other) {
  if (one == other) return true;
  const auto a = detail::TimeZone::find(one);
  const auto b = detail::TimeZone::find(other);
  return a && b && a->fixed() && b->fixed() && a->at_utc(0).offset_us == b->at_utc(0).offset_us;
}

}  // namespace

Checked<ReadingsRequest> read_readings_options(const ReadingsOptions& options) {
  return Request(options).read();
}

std::vector<LogSpan> spans_in_utc(const std::vector<TypedSpan>& spans, const std::string& zone,
                                  Diagnostics& notes) {
  SpanClock clock(zone, notes);
  std::vector<LogSpan> all;
  for (const TypedSpan& span : spans) {
    const std::int64_t from = clock.utc_us(span.name, span.from);
    const std::int64_t to = clock.utc_us(span.name, span.to);
    if (!notes.has_errors() && from >= to) {
      notes.error(
          "C38", {},
          "--span " + span.name +
              (from == to ? " has no length: it ends when it begins" : " ends before it begins"),
          {"check both times, and their offsets if they have any"});
    }
    warn_of_overlap(all, span.name, from, to, notes);
    all.push_back({span.name, from, to, {}});
  }
  return all;
}

void warn_of_overruled(const LogFormat& options, const LogFormat& map, Diagnostics& notes) {
  const auto overruled = [&](std::string_view key, std::string_view typed, std::string_view kept) {
    notes.warning("C20", map.origin,
                  fmt::format("{} goes before the column map: {} is taken, and  {}: {}  is not",
                              dashed(key), typed, key, kept),
                  {"leave out the one that is wrong"});
  };
  if (!options.zone.empty() && !map.zone.empty() && !same_zone(options.zone, map.zone))
    overruled("zone", options.zone, map.zone);
  if (options.separator && map.separator && options.separator != map.separator) {
    overruled("separator", detail::separator_word(*options.separator),
              detail::separator_word(*map.separator));
  }
  if (options.decimal && map.decimal && options.decimal != map.decimal)
    overruled("decimal", detail::decimal_word(*options.decimal),
              detail::decimal_word(*map.decimal));
  if (options.dates && map.dates && options.dates != map.dates)
    overruled("dates", detail::date_order_word(*options.dates),
              detail::date_order_word(*map.dates));
}

LogFormat stated_over(const LogFormat& options, LogFormat map) {
  if (!options.zone.empty()) map.zone = options.zone;
  if (options.separator) map.separator = options.separator;
  if (options.decimal) map.decimal = options.decimal;
  if (options.dates) map.dates = options.dates;
  return map;
}

}  // namespace hailwright::cli
