#include "hygiene/cpp_tokens.hpp"
#include "hygiene/rules.hpp"

#include <algorithm>
#include <map>
#include <regex>
#include <sstream>

namespace hygiene {

namespace {

constexpr std::string_view untested_units = "tests/hygiene/untested_units.txt";

std::string test_path(const std::string& layer, const std::string& stem) {
  return "tests/unit/" + layer + "/" + stem + "_test.cpp";
}

/// The test of the header that a unit implements: the first of ours that it includes, if that is of
/// its own layer.
std::string test_of_own_header(const File& unit, const std::string& layer) {
  for (const Include& include : includes_of(unit.text)) {
    if (include.angled) continue;
    if (include.name == layer + "/" + stem_of(include.name) + ".hpp" ||
        include.name == "hailwright/" + layer + "/" + stem_of(include.name) + ".hpp") {
      return test_path(layer, stem_of(include.name));
    }
    return {};
  }
  return {};
}

bool has_test(const Tree& tree, const File& unit) {
  const std::string layer = layer_of(unit.path);
  return find_file(tree, test_path(layer, stem_of(unit.path))) != nullptr ||
         find_file(tree, test_of_own_header(unit, layer)) != nullptr;
}

}  // namespace

Findings check_units_have_tests(const Tree& tree) {
  Findings findings;
  std::map<std::string, bool> excused;  // path, whether the excuse was needed
  if (const File* list = find_file(tree, untested_units)) {
    const std::vector<std::string> lines = lines_of(list->text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (lines[i].empty() || lines[i].front() == '#') continue;
      static const std::regex entry(R"((\S+): \S.*)");
      std::smatch match;
      if (std::regex_match(lines[i], match, entry)) {
        excused[match[1].str()] = false;
      } else {
        findings.push_back(place(list->path, i + 1) + "is not \"path: reason\"");
      }
    }
  }
  for (const File& unit : under(tree, "src/")) {
    if (!unit.path.ends_with(".cpp") || layer_of(unit.path) == "cli" || has_test(tree, unit))
      continue;
    if (const auto it = excused.find(unit.path); it != excused.end()) {
      it->second = true;
    } else {
      findings.push_back(place(unit.path, 1) + "has no " +
                         test_path(layer_of(unit.path), stem_of(unit.path)));
    }
  }
  for (const auto& [path, needed] : excused) {
    if (!needed) findings.push_back(std::string(untested_units) + ": " + path + " needs no excuse");
  }
  return findings;
}

Findings check_lengths(const Tree& tree) {
  constexpr std::size_t longest = 500;
  Findings findings;
  for (const File& file : tree) {
    if (!file.path.starts_with("src/") && !file.path.starts_with("include/")) continue;
    const std::size_t count = lines_of(file.text).size();
    if (count > longest) {
      findings.push_back(place(file.path, count) + "more than " + std::to_string(longest) +
                         " lines");
    }
  }
  return findings;
}

Findings check_leftovers(const Tree& tree) {
  // Written in two parts, so that this file does not hold what it looks for.
  static const std::regex machine_path(R"((^|[^\w.~/<-])/(wor)"
                                       R"(k|roo)"
                                       R"(t|hom)"
                                       R"(e|tm)"
                                       R"(p)\b)");
  static const std::regex undone("\\b(TO"
                                 "DO|FIX"
                                 "ME|XX"
                                 "X|HA"
                                 "CK)\\b");
  Findings findings;
  for (const File& file : tree) {
    const std::vector<std::string> lines = lines_of(file.text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      std::smatch match;
      if (std::regex_search(lines[i], match, machine_path)) {
        findings.push_back(place(file.path, i + 1) + "a path of one machine: " + match.str());
      }
      if (std::regex_search(lines[i], match, undone)) {
        findings.push_back(place(file.path, i + 1) + "work left undone: " + match.str());
      }
    }
  }
  return findings;
}

Findings check_test_names(const Tree& tree) {
  Findings findings;
  for (const File& file : under(tree, "tests/")) {
    std::istringstream lines(file.text);
    std::size_t number = 0;
    for (std::string line; std::getline(lines, line);) {
      ++number;
      const bool named = line.starts_with("TEST_CASE(\"");
      const std::size_t end = line.rfind('"');
      if (!named || line.substr(0, end).find(';') == std::string::npos) continue;
      findings.push_back(place(file.path, number) +
                         "a name with ';' is cut in two by CMake, and then tests nothing");
    }
  }
  return findings;
}

}  // namespace hygiene
