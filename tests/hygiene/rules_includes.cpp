#include "hygiene/cpp_tokens.hpp"
#include "hygiene/rules.hpp"

#include <array>
#include <map>
#include <set>

namespace hygiene {

namespace {

/// The list of layers from the lowest up. Two layers of one rank do not see each other.
int rank_of(const std::string& layer) {
  static const std::map<std::string, int> ranks{
      {"core", 0},  {"tables", 1}, {"metrology", 1}, {"physics", 2}, {"logs", 3},   {"model", 4},
      {"input", 5}, {"safety", 6}, {"evaluate", 7},  {"plan", 8},    {"report", 9}, {"cli", 10}};
  const auto it = ranks.find(layer);
  return it == ranks.end() ? -1 : it->second;
}

/// Layer that an include of ours names: "hailwright/core/source.hpp" and "core/source.hpp" -> core.
std::string included_layer(std::string_view name) {
  constexpr std::string_view ours = "hailwright/";
  if (name.starts_with(ours)) name.remove_prefix(ours.size());
  const std::size_t slash = name.find('/');
  return slash == std::string_view::npos ? std::string() : std::string(name.substr(0, slash));
}

Tree sources(const Tree& tree) {
  Tree part = under(tree, "include/");
  const Tree rest = under(tree, "src/");
  part.insert(part.end(), rest.begin(), rest.end());
  return part;
}

bool is_header(std::string_view path) {
  return path.ends_with(".hpp");
}

bool includes_first(const File& unit, std::string_view header) {
  const std::vector<Include> includes = includes_of(unit.text);
  if (includes.empty() || includes.front().angled) return false;
  const std::string& name = includes.front().name;
  return header == "src/" + name || header == "include/" + name;
}

/// Where an outside library may be included.
struct Door {
  std::string_view prefix;  ///< of the header's name
  std::string_view where;   ///< path, or beginning of a path, of the file that may
  bool one_file;            ///< only one file in all
};

constexpr std::array doors{
    Door{"yaml-cpp/", "src/input/yaml_cursor.cpp", true},
    Door{"CLI/", "src/cli/", true},
    Door{"boost/", "src/metrology/", false},
    Door{"nlohmann/", "src/report/json_values.hpp", true},
    Door{"fmt/", "src/", false},
    Door{"openssl/", "src/core/", true},
    Door{"xlsxwriter.h", "src/report/render_xlsx.cpp", true},
    Door{"turbojpeg.h", "src/report/photo_jpeg.cpp", true},
    Door{"png.h", "src/report/photo_png.cpp", true},
    Door{"date/", "src/logs/time_zone.cpp", true},
    Door{"zlib.h", "src/cli/byte_source.cpp", true},
    // Vector instructions: rows of logs by the hundred million.
    Door{"emmintrin.h", "src/logs/log_number.hpp", true},
    Door{"immintrin.h", "src/logs/", false},
    // The operating system: only the command line touches files, clock and terminal.
    Door{"poll.h", "src/cli/", false},
    Door{"unistd.h", "src/cli/", false},
    Door{"sys/", "src/cli/", false},
    Door{"fcntl.h", "src/cli/", false},
};

const Door* door_of(std::string_view name) {
  for (const Door& door : doors) {
    if (name.starts_with(door.prefix)) return &door;
  }
  return nullptr;
}

/// Headers of the standard library have neither folder nor ending.
bool is_standard(std::string_view name) {
  return name.find_first_of("./") == std::string_view::npos;
}

}  // namespace

Findings check_layers(const Tree& tree) {
  Findings findings;
  for (const File& file : sources(tree)) {
    const std::string from = layer_of(file.path);
    if (rank_of(from) < 0) {
      findings.push_back(place(file.path, 1) + "lies in no layer");
      continue;
    }
    for (const Include& include : includes_of(file.text)) {
      if (include.angled) continue;
      const std::string to = included_layer(include.name);
      if (rank_of(to) < 0) {
        findings.push_back(place(file.path, include.line) + include.name + " is in no layer");
      } else if (to != from && rank_of(to) >= rank_of(from)) {
        findings.push_back(place(file.path, include.line) + from + " must not include " +
                           include.name);
      }
    }
  }
  return findings;
}

Findings check_own_headers(const Tree& tree) {
  Findings findings;
  for (const File& header : sources(tree)) {
    if (!is_header(header.path)) continue;
    if (!header.text.starts_with("#pragma once\n")) {
      findings.push_back(place(header.path, 1) + "does not begin with #pragma once");
    }
    const File* unit =
        find_file(tree, "src/" + layer_of(header.path) + "/" + stem_of(header.path) + ".cpp");
    if (unit != nullptr && !includes_first(*unit, header.path)) {
      findings.push_back(place(unit->path, 1) + "does not include " + header.path + " first");
    }
  }
  return findings;
}

Findings check_doors(const Tree& tree) {
  Findings findings;
  std::map<const Door*, std::string> first_user;
  for (const File& file : sources(tree)) {
    for (const Include& include : includes_of(file.text)) {
      if (!include.angled) continue;
      const std::string at = place(file.path, include.line);
      if (is_standard(include.name)) continue;
      const Door* door = door_of(include.name);
      if (door == nullptr) {
        findings.push_back(at + "<" + include.name +
                           "> has no door in tests/hygiene/rules_includes.cpp");
        continue;
      }
      // A private header may itself be the door, when it is named as such.
      if (is_header(file.path) && file.path != door->where) {
        findings.push_back(at + "<" + include.name + "> in a header");
      } else if (!file.path.starts_with(door->where)) {
        findings.push_back(at + "<" + include.name + "> is for " + std::string(door->where) +
                           " alone");
      }
      const auto [user, is_new] = first_user.emplace(door, file.path);
      if (door->one_file && !is_new && user->second != file.path) {
        findings.push_back(at + "<" + include.name + "> is already used by " + user->second);
      }
    }
  }
  return findings;
}

Findings check_reach(const Tree& tree) {
  static const std::set<std::string> reaching{"fstream",
                                              "ifstream",
                                              "ofstream",
                                              "fopen",
                                              "freopen",
                                              "current_path",
                                              "canonical",
                                              "directory_iterator",
                                              "recursive_directory_iterator",
                                              "cin",
                                              "cout",
                                              "cerr",
                                              "clog",
                                              "printf",
                                              "fprintf",
                                              "puts",
                                              "fputs",
                                              "fwrite",
                                              "popen",
                                              "unlink",
                                              "getenv",
                                              "system_clock",
                                              "steady_clock",
                                              "localtime",
                                              "gmtime",
                                              "exit",
                                              "abort"};
  Findings findings;
  for (const File& file : sources(tree)) {
    if (layer_of(file.path) == "cli") continue;
    std::string before;  // the word before
    for (const Token& token : cpp_tokens(file.text)) {
      if (token.kind != TokenKind::word) continue;
      if (reaching.contains(token.value) || (before == "fmt" && token.value == "print"))
        findings.push_back(place(file.path, token.line) + token.value + " is for src/cli alone");
      before = token.value;
    }
  }
  return findings;
}

}  // namespace hygiene
