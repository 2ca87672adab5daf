#include "cli/commands.hpp"

#include <algorithm>
#include <charconv>
#include <optional>
#include <thread>

#include "cli/exit_codes.hpp"
#include "cli/files.hpp"
#include "cli/progress.hpp"
#include "cli/terminal.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/input/readers.hpp"
#include "hailwright/report/compose.hpp"
#include "hailwright/report/compose_explanation.hpp"
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

namespace {

template <class Whole>
std::optional<Whole> read_whole(const std::string& text) {
  Whole value = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, value);
  return error == std::errc() && stop == end ? std::optional(value) : std::nullopt;
}

constexpr std::int64_t fewest_trials = 20'000;
constexpr std::int64_t most_trials = 10'000'000;
constexpr int most_threads = 64;

/// How the options check the power by random trials. Messages name what cannot be understood.
class CheckOptionReader {
public:
  explicit CheckOptionReader(const JudgeOptions& options) : options_(options) {}

  /// Nothing: no trials.
  std::optional<CheckPlan> read() {
    trials();
    seed();
    threads();
    plan_.shortest = options_.shortest;
    return wanted_ ? std::optional(std::move(plan_)) : std::nullopt;
  }
  /// Empty when all was understood.
  [[nodiscard]] const std::string& messages() const { return messages_; }

private:
  void refuse(const char* option, const std::string& found, const char* wanted) {
    messages_ +=
        std::string("hailwright: ") + option + " must be " + wanted + ", found '" + found + "'\n";
  }

  void trials() {
    if (options_.trials == "adaptive") {
      plan_.adaptive = true;
      plan_.trials = most_trials;
      return;
    }
    const auto n = read_whole<std::int64_t>(options_.trials);
    if (!n || (*n != 0 && (*n < fewest_trials || *n > most_trials))) {
      return refuse("--trials", options_.trials,
                    "a whole number from 20000 to 10000000, adaptive, or 0 for none");
    }
    plan_.trials = *n;
    wanted_ = *n > 0;
  }

  void seed() {
    const auto n = read_whole<std::uint64_t>(options_.seed);
    if (!n) return refuse("--seed", options_.seed, "a whole number, 0 or more");
    plan_.seed = *n;
  }

  void threads() {
    if (options_.threads.empty()) {
      const auto cores = static_cast<int>(std::thread::hardware_concurrency());
      plan_.threads = std::clamp(cores, 1, most_threads);
      return;
    }
    const auto n = read_whole<int>(options_.threads);
    if (!n || *n < 1 || *n > most_threads) {
      return refuse("--threads", options_.threads, "a whole number from 1 to 64");
    }
    plan_.threads = *n;
  }

  const JudgeOptions& options_;
  CheckPlan plan_;
  bool wanted_ = true;
  std::string messages_;
};

/// All tests, with a line on the terminal while their random trials last.
std::vector<Assessment> assess_all(const std::vector<Test>& tests, std::optional<CheckPlan> check) {
  TrialProgress progress(write_messages, messages_are_watched());
  if (check) {
    check->progress = [&](std::int64_t done, std::int64_t most) { progress.report(done, most); };
  }
  std::vector<Assessment> assessments;
  assessments.reserve(tests.size());
  for (const Test& test : tests)
    assessments.push_back(assess(test, check));
  progress.erase();
  return assessments;
}

bool all_withstood(const std::vector<Assessment>& assessments) {
  return std::all_of(assessments.begin(), assessments.end(), [](const Assessment& a) {
    return std::all_of(a.verdicts.begin(), a.verdicts.end(),
                       [](const SeriesVerdict& v) { return v.word == Word::withstood; });
  });
}

}  // namespace

int run_judge(const JudgeOptions& o) {
  CheckOptionReader options(o);
  const std::optional<CheckPlan> check = options.read();
  write_messages(options.messages());
  if (!options.messages().empty()) return exit_usage;
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
  const std::vector<Assessment> assessments = assess_all(tests, check);
  std::vector<Judged> judged;
  for (std::size_t i = 0; i < tests.size(); ++i)
    judged.push_back({&tests[i], &assessments[i]});
  Document document = compose_judgement(judged, sources);
  if (o.explain) {
    for (const Judged& j : judged)
      append_explanation(document, j, sources);
  }
  const int written = write_document(document, o.format);
  if (written != exit_done) return written;
  return o.strict && !all_withstood(assessments) ? exit_not_withstood : exit_done;
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
