#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace hygiene {

/// A text file of the project, by its path from the project's folder with '/' between the parts.
struct File {
  std::string path;
  std::string text;
};

using Tree = std::vector<File>;
/// What a rule found, each as "path:line: what". Empty: the rule holds.
using Findings = std::vector<std::string>;

/// All text files of the project in a fixed order, without version control and builds.
Tree read_tree(const std::string& project_folder);

/// The files whose path begins so.
Tree under(const Tree& tree, std::string_view folder);
const File* find_file(const Tree& tree, std::string_view path);

std::vector<std::string> lines_of(std::string_view text);
std::string place(std::string_view path, std::size_t line);

/// "src/input/yaml_cursor.cpp" -> "input"; empty for a file that lies in no layer.
std::string layer_of(std::string_view path);
/// Path without folders and ending: "yaml_cursor".
std::string stem_of(std::string_view path);

}  // namespace hygiene
