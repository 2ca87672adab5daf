#include "sandbox.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <sstream>
#include <system_error>
#include <vector>

#include "named_parts.hpp"

namespace hailwright::fuzzing {

namespace {

namespace fs = std::filesystem;

constexpr const char* source_folder = HAILWRIGHT_SOURCE_DIR;

/// A file of the source tree, and what it is called in the sandbox.
struct Demo {
  const char* from;
  const char* to;
};

constexpr Demo demos[] = {
    {"protocols/demo/protocol.yaml", "protocol.yaml"},
    {"protocols/demo/panels/rigid-a.yaml", "panels/rigid-a.yaml"},
    {"protocols/demo/rigid-withstood.yaml", "record.yaml"},
    {"protocols/demo/balls.csv", "balls.csv"},
    {"protocols/demo/trials.csv", "trials.csv"},
    {"protocols/demo/shots.csv", "shots.csv"},
    {"protocols/demo/readings.csv", "readings.csv"},
    {"protocols/demo/photos/rigid-a-place-14.png", "photos/rigid-a-place-14.png"},
    {"protocols/demo/stresses/bending.yaml", "bending.yaml"},
    {"protocols/demo/specimens/coupons-staircase.yaml", "specimens.yaml"},
    {"protocols/demo/logs/columns.yaml", "columns.yaml"},
    {"tests/bad_input/good/day.csv", "log.csv"},
    {"tests/bad_input/good/markers.csv", "markers.csv"},
    {"tests/bad_input/K01-slip.yaml", "wrong.yaml"},
};

std::string read(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  require(in.good(), "a demo file can be read");
  return text.str();
}

void point_at_nothing(int descriptor, int flags) {
  const int nothing = open("/dev/null", flags | O_CLOEXEC);
  require(nothing >= 0 && dup2(nothing, descriptor) == descriptor, "there is /dev/null");
  close(nothing);
}

bool is_demo_folder(const std::string& name) {
  return name == "panels" || name == "photos";
}

}  // namespace

Sandbox::Sandbox() : before_(fs::current_path()) {
  std::string name = (fs::temp_directory_path() / "hailwright-fuzz-XXXXXX").string();
  require(mkdtemp(name.data()) != nullptr, "a folder can be made");
  folder_ = name;
  for (const Demo& demo : demos)
    files_[demo.to] = read(fs::path(source_folder) / demo.from);
  for (const char* folder : {"panels", "photos"})
    fs::create_directory(folder_ / folder);
  for (const auto& [file, text] : files_)
    write(file, text);
  point_at_nothing(STDIN_FILENO, O_RDONLY);
  point_at_nothing(STDOUT_FILENO, O_WRONLY);
  messages_before_ = std::cerr.rdbuf(&nowhere_);
}

Sandbox::~Sandbox() {
  std::cerr.rdbuf(messages_before_);
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

void Sandbox::write(const std::string& name, const std::string& text) const {
  std::ofstream out(folder_ / name, std::ios::binary | std::ios::trunc);
  out << text;
}

int Sandbox::run(const std::function<int()>& program) {
  fs::current_path(folder_);
  const int code = program();
  fs::current_path(before_);
  tidy();
  return code;
}

void Sandbox::tidy() const {
  std::vector<fs::path> strangers;
  std::size_t demos_found = 0;
  for (auto entry = fs::recursive_directory_iterator(folder_);
       entry != fs::recursive_directory_iterator(); ++entry) {
    const std::string name = entry->path().lexically_relative(folder_).generic_string();
    if (entry->is_directory() && is_demo_folder(name)) continue;
    const auto demo = files_.find(name);
    if (demo == files_.end()) {
      strangers.push_back(entry->path());
      if (entry->is_directory()) entry.disable_recursion_pending();
    } else if (entry->is_regular_file() && read(entry->path()) == demo->second) {
      ++demos_found;
    }
  }
  for (const fs::path& stranger : strangers)
    fs::remove_all(stranger);
  require(demos_found == files_.size(), "the program leaves its inputs as they were");
}

Sandbox& sandbox() {
  static Sandbox one;
  return one;
}

}  // namespace hailwright::fuzzing
