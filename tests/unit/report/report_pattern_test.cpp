#include "hailwright/report/write_up.hpp"
#include "report/report_sections.hpp"
#include "support/catch.hpp"
#include "support/curve_readings.hpp"
#include "support/document_words.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("report pattern: a section with picture, facts and table") {
  Test test = TestBuilder().build();
  test.record.panel.substrings = 3;
  test.record.curves = drawn_curves(CurvePattern::substring_gone, 0.45, 3);
  const WrittenUp written(test);
  Document out;
  append_pattern(out, ReportPart(written.write_up, 0));
  const std::string s = words(out);
  CHECK_THAT(s, Contains("What the loss looks like") && Contains("Nothing is judged by it") &&
                    Contains("one substring gone") && Contains("curves.csv"));
}

TEST_CASE("report pattern: a record without figures of the curve has no such section") {
  const WrittenUp written{TestBuilder()};
  Document out;
  append_pattern(out, ReportPart(written.write_up, 0));
  CHECK(out.blocks.empty());
}
