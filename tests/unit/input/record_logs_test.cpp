#include "input/record_logs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/logs/log_stream.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"
#include "support/judged_power.hpp"

using namespace hailwright;
using input_files::Files;
using input_files::only;
using input_files::seen;

namespace {

void replace(std::string& text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
}

/// One row of an invented log: a panel that gives 4 % less after the shots, the sun rising slowly.
struct LogLine {
  int minute = 0, second = 0;
  double power = 0.0, irradiance = 0.0, temperature = 0.0, power_beside = 0.0,
         temperature_beside = 0.0;
};

/// Readings of one set-up that begins at a minute of the day.
std::vector<LogLine> setup_rows(int begin, double factor, int rows) {
  std::vector<LogLine> lines;
  for (int i = 0; i < rows; ++i) {
    const double wave = std::sin(0.7 * i + begin);
    const double irradiance = 880.0 + 3.0 * wave + 0.05 * i;
    lines.push_back({begin, i, std::round(factor * 0.088 * irradiance * 1e3 + 20.0 * wave) / 1e3,
                     std::round(irradiance * 100.0) / 100.0,
                     std::round((51.0 + 0.1 * wave) * 100.0) / 100.0,
                     std::round(0.09 * irradiance * 1e3) / 1e3, 50.5});
  }
  return lines;
}

struct NamedRows {
  std::string name;
  std::vector<LogLine> lines;
};

/// Three set-ups before the shots and three after, 40 rows each.
std::vector<NamedRows> all_setups() {
  std::vector<NamedRows> all;
  for (int i = 0; i < 3; ++i) {
    all.push_back({fmt::format("before {}", i + 1), setup_rows(600 + 12 * i, 1.0 + 0.001 * i, 40)});
  }
  for (int i = 0; i < 3; ++i)
    all.push_back({fmt::format("after {}", i + 1), setup_rows(900 + 12 * i, 0.96 - 0.001 * i, 40)});
  return all;
}

std::string clock(const LogLine& line) {
  return fmt::format("{:02}:{:02}", line.minute / 60, line.minute % 60);
}

/// The log's header and rows; its marker names the set-ups.
std::string log_of(const std::vector<NamedRows>& setups) {
  std::string text =
      "time,power W,irradiance W/m2,temperature degC,power_beside W,temperature_beside degC,"
      "marker\n";
  for (const NamedRows& setup : setups) {
    for (const LogLine& line : setup.lines) {
      text += fmt::format("2026-06-14T{}:{:02},{},{},{},{},{},{}\n", clock(line), line.second,
                          line.power, line.irradiance, line.temperature, line.power_beside,
                          line.temperature_beside, setup.name);
    }
  }
  return text;
}

/// The same as a block in the record.
std::string table_of(const std::vector<NamedRows>& setups, bool with_control) {
  std::string text = with_control
                         ? "  readings: |\n    setup,round,panel,time,power W,sun W/m2,temp degC\n"
                         : "  readings: |\n    setup,time,power W,sun W/m2,temp degC\n";
  for (const NamedRows& setup : setups) {
    int round = 0;
    for (const LogLine& line : setup.lines) {
      if (!with_control) {
        text += fmt::format("    {},{},{},{},{}\n", setup.name, clock(line), line.power,
                            line.irradiance, line.temperature);
        continue;
      }
      text += fmt::format("    {},{},A,{},{},{},{}\n", setup.name, ++round, clock(line), line.power,
                          line.irradiance, line.temperature);
      text += fmt::format("    {},{},C,{},{},{},{}\n", setup.name, round, clock(line),
                          line.power_beside, line.irradiance, line.temperature_beside);
    }
  }
  return text;
}

constexpr std::size_t largest = input::largest_fetched_log;

const std::string columns =
    "columns: {time: time, power: power W, irradiance: irradiance W/m2, temperature: temperature "
    "degC, power_beside: power_beside W, temperature_beside: temperature_beside degC, marker: "
    "marker}";

std::string by_markers(const std::string& key) {
  return fmt::format("{}: {{log: day.csv, zone: +02:00, steady: no, cut: markers, {}}}\n", key,
                     columns);
}

std::string by_times(const std::string& key, const std::string& spans) {
  return fmt::format("{}: {{log: day.csv, zone: +02:00, steady: no, setups: [{}], {}}}\n", key,
                     spans, columns);
}

/// `begin` and `end` are times of day.
std::string span(const std::string& name, const std::string& begin, const std::string& end) {
  return fmt::format("{{name: {}, from: 2026-06-14T{}, to: 2026-06-14T{}}}", name, begin, end);
}

/// The good files; each set-up of theirs is the panel put up anew.
Files good_files() {
  Files files = input_files::good_files();
  replace(files.at("protocol.yaml"), "maximum_power: sweep",
          "maximum_power: sweep, redone: [mount, aim, probe, leads]");
  return files;
}

/// A record with these lines before its looks, and the log beside it.
Files files_with(const std::string& lines, const std::string& log = log_of(all_setups())) {
  Files files = good_files();
  replace(files.at("record.yaml"), "looks:", lines + "looks:");
  files["day.csv"] = log;
  return files;
}

void compare_with_control(Files& files) {
  files["control.yaml"] = files.at("panel.yaml");
  replace(files.at("protocol.yaml"), "same-panel", "control-panel, meters: 2");
  replace(files.at("record.yaml"),
          "day:", "label: A\ncontrol: {panel: control.yaml, same_model: yes, label: C}\nday:");
}

Checked<Test> read(const Files& files, const LogOpener& open = {}) {
  SourceSet sources;
  auto checked = read_test("record.yaml", input_files::loader(files), sources, open);
  UNSCOPED_INFO(render_diagnostics(checked.notes, sources));
  return checked;
}

/// The messages alone, without warnings.
Diagnostics errors_of(const Files& files) {
  Diagnostics errors;
  const auto checked = read(files);
  for (const Diagnostic& note : checked.notes.items()) {
    if (note.severity == Severity::error) errors.add(note);
  }
  return errors;
}

void check_same(const PowerResult& a, const PowerResult& b) {
  using Catch::Matchers::WithinRel;
  CAPTURE(static_cast<int>(a.obstacle), a.obstacle_subject);
  REQUIRE(a.estimated());
  REQUIRE(b.estimated());
  CHECK(a.estimate.loss().si() > 0.03);
  CHECK_THAT(a.estimate.lambda, WithinRel(b.estimate.lambda, 1e-12));
  CHECK_THAT(a.estimate.u_lambda, WithinRel(b.estimate.u_lambda, 1e-12));
  CHECK_THAT(a.estimate.expanded, WithinRel(b.estimate.expanded, 1e-12));
  CHECK_THAT(a.estimate.degrees_of_freedom, WithinRel(b.estimate.degrees_of_freedom, 1e-12));
  CHECK(a.skipped == b.skipped);
}

/// The good record with these readings in a table.
Files files_with_table(const std::vector<NamedRows>& setups, bool with_control) {
  Files files = good_files();
  replace(files.at("record.yaml"), "  shots: |", table_of(setups, with_control) + "  shots: |");
  return files;
}

}  // namespace

