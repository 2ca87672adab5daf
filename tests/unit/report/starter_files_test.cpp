#include "hailwright/report/starter_files.hpp"

#include <algorithm>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "hailwright/input/readers.hpp"
#include "hailwright/input/table_templates.hpp"
#include "hailwright/model/safety_questions.hpp"
#include "input/panel_reader.hpp"
#include "input/protocol_reader.hpp"
#include "input/record_reader.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using input_files::Files;

namespace {

Files files_of(const StarterKind& kind) {
  Files files;
  for (const StarterFile& file : starter_files(kind))
    files[file.name] = file.bytes;
  return files;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);)
    lines.push_back(line);
  return lines;
}

std::string text_of(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines)
    text += line + "\n";
  return text;
}

std::size_t blanks_before(const std::string& line) {
  return std::min(line.find_first_not_of(' '), line.size());
}

/// A message with the file and line that it is about.
struct Message {
  std::string file;
  int line = 0;
  std::string code;
  std::string text;
  friend bool operator==(const Message&, const Message&) = default;
  friend auto operator<=>(const Message&, const Message&) = default;
};

std::ostream& operator<<(std::ostream& out, const Message& m) {
  return out << m.file << ':' << m.line << ' ' << m.code << ' ' << m.text;
}

/// What `check` says of a file, each thing once.
std::set<Message> check(const Files& files, const std::string& path) {
  SourceSet sources;
  const Diagnostics notes = check_file(path, input_files::loader(files), sources);
  std::set<Message> messages;
  for (const Diagnostic& d : notes.items())
    messages.insert({sources.name(d.where.file), d.where.line, std::string(d.code), d.message});
  return messages;
}

/// The questions that a file asks: its lines whose value is still to come.
std::set<Message> open_answers(const std::string& name, const std::string& text) {
  static const std::regex open_line(R"(^ *([a-z_]+|\d+ mm): \?\?\?( +#.*)?$)");
  std::set<Message> messages;
  const auto lines = lines_of(text);
  std::string block;
  bool safety = false;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::string& line = lines[i];
    if (!line.empty() && line[0] != ' ' && line[0] != '#') safety = line.rfind("safety:", 0) == 0;
    if (blanks_before(line) == 2 && line.back() == ':') block = line.substr(2, line.size() - 3);
    std::smatch match;
    if (!std::regex_match(line, match, open_line)) continue;
    const std::string key = match[1].str();
    const int number = static_cast<int>(i) + 1;
    if (safety) {
      const SafetyQuestion* question = find_safety_question(block, key);
      CAPTURE(block, key);
      REQUIRE(question != nullptr);
      messages.insert({name, number, "S01",
                       "'" + key + "' is not answered yet: " + std::string(question->asks)});
    } else {
      messages.insert({name, number, "K18", "'" + key + "' is not filled in yet"});
    }
  }
  return messages;
}

