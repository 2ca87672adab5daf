#include "cli/written_folder.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <map>
#include <thread>

#include "cli/checksums.hpp"
#include "cli/folder_claim.hpp"
#include "support/catch.hpp"
#include "support/file_bytes.hpp"
#include "support/scratch_folder.hpp"
#include "support/small_files.hpp"

using namespace hailwright::cli;
using hailwright::testing::file_bytes;
using hailwright::testing::ScratchFolder;
using hailwright::testing::SmallFiles;
namespace fs = std::filesystem;
using Names = std::vector<std::string>;

namespace {

const std::vector<OutputFile> first{{"report.html", "one"},
                                    {"photos/1.jpg", "old photo"},
                                    {"inputs/a/b.yaml", "old input"},
                                    {"energy.svg", "old picture"}};
const std::vector<OutputFile> second{{"report.html", "two"}, {"inputs/c.yaml", "new input"}};

constexpr FolderMark mark{"write-up", "report.html", ""};

FolderWritten written(const std::string& folder, const std::vector<OutputFile>& files,
                      Existing existing = Existing::keep) {
  FolderWritten result = write_folder(folder, mark, files, existing);
  CAPTURE(text_of(result.faults));
  REQUIRE(result.faults.empty());
  return result;
}

}  // namespace

TEST_CASE("written_folder: all files and a list of them") {
  const ScratchFolder scratch;
  const FolderWritten result = written(scratch / "new", first);
  CHECK(result.written ==
        Names{"report.html", "photos/1.jpg", "inputs/a/b.yaml", "energy.svg", "checksums.txt"});
  CHECK(result.staying.empty());
  CHECK(file_bytes(scratch / "new/checksums.txt") == checksums_text(first));
  CHECK(scratch.names() == Names{"new/checksums.txt", "new/energy.svg", "new/inputs/a/b.yaml",
                                 "new/photos/1.jpg", "new/report.html"});
  // An empty folder is as good as none.
  fs::create_directory(scratch / "empty");
  written(scratch / "empty", first);
}

TEST_CASE("written_folder: a folder that holds anything stays as it is unless told otherwise") {
  const ScratchFolder scratch;
  scratch.write("there/.hidden", "mine");
  const FolderWritten result = write_folder(scratch / "there", mark, first, Existing::keep);
  REQUIRE(result.faults.size() == 1);
  CHECK(result.faults[0].path == scratch / "there");
  CHECK(result.faults[0].problem == "holds something already, and stays as it is");
  CHECK(result.faults[0].hint == "name another folder");
  CHECK(scratch.names() == Names{"there/.hidden"});
}

// Found by review: --replace took any `checksums.txt` for a list of ours, and what it named away;
// and in a folder without a write-up it replaced tables of the same names.
TEST_CASE("written_folder: a folder that holds something of others alone is not written anew") {
  constexpr FolderMark known{"write-up", "report.json", "{ours "};
  const std::vector<OutputFile> files{{"a.csv", "new"}, {"report.json", "{ours 2}"}};
  const ScratchFolder scratch;
  const std::string folder = scratch / "w";
  scratch.write("w/a.csv", "mine");
  scratch.write("w/notes.txt", "mine");
  scratch.write("w/checksums.txt", checksums_text({{"notes.txt", "mine"}, {"a.csv", "mine"}}));
  const auto before = scratch.names();
  const auto refused = [&] {
    const FolderWritten result = write_folder(folder, known, files, Existing::replace);
    REQUIRE(result.faults.size() == 1);
    CHECK(result.faults[0].path == folder);
    CHECK(result.faults[0].problem == "holds no write-up, and stays as it is");
    CHECK_THAT(result.faults[0].hint, Contains("name another folder"));
    CHECK(file_bytes(folder + "/a.csv") == "mine");
    CHECK(file_bytes(folder + "/notes.txt") == "mine");
  };
  refused();
  CHECK(scratch.names() == before);
  scratch.write("w/report.json", "{theirs}");
  refused();
  fs::remove(folder + "/report.json");
  fs::create_symlink(scratch.write("elsewhere.json", "{ours 1}"), folder + "/report.json");
  refused();
  fs::remove(folder + "/report.json");
  fs::create_directory(folder + "/report.json");
  refused();
  fs::remove(folder + "/report.json");
  // What another version of ours left, and what a run began that was killed.
  scratch.write("w/report.json", "{ours 1}");
  CHECK(write_folder(folder, known, files, Existing::replace).faults.empty());
  CHECK(file_bytes(folder + "/a.csv") == "new");
}