TEST_CASE("record_logs: a record judges the rows of a log as those of a table") {
  const auto from_table = read(files_with_table(all_setups(), false));
  REQUIRE(from_table.value);
  const auto from_log = read(files_with(by_markers("before") + by_markers("after")));
  REQUIRE(from_log.value);
  const Record& record = from_log.value->record;
  CHECK(record.readings.size() == 240);
  CHECK(record.setups.size() == 6);
  check_same(testing::judged(*from_log.value), testing::judged(*from_table.value));
  REQUIRE(record.logs.size() == 2);
  CHECK(record.logs[1].setups == std::vector<std::size_t>{3, 4, 5});
  CHECK(record.logs[1].findings.stretches.size() == 3);
  CHECK(record.logs[0].tally.rows == 240);
}

TEST_CASE("record_logs: and with a control panel") {
  Files table = files_with_table(all_setups(), true);
  Files log = files_with(by_markers("before") + by_markers("after"));
  compare_with_control(table);
  compare_with_control(log);
  const auto from_table = read(table);
  const auto from_log = read(log);
  REQUIRE(from_table.value);
  REQUIRE(from_log.value);
  CHECK(from_log.value->record.readings.size() == 480);
  check_same(testing::judged(*from_log.value), testing::judged(*from_table.value));
}

