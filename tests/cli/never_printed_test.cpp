// docs/measurement.md, M18: every kind of output, of all that the project has to give one of, is
// searched for what is never printed.
#include "support/never_printed.hpp"

#include <array>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <map>
#include <memory>
#include <regex>
#include <set>
#include <sstream>
#include <vector>

#include "cli/command.hpp"
#include "support/catch.hpp"
#include "support/file_bytes.hpp"

using hailwright::testing::file_bytes;
using hailwright::testing::Finished;
using hailwright::testing::run_hailwright;
using hailwright::testing::ScratchFolder;
using hailwright::testing::tree_file;
namespace fs = std::filesystem;

namespace {

const fs::path root = HAILWRIGHT_SOURCE_DIR;

/// Words that stand where no claim is made by them.
struct Legitimate {
  std::string where;
  std::string words;
};
const std::vector<Legitimate> legitimate{{"docs/methods/readings-from-a-log.md", "certified mean"},
                                         {"docs/methods/setup-scatter.md", "certified mean"}};

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
    text.replace(at, from.size(), to);
}

/// What a tag says: its attributes that are read out, shown beside a pointer or found by a search.
std::string spoken(std::string_view tag) {
  std::string words = " ";
  for (const std::string_view name : {" alt=\"", " aria-label=\"", " title=\"", " content=\""}) {
    const std::size_t at = tag.find(name);
    if (at == std::string_view::npos) continue;
    const std::string_view value = tag.substr(at + name.size());
    words += std::string(value.substr(0, value.find('"'))) + " ";
  }
  return words;
}

/// The text with each tag replaced by what it says.
std::string without_tags(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool tag =
        text[at] == '<' && at + 1 < text.size() && text[at + 1] != ' ' && text[at + 1] != '=';
    const std::size_t end = tag ? text.find('>', at) : std::string_view::npos;
    if (end == std::string_view::npos) {
      out += text[at];
      continue;
    }
    out += spoken(text.substr(at, end - at));
    at = end;
  }
  return out;
}

/// As one line of small letters and single blanks, without tags, marks of emphasis and blanks and
/// hyphens of other kinds: none of them hides a phrase.
std::string bare(std::string text) {
  text = without_tags(text);
  for (const std::string_view blank : {"\u00a0", "\u202f", "&nbsp;", "&#160;", "\\n"})
    replace_all(text, blank, " ");
  for (const std::string_view hyphen : {"\u2010", "\u2011"})
    replace_all(text, hyphen, "-");
  std::string out;
  out.reserve(text.size());
  for (char c : text) {
    if (c == '*' || c == '`' || c == '\\') continue;
    if (c == '\n' || c == '\t' || c == '\r' || c == '_') c = ' ';
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (c != ' ' || (!out.empty() && out.back() != ' ')) out += c;
  }
  return out;
}

/// The sentences that may hold such words, as tests/hygiene holds them against the sources.
std::vector<std::string> allowed_sentences() {
  std::vector<std::string> all;
  std::istringstream lines(tree_file("tests/hygiene/allowed_words.txt"));
  for (std::string line; std::getline(lines, line);) {
    const std::size_t first = line.find(" | ");
    const std::size_t second = line.find(" | ", first + 3);
    if (line.empty() || line.front() == '#' || second == std::string::npos) continue;
    all.push_back(bare(line.substr(first + 3, second - first - 3)));
  }
  return all;
}

/// Searches outputs and counts them by their kinds.
class Search {
public:
  Search() {
    for (const NeverPrinted& phrase : never_printed)
      patterns_.emplace_back(phrase.pattern, std::regex::icase);
  }

  /// What of all phrases stands in a text: "no damage: ... there was no damage at ...".
  [[nodiscard]] std::vector<std::string> found(const std::string& text) const {
    std::string words = bare(text);
    for (const std::string& sentence : allowed_)
      replace_all(words, sentence, "...");
    std::vector<std::string> all;
    for (std::size_t i = 0; i < never_printed.size(); ++i)
      find_one(words, never_printed[i].part, patterns_[i], all);
    return all;
  }

  void look(const std::string& kind, const std::string& name, const std::string& text) {
    CAPTURE(kind, name);
    CHECK_FALSE(text.empty());
    ++searched_[kind];
    for (const std::string& phrase : found(text))
      FAIL_CHECK("says " << phrase);
  }

  /// What a command prints, of both kinds, when it ends as it should: refused, it says less.
  void run(const std::string& kind, const std::string& arguments, int exit_code = 0) {
    run(kind, arguments, std::set<int>{exit_code});
  }
  void run(const std::string& kind, const std::string& arguments, const std::set<int>& exit_codes) {
    const Finished f = run_hailwright(arguments);
    CAPTURE(arguments, f.exit_code, f.err);
    CHECK(exit_codes.count(f.exit_code) == 1);
    look(kind, arguments, f.out + "\n" + f.err);
  }

  void in_formats(const std::string& command, const std::vector<std::string>& formats) {
    for (const std::string& format : formats)
      run(format, command + " --format " + format);
  }

