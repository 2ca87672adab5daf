#include "input/record_logs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <memory>

#include "core/quoted.hpp"
#include "hailwright/logs/log_stream.hpp"
#include "input/document.hpp"
#include "input/log_clocks.hpp"
#include "input/table.hpp"
#include "logs/steady_windows.hpp"

namespace hailwright::input {

namespace {

using hailwright::detail::quoted;

/// Bytes of a text that the caller's loader fetched whole.
LogBytes bytes_of(std::string text) {
  const auto kept = std::make_shared<const std::string>(std::move(text));
  LogBytes bytes;
  bytes.read = [kept, at = std::size_t{0}](char* into, std::size_t most) mutable {
    const std::size_t count = kept->copy(into, most, at);
    at += count;
    return count;
  };
  bytes.problem = [] { return std::string(); };
  return bytes;
}

OpenedLog open_log(const std::string& path, const LogFiles& files) {
  if (files.open) return files.open(path);
  Loaded loaded = files.load(path, largest_fetched_log);
  if (loaded.text && loaded.text->size() > largest_fetched_log) {
    return {std::nullopt, fmt::format("is larger than {} MiB", largest_fetched_log >> 20U),
            "split the log into files that follow each other"};
  }
  OpenedLog opened{std::nullopt, std::move(loaded.problem), std::move(loaded.hint)};
  if (loaded.text) opened.bytes = bytes_of(std::move(*loaded.text));
  return opened;
}

/// What is taken for the normalised power of a row: what is not stated takes the value that a
/// judgement assumes, and says so.
LogNormalisation normalisation(const Protocol& protocol, const Panel& panel) {
  LogNormalisation taken;
  if (protocol.tools.thermometer.where != SensorPlace::cell) {
    const auto& above_back = protocol.measure.cell_above_back;
    taken.cell_above_back = above_back ? above_back->value : assumed_cell_above_back;
  }
  taken.gamma = panel.power_coefficient_stated
                    ? panel.power_coefficient_stated->value
                    : panel.power_coefficient.value_or(assumed_coefficient);
  return taken;
}

const LogStretch* find_stretch(const LogFindings& findings, const std::string& name) {
  const auto& all = findings.stretches;
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const LogStretch& s) { return s.name == name; });
  return found == all.end() ? nullptr : &*found;
}

/// Whether a marker begins as set-ups do, or nearly so.
bool is_meant_as_setup(const std::string& marker) {
  static const std::vector<std::string> stages{"before", "baseline", "after", "later"};
  const std::vector<std::string> words = words_of(marker);
  return !words.empty() && nearest_word(words.front(), stages).has_value();
}

SourceSpan marked_at(const LogStretch& stretch, const LogUse& use) {
  if (stretch.kept.empty()) return use.origin;
  return place_in_log(stretch.kept.front(), use.question.first_file);
}

/// The stretch that had this one's marker first; nullptr when it did not come back. One that does
/// is named with a count: "before 1 (2)".
const LogStretch* first_of_marker(const LogStretch& stretch, const LogFindings& findings) {
  for (const LogStretch& earlier : findings.stretches) {
    if (&earlier == &stretch) break;
    if (stretch.name.starts_with(earlier.name + " (") && stretch.name.ends_with(')'))
      return &earlier;
  }
  return nullptr;
}

/// Reads one log through, to what its entry asks.
class LogRun {
public:
  LogRun(LogEntry& entry, const LogFiles& files, Diagnostics& notes)
      : entry_(entry), use_(entry.use), files_(files), notes_(notes) {}

  /// False, with errors, when the findings are not to be used.
  bool run(bool with_control) {
    auto opened = open_files();
    if (!opened) return false;
    LogReadingPlan plan;
    plan.tolerated_rows = entry_.tolerated_rows;
    use_.question.first_file = files_.sources.files() + 1;  // the stream adds them in their order
    LogStream stream(std::move(*opened), use_.stated, plan, files_.sources);
    const bool read = stream.open() && has_columns(stream.shape(), with_control) &&
                      has_marker(stream.shape()) && pass(stream);
    const bool fine = read && !stream.notes().has_errors();
    notes_.append(stream.notes());
    if (!fine) return false;
    tell_of_cutting();
    return true;
  }

private:
  [[nodiscard]] bool of_sessions() const { return entry_.stage == LogStage::sessions; }

