#include "cli/muted_errors.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cstdio>

#include "support/catch.hpp"
#include "support/file_bytes.hpp"
#include "support/scratch_folder.hpp"

using namespace hailwright::cli;
using hailwright::testing::file_bytes;
using hailwright::testing::ScratchFolder;

TEST_CASE("muted_errors: what is said meanwhile goes nowhere and what comes after is heard") {
  const ScratchFolder scratch;
  const std::string path = scratch.write("errors.txt", "");
  const int before = dup(STDERR_FILENO);
  const int file = open(path.c_str(), O_WRONLY | O_APPEND);
  REQUIRE(dup2(file, STDERR_FILENO) == STDERR_FILENO);
  std::fputs("one ", stderr);
  {
    const MutedErrors muted;
    std::fputs("two ", stderr);
  }
  std::fputs("three", stderr);
  std::fflush(stderr);
  dup2(before, STDERR_FILENO);
  close(file);
  close(before);
  CHECK(file_bytes(path) == "one three");
}
