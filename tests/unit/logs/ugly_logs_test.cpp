// tests/ugly_logs/expected.txt says of every file beside it how it is read, and all that is said
// about it:
//   FILE
//     zone +02:00                                 what is stated, see `settings`
//     LINE:COLUMN error[CODE] part of the message  in the order of their places, and no others
//     rows 3                                      what it comes to
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <sstream>
#include <string>
#include <tuple>
#include <vector>

#include "hailwright/logs/log_analysis.hpp"
#include "hailwright/logs/log_stream.hpp"
#include "support/catch.hpp"
#include "support/log_samples.hpp"

using namespace hailwright;

namespace {

const std::filesystem::path folder =
    std::filesystem::path(HAILWRIGHT_SOURCE_DIR) / "tests" / "ugly_logs";

std::string contents(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  REQUIRE(file);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// An entry of the table.
struct Ugly {
  std::vector<std::string> files;
  LogFormat format;
  std::int64_t tolerated = 0;
  double longest_gap_s = 10.0;
  std::optional<Energy> wraps_at;
  LogCut cut;
  std::string problem;  ///< that reading the first file meets at its end
  std::vector<std::string> messages;
  std::optional<std::int64_t> rows, unreadable, out_of_order, stretches;
  std::optional<double> energy_j, counter_wh;
};

/// `power "P W" kW`: a role, a header, and a unit that may be missing.
LogColumnChoice column_of(const std::string& text) {
  const std::size_t open = text.find('"');
  const std::size_t close = text.rfind('"');
  REQUIRE(close > open);
  LogColumnChoice choice;
  const std::string word = text.substr(0, open - 1);
  for (std::size_t i = 0; i < log_roles; ++i) {
    if (word_of(static_cast<LogRole>(i)) == word) choice.role = static_cast<LogRole>(i);
  }
  REQUIRE(word_of(choice.role) == word);
  choice.header = text.substr(open + 1, close - open - 1);
  if (close + 2 < text.size()) choice.unit = text.substr(close + 2);
  return choice;
}

char mark_of(const std::string& word) {
  const std::map<std::string, char> marks{
      {"comma", ','}, {"semicolon", ';'}, {"tab", '\t'}, {"point", '.'}};
  return marks.at(word);
}

using Setting = void (*)(const std::string& value, Ugly& ugly);

const std::map<std::string, Setting>& settings() {
  using S = const std::string&;
  static const std::map<std::string, Setting> all{
      // what is stated
      {"zone", [](S v, Ugly& u) { u.format.zone = v; }},
      {"decimal", [](S v, Ugly& u) { u.format.decimal = mark_of(v); }},
      {"separator", [](S v, Ugly& u) { u.format.separator = mark_of(v); }},
      {"column", [](S v, Ugly& u) { u.format.columns.push_back(column_of(v)); }},
      {"then", [](S v, Ugly& u) { u.files.push_back(v); }},
      {"tolerate", [](S v, Ugly& u) { u.tolerated = std::stoll(v); }},
      {"longest_gap", [](S v, Ugly& u) { u.longest_gap_s = std::stod(v); }},
      {"wraps_at", [](S v, Ugly& u) { u.wraps_at = Energy::from_si(3600.0 * std::stod(v)); }},
      {"cut", [](S, Ugly& u) { u.cut.kind = LogCut::Kind::markers; }},
      {"problem", [](S v, Ugly& u) { u.problem = v; }},
      // what it comes to
      {"rows", [](S v, Ugly& u) { u.rows = std::stoll(v); }},
      {"unreadable", [](S v, Ugly& u) { u.unreadable = std::stoll(v); }},
      {"out_of_order", [](S v, Ugly& u) { u.out_of_order = std::stoll(v); }},
      {"stretches", [](S v, Ugly& u) { u.stretches = std::stoll(v); }},
      {"energy_J", [](S v, Ugly& u) { u.energy_j = std::stod(v); }},
      {"counter_Wh", [](S v, Ugly& u) { u.counter_wh = std::stod(v); }},
  };
  return all;
}

std::vector<Ugly> table() {
  std::vector<Ugly> all;
  std::istringstream lines(contents(folder / "expected.txt"));
  for (std::string line; std::getline(lines, line);) {
    if (line.empty() || line.front() == '#') continue;
    if (line.front() != ' ') {
      all.emplace_back();
      all.back().files = {line};
      continue;
    }
    REQUIRE_FALSE(all.empty());
    const std::string text = line.substr(2);
    const std::size_t blank = text.find(' ');
    REQUIRE(blank != std::string::npos);
    if (text.front() >= '0' && text.front() <= '9') {
      all.back().messages.push_back(text);
    } else {
      CAPTURE(text);
      const auto setting = settings().find(text.substr(0, blank));
      REQUIRE(setting != settings().end());
      setting->second(text.substr(blank + 1), all.back());
    }
  }
  return all;
}

/// What a log came to, and all that was said.
struct Read {
  std::vector<std::string> messages;  ///< as in the table
  std::string rendered;
  LogTally tally;
  LogFindings findings;
  bool ended_well = false;
};

std::vector<std::string> told(const Diagnostics& notes) {
  std::vector<Diagnostic> items = notes.items();
  std::stable_sort(items.begin(), items.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::tuple(a.where.file, a.where.line, a.where.column) <
           std::tuple(b.where.file, b.where.line, b.where.column);
  });
  std::vector<std::string> lines;
  for (const Diagnostic& d : items) {
    const std::string severity = d.severity == Severity::error ? " error[" : " warning[";
    lines.push_back(std::to_string(d.where.line) + ":" + std::to_string(d.where.column) + severity +
                    std::string(d.code) + "] " + d.message);
  }
  return lines;
}

Read read(const Ugly& ugly, unsigned threads, std::size_t portion) {
  SourceSet sources;
  std::vector<LogFile> files;
  for (const std::string& name : ugly.files)
    files.push_back({name, test::bytes_of(
                               contents(folder / name), [portion] { return portion; },
                               files.empty() ? ugly.problem : std::string())});
  LogQuestion question;
  question.first_file = sources.files() + 1;  // the stream adds them in their order
  LogReadingPlan plan;
  plan.threads = threads;
  plan.tolerated_rows = ugly.tolerated;
  LogStream stream(std::move(files), ugly.format, plan, sources);
  question.rules.longest_gap = Time::from_si(ugly.longest_gap_s);
  question.rules.counter_wraps_at = ugly.wraps_at;
  question.cut = ugly.cut;
  question.zone = ugly.format.zone;
  LogAnalysis analysis(question);
  Read read;
  Diagnostics found;
  if (stream.open()) {
    LogBlock block;
    while (stream.next(block))
      analysis.take(block);
    read.findings = analysis.finish(found);
  }
  read.tally = stream.tally();
  Diagnostics notes = stream.notes();
  read.ended_well = !notes.has_errors();
  // As `readings` does: a log with errors is not judged.
  if (read.ended_well) notes.append(std::move(found));
  read.messages = told(notes);
  read.rendered = render_diagnostics(notes, sources);
  return read;
}

/// "12:7 error[L11]" and the rest of a line.
std::pair<std::string, std::string> parts(const std::string& line) {
  const std::size_t end = line.find("] ");
  REQUIRE(end != std::string::npos);
  return {line.substr(0, end + 1), line.substr(end + 2)};
}

void check_messages(const std::vector<std::string>& wanted, const std::vector<std::string>& got) {
  REQUIRE(wanted.size() == got.size());
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    CHECK(parts(wanted[i]).first == parts(got[i]).first);
    CHECK_THAT(parts(got[i]).second, Contains(parts(wanted[i]).second));
  }
}

