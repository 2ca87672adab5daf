#include "cli/readings_command.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "cli/exit_codes.hpp"
#include "cli/files.hpp"
#include "cli/progress.hpp"
#include "cli/readings_logs.hpp"
#include "cli/terminal.hpp"
#include "core/quoted.hpp"
#include "hailwright/evaluate/log_results.hpp"
#include "hailwright/input/readers.hpp"
#include "hailwright/logs/log_recognise.hpp"
#include "hailwright/logs/log_stream.hpp"
#include "hailwright/report/compose_readings.hpp"
#include "hailwright/report/render.hpp"
#include "logs/steady_windows.hpp"

namespace hailwright::cli {

namespace {

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines)
    text += line + "\n";
  return text;
}

int print(const ReadingsAnswer& answer, const std::string& format) {
  if (format == "json") return write_output(readings_json(answer));
  if (format == "csv") return write_output(render_csv(readings_table(answer)));
  if (format == "yaml") return write_output(joined(readings_yaml(answer)));
  const Document document = compose_readings(answer);
  if (format == "html") return write_output(render_html(document));
  return write_output(format == "md" ? render_markdown(document)
                                     : render_console(document, console_style()));
}

/// Files beside the logs: how those are written, and with what was measured.
struct Surroundings {
  LogFormat first, second;
  std::optional<Protocol> protocol;
  std::optional<Panel> panel, panel_beside;

  [[nodiscard]] LogInstruments instruments() const {
    LogInstruments known;
    if (protocol) known.tools = &protocol->tools;
    if (panel) known.panel = &*panel;
    if (panel_beside) known.panel_beside = &*panel_beside;
    return known;
  }
};

/// What a reader of files gives, its messages among the others; nothing where no file was named.
template <class T>
std::optional<T> read_named(const std::string& path,
                            Checked<T> (&read)(const std::string&, const Loader&, SourceSet&),
                            SourceSet& sources, Diagnostics& notes) {
  if (path.empty()) return std::nullopt;
  Checked<T> file = read(path, load_file, sources);
  notes.append(std::move(file.notes));
  return std::move(file.value);
}

/// A column map, whose statements the options go before.
std::optional<LogFormat> read_map(const std::string& path, const LogFormat& options,
                                  SourceSet& sources, Diagnostics& notes) {
  std::optional<LogFormat> map = read_named(path, read_log_format, sources, notes);
  if (map) warn_of_overruled(options, *map, notes);
  return map;
}

/// A second log without a map of its own is taken for one of the same kind of logger.
LogFormat second_format(const LogFormat& options, const LogFormat& first,
                        std::optional<LogFormat> own) {
  if (!own) return first;
  LogFormat format = stated_over(*own, options);
  format.columns = std::move(own->columns);
  format.origin = own->origin;
  return format;
}

Surroundings read_surroundings(const ReadingsOptions& o, const LogFormat& stated,
                               SourceSet& sources, Diagnostics& notes) {
  Surroundings read;
  read.first =
      stated_over(stated, read_map(o.columns, stated, sources, notes).value_or(LogFormat{}));
  read.second =
      second_format(stated, read.first, read_map(o.beside_columns, stated, sources, notes));
  read.protocol = read_named(o.protocol, read_protocol, sources, notes);
  read.panel = read_named(o.panel, read_panel, sources, notes);
  read.panel_beside = read_named(o.beside_panel, read_panel, sources, notes);
  return read;
}

NextBlock rows_of(LogStream& stream) {
  return [&stream](LogBlock& block) { return stream.next(block); };
}

/// From the first to the last row of a log, seen as they go by.
class SeenSpan {
public:
  void take(const LogBlock& block) {
    if (block.rows() == 0) return;
    if (!from_us_) from_us_ = block.time_us.front();
    to_us_ = block.time_us.back();
  }
  [[nodiscard]] bool empty() const { return !from_us_; }
  [[nodiscard]] std::int64_t from_us() const { return from_us_.value_or(0); }
  [[nodiscard]] std::int64_t to_us() const { return to_us_; }

private:
  std::optional<std::int64_t> from_us_;
  std::int64_t to_us_ = 0;
};