  std::optional<std::vector<LogFile>> open_files() {
    std::vector<LogFile> files;
    for (std::size_t i = 0; i < use_.files.size(); ++i) {
      const std::string path = path_beside(files_.record, use_.files[i]);
      OpenedLog opened = open_log(path, files_);
      if (opened.bytes) {
        files.push_back({path, std::move(*opened.bytes)});
        continue;
      }
      notes_.error(
          "F01", entry_.file_places[i], fmt::format("the file {} {}", path, opened.problem),
          opened.hint.empty() ? std::vector<std::string>{} : std::vector<std::string>{opened.hint});
    }
    if (files.size() != use_.files.size()) return std::nullopt;
    return files;
  }

  /// Every reading of a set-up is a power at an irradiance and a temperature.
  bool has_columns(const LogShape& shape, bool with_control) {
    if (of_sessions()) return true;
    bool all = true;
    for (const LogRole role : {LogRole::power, LogRole::irradiance, LogRole::temperature}) {
      if (shape.column(role) != nullptr) continue;
      const bool made = role == LogRole::power && shape.column(LogRole::voltage) != nullptr &&
                        shape.column(LogRole::current) != nullptr;
      all = (made || report_no_column("L09", role, "a reading needs one")) && all;
    }
    for (const LogRole role : {LogRole::power_beside, LogRole::temperature_beside}) {
      if (!with_control || shape.column(role) != nullptr) continue;
      all = report_no_column("L03", role, "the protocol compares with a control panel") && all;
    }
    return all;
  }

  bool has_marker(const LogShape& shape) {
    if (use_.question.cut.kind != LogCut::Kind::markers) return true;
    if (shape.column(LogRole::marker) != nullptr) return true;
    return report_no_column("L03", LogRole::marker, "'cut: markers' goes by its words");
  }

  bool report_no_column(std::string_view code, LogRole role, std::string_view why) {
    notes_.error(
        code, use_.origin,
        fmt::format("the log has no column '{}': {}", hailwright::word_of(role), why),
        {fmt::format("name it as in  columns: {{{}: its header}}", hailwright::word_of(role)),
         role == LogRole::marker
             ? fmt::format("or cut by times, as in  {}: [{{name: ..., from: ..., to: ...}}]",
                           of_sessions() ? "times" : "setups")
             : "where another logger has it, type the readings into the table of readings"});
    return false;
  }

  bool pass(LogStream& stream) {
    use_.shape = stream.shape();
    StretchRules& rules = use_.question.rules;
    rules.longest_gap = entry_.longest_gap.value_or(usual_longest_gap(use_.shape.usual_step_s));
    if (rules.steady && !entry_.steady_window)
      rules.steady->window = detail::usual_steady_window(use_.shape.usual_step_s);
    use_.question.zone = use_.stated.zone;
    LogAnalysis analysis(use_.question);
    LogBlock block;
    while (stream.next(block))
      analysis.take(block);
    use_.tally = stream.tally();
    use_.findings = analysis.finish(cut_notes_);
    if (of_sessions()) keep_empty_spans();
    warn_of_idle_wrap();
    return true;
  }

  /// What was asked for and not logged is a session without rows, in the order of the spans.
  void keep_empty_spans() {
    if (use_.question.cut.kind != LogCut::Kind::times) return;
    std::vector<LogStretch> all;
    for (const LogSpan& span : use_.question.cut.spans) {
      const LogStretch* met = find_stretch(use_.findings, span.name);
      LogStretch stretch = met != nullptr ? *met : LogStretch{};
      if (met == nullptr) {
        stretch.name = span.name;
        stretch.from_us = span.from_us;
        stretch.to_us = span.to_us;
      }
      all.push_back(std::move(stretch));
    }
    use_.findings.stretches = std::move(all);
  }