void check_numbers(const Ugly& ugly, const Read& got) {
  if (ugly.rows) CHECK(got.tally.rows == *ugly.rows);
  if (ugly.unreadable) CHECK(got.tally.unreadable == *ugly.unreadable);
  if (ugly.out_of_order) CHECK(got.tally.out_of_order == *ugly.out_of_order);
  if (ugly.stretches)
    CHECK(static_cast<std::int64_t>(got.findings.stretches.size()) == *ugly.stretches);
  if (ugly.energy_j) CHECK_THAT(got.findings.whole.energy.si(), WithinRel(*ugly.energy_j, 1e-9));
  if (ugly.counter_wh) {
    REQUIRE(got.findings.whole.counter);
    CHECK_THAT(got.findings.whole.counter->counted.si() / 3600.0,
               WithinAbs(*ugly.counter_wh, 1e-9));
  }
}

}  // namespace

TEST_CASE("ugly logs: every file gives its messages, and no others", "[logs]") {
  const std::vector<Ugly> all = table();
  CHECK(all.size() >= 30);
  for (const Ugly& ugly : all) {
    const Read got = read(ugly, 1, 1U << 30U);
    CAPTURE(ugly.files.front(), ugly.messages, got.messages);
    check_messages(ugly.messages, got.messages);
    check_numbers(ugly, got);
    // A file is told about, or it has numbers to check.
    CHECK((!ugly.messages.empty() || ugly.energy_j));
    CHECK(((got.tally.rows == 0 && !got.ended_well) || ugly.rows));
  }
}

TEST_CASE("ugly logs: the same whatever the threads and the way of the bytes", "[logs]") {
  for (const Ugly& ugly : table()) {
    CAPTURE(ugly.files.front());
    const Read once = read(ugly, 1, 1U << 30U);
    for (const unsigned threads : {1U, 2U}) {
      for (const std::size_t portion : {std::size_t{1}, std::size_t{7}, std::size_t{1} << 30U}) {
        CAPTURE(threads, portion);
        const Read again = read(ugly, threads, portion);
        CHECK(again.rendered == once.rendered);
        CHECK(again.tally.rows == once.tally.rows);
        CHECK(again.findings.whole.energy == once.findings.whole.energy);
      }
    }
  }
}

TEST_CASE("ugly logs: every file stands in the table", "[logs]") {
  std::vector<std::string> named;
  for (const Ugly& ugly : table())
    named.insert(named.end(), ugly.files.begin(), ugly.files.end());
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    const std::string name = entry.path().filename().string();
    CAPTURE(name);
    CHECK((name == "expected.txt" || std::count(named.begin(), named.end(), name) > 0));
  }
}
