#pragma once

#include <string>

#include "hailwright/report/write_up.hpp"
#include "support/test_builder.hpp"

namespace hailwright::testing {

/// A judged test as a write-up, to be bent by each case. Stays where it was made.
class ReportCase {
public:
  explicit ReportCase(Test made);
  /// A record of the source tree, with the names of its files.
  explicit ReportCase(const std::string& path_in_tree);
  explicit ReportCase(const TestBuilder& builder) : ReportCase(builder.build()) {}
  ReportCase(const ReportCase&) = delete;
  ReportCase& operator=(const ReportCase&) = delete;

  /// Judges again, after `test` was bent.
  void judge();

  SourceSet sources;
  Test test;
  Assessment assessment;
  WriteUp write_up;

private:
  void begin();
};

/// The document as Markdown without its line breaks.
std::string words(const Document& document);

}  // namespace hailwright::testing
