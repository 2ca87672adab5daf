#include "report/report_workbook.hpp"

#include <cmath>
#include <regex>
#include <set>

#include "support/catch.hpp"
#include "support/test_builder.hpp"
#include "support/written_up.hpp"

// That the formulas give these values when another program works them out, and what hailwright
// gives when cells are changed, is shown by tests/outside/spreadsheet.

using namespace hailwright;
using namespace hailwright::testing;

namespace {

std::vector<std::string> names_of(const Workbook& book) {
  std::vector<std::string> names;
  for (const Sheet& sheet : book.sheets)
    names.push_back(sheet.name);
  return names;
}

const Sheet& sheet_of(const Workbook& book, const std::string& name) {
  for (const Sheet& sheet : book.sheets) {
    if (sheet.name == name) return sheet;
  }
  FAIL("no sheet " << name);
  return book.sheets.front();
}

/// The cell below a header that begins so.
const SheetCell& cell_below(const Sheet& sheet, const std::string& header, std::size_t row) {
  for (std::size_t c = 0; c < sheet.rows[0].size(); ++c) {
    const auto& title = std::get<std::string>(sheet.rows[0][c].content);
    if (title == header || title.starts_with(header + " [") || title.starts_with(header + ":"))
      return sheet.rows.at(row + 1).at(c);
  }
  FAIL("no column " << header);
  return sheet.rows.front().front();
}

template <class Visit>
void each_formula(const Workbook& book, Visit visit) {
  for (const Sheet& sheet : book.sheets) {
    for (const auto& row : sheet.rows) {
      for (const SheetCell& cell : row) {
        if (const auto* formula = std::get_if<Formula>(&cell.content)) visit(*formula);
      }
    }
  }
}

Workbook of_demo(const std::string& name) {
  const WrittenUp written = written_demo({name});
  return report_workbook(written.write_up);
}

}  // namespace

TEST_CASE("report_workbook: its sheets, and the day of the record") {
  const Workbook book = of_demo("rigid-not-reached");
  CHECK(names_of(book) == std::vector<std::string>{"verdict", "readings", "set-ups", "places",
                                                   "shots", "budget", "comparison"});
  const WrittenUp written = written_demo({"rigid-not-reached"});
  CHECK(book.created == written.test().record.date);
  CHECK(book.title == "Hail test: " + written.test().record.title);
}

TEST_CASE(
    "report_workbook: the day of the write-up goes before that of the test, the latest of all") {
  Test first = TestBuilder().build();
  Test second = first;
  first.record.date = "2026-06-14";
  first.record.write_up.issued = "2026-07-01";
  second.record.date = "2026-06-20";
  second.record.write_up.issued.clear();
  WrittenUp written(first);
  written.add(second);
  CHECK(report_workbook(written.write_up).created == "2026-07-01");
}

TEST_CASE("report_workbook: formulas use functions of the 2007 format alone, and finite values") {
  const WrittenUp written = written_demo();
  const std::set<std::string> old_functions{"SUMPRODUCT", "EXP", "LN", "IF", "SUMXMY2"};
  const std::regex name("([A-Z][A-Z0-9.]*)\\(");
  int formulas = 0;
  each_formula(report_workbook(written.write_up), [&](const Formula& formula) {
    ++formulas;
    CAPTURE(formula.text);
    for (std::sregex_iterator it(formula.text.begin(), formula.text.end(), name), end; it != end;
         ++it)
      CHECK(old_functions.count((*it)[1]) == 1);
    if (const auto* number = std::get_if<double>(&formula.value)) CHECK(std::isfinite(*number));
  });
  CHECK(formulas > 2000);
}

