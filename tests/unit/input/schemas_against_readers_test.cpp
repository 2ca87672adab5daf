// What the schemas say of each key against what its reader says: each value of a schema is put into
// a file and read. Only messages about that one value count; that it goes badly with another is
// another matter (codes C, F, T).
#include <fmt/format.h>

#include <functional>
#include <nlohmann/json.hpp>
#include <set>

#include "hailwright/input/schemas.hpp"
#include "input/log_format_reader.hpp"
#include "input/map_reader.hpp"
#include "input/panel_reader.hpp"
#include "input/protocol_reader.hpp"
#include "input/record_reader.hpp"
#include "input/specimens_reader.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using nlohmann::json;

namespace {

/// Keys; "[]" is the first item of a list, "[]kind=spray" the same where that key comes before.
using Path = std::vector<std::string>;

Node text_node(const std::string& text) {
  Node node;
  node.kind = NodeKind::text;
  node.text = text;
  return node;
}

Node map_node() {
  Node node;
  node.kind = NodeKind::map;
  return node;
}

/// Of these a mapping has one; the readers read none where there are two.
const std::vector<std::string> rivals{"accuracy spread within uncertainty",
                                      "u half_width expanded",
                                      "grade ball",
                                      "redone remounted",
                                      "cut setups",
                                      "cut times"};

void erase_rivals(Node& map, const std::string& key) {
  for (const std::string& group : rivals) {
    const std::vector<std::string> keys = words_of(group);
    if (std::find(keys.begin(), keys.end(), key) == keys.end()) continue;
    std::erase_if(map.entries, [&](const Entry& entry) {
      return entry.key != key && std::find(keys.begin(), keys.end(), entry.key) != keys.end();
    });
  }
}

void add_key(Node& map, const std::string& key, Node value) {
  const bool there = std::any_of(map.entries.begin(), map.entries.end(),
                                 [&](const Entry& entry) { return entry.key == key; });
  if (!there) map.entries.push_back({key, {}, std::move(value)});
}

/// What the mapping of a log has beside whatever is put into it.
void add_log_keys(Node& map, const Path& path) {
  if (path.empty() || path.size() > 2 || (path.size() == 2 && path.back() != "[]")) return;
  if (path[0] != "before" && path[0] != "after" && path[0] != "sessions") return;
  add_key(map, "log", text_node("log.csv"));
  add_key(map, "zone", text_node("UTC"));
}

/// What a reader wants to see before it reads a key: the size whose shape it is, which may be
/// broken, the name of the place whose kind it is, the count that it is a part of.
void add_companion(Node& map, const Path& path) {
  const auto add = [&](const std::string& key, Node value) { add_key(map, key, std::move(value)); };
  if (path.back() == "clock") add("date", text_node("D"));
  if (path.back() == "date" && path.size() > 1 && path[path.size() - 2] == "columns")
    add("clock", text_node("C"));
  if (path.back() == "shape") add("half_width", Node{});
  if (path.back() == "tried") add("hit", text_node("0"));
  if (path.back() == "hit") add("tried", text_node("10000"));
  if (path.back() == "made") add("rejected", text_node("0"));
  if (path.back() == "rejected") add("made", text_node("10000"));
  if (path.back() == "kind" && path[path.size() - 2] == "[]") add("name", text_node("a"));
}

Node& child(Node& node, const std::string& key) {
  if (key.starts_with("[]")) {
    if (node.kind != NodeKind::list) node = Node{};
    node.kind = NodeKind::list;
    if (node.items.empty()) node.items.push_back(map_node());
    if (const std::size_t equals = key.find('='); equals != std::string::npos)
      add_key(node.items.front(), key.substr(2, equals - 2), text_node(key.substr(equals + 1)));
    return node.items.front();
  }
  if (node.kind != NodeKind::map) node = map_node();
  erase_rivals(node, key);
  for (Entry& entry : node.entries) {
    if (entry.key == key) return entry.value;
  }
  node.entries.push_back({key, {}, map_node()});
  return node.entries.back().value;
}

input_files::Files good_files() {
  input_files::Files files = input_files::good_files();
  files["columns.yaml"] = "hailwright: columns 1\ncolumns: {time: Time, power: P W}\n";
  files["specimens.yaml"] = "hailwright: specimens 1\ntitle: Coupons\ndamage: a crack\ntests: |\n"
                            "  specimen,energy J,damaged\n  S1,6.0,no\n";
  return files;
}

/// For `stresses:` of a protocol: one of each kind, called like it.
std::string one_of_each_stress() {
  std::string text = "stresses:\n";
  for (const StressKind& kind : stress_kinds()) {
    text += fmt::format("  - {{kind: {}", kind.word);
    for (const StressKey& key : kind.planned) {
      if (key.required) text += fmt::format(", {}: {}", key.key, key.example);
    }
    text += "}\n";
  }
  return text;
}

/// One of the kinds of files: a good one into which values are put.
class Subject {
public:
  Subject(FileKind kind, std::string path)
      : kind_(kind), path_(std::move(path)), schema_(json::parse(json_schema(kind))),
        good_(input_files::tree(files_.at(path_))) {
    if (kind == FileKind::record) files_["protocol.yaml"] += one_of_each_stress();
  }