/// Answers to what the files ask, by file and key; where a key is asked several times, in order.
std::map<std::string, std::vector<std::string>> answers_for(const std::string& file) {
  if (file == "panels/panel-a.yaml") {
    return {{"name", {"Panel A"}},
            {"kind", {"framed glass"}},
            {"power", {"100 W", "-0.35 %/K"}},
            {"open_voltage", {"22.1 V"}},
            {"short_current", {"5.9 A"}},
            {"size", {"1020 x 510 x 35 mm", "90 x 70 mm"}},
            {"grid", {"9 x 4"}},
            {"at", {"510 x 450 mm"}},
            {"weight", {"6.9 kg"}},
            {"price", {"89 EUR"}},
            {"bought_by", {"me"}},
            {"from", {"a shop"}},
            {"on", {"2026-05-20"}},
            {"condition", {"new, without marks"}}};
  }
  if (file == "record.yaml") {
    return {{"planned", {"2026-06-10 7f3a-9c01-52de-0b44"}},
            {"date", {"2026-06-14"}},
            {"air", {"24 degC"}},
            {"weather", {"sun and clouds"}},
            {"mounting", {"own frame in four clamps"}},
            {"panel_at_shots", {"26 degC"}},
            {"saw", {"nothing", "[{scuff: place 3}]", "nothing"}},
            {"clean_and_dry", {"yes"}},
            {"same_leads", {"yes"}},
            {"same_tools", {"yes"}},
            {"pre_exposed", {"no"}},
            {"in_sun_first", {"20 min"}},
            {"incidence", {"15 deg"}},
            {"incidence_change", {"5 deg"}},
            {"since_last_shot", {"60 min"}},
            {"incidents", {"none"}},
            {"bought_by", {"me"}},
            {"interests", {"none"}},
            {"panel_goes", {"kept and marked as struck"}}};
  }
  return {{"title", {"Garden test"}},
          {"setting", {"mark 3", "mark 5"}},
          {"kind", {"sling", "infrared"}},
          {"distance", {"3.0 m"}},
          {"height", {"1.2 m"}},
          {"fastest", {"40 m/s"}},
          {"ground_falls", {"0 m"}},
          {"video", {"240 fps"}},
          {"length", {"3.00 m"}},
          {"to_panel", {"1.5 m"}},
          {"freezer", {"-18 degC"}},
          {"25 mm", {"12"}},
          {"35 mm", {"6"}},
          {"meters", {"1"}},
          {"maximum_power", {"tracker settled"}},
          {"load", {"power station"}},
          {"where", {"back"}}};
}

/// Tools have the same keys: answers by tool.
const std::map<std::string, std::pair<std::string, std::string>> tool_answers{
    {"meter", {"1 % + 3 digits", "0.1 W"}},
    {"sun", {"unknown", "1 W/m2"}},
    {"thermometer", {"2 degC", ""}},
    {"scales", {"0.2 g", "0.1 g"}},
    {"calipers", {"0.1 mm", "0.1 mm"}}};

/// A file with every question answered.
std::string filled(const std::string& file, const std::string& text) {
  static const std::regex open_line(R"(^( *)([a-z_]+|\d+ mm): \?\?\?(.*)$)");
  std::map<std::string, std::vector<std::string>> answers = answers_for(file);
  std::vector<std::string> lines = lines_of(text);
  std::string block;
  bool safety = false;
  for (std::string& line : lines) {
    safety = safety || line.rfind("safety:", 0) == 0;
    static const std::regex block_line(R"(^  ([a-z_]+):( +#.*)?$)");
    std::smatch match;
    if (std::regex_match(line, match, block_line)) block = match[1].str();
    if (!std::regex_match(line, match, open_line)) continue;
    const std::string key = match[2].str();
    std::string answer;
    if (safety) {
      answer = find_safety_question(block, key)->example;
    } else if (tool_answers.count(block) > 0 && (key == "accuracy" || key == "step")) {
      answer = key == "step" ? tool_answers.at(block).second : tool_answers.at(block).first;
    } else {
      std::vector<std::string>& left = answers[key];
      CAPTURE(file, key, line);
      REQUIRE_FALSE(left.empty());
      answer = left.front();
      left.erase(left.begin());
    }
    line = match[1].str() + key + ": " + answer + match[3].str();
  }
  return text_of(lines);
}

Files filled_files(const StarterKind& kind) {
  Files files = files_of(kind);
  for (const char* name : {"protocol.yaml", "panels/panel-a.yaml", "record.yaml"})
    files[name] = filled(name, files[name]);
  return files;
}

/// A key that is not needed, with the lines that belong to it.
struct Disabled {
  std::string key;
  std::size_t first = 0;
  std::size_t count = 0;
  std::size_t mark = 0;    ///< column of its #
  std::size_t indent = 0;  ///< once the # is gone
};