TEST_CASE("written_folder: what others put beside a write-up stays") {
  const ScratchFolder scratch;
  written(scratch / "there", first);
  CHECK_THAT(write_folder(scratch / "there", mark, first, Existing::keep).faults.at(0).hint,
             Contains("--replace"));
  scratch.write("there/.hidden", "mine");
  CHECK(written(scratch / "there", first, Existing::replace).staying == Names{".hidden"});
  CHECK(file_bytes(scratch / "there/.hidden") == "mine");
}

TEST_CASE("written_folder: what an earlier write-up left goes and what was changed stays") {
  const ScratchFolder scratch;
  const std::string folder = scratch / "w";
  written(folder, first);
  CHECK(written(folder, second, Existing::replace).staying.empty());
  CHECK(scratch.names() == Names{"w/checksums.txt", "w/inputs/c.yaml", "w/report.html"});
  CHECK_FALSE(fs::exists(scratch / "w/photos"));
  CHECK_FALSE(fs::exists(scratch / "w/inputs/a"));
  CHECK(file_bytes(folder + "/report.html") == "two");
  CHECK(file_bytes(folder + "/checksums.txt") == checksums_text(second));

  written(folder, first, Existing::replace);
  scratch.write("w/photos/1.jpg", "mine now");
  scratch.write("w/inputs/a/notes.txt", "mine");
  scratch.write("w/inputs/notes.txt", "mine");
  scratch.write("w/drafts/one.txt", "mine");
  CHECK(written(folder, second, Existing::replace).staying ==
        Names{"drafts/", "inputs/a/", "inputs/notes.txt", "photos/"});
  CHECK(file_bytes(folder + "/photos/1.jpg") == "mine now");
  CHECK_FALSE(fs::exists(folder + "/inputs/a/b.yaml"));
  CHECK_FALSE(fs::exists(folder + "/energy.svg"));
  CHECK(file_bytes(folder + "/inputs/a/notes.txt") == "mine");
}

TEST_CASE("written_folder: a list from elsewhere removes nothing outside the folder") {
  const ScratchFolder scratch;
  const std::string outside = scratch.write("outside/mine.txt", "mine");
  fs::create_directory(scratch / "w");
  fs::create_directory_symlink(scratch / "outside", scratch / "w/link");
  fs::create_symlink(outside, scratch / "w/one.txt");
  scratch.write("w/report.html", "old");
  scratch.write("w/checksums.txt", checksums_text({{"../outside/mine.txt", "mine"},
                                                   {"link/mine.txt", "mine"},
                                                   {outside, "mine"},
                                                   {"one.txt", "mine"},
                                                   {"none.txt", "mine"}}));
  CHECK(written(scratch / "w", second, Existing::replace).staying == Names{"link", "one.txt"});
  CHECK(file_bytes(outside) == "mine");
  CHECK(fs::is_symlink(scratch / "w/one.txt"));
}

TEST_CASE("written_folder: one run at a time writes a folder") {
  const ScratchFolder scratch;
  written(scratch / "w", first);
  const FolderClaim other(scratch / "w");
  const FolderWritten result = write_folder(scratch / "w", mark, second, Existing::replace);
  REQUIRE(result.faults.size() == 1);
  CHECK_THAT(result.faults[0].problem, Contains("another run"));
  CHECK(file_bytes(scratch / "w/report.html") == "one");
}

