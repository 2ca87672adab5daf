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