/// Options that say nothing of logs of this shape. Warned of, since one command may be typed for
/// many logs.
void warn_of_needless(const ReadingsOptions& o, const LogShape& shape, bool second_panel,
                      Diagnostics& notes) {
  const auto needless = [&notes](const std::string& typed, const char* option, const char* why) {
    if (!typed.empty())
      notes.warning("C21", {}, std::string(option) + " says nothing " + why, {"leave it out"});
  };
  if (!second_panel) needless(o.beside_panel, "--beside-panel", "without a second panel");
  if (shape.column(LogRole::energy) == nullptr)
    needless(o.counter_wraps, "--counter-wraps", "of a log without a counter");
  if (shape.stamp.kind != StampForm::Kind::calendar)
    needless(o.dates, "--dates", "of times that are counts of seconds");
  else if (shape.stamp.dates == DateOrder::year_first && o.dates != "year-first")
    needless(o.dates, "--dates", "of times that are written year first");
}

/// One or two logs that are read together.
struct Streams {
  LogStream first;
  std::optional<LogStream> second;

  Streams(const TypedLogs& logs, const Surroundings& around, const LogReadingPlan& plan,
          SourceSet& sources)
      : first(logs.open_first(), around.first, plan, sources) {
    if (logs.has_second()) second.emplace(logs.open_second(), around.second, plan, sources);
  }

  /// Both, so that all that is wrong is told in one run.
  bool open() {
    const bool one = first.open();
    return (!second || second->open()) && one;
  }
  [[nodiscard]] double coarser_step_s() const {
    return std::max(first.shape().usual_step_s, second ? second->shape().usual_step_s : 0.0);
  }
  [[nodiscard]] bool second_panel() const {
    return second || first.shape().column(LogRole::power_beside) != nullptr;
  }
  [[nodiscard]] Diagnostics notes() const {
    Diagnostics all = first.notes();
    if (second) all.append(second->notes());
    return all;
  }
};

/// Reads logs and answers what was asked of them.
class Reading {
public:
  Reading(const ReadingsOptions& options, ReadingsRequest request, const TypedLogs& logs,
          const Surroundings& around, SourceSet& sources)
      : options_(options), logs_(logs), around_(around), sources_(sources),
        request_(std::move(request)), progress_(write_messages, messages_are_watched(), total()) {
    answer_.files = options.files;
    answer_.files_beside = options.beside;
    answer_.stated = around.first;
    answer_.place = request_.place;
    answer_.question = request_.question;
    answer_.question.zone = around.first.zone;
    answer_.question.rules.normalise = log_normalisation(around.instruments());
  }

  /// Notes with errors when there is no answer.
  ReadingsAnswer answer() {
    answer_.question.first_file = sources_.files() + 1;  // the stream adds them in their order
    Streams streams(logs_, around_, plan(), sources_);
    Diagnostics found;
    if (streams.open() && has_marker(streams.first.shape(), found)) found = analyse(streams);
    progress_.erase();
    answer_.notes = streams.notes();
    answer_.notes.append(std::move(found));
    if (!answer_.notes.has_errors())
      answer_.results = weigh_log(answer_.findings, around_.instruments(), answer_.offset);
    return std::move(answer_);
  }

private:
  [[nodiscard]] std::optional<std::int64_t> total() const {
    const auto once = logs_.total();
    return once && request_.find_offset ? std::optional(2 * *once) : once;
  }

  LogReadingPlan plan() {
    LogReadingPlan plan;
    plan.threads = logs_.has_second() ? (request_.threads + 1) / 2 : request_.threads;
    plan.tolerated_rows = request_.tolerated_rows;
    plan.progress = [this](std::int64_t) { progress_.report(logs_.taken()); };
    return plan;
  }

  /// The markers are those of the first log.
  bool has_marker(const LogShape& shape, Diagnostics& found) const {
    if (answer_.question.cut.kind != LogCut::Kind::markers) return true;
    if (shape.column(LogRole::marker) != nullptr) return true;
    found.error("L03", around_.first.origin,
                "the log has no column 'marker': '--cut markers' goes by its words",
                {"name it in a column map, as in  columns: {marker: its header}, and give that "
                 "with --columns",
                 "or cut by times: --span"});
    return false;
  }

