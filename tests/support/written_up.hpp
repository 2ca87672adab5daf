#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "hailwright/report/write_up.hpp"

namespace hailwright::testing {

/// Tests judged without random trials, as the writers get them.
class WrittenUp {
public:
  explicit WrittenUp(std::vector<Test> tests);
  WrittenUp(const WrittenUp&) = delete;
  WrittenUp& operator=(const WrittenUp&) = delete;
  WrittenUp(WrittenUp&&) = delete;
  WrittenUp& operator=(WrittenUp&&) = delete;
  ~WrittenUp() = default;

  [[nodiscard]] const WriteUp& write_up() const { return write_up_; }
  [[nodiscard]] const Test& test(std::size_t record = 0) const { return tests_[record]; }
  [[nodiscard]] const Assessment& assessment(std::size_t record = 0) const {
    return assessments_[record];
  }

private:
  std::vector<Test> tests_;
  std::vector<Assessment> assessments_;
  SourceSet sources_;
  WriteUp write_up_;
};

/// All demo records, read from protocols/demo.
std::vector<Test> demo_records();

/// The cell of a column by its title; a failed check where there is no such column.
const DataCell& cell_of(const DataTable& table, std::string_view title, std::size_t row);
double number_of(const DataTable& table, std::string_view title, std::size_t row);
std::string words_of(const DataTable& table, std::string_view title, std::size_t row);
bool is_blank(const DataTable& table, std::string_view title, std::size_t row);

}  // namespace hailwright::testing
