#include <cmath>
#include <regex>
#include <set>

#include "hailwright/report/line_up.hpp"
#include "report/sentences.hpp"
#include "support/catch.hpp"
#include "support/line_up_examples.hpp"

// That the formulas give these values when another program works them out, and what hailwright
// gives for another price, is shown by tests/outside/spreadsheet.

using namespace hailwright;
using namespace hailwright::testing;

namespace {

const SheetCell& cell(const Sheet& sheet, const std::string& header, std::size_t row) {
  for (std::size_t c = 0; c < sheet.rows[0].size(); ++c) {
    const auto& words = std::get<std::string>(sheet.rows[0][c].content);
    if (words == header || words.starts_with(header + " [")) return sheet.rows.at(row + 1).at(c);
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

}  // namespace

TEST_CASE("line-up workbook: its sheets, a row a record on two of them") {
  const LineUpExample example = eight_panels();
  const Workbook book = line_up_workbook(example.view());
  std::vector<std::string> names;
  for (const Sheet& sheet : book.sheets)
    names.push_back(sheet.name);
  CHECK(names == std::vector<std::string>{"line-up", "prices", "differences", "about"});
  CHECK(book.sheets[0].rows.size() == 1 + example.entries.size());
  CHECK(book.sheets[1].rows.size() == 1 + example.entries.size());
  CHECK(book.sheets[2].rows.size() == 1 + example.line_up.groups[0].differences.size());
  CHECK(book.created == "2026-06-14");
  CHECK(line_up_workbook(single_panel().view()).sheets.size() == 3);
}

TEST_CASE("line-up workbook: a row of prices is that of the same record, in whichever order") {
  LineUpExample example = eight_panels();
  auto& ranks = example.line_up.groups[0].ranks;
  std::reverse(ranks.begin(), ranks.end());
  std::reverse(example.line_up.unranked.begin(), example.line_up.unranked.end());
  const Workbook book = line_up_workbook(example.view());
  for (std::size_t row = 0; row < example.entries.size(); ++row) {
    CAPTURE(row);
    CHECK(std::get<std::string>(cell(book.sheets[0], "record", row).content) ==
          std::get<std::string>(cell(book.sheets[1], "record", row).content));
  }
}

TEST_CASE("line-up workbook: prices and what rests on them follow the sheet of prices") {
  const LineUpExample example = eight_panels();
  const Workbook book = line_up_workbook(example.view());
  const Sheet& all = book.sheets[0];
  const auto& price = std::get<Formula>(cell(all, "price", 1).content);
  CHECK(price.text == "=IF('prices'!$C$3=\"\",\"\",'prices'!$C$3)");
  CHECK(std::get<double>(price.value) == 110.0);
  const auto& per_watt = std::get<Formula>(cell(all, "price per watt", 1).content);
  CHECK(per_watt.text == "=IF('prices'!$L$3=\"\",\"\",'prices'!$L$3)");
  CHECK_THAT(std::get<double>(per_watt.value), WithinRel(110.0 / 97.0, 1e-12));
  const auto& u = std::get<Formula>(cell(all, "u of power", 1).content);
  CHECK_THAT(std::get<double>(u.value), WithinRel(0.03 * 97.0, 1e-12));
  // Loss, ranks and words are as judged.
  CHECK(std::holds_alternative<double>(cell(all, "loss", 1).content));
  CHECK(std::holds_alternative<double>(cell(all, "rank, first", 1).content));
  // The second record that is not ranked has neither a price nor a power.
  const auto& blank = std::get<Formula>(cell(all, "price per watt", 6).content);
  CHECK(std::get<std::string>(blank.value).empty());
}

TEST_CASE("line-up workbook: formulas use functions of the 2007 format alone, and finite values") {
  const std::set<std::string> old_functions{"IF", "AND", "N", "ISNUMBER"};
  const std::regex name("([A-Z][A-Z0-9.]*)\\(");
  const LineUpExample example = eight_panels();
  int formulas = 0;
  each_formula(line_up_workbook(example.view()), [&](const Formula& formula) {
    ++formulas;
    CAPTURE(formula.text);
    for (std::sregex_iterator it(formula.text.begin(), formula.text.end(), name), end; it != end;
         ++it)
      CHECK(old_functions.count((*it)[1]) == 1);
    if (const auto* number = std::get_if<double>(&formula.value)) CHECK(std::isfinite(*number));
  });
  CHECK(formulas == 8 * (10 + 16));
}

TEST_CASE("line-up workbook: labels stay words and enter no formula") {
  LineUpExample example = five_panels();
  const std::string awkward = "=1+1 'a'!B2 \"|x|";
  for (LineUpEntry& entry : example.entries)
    entry.title = entry.panel = entry.connector = awkward;
  const Workbook book = line_up_workbook(example.view());
  CHECK(std::get<std::string>(cell(book.sheets[1], "record", 0).content) == awkward);
  each_formula(book, [&](const Formula& formula) { CHECK_THAT(formula.text, !Contains("|x|")); });
}

TEST_CASE(
    "line-up workbook: each caution once with its source, and that this is no certification") {
  const LineUpExample example = five_panels();
  const Sheet about = line_up_workbook(example.view()).sheets.back();
  int cautions = 0;
  for (const auto& row : about.rows) {
    if (!std::get<std::string>(row[0].content).starts_with("caution: ")) continue;
    ++cautions;
    CHECK_THAT(std::get<std::string>(row[1].content), Contains("\nSource: "));
  }
  CHECK(cautions == 2);
  CHECK(std::get<std::string>(about.rows.back()[1].content) == closing_sentence());
}