  void warn_of_idle_wrap() {
    if (!use_.question.rules.counter_wraps_at) return;
    if (use_.shape.column(LogRole::energy) != nullptr) return;
    notes_.warning("C21", entry_.wraps_at_place,
                   "'wraps_at' says nothing here: the log has no counter of energy",
                   {"delete 'wraps_at', or name the counter as in  columns: {energy: its header}"});
  }

  /// A session may have no rows. A set-up that has none is not the one that was meant.
  void tell_of_cutting() {
    for (Diagnostic note : cut_notes_.items()) {
      if (note.code == "L28" && !of_sessions() && returns_to_setup(note.where)) continue;
      if (note.code == "L27" && !of_sessions() && names_no_stretch(note.where))
        note.severity = Severity::error;
      notes_.add(std::move(note));
    }
  }

  /// That is an error, which is told when the stretches are named.
  [[nodiscard]] bool returns_to_setup(SourceSpan where) const {
    const auto& all = use_.findings.stretches;
    return std::any_of(all.begin(), all.end(), [&](const LogStretch& stretch) {
      const SourceSpan at = marked_at(stretch, use_);
      return at.file == where.file && at.line == where.line && is_meant_as_setup(stretch.name);
    });
  }

  [[nodiscard]] bool names_no_stretch(SourceSpan where) const {
    const auto& spans = use_.question.cut.spans;
    const auto span = std::find_if(spans.begin(), spans.end(), [&](const LogSpan& s) {
      return s.origin.line == where.line && s.origin.column == where.column;
    });
    return span != spans.end() && find_stretch(use_.findings, span->name) == nullptr;
  }

  LogEntry& entry_;
  LogUse& use_;
  const LogFiles& files_;
  Diagnostics& notes_;
  Diagnostics cut_notes_;
};

class RecordLogsReader {
public:
  RecordLogsReader(const MapReader& map, const LogFiles& files, const Protocol& protocol,
                   const LogSetupsInto& into, Diagnostics& notes)
      : map_(map), files_(files), protocol_(protocol), into_(into), notes_(notes) {}

  void read(LogStage stage) {
    const Entry* entry = map_.find(word_of(stage));
    if (entry == nullptr || (stage != LogStage::sessions && !read_from_logs(*entry))) return;
    const auto first = static_cast<std::ptrdiff_t>(notes_.items().size());
    read_logs(*entry, stage);
    const auto& notes = notes_.items();
    if (std::any_of(notes.begin() + first, notes.end(),
                    [](const Diagnostic& d) { return d.severity == Severity::error; })) {
      excuse_unread(stage);
    }
  }

  /// Set-ups that a log marks, each left to the other key, and that stand under none.
  void report_left_out() {
    for (const LeftOut& left : left_out_) {
      if (has_setup(left.id)) continue;
      notes_.warning(
          "C45", left.where,
          fmt::format("the log also marks set-up {}, which no log under '{}' gives",
                      quoted(left.name),
                      word_of(belongs_under(LogStage::before, left.id.first) ? LogStage::before
                                                                             : LogStage::after)),
          {"name the log there too, with  cut: markers"});
    }
  }

private:
  struct LeftOut {
    SetupId id;
    std::string name;
    SourceSpan where;
  };

  void read_logs(const Entry& entry, LogStage stage) {
    if (entry.value.kind != NodeKind::list) {
      read_log(entry.value, stage, entry.key_span);
      return;
    }
    if (entry.value.items.empty()) {
      notes_.error("K14", entry.value.span, fmt::format("'{}' is an empty list", entry.key),
                   {"name at least one log, or delete the key"});
    }
    for (const Node& item : entry.value.items)
      read_log(item, stage, item.span);
  }

  /// Set-ups of this stage may have been in the log that could not be read.
  void excuse_unread(LogStage stage) {
    if (stage == LogStage::sessions) return;
    const std::vector<Setup>& setups = into_.record.setups;
    for (std::size_t i = 0; i < setups.size(); ++i)
      into_.rows[i].log_failed = into_.rows[i].log_failed || belongs_under(stage, setups[i].stage);
  }