std::vector<Disabled> disabled_keys(const std::vector<std::string>& lines) {
  static const std::regex disabled_line(R"(^( *)#(|  +)([a-z_]+|\d+ mm):.*$)");
  std::vector<Disabled> all;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    std::smatch match;
    if (!std::regex_match(lines[i], match, disabled_line)) continue;
    // The signs are explained at the top of the protocol.
    if (lines[i].rfind("#   #key", 0) == 0) continue;
    Disabled unit{match[3].str(), i, 1, match[1].str().size(), 0};
    unit.indent = unit.mark + match[2].str().size();
    for (; i + 1 < lines.size(); ++i, ++unit.count) {
      const std::string& next = lines[i + 1];
      if (next.size() <= unit.mark + 1 || next[unit.mark] != '#') break;
      if (blanks_before(next) != unit.mark) break;
      const std::size_t blanks = next.find_first_not_of(' ', unit.mark + 1) - unit.mark - 1;
      if (blanks == 1 || unit.mark + blanks <= unit.indent) break;
    }
    all.push_back(unit);
  }
  return all;
}

/// Keys whose place a key takes, or that it needs beside it.
const std::map<std::string, std::vector<std::string>> instead_of{
    {"ball", {"grade"}},
    {"spread", {"accuracy", "video", "length"}},
    {"within", {"accuracy", "video", "length"}},
    {"uncertainty", {"accuracy", "video", "length"}},
    {"accuracy", {"video", "length"}},
    {"positions", {"video", "length"}},
    {"gates", {"video", "length"}},
    {"radar", {"video", "length"}},
    {"sounds", {"video", "length"}}};
const std::map<std::string, std::string> together_with{
    {"tried", "hit"}, {"hit", "tried"}, {"made", "rejected"}, {"rejected", "made"}};

/// The lines of the block that a line of this indentation stands in.
std::pair<std::size_t, std::size_t> block_around(const std::vector<std::string>& lines,
                                                 std::size_t at, std::size_t indent) {
  const auto ends = [&](const std::string& line) {
    const std::size_t blanks = blanks_before(line);
    if (blanks >= line.size()) return false;
    const bool item = line.compare(blanks, 2, "- ") == 0;
    return (line[blanks] != '#' && blanks < indent) || (item && blanks + 2 <= indent);
  };
  std::size_t begin = at;
  while (begin > 0 && !ends(lines[begin]))
    --begin;
  std::size_t end = at + 1;
  while (end < lines.size() && !ends(lines[end]))
    ++end;
  return {begin, end};
}

/// The file with one unneeded key in use, alone but for what it stands in place of or needs.
std::string with_key(const std::vector<std::string>& original, const Disabled& unit,
                     const std::vector<Disabled>& all) {
  std::vector<std::string> lines = original;
  const auto use = [&](const Disabled& used) {
    for (std::size_t i = used.first; i < used.first + used.count; ++i)
      lines[i].erase(used.mark, 1);
  };
  const auto [begin, end] = block_around(original, unit.first, unit.indent);
  std::vector<std::string> gone{unit.key};
  if (const auto it = instead_of.find(unit.key); it != instead_of.end())
    gone.insert(gone.end(), it->second.begin(), it->second.end());
  for (std::size_t i = begin; i < end; ++i) {
    for (const std::string& key : gone) {
      const std::size_t column = lines[i].find_first_not_of(" -");
      if (column == unit.indent && lines[i].compare(column, key.size() + 1, key + ":") == 0)
        lines[i].insert(column, "#");
    }
  }
  use(unit);
  if (const auto it = together_with.find(unit.key); it != together_with.end()) {
    for (const Disabled& other : all) {
      if (other.key == it->second && other.first >= begin && other.first < end) use(other);
    }
  }
  return text_of(lines);
}

/// Where a key is no use in this kind of test, or not yet: the code of what is said then.
std::string useless(const StarterKind& kind, const std::string& file, const std::string& key) {
  const bool record = file == "record.yaml";
  if (record && (key == "before" || key == "after")) return kind.siblings ? "C41" : "F01";
  if (key == "sessions") return "F01";            // no such log either
  if (key == "height_accuracy") return "C21";     // but with by: drop
  if (record && key == "stresses") return "C48";  // but where the protocol plans them
  if (key == "setups") return "T31";              // no readings yet
  if (key == "readings" && record) return "F01";  // no such table in a test judged by looks
  if (key == "control" || (key == "siblings" && record)) return "C10";  // but where compared with
  if (key == "control_stability" && !kind.control) return "C21";
  if ((key == "siblings" || key == "unit_tolerance") && !kind.siblings) return "C21";
  if (key == "before" && kind.siblings) return "C21";
  return "";
}

