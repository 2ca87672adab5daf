// Files that no folder of a source tree can hold: pipes, devices, links that go round, files of
// gigabytes. Each ends in a message with its place, at once, and with little memory.
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "cli/command.hpp"
#include "core/utf8.hpp"
#include "support/catch.hpp"

using hailwright::testing::Finished;
using hailwright::testing::hailwright_program;
using hailwright::testing::run_hailwright;
using hailwright::testing::ScratchFolder;
namespace fs = std::filesystem;

namespace {

constexpr const char* panel_text = "hailwright: panel 1\nname: A\nbuild: {kind: framed glass}\n";

/// Whether a message has something in it that acts on a terminal, or that is not UTF-8.
bool steers(const std::string& text) {
  for (std::size_t at = 0; at < text.size();) {
    const auto c = hailwright::detail::utf8_at(text, at);
    if (c.size == 0 || (c.code != U'\n' && hailwright::detail::steers(c.code))) return true;
    at += c.size;
  }
  return false;
}

/// A folder with a record whose panel, shots or log can be any file in it.
class Desk {
public:
  Desk() {
    const fs::path good = fs::path(HAILWRIGHT_SOURCE_DIR) / "tests/bad_input/good";
    fs::copy(good / "protocol.yaml", folder / "protocol.yaml");
    fs::copy(good / "panel.yaml", folder / "panel.yaml");
  }

  /// The record; its panel stands in 3:8, its shots in 6:10, its photo in 8:28.
  [[nodiscard]] std::string record(const std::string& panel, const std::string& shots,
                                   const std::string& photo = {}) const {
    std::string text = "hailwright: record 1\nprotocol: protocol.yaml\npanel: " + panel +
                       "\nday: {date: 2026-06-14}\ntables:\n  shots: " + shots + "\n";
    if (!photo.empty()) text += "photos:\n  - {shows: the front, file: " + photo + "}\n";
    folder.write("record.yaml", text);
    return "record.yaml";
  }

