#include "report/report_part.hpp"

#include "support/catch.hpp"
#include "support/document_words.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;
using hailwright::testing::words;
using hailwright::testing::WrittenUp;

namespace {

const Table& only_table(const Document& document) {
  REQUIRE(document.blocks.size() == 1);
  REQUIRE(std::holds_alternative<Table>(document.blocks[0]));
  return std::get<Table>(document.blocks[0]);
}

}  // namespace

TEST_CASE("report part: a table of one record leaves out the record's name") {
  const WrittenUp c{TestBuilder()};
  const ReportPart part(c.write_up, 0);
  Document out;
  part.append_table(out, "shots");
  const Table& table = only_table(out);
  CHECK(table.columns.front().title != "record");
  CHECK(table.rows.size() == c.test().record.shots.size());
  CHECK(table.rows[0].size() == table.columns.size());
  CHECK(table.file == "shots.csv");
}

TEST_CASE("report part: with several records each shows its own rows beside the file of all") {
  WrittenUp c{TestBuilder()};
  Test other = c.test();
  other.record.shots.pop_back();
  const Assessment judged = assess(other);
  c.write_up.judged.push_back({&other, &judged});
  c.write_up.photos.resize(2);
  const ReportPart part(c.write_up, 1);
  CHECK(part.suffix == "-2");
  CHECK(part.link("power") == "#power-2");
  Document out;
  part.append_table(out, "shots");
  const Table& table = only_table(out);
  CHECK(table.rows.size() == other.record.shots.size());
  CHECK(table.file == "shots.csv");
  Document headed;
  part.section(headed, "Power", "power");
  CHECK(std::get<Heading>(headed.blocks.at(0)).id == "power-2");
}

TEST_CASE("report part: a table too long for a page is left to its file") {
  const WrittenUp c{TestBuilder()};
  const ReportPart part(c.write_up, 0);
  Document out;
  part.append_table(out, "readings", 3);
  CHECK_THAT(words(out), Contains("too many for a page") && Contains("(readings.csv)"));
  Document none;
  part.append_table(none, "no such table");
  CHECK(none.blocks.empty());
}

TEST_CASE("report part: a photo is shown once and told in words where it cannot be shown") {
  WrittenUp c{TestBuilder()};
  c.test().record.photos = {{{}, "a.jpg", "the mounting"}, {{}, "b.jpg", "the launcher"}};
  Photo photo;
  photo.file = "photos/1-a.jpg";
  photo.title = "the mounting";
  c.write_up.photos[0]["a.jpg"] = photo;
  ReportPart part(c.write_up, 0);
  Document out;
  part.append_photo(out, "a.jpg");
  part.append_photo(out, "./a.jpg");
  part.append_photo(out, "b.jpg");
  part.append_photo(out, "");
  REQUIRE(out.blocks.size() == 2);
  CHECK(std::get<Photo>(out.blocks[0]).file == "photos/1-a.jpg");
  CHECK(std::get<Photo>(out.blocks[0]).title == "The mounting");
  CHECK(std::get<Paragraph>(out.blocks[1]).text[0].text ==
        "Photo, not shown here: the launcher (b.jpg)");
}

TEST_CASE("report part: a write-up without photos tells them all in words") {
  WrittenUp c{TestBuilder()};
  c.test().record.photos = {{{}, "a.jpg", "the mounting"}};
  c.write_up.photos.clear();
  ReportPart part(c.write_up, 0);
  Document out;
  part.append_photo(out, "a.jpg");
  CHECK_THAT(words(out), Contains("not shown here"));
}
