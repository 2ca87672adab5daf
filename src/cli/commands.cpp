#include "cli/commands.hpp"

#include <algorithm>
#include <optional>

#include "cli/exit_codes.hpp"
#include "cli/files.hpp"
#include "cli/terminal.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/input/readers.hpp"
#include "hailwright/report/compose.hpp"
#include "hailwright/report/render.hpp"

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

int run_judge(const JudgeOptions& o) {
  SourceSet sources;
  Diagnostics notes;
  std::vector<Test> tests;
  for (const std::string& path : o.records) {
    Checked<Test> read = read_test(path, load_file, sources);
    notes.append(std::move(read.notes));
    if (read.value) tests.push_back(std::move(*read.value));
  }
  write_messages(render_diagnostics(notes, sources));
  if (notes.has_errors()) return exit_input;
  std::vector<Assessment> assessments;
  assessments.reserve(tests.size());
  std::vector<Judged> judged;
  for (const Test& test : tests) {
    assessments.push_back(assess(test));
    judged.push_back({&test, &assessments.back()});
  }
  const int written = write_document(compose_judgement(judged, sources), o.format);
  if (written != exit_done) return written;
  const bool all_withstood =
      std::all_of(assessments.begin(), assessments.end(), [](const Assessment& a) {
        return std::all_of(a.verdicts.begin(), a.verdicts.end(),
                           [](const SeriesVerdict& v) { return v.word == Word::withstood; });
      });
  return o.strict && !all_withstood ? exit_not_withstood : exit_done;
}

int run_check(const CheckOptions& o) {
  SourceSet sources;
  Diagnostics notes;
  for (const std::string& path : o.files)
    notes.append(check_file(path, load_file, sources));
  write_messages(render_diagnostics(notes, sources));
  if (notes.has_errors()) return exit_input;
  std::string text;
  for (const std::string& path : o.files)
    text += path + ": nothing wrong\n";
  return notes.empty() ? write_output(text) : exit_done;
}

}  // namespace hailwright::cli
