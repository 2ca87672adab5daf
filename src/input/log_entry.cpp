#include "input/log_entry.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/quoted.hpp"
#include "input/log_format_reader.hpp"
#include "input/shared_files.hpp"
#include "input/shared_ranges.hpp"
#include "input/table.hpp"
#include "logs/log_stamp.hpp"
#include "logs/time_zone.hpp"

namespace hailwright::input {

namespace {

using hailwright::detail::quoted;
using hailwright::detail::TimeZone;

// Ranges [ours]: wide enough for anything meant, narrow enough to catch a slip in the unit.
constexpr Range longest_gap_range{0.0, 86400.0, "more than 0 s, up to 24 h", true};
constexpr Range load_range{0.0, most_power_w, "more than 0 W, up to 100 kW", true};
constexpr Range counter_range{0.0, 1e13, "more than 0 Wh, up to 1e13 J", true};
constexpr Range window_range{1.0, 3600.0, "from 1 s to 1 h"};
constexpr Range change_range{0.0, 1.0, "more than 0 %, up to 100 %", true};
constexpr Range warming_range{0.0, 100.0, "more than 0 K, up to 100 K", true};
constexpr Range plateau_range{1.0, 86400.0, "from 1 s to 24 h"};
constexpr int most_tolerated = 1'000'000;

const KeyList& keys_of(LogStage stage) {
  return stage == LogStage::sessions ? session_log_keys : log_keys;
}

/// The key that lists stretches by their times.
std::string_view list_key(LogStage stage) {
  return stage == LogStage::sessions ? "times" : "setups";
}

/// Reads times of day and date, ISO 8601, local to one zone where they carry no offset.
class TimeReader {
public:
  /// @param told  an error has already been said of the zone
  TimeReader(const std::string& zone, bool told, Diagnostics& notes)
      : zone_(TimeZone::find(zone)), told_(told), notes_(notes) {}

  std::optional<std::int64_t> read(const MapReader& map, std::string_view key) {
    const Entry* entry = map.require(key, "write date and time, as in  from: 2026-06-14T10:02:00");
    if (entry == nullptr) return std::nullopt;
    const auto text = read_text(entry->value, fmt::format("'{}'", key), notes_);
    if (!text) return std::nullopt;
    const auto time = hailwright::detail::read_stated_time(*text);
    if (!time) {
      refuse(entry->value, fmt::format("'{}' is no date and time: {}", key, quoted(*text)),
             "write year, month, day and the time of day, as in 2026-06-14T10:02:00");
      return std::nullopt;
    }
    return time->utc ? time->us : from_local(time->us, entry->value, *text);
  }

private:
  std::optional<std::int64_t> from_local(std::int64_t us, const Node& node,
                                         const std::string& text) {
    if (!zone_ && told_) return std::nullopt;
    if (!zone_) {
      notes_.error("L05", node.span, fmt::format("{} could be of any time zone", quoted(text)),
                   {fmt::format("write its offset, as in  {}+02:00", text),
                    "or state  zone: Europe/Berlin  beside 'log'"});
      return std::nullopt;
    }
    using Kind = hailwright::detail::LocalTime::Kind;
    const hailwright::detail::LocalTime local = zone_->at_local(us);
    if (local.kind == Kind::unique) return us - local.offset_us;
    refuse(node,
           fmt::format("{} {}", quoted(text),
                       local.kind == Kind::skipped ? "is a time that the clocks jumped over"
                                                   : "came twice: the clocks were set back"),
           "write the offset from UTC behind it, as in 2026-06-14T10:02:00+02:00");
    return std::nullopt;
  }

  void refuse(const Node& node, std::string message, std::string hint) {
    notes_.error("R07", node.span, std::move(message), {std::move(hint)});
  }

  std::optional<TimeZone> zone_;
  bool told_;
  Diagnostics& notes_;
};

class EntryReader {
public:
  EntryReader(const Node& node, LogStage stage, const Protocol& protocol, SourceSpan owner,
              Diagnostics& notes)
      : notes_before_(notes.items().size()), map_(node, keys_of(stage), owner, notes),
        protocol_(protocol), notes_(notes) {
    entry_.stage = stage;
  }

