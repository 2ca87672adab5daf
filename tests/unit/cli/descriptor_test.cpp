#include "cli/descriptor.hpp"

#include <fcntl.h>
#include <sys/stat.h>

#include <cerrno>
#include <filesystem>

#include "support/catch.hpp"
#include "support/scratch_folder.hpp"

using namespace hailwright::cli;
using hailwright::testing::ScratchFolder;

namespace {

std::string words_of_opening(const std::string& path) {
  const Descriptor file(open(path.c_str(), O_RDONLY | O_CLOEXEC));
  REQUIRE(file.get() < 0);
  return open_problem(errno).words;
}

}  // namespace

TEST_CASE("descriptor: why a file cannot be opened, in words of people") {
  const ScratchFolder scratch;
  scratch.write("file", "x");
  std::filesystem::create_symlink("loop", scratch / "loop");
  CHECK(words_of_opening(scratch / "none") == "is not there");
  CHECK_THAT(words_of_opening(scratch / "file/none"), Contains("no folder"));
  CHECK_THAT(words_of_opening(scratch / "loop"), Contains("leads back to itself"));
  CHECK_THAT(words_of_opening(scratch / std::string(300, 'a')), Contains("so long"));
  for (const int error : {ENOENT, ENOTDIR, EACCES, ELOOP, ENAMETOOLONG, ENXIO})
    CHECK_FALSE(open_problem(error).mend.empty());
  CHECK(open_problem(EMFILE).words == "cannot be opened: " + system_words(EMFILE));
}

TEST_CASE("descriptor: it closes itself, and tells once how that went") {
  int number = -1;
  {
    Descriptor file(open("/dev/null", O_RDONLY | O_CLOEXEC));
    number = file.get();
    REQUIRE(number >= 0);
    CHECK(file.close());
    CHECK_FALSE(file.close());
  }
  CHECK(fcntl(number, F_GETFD) == -1);
}
