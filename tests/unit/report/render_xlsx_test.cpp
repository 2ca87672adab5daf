#include <unistd.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <limits>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/source.hpp"
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

TEST_CASE("render_xlsx: numbers and formulas with the values that they give") {
  Workbook book = sample();
  SheetCell share(0.0123, 1);
  share.per_cent = true;
  SheetCell mine(89.0, 2);
  mine.to_change = true;
  book.sheets[1].rows.push_back({SheetCell(71.25, 1), share, mine});
  book.sheets[1].rows.push_back(
      {Formula{"=A3*2", 142.5}, Formula{"=IF(A3>1,\"a<b\",\"\")", "a<b"}});
  const std::string sheet = part(book, "xl/worksheets/sheet2.xml");
  CHECK_THAT(sheet, Contains("<v>71.25</v>") && Contains("<v>0.0123</v>") && Contains("<v>89</v>"));
  CHECK_THAT(sheet, Contains("<f>A3*2</f><v>142.5</v>"));
  CHECK_THAT(sheet, Contains("t=\"str\"><f>IF(A3&gt;1,\"a&lt;b\",\"\")</f><v>a&lt;b</v>"));
  const std::string styles = part(book, "xl/styles.xml");
  CHECK_THAT(styles, Contains("\"0.0_ \"") && Contains("\"0.0%_ \"") && Contains("\"0.00_ \""));
  CHECK_THAT(styles, Contains("FFFFF4C2") && Contains("FF7A6A1F"));
}

TEST_CASE("render_xlsx: a cell to change is seen while it is empty, too") {
  Workbook book = sample();
  SheetCell empty("");
  empty.to_change = true;
  book.sheets[1].rows.push_back({empty});
  CHECK_THAT(part(book, "xl/worksheets/sheet2.xml"), Contains("<c r=\"A3\" s="));
}

// Found by review: a label "_x0041_" was stored as it is, which programs read as "A".
TEST_CASE("render_xlsx: a label that looks like a coded character stays a label") {
  Workbook book = sample();
  book.sheets[0].rows[1] = {"_x0041_"};
  book.sheets[0].rows.push_back({"a_x00e9_x0042_ _x004_ _x00G1_ _X0041_"});
  book.sheets[0].rows.push_back({Formula{"=A1", "_x0041_"}});
  const std::string sheet = part(book, "xl/worksheets/sheet1.xml");
  const std::string all = sheet + part(book, "xl/sharedStrings.xml");
  CHECK_THAT(all, Contains(">_x005F_x0041_</t>") && Contains("<v>_x005F_x0041_</v>") &&
                      Contains(">a_x005F_x00e9_x005F_x0042_ _x004_ _x00G1_ _X0041_</t>"));
}

// Found by review: a title of 40,000 characters was "our mistake, not yours".
TEST_CASE("render_xlsx: words that a cell has no room for are cut and the cell says so") {
  constexpr std::size_t most = 32'767;
  const std::string mark = " [cut here: a cell has no room for more]";
  const auto written = [](const std::string& words) {
    Workbook book = sample();
    book.title = words;
    book.sheets[0].rows[1] = {words};
    const std::string texts = part(book, "xl/sharedStrings.xml");
    const std::size_t start = texts.rfind("<t>", texts.find(words.substr(0, 100))) + 3;
    return texts.substr(start, texts.find("</t>", start) - start);
  };
  CHECK(written(std::string(most, 'x')) == std::string(most, 'x'));
  CHECK(written(std::string(most + 1, 'x')) == std::string(most - mark.size(), 'x') + mark);
  std::string accents;
  std::string beyond;  // the basic plane: each takes the room of two
  for (int i = 0; i < 40'000; ++i) {
    accents += "\xC3\xA9";
    beyond += "\xF0\x9F\x98\x80";
  }
  CHECK(count_characters(written(accents)) == most);
  const std::string half = written(beyond);
  CHECK(count_characters(half) == (most - mark.size()) / 2 + mark.size());
  CHECK(half.ends_with(mark));
  Workbook book = sample();
  book.sheets[0].rows[1] = {Formula{"=A1", std::string(40'000, 'y')}};
  CHECK_THAT(part(book, "xl/worksheets/sheet1.xml"), Contains("yy" + mark + "</v>"));
}

TEST_CASE("render_xlsx: the day on which it counts as made") {
  Workbook book = sample();
  book.created = "2026-06-14";
  CHECK_THAT(part(book, "docProps/core.xml"), Contains("2026-06-14T00:00:00Z"));
  CHECK(bytes_of(book) == bytes_of(book));
  book.created = "yesterday";
  CHECK_THAT(part(book, "docProps/core.xml"), Contains("1980-01-01T00:00:00Z"));
}

// Rows kept the height of one line where the program that opens the file does not fit them.
TEST_CASE("render_xlsx: rows are as high as their words, and print below their header") {
  Workbook book = sample();
  book.sheets[0].rows.push_back({std::string(200, 'a') + " " + std::string(200, 'b')});
  const std::string sheet = part(book, "xl/worksheets/sheet1.xml");
  CHECK_THAT(sheet, Contains("<row r=\"2\" spans=\"1:1\" ht=\"30\" customHeight=\"1\""));
  CHECK_THAT(sheet, Contains("fitToWidth") || Contains("fitToHeight=\"0\""));
  CHECK_THAT(part(book, "xl/workbook.xml"), Contains("_xlnm.Print_Titles"));
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
  const auto refused_cell = [&](SheetCell cell) {
    Workbook with = sample();
    with.sheets[0].rows[1] = {std::move(cell)};
    refused(with);
  };
  refused_cell({std::nan("")});
  refused_cell({std::numeric_limits<double>::infinity()});
  refused_cell(Formula{"=1/0", std::nan("")});
  refused_cell(Formula{"1+1", 2.0});
  refused_cell(Formula{"=" + std::string(8'192, '1'), 2.0});
  refused_cell({1.0, 31});
}