  std::optional<LogEntry> read() {
    read_files();
    entry_.use.stated = read_log_format(map_, notes_);
    entry_.zone_origin = map_.at("zone");
    if (!of_sessions() && map_.find("zone") == nullptr) {
      map_.require("zone", "days and times of day are local: write  zone: Europe/Berlin  or  zone: "
                           "+02:00");
    }
    read_rules();
    read_cut();
    if (!map_.usable() || has_errors_since(notes_, notes_before_)) return std::nullopt;
    // A name that is blank was reported when the file was read.
    if (entry_.use.files.empty() || entry_.use.files.size() != entry_.file_places.size())
      return std::nullopt;
    return std::move(entry_);
  }

private:
  [[nodiscard]] bool of_sessions() const { return entry_.stage == LogStage::sessions; }
  LogQuestion& question() { return entry_.use.question; }

  void read_files() {
    const Entry* log = map_.require("log", "name the logger's file, as in  log: day.csv");
    if (log == nullptr) return;
    entry_.use.origin = log->value.span;
    entry_.use.files = map_.texts("log");
    if (log->value.kind == NodeKind::list) {
      if (log->value.items.empty()) {
        notes_.error("K14", log->value.span, "'log' is an empty list",
                     {"name at least one file, as in  log: [june-14.csv, june-15.csv]"});
      }
      for (const Node& item : log->value.items)
        entry_.file_places.push_back(item.span);
    } else {
      entry_.file_places.push_back(log->value.span);
    }
  }

  void read_rules() {
    entry_.longest_gap = map_.quantity<Time>("longest_gap", longest_gap_range);
    entry_.tolerated_rows = map_.count("tolerate", 0, most_tolerated).value_or(0);
    StretchRules& rules = question().rules;
    rules.load_on = map_.quantity<Power>("load_on", load_range).value_or(rules.load_on);
    rules.counter_wraps_at = map_.quantity<Energy>("wraps_at", counter_range);
    entry_.wraps_at_place = map_.at("wraps_at");
    read_steady();
  }

  void read_steady() {
    std::optional<SteadyRule>& rule = question().rules.steady;
    if (!of_sessions()) rule.emplace();
    const Entry* steady = map_.find("steady");
    if (steady == nullptr) return;
    if (steady->value.kind == NodeKind::text) {
      const auto wanted = map_.flag("steady");
      if (wanted) rule = *wanted ? std::optional(SteadyRule{}) : std::nullopt;
      return;
    }
    const MapReader map(steady->value, steady_keys, steady->key_span, notes_);
    SteadyRule read;
    entry_.steady_window = map.quantity<Time>("window", window_range);
    read.window = entry_.steady_window.value_or(read.window);
    read.irradiance_change =
        map.quantity<Ratio>("irradiance_change", change_range).value_or(read.irradiance_change);
    read.ramp = map.quantity<Ratio>("ramp", change_range).value_or(read.ramp);
    read.temperature_change =
        map.quantity<TemperatureDifference>("temperature_change", warming_range)
            .value_or(read.temperature_change);
    rule = read;
  }

  void read_cut() {
    using Kind = LogCut::Kind;
    const std::string_view by_times = list_key(entry_.stage);
    const auto cut =
        map_.choice<Kind>("cut", {{"markers", Kind::markers}, {"plateaus", Kind::plateaus}});
    const Entry* times = map_.find(by_times);
    if (times != nullptr && map_.find("cut") != nullptr) {
      notes_
          .error("C01", map_.at("cut"),
                 fmt::format("'cut' and '{}' both say how the log is cut", by_times),
                 {"keep one of the two"})
          .related.push_back({times->key_span, "said here too"});
    }
    question().cut.kind = cut.value_or(times != nullptr ? Kind::times : Kind::whole);
    if (times != nullptr) read_spans(by_times);
    read_plateaus();
    const bool uncut = times == nullptr && map_.find("cut") == nullptr;
    if (uncut && !of_sessions() && map_.usable()) {
      notes_.error("C39", map_.owner(), "nothing says which rows of the log are a set-up",
                   {"write  setups: [{name: before 1, from: 2026-06-14T10:02:00, to: "
                    "2026-06-14T10:12:00}]",
                    "or  cut: markers  where a column of the log has their names"});
    }
  }

  void read_plateaus() {
    report_idle_keys(map_,
                     {{"plateaus", question().cut.kind == LogCut::Kind::plateaus, "plateaus"}},
                     {"cut", "how the log is cut", "write  cut: plateaus"});
    const Entry* entry = map_.find("plateaus");
    if (entry == nullptr) return;
    const MapReader map(entry->value, plateau_keys, entry->key_span, notes_);
    PlateauRule& rule = question().cut.plateaus;
    rule.shortest = map.quantity<Time>("shortest", plateau_range).value_or(rule.shortest);
    rule.shortest_off =
        map.quantity<Time>("shortest_off", plateau_range).value_or(rule.shortest_off);
  }

