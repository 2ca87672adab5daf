#include "cli/output_files.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <filesystem>
#include <fstream>
#include <thread>

#include "hailwright/core/digest.hpp"
#include "support/catch.hpp"
#include "support/file_bytes.hpp"
#include "support/scratch_folder.hpp"
#include "support/small_files.hpp"

using namespace hailwright::cli;
using hailwright::sha256_hex;
using hailwright::testing::file_bytes;
using hailwright::testing::ScratchFolder;
using hailwright::testing::SmallFiles;
namespace fs = std::filesystem;

namespace {

void put(const std::string& path, const std::string& text) {
  std::ofstream(path, std::ios::binary) << text;
}

/// Nobody's rights for a while, when the tests run as root: root may write everywhere.
class LowerRights {
public:
  LowerRights() : root_(geteuid() == 0) {
    constexpr uid_t nobody = 65534;  // in Debian's base-passwd
    if (root_) REQUIRE(seteuid(nobody) == 0);
  }
  LowerRights(const LowerRights&) = delete;
  LowerRights& operator=(const LowerRights&) = delete;
  LowerRights(LowerRights&&) = delete;
  LowerRights& operator=(LowerRights&&) = delete;
  ~LowerRights() {
    if (root_ && seteuid(0) != 0) std::terminate();
  }

private:
  bool root_;
};

const std::vector<OutputFile> three{
    {"a.yaml", "one\n"}, {"deep/b.yaml", "two\n"}, {"c.csv", "three\r\n"}};

}  // namespace

TEST_CASE("output_files: a file gets all its bytes and the permissions of the umask") {
  const ScratchFolder scratch;
  const std::string bytes("a\0b\r\n", 5);
  const mode_t before = umask(027);
  CHECK_FALSE(write_whole(scratch / "a.bin", bytes, Existing::keep));
  umask(before);
  CHECK(file_bytes(scratch / "a.bin") == bytes);
  CHECK(scratch.names() == std::vector<std::string>{"a.bin"});
  struct stat info {};
  REQUIRE(stat((scratch / "a.bin").c_str(), &info) == 0);
  CHECK((info.st_mode & 07777U) == 0640U);
  CHECK(info.st_nlink == 1);

  CHECK_FALSE(write_whole(scratch / "empty", "", Existing::replace));
  CHECK(file_bytes(scratch / "empty").empty());
  CHECK(fs::exists(scratch / "empty"));
}

TEST_CASE("output_files: what is there already stays or is replaced, as told") {
  const ScratchFolder scratch;
  const std::string path = scratch / "a.txt";
  put(path, "mine");
  const auto fault = write_whole(path, "new", Existing::keep);
  REQUIRE(fault);
  CHECK(fault->path == path);
  CHECK(fault->problem == "is there already, and stays as it is");
  CHECK(file_bytes(path) == "mine");
  CHECK_FALSE(write_whole(path, "new", Existing::replace));
  CHECK(file_bytes(path) == "new");
  CHECK(scratch.names() == std::vector<std::string>{"a.txt"});
}

TEST_CASE("output_files: a folder of that name is told apart") {
  const ScratchFolder scratch;
  REQUIRE(fs::create_directory(scratch / "a"));
  for (const Existing existing : {Existing::keep, Existing::replace}) {
    const auto fault = write_whole(scratch / "a", "x", existing);
    REQUIRE(fault);
    CHECK(fault->problem == "is a folder");
    CHECK_FALSE(fault->hint.empty());
  }
  CHECK(write_whole(scratch / "a/", "x", Existing::replace)->problem == "names no file");
  CHECK(write_whole("", "x", Existing::replace)->problem == "names no file");
  CHECK(scratch.names().empty());
}

TEST_CASE("output_files: a symbolic link is neither followed nor replaced") {
  const ScratchFolder scratch;
  put(scratch / "target", "mine");
  fs::create_symlink("target", scratch / "link");
  fs::create_symlink("nowhere", scratch / "dangling");
  for (const std::string name : {"link", "dangling"}) {
    CAPTURE(name);
    CHECK(write_whole(scratch / name, "x", Existing::keep)->problem ==
          "is there already, and stays as it is");
    CHECK_THAT(write_whole(scratch / name, "x", Existing::replace)->problem,
               Contains("is a symbolic link"));
    CHECK(fs::is_symlink(scratch / name));
  }
  CHECK(file_bytes(scratch / "target") == "mine");
  CHECK_FALSE(fs::exists(scratch / "nowhere"));

  // A folder may be reached through one.
  REQUIRE(fs::create_directory(scratch / "real"));
  fs::create_directory_symlink("real", scratch / "shown");
  CHECK(write_files(scratch / "shown", {{"a", "x"}}, Existing::keep).empty());
  CHECK(file_bytes(scratch / "real/a") == "x");
}