  [[nodiscard]] Finished run(const std::string& arguments) const {
    Finished f = run_hailwright(arguments, folder.path());
    CAPTURE(arguments, f.err);
    CHECK(f.err.size() < 200'000);
    CHECK_FALSE(steers(f.err));
    return f;
  }

  void refused(const std::string& arguments, const std::string& beginning,
               const std::string& words) const {
    const Finished f = run(arguments);
    CAPTURE(arguments, f.err);
    CHECK(f.exit_code == 3);
    CHECK(f.out.empty());
    CHECK_THAT(f.err, Catch::StartsWith(beginning) && Contains(words) && Contains("error: "));
  }

  /// The same file as a panel, as a table of a record, as a file to check and as a log.
  void refused_everywhere(const std::string& file, const std::string& words,
                          const std::string& words_of_a_log) const {
    refused("check " + record(file, "none"), "record.yaml:3:8: error: the file " + file, words);
    refused("check " + record("panel.yaml", file), "record.yaml:6:10: error: the file " + file,
            words);
    refused("check " + file, file + ": error: the file ", words);
    refused("readings " + file, file + ": error: the file ", words_of_a_log);
  }

  ScratchFolder folder;
};

/// Kibibytes that a command took at most.
long peak_kib(const std::string& arguments, const std::string& folder) {
  const std::string command = "cd '" + folder + "' && exec timeout 60 '" + hailwright_program() +
                              "' " + arguments + " >/dev/null 2>&1";
  const pid_t child = fork();
  if (child == 0) {
    execl("/bin/sh", "sh", "-c", command.c_str(), static_cast<char*>(nullptr));
    _exit(127);
  }
  int status = 0;
  rusage usage{};
  REQUIRE(wait4(child, &status, 0, &usage) == child);
  CHECK(WEXITSTATUS(status) == 3);
  return usage.ru_maxrss;
}

}  // namespace

TEST_CASE("odd files: links that lead back to themselves") {
  const Desk desk;
  fs::create_symlink("b", desk.folder / "a");
  fs::create_symlink("a", desk.folder / "b");
  constexpr const char* words = "is a link that leads back to itself";
  desk.refused_everywhere("a", words, words);
}

TEST_CASE("odd files: a folder in place of a file") {
  const Desk desk;
  fs::create_directory(desk.folder / "inside");
  desk.refused_everywhere("inside", "is a folder", "is a folder");
}

// `readings` takes a pipe that is named on its line and waits for it, as for `<(zcat ...)`.
TEST_CASE("odd files: a pipe is not waited for") {
  const Desk desk;
  REQUIRE(mkfifo((desk.folder / "pipe").c_str(), S_IRUSR | S_IWUSR) == 0);
  constexpr const char* words = "is not an ordinary file";
  desk.refused("check " + desk.record("pipe", "none"), "record.yaml:3:8: ", words);
  desk.refused("check " + desk.record("panel.yaml", "pipe"), "record.yaml:6:10: ", words);
  desk.refused("check pipe", "pipe: error: ", words);
  std::ofstream(desk.folder / "record.yaml", std::ios::app)
      << "logs:\n  - {log: pipe, setups: {name: before 1}}\n";
  CHECK(desk.run("check record.yaml").exit_code == 3);
}

TEST_CASE("odd files: a socket") {
  const Desk desk;
  REQUIRE(mknod((desk.folder / "socket").c_str(), S_IFSOCK | S_IRUSR | S_IWUSR, 0) == 0);
  desk.refused_everywhere("socket", "is not an ordinary file", "is a socket");
}

TEST_CASE("odd files: devices") {
  const Desk desk;
  for (const char* device : {"/dev/zero", "/dev/full", "/dev/null"})
    desk.refused_everywhere(device, "is not an ordinary file", "is a device and no file");
  desk.refused("check " + desk.record("/dev/stdin", "none") + " </dev/null",
               "record.yaml:3:8: ", "is not an ordinary file");
}

TEST_CASE("odd files: one that may not be read") {
  const Desk desk;
  const std::string secret = desk.folder.write("secret", panel_text);
  CHECK(desk.record("secret", "none") == "record.yaml");
  fs::permissions(desk.folder.path(), fs::perms(0755));
  fs::permissions(secret, fs::perms::none);
  // Root may read everything, and so runs the program as nobody.
  const std::string as_nobody =
      geteuid() == 0 ? "setpriv --reuid=65534 --regid=65534 --clear-groups" : "";
  for (const std::string arguments : {"check secret", "readings secret", "check record.yaml"}) {
    const Finished f = run_hailwright(arguments, desk.folder.path(), as_nobody);
    CAPTURE(arguments, f.err);
    CHECK(f.exit_code == 3);
    CHECK_THAT(f.err, Contains(arguments == "check record.yaml" ? "record.yaml:3:8: error: "
                                                                : "secret: error: ") &&
                          Contains("may not be read"));
  }
}

TEST_CASE("odd files: five gigabytes of nothing") {
  const Desk desk;
  desk.folder.write("large", "");
  std::error_code no_room;
  fs::resize_file(desk.folder / "large", std::uintmax_t{5} << 30U, no_room);
  if (no_room) {
    WARN("the file system has no sparse files of 5 GiB");
    return;
  }
  desk.refused("check " + desk.record("large", "none"), "record.yaml:3:8: ", "is too large");
  desk.refused("check " + desk.record("panel.yaml", "large"),
               "record.yaml:6:10: ", "is too large: 5368709120 bytes");
  desk.refused("check large", "large: error: ", "is too large");
  desk.refused("readings large", "large: error: ", "goes on for more than 64 MiB");
  constexpr long most_kib = 600L << 10U;  // the sanitizers take most of it
  CHECK(peak_kib("readings large", desk.folder.path()) < most_kib);
}

TEST_CASE("odd files: ten million columns") {
  const Desk desk;
  desk.folder.write("ten.csv", std::string(10'000'000, ',') + "\n1,2\n");
  desk.folder.write("eight.csv", std::string(8'000'000, ',') + "\n1,2\n");
  desk.refused("check " + desk.record("panel.yaml", "ten.csv"),
               "record.yaml:6:10: ", "is too large: 10000005 bytes");
  desk.refused("check " + desk.record("panel.yaml", "eight.csv"),
               "eight.csv:1:10001: ", "more than 10000 cells in one line");
  desk.refused("readings ten.csv", "ten.csv:1:1: ", "this line is longer than 64 KiB");
  constexpr long most_kib = 600L << 10U;
  CHECK(peak_kib("check " + desk.record("panel.yaml", "eight.csv"), desk.folder.path()) < most_kib);
}

TEST_CASE("odd files: paths that lead out of the folder of the record") {
  const Desk desk;
  desk.folder.write("elsewhere/secret.txt", "user: x\npassword: y\n");
  desk.folder.write("day/secret.txt", "");
  const ScratchFolder other;
  const std::string secret = other.write("secret.txt", "user: x\n");
  constexpr const char* not_ours = "the file does not say what it is";
  const std::string here = "record.yaml:3:8: note: the file is named here";
  for (const std::string& path : {secret, std::string("elsewhere/secret.txt")}) {
    const Finished f = desk.run("check " + desk.record(path, "none"));
    CAPTURE(f.err);
    CHECK(f.exit_code == 3);
    CHECK_THAT(f.err, Contains(path + ":1:1: error: ") && Contains(not_ours) && Contains(here));
  }
  fs::create_symlink(secret, desk.folder / "link.yaml");
  const Finished linked = desk.run("check " + desk.record("link.yaml", "none"));
  CHECK_THAT(linked.err,
             Contains("link.yaml:1:1: error: ") && Contains(not_ours) && Contains(here));
  desk.refused("check " + desk.record("panel.yaml", "link.yaml"),
               "link.yaml:1:1: ", "column \"series\" is missing");
}

TEST_CASE("odd files: what steers a terminal stays out of it") {
  const Desk desk;
  const std::string name = "red\x1b[31m\xE2\x80\xAE.yaml";
  desk.folder.write(name, "hailwright: panel 1\n\"a\\e[2J\": 1\n");
  desk.refused("check '" + name + "'", "red?[31m?.yaml:", "makes a control character (U+001B)");
  desk.folder.write(name, panel_text);
  CHECK(desk.run("check '" + name + "'").out == "red?[31m?.yaml: nothing wrong\n");
  desk.folder.write("c1.csv", "series,\x9B"
                              "31mplace,landed\n");
  desk.refused("check " + desk.record("panel.yaml", "c1.csv"), "c1.csv:1:8: ", "is not UTF-8");
}

TEST_CASE("odd files: UTF-16 without its mark") {
  const Desk desk;
  std::string little;
  std::string big;
  for (const char c : std::string(panel_text)) {
    little += std::string{c, '\0'};
    big += std::string{'\0', c};
  }
  for (const std::string& text : {little, big}) {
    desk.folder.write("wide", text);
    for (const std::string command : {"check wide", "readings wide"})
      desk.refused(command, "wide: error: ", "UTF-16, not UTF-8");
    desk.refused("check " + desk.record("wide", "wide"), "wide: error: ", "UTF-16, not UTF-8");
  }
}

TEST_CASE("odd files: nesting, long lines and a hundred thousand of a kind") {
  const Desk desk;
  const auto refused = [&](const std::string& rest, const std::string& place,
                           const std::string& words) {
    desk.folder.write("p.yaml", "hailwright: panel 1\n" + rest + "\n");
    desk.refused("check p.yaml", "p.yaml:" + place, words);
  };
  const auto many = [](std::size_t count, const std::string& of) {
    std::string text;
    for (std::size_t i = 0; i < count; ++i)
      text += of;
    return text;
  };
  constexpr std::size_t deep = 100'000;
  refused("name: " + std::string(deep, '['), "2:8: ", "this [ is not closed");
  refused("name: " + std::string(deep, '[') + std::string(deep, ']'),
          "2:38: ", "nested too deeply");
  refused("name: " + many(deep, "{a: "), "2:", "nested too deeply");
  refused("name:\n  " + many(deep, "- "), "3:", "nested too deeply");
  refused(many(60'000, "k: 1\n"), "3:1: ", "'k' stands here a second time");
  refused(std::string(900'000, 'x') + ": 5", "2:", "does not fit the line above");
  refused("name: \"" + std::string(900'000, 'x'), "2:7: ", "this quote is not closed");
  refused("name: " + many(deep, ": "), "2:7: ", "a colon followed by a blank");
  desk.folder.write("p.yaml", std::string(panel_text) + "mounts: [" + many(20'000, "x,") + "x]\n");
  const Finished f = desk.run("check p.yaml");
  CHECK(f.exit_code == 3);
  CHECK_THAT(f.err, Contains("p.yaml:4:11: ") && Contains("19501 more messages: mend these first"));
}