  void read_spans(std::string_view key) {
    const std::vector<Node>* items = map_.list(key);
    if (items == nullptr) return;
    if (items->empty()) {
      notes_.error("K14", map_.find(key)->value.span, fmt::format("'{}' is an empty list", key),
                   {"give each stretch  {name: ..., from: ..., to: ...}"});
    }
    const bool told = !of_sessions() || map_.find("zone") != nullptr;
    TimeReader times(entry_.use.stated.zone, told, notes_);
    for (const Node& item : *items)
      read_span(item, times);
  }

  void read_span(const Node& item, TimeReader& times) {
    const MapReader map(item, of_sessions() ? session_keys : log_setup_keys, item.span, notes_);
    const Entry* name = map.require("name", of_sessions() ? "write it as in  name: morning"
                                                          : "write it as in  name: before 1");
    LogSpan span;
    span.name = map.text("name");
    if (name != nullptr) span.origin = name->value.span;
    const auto from = times.read(map, "from");
    const auto to = times.read(map, "to");
    if (from && to && *from >= *to) {
      notes_
          .error("C38", map.at("to"),
                 *from == *to ? "this stretch of the log ends when it begins"
                              : "this stretch of the log ends before it begins",
                 {"check both times, and their offsets if they have any"})
          .related.push_back({map.at("from"), "it begins here"});
    }
    if (span.name.empty() || !check_name(span)) return;
    span.from_us = from.value_or(0);
    span.to_us = to.value_or(0);
    if (!of_sessions() && from && to) check_apart(span);
    question().cut.spans.push_back(std::move(span));
  }

  /// A row is of one set-up.
  void check_apart(const LogSpan& span) {
    const auto& spans = question().cut.spans;
    const auto other = std::find_if(spans.begin(), spans.end(), [&](const LogSpan& s) {
      return s.from_us <= span.to_us && span.from_us <= s.to_us;
    });
    if (other == spans.end()) return;
    notes_
        .error("T28", span.origin,
               fmt::format("set-ups {} and {} overlap in time", quoted(other->name),
                           quoted(span.name)),
               {"check the times of both"})
        .related.push_back({other->origin, "the other set-up"});
  }

  /// False, with an error, when the name is not one of a stretch here.
  bool check_name(const LogSpan& span) {
    const auto& spans = question().cut.spans;
    if (of_sessions()) {
      const auto same = std::find_if(spans.begin(), spans.end(),
                                     [&](const LogSpan& s) { return s.name == span.name; });
      return same == spans.end() || report_twice("session", span, *same);
    }
    const auto id = read_setup_name(span.name, span.origin, protocol_, notes_);
    if (!id) return false;
    if (!belongs_under(entry_.stage, id->first)) {
      const LogStage other = entry_.stage == LogStage::before ? LogStage::after : LogStage::before;
      notes_.error(
          "C40", span.origin,
          fmt::format("set-up {} stands under '{}'", quoted(span.name), word_of(entry_.stage)),
          {fmt::format("move it to a log under '{}', which may be the same file", word_of(other))});
      return false;
    }
    const auto same = std::find(entry_.setups.begin(), entry_.setups.end(), *id);
    if (same != entry_.setups.end()) {
      return report_twice("set-up", span,
                          spans[static_cast<std::size_t>(same - entry_.setups.begin())]);
    }
    entry_.setups.push_back(*id);
    return true;
  }

  bool report_twice(std::string_view what, const LogSpan& span, const LogSpan& first) {
    notes_
        .error("C05", span.origin,
               fmt::format("{} {} stands here a second time", what, quoted(span.name)),
               {"give each a name of its own"})
        .related.push_back({first.origin, "first given here"});
    return false;
  }

  std::size_t notes_before_;  ///< before the keys are looked at
  MapReader map_;
  const Protocol& protocol_;
  Diagnostics& notes_;
  LogEntry entry_;
};

}  // namespace

std::string_view word_of(LogStage stage) {
  switch (stage) {
  case LogStage::before:
    return "before";
  case LogStage::after:
    return "after";
  case LogStage::sessions:
    break;
  }
  return "sessions";
}

bool belongs_under(LogStage key, const StageId& stage) {
  const bool early = stage.kind == StageKind::before || stage.kind == StageKind::baseline;
  return key == (early ? LogStage::before : LogStage::after);
}

std::optional<LogEntry> read_log_entry(const Node& node, LogStage stage, const Protocol& protocol,
                                       SourceSpan owner, Diagnostics& notes) {
  return EntryReader(node, stage, protocol, owner, notes).read();
}

}  // namespace hailwright::input