TEST_CASE("output_files: a pipe is neither waited for nor replaced") {
  const ScratchFolder scratch;
  REQUIRE(mkfifo((scratch / "pipe").c_str(), 0600) == 0);
  CHECK(write_whole(scratch / "pipe", "x", Existing::replace)->problem == "is no ordinary file");
  CHECK(fs::is_fifo(scratch / "pipe"));
}

TEST_CASE("output_files: where nothing may be written, that is said") {
  const ScratchFolder scratch;
  REQUIRE(fs::create_directory(scratch / "locked"));
  put(scratch / "locked/mine", "mine");
  fs::permissions(scratch.path(), fs::perms(0755));
  fs::permissions(scratch / "locked", fs::perms(0555));
  std::optional<WriteFault> one;
  std::vector<WriteFault> set;
  std::vector<WriteFault> folder;
  {
    const LowerRights nobody;
    one = write_whole(scratch / "locked/a", "x", Existing::replace);
    set = write_files(scratch / "locked", three, Existing::keep);
    folder = write_files(scratch / "locked/new", three, Existing::keep);
  }
  fs::permissions(scratch / "locked", fs::perms(0755));
  REQUIRE(one);
  CHECK(one->path == scratch / "locked/a");
  CHECK(one->problem == "may not be written: Permission denied");
  CHECK_THAT(one->hint, Contains("permission"));
  REQUIRE(set.size() == 1);
  CHECK(set[0].path == scratch / "locked/a.yaml");
  REQUIRE(folder.size() == 1);
  CHECK(folder[0].path == scratch / "locked/new");
  CHECK(scratch.names() == std::vector<std::string>{"locked/mine"});
}