  [[nodiscard]] int searched(const std::string& kind) const {
    const auto found = searched_.find(kind);
    return found == searched_.end() ? 0 : found->second;
  }

private:
  static void find_one(const std::string& words, const std::string& part, const std::regex& pattern,
                       std::vector<std::string>& all) {
    constexpr std::size_t around = 40;
    for (std::size_t at = words.find(part); at != std::string::npos;
         at = words.find(part, at + 1)) {
      const std::size_t from = at - std::min(at, around);
      const std::string near = words.substr(from, part.size() + 2 * around);
      if (std::regex_search(near, pattern)) all.push_back(part + ": " + near);
    }
  }

  std::vector<std::regex> patterns_;
  std::vector<std::string> allowed_ = allowed_sentences();
  std::map<std::string, int> searched_;
};

/// The project's files of a kind, such as "record", as paths from its root; for a shell.
std::vector<std::string> demos(const std::string& kind) {
  std::vector<std::string> all;
  for (const auto& entry : fs::recursive_directory_iterator(root / "protocols/demo")) {
    if (entry.path().extension() != ".yaml") continue;
    if (file_bytes(entry.path().string()).find("hailwright: " + kind + " ") == std::string::npos)
      continue;
    all.push_back(fs::relative(entry.path(), root).string());
  }
  std::sort(all.begin(), all.end());
  return all;
}

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words)
    all += word + " ";
  return all;
}

/// The texts in a spreadsheet, which is a zip archive: what Info-ZIP's unzip makes of it.
std::string words_of_workbook(const std::string& path) {
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(
      popen(("unzip -p '" + path + "' 'xl/*.xml' 'docProps/*.xml'").c_str(), "r"), pclose);
  REQUIRE(pipe);
  std::string text;
  std::array<char, 4096> piece{};
  for (std::size_t n = 0; (n = fread(piece.data(), 1, piece.size(), pipe.get())) > 0;)
    text.append(piece.data(), n);
  return text;
}

/// Every file that was written into a folder, but copies of what was read and pictures of pixels.
void look_into(Search& search, const std::string& folder) {
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    const std::string name = fs::relative(entry.path(), folder).string();
    const std::string kind = entry.path().extension().string();
    if (entry.is_directory() || name.starts_with("inputs/") || kind == ".png") continue;
    const std::string path = entry.path().string();
    search.look(kind, name, kind == ".xlsx" ? words_of_workbook(path) : file_bytes(path));
  }
}

/// A protocol whose safety answers were given today, so that the gate opens.
std::string answered_today() {
  std::string text = tree_file("protocols/demo/protocol.yaml");
  const std::string key = "agreed: {by: MK, on: ";
  const std::size_t on = text.find(key);
  REQUIRE(on != std::string::npos);
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  localtime_r(&now, &local);
  std::array<char, 32> today{};
  const std::size_t length = std::strftime(today.data(), today.size(), "%Y-%m-%d", &local);
  return text.replace(on + key.size(), length, today.data());
}

}  // namespace

TEST_CASE("never printed: each phrase is found, however it is set") {
  const Search search;
  for (const NeverPrinted& phrase : never_printed) {
    const std::string example = phrase.example;
    CAPTURE(example);
    CHECK(search.found(example).size() == 1);
    CHECK(search.found("Before it. " + example + " And after it.").size() == 1);
    std::string wrapped = example;
    replace_all(wrapped, " ", "\n    ");
    std::string tagged = example;
    replace_all(tagged, " ", "</td> <td class=\"x\">");
    std::string unbroken = example;
    replace_all(unbroken, " ", "\u00a0");
    std::string marked = example;
    replace_all(marked, " ", " **");
    const std::string spoken = "<img alt=\"" + example + "\" src=\"a.png\">";
    for (const std::string& hidden : {wrapped, tagged, unbroken, marked, spoken})
      CHECK(search.found(hidden).size() == 1);
  }
  CHECK(search.found("at 2 of 2 places, no damage shown").empty());
  CHECK(search.found("no damage shown, no damage").size() == 1);
  CHECK(search.found("surpassed, a certification, 3 < 4, no damages").empty());
}

TEST_CASE("never printed: what is judged and written up, in every format") {
  Search search;
  const std::vector<std::string> records = demos("record");
  CHECK(records.size() >= 18);
  search.run("text", "judge --explain --shortest --trials 20000 " + records.front());
  search.run("text", "judge --limit 2% " + records.front());
  search.in_formats("judge --explain --trials 0 " + joined(records), {"text"});
  search.in_formats("judge --trials 0 " + joined(records), {"jsonl"});
  // Of all records, these three formats are among what `write` writes.
  search.in_formats("judge --trials 0 " + records.front() + " " + records.back(),
                    {"md", "html", "json"});
  const ScratchFolder scratch;
  search.run("text", "write --trials 0 -o '" + (scratch / "w") + "' " + joined(records));
  look_into(search, scratch / "w");
  const std::string side_by_side = "line-up --columns all " + joined(records);
  search.run("text", side_by_side);
  search.run("text", side_by_side + " -o '" + (scratch / "l") + "'");
  look_into(search, scratch / "l");
  for (const char* kind : {".html", ".md", ".json", ".txt", ".xlsx"})
    CHECK(search.searched(kind) >= 1);
  CHECK(search.searched(".csv") >= 5);
  CHECK(search.searched(".svg") >= 80);
  CHECK(search.searched("jsonl") == 1);
}