TEST_CASE("record_logs: by their times and part from a table too") {
  std::vector<NamedRows> all = all_setups();
  const std::vector<NamedRows> typed{all.begin() + 3, all.end()};
  Files files = files_with(by_times("before", span("before 1", "10:00:00", "10:00:39") + ", " +
                                                  span("before 2", "10:12:00", "10:12:39") + ", " +
                                                  span("before 3", "10:24:00", "10:24:39")));
  replace(files.at("record.yaml"), "  shots: |", table_of(typed, false) + "  shots: |");
  const auto mixed = read(files);
  REQUIRE(mixed.value);
  const auto from_table = read(files_with_table(all, false));
  check_same(testing::judged(*mixed.value), testing::judged(*from_table.value));
}

TEST_CASE("record_logs: places of readings lie in the log and can be printed") {
  SourceSet sources;
  const Files files = files_with(by_markers("before"));
  const auto checked = read_test("record.yaml", input_files::loader(files), sources);
  REQUIRE(checked.value);
  const Reading& second = checked.value->record.readings.at(1);
  CHECK(sources.name(second.origin.file) == "day.csv");
  CHECK(second.origin.line == 3);
  CHECK(sources.text(second.origin.file).empty());
  Diagnostics note;
  note.warning("C45", second.origin, "a place");
  CHECK(render_diagnostics(note, sources) == "day.csv:3:1: warning: a place\n");
}

TEST_CASE("record_logs: rows that are not steady stay with the reason") {
  std::string log = "time,power W,irradiance W/m2,temperature degC\n";
  for (int second = 0; second < 120; ++second) {
    log += fmt::format("2026-06-14T10:{:02}:{:02},78,{},51\n", second / 60, second % 60,
                       second < 60 ? 900 : 900 - second);
  }
  const auto checked = read(files_with(
      "before: {log: day.csv, zone: +02:00, setups: [" + span("before 1", "10:00:00", "10:02:00") +
          "], columns: {time: time, power: power W, irradiance: irradiance W/m2, temperature: "
          "temperature degC}}\n",
      log));
  REQUIRE(checked.value);
  const Record& record = checked.value->record;
  REQUIRE(record.readings.size() == 120);
  CHECK(record.readings[59].skip.empty());
  CHECK_FALSE(record.readings[60].skip.empty());
  CHECK(record.readings[60].measured);
  const LogUse& use = record.logs.at(0);
  REQUIRE(use.findings.stretches.at(0).steady);
  CHECK(use.findings.stretches[0].steady->rows_kept == 60);
  CHECK(use.question.rules.longest_gap == Time::from_si(10.0));
}

TEST_CASE("record_logs: sessions are measured and give no readings") {
  const auto checked = read(files_with("sessions:\n  - {log: day.csv, zone: +02:00, times: [" +
                                       span("morning", "10:00:00", "10:00:39") + ", " +
                                       span("night", "01:00:00", "02:00:00") + "], " + columns +
                                       "}\n  - {log: day.csv, zone: +02:00, " + columns + "}\n"));
  REQUIRE(checked.value);
  const Record& record = checked.value->record;
  CHECK(record.readings.empty());
  CHECK(record.setups.empty());
  CHECK(record.logs.empty());
  REQUIRE(record.sessions.size() == 2);
  // Found by review: the session without rows was in no report.
  REQUIRE(record.sessions[0].findings.stretches.size() == 2);
  CHECK(record.sessions[0].findings.stretches[0].name == "morning");
  CHECK(record.sessions[0].findings.stretches[0].rows == 40);
  const LogStretch& night = record.sessions[0].findings.stretches[1];
  CHECK(night.name == "night");
  CHECK(night.rows == 0);
  CHECK(iso_time(night.from_us, "+02:00") == "2026-06-14T01:00:00+02:00");
  CHECK(iso_time(night.to_us, "+02:00") == "2026-06-14T02:00:00+02:00");
  CHECK(record.sessions[1].findings.stretches.empty());
  CHECK(record.sessions[1].findings.whole.rows == 240);
  CHECK(record.sessions[1].setups.empty());
}

