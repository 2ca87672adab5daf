#include <algorithm>

#include "report/report_tables.hpp"
#include "report/report_workbook.hpp"
#include "report/sentences.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

Sheet verdict_of(const WrittenUp& written) {
  return report_workbook(written.write_up).sheets.front();
}

/// The line whose second cell begins so; a failed check where there is none.
const std::vector<SheetCell>& line_of(const Sheet& sheet, const std::string& about) {
  for (const auto& row : sheet.rows) {
    if (std::get<std::string>(row[1].content).starts_with(about)) return row;
  }
  FAIL("no line " << about);
  return sheet.rows.front();
}

std::string words(const SheetCell& cell) {
  return std::get<std::string>(cell.content);
}

}  // namespace

TEST_CASE("report_workbook_verdict: the sentence first, then each series with its reasons") {
  const WrittenUp written = written_demo({"rigid-withstood"});
  const Sheet sheet = verdict_of(written);
  CHECK(sheet.name == "verdict");
  CHECK(words(sheet.rows[1][4]) == headline(written.test(), written.assessment()));
  const auto& small = line_of(sheet, "small (");
  CHECK(words(small[2]) == "withstood");
  CHECK_THAT(words(small[4]), Contains("all 11 places struck"));
}

TEST_CASE("report_workbook_verdict: the loss is looked up, to the decimals that it is told with") {
  const WrittenUp written = written_demo({"rigid-withstood"});
  const Sheet sheet = verdict_of(written);
  const SheetCell& loss = line_of(sheet, "loss, after")[2];
  CHECK(std::get<Formula>(loss.content).text == "='comparison'!$D$2");
  CHECK(loss.decimals == 1);
  CHECK(words(line_of(sheet, "loss, after")[3]) == "%");
  CHECK_THAT(words(line_of(sheet, "loss, low, after")[4]), Contains("95 %"));
  CHECK(words(line_of(sheet, "a drop?")[2]) == real_answer(written.assessment().power[0]));
  CHECK(words(line_of(sheet, "beyond 5 %?")[2]) == "no, within it");
}

TEST_CASE("report_workbook_verdict: price and coefficients are the reader's") {
  const WrittenUp written = written_demo({"rigid-withstood"});
  const Sheet sheet = verdict_of(written);
  const auto& price = line_of(sheet, "price: yours to change");
  CHECK(price[2].to_change);
  CHECK(std::get<double>(price[2].content) == 89.0);
  CHECK(words(price[3]) == "EUR");
  CHECK(words(line_of(sheet, "price per measured watt")[3]) == "EUR/W");
  for (const char* panel : {"panel", "control"}) {
    const auto& coefficient =
        line_of(sheet, "temperature coefficient of the " + std::string(panel));
    CHECK(coefficient[2].to_change);
    CHECK_THAT(std::get<double>(coefficient[2].content), WithinAbs(-0.38, 1e-12));
    const auto& above = line_of(sheet, "cells above the sensor of the " + std::string(panel));
    CHECK(std::get<double>(above[2].content) == 3.0);
    CHECK_THAT(words(above[4]), Contains("assumed"));
  }
}

TEST_CASE("report_workbook_verdict: a reader's limit is told as one, beside the protocol's") {
  const WrittenUp written = written_demo({"rigid-withstood"});
  const ReaderLimit limit = answer_reader_limit(written.assessment(), percent(1.0));
  WriteUp with = written.write_up;
  with.judged[0].reader_limit = &limit;
  const Sheet sheet = report_workbook(with).sheets.front();
  CHECK(words(line_of(sheet, "a reader's limit, after")[4]) ==
        reader_limit_sentence(written.assessment().power[0], percent(1.0), limit.power[0]));
  CHECK(words(line_of(sheet, "beyond 5 %?")[2]) == "no, within it");
}

TEST_CASE("report_workbook_verdict: a comparison that cannot be made says why") {
  const WrittenUp written = written_demo({"rigid-undecided"});
  const auto line = line_of(verdict_of(written), "power, after");
  CHECK_THAT(words(line[4]), Contains("no comparison: one set-up before"));
}

TEST_CASE("report_workbook_verdict: every caution, its source, and that this is no certification") {
  const WrittenUp written = written_demo({"rigid-withstood"});
  const Sheet sheet = verdict_of(written);
  const auto& cautions = written.assessment().cautions;
  REQUIRE_FALSE(cautions.empty());
  const auto lines = std::count_if(sheet.rows.begin(), sheet.rows.end(), [](const auto& row) {
    return words(row[1]).starts_with("caution: ");
  });
  CHECK(lines == static_cast<std::ptrdiff_t>(cautions.size()));
  for (const auto& row : sheet.rows) {
    if (words(row[1]).starts_with("caution: ")) CHECK_THAT(words(row[4]), Contains("\nSource: "));
  }
  CHECK(words(line_of(sheet, "what this is")[4]) == closing_sentence());
  CHECK(words(line_of(sheet, "made by")[4]) == "hailwright 1.2.3");
}
