#include "cli/folder_claim.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>

#include "cli/output_files.hpp"
#include "support/catch.hpp"
#include "support/scratch_folder.hpp"

using namespace hailwright::cli;
using hailwright::testing::ScratchFolder;
using State = FolderClaim::State;

namespace {

std::string temporary(long maker, int number = 0) {
  return std::string(temporary_prefix) + std::to_string(maker) + "-" + std::to_string(number) +
         std::string(temporary_suffix);
}

/// The number of a program that has ended.
long ended_program() {
  const pid_t child = fork();
  if (child == 0) _exit(0);
  int status = 0;
  REQUIRE(waitpid(child, &status, 0) == child);
  return child;
}

}  // namespace

TEST_CASE("folder_claim: one at a time") {
  const ScratchFolder scratch;
  {
    const FolderClaim first(scratch.path());
    CHECK(first.state() == State::held);
    CHECK(FolderClaim(scratch.path()).state() == State::taken);
    CHECK(FolderClaim(scratch.path() + "/").state() == State::taken);
  }
  CHECK(FolderClaim(scratch.path()).state() == State::held);
  CHECK(FolderClaim(scratch / "none").state() == State::impossible);
  CHECK(FolderClaim(scratch.write("file", "x")).state() == State::impossible);
}

TEST_CASE("folder_claim: temporary files of programs that have ended go") {
  const ScratchFolder scratch;
  const long ended = ended_program();
  scratch.write(temporary(ended), "x");
  scratch.write(temporary(ended, 12), "x");
  scratch.write("inner/" + temporary(ended), "x");
  const FolderClaim claim(scratch.path());
  claim.remove_leftovers("");
  CHECK(scratch.names() == std::vector<std::string>{"inner/" + temporary(ended)});
  claim.remove_leftovers("inner");
  CHECK(scratch.names().empty());
  claim.remove_leftovers("none");
}

TEST_CASE("folder_claim: whatever may be somebody's stays") {
  const ScratchFolder scratch;
  const long ended = ended_program();
  // Of a program that runs: the one that started this.
  scratch.write(temporary(getppid()), "x");
  const std::string number = std::to_string(ended);
  scratch.write(".hailwright-.part", "x");
  scratch.write(".hailwright-x.part", "x");
  scratch.write(".hailwright-" + number + ".part", "x");
  scratch.write(".hailwright-" + number + "-0", "x");
  scratch.write("hailwright-" + number + "-0.part", "x");
  scratch.write(".hailwright--5-0.part", "x");
  std::filesystem::create_symlink("nowhere", scratch / temporary(ended, 1));
  std::filesystem::create_directory(scratch / temporary(ended, 2));
  const auto before = scratch.names();
  {
    const FolderClaim claim(scratch.path());
    claim.remove_leftovers("");
  }
  CHECK(scratch.names() == before);
  CHECK(std::filesystem::is_symlink(scratch / temporary(ended, 1)));
  CHECK(std::filesystem::is_directory(scratch / temporary(ended, 2)));

  // Without the claim, nothing is touched.
  scratch.write(temporary(ended), "x");
  const FolderClaim other(scratch.path());
  FolderClaim(scratch.path()).remove_leftovers("");
  CHECK(std::filesystem::exists(scratch / temporary(ended)));
}