  [[nodiscard]] const json& schema() const { return schema_; }

  [[nodiscard]] const json& resolved(const json& node) const {
    if (!node.contains("$ref")) return node;
    const std::string pointer = node["$ref"];
    return schema_["$defs"][pointer.substr(pointer.rfind('/') + 1)];
  }

  /// What is said of a file with this value at this place.
  [[nodiscard]] Diagnostics read_with(const Path& path, const Node& value) const {
    Node root = good_;
    Node* at = &root;
    for (auto key = path.begin(); key != path.end(); ++key) {
      if (key + 1 == path.end() && at->kind == NodeKind::map) add_companion(*at, path);
      if (at->kind == NodeKind::map && *key != "[]") add_log_keys(*at, Path(path.begin(), key));
      at = &child(*at, *key);
    }
    *at = value;
    Diagnostics notes;
    SourceSet sources;
    const Document document{0, kind_, root};
    if (kind_ == FileKind::protocol) read_protocol(document, notes);
    if (kind_ == FileKind::panel) read_panel(document, notes);
    if (kind_ == FileKind::columns) read_column_map(document, notes);
    if (kind_ == FileKind::specimens)
      read_specimens(document, path_, input_files::loader(files_), sources, notes);
    if (kind_ == FileKind::record)
      read_record(document, path_, input_files::loader(files_), sources, notes);
    return notes;
  }

private:
  FileKind kind_;
  std::string path_;
  input_files::Files files_ = good_files();
  json schema_;
  Node good_;
};

std::vector<Subject> subjects() {
  return {Subject(FileKind::protocol, "protocol.yaml"), Subject(FileKind::panel, "panel.yaml"),
          Subject(FileKind::record, "record.yaml"), Subject(FileKind::columns, "columns.yaml"),
          Subject(FileKind::specimens, "specimens.yaml")};
}

/// Whether a message is about one value alone.
bool about_a_value(const Diagnostic& note) {
  const char letter = note.code.front();
  return note.code != "K02" && (letter == 'K' || letter == 'U' || letter == 'R' || letter == 'S');
}

std::vector<std::string> complaints(const Diagnostics& notes) {
  std::vector<std::string> all;
  for (const Diagnostic& note : notes.items()) {
    if (about_a_value(note)) all.push_back(std::string(note.code) + " " + note.message);
  }
  return all;
}

bool says(const Diagnostics& notes, std::string_view code) {
  return std::any_of(notes.items().begin(), notes.items().end(),
                     [&](const Diagnostic& note) { return note.code == code; });
}

std::string shown(const Path& path) {
  return fmt::format("{}", fmt::join(path, "/"));
}

Path with(Path path, const std::string& key) {
  path.push_back(key);
  return path;
}

/// A mapping with what its kind is told by, and nothing else. A planned stress has a level besides,
/// which gives what would be missing otherwise.
Node bare_map(const Path& path, const json& way) {
  Node node = map_node();
  if (!path.back().starts_with("[]kind=")) return node;
  add_key(node, "kind", text_node(path.back().substr(path.back().find('=') + 1)));
  add_key(node, "level", text_node(way["properties"]["level"]["enum"][0]));
  return node;
}

/// Visits what each key may be, its ways one by one, wherever in the file it stands.
using Visit =
    std::function<void(const Subject&, const Path&, const json& written, const json& way)>;

/// What is read of a stress goes by its kind: in a protocol by the key, in a record by the name.
Path of_kind(Path path, const json& way, std::size_t index) {
  if (path.size() < 2 || path[0] != "stresses" || !way.contains("properties")) return path;
  const json& keys = way["properties"];
  if (keys.contains("kind")) path[1] = "[]kind=" + keys["kind"]["const"].get<std::string>();
  if (path.back() == "done") path[1] = "[]name=" + std::string(stress_kinds()[index].word);
  return path;
}

void walk(const Subject& subject, const Path& path, const json& written, const Visit& visit) {
  const json& node = subject.resolved(written);
  visit(subject, path, written, node);
  if (node.contains("anyOf")) {
    std::size_t index = 0;
    for (const json& way : node["anyOf"])
      walk(subject, of_kind(path, subject.resolved(way), index++), way, visit);
  }
  if (node.contains("items")) walk(subject, with(path, "[]"), node["items"], visit);
  // Keys of the user's choice: cavities by diameter, components of the scatter by name.
  if (node.contains("patternProperties"))
    walk(subject, with(path, "25 mm"), *node["patternProperties"].begin(), visit);
  if (node.contains("additionalProperties") && node["additionalProperties"].is_object())
    walk(subject, with(path, "alignment"), node["additionalProperties"], visit);
  if (!node.contains("properties")) return;
  for (const auto& [key, value] : node["properties"].items())
    walk(subject, with(path, key), value, visit);
}

void walk_all(const Visit& visit) {
  for (const Subject& subject : subjects())
    walk(subject, {}, subject.schema(), visit);
}

/// The head of a file is read before its keys are; words of things seen are keys, not values.
bool is_head(const Path& path) {
  return path.size() == 1 && path.front() == "hailwright";
}

std::string text_of(const json& value) {
  return value.is_string() ? value.get<std::string>() : value.dump();
}

/// The words that a reader says it knows, for a word that is like none of them.
std::set<std::string> words_known(const Diagnostics& notes) {
  constexpr std::string_view begin = "known are ";
  std::set<std::string> words;
  for (const Diagnostic& note : notes.items()) {
    for (const std::string& hint : note.hints) {
      const bool of_words = note.code == "K06" || note.code == "K19";
      if (!of_words || !hint.starts_with(begin)) continue;
      std::string rest = hint.substr(begin.size());
      for (std::size_t comma = rest.find(", "); comma != std::string::npos;
           comma = rest.find(", ")) {
        words.insert(rest.substr(0, comma));
        rest.erase(0, comma + 2);
      }
      words.insert(rest);
    }
  }
  return words;
}

}  // namespace

