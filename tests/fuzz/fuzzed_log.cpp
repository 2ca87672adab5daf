#include "fuzzed_log.hpp"

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "hailwright/evaluate/log_results.hpp"
#include "hailwright/input/readers.hpp"
#include "hailwright/logs/log_analysis.hpp"
#include "hailwright/logs/log_recognise.hpp"
#include "hailwright/logs/log_stream.hpp"
#include "hailwright/report/compose_readings.hpp"
#include "hailwright/report/render.hpp"

namespace hailwright::fuzzing {

namespace {

constexpr const char* column_map = "columns.yaml";

/// What is stated of the log; nothing with errors.
std::optional<LogFormat> stated_format(const NamedParts& parts, SourceSet& sources) {
  if (!parts.has(column_map)) {
    LogFormat format;
    format.zone = "Europe/Berlin";
    return format;
  }
  Checked<LogFormat> read = read_log_format(column_map, parts.loader(), sources);
  say(read.notes, sources);
  return std::move(read.value);
}

void propose(const NamedParts& parts) {
  SourceSet sources;
  Diagnostics notes;
  const std::uint32_t file = sources.add_unkept(parts.main_name());
  const auto proposed = propose_format(parts.main_text(), file, sources, notes);
  say(notes, sources);
  if (proposed) require(!format_yaml(*proposed).empty(), "a proposal has lines");
}

LogQuestion question_of(const LogShape& shape, std::uint32_t first_file, const std::string& zone) {
  LogQuestion question;
  question.rules.longest_gap = usual_longest_gap(shape.usual_step_s);
  question.rules.steady = SteadyRule{};
  const bool marked = shape.column(LogRole::marker) != nullptr;
  question.cut.kind = marked ? LogCut::Kind::markers : LogCut::Kind::plateaus;
  question.cut.plateaus.shortest = Time::from_si(10.0);
  question.first_file = first_file;
  question.zone = zone;
  return question;
}

void print(const ReadingsAnswer& answer) {
  static_cast<void>(render_console(compose_readings(answer), {}));
  static_cast<void>(readings_json(answer));
  static_cast<void>(render_csv(readings_table(answer)));
  static_cast<void>(readings_yaml(answer));
}

}  // namespace

void read_log(const NamedParts& parts, SourceSet& sources) {
  propose(parts);
  const auto format = stated_format(parts, sources);
  if (!format) return;
  ReadingsAnswer answer;
  answer.files = {parts.main_name()};
  answer.stated = *format;
  const std::uint32_t first_file = sources.files() + 1;
  std::vector<LogFile> files;
  files.push_back({parts.main_name(), bytes_of(parts.main_text())});
  LogReadingPlan plan;
  plan.tolerated_rows = 3;
  LogStream stream(std::move(files), *format, plan, sources);
  if (stream.open()) {
    answer.shape = stream.shape();
    answer.question = question_of(answer.shape, first_file, format->zone);
    LogAnalysis analysis(answer.question);
    LogBlock block;
    while (stream.next(block))
      analysis.take(block);
    answer.findings = analysis.finish(answer.notes);
  }
  answer.tally = stream.tally();
  answer.notes.append(stream.notes());
  say(answer.notes, sources);
  if (answer.notes.has_errors()) return;
  answer.results = weigh_log(answer.findings, LogInstruments{}, std::nullopt);
  print(answer);
}

}  // namespace hailwright::fuzzing
