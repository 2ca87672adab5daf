#include "input/document.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::Files;
using input_files::only;

namespace {

Diagnostics faults(const std::string& text, FileKind kind = FileKind::protocol) {
  const Files files{{"f.yaml", text}};
  SourceSet sources;
  Diagnostics notes;
  const auto document =
      open_document("f.yaml", kind, std::nullopt, input_files::loader(files), sources, notes);
  CHECK(document.has_value() == !notes.has_errors());
  CHECK_FALSE(render_diagnostics(notes, sources).empty() != notes.empty());
  return notes;
}

}  // namespace

TEST_CASE("document: the first key says what a file is") {
  CHECK(faults("hailwright: protocol 1\n").empty());
  CHECK(faults("\xEF\xBB\xBFhailwright: panel 1\r\nname: x\r\n", FileKind::panel).empty());
  CHECK(faults("---\nhailwright: record 1\n", FileKind::record).empty());
}

TEST_CASE("document: another kind, version or no head at all") {
  const Diagnostic other = only(faults("hailwright: record 1\n"));
  CHECK(other.code == "K11");
  CHECK(other.message == "this is a record, a protocol was expected");
  const Diagnostic newer = only(faults("hailwright: protocol 2\n"));
  CHECK(newer.code == "K08");
  CHECK(newer.message == "protocol 2 is not read: this program reads protocol 1");
  CHECK_THAT(newer.hints.at(0), Contains("newer version"));
  CHECK(only(faults("hailwright: protocol 0\n")).code == "K08");
  CHECK(only(faults("hailwright: protocol\n")).code == "K08");
  CHECK(only(faults("hailwright: protocol 1 beta\n")).code == "K08");
  CHECK(only(faults("hailwright: protocol 99999999999\n")).code == "K08");
  const Diagnostic slip = only(faults("hailwright: protocl 1\n"));
  CHECK(slip.code == "K07");
  CHECK_THAT(slip.hints.at(0), Contains("protocol"));
  CHECK(only(faults("title: x\n")).code == "K09");
  CHECK(only(faults("kind,count\nsmall,3\n")).code == "K09");
  CHECK(only(faults("hailwright: [protocol 1]\n")).code == "K05");
}

TEST_CASE("document: empty, binary, UTF-16") {
  CHECK(only(faults("")).code == "Y05");
  CHECK(only(faults(std::string("\x7F"
                                "ELF\0\0",
                                6)))
            .code == "Y01");
  CHECK(only(faults(std::string("\xFF\xFEh\0", 4))).code == "Y03");
}

TEST_CASE("document: files that cannot be had") {
  const Files files;
  SourceSet sources;
  Diagnostics notes;
  CHECK_FALSE(open_document("no.yaml", std::nullopt, input_files::loader(files), sources, notes));
  const Diagnostic note = only(notes);
  CHECK(note.code == "F01");
  CHECK(note.where.line == 0);
  CHECK(sources.name(note.where.file) == "no.yaml");
  Diagnostics inside;
  const SourceSpan place{7, 3, 11, 4};
  CHECK_FALSE(fetch("no.csv", TextKind::table, place, input_files::loader(files), sources, inside));
  CHECK(only(inside).where.line == 3);
  CHECK_THAT(only(inside).message, Contains("no.csv"));
}

TEST_CASE("document: 50 MB are refused by the size, whether or not the loader does it") {
  std::size_t asked = 0;
  const Loader honest = [&](const std::string&, std::size_t largest) {
    asked = largest;
    return Loaded{std::nullopt, "is larger than 1 MiB", "name the right file"};
  };
  const Loader careless = [](const std::string&, std::size_t) {
    return Loaded{std::string(50U << 20U, 'x'), "", ""};
  };
  for (const Loader& load : {honest, careless}) {
    SourceSet sources;
    Diagnostics notes;
    CHECK_FALSE(open_document("big.yaml", std::nullopt, load, sources, notes));
    CHECK(only(notes).code == "F01");
    CHECK_THAT(only(notes).message, Contains("is larger than"));
  }
  CHECK(asked == largest_yaml);
}

TEST_CASE("document: a key before the head is said, and the rest is read") {
  const Files files{{"f.yaml", "title: x\nhailwright: protocol 1\n"}};
  SourceSet sources;
  Diagnostics notes;
  CHECK(open_document("f.yaml", std::nullopt, input_files::loader(files), sources, notes));
  CHECK(only(notes).code == "K10");
  CHECK(only(notes).where.line == 2);
}

TEST_CASE("document: paths are taken from the folder of the file that names them") {
  CHECK(path_beside("record.yaml", "shots.csv") == "shots.csv");
  CHECK(path_beside("day/record.yaml", "shots.csv") == "day/shots.csv");
  CHECK(path_beside("day/record.yaml", "../p/a.yaml") == "p/a.yaml");
  CHECK(path_beside("day/record.yaml", "/data/a.yaml") == "/data/a.yaml");
  CHECK(path_beside("./record.yaml", "a.yaml") == "a.yaml");
}