TEST_CASE("output_files: a disk that takes no more leaves no part of a file") {
  const ScratchFolder scratch;
  put(scratch / "old", "mine");
  std::optional<WriteFault> fresh;
  std::optional<WriteFault> over;
  {
    const SmallFiles limit(4096);
    fresh = write_whole(scratch / "new", std::string(10'000, 'x'), Existing::keep);
    over = write_whole(scratch / "old", std::string(10'000, 'x'), Existing::replace);
  }
  REQUIRE(fresh);
  CHECK(fresh->problem == "could not be written: File too large");
  CHECK_THAT(fresh->hint, Contains("larger files"));
  REQUIRE(over);
  CHECK(over->path == scratch / "old");
  CHECK(file_bytes(scratch / "old") == "mine");
  CHECK(scratch.names() == std::vector<std::string>{"old"});
}

TEST_CASE("output_files: of many at once, one makes the file and the others say so") {
  const ScratchFolder scratch;
  const std::string path = scratch / "a";
  constexpr int writers = 8;
  std::atomic<int> made = 0;
  std::atomic<int> winner = -1;
  std::vector<std::thread> threads;
  for (int i = 0; i < writers; ++i) {
    threads.emplace_back([&, i] {
      if (write_whole(path, std::string(100'000, static_cast<char>('a' + i)), Existing::keep))
        return;
      ++made;
      winner = i;
    });
  }
  for (std::thread& thread : threads)
    thread.join();
  CHECK(made == 1);
  CHECK(file_bytes(path) == std::string(100'000, static_cast<char>('a' + winner)));
  CHECK(scratch.names() == std::vector<std::string>{"a"});
}

TEST_CASE("output_files: while it is replaced, a reader finds the old or the new whole") {
  const ScratchFolder scratch;
  const std::string path = scratch / "a";
  const std::string old_bytes(200'000, 'o');
  const std::string new_bytes(300'000, 'n');
  REQUIRE_FALSE(write_whole(path, old_bytes, Existing::keep));
  std::atomic<bool> done = false;
  std::thread writer([&] {
    for (int i = 0; i < 20; ++i)
      write_whole(path, i % 2 == 0 ? new_bytes : old_bytes, Existing::replace);
    done = true;
  });
  int torn = 0;
  while (!done) {
    const std::string seen = file_bytes(path);
    if (seen != old_bytes && seen != new_bytes) ++torn;
  }
  writer.join();
  CHECK(torn == 0);
  CHECK(file_bytes(path) == old_bytes);
}

TEST_CASE("output_files: a set makes its folders") {
  const ScratchFolder scratch;
  CHECK(write_files(scratch / "new", three, Existing::keep).empty());
  CHECK(scratch.names() == std::vector<std::string>{"new/a.yaml", "new/c.csv", "new/deep/b.yaml"});
  CHECK(file_bytes(scratch / "new/deep/b.yaml") == "two\n");

  // Into a folder that holds other things they go too.
  put(scratch / "other", "mine");
  CHECK(write_files(scratch.path(), three, Existing::keep).empty());
  CHECK(file_bytes(scratch / "other") == "mine");
}

TEST_CASE("output_files: a name may lead through several folders") {
  const ScratchFolder scratch;
  const std::vector<OutputFile> deep{{"a/b/c/d.yaml", "x"}, {"a/e.yaml", "y"}};
  CHECK(write_files(scratch / "new", deep, Existing::keep).empty());
  CHECK(scratch.names() == std::vector<std::string>{"new/a/b/c/d.yaml", "new/a/e.yaml"});
  // What was made for a set that fails goes again.
  put(scratch / "file", "mine");
  const auto faults =
      write_files(scratch.path(), {{"p/q/r.yaml", "x"}, {"file/s.yaml", "y"}}, Existing::keep);
  REQUIRE(faults.size() == 1);
  CHECK_FALSE(fs::exists(scratch / "p"));
}

TEST_CASE("output_files: what is to go goes with the folders that it leaves empty") {
  const ScratchFolder scratch;
  const std::vector<OutputFile> old{{"a/b/c.yaml", "x"}, {"d/e.yaml", "x"}, {"f.yaml", "x"}};
  CHECK(write_files(scratch.path(), old, Existing::keep).empty());
  put(scratch / "d/mine", "mine");
  CHECK(write_files(scratch.path(), {{"list", "new"}}, Existing::replace,
                    {"a/b/c.yaml", "d/e.yaml", "none/none.yaml"})
            .empty());
  CHECK(scratch.names() == std::vector<std::string>{"d/mine", "f.yaml", "list"});
  CHECK_FALSE(fs::exists(scratch / "a"));
}

TEST_CASE("output_files: one file in the way, and nothing of the set is written") {
  const ScratchFolder scratch;
  REQUIRE(fs::create_directory(scratch / "deep"));
  put(scratch / "deep/b.yaml", "mine");
  put(scratch / "c.csv", "mine too");
  const auto faults = write_files(scratch.path(), three, Existing::keep);
  REQUIRE(faults.size() == 2);
  CHECK(faults[0].path == scratch / "deep/b.yaml");
  CHECK(faults[1].path == scratch / "c.csv");
  CHECK(scratch.names() == std::vector<std::string>{"c.csv", "deep/b.yaml"});
  CHECK(file_bytes(scratch / "deep/b.yaml") == "mine");
  CHECK(text_of(faults) == "hailwright: " + scratch.path() +
                               "/deep/b.yaml is there already, and stays as it is\n"
                               "hailwright: " +
                               scratch.path() +
                               "/c.csv is there already, and stays as it is\n"
                               "  help: choose another folder or name, or move it away first\n");
  CHECK(text_of({{"a", "one", "x"}, {"b", "two", ""}, {"", "three", "y"}}) ==
        "hailwright: a one\n  help: x\nhailwright: b two\nhailwright: three\n  help: y\n");

  CHECK(write_files(scratch.path(), three, Existing::replace).empty());
  CHECK(file_bytes(scratch / "c.csv") == "three\r\n");
}

TEST_CASE("output_files: a set that fails half way takes back what it made") {
  const ScratchFolder scratch;
  // `deep` cannot become a folder.
  put(scratch / "deep", "mine");
  auto faults = write_files(scratch.path(), three, Existing::keep);
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].path == scratch / "deep");
  CHECK(faults[0].problem == "is no folder");
  CHECK(scratch.names() == std::vector<std::string>{"deep"});

  {
    const SmallFiles limit(4096);
    faults = write_files(scratch / "new", {{"a/b", "x"}, {"c", std::string(10'000, 'x')}},
                         Existing::keep);
  }
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].path == scratch / "new/c");
  CHECK_FALSE(fs::exists(scratch / "new"));

  // The second of one name finds it taken when its turn comes: the first goes again.
  faults = write_files(scratch / "new", {{"a", "x"}, {"b", "y"}, {"b", "z"}}, Existing::keep);
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].path == scratch / "new/b");
  CHECK_FALSE(fs::exists(scratch / "new"));
}

TEST_CASE("output_files: folders that cannot be") {
  const ScratchFolder scratch;
  put(scratch / "file", "mine");
  const auto problem = [](const std::vector<WriteFault>& faults) {
    REQUIRE(faults.size() == 1);
    CHECK_FALSE(faults[0].hint.empty());
    return faults[0].problem;
  };
  CHECK(problem(write_files("", three, Existing::keep)) == "the folder has no name");
  CHECK(problem(write_files(scratch / "file", three, Existing::keep)) == "is no folder");
  CHECK_THAT(problem(write_files(scratch / "none/new", three, Existing::keep)),
             Contains("the folder above it is not there"));
  CHECK_THAT(problem(write_files(scratch / "file/new", three, Existing::keep)),
             Contains("a part of the path before it is no folder"));
  CHECK_THAT(problem(write_files(scratch / std::string(300, 'n'), three, Existing::keep)),
             Contains("cannot be made"));
}

// Found by review: a set was written through a folder inside that was a link to elsewhere.
TEST_CASE("output_files: no folder inside that is a symbolic link is gone through") {
  const ScratchFolder scratch;
  fs::create_directory(scratch / "elsewhere");
  fs::create_directory(scratch / "w");
  fs::create_directory_symlink(scratch / "elsewhere", scratch / "w/deep");
  const auto faults = write_files(scratch / "w", three, Existing::replace);
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].path == scratch / "w/deep");
  CHECK_THAT(faults[0].problem, Contains("symbolic link"));
  CHECK_FALSE(faults[0].hint.empty());
  CHECK(scratch.names().empty());
  CHECK(fs::is_symlink(scratch / "w/deep"));
  // The folder itself may be named by a link: that is the user's own word.
  fs::create_directory_symlink(scratch / "elsewhere", scratch / "named");
  CHECK(write_files(scratch / "named", three, Existing::keep).empty());
  CHECK(file_bytes(scratch / "elsewhere/deep/b.yaml") == "two\n");
}

TEST_CASE("output_files: what is read is in the way of other bytes under its name") {
  const ScratchFolder scratch;
  const std::string mine = scratch.write("c.csv", "mine");
  scratch.write("a.yaml", "one\n");
  scratch.write("deep/b.yaml", "mine, and not read");
  const auto faults = inputs_in_the_way(
      scratch.path(), three, {scratch / "deep/../c.csv", scratch / "a.yaml", scratch / "none"});
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].path == mine);
  CHECK_THAT(faults[0].problem, Contains("made from"));
  CHECK(faults[0].hint == "name another folder");
  CHECK(inputs_in_the_way(scratch / "new", three, {mine}).empty());
}

TEST_CASE("output_files: a file too large to hold is copied piece by piece") {
  const ScratchFolder scratch;
  std::string bytes(700'000, 'x');
  bytes[300'000] = '\0';
  const std::string log = scratch.write("log.csv", bytes);
  const OutputFile copy{"inputs/log.csv", {}, LargeFile{log, sha256_hex(bytes), bytes.size()}};
  CHECK(sha256_of(copy) == sha256_hex(bytes));
  CHECK(write_files(scratch / "w", {copy}, Existing::keep).empty());
  CHECK(file_bytes(scratch / "w/inputs/log.csv") == bytes);
  // The folder's own copy may be what it is made from.
  const OutputFile again{"inputs/log.csv",
                         {},
                         LargeFile{scratch / "w/inputs/log.csv", sha256_hex(bytes), bytes.size()}};
  CHECK(inputs_in_the_way(scratch / "w", {again}, {again.copied->path}).empty());
  CHECK(write_files(scratch / "w", {again}, Existing::replace).empty());
  CHECK(file_bytes(scratch / "w/inputs/log.csv") == bytes);
}

TEST_CASE("output_files: a file that was changed since it was read is not copied") {
  const ScratchFolder scratch;
  const std::string log = scratch.write("log.csv", "1\n2\n");
  const OutputFile copy{"log.csv", {}, LargeFile{log, sha256_hex("1\n"), 2}};
  const auto faults = write_files(scratch / "w", {three[0], copy}, Existing::keep);
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].path == log);
  CHECK_THAT(faults[0].problem, Contains("was changed by another program"));
  CHECK_FALSE(fs::exists(scratch / "w"));
  fs::remove(log);
  const auto gone = write_files(scratch / "w", {copy}, Existing::keep);
  REQUIRE(gone.size() == 1);
  CHECK_THAT(gone[0].problem, Contains("cannot be copied"));
}

// Found by trying: a table of a stranger's record whose name has an escape sequence in it.
TEST_CASE("output_files: no path in a message steers the terminal") {
  CHECK(text_of({{"a\x1b]0;b\x07.csv", "is a folder", ""}}) ==
        "hailwright: a?]0;b?.csv is a folder\n");
}