  bool read_from_logs(const Entry& entry) {
    if (protocol_.measure.compare != Comparison::sibling_panel) return true;
    notes_
        .error("C41", entry.key_span, "readings of sibling panels cannot come from a log",
               {fmt::format("delete '{}' and type them into the table of readings: a log has "
                            "columns for two panels at most",
                            entry.key)})
        .related.push_back({protocol_.measure.origin, "the protocol's measurement"});
    return false;
  }

  void read_log(const Node& node, LogStage stage, SourceSpan owner) {
    auto entry = read_log_entry(node, stage, protocol_, owner, notes_);
    if (!entry) return;
    const bool of_sessions = stage == LogStage::sessions;
    LogQuestion& question = entry->use.question;
    question.rules.normalise = normalisation(protocol_, into_.record.panel);
    // A log with markers may hold as many rows of the other key.
    const std::size_t keys = question.cut.kind == LogCut::Kind::markers ? 2 : 1;
    if (!of_sessions) question.kept_rows = keys * most_log_rows + 1;
    if (!LogRun(*entry, files_, notes_).run(into_.with_control)) return;
    if (of_sessions) {
      into_.record.sessions.push_back(std::move(entry->use));
      return;
    }
    const auto setups = name_stretches(*entry);
    if (!setups || !count_rows(entry->use)) return;
    add_log_setups(entry->use, *setups, into_, notes_);
    for (LogStretch& stretch : entry->use.findings.stretches)
      stretch.kept = {};
    into_.record.logs.push_back(std::move(entry->use));
  }

  /// False, with an error, when the readings become too many.
  bool count_rows(const LogUse& use) {
    const auto& stretches = use.findings.stretches;
    const bool all = std::all_of(stretches.begin(), stretches.end(), [](const LogStretch& s) {
      return s.kept.size() == static_cast<std::size_t>(s.rows);
    });
    for (const LogStretch& stretch : stretches)
      rows_ += stretch.kept.size();
    if (all && rows_ <= most_log_rows) return true;
    notes_.error("C43", use.origin,
                 fmt::format("the set-ups have more than {} rows of logs", most_log_rows),
                 {"cut shorter stretches: ten minutes at one row a second are 600 rows",
                  "what takes days is a session: move the log to  sessions:"});
    return false;
  }

  /// The set-up of each stretch; stretches that are none of this key are taken out.
  std::optional<std::vector<SetupId>> name_stretches(LogEntry& entry) {
    switch (entry.use.question.cut.kind) {
    case LogCut::Kind::times:
      return of_spans(entry);
    case LogCut::Kind::markers:
      return named_by_markers(entry);
    case LogCut::Kind::plateaus:
    case LogCut::Kind::whole:
      break;
    }
    return numbered(entry);
  }

  /// In the order of the spans; those without rows have been reported.
  static std::vector<SetupId> of_spans(LogEntry& entry) {
    std::vector<LogStretch> sorted;
    std::vector<SetupId> setups;
    const auto& spans = entry.use.question.cut.spans;
    for (std::size_t i = 0; i < spans.size(); ++i) {
      const LogStretch* stretch = find_stretch(entry.use.findings, spans[i].name);
      if (stretch == nullptr) continue;
      sorted.push_back(*stretch);
      setups.push_back(entry.setups[i]);
    }
    entry.use.findings.stretches = std::move(sorted);
    return setups;
  }

  /// False, with errors, when a set-up's marker comes back.
  bool each_in_one_go(const LogUse& use) {
    bool fine = true;
    for (const LogStretch& stretch : use.findings.stretches) {
      const LogStretch* first = first_of_marker(stretch, use.findings);
      if (first == nullptr || !is_meant_as_setup(stretch.name)) continue;
      report_return(stretch, *first, use);
      fine = false;
    }
    return fine;
  }