  Diagnostics analyse(Streams& streams) {
    Diagnostics found;
    answer_.shape = streams.first.shape();
    warn_of_needless(options_, answer_.shape, streams.second_panel(), found);
    if (streams.second && !is_only_second_panel(found)) return found;
    // The first log's energy does not depend on what is laid beside it.
    StretchRules& rules = answer_.question.rules;
    rules.longest_gap = longest_gap(answer_.shape.usual_step_s);
    if (rules.steady && !request_.steady_window)
      rules.steady->window = detail::usual_steady_window(answer_.shape.usual_step_s);
    if (streams.second) settle_offset(streams.coarser_step_s());
    LogAnalysis analysis(answer_.question);
    const SeenSpan second = take_all(streams, analysis);
    answer_.findings = analysis.finish(found);
    if (streams.second) warn_of_second_log(second, found);
    answer_.tally = streams.first.tally();
    if (streams.second) answer_.tally_beside = streams.second->tally();
    return found;
  }

  [[nodiscard]] Time longest_gap(double usual_step_s) const {
    return request_.longest_gap.value_or(usual_longest_gap(usual_step_s));
  }

  /// A second log would take the place of what the first one has of a second panel.
  bool is_only_second_panel(Diagnostics& found) const {
    const LogColumn* column = answer_.shape.column(LogRole::power_beside);
    if (column == nullptr) column = answer_.shape.column(LogRole::temperature_beside);
    if (column == nullptr) return true;
    found.error("C20", {answer_.question.first_file, 0, 0, 0},
                "--beside names a second panel, and this log has one already, in its column " +
                    detail::quoted(column->header),
                {"leave --beside out, or state the columns of the first panel alone: --columns"});
    return false;
  }

  /// From where to where the second log ran.
  SeenSpan take_all(Streams& streams, LogAnalysis& analysis) {
    NextBlock next = rows_of(streams.first);
    SeenSpan seen;
    const NextBlock second = [&](LogBlock& block) {
      const bool more = streams.second->next(block);
      if (more) seen.take(block);
      return more;
    };
    std::optional<LogPairing> pairing;
    if (streams.second) {
      pairing.emplace(next, second, answer_.offset_used,
                      longest_gap(streams.second->shape().usual_step_s));
      next = [&pairing](LogBlock& block) { return pairing->next(block); };
    }
    LogBlock block;
    while (next(block))
      analysis.take(block);
    // What the second log has beyond the first one is read too, so that all its rows are counted.
    while (streams.second && second(block)) {
    }
    return seen;
  }

  void settle_offset(double usual_step_s) {
    if (!request_.find_offset) {
      answer_.offset_used = request_.offset.value_or(Time{});
      return;
    }
    // Read by themselves before the rows are taken; what is wrong with them is told then.
    SourceSet apart;
    Streams streams(logs_, around_, plan(), apart);
    if (!streams.open()) return;
    const Time step = Time::from_si(usual_step_s > 0.0 ? usual_step_s : 1.0);
    answer_.offset = find_clock_offset(rows_of(streams.first), rows_of(*streams.second),
                                       request_.offset_search, step, longest_gap(usual_step_s));
    if (answer_.offset->offset) answer_.offset_used = *answer_.offset->offset;
  }

  /// Why the second log tells less than was hoped for.
  void warn_of_second_log(const SeenSpan& second, Diagnostics& found) const {
    const LogStretch& first = answer_.findings.whole;
    const std::int64_t offset_us = std::llround(answer_.offset_used.si() * 1e6);
    const bool apart =
        first.rows > 0 && !second.empty() &&
        (second.to_us() + offset_us < first.from_us || second.from_us() + offset_us > first.to_us);
    if (answer_.offset && !answer_.offset->offset) {
      std::vector<std::string> mends;
      if (!apart) mends = {"state it with --offset, 0s where both clocks were set alike"};
      found.warning("L30", {},
                    "the offset between the two clocks was not found, and 0 s is taken: " +
                        answer_.offset->why_not,
                    std::move(mends));
    }
    if (apart) {
      warn_of_logs_apart(second, offset_us, found);
    } else if (!first.beside && first.rows > 0 && !second.empty()) {
      found.warning("L34", {},
                    "no ratio of the two panels: in no window of a minute do both give power "
                    "without a gap");
    }
  }

