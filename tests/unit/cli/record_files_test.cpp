#include "cli/record_files.hpp"

#include <filesystem>
#include <set>

#include "cli/input_copies.hpp"
#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"
#include "support/scratch_folder.hpp"

using namespace hailwright;
using namespace hailwright::cli;
using hailwright::testing::ScratchFolder;
namespace fs = std::filesystem;
using Texts = std::vector<std::string>;

namespace {

/// A record with its protocol and panel, in a folder of that name.
std::string put_record(const ScratchFolder& scratch, const std::string& folder) {
  for (const auto& [name, text] : input_files::good_files())
    scratch.write(folder + "/" + name, text);
  return scratch / (folder + "/record.yaml");
}

RecordsRead read(const Texts& paths) {
  FilesRead files;
  return read_records(paths, files.loader(), files.log_opener());
}

Texts titles(const std::vector<Test>& tests) {
  Texts all;
  for (const Test& test : tests)
    all.push_back(test.record.title);
  return all;
}

/// The titles after these were told apart.
Texts told_apart(const Texts& before, const Texts& paths) {
  std::vector<Test> tests(before.size());
  for (std::size_t i = 0; i < before.size(); ++i)
    tests[i].record.title = before[i];
  tell_apart(tests, paths);
  return titles(tests);
}

}  // namespace

// Found by review: a record that was named twice was "two panels, each judged by a test of its
// own", also as x.yaml and ./panels/../x.yaml.
TEST_CASE("record_files: a record that is named twice is an error with both names") {
  const ScratchFolder scratch;
  const std::string record = put_record(scratch, "june");
  const std::string other = put_record(scratch, "july");
  const std::string winding = scratch / "june/../june/./record.yaml";
  const std::string link = scratch / "link.yaml";
  fs::create_symlink(record, link);
  CHECK(read({record, other}).notes.empty());
  for (const std::string& again : {record, winding, link}) {
    CAPTURE(again);
    const RecordsRead twice = read({record, other, again});
    const Diagnostic note = input_files::only(twice.notes);
    CHECK(note.code == "C37");
    CHECK_THAT(note.message, Contains("named twice"));
    if (again != record) CHECK_THAT(note.message, Contains(record));
    CHECK_FALSE(note.hints.empty());
    CHECK_THAT(render_diagnostics(twice.notes, twice.sources), Contains(again + ": error: "));
  }
}

TEST_CASE("record_files: records that are not there are said to be so and nothing else") {
  const ScratchFolder scratch;
  const RecordsRead none = read({scratch / "none.yaml", scratch / "none.yaml", ""});
  for (const Diagnostic& note : none.notes.items())
    CHECK(note.code == "F01");
  CHECK(none.notes.items().size() == 3);
  CHECK(none.tests.empty());
}

// Found by review: two records without a title, of one model, had the same name in every table,
// sheet and picture.
TEST_CASE("record_files: records of one title are told apart by their files") {
  const ScratchFolder scratch;
  const std::string june = put_record(scratch, "june");
  const std::string july = put_record(scratch, "july");
  CHECK(titles(read({june}).tests) == Texts{"Panel A"});
  CHECK(titles(read({june, july}).tests) ==
        Texts{"Panel A (june/record.yaml)", "Panel A (july/record.yaml)"});
}

TEST_CASE("record_files: titles that differ stay, and no two are ever the same") {
  CHECK(told_apart({"A", "B"}, {"x/a.yaml", "y/a.yaml"}) == Texts{"A", "B"});
  CHECK(told_apart({"A", "B", "A"}, {"x/a.yaml", "x/b.yaml", "x/c.yaml"}) ==
        Texts{"A (a.yaml)", "B", "A (c.yaml)"});
  CHECK(told_apart({"A", "A"}, {"inputs/x/a.yaml", "inputs/y/a.yaml"}) ==
        Texts{"A (x/a.yaml)", "A (y/a.yaml)"});
  CHECK(told_apart({"A", "A"}, {"a.yaml", "y/a.yaml"}) == Texts{"A (a.yaml)", "A (y/a.yaml)"});
  // One that has already what another gets.
  CHECK(told_apart({"A", "A", "A (a.yaml)"}, {"a.yaml", "b.yaml", "c.yaml"}) ==
        Texts{"A (a.yaml) (a.yaml)", "A (b.yaml)", "A (a.yaml) (c.yaml)"});
  CHECK(told_apart({}, {}).empty());
  std::vector<Test> one(1);
  CHECK_THROWS_AS(tell_apart(one, {}), BugError);
}

TEST_CASE("record_files: one record after the other is taken, and all messages are told") {
  const ScratchFolder scratch;
  const std::string june = put_record(scratch, "june");
  const std::string july = put_record(scratch, "july");
  const std::string bad = scratch.write("bad.yaml", "hailwright: record 1\nnonsense: 1\n");
  FilesRead files;
  Texts taken;
  std::string said;
  const auto take = [&](const Test& test, const std::string& path) {
    CHECK_FALSE(test.record.title.empty());
    taken.push_back(path);
  };
  const auto say = [&](const Diagnostics& notes, const SourceSet& sources) {
    said += render_diagnostics(notes, sources);
  };
  CHECK(take_records({june, july}, files.loader(), files.log_opener(), take, say));
  CHECK(taken == Texts{june, july});
  CHECK(said.empty());
  taken.clear();
  CHECK_FALSE(take_records({june, bad, june, july}, files.loader(), files.log_opener(), take, say));
  CHECK(taken == Texts{june, july});
  CHECK_THAT(said, Contains("bad.yaml:2") && Contains("the record is named twice"));
}

TEST_CASE("record_files: thousands of titles are told apart in a moment") {
  Texts titles(2000, "Rigid A"), paths;
  for (std::size_t i = 0; i < titles.size(); ++i)
    paths.push_back("panels/" + std::to_string(i) + ".yaml");
  tell_apart(titles, paths);
  CHECK(titles[7] == "Rigid A (7.yaml)");
  CHECK(std::set<std::string>(titles.begin(), titles.end()).size() == titles.size());
}