TEST_CASE("schemas_against_readers: every example and every word is taken") {
  int tried = 0;
  walk_all([&](const Subject& subject, const Path& path, const json& written, const json& way) {
    for (const char* keyword : {"examples", "enum"}) {
      const json& from = written.contains(keyword) ? written : way;
      if (is_head(path) || !from.contains(keyword)) continue;
      for (const json& value : from[keyword]) {
        CAPTURE(shown(path), value);
        CHECK(complaints(subject.read_with(path, text_node(text_of(value)))).empty());
        ++tried;
      }
    }
  });
  CHECK(tried > 400);
}

TEST_CASE("schemas_against_readers: the reader names the same words") {
  int lists = 0;
  walk_all([&](const Subject& subject, const Path& path, const json&, const json& way) {
    if (!way.contains("enum") || path.back() == "grade") return;
    const Diagnostics notes = subject.read_with(path, text_node("qqqqqqqqqqqqqqqqqqqq"));
    CAPTURE(shown(path), complaints(notes));
    std::set<std::string> words;
    for (const json& word : way["enum"])
      words.insert(word.get<std::string>());
    CHECK(words_known(notes) == words);
    ++lists;
  });
  CHECK(lists > 60);
}

TEST_CASE("schemas_against_readers: counts have the same ends") {
  int ends = 0;
  walk_all([&](const Subject& subject, const Path& path, const json&, const json& way) {
    if (!way.contains("minimum") || !way.contains("maximum")) return;
    const int low = way["minimum"];
    const int high = way["maximum"];
    CAPTURE(shown(path), low, high);
    CHECK(complaints(subject.read_with(path, text_node(std::to_string(low)))).empty());
    CHECK(complaints(subject.read_with(path, text_node(std::to_string(high)))).empty());
    CHECK(says(subject.read_with(path, text_node(std::to_string(high + 1))), "R02"));
    if (low > 0) CHECK(says(subject.read_with(path, text_node(std::to_string(low - 1))), "R02"));
    ++ends;
  });
  CHECK(ends > 12);
}