TEST_CASE("record_logs: files are opened by the opener where there is one") {
  std::vector<std::string> asked;
  const std::string log = log_of(all_setups());
  const LogOpener open = [&](const std::string& path) {
    asked.push_back(path);
    OpenedLog opened;
    opened.bytes.emplace();
    opened.bytes->read = [text = log, at = std::size_t{0}](char* into, std::size_t most) mutable {
      const std::size_t count = text.copy(into, std::min<std::size_t>(most, 7), at);
      at += count;
      return count;
    };
    opened.bytes->problem = [] { return std::string(); };
    return opened;
  };
  Files files = files_with(by_markers("before"));
  files.erase("day.csv");
  replace(files.at("record.yaml"), "log: day.csv", "log: logs/day.csv.gz");
  const auto checked = read(files, open);
  REQUIRE(checked.value);
  CHECK(asked == std::vector<std::string>{"logs/day.csv.gz"});
  CHECK(checked.value->record.readings.size() == 120);
  const LogOpener none = [](const std::string&) {
    return OpenedLog{std::nullopt, "is a directory", "name the file inside it"};
  };
  const Diagnostic note = only(read(files, none).notes);
  CHECK(note.code == "F01");
  CHECK_THAT(note.message, Contains("logs/day.csv.gz is a directory"));
  CHECK(note.hints.at(0) == "name the file inside it");
}

TEST_CASE("record_logs: a file that is not there is told at its place") {
  Files files = files_with("before:\n  log: [day.csv, other.csv]\n  zone: UTC\n  cut: markers\n");
  const Diagnostic note = only(errors_of(files));
  CHECK(note.code == "F01");
  CHECK_THAT(note.message, Contains("other.csv"));
  CHECK(note.where.column == 18);
}

TEST_CASE("record_logs: a set-up without rows is an error and a session is not") {
  const Diagnostic note =
      only(errors_of(files_with(by_times("before", span("before 1", "10:00:00", "10:00:39") + ", " +
                                                       span("before 2", "11:12:00", "11:12:39")))));
  CHECK(note.code == "L27");
  CHECK_THAT(note.message, Contains("before 2"));
}

TEST_CASE("record_logs: a set-up in a log and in the table") {
  Files files = files_with(by_markers("before"));
  const std::vector<NamedRows> all = all_setups();
  replace(files.at("record.yaml"), "  shots: |",
          table_of({all.begin() + 2, all.begin() + 4}, false) + "  shots: |");
  const Diagnostic note = only(errors_of(files));
  CHECK(note.code == "C05");
  CHECK_THAT(note.message, Contains("before 3"));
  REQUIRE(note.related.size() == 1);
  CHECK(note.related[0].where.line == 82);
}

TEST_CASE("record_logs: two logs with one set-up") {
  const std::string one = by_times("before", span("before 1", "10:00:00", "10:00:39"));
  std::string two = one;
  replace(two, "before: {", "before:\n  - {");
  const std::string entry = two.substr(two.find("  - "));
  CHECK(only(errors_of(files_with(two + entry))).code == "C05");
}

TEST_CASE("record_logs: checks of set-ups hold for those of logs") {
  // Two logs, so that the entries do not see each other.
  std::string two = by_times("before", span("before 1", "10:00:00", "10:12:39"));
  replace(two, "before: {", "before:\n  - {");
  std::string other = by_times("before", span("before 2", "10:00:10", "10:12:20"));
  replace(other, "before: {", "  - {");
  CHECK(only(errors_of(files_with(two + other))).code == "T28");
  Files late = files_with(by_markers("before"));
  replace(late.at("record.yaml"), "2026-06-14}", "2026-06-13}");
  const Diagnostics notes = errors_of(late);
  REQUIRE(notes.items().size() == 3);
  CHECK(notes.items()[0].code == "T33");
  CHECK_THAT(notes.items()[0].hints.at(0), Contains("time zone of the log"));
}

TEST_CASE("record_logs: a listed set-up keeps its date or none") {
  const std::string listed = "setups: [{name: before 2, remounted: yes}]\n";
  const auto checked = read(files_with(listed + by_markers("before")));
  REQUIRE(checked.value);
  CHECK(checked.value->record.setups.at(0).redone);
  CHECK(checked.value->record.setups.size() == 3);
  const Diagnostic note = only(errors_of(
      files_with("setups: [{name: before 2, date: 2026-06-12}]\n" + by_markers("before"))));
  CHECK(note.code == "C44");
}

TEST_CASE("record_logs: a listed set-up that is read nowhere") {
  const auto checked = read(files_with("setups: [{name: before 9}]\n" + by_markers("before")));
  REQUIRE(checked.value);
  const auto& items = checked.notes.items();
  const auto note =
      std::find_if(items.begin(), items.end(), [](const Diagnostic& d) { return d.code == "T31"; });
  REQUIRE(note != items.end());
  CHECK_THAT(note->message, Contains("before 9") && Contains("in no log"));
}

