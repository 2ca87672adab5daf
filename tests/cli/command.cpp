#include "cli/command.hpp"

#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "support/catch.hpp"

namespace hailwright::testing {

namespace {

std::string slurp(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// How long a run may take [s].
std::string patience() {
  const char* longer = std::getenv("HAILWRIGHT_PATIENCE");
  return longer == nullptr ? "60" : longer;
}

}  // namespace

std::string hailwright_program() {
  const char* other = std::getenv("HAILWRIGHT_BINARY");
  return other == nullptr ? HAILWRIGHT_BINARY : other;
}

Finished run_hailwright(const std::string& arguments, const std::string& folder,
                        const std::string& environment) {
  const ScratchFolder scratch;
  const std::string where = folder.empty() ? HAILWRIGHT_SOURCE_DIR : folder;
  const std::string command = "cd '" + where + "' && env -u COLUMNS " + environment + " timeout " +
                              patience() + " '" + hailwright_program() + "' " + arguments + " >'" +
                              scratch.path() + "/out' 2>'" + scratch.path() + "/err'";
  const int status = std::system(command.c_str());
  return {slurp(scratch.path() + "/out"), slurp(scratch.path() + "/err"),
          WIFEXITED(status) ? WEXITSTATUS(status) : -1};
}

std::string source_file(const std::string& path_in_tree) {
  return slurp(std::string(HAILWRIGHT_SOURCE_DIR) + "/" + path_in_tree);
}

}  // namespace hailwright::testing
