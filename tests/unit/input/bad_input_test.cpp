// Every file in tests/bad_input says in its first lines what is wrong with it:
//   # expect: LINE:COLUMN error[CODE] part of the message
// and all of that, and nothing else, must be found.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <sstream>

#include "core/utf8.hpp"
#include "hailwright/input/readers.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

const std::filesystem::path root = HAILWRIGHT_SOURCE_DIR;

std::string contents(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  REQUIRE(file);
  return {std::istreambuf_iterator<char>(file), {}};
}

Loaded load(const std::string& path, std::size_t) {
  Loaded loaded;
  if (std::filesystem::is_regular_file(path)) {
    loaded.text = contents(path);
  } else {
    loaded.problem = "cannot be opened";
  }
  return loaded;
}

std::vector<std::string> expected(const std::string& text) {
  constexpr std::string_view mark = "# expect: ";
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) {
    const std::size_t at = line.find(mark);
    if (at != std::string::npos && at <= 2) lines.push_back(line.substr(at + mark.size()));
  }
  return lines;
}

std::vector<std::string> found(const std::filesystem::path& path) {
  SourceSet sources;
  const Diagnostics notes = check_file(path.string(), load, sources);
  std::vector<Diagnostic> items = notes.items();
  std::stable_sort(items.begin(), items.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::pair(a.where.line, a.where.column) < std::pair(b.where.line, b.where.column);
  });
  const std::string rendered = render_diagnostics(notes, sources);
  CHECK_FALSE(rendered.empty());
  std::string lines_joined = rendered;
  std::replace(lines_joined.begin(), lines_joined.end(), '\n', ' ');
  CHECK(hailwright::detail::without_steering(lines_joined) == lines_joined);
  std::vector<std::string> lines;
  for (const Diagnostic& d : items) {
    std::string severity = d.severity == Severity::error ? " error[" : " warning[";
    lines.push_back(std::to_string(d.where.line) + ":" + std::to_string(d.where.column) + severity +
                    std::string(d.code) + "] " + d.message);
  }
  return lines;
}

/// "12:7 error[U03]" and the rest of a line.
std::pair<std::string, std::string> parts(const std::string& line) {
  const std::size_t end = line.find("] ");
  REQUIRE(end != std::string::npos);
  return {line.substr(0, end + 1), line.substr(end + 2)};
}

std::vector<std::filesystem::path> bad_files() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(root / "tests" / "bad_input")) {
    if (entry.path().extension() == ".yaml") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// Codes of the input messages that a text holds as `"X01"` or, in the page, as headings.
std::set<std::string> codes(const std::string& text, std::string_view before,
                            std::string_view after) {
  std::set<std::string> all;
  for (std::size_t at = text.find(before); at != std::string::npos;
       at = text.find(before, at + 1)) {
    const std::string code = text.substr(at + before.size(), 3);
    const bool digits = code.size() == 3 && code[1] >= '0' && code[1] <= '9' && code[2] >= '0' &&
                        code[2] <= '9' && code[0] >= 'A' && code[0] <= 'Z';
    if (digits && text.substr(at + before.size() + 3, after.size()) == after) all.insert(code);
  }
  return all;
}

/// A fault of what no file in a source tree can hold, or that is found by more than reading: the
/// test that makes it, and what it looks for.
struct MadeFault {
  const char* code;
  const char* test;
  const char* words;
};
const std::vector<MadeFault> made_faults{
    // Two logs whose clocks do not show their offset, or that have no ratio.
    {"L30", "cli/readings_beside_test.cpp", "the offset between the two clocks was not found"},
    {"L34", "cli/readings_beside_test.cpp", "warning: no ratio of the two panels"},
    // A log of 4097 stretches, and one of 200 001 rows.
    {"L32", "unit/logs/log_analysis_notes_test.cpp", "\"L32\""},
    {"C43", "unit/input/record_logs_test.cpp", "\"C43\""},
    // Tables of megabytes, and of hundreds of faults.
    {"T01", "unit/input/table_cells_test.cpp", "\"T01\""},
    {"T02", "unit/input/table_cells_test.cpp", "\"T02\""},
    // Found by `plan`, by its gate, by `write`, and by commands that take several records.
    {"C31", "unit/plan/test_plan_test.cpp", "\"C31\""},
    {"C32", "unit/plan/test_plan_test.cpp", "\"C32\""},
    {"C33", "unit/plan/test_plan_test.cpp", "\"C33\""},
    {"S02", "unit/safety/gate_test.cpp", "\"S02\""},
    {"S03", "unit/safety/gate_test.cpp", "\"S03\""},
    {"S04", "unit/safety/gate_test.cpp", "\"S04\""},
    {"S05", "unit/safety/gate_test.cpp", "\"S05\""},
    {"F02", "unit/cli/photo_files_test.cpp", "\"F02\""},
    {"C37", "unit/cli/record_files_test.cpp", "\"C37\""}};

std::set<std::string> codes_in_sources() {
  std::set<std::string> all;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(root / "src")) {
    if (entry.path().extension() == ".cpp") all.merge(codes(contents(entry.path()), "\"", "\""));
  }
  return all;
}

}  // namespace

TEST_CASE("bad_input: every file gives the messages that it announces, and no others") {
  const auto files = bad_files();
  CHECK(files.size() >= 290);
  for (const std::filesystem::path& path : files) {
    const std::vector<std::string> wanted = expected(contents(path));
    const std::vector<std::string> got = found(path);
    CAPTURE(path.filename().string(), wanted, got);
    CHECK_FALSE(wanted.empty());
    REQUIRE(wanted.size() == got.size());
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      CHECK(parts(wanted[i]).first == parts(got[i]).first);
      CHECK_THAT(parts(got[i]).second, Contains(parts(wanted[i]).second));
    }
  }
}

TEST_CASE("bad_input: the program, docs/errors.md and the files name the same codes") {
  const std::set<std::string> sources = codes_in_sources();
  const std::set<std::string> page = codes(contents(root / "docs" / "errors.md"), "### ", " ");
  CHECK(sources.size() > 190);
  CHECK(sources == page);
  std::set<std::string> shown;
  for (const std::filesystem::path& path : bad_files()) {
    for (const std::string& line : expected(contents(path)))
      shown.merge(codes(line, "[", "]"));
  }
  // Faults of logs, which are not read through a record: tests/unit/logs/ugly_logs_test.cpp.
  shown.merge(codes(contents(root / "tests" / "ugly_logs" / "expected.txt"), "[", "]"));
  for (const MadeFault& made : made_faults) {
    CAPTURE(made.code, made.test);
    CHECK_THAT(contents(root / "tests" / made.test), Contains(made.words));
    shown.insert(made.code);
  }
  CHECK(shown == sources);
}

TEST_CASE("bad_input: every code has a section with something in it, and one alone") {
  const std::string page = contents(root / "docs" / "errors.md");
  for (const std::string& code : codes(page, "### ", " ")) {
    CAPTURE(code);
    const std::size_t heading = page.find("### " + code + " ");
    CHECK(page.find("### " + code + " ", heading + 1) == std::string::npos);
    const std::size_t begin = page.find('\n', heading);
    const std::size_t end = std::min(page.find("\n#", begin), page.size());
    CHECK(page.substr(begin, end - begin).find_first_not_of(" \n") != std::string::npos);
  }
}
