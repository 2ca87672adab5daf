#include "cli/input_copies.hpp"

#include <filesystem>

#include "hailwright/core/digest.hpp"
#include "support/catch.hpp"
#include "support/scratch_folder.hpp"

using namespace hailwright;
using namespace hailwright::cli;
using hailwright::testing::ScratchFolder;
namespace fs = std::filesystem;

namespace {

constexpr std::size_t largest = 1000;

std::vector<std::string> paths(const InputCopies& copies) {
  std::vector<std::string> all;
  for (const OutputFile& file : copies.output())
    all.push_back(file.name);
  return all;
}

/// Reads a log to its end; the text, and what is wrong behind "!".
std::string read_log(const OpenedLog& opened) {
  REQUIRE(opened.bytes);
  std::string text(10'000, '\0');
  std::string all;
  while (const std::size_t n = opened.bytes->read(text.data(), text.size()))
    all.append(text, 0, n);
  const std::string problem = opened.bytes->problem();
  return problem.empty() ? all : all + "!" + problem;
}

constexpr const char* changed = "!the file was changed by another program while it was read";

}  // namespace

TEST_CASE("input_copies: a file is read once whatever it is called") {
  const ScratchFolder scratch;
  const std::string path = scratch.write("a.yaml", "one");
  FilesRead files;
  CHECK(*files.load(path, largest).text == "one");
  scratch.write("a.yaml", "two");
  CHECK(*files.load(path, largest).text == "one");
  CHECK(*files.load(scratch / "./b/../a.yaml", largest).text == "one");
  CHECK_FALSE(files.load(scratch / "none", largest).text);
  // Found by review: a file without a name was "our mistake, not yours".
  CHECK_FALSE(files.load("", largest).text);
  CHECK(files.all().size() == 1);
  const auto inputs = inputs_named_as_typed(files);
  REQUIRE(inputs.size() == 1);
  CHECK(inputs[0].name == path);
  CHECK(inputs[0].sha256 == sha256_hex("one"));
  CHECK(inputs[0].bytes == 3);
}

TEST_CASE("input_copies: files keep their places to each other and lose where they lie") {
  const ScratchFolder scratch;
  FilesRead files;
  files.load(scratch.write("deep/records/a.yaml", "a"), largest);
  files.load(scratch.write("deep/records/../panels/b.yaml", "b"), largest);
  files.load(scratch.write("deep/records/tables/c.csv", "c"), largest);
  const InputCopies copies(files);
  CHECK(paths(copies) == std::vector<std::string>{"inputs/records/a.yaml", "inputs/panels/b.yaml",
                                                  "inputs/records/tables/c.csv"});
  CHECK(copies.copy_of(scratch / "deep/records/a.yaml") == "inputs/records/a.yaml");
  CHECK(copies.for_write_up()[1].path == "inputs/panels/b.yaml");
  CHECK(copies.for_write_up()[1].name == "inputs/panels/b.yaml");

  FilesRead one;
  one.load(scratch / "deep/records/a.yaml", largest);
  CHECK(paths(InputCopies(one)) == std::vector<std::string>{"inputs/a.yaml"});
}

TEST_CASE("input_copies: copies are read by their own names alone") {
  const ScratchFolder scratch;
  FilesRead files;
  const std::string record = scratch.write("records/a.yaml", "a\r\n");
  const std::string panel = scratch.write("panels/b.yaml", "b");
  files.load(record, largest);
  files.load(panel, largest);
  const InputCopies copies(files);
  const Loader load = copies.loader("inputs/records/a.yaml");
  CHECK(*load("inputs/records/a.yaml", largest).text == "a\r\n");
  CHECK(*load("inputs/panels/b.yaml", largest).text == "b");
  const Loaded whole = load(panel, largest);
  CHECK_FALSE(whole.text);
  CHECK_THAT(whole.problem, Contains("whole path"));
  CHECK(whole.hint == "name it from the folder of the record: ../panels/b.yaml");
  CHECK_FALSE(load("/etc/hostname", largest).text);
  CHECK_FALSE(load(record, largest).text);
}

TEST_CASE("input_copies: messages about copies are said of the files") {
  const ScratchFolder scratch;
  FilesRead files;
  const std::string record = scratch.write("a.yaml", "one\ntwo\n");
  files.load(record, largest);
  const InputCopies copies(files);
  SourceSet of_files;
  of_files.add("another", "x");
  SourceSet of_copies;
  Diagnostics notes;
  const std::uint32_t copy = of_copies.add("inputs/a.yaml", "one\ntwo\n");
  notes.error("F01", {copy, 2, 1, 3}, "is odd").related.push_back({{copy, 1, 1, 3}, "here"});
  notes.error("F01", {}, "about no file");
  const std::string text =
      render_diagnostics(copies.said_of_files(notes, of_copies, of_files), of_files);
  CHECK_THAT(text, Contains(record + ":2:1: error: is odd"));
  CHECK_THAT(text, Contains(record + ":1:1"));
  CHECK_THAT(text, !Contains("inputs/a.yaml"));
}

TEST_CASE("input_copies: a log is summed while it is read and not kept") {
  const ScratchFolder scratch;
  FilesRead files;
  const std::string record = scratch.write("a.yaml", "a");
  const std::string log = scratch.write("logs/b.csv", "time,power\n");
  files.load(record, largest);
  CHECK(read_log(files.open_log(log)) == "time,power\n");
  CHECK(read_log(files.open_log(scratch / "logs/./b.csv")) == "time,power\n");
  REQUIRE(files.all().size() == 2);
  CHECK_FALSE(files.all()[1].bytes);
  const InputCopies copies(files);
  const auto inputs = copies.for_write_up();
  CHECK(inputs[1].path == "inputs/logs/b.csv");
  CHECK(inputs[1].sha256 == sha256_hex("time,power\n"));
  CHECK(inputs[1].bytes == 11);
  const auto output = copies.output();
  REQUIRE(output[1].copied);
  CHECK(output[1].bytes.empty());
  CHECK(output[1].copied->path == log);
  CHECK(sha256_of(output[1]) == inputs[1].sha256);
  CHECK(files.open_log(scratch / "none").problem == "is not there");
  CHECK(files.open_log("").problem == "is not there");
}

TEST_CASE("input_copies: a log that changes between two readings is told") {
  const ScratchFolder scratch;
  FilesRead files;
  files.load(scratch.write("a.yaml", "a"), largest);
  const std::string log = scratch.write("b.csv", "1\n");
  CHECK(read_log(files.open_log(log)) == "1\n");
  const InputCopies copies(files);
  const LogOpener open = copies.log_opener("inputs/a.yaml");
  CHECK(read_log(open("inputs/b.csv")) == "1\n");
  scratch.write("b.csv", "1\n2\n");
  CHECK(read_log(files.open_log(log)) == std::string("1\n2\n") + changed);
  CHECK(read_log(open("inputs/b.csv")) == std::string("1\n2\n") + changed);
  CHECK_FALSE(files.load(log, largest).text);
}

TEST_CASE("input_copies: a log that is a table too is one file") {
  const ScratchFolder scratch;
  FilesRead files;
  const std::string path = scratch.write("a.csv", "1\n");
  CHECK(*files.load(path, largest).text == "1\n");
  CHECK(read_log(files.open_log(path)) == "1\n");
  FilesRead other;
  CHECK(read_log(other.open_log(path)) == "1\n");
  CHECK(*other.load(path, largest).text == "1\n");
  for (const FilesRead* read : {&files, &other}) {
    REQUIRE(read->all().size() == 1);
    CHECK(read->all()[0].bytes);
  }
}

TEST_CASE("input_copies: copies of logs are read by their own names alone") {
  const ScratchFolder scratch;
  FilesRead files;
  files.load(scratch.write("records/a.yaml", "a"), largest);
  const std::string log = scratch.write("logs/b.csv", "1\n");
  read_log(files.open_log(log));
  const InputCopies copies(files);
  const OpenedLog whole = copies.log_opener("inputs/records/a.yaml")(log);
  CHECK_FALSE(whole.bytes);
  CHECK(whole.hint == "name it from the folder of the record: ../logs/b.csv");
  CHECK_FALSE(copies.loader("inputs/records/a.yaml")("inputs/logs/b.csv", largest).text);
}

TEST_CASE("input_copies: messages about a copied log keep its lines") {
  const ScratchFolder scratch;
  FilesRead files;
  files.load(scratch.write("a.yaml", "a"), largest);
  const std::string log = scratch.write("b.csv", "one\ntwo\n");
  read_log(files.open_log(log));
  const InputCopies copies(files);
  SourceSet of_copies;
  const std::uint32_t copy = of_copies.add_unkept("inputs/b.csv");
  of_copies.keep_line(copy, 1, "one");
  of_copies.keep_line(copy, 2, "two");
  Diagnostics notes;
  notes.error("L11", {copy, 1, 1, 3}, "is no number");
  notes.error("L11", {copy, 2, 1, 3}, "nor is this");
  SourceSet of_files;
  const std::string text =
      render_diagnostics(copies.said_of_files(notes, of_copies, of_files), of_files);
  CHECK_THAT(text, Contains(log + ":1:1: error: is no number"));
  CHECK_THAT(text, Contains("one\n"));
  CHECK_THAT(text, Contains(log + ":2:1: error: nor is this"));
  CHECK_THAT(text, Contains("two\n"));
  CHECK(of_files.files() == 1);
}
