#include "support/written_up.hpp"

#include <algorithm>

#include "support/catch.hpp"
#include "support/real_files.hpp"

namespace hailwright::testing {

WrittenUp::WrittenUp(std::vector<Test> tests) : tests_(std::move(tests)) {
  for (const Test& test : tests_)
    assessments_.push_back(assess(test));
  for (std::size_t i = 0; i < tests_.size(); ++i)
    write_up_.judged.push_back({&tests_[i], &assessments_[i]});
  write_up_.sources = &sources_;
  write_up_.photos.resize(tests_.size());
  write_up_.version = "0.0.0";
}

std::vector<Test> demo_records() {
  std::vector<Test> tests;
  for (const char* name :
       {"rigid-withstood", "rigid-undecided", "rigid-not-reached", "flexible-damaged",
        "flexible-siblings", "flexible-outlying", "flexible-extended", "flexible-power-rose"})
    tests.push_back(read_record(std::string("protocols/demo/") + name + ".yaml"));
  return tests;
}

const DataCell& cell_of(const DataTable& table, std::string_view title, std::size_t row) {
  CAPTURE(table.name, title, row);
  const auto found = std::find_if(table.columns.begin(), table.columns.end(),
                                  [&](const DataColumn& column) { return column.title == title; });
  REQUIRE(found != table.columns.end());
  REQUIRE(row < table.rows.size());
  return table.rows[row].at(static_cast<std::size_t>(found - table.columns.begin()));
}

double number_of(const DataTable& table, std::string_view title, std::size_t row) {
  const auto* number = std::get_if<double>(&cell_of(table, title, row));
  CAPTURE(table.name, title, row);
  REQUIRE(number != nullptr);
  return *number;
}

std::string words_of(const DataTable& table, std::string_view title, std::size_t row) {
  const auto* words = std::get_if<std::string>(&cell_of(table, title, row));
  CAPTURE(table.name, title, row);
  REQUIRE(words != nullptr);
  return *words;
}

bool is_blank(const DataTable& table, std::string_view title, std::size_t row) {
  return std::holds_alternative<std::monostate>(cell_of(table, title, row));
}

}  // namespace hailwright::testing
