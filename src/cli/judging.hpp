#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/evaluate/reader_limit.hpp"
#include "hailwright/report/compose.hpp"

namespace hailwright::cli {

/// How records are judged, as typed.
struct JudgingOptions {
  std::vector<std::string> records;
  std::string trials = "1000000";  ///< a number, 0 for none, or "adaptive"
  std::string seed = "1";
  std::string threads;  ///< empty: as many as the processor has cores
  bool shortest = false;
  std::string limit;  ///< a reader's own, such as "2%"; may be empty
};

/// How records are judged.
struct Judging {
  std::optional<CheckPlan> check;  ///< none: no random trials
  std::optional<Ratio> limit;      ///< a reader's own
};

/// Nothing, with messages on standard error, where an option cannot be understood.
std::optional<Judging> read_judging(const JudgingOptions& options);

/// Tests with their judgements, for the writers. Refers to the tests.
class JudgedTests {
public:
  /// Judges them, with a line on the terminal while their random trials last.
  JudgedTests(const std::vector<Test>& tests, const Judging& judging);
  JudgedTests(const JudgedTests&) = delete;
  JudgedTests& operator=(const JudgedTests&) = delete;
  JudgedTests(JudgedTests&&) = delete;
  JudgedTests& operator=(JudgedTests&&) = delete;
  ~JudgedTests() = default;

  [[nodiscard]] const std::vector<Judged>& all() const { return judged_; }
  [[nodiscard]] bool all_withstood() const;

private:
  std::vector<Assessment> assessments_;
  std::vector<ReaderLimit> limits_;
  std::vector<Judged> judged_;
};

}  // namespace hailwright::cli
