#include <set>

#include "report/report_sections.hpp"
#include "support/catch.hpp"
#include "support/document_words.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using hailwright::testing::seen;
using hailwright::testing::TestBuilder;
using hailwright::testing::words;
using hailwright::testing::written_demo;
using hailwright::testing::WrittenUp;

namespace {

std::set<std::string> pictures(const Document& document) {
  std::set<std::string> ids;
  for (const Block& block : document.blocks) {
    if (const auto* figure = std::get_if<Figure>(&block)) CHECK(ids.insert(figure->id).second);
  }
  return ids;
}

}  // namespace

TEST_CASE("report results: delivery with its picture and the table of throws") {
  WrittenUp c = written_demo({"rigid-withstood"});
  c.test().record.shots[0].photo = "hit.jpg";
  ReportPart part(c.write_up, 0);
  Document out;
  append_delivery(out, part, "");
  CHECK(pictures(out) == std::set<std::string>{"hit-map", "shot-energy"});
  CHECK_THAT(words(out),
             Contains("11 of 11 places hit") && Contains("Photo, not shown here: Throw 1"));
  Document again;
  append_delivery(again, part, "hit-map");
  CHECK(pictures(again) == std::set<std::string>{"shot-energy"});
  // Found by review: "the picture at the top" told a reader nothing.
  CHECK_THAT(words(again), !Contains("the picture at the top"));
  CHECK_THAT(words(out), Contains("| 14 | large |") && Contains("(places.csv)"));
}

TEST_CASE("report results: power with pictures and instruments and budget") {
  const WrittenUp c = written_demo({"rigid-withstood"});
  const ReportPart part(c.write_up, 0);
  Document out;
  append_power(out, part, "hit-map");
  CHECK(pictures(out) == std::set<std::string>{"loss", "power-by-set-up-after", "budget-after"});
  CHECK_THAT(words(out),
             Contains("loss 0.7 %") && Contains("1 % of the reading and 3 steps of the display") &&
                 Contains("Where the uncertainty comes from") && Contains("degrees of freedom"));
}

TEST_CASE("report results: another instrument after the shots is named") {
  TestBuilder b;
  Tools after;
  after.meter.origin.line = 3;
  after.meter.id = "meter 2";
  b.test.record.tools_after = after;
  const WrittenUp c(b);
  Document out;
  append_power(out, ReportPart(c.write_up, 0), "");
  CHECK_THAT(words(out), Contains("power meter after the shots") && Contains("meter 2") &&
                             !Contains("sun meter after the shots"));
}

TEST_CASE("report results: a record without readings has a section all the same") {
  TestBuilder b;
  Test test = b.build();
  test.record.readings.clear();
  test.record.setups.clear();
  WrittenUp c(test);
  Document out;
  append_power(out, ReportPart(c.write_up, 0), "");
  CHECK_THAT(words(out), Contains("there are no readings after the shots") &&
                             !Contains("Where the uncertainty"));
  Document readings;
  append_readings(readings, ReportPart(c.write_up, 0));
  CHECK(readings.blocks.empty());
  c.test().protocol.decide.judges_power = false;
  c.judge();
  Document looks;
  append_power(looks, ReportPart(c.write_up, 0), "");
  CHECK_THAT(words(looks), Contains("judges by looks alone"));
}

TEST_CASE("report results: a reader's limit stands with the power") {
  WrittenUp c = written_demo({"rigid-withstood"});
  const ReaderLimit limit = answer_reader_limit(c.assessment(), percent(2));
  c.write_up.judged[0].reader_limit = &limit;
  Document out;
  append_power(out, ReportPart(c.write_up, 0), "");
  CHECK_THAT(words(out), Contains("a reader's limit of 2 %: undecided") &&
                             Contains("It is not the protocol's; the verdict stays"));
}

TEST_CASE("report results: looks with their photos") {
  TestBuilder b;
  Finding scuff = seen("scuff", "place 2");
  scuff.photo = "scuff.jpg";
  b.look(0, {scuff});
  b.test.record.looks[0].photos = {"front.jpg"};
  const WrittenUp c(b);
  ReportPart part(c.write_up, 0);
  Document out;
  append_looks(out, part);
  CHECK_THAT(words(out), Contains("scuff (place 2; new, not a major defect)") &&
                             Contains("Before the shots (front.jpg)") &&
                             Contains("After small: scuff at place 2 (scuff.jpg)"));
  Document nobody;
  b.test.record.looks.clear();
  const WrittenUp blind(b);
  ReportPart unseen(blind.write_up, 0);
  append_looks(nobody, unseen);
  CHECK_THAT(words(nobody), Contains("nobody looked"));
}

TEST_CASE("report results: what could have been seen and the readings") {
  const WrittenUp c{TestBuilder()};
  const ReportPart part(c.write_up, 0);
  Document out;
  append_could_have_seen(out, part);
  CHECK_THAT(words(out),
             Contains("would have shown 9 times in 10") && Contains("One panel is one panel"));
  Document readings;
  append_readings(readings, part);
  const auto& table = std::get<Table>(readings.blocks.at(1));
  CHECK(table.rows.size() == c.test().record.readings.size());
}
