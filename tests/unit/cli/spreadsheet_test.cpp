#include "cli/spreadsheet.hpp"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <thread>

#include "support/catch.hpp"
#include "support/file_bytes.hpp"
#include "support/scratch_folder.hpp"
#include "support/small_files.hpp"

using namespace hailwright;
using namespace hailwright::cli;
using hailwright::testing::file_bytes;
using hailwright::testing::ScratchFolder;
using hailwright::testing::SmallFiles;
namespace fs = std::filesystem;

namespace {

/// Rows that differ, so that they do not shrink to nothing.
Workbook tables(int rows) {
  Workbook book{"Tables", {{"words", {{20.0}}, {{"word"}}}}};
  for (int i = 0; i < rows; ++i)
    book.sheets[0].rows.push_back({std::to_string(7'919 * i) + " words"});
  return book;
}

/// Another folder for temporary files for a while.
class TemporaryFilesIn {
public:
  explicit TemporaryFilesIn(const std::string& folder) {
    const char* now = std::getenv("TMPDIR");
    if (now != nullptr) before_ = now;
    setenv("TMPDIR", folder.c_str(), 1);
  }
  TemporaryFilesIn(const TemporaryFilesIn&) = delete;
  TemporaryFilesIn& operator=(const TemporaryFilesIn&) = delete;
  TemporaryFilesIn(TemporaryFilesIn&&) = delete;
  TemporaryFilesIn& operator=(TemporaryFilesIn&&) = delete;
  ~TemporaryFilesIn() {
    if (before_.empty()) {
      unsetenv("TMPDIR");
    } else {
      setenv("TMPDIR", before_.c_str(), 1);
    }
  }

private:
  std::string before_;
};

bool is_empty(const ScratchFolder& folder) {
  return fs::directory_iterator(folder.path()) == fs::directory_iterator();
}

}  // namespace

TEST_CASE("spreadsheet: the bytes of a workbook, and nothing is left behind") {
  const ScratchFolder scratch;
  const TemporaryFilesIn here(scratch.path());
  const Loaded bytes = spreadsheet_bytes(tables(10));
  REQUIRE(bytes.text);
  CHECK(bytes.text->substr(0, 4) == "PK\x03\x04");
  CHECK(bytes.text == spreadsheet_bytes(tables(10)).text);
  CHECK(is_empty(scratch));
}

TEST_CASE("spreadsheet: without a folder for temporary files the mend is said") {
  const ScratchFolder scratch;
  const TemporaryFilesIn nowhere(scratch / "none");
  const Loaded bytes = spreadsheet_bytes(tables(10));
  CHECK_FALSE(bytes.text);
  CHECK_THAT(bytes.problem, Contains("folder for temporary files"));
  CHECK_THAT(bytes.hint, Contains("TMPDIR"));
}

// Found by review: the library's own "[ERROR][./src/packager.c:1541]" stood before our message.
TEST_CASE("spreadsheet: where files can be no larger only we say so") {
  const ScratchFolder scratch;
  const std::string said = scratch.write("said.txt", "");
  fs::create_directory(scratch / "tmp");
  const TemporaryFilesIn here(scratch / "tmp");
  const int before = dup(STDERR_FILENO);
  const int file = open(said.c_str(), O_WRONLY | O_APPEND);
  REQUIRE(dup2(file, STDERR_FILENO) == STDERR_FILENO);
  Loaded bytes;
  {
    const SmallFiles limit(4096);
    bytes = spreadsheet_bytes(tables(20'000));
  }
  dup2(before, STDERR_FILENO);
  close(file);
  close(before);
  CHECK_FALSE(bytes.text);
  CHECK_FALSE(bytes.hint.empty());
  CHECK(file_bytes(said).empty());
  CHECK(scratch.names() == std::vector<std::string>{"said.txt"});
}

// Found by review: a run that was killed left a folder hailwright-XXXXXX in TMPDIR for good.
// Between the making of a file and the loss of its name lie microseconds; a kill may fall into
// them.
TEST_CASE("spreadsheet: killed in the middle it leaves nothing behind") {
  const ScratchFolder scratch;
  const TemporaryFilesIn here(scratch.path());
  const Workbook book = tables(20'000);
  int killed = 0;
  int left = 0;
  for (int i = 0; i < 20; ++i) {
    const pid_t child = fork();
    if (child == 0) {
      spreadsheet_bytes(book);
      _exit(0);
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(3 + 2 * i));
    kill(child, SIGKILL);
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    if (WIFSIGNALED(status)) ++killed;
    for (const auto& entry : fs::directory_iterator(scratch.path())) {
      ++left;
      fs::remove_all(entry.path());
    }
  }
  CHECK(killed > 10);
  CHECK(left <= 1);
}