TEST_CASE("record_logs: a fetched log has a largest size") {
  std::size_t asked = 0;
  Files files = files_with(by_markers("before"));
  files["day.csv"] = std::string(largest + 1, 'x');
  const Loader load = [&](const std::string& path, std::size_t most) {
    if (path == "day.csv") asked = most;
    return input_files::loader(files)(path, most);
  };
  SourceSet sources;
  const auto checked = read_test("record.yaml", load, sources);
  CHECK(asked == largest);
  CHECK(only(checked.notes).code == "F01");
  CHECK_THAT(only(checked.notes).message, Contains("day.csv is larger than 64 MiB"));
}

TEST_CASE("record_logs: columns that a reading needs") {
  const std::string entry =
      "before: {log: day.csv, zone: UTC, steady: no, cut: markers, columns: {time: time, power: "
      "power W, irradiance: irradiance W/m2, marker: marker}}\n";
  const std::string log = "time,power W,irradiance W/m2,marker\n2026-06-14T10:00:00,78,900,before "
                          "1\n2026-06-14T10:00:01,78,900,before 1\n";
  const Diagnostic note = only(errors_of(files_with(entry, log)));
  CHECK(note.code == "L09");
  CHECK_THAT(note.message, Contains("'temperature'"));
}

TEST_CASE("record_logs: a control has columns of its own") {
  const std::string entry =
      "before: {log: day.csv, zone: UTC, steady: no, cut: markers, columns: {time: time, power: "
      "power W, irradiance: irradiance W/m2, temperature: temperature degC, power_beside: other W, "
      "marker: marker}}\n";
  const std::string log = "time,power W,irradiance W/m2,temperature degC,other W,marker\n"
                          "2026-06-14T10:00:00,78,900,50,80,before 1\n"
                          "2026-06-14T10:00:01,78,900,50,80,before 1\n";
  Files files = files_with(entry, log);
  compare_with_control(files);
  const Diagnostic note = only(errors_of(files));
  CHECK(note.code == "L03");
  CHECK_THAT(note.message, Contains("temperature_beside"));
}

TEST_CASE("record_logs: siblings cannot come from a log") {
  Files files = files_with(by_markers("after"));
  replace(files.at("protocol.yaml"), "same-panel", "sibling-panel, siblings: 3, meters: 2");
  replace(files.at("record.yaml"),
          "day:", "label: A\nsiblings: [{label: D}, {label: E}, {label: F}]\nday:");
  const Diagnostic note = only(errors_of(files));
  CHECK(note.code == "C41");
  CHECK_THAT(note.hints.at(0), Contains("table of readings"));
}

TEST_CASE("record_logs: markers that are no set-up and those of the other key") {
  std::vector<NamedRows> all = all_setups();
  all.insert(all.begin() + 1, {"idle", setup_rows(605, 1.0, 5)});
  const auto alone = read(files_with(by_markers("before"), log_of(all)));
  REQUIRE(alone.value);
  std::vector<std::string> told;
  for (const Diagnostic& note : alone.notes.items()) {
    if (note.code == "C45") told.push_back(note.message);
  }
  REQUIRE(told.size() == 4);
  CHECK_THAT(told[0], Contains("idle") && Contains("5 rows"));
  CHECK_THAT(told[1], Contains("after 1") && Contains("'after'"));
  const auto both = read(files_with(by_markers("before") + by_markers("after"), log_of(all)));
  REQUIRE(both.value);
  std::size_t said = 0;
  for (const Diagnostic& note : both.notes.items())
    said += note.code == "C45" ? 1 : 0;
  CHECK(said == 2);  // "idle", under both keys
}

TEST_CASE("record_logs: a marker with a slip of the pen is an error") {
  std::vector<NamedRows> all = all_setups();
  all[1].name = "befor 2";
  const Diagnostic note = only(errors_of(files_with(by_markers("before"), log_of(all))));
  CHECK(note.code == "T25");
  CHECK(note.where.line == 42);
}

TEST_CASE("record_logs: a log without a set-up of its key") {
  const std::vector<NamedRows> all = all_setups();
  const Diagnostic note =
      only(errors_of(files_with(by_markers("before"), log_of({all.begin() + 3, all.end()}))));
  CHECK(note.code == "L27");
}

