#include "support/input_files.hpp"

#include <algorithm>
#include <ostream>
#include <tuple>

#include "support/catch.hpp"

namespace input_files {

using namespace hailwright;

Loader loader(const Files& files) {
  return [&files](const std::string& path, std::size_t) {
    Loaded loaded;
    const auto found = files.find(path);
    if (found == files.end()) {
      loaded.problem = "cannot be opened: there is no such file";
      loaded.hint = "check the path";
    } else {
      loaded.text = found->second;
    }
    return loaded;
  };
}

Files good_files() {
  Files files;
  files["protocol.yaml"] = R"(hailwright: protocol 1
title: Garden test
decide: {limit: 5 %}
series:
  - {name: small, grade: IEC 61215 25 mm, places: 2, setting: mark 3}
  - {name: large, grade: IEC 61215 35 mm, places: 1, setting: mark 5}
launch: {kind: sling}
speed: {by: trial shots, video: 240 fps, length: 3.00 m}
measure: {compare: same-panel, maximum_power: sweep}
)";
  files["panel.yaml"] = R"(hailwright: panel 1
name: Panel A
build: {kind: framed glass}
size: 1020 x 510 x 35 mm
)";
  files["record.yaml"] = R"(hailwright: record 1
protocol: protocol.yaml
panel: panel.yaml
day: {date: 2026-06-14}
tables:
  balls: |
    kind,count,together g,diameter mm
    small,10,75.6,25.1
  trials: |
    setting,frames
    mark 3,29.5
    mark 3,30
  shots: |
    series,place,landed,ball
    small,1,in,small
    small,2,in,small
looks:
  - {when: start, saw: nothing}
  - {when: after small, saw: [{scuff: place 1}]}
)";
  return files;
}

std::ostream& operator<<(std::ostream& out, const Seen& seen) {
  return out << seen.line << ':' << seen.column << ' ' << seen.code;
}

std::vector<Seen> seen(const Diagnostics& notes) {
  std::vector<Seen> all;
  for (const Diagnostic& note : notes.items())
    all.push_back({std::string(note.code), note.where.line, note.where.column});
  std::stable_sort(all.begin(), all.end(), [](const Seen& a, const Seen& b) {
    return std::tie(a.line, a.column) < std::tie(b.line, b.column);
  });
  return all;
}

Diagnostic only(const Diagnostics& notes) {
  CAPTURE(seen(notes));
  REQUIRE(notes.items().size() == 1);
  return notes.items().front();
}

input::Node tree(const std::string& text) {
  Diagnostics notes;
  auto root = input::read_yaml(1, text, notes);
  CAPTURE(text, seen(notes));
  REQUIRE(notes.empty());
  REQUIRE(root);
  return *root;
}

}  // namespace input_files
