#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "hailwright/core/contract.hpp"
#include "hailwright/report/workbook.hpp"
#include "support/catch.hpp"
#include "support/scratch_folder.hpp"

using namespace hailwright;
using hailwright::testing::ScratchFolder;

namespace {

std::string bytes_of(const Workbook& book) {
  const ScratchFolder scratch;
  REQUIRE_FALSE(write_xlsx(book, (scratch / "a.xlsx"), scratch.path()));
  // Nothing but the workbook is left over.
  CHECK(std::distance(std::filesystem::directory_iterator(scratch.path()), {}) == 1);
  std::ifstream file((scratch / "a.xlsx"), std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// A part of the workbook, which is a zip archive: what Info-ZIP's unzip makes of it.
std::string part(const Workbook& book, const std::string& name) {
  const ScratchFolder scratch;
  REQUIRE_FALSE(write_xlsx(book, (scratch / "a.xlsx"), scratch.path()));
  FILE* pipe = popen(("unzip -p '" + (scratch / "a.xlsx") + "' '" + name + "'").c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string text;
  std::array<char, 4096> buffer{};
  for (std::size_t n = 0; (n = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;)
    text.append(buffer.data(), n);
  REQUIRE(pclose(pipe) == 0);
  return text;
}

Workbook sample() {
  return {"Sample & more",
          {{"how to", {{40.0, CellFormat::general}}, {{"what"}, {"a line\nand another"}}},
           {"shots",
            {{10.0, CellFormat::words}, {8.0, CellFormat::time}, {}},
            {{"place", "time", "out s"}, {"=1+1", "@x", "7"}}}}};
}

}  // namespace

TEST_CASE("render_xlsx: a workbook with its sheets, the same bytes each time") {
  const std::string bytes = bytes_of(sample());
  CHECK(bytes.substr(0, 4) == "PK\x03\x04");
  CHECK(bytes == bytes_of(sample()));
  const std::string book = part(sample(), "xl/workbook.xml");
  CHECK_THAT(book, Contains("<sheet name=\"how to\" sheetId=\"1\"") &&
                       Contains("<sheet name=\"shots\" sheetId=\"2\""));
  CHECK_THAT(part(sample(), "docProps/core.xml"),
             Contains("Sample &amp; more") && Contains("1980-01-01T00:00:00Z"));
}

TEST_CASE("render_xlsx: no cell becomes a formula or a number") {
  Workbook book = sample();
  const std::string sheet = part(book, "xl/worksheets/sheet2.xml");
  CHECK_THAT(sheet, !Contains("<f>") && Contains("<c r=\"A2\"") && Contains("t=\"s\""));
  const std::string texts = part(book, "xl/sharedStrings.xml");
  CHECK_THAT(texts, Contains("<t>=1+1</t>") && Contains("<t>@x</t>") && Contains("<t>7</t>"));
  book.sheets[1].rows[1] = {"https://example.org", "\x1b[31m", "<b>&"};
  CHECK_THAT(part(book, "xl/sharedStrings.xml"), Contains("<t>https://example.org</t>") &&
                                                     Contains("<t>?[31m</t>") &&
                                                     Contains("<t>&lt;b&gt;&amp;</t>"));
  CHECK_THAT(part(book, "xl/worksheets/sheet2.xml"), !Contains("hyperlink"));
}

TEST_CASE("render_xlsx: what is typed below the header keeps its form") {
  CHECK_THAT(part(sample(), "xl/styles.xml"), Contains("numFmtId=\"49\"") && Contains("hh:mm"));
  const std::string sheet = part(sample(), "xl/worksheets/sheet2.xml");
  CHECK_THAT(sheet, Contains("<col min=\"1\" max=\"1\"") && Contains("ySplit=\"1\""));
}

TEST_CASE("render_xlsx: where nothing can be written, that is said") {
  const ScratchFolder scratch;
  const auto problem = write_xlsx(sample(), scratch.path() + "/none/a.xlsx", scratch.path());
  REQUIRE(problem);
  CHECK_FALSE(problem->empty());
}

TEST_CASE("render_xlsx: workbooks that no program would open are our own mistake") {
  const auto refused = [](const Workbook& book) {
    const ScratchFolder scratch;
    CHECK_THROWS_AS(write_xlsx(book, (scratch / "a.xlsx"), scratch.path()), BugError);
  };
  refused({"t", {}});
  Workbook book = sample();
  book.sheets[0].name = "a/b";
  refused(book);
  book.sheets[0].name = std::string(32, 'n');
  refused(book);
  book = sample();
  book.sheets[0].rows[0] = {"one", "too many"};
  refused(book);
  book = sample();
  book.sheets[0].rows[0] = {std::string(32'768, 'x')};
  refused(book);
}
