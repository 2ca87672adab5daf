#pragma once

#include <deque>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/report/write_up.hpp"
#include "support/test_builder.hpp"

namespace hailwright::testing {

/// Records judged as the writers get them, kept as long as what is made from them is looked at.
class WrittenUp {
public:
  /// How all records are judged: without random trials, or with them.
  using Trials = std::optional<CheckPlan>;

  explicit WrittenUp(Trials trials = std::nullopt);
  explicit WrittenUp(Test test, Trials trials = std::nullopt);
  explicit WrittenUp(const TestBuilder& builder) : WrittenUp(builder.build()) {}

  void add(Test test);
  /// A record of the source tree, with the names of its files in `sources`.
  void read(const std::string& path_in_tree);
  /// Judges all again, after a test was bent. Limits of readers are forgotten.
  void judge();

  [[nodiscard]] Test& test(std::size_t record = 0) { return tests_.at(record); }
  [[nodiscard]] const Test& test(std::size_t record = 0) const { return tests_.at(record); }
  [[nodiscard]] Assessment& assessment(std::size_t record = 0) { return assessments_.at(record); }
  [[nodiscard]] const Assessment& assessment(std::size_t record = 0) const {
    return assessments_.at(record);
  }
  [[nodiscard]] const std::vector<Judged>& judged() const { return write_up.judged; }
  [[nodiscard]] const SourceSet& sources() const { return *sources_; }

  /// To be bent by each case.
  WriteUp write_up;

private:
  // Where they lie is told to `write_up`, and stays so when this moves.
  std::unique_ptr<SourceSet> sources_;
  std::deque<Test> tests_;
  std::deque<Assessment> assessments_;
  Trials trials_;
};

/// So few random trials that a test can wait for them, with the shortest interval too.
CheckPlan few_trials();

/// All records of the demo by the names of their files without ".yaml", in alphabetic order.
const std::vector<std::string>& demo_names();

/// "protocols/demo/NAME.yaml".
std::string demo_path(const std::string& name);

/// Records of the demo.
WrittenUp written_demo(const std::vector<std::string>& names = demo_names(),
                       WrittenUp::Trials trials = std::nullopt);

}  // namespace hailwright::testing
