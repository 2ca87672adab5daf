#include "cli/readings_logs.hpp"

#include <filesystem>

#include "support/catch.hpp"
#include "support/scratch_folder.hpp"

using namespace hailwright;
using namespace hailwright::cli;
using hailwright::testing::ScratchFolder;

namespace {

std::string messages(const TypedLogs& logs) {
  SourceSet sources;
  Diagnostics notes;
  logs.check(sources, notes);
  return render_diagnostics(notes, sources);
}

}  // namespace

TEST_CASE("readings_logs: files are counted while they are read") {
  const ScratchFolder scratch;
  const TypedLogs logs({scratch.write("a.csv", "12345"), scratch.write("b.csv", "678")},
                       {scratch.write("c.csv", "90")});
  CHECK(messages(logs).empty());
  CHECK(logs.total() == 10);
  CHECK(logs.can_be_read_again());
  CHECK(logs.has_second());
  CHECK(logs.taken() == 0);
  std::string buffer(100, '\0');
  std::string text;
  for (const LogFile& file : logs.open_first())
    text.append(buffer, 0, file.bytes.read(buffer.data(), buffer.size()));
  CHECK(text == "12345678");
  CHECK(logs.taken() == 8);
  CHECK(logs.open_second().front().name == scratch / "c.csv");
  CHECK(logs.open_first().front().bytes.read(buffer.data(), buffer.size()) == 5);
  CHECK(logs.taken() == 13);
}

TEST_CASE("readings_logs: all that cannot be read is told at once") {
  const ScratchFolder scratch;
  const std::string text =
      messages(TypedLogs({scratch / "none.csv", scratch.path()}, {scratch / "no.csv"}));
  CHECK_THAT(text, Contains("none.csv: error: the file is not there"));
  CHECK_THAT(text, Contains("the file is a folder"));
  CHECK_THAT(text, Contains("no.csv: error: the file is not there"));
}

TEST_CASE("readings_logs: a file belongs once to a log and standard input to one") {
  const ScratchFolder scratch;
  const std::string a = scratch.write("a.csv", "1");
  std::filesystem::create_symlink(a, scratch / "link.csv");
  CHECK_THAT(messages(TypedLogs({a, scratch / "link.csv"}, {})), Contains("named twice"));
  // Two panels may stand in one file, each with its column map.
  CHECK(messages(TypedLogs({a}, {a})).empty());
  CHECK_THAT(messages(TypedLogs({"-"}, {"-"})), Contains("cannot be both logs"));
  CHECK_FALSE(TypedLogs({a, "-"}, {}).can_be_read_again());
  CHECK(shown_name("-") == "standard input");
  CHECK(shown_name(a) == a);
}
