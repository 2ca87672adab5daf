#pragma once

#include <deque>
#include <vector>

#include "hailwright/report/compose.hpp"

namespace hailwright::testing {

/// Judged tests, kept as long as what is made from them is looked at.
struct JudgedRecords {
  void add(Test test) {
    tests.push_back(std::move(test));
    assessments.push_back(assess(tests.back()));
    judged.push_back({&tests.back(), &assessments.back()});
  }
  std::deque<Test> tests;
  std::deque<Assessment> assessments;
  std::vector<Judged> judged;
};

}  // namespace hailwright::testing