TEST_CASE("written_folder: a disk that takes no more leaves all that was there") {
  const ScratchFolder scratch;
  written(scratch / "w", first);
  const auto before = scratch.names();
  std::vector<OutputFile> large = second;
  large.push_back({"report.xlsx", std::string(100'000, 'x')});
  FolderWritten result;
  {
    const SmallFiles limit(4096);
    result = write_folder(scratch / "w", mark, large, Existing::replace);
  }
  REQUIRE(result.faults.size() == 1);
  CHECK(result.faults[0].path == scratch / "w/report.xlsx");
  CHECK_FALSE(result.faults[0].hint.empty());
  CHECK(scratch.names() == before);
  for (const OutputFile& file : first)
    CHECK(file_bytes(scratch / ("w/" + file.name)) == file.bytes);
}

// Killed at whatever moment: every name is that of a whole file, old or new, and the next run makes
// the folder whole and clean.
TEST_CASE("written_folder: killed in the middle it leaves whole files only") {
  const ScratchFolder scratch;
  const std::string folder = scratch / "w";
  const auto version = [](char letter) {
    std::vector<OutputFile> files;
    for (int i = 0; i < 30; ++i)
      files.push_back({(i % 3 == 0 ? "photos/" : "") + std::to_string(i),
                       std::string(static_cast<std::size_t>(20'000 + 100 * i), letter)});
    files.push_back({"report.html", std::string(100, letter)});
    files.push_back({std::string("only-") + letter, std::string(1000, letter)});
    return files;
  };
  written(folder, version('a'));
  std::map<std::string, std::vector<std::string>> whole;
  for (const char letter : {'a', 'b'}) {
    for (const OutputFile& file : version(letter))
      whole[file.name].push_back(file.bytes);
    whole["checksums.txt"].push_back(checksums_text(version(letter)));
  }
  int killed = 0;
  int torn = 0;
  for (int i = 0; i < 60; ++i) {
    const pid_t child = fork();
    if (child == 0) {
      write_folder(folder, mark, version(i % 2 == 0 ? 'b' : 'a'), Existing::replace);
      _exit(0);
    }
    std::this_thread::sleep_for(std::chrono::microseconds(150 * i));
    kill(child, SIGKILL);
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    if (WIFSIGNALED(status)) ++killed;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
      const std::string name = fs::relative(entry.path(), folder).string();
      if (!entry.is_regular_file() || name.find(temporary_prefix) != std::string::npos) continue;
      const std::string now = file_bytes(entry.path().string());
      const auto& known = whole[name];
      if (std::find(known.begin(), known.end(), now) == known.end()) ++torn;
    }
  }
  CHECK(killed > 10);
  CHECK(torn == 0);
  const FolderWritten last = written(folder, version('a'), Existing::replace);
  for (const std::string& name : last.staying)
    CHECK(name == "only-b");
  const auto names = scratch.names();
  CHECK(std::none_of(names.begin(), names.end(), [](const std::string& name) {
    return name.find(temporary_prefix) != std::string::npos;
  }));
}

// Found by review: with --replace, the tables of a record in that folder were replaced by the
// tables of the write-up that have the same names.
TEST_CASE("written_folder: nothing takes the place of a file that was read") {
  const ScratchFolder scratch;
  const std::string folder = scratch / "w";
  const std::string table = scratch.write("w/shots.csv", "as measured");
  scratch.write("w/report.html", "old");
  const std::vector<OutputFile> files{{"report.html", "one"}, {"shots.csv", "rounded"}};
  const FolderWritten result = write_folder(folder, mark, files, Existing::replace, {table});
  REQUIRE(result.faults.size() == 1);
  CHECK(result.faults[0].path == table);
  CHECK(scratch.names() == Names{"w/report.html", "w/shots.csv"});
  CHECK(file_bytes(scratch / "w/report.html") == "old");
  CHECK(file_bytes(table) == "as measured");
}

TEST_CASE("written_folder: a folder is made anew from its own copies, which stay") {
  const ScratchFolder scratch;
  const std::string folder = scratch / "w";
  written(folder, first);
  const std::string copy = folder + "/inputs/a/b.yaml";
  CHECK(write_folder(folder, mark, first, Existing::replace, {copy}).faults.empty());
  // Neither does a copy go that was read and is not among the new files.
  const FolderWritten result = write_folder(folder, mark, second, Existing::replace, {copy});
  CHECK(result.faults.empty());
  CHECK(result.staying == Names{"inputs/a/"});
  CHECK(file_bytes(copy) == "old input");
}

TEST_CASE("written_folder: what lies behind a link inside stays as it is") {
  const ScratchFolder scratch;
  const std::string leftover =
      std::string(temporary_prefix) + "1999999-0" + std::string(temporary_suffix);
  scratch.write("elsewhere/" + leftover, "of another folder");
  fs::create_directory(scratch / "w");
  fs::create_directory_symlink(scratch / "elsewhere", scratch / "w/photos");
  scratch.write("w/report.html", "old");
  CHECK(write_folder(scratch / "w", mark, first, Existing::replace).faults.size() == 1);
  CHECK(scratch.names() == Names{"elsewhere/" + leftover, "w/report.html"});
  CHECK(fs::is_symlink(scratch / "w/photos"));
}

// `start` and `plan -o` keep no list of what they wrote, and left the temporary files of killed
// runs for ever.
TEST_CASE("written_folder: files into a folder by one run at a time and without leftovers") {
  const ScratchFolder scratch;
  const std::string leftover =
      std::string(temporary_prefix) + "1999999-0" + std::string(temporary_suffix);
  scratch.write("w/" + leftover, "part");
  scratch.write("w/photos/" + leftover, "part");
  scratch.write("w/mine.txt", "mine");
  CHECK(write_into(scratch / "w", first, Existing::keep).empty());
  CHECK(scratch.names() == Names{"w/energy.svg", "w/inputs/a/b.yaml", "w/mine.txt",
                                 "w/photos/1.jpg", "w/report.html"});
  CHECK(write_into(scratch / "w", second, Existing::keep).size() == 1);
  const FolderClaim other(scratch / "w");
  const auto faults = write_into(scratch / "w", second, Existing::replace);
  REQUIRE(faults.size() == 1);
  CHECK_THAT(faults[0].problem, Contains("another run"));
  CHECK(file_bytes(scratch / "w/report.html") == "one");
}