  std::optional<std::vector<SetupId>> named_by_markers(LogEntry& entry) {
    if (!each_in_one_go(entry.use)) return std::nullopt;
    std::vector<LogStretch> taken;
    std::vector<SetupId> setups;
    bool fine = true;
    for (LogStretch& stretch : entry.use.findings.stretches) {
      if (!is_meant_as_setup(stretch.name)) {
        report_other_marker(stretch, entry.use);
        continue;
      }
      const auto id =
          read_setup_name(stretch.name, marked_at(stretch, entry.use), protocol_, notes_);
      fine = fine && id.has_value();
      if (!id) continue;
      if (!belongs_under(entry.stage, id->first)) {
        left_out_.push_back({*id, stretch.name, entry.use.origin});
        continue;
      }
      setups.push_back(*id);
      taken.push_back(std::move(stretch));
    }
    entry.use.findings.stretches = std::move(taken);
    if (fine && setups.empty())
      fine = report_no_setup(entry, "no marker of the log names a set-up");
    if (!fine) return std::nullopt;
    return setups;
  }

  void report_return(const LogStretch& stretch, const LogStretch& first, const LogUse& use) {
    notes_
        .error("L28", marked_at(stretch, use),
               fmt::format("marker {} comes back after other rows: a set-up is read in one go",
                           quoted(first.name)),
               {fmt::format("give each set-up a marker of its own, or cut by times:  setups: "
                            "[{{name: {}, from: ..., to: ...}}]",
                            first.name)})
        .related.push_back({marked_at(first, use), "it began here first"});
  }

  void report_other_marker(const LogStretch& stretch, const LogUse& use) {
    notes_.warning("C45", marked_at(stretch, use),
                   fmt::format("marker {} names no set-up: its {} rows are in none",
                               quoted(stretch.name), stretch.rows),
                   {"a set-up is a stage and a number: before 1, after 1"});
  }

  bool report_no_setup(const LogEntry& entry, std::string_view why) {
    notes_.error("L27", entry.use.origin, fmt::format("{} under '{}'", why, word_of(entry.stage)),
                 {fmt::format("give their times:  setups: [{{name: {} 1, from: "
                              "2026-06-14T10:02:00, to: 2026-06-14T10:12:00}}]",
                              word_of(entry.stage))});
    return false;
  }

  /// By their order: "before 1", "before 2".
  std::optional<std::vector<SetupId>> numbered(LogEntry& entry) {
    const StageKind kind = entry.stage == LogStage::before ? StageKind::before : StageKind::after;
    std::vector<SetupId> setups;
    for (LogStretch& stretch : entry.use.findings.stretches) {
      const int number = ++plateaus_[static_cast<std::size_t>(entry.stage)];
      stretch.name = fmt::format("{} {}", word_of(entry.stage), number);
      setups.push_back({StageId{kind, 0}, number});
    }
    if (!setups.empty() || report_no_setup(entry, "the log has no plateau")) return setups;
    return std::nullopt;
  }

  [[nodiscard]] bool has_setup(const SetupId& id) const {
    const auto& setups = into_.record.setups;
    return std::any_of(setups.begin(), setups.end(), [&](const Setup& setup) {
      return setup.stage == id.first && setup.number == id.second;
    });
  }

  const MapReader& map_;
  const LogFiles& files_;
  const Protocol& protocol_;
  const LogSetupsInto& into_;
  Diagnostics& notes_;
  std::size_t rows_ = 0;
  std::array<int, 2> plateaus_{};  ///< found so far, before and after
  std::vector<LeftOut> left_out_;
};

}  // namespace

void read_record_logs(const MapReader& map, const LogFiles& files, const Protocol& protocol,
                      bool with_setups, const LogSetupsInto& into, Diagnostics& notes) {
  RecordLogsReader reader(map, files, protocol, into, notes);
  if (with_setups) {
    reader.read(LogStage::before);
    reader.read(LogStage::after);
    reader.report_left_out();
  }
  reader.read(LogStage::sessions);
  check_log_clocks(into.record, into.rows, notes);
}

}  // namespace hailwright::input
