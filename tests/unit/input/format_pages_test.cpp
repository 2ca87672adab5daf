// docs/*-format.md against the readers: each mapping has a section with each of its keys, no
// section has another, and the examples are read without a message.
#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>

#include "hailwright/input/readers.hpp"
#include "hailwright/model/findings.hpp"
#include "input/log_format_reader.hpp"
#include "input/panel_reader.hpp"
#include "input/protocol_reader.hpp"
#include "input/record_reader.hpp"
#include "input/specimens_reader.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;

namespace {

std::string page(const std::string& name) {
  std::ifstream file(std::string(HAILWRIGHT_SOURCE_DIR) + "/docs/" + name, std::ios::binary);
  REQUIRE(file);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string lower(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return text;
}

/// "this series" and "the record" have the headings "Series" and "Record".
std::string heading_of(std::string_view where) {
  for (const std::string_view article : {"this ", "the "}) {
    if (where.starts_with(article)) where.remove_prefix(article.size());
  }
  return std::string(where);
}

/// The keys in the table under a heading: rows that begin with | `key` |.
std::set<std::string> keys_under(const std::string& text, const std::string& heading) {
  std::set<std::string> keys;
  const std::string small = lower(text);
  std::size_t at = std::string::npos;
  for (const std::string level : {"\n## ", "\n### "}) {
    if (at == std::string::npos) at = small.find(level + heading + "\n");
  }
  if (at == std::string::npos) return keys;
  const std::size_t table = small.find("\n| key |", at);
  const std::size_t end = std::min(small.find("\n\n", table), small.size());
  constexpr std::string_view row = "\n| `";
  for (std::size_t i = small.find(row, table); i < end; i = small.find(row, i + 1)) {
    const std::size_t begin = i + row.size();
    keys.insert(small.substr(begin, small.find('`', begin) - begin));
  }
  return keys;
}

void check_page(const std::string& name, const std::vector<KeyList>& lists) {
  const std::string text = page(name);
  std::map<std::string, std::set<std::string>> known;
  for (const KeyList& list : lists) {
    for (const std::string& key : words_of(list.keys))
      known[heading_of(list.where)].insert(key);
  }
  for (const auto& [heading, keys] : known) {
    CAPTURE(name, heading);
    CHECK(keys_under(text, heading) == keys);
  }
}

std::string example(const std::string& name) {
  const std::string text = page(name);
  const std::string fence = "```yaml\nhailwright:";
  const std::size_t at = text.find(fence);
  REQUIRE(at != std::string::npos);
  const std::size_t begin = at + std::string("```yaml\n").size();
  return text.substr(begin, text.find("```", begin) - begin);
}

}  // namespace

TEST_CASE("format_pages: every key of the readers, and no other") {
  check_page("protocol-format.md", protocol_keys());
  check_page("panel-format.md", panel_keys());
  check_page("record-format.md", record_keys());
  check_page("columns-format.md", column_map_key_lists());
  check_page("specimens-format.md", specimens_key_lists());
}

TEST_CASE("format_pages: every word for what can be seen") {
  const std::string text = page("record-format.md");
  for (const FindingKind& kind : finding_kinds()) {
    CAPTURE(kind.word);
    CHECK_THAT(text, Contains("| `" + std::string(kind.word) + "` | " + std::string(kind.meaning)));
  }
}

TEST_CASE("format_pages: the examples are read without an error") {
  const input_files::Files files{{"protocol.yaml", example("protocol-format.md")},
                                 {"panel.yaml", example("panel-format.md")},
                                 {"record.yaml", example("record-format.md")},
                                 {"columns.yaml", example("columns-format.md")},
                                 {"specimens.yaml", example("specimens-format.md")}};
  for (const auto& [path, text] : files) {
    SourceSet sources;
    const Diagnostics notes = check_file(path, input_files::loader(files), sources);
    CAPTURE(render_diagnostics(notes, sources));
    CHECK(notes.empty());
  }
}