  void warn_of_logs_apart(const SeenSpan& second, std::int64_t offset_us,
                          Diagnostics& found) const {
    const auto span = [this](std::int64_t from_us, std::int64_t to_us) {
      const std::string& zone = answer_.question.zone;
      return "from " + iso_time(from_us, zone) + " to " + iso_time(to_us, zone);
    };
    const LogStretch& first = answer_.findings.whole;
    found.warning("L34", {},
                  "no ratio of the two panels: the logs have no time in common. The first runs " +
                      span(first.from_us, first.to_us) + ", the second " +
                      span(second.from_us() + offset_us, second.to_us() + offset_us),
                  {"see whether both zones are right: --zone of the first, and `zone:` in the map "
                   "of --beside-columns, which is the first one's unless stated"});
  }

  const ReadingsOptions& options_;
  const TypedLogs& logs_;
  const Surroundings& around_;
  SourceSet& sources_;
  ReadingsRequest request_;
  ReadingsAnswer answer_;
  ReadingProgress progress_;
};

int failed(const Diagnostics& notes, const SourceSet& sources, int exit_code) {
  write_messages(render_diagnostics(notes, sources));
  return exit_code;
}

/// The beginning of a log in whole lines; nothing, with an error, where it cannot be read.
std::optional<std::string> beginning_of(const LogFile& file, std::uint32_t number,
                                        Diagnostics& notes) {
  std::string text(recognised_bytes, '\0');
  text.resize(file.bytes.read(text.data(), text.size()));
  if (const std::string problem = file.bytes.problem(); !problem.empty()) {
    notes.error("L01", {number, 0, 0, 0}, problem);
    return std::nullopt;
  }
  const std::size_t last_break = text.rfind('\n');
  if (text.size() == recognised_bytes && last_break != std::string::npos)
    text.resize(last_break + 1);
  return text;
}

int suggest(const TypedLogs& logs, const LogFormat& stated, SourceSet& sources) {
  const LogFile file = std::move(logs.open_first().front());
  Diagnostics notes;
  const std::uint32_t number = sources.add_unkept(file.name);
  std::optional<ProposedFormat> proposed;
  if (const auto text = beginning_of(file, number, notes))
    proposed = propose_format(*text, number, sources, notes, stated);
  write_messages(render_diagnostics(notes, sources));
  if (notes.has_errors() || !proposed) return exit_input;
  return write_output(joined(format_yaml(*proposed)));
}

}  // namespace

int run_readings(const ReadingsOptions& o) {
  Checked<ReadingsRequest> request = read_readings_options(o);
  SourceSet sources;
  if (!request.value) return failed(request.notes, sources, exit_usage);
  const TypedLogs logs(o.files, o.beside);
  Diagnostics notes;
  logs.check(sources, notes);
  if (o.beside_columns.empty()) logs.check_apart(sources, notes);
  if (o.suggest)
    return notes.has_errors() ? failed(notes, sources, exit_input)
                              : suggest(logs, request.value->stated, sources);
  const Surroundings around = read_surroundings(o, request.value->stated, sources, notes);
  if (notes.has_errors()) return failed(notes, sources, exit_input);
  Diagnostics usage;
  request.value->question.cut.spans = spans_in_utc(request.value->spans, around.first.zone, usage);
  if (request.value->find_offset && !logs.can_be_read_again()) {
    usage.error("C20", {}, "--offset auto reads both logs twice, and a pipe can be read once",
                {"save it as a file, or state the offset: --offset 7s"});
  }
  if (usage.has_errors()) return failed(usage, sources, exit_usage);

  Reading reading(o, std::move(*request.value), logs, around, sources);
  ReadingsAnswer answer = reading.answer();
  answer.notes.append(std::move(notes));
  answer.notes.append(std::move(usage));
  write_messages(render_diagnostics(answer.notes, sources));
  return answer.notes.has_errors() ? exit_input : print(answer, o.format);
}

}  // namespace hailwright::cli
