#include "cli/commands.hpp"

#include <algorithm>
#include <optional>

#include "cli/byte_source.hpp"
#include "cli/exit_codes.hpp"
#include "cli/files.hpp"
#include "cli/input_copies.hpp"
#include "cli/record_files.hpp"
#include "cli/terminal.hpp"
#include "core/utf8.hpp"
#include "hailwright/input/readers.hpp"
#include "hailwright/input/schemas.hpp"
#include "hailwright/report/compose.hpp"
#include "hailwright/report/compose_explanation.hpp"
#include "hailwright/report/render.hpp"
#include "hailwright/report/write_up.hpp"

namespace hailwright::cli {

namespace {

int write_document(const Document& document, const std::string& format) {
  if (format == "html") return write_output(render_html(document));
  return write_output(format == "md" ? render_markdown(document)
                                     : render_console(document, console_style()));
}

bool known_scheme(const std::string& scheme) {
  const auto grades = impact_grades();
  return std::any_of(grades.begin(), grades.end(),
                     [&](const Grade& g) { return g.scheme == scheme; });
}

}  // namespace

int run_grades(const GradesOptions& o) {
  if (!o.scheme.empty() && !known_scheme(o.scheme)) {
    write_messages("hailwright: --scheme '" + o.scheme +
                   "' is not in the table; hailwright grades lists all schemes\n");
    return exit_usage;
  }
  if (o.format == "json") return write_output(grades_json(o.scheme));
  if (o.format == "csv") return write_output(render_csv(grades_table(o.scheme)));
  return write_document(compose_grades(o.scheme), o.format);
}

int run_sources(const SourcesOptions& o) {
  return write_document(compose_sources(), o.format);
}

int run_shot(const ShotOptions& o) {
  const Checked<ShotQuestion> question = read_shot_options(o);
  write_messages(render_diagnostics(question.notes, SourceSet()));
  if (!question.value) return exit_usage;
  const ShotAnswer answer = answer_shot(*question.value);
  if (o.format == "json") return write_output(shot_json(answer));
  return write_document(compose_shot(answer), o.format);
}

namespace {

/// What a judgement for machines is made from; photos are the write-up's alone.
WriteUp for_machines(const JudgedTests& judged, const SourceSet& sources, const FilesRead& files) {
  WriteUp write_up;
  write_up.judged = judged.all();
  write_up.sources = &sources;
  write_up.inputs = inputs_named_as_typed(files);
  write_up.photos.resize(judged.all().size());
  write_up.version = HAILWRIGHT_VERSION;
  return write_up;
}

Document for_people(const JudgedTests& judged, const SourceSet& sources, bool explain) {
  Document document = compose_judgement(judged.all(), sources);
  if (explain) {
    for (const Judged& j : judged.all())
      append_explanation(document, j, sources);
  }
  return document;
}

/// Exit code of a judgement that was written.
int judged_code(bool strict, bool all_withstood) {
  return strict && !all_withstood ? exit_not_withstood : exit_done;
}

/// JSON Lines: the report of each record by itself, so that no line depends on the others, and no
/// more than one record is held.
int write_lines(const JudgeOptions& o, const Judging& judging) {
  bool all_withstood = true;
  for (const std::string& path : o.judging.records) {
    FilesRead files;
    const RecordsRead read = read_records({path}, files.loader(), files.log_opener());
    if (read.notes.has_errors()) {  // it has changed since all were read
      write_messages(render_diagnostics(read.notes, read.sources));
      return exit_input;
    }
    const JudgedTests judged(read.tests, judging);
    const int written = write_output(report_json_line(for_machines(judged, read.sources, files)));
    if (written != exit_done) return written;
    all_withstood = all_withstood && judged.all_withstood();
  }
  return judged_code(o.strict, all_withstood);
}

}  // namespace

int run_judge(const JudgeOptions& o) {
  const std::optional<Judging> judging = read_judging(o.judging);
  if (!judging) return exit_usage;
  if (o.explain && (o.format == "json" || o.format == "jsonl")) {
    write_messages("hailwright: --explain has no JSON form; choose text, md or html\n");
    return exit_usage;
  }
  FilesRead files;
  const RecordsRead read = read_records(o.judging.records, files.loader(), files.log_opener());
  write_messages(render_diagnostics(read.notes, read.sources));
  if (read.notes.has_errors()) return exit_input;
  if (o.format == "jsonl") return write_lines(o, *judging);
  const JudgedTests judged(read.tests, *judging);
  const int written = o.format == "json"
                          ? write_output(report_json(for_machines(judged, read.sources, files)))
                          : write_document(for_people(judged, read.sources, o.explain), o.format);
  if (written != exit_done) return written;
  return judged_code(o.strict, judged.all_withstood());
}

namespace {

int print_schema(const std::string& kind) {
  if (kind == "protocol") return write_output(json_schema(FileKind::protocol));
  if (kind == "columns") return write_output(json_schema(FileKind::columns));
  if (kind == "specimens") return write_output(json_schema(FileKind::specimens));
  return write_output(json_schema(kind == "panel" ? FileKind::panel : FileKind::record));
}

}  // namespace

int run_check(const CheckOptions& o) {
  if (!o.schema.empty()) return print_schema(o.schema);
  if (o.files.empty()) {
    write_messages("hailwright: check needs files, or --schema with a kind of file\n");
    return exit_usage;
  }
  SourceSet sources;
  Diagnostics notes;
  const LogOpener open_logs = [](const std::string& path) { return open_log_file(path); };
  for (const std::string& path : o.files)
    notes.append(check_file(path, load_file, sources, open_logs));
  write_messages(render_diagnostics(notes, sources));
  if (notes.has_errors()) return exit_input;
  std::string text;
  for (const std::string& path : o.files)
    text += hailwright::detail::without_steering(path) + ": nothing wrong\n";
  return notes.empty() ? write_output(text) : exit_done;
}

}  // namespace hailwright::cli