TEST_CASE("report_workbook: a reading is normalised, a set-up and the loss are summed") {
  const Workbook book = of_demo("rigid-withstood");
  const Sheet& readings = sheet_of(book, "readings");
  const auto& normalised = std::get<Formula>(cell_below(readings, "normalised power", 0).content);
  CHECK(normalised.text == "=$H$2/($I$2/1000)/(1+$O$2/100*($J$2+$P$2*$I$2/1000-25))");
  CHECK(std::get<Formula>(cell_below(readings, "q", 0).content).text == "=LN($K$2)");
  const Sheet& setups = sheet_of(book, "set-ups");
  CHECK(std::get<Formula>(cell_below(setups, "mean of q", 0).content).text ==
        "=SUMPRODUCT('readings'!$Q$2:$Q$13,'readings'!$L$2:$L$13)");
  const Sheet& comparison = sheet_of(book, "comparison");
  CHECK(std::get<Formula>(cell_below(comparison, "lambda", 0).content).text ==
        "=SUMPRODUCT('readings'!$M$2:$M$97,'readings'!$L$2:$L$97)");
  const auto& loss = std::get<Formula>(cell_below(comparison, "loss", 0).content);
  CHECK(loss.text == "=100*(1-EXP($N$2))");
  CHECK_THAT(std::get<double>(loss.value), WithinAbs(0.6676, 0.0001));
  CHECK(std::get<Formula>(cell_below(comparison, "price per measured watt", 0).content).text ==
        "=$T$2/$R$2");
}

TEST_CASE("report_workbook: U stays, and a cell tells when readings were changed") {
  const Workbook book = of_demo("rigid-withstood");
  const Sheet& comparison = sheet_of(book, "comparison");
  CHECK(std::holds_alternative<double>(cell_below(comparison, "U of lambda", 0).content));
  const auto& kept = std::get<Formula>(cell_below(comparison, "readings", 0).content);
  CHECK_THAT(kept.text, Contains("SUMXMY2") && Contains(readings_changed));
  CHECK(std::get<std::string>(kept.value) == readings_as_judged);
}

TEST_CASE("report_workbook: readings are the reader's, what follows them is not") {
  const Workbook book = of_demo("rigid-withstood");
  const Sheet& readings = sheet_of(book, "readings");
  for (const char* mine : {"power", "irradiance", "temperature"})
    CHECK(cell_below(readings, mine, 3).to_change);
  for (const char* other : {"normalised power", "q", "weight, after", "q as judged"})
    CHECK_FALSE(cell_below(readings, other, 3).to_change);
}

TEST_CASE("report_workbook: records without readings or price have the sheets that remain") {
  Test test = TestBuilder().build();
  test.record.readings.clear();
  test.record.setups.clear();
  const WrittenUp written(test);
  const Workbook book = report_workbook(written.write_up);
  CHECK(names_of(book) == std::vector<std::string>{"verdict", "places", "shots", "comparison"});
  each_formula(book, [](const Formula& formula) { FAIL_CHECK(formula.text); });
}

TEST_CASE("report_workbook: labels stay words and enter no formula") {
  const std::string awkward = "<b>\"A\" & =1+1 |x|";
  Test test = TestBuilder().siblings(3, 0.01).build();
  test.record.title = awkward;
  test.record.siblings[0].label = "=1+1";
  test.record.setups[0].name = "'\"";
  const WrittenUp written(test);
  const Workbook book = report_workbook(written.write_up);
  for (const Sheet& sheet : book.sheets) {
    CAPTURE(sheet.name);
    CHECK(std::get<std::string>(sheet.rows.at(1)[0].content) == awkward);
  }
  each_formula(book, [&](const Formula& formula) {
    CHECK_THAT(formula.text, !Contains("1+1") && !Contains("<b>"));
  });
}

TEST_CASE("report_workbook: several records stand below each other, each with cells of its own") {
  const WrittenUp written = written_demo();
  const Workbook book = report_workbook(written.write_up);
  const Sheet& comparison = sheet_of(book, "comparison");
  REQUIRE(comparison.rows.size() == hailwright::testing::demo_names().size() + 1);
  const auto lambda = [&](std::size_t row) {
    return std::get<Formula>(cell_below(comparison, "lambda", row).content).text;
  };
  CHECK(lambda(0) != lambda(3));
  CHECK(std::get<Formula>(cell_below(comparison, "price", 0).content).text !=
        std::get<Formula>(cell_below(comparison, "price", 1).content).text);
}
