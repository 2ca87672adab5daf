#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/evaluate/assessment.hpp"

namespace hailwright::honesty {

/// A share of tests, with the standard error that their number leaves.
struct Share {
  int of = 0;
  int tests = 0;
  [[nodiscard]] double value() const;
  [[nodiscard]] double standard_error() const;
};

/// What the tests of one cell at one true loss showed.
struct Tally {
  int tests = 0;
  int covered = 0;  ///< the interval holds the true loss
  int real = 0, within = 0, beyond = 0, undecided = 0;
  int without_interval = 0;
  int unused = 0;         ///< not valid, or too few set-ups to decide
  int other_answers = 0;  ///< real, within or beyond is not what the interval says
  int other_words = 0;    ///< the series' word is not the one that the power asks for
  double variance = 0.0, normal_variance = 0.0;  ///< sums of u^2, and of its type A or normal part

  void add(const Assessment& assessment, double loss);
  void add(const Tally& other);
  [[nodiscard]] Share share(int of) const { return {of, tests}; }
};

/// What the tests of one cell showed, by the true loss that was put in.
struct CellResult {
  Tally at_none, at_half, at_limit;  ///< no loss, half of the limit, the limit

  [[nodiscard]] Share coverage() const;  ///< over all three
  [[nodiscard]] Share false_real() const { return at_none.share(at_none.real); }
  [[nodiscard]] Share false_within() const { return at_limit.share(at_limit.within); }
  [[nodiscard]] Share false_beyond() const { return at_limit.share(at_limit.beyond); }
  [[nodiscard]] double normal_share() const;
};

/// The limits of MEASUREMENT M17.
inline constexpr double least_coverage = 0.935;
inline constexpr double most_coverage = 0.965;
inline constexpr double most_coverage_from_normal_share = 0.90;
inline constexpr double most_wrong = 0.035;
/// A judge that never says anything is never wrong: of the tests with a loss, so many must be
/// judged [ours].
inline constexpr double most_unused = 0.05;

/// What a cell breaks of them, in words; nothing where it keeps all.
/// @param margin  so many standard errors are conceded to the number of tests
std::vector<std::string> broken_promises(const CellResult& result, double margin);

/// What must not be in any cell: tests without an interval, answers that do not follow from it, and
/// words that the power does not ask for.
std::vector<std::string> faults(const CellResult& result);

}  // namespace hailwright::honesty