std::string lower(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return text;
}

/// The cells of a row, all of them words.
std::vector<std::string> words_of(const std::vector<SheetCell>& row) {
  std::vector<std::string> words;
  for (const SheetCell& cell : row)
    words.push_back(std::get<std::string>(cell.content));
  return words;
}

}  // namespace

TEST_CASE("starter_files: the kinds and their files") {
  REQUIRE(starter_kinds().size() == 5);
  CHECK(starter_kinds()[0].name == "control-panel");
  CHECK(find_starter_kind("looks-only") == &starter_kinds()[4]);
  CHECK(find_starter_kind("none") == nullptr);
  for (const StarterKind& kind : starter_kinds()) {
    CAPTURE(kind.name);
    const Files files = files_of(kind);
    CHECK(files.count("readings.csv") == (kind.power ? 1 : 0));
    for (const char* name : {"protocol.yaml", "panels/panel-a.yaml", "record.yaml", "balls.csv",
                             "trials.csv", "shots.csv"})
      CHECK(files.count(name) == 1);
    for (const StarterFile& file : starter_files(kind))
      CHECK_FALSE(file.holds.empty());
  }
}

TEST_CASE("starter_files: check names what only a person can answer, and nothing else") {
  for (const StarterKind& kind : starter_kinds()) {
    const Files files = files_of(kind);
    std::set<Message> all;
    for (const std::string name : {"panels/panel-a.yaml", "protocol.yaml", "record.yaml"}) {
      CAPTURE(kind.name, name);
      const std::set<Message> own = open_answers(name, files.at(name));
      CHECK(own.size() > 10);
      all.insert(own.begin(), own.end());
      // The record is read with the other two.
      CHECK(check(files, name) == (name == "record.yaml" ? all : own));
    }
  }
}

TEST_CASE("starter_files: filled in, they are read without a message") {
  for (const StarterKind& kind : starter_kinds()) {
    const Files files = filled_files(kind);
    for (const std::string name : {"panels/panel-a.yaml", "protocol.yaml", "record.yaml"}) {
      CAPTURE(kind.name, name);
      CHECK(check(files, name) == std::set<Message>{});
    }
  }
}

TEST_CASE("starter_files: the safety questions that every launch has to answer are open") {
  for (const StarterKind& kind : starter_kinds()) {
    const std::string text = files_of(kind).at("protocol.yaml");
    for (const SafetyQuestion& question : safety_questions()) {
      CAPTURE(question.block, question.key);
      CHECK_THAT(text, Contains(std::string(question.key) + ": ???"));
    }
    // Asked of every launch, and of compressed air alone (docs/safety.md).
    CHECK_THAT(text, Contains("\n    lookout: ???\n") && Contains("\n    backstop: ???\n"));
    CHECK_THAT(text, Contains("\n    #vented_first: ???"));
  }
}

TEST_CASE("starter_files: every key of the formats stands in them") {
  const auto check_keys = [](const std::string& text, const std::vector<input::KeyList>& lists) {
    for (const input::KeyList& list : lists) {
      for (const std::string& key : input::words_of(list.keys)) {
        CAPTURE(list.where, key);
        CHECK(std::regex_search(text, std::regex("(^|[ \\n{#,])" + key + ": ?")));
      }
    }
  };
  for (const StarterKind& kind : starter_kinds()) {
    CAPTURE(kind.name);
    const Files files = files_of(kind);
    check_keys(files.at("protocol.yaml"), input::protocol_keys());
    check_keys(files.at("panels/panel-a.yaml"), input::panel_keys());
    check_keys(files.at("record.yaml"), input::record_keys());
  }
}

