#include "cli/files.hpp"

#include <filesystem>

#include "support/catch.hpp"
#include "support/scratch_folder.hpp"

using namespace hailwright::cli;
using hailwright::testing::ScratchFolder;
namespace fs = std::filesystem;

TEST_CASE("files: a set knows its files by whatever path") {
  const ScratchFolder scratch;
  const std::string one = scratch.write("deep/one.yaml", "1");
  const std::string two = scratch.write("two.yaml", "1");
  fs::create_symlink(one, scratch / "soft.yaml");
  fs::create_hard_link(one, scratch / "hard.yaml");
  const FileSet set({one, scratch / "none.yaml", ""});
  CHECK(set.has(one));
  CHECK(set.has(scratch / "deep/../deep/./one.yaml"));
  CHECK(set.has(scratch / "soft.yaml"));
  CHECK(set.has(scratch / "hard.yaml"));
  CHECK_FALSE(set.has(two));
  CHECK_FALSE(set.has(scratch / "none.yaml"));
  CHECK_FALSE(set.has(""));
  CHECK_FALSE(FileSet({}).has(one));
}

TEST_CASE("files: what is no ordinary file of that size is told apart") {
  const ScratchFolder scratch;
  const std::string path = scratch.write("a", "12345");
  CHECK(*load_file(path, 5).text == "12345");
  CHECK_THAT(load_file(path, 4).problem, Contains("too large: 5 bytes"));
  CHECK_THAT(load_file(scratch.path(), 5).problem, Contains("folder"));
  CHECK_THAT(load_file("/dev/null", 5).problem, Contains("not an ordinary file"));
  CHECK_THAT(load_file(scratch / "none", 5).problem, Contains("is not there"));
}

TEST_CASE("files: a set says whether a file was in it already, by whatever name") {
  const ScratchFolder scratch;
  const std::string file = scratch.write("a.txt", "a");
  FileSet files(std::vector<std::string>{});
  CHECK(files.add(file));
  CHECK_FALSE(files.add(scratch / "./a.txt"));
  CHECK(files.add(scratch.write("b.txt", "a")));
  CHECK(files.add(scratch / "none.txt"));
  CHECK(files.add(scratch / "none.txt"));
}