TEST_CASE("record_logs: plateaus are numbered in their order") {
  std::string log = "time,power W,irradiance W/m2,temperature degC\n";
  for (int second = 0; second < 1200; ++second) {
    const bool on = second % 600 < 300;
    log +=
        fmt::format("2026-06-14T10:{:02}:{:02},{},900,51\n", second / 60, second % 60, on ? 78 : 0);
  }
  const auto checked = read(files_with(
      "before: {log: day.csv, zone: +02:00, cut: plateaus, columns: {time: time, power: power W, "
      "irradiance: irradiance W/m2, temperature: temperature degC}}\n",
      log));
  REQUIRE(checked.value);
  const Record& record = checked.value->record;
  REQUIRE(record.setups.size() == 2);
  CHECK(record.setups[0].name == "before 1");
  CHECK(record.setups[1].name == "before 2");
  CHECK(record.setups[1].number == 2);
  CHECK(record.logs[0].findings.stretches[1].name == "before 2");
}

TEST_CASE("record_logs: more rows than a record takes") {
  std::string log = "time,power W,irradiance W/m2,temperature degC\n";
  for (int i = 0; i < 200'001; ++i) {
    const int second = i / 10;
    log += fmt::format("2026-06-14T{:02}:{:02}:{:02}.{},78,900,51\n", 8 + second / 3600,
                       second / 60 % 60, second % 60, i % 10);
  }
  const auto entry = [&](const std::string& to) {
    return "before: {log: day.csv, zone: +02:00, steady: no, setups: [" +
           span("before 1", "08:00:00", to) +
           "], columns: {time: time, power: power W, irradiance: irradiance W/m2, temperature: "
           "temperature degC}}\n";
  };
  CHECK(only(errors_of(files_with(entry("13:59:59"), log))).code == "C43");
  const auto fits = read(files_with(entry("13:33:19.9"), log));
  REQUIRE(fits.value);
  CHECK(fits.value->record.readings.size() == 200'000);
}

TEST_CASE("record_logs: rows of the other key do not count where markers cut") {
  std::string log = "time,power W,irradiance W/m2,temperature degC,marker\n";
  for (int i = 0; i < 240'000; ++i) {
    const int second = i / 10;
    log += fmt::format("2026-06-14T{:02}:{:02}:{:02}.{},78,900,51,{}\n", 8 + second / 3600,
                       second / 60 % 60, second % 60, i % 10, i < 100'000 ? "before 1" : "after 1");
  }
  const std::string entry = "before: {log: day.csv, zone: +02:00, steady: no, cut: markers}\n";
  const auto before = read(files_with(entry, log));
  REQUIRE(before.value);
  CHECK(before.value->record.readings.size() == 100'000);
  std::string after = entry;
  replace(after, "before", "after");
  const Diagnostic note = only(errors_of(files_with(entry + after, log)));
  CHECK(note.code == "C43");
  CHECK(note.where.line == 18);
}

TEST_CASE("record_logs: what a log says stops the record and is told at its line") {
  std::string log = log_of(all_setups());
  replace(log, "2026-06-14T10:12:05", "2026-06-99T10:12:05");
  const auto checked = read(files_with(by_markers("before"), log));
  CHECK_FALSE(checked.value);
  CHECK(checked.notes.has_errors());
  std::string tolerant = by_markers("before");
  replace(tolerant, "cut: markers", "cut: markers, tolerate: 1");
  const auto tolerated = read(files_with(tolerant, log));
  REQUIRE(tolerated.value);
  CHECK(tolerated.value->record.logs[0].tally.unreadable == 1);
  CHECK(tolerated.value->record.readings.size() == 119);
  bool told = false;
  for (const Diagnostic& note : tolerated.notes.items())
    told = told || (note.code == "L12" && note.where.line == 47);
  CHECK(told);
}

TEST_CASE("record_logs: an entry with a slip opens no file") {
  const LogOpener never = [](const std::string&) -> OpenedLog { throw std::logic_error("opened"); };
  const auto checked =
      read(files_with("before: {log: day.csv, zone: UTC, cut: hand}\nafter: day.csv\nsessions: "
                      "[]\n"),
           never);
  CHECK_FALSE(checked.value);
  std::vector<std::string> codes;
  for (const Diagnostic& note : checked.notes.items())
    codes.emplace_back(note.code);
  CHECK(codes == std::vector<std::string>{"K06", "K05", "K14"});
}

// Found by review: an entry without a file name was our mistake.
TEST_CASE("record_logs: a log without a file name") {
  for (const std::string name : {"", "\"\"", "[~]", "[\"\"]", "[day.csv, \"\"]"}) {
    for (const std::string key : {"before", "after", "sessions"}) {
      CAPTURE(name, key);
      const std::string cut = key == "sessions" ? "" : "  cut: markers\n";
      const Diagnostic note =
          only(errors_of(files_with(key + ":\n  log: " + name + "\n  zone: UTC\n" + cut)));
      CHECK(note.code == "K04");
      CHECK(note.where.line == 18);
    }
  }
}

// Found by review: a session had no normalised power where `readings` gave one, by the default.
TEST_CASE("record_logs: sessions are normalised by what a judgement assumes") {
  const auto checked =
      read(files_with("sessions: {log: day.csv, zone: +02:00, " + columns + "}\n"));
  REQUIRE(checked.value);
  const auto& taken = checked.value->record.sessions.at(0).question.rules.normalise;
  REQUIRE(taken);
  REQUIRE_FALSE(checked.value->protocol.measure.cell_above_back);
  CHECK(taken->cell_above_back == defaults::cell_above_back);
  CHECK(checked.value->record.sessions[0].findings.whole.normalised);
}

// Found by review: a cut by markers of a log without them found nothing, or no set-up.
TEST_CASE("record_logs: a cut by markers needs their column") {
  const std::string log =
      "time,power W,irradiance W/m2,temperature degC\n2026-06-14T10:00:00,78,900,50\n"
      "2026-06-14T10:00:01,78,900,50\n";
  for (const std::string key : {"before", "sessions"}) {
    const Diagnostic note = only(errors_of(
        files_with(key + ": {log: day.csv, zone: UTC, steady: no, cut: markers}\n", log)));
    CAPTURE(key);
    CHECK(note.code == "L03");
    CHECK_THAT(note.message, Contains("'marker'"));
    CHECK_THAT(note.hints.at(0), Contains("columns: {marker: its header}"));
    CHECK_THAT(note.hints.at(1), Contains(key == "before" ? "setups: [" : "times: ["));
  }
}

// Found by review: every listed set-up was said to be in no log when the log could not be read.
TEST_CASE("record_logs: a log that fails hides no set-up of its stage") {
  std::string before = by_markers("before");
  replace(before, "day.csv", "none.csv");
  const auto checked = read(
      files_with("setups: [{name: before 1}, {name: after 9}]\n" + before + by_markers("after")));
  std::vector<std::string> told;
  for (const Diagnostic& note : checked.notes.items()) {
    if (note.code == "F01" || note.code == "T31") told.push_back(note.message);
  }
  REQUIRE(told.size() == 2);
  CHECK_THAT(told[0], Contains("none.csv"));
  CHECK_THAT(told[1], Contains("after 9"));
}

// Found by review: "before 1 (2)", a name of ours, was refused as the user's.
TEST_CASE("record_logs: the marker of a set-up comes back") {
  std::vector<NamedRows> all = all_setups();
  all[2].name = "before 1";
  const Diagnostic note = only(errors_of(files_with(by_markers("before"), log_of(all))));
  CHECK(note.code == "L28");
  CHECK(note.where.line == 82);
  CHECK_THAT(note.message, Contains("marker \"before 1\" comes back"));
  CHECK_THAT(note.hints.at(0), Contains("setups: [{name: before 1,"));
  CHECK(note.related.at(0).where.line == 2);
  const auto checked = read(files_with(by_markers("before"), log_of(all)));
  for (const Diagnostic& each : checked.notes.items()) {
    if (each.severity == Severity::warning) CHECK(each.code != "L28");
  }
}

// Found by review: a key that told nothing passed in silence.
TEST_CASE("record_logs: wraps_at without a counter is warned of") {
  const auto with = [](const std::string& more) {
    return read(
        files_with("sessions:\n  log: day.csv\n  zone: +02:00\n  " + more + "wraps_at: 10 kWh\n"));
  };
  const auto checked = with("");
  REQUIRE(checked.value);
  const auto& items = checked.notes.items();
  const auto note =
      std::find_if(items.begin(), items.end(), [](const Diagnostic& d) { return d.code == "C21"; });
  REQUIRE(note != items.end());
  CHECK(note->severity == Severity::warning);
  CHECK(note->where.line == 20);
  CHECK_THAT(note->message, Contains("'wraps_at'"));
}
