#include "hygiene/source_tree.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace hygiene {

namespace {

namespace fs = std::filesystem;

bool is_skipped_folder(const std::string& name) {
  return name == ".git" || name == "build" || name.starts_with("build-");
}

std::string read_bytes(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  if (!stream) throw std::runtime_error("cannot read " + path.string());
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

}  // namespace

Tree read_tree(const std::string& project_folder) {
  Tree tree;
  const fs::path root(project_folder);
  for (auto it = fs::recursive_directory_iterator(root); it != fs::recursive_directory_iterator();
       ++it) {
    if (it->is_directory()) {
      if (is_skipped_folder(it->path().filename().string())) it.disable_recursion_pending();
      continue;
    }
    if (!it->is_regular_file()) continue;
    std::string text = read_bytes(it->path());
    // Pictures and the like hold zero bytes; text does not.
    if (text.find('\0') != std::string::npos) continue;
    tree.push_back({fs::relative(it->path(), root).generic_string(), std::move(text)});
  }
  std::sort(tree.begin(), tree.end(), [](const File& a, const File& b) { return a.path < b.path; });
  return tree;
}

Tree under(const Tree& tree, std::string_view folder) {
  Tree part;
  std::copy_if(tree.begin(), tree.end(), std::back_inserter(part),
               [&](const File& file) { return file.path.starts_with(folder); });
  return part;
}

const File* find_file(const Tree& tree, std::string_view path) {
  const auto it =
      std::find_if(tree.begin(), tree.end(), [&](const File& file) { return file.path == path; });
  return it == tree.end() ? nullptr : &*it;
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    lines.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + 1);
  }
  return lines;
}

std::string place(std::string_view path, std::size_t line) {
  return std::string(path) + ":" + std::to_string(line) + ": ";
}

std::string layer_of(std::string_view path) {
  for (const std::string_view root : {"include/hailwright/", "src/"}) {
    if (!path.starts_with(root)) continue;
    path.remove_prefix(root.size());
    const std::size_t slash = path.find('/');
    return slash == std::string_view::npos ? std::string() : std::string(path.substr(0, slash));
  }
  return {};
}

std::string stem_of(std::string_view path) {
  return fs::path(path).stem().string();
}

}  // namespace hygiene