TEST_CASE("never printed: plans, thresholds, speeds, tables and what a test begins from") {
  Search search;
  const ScratchFolder scratch;
  const std::vector<std::string> four{"text", "md", "html", "json"};
  const std::vector<std::string> protocols = demos("protocol");
  CHECK(protocols.size() >= 8);
  const std::string panel = " --panel protocols/demo/panels/rigid-a.yaml";
  for (const std::string& protocol : protocols)
    search.run("text", "plan " + protocol + panel, {0, 4});
  const std::string plan = "plan " + scratch.write("p.yaml", answered_today()) + panel;
  search.in_formats(plan, four);
  search.run("text", plan + " -o '" + (scratch / "plan") + "'");
  look_into(search, scratch / "plan");
  for (const std::string& file : demos("specimens"))
    search.in_formats("threshold " + file, four);
  search.in_formats("speed --frames 12 --video 240fps --length 2m --exposure 4ms", four);
  search.in_formats("shot --diameter 45mm --speed 31m/s", four);
  search.in_formats("grades", {"text", "md", "html", "json", "csv"});
  search.in_formats("sources", {"text", "md", "html"});
  for (const char* kind : {"protocol", "panel", "record", "columns", "specimens"})
    search.run("schema", std::string("check --schema ") + kind);
  search.run("text", "start '" + (scratch / "start") + "'");
  look_into(search, scratch / "start");
  CHECK(search.searched(".yaml") >= 3);
  CHECK(search.searched("text") > 10);
}

TEST_CASE("never printed: readings of logs") {
  Search search;
  const std::string logs = "protocols/demo/logs/";
  search.in_formats("readings --zone Europe/Berlin " + logs + "morning.csv",
                    {"text", "md", "html", "json", "csv", "yaml"});
  search.run("text", "readings --zone Europe/Berlin --cut plateaus " + logs + "morning.csv");
  search.run("text", "readings --columns " + logs +
                         "columns.yaml --cut markers --protocol "
                         "protocols/demo/protocol-logged.yaml " +
                         logs + "before.csv");
  search.run("text", "readings --zone UTC --beside " + logs + "clouds-control.csv --offset auto " +
                         logs + "clouds-a.csv");
  search.run("text", "readings --suggest " + logs + "morning.csv");
  for (const auto& entry : fs::directory_iterator(root / "tests/ugly_logs")) {
    if (entry.path().extension() == ".csv")
      search.run("ugly", "readings --zone UTC '" + entry.path().string() + "'", {0, 3});
  }
  CHECK(search.searched("ugly") >= 70);
}

TEST_CASE("never printed: messages and helps") {
  Search search;
  // In several goes: of very many messages not all are said.
  for (const char* letters : {"C", "K", "[A-BD-JL-S]", "T", "[U-Z]"})
    search.run("messages", std::string("check tests/bad_input/") + letters + "*.yaml", 3);
  std::vector<std::string> files;
  for (const char* kind : {"protocol", "panel", "record", "columns", "specimens"}) {
    const std::vector<std::string> of_kind = demos(kind);
    files.insert(files.end(), of_kind.begin(), of_kind.end());
  }
  search.run("messages", "check " + joined(files));
  search.run("messages", "judge none.yaml", 3);
  search.run("messages", "nothing", 2);
  search.run("help", "--help");
  const std::string help = run_hailwright("--help").out;
  std::istringstream lines(help.substr(help.find("Subcommands:\n") + 13));
  for (std::string line; std::getline(lines, line) && !line.empty();) {
    std::string command;
    std::istringstream(line) >> command;
    search.run("help", command + " --help");
  }
  CHECK(search.searched("help") == 13);
}

TEST_CASE("never printed: the pages") {
  Search search;
  std::set<std::string> needed;
  std::vector<fs::path> pages{root / "README.md", root / "CHANGELOG.md",
                              root / "protocols/README.md"};
  for (const auto& entry : fs::recursive_directory_iterator(root / "docs"))
    if (entry.is_regular_file()) pages.push_back(entry.path());
  for (const fs::path& page : pages) {
    const std::string name = fs::relative(page, root).string();
    std::string text = file_bytes(page.string());
    if (name == "docs/measurement.md") text = text.substr(0, text.find("## M18 "));
    for (const Legitimate& one : legitimate) {
      if (one.where != name || text.find(one.words) == std::string::npos) continue;
      needed.insert(name);
      replace_all(text, one.words, "...");
    }
    search.look("page", name, text);
  }
  CHECK(needed.size() == legitimate.size());
  CHECK(search.searched("page") > 50);
  CHECK_THAT(tree_file("docs/measurement.md"), Contains("## M18 Never printed"));
}