TEST_CASE("schemas_against_readers: amounts are of the same measure") {
  int amounts = 0;
  walk_all([&](const Subject& subject, const Path& path, const json& written, const json&) {
    if (!written.contains("$ref")) return;
    const std::string name = written["$ref"];
    const bool plain = name.starts_with("#/$defs/amount_of_");
    const bool stated = name.starts_with("#/$defs/accuracy_of_") ||
                        name.starts_with("#/$defs/size_of_") ||
                        name.starts_with("#/$defs/within_of_");
    if (!plain && !stated) return;
    std::string measure = name.substr(name.find("_of_") + 4);
    std::replace(measure.begin(), measure.end(), '_', ' ');
    measure = measure.substr(0, measure.find(" or digits"));
    const bool certificate = name.starts_with("#/$defs/within_of_");
    const Diagnostics notes = subject.read_with(path, text_node(certificate ? "q, 95 %" : "q"));
    CAPTURE(shown(path), name, complaints(notes));
    const bool named =
        std::any_of(notes.items().begin(), notes.items().end(), [&](const Diagnostic& note) {
          return note.code == "U12" && note.message.ends_with(" " + measure + " was expected");
        });
    CHECK(named);
    ++amounts;
  });
  CHECK(amounts > 120);
}

TEST_CASE("schemas_against_readers: a text is no mapping, a list no text, a mapping no text") {
  int kinds = 0;
  walk_all([&](const Subject& subject, const Path& path, const json&, const json& way) {
    if (path.empty() || is_head(path) || !way.contains("type")) return;
    // A place is a name or a mapping, a column a header or a mapping.
    if (path.back() == "[]" && path[path.size() - 2] == "places") return;
    if (path.size() > 1 && path[path.size() - 2] == "columns") return;
    const bool wants_map = way["type"] == "object";
    const Node wrong = wants_map ? text_node("q") : map_node();
    const Diagnostics notes = subject.read_with(path, wrong);
    const bool refused = says(notes, "K05") || says(notes, "K17") || says(notes, "K06") ||
                         says(notes, "U12") || says(notes, "K02");
    CAPTURE(shown(path), complaints(notes));
    CHECK(refused);
    ++kinds;
  });
  CHECK(kinds > 250);
}

TEST_CASE("schemas_against_readers: the same keys are required") {
  int mappings = 0;
  walk_all([&](const Subject& subject, const Path& path, const json&, const json& way) {
    if (path.empty() || !way.contains("properties")) return;
    const Diagnostics notes = subject.read_with(path, bare_map(path, way));
    std::set<std::string> missing;
    if (path.back().starts_with("[]kind=")) missing.insert("kind");
    for (const Diagnostic& note : notes.items()) {
      const std::size_t end = note.message.find("' is missing in ");
      if (note.code == "K02" && end != std::string::npos && note.message.find('\'', 1) == end)
        missing.insert(note.message.substr(1, end - 1));
    }
    const json required = way.value("required", json::array());
    CAPTURE(shown(path), missing);
    // Beside them the stress itself lacks keys. The reader wants no answer, the gate does.
    if (path[0] == "stresses" && path.back() == "safety") {
      CHECK(required.empty());
      return;
    }
    // There the mappings around it lack keys as well; what was done is asked for once it has a
    // name, and a table of shots by the protocol.
    const std::set<std::string> nested{"shading", "energy", "curves", "stresses", "tables"};
    if (nested.contains(path[0])) {
      for (const json& key : required)
        CHECK((missing.contains(key) || key == "done"));
    } else {
      CHECK(missing == required.get<std::set<std::string>>());
    }
    ++mappings;
  });
  CHECK(mappings > 60);
}

TEST_CASE("schemas_against_readers: an unknown key is refused by both") {
  walk_all([&](const Subject& subject, const Path& path, const json&, const json& way) {
    if (!way.contains("properties") || path.empty()) return;
    Node map = bare_map(path, way);
    map.entries.push_back({"qqqqqqqq", {}, text_node("q")});
    const Diagnostics notes = subject.read_with(path, map);
    CAPTURE(shown(path), complaints(notes));
    CHECK((says(notes, "K01") || says(notes, "K16")));
    CHECK(way["additionalProperties"] == false);
  });
}