TEST_CASE("starter_files: each key that is not needed is read as it stands") {
  for (const StarterKind& kind : starter_kinds()) {
    const Files files = filled_files(kind);
    for (const std::string name : {"protocol.yaml", "panels/panel-a.yaml", "record.yaml"}) {
      const std::vector<std::string> lines = lines_of(files.at(name));
      const std::vector<Disabled> all = disabled_keys(lines);
      CHECK(all.size() >= 7);
      for (const Disabled& unit : all) {
        Files changed = files;
        changed[name] = with_key(lines, unit, all);
        CAPTURE(kind.name, name, unit.key, lines[unit.first]);
        REQUIRE(changed[name] != files.at(name));
        std::set<std::string> codes;
        for (const Message& m : check(changed, "record.yaml")) {
          const auto line = static_cast<std::size_t>(m.line) - 1;
          const bool inside =
              m.file == name && line >= unit.first && line < unit.first + unit.count;
          // A question behind a # is one still.
          if (inside && (m.code == "K18" || m.code == "S01")) continue;
          CAPTURE(m);
          codes.insert(m.code);
          CHECK(useless(kind, name, unit.key) == m.code);
        }
        // An excuse that is not needed hides what comes later. Without readings no set-up lacks
        // any.
        const bool excused =
            !useless(kind, name, unit.key).empty() && (unit.key != "setups" || kind.power);
        CHECK(codes.size() == (excused ? 1 : 0));
      }
    }
  }
}

TEST_CASE("starter_files: lines fit a screen, and no line ends in blanks") {
  for (const StarterKind& kind : starter_kinds()) {
    for (const auto& [name, text] : files_of(kind)) {
      for (const std::string& line : lines_of(text)) {
        CAPTURE(name, line);
        CHECK(line.size() <= 100);
        CHECK((line.empty() || line.back() != ' '));
      }
    }
  }
}

TEST_CASE("starter_files: the tables have the header that the readers give, and nothing more") {
  const Files files = files_of(starter_kinds()[0]);
  for (const TableTemplate& table : table_templates()) {
    std::string header;
    for (const std::string& cell : new_header(table))
      header += (header.empty() ? "" : ",") + cell;
    CHECK(files.at(std::string(table.name) + ".csv") == header + "\r\n");
  }
}

TEST_CASE("starter_files: the workbook has a sheet for each table and one that explains") {
  for (const StarterKind& kind : starter_kinds()) {
    const Workbook book = starter_tables(kind);
    CAPTURE(kind.name);
    std::vector<std::string> names;
    for (const Sheet& sheet : book.sheets)
      names.push_back(sheet.name);
    std::vector<std::string> expected{"how to", "balls", "trials", "shots"};
    if (kind.power) expected.push_back("readings");
    CHECK(names == expected);
    for (const TableTemplate& table : table_templates()) {
      const auto found = std::find_if(book.sheets.begin(), book.sheets.end(),
                                      [&](const Sheet& sheet) { return sheet.name == table.name; });
      if (found == book.sheets.end()) continue;
      REQUIRE(found->rows.size() == 1);
      CHECK(words_of(found->rows[0]) == new_header(table));
      CHECK(found->columns.size() == new_header(table).size());
      for (const TableColumn& column : table.columns) {
        CAPTURE(column.header);
        const auto& rows = book.sheets[0].rows;
        CHECK(std::any_of(rows.begin(), rows.end(), [&](const auto& row) {
          const std::vector<std::string> words = words_of(row);
          return words[0] == table.name && words[1] == column.header &&
                 words[3].starts_with(column.means);
        }));
      }
    }
  }
}

TEST_CASE("starter_files: no word of them claims anything, and the same bytes come each time") {
  for (const StarterKind& kind : starter_kinds()) {
    CHECK(files_of(kind) == files_of(kind));
    for (const auto& [name, text] : files_of(kind)) {
      for (const char* word : {"passed", "certified", "undamaged", "safe to", "safe distance"}) {
        CAPTURE(name, word);
        CHECK_THAT(lower(text), !Contains(word));
      }
    }
  }
}
