#include "evaluate/bypass_check.hpp"

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

/// 21.0 V without the shade; a voltmeter of 0.5 % + 2 digits of 0.1 V.
ShadeTrial trial_of(double shaded_v, int substrings = 1) {
  ShadeTrial trial;
  trial.open_free = Voltage::from_si(21.0);
  trial.open_shaded = Voltage::from_si(shaded_v);
  trial.substrings_shaded = substrings;
  trial.voltmeter = Stated<Voltage>{};
  trial.voltmeter->relative = percent(0.5);
  trial.voltmeter->digits = 2.0;
  trial.voltmeter_step = Voltage::from_si(0.1);
  return trial;
}

BypassWord word_of(double shaded_v, std::optional<int> of = 3, int substrings = 1) {
  Assumptions assumptions;
  return check_bypass(trial_of(shaded_v, substrings), of, assumptions).word;
}

}  // namespace

// A third of 21 V is 7 V; a fifth of that more or less is 5.6 V to 8.4 V, and U is 0.27 V at most.
TEST_CASE("bypass check: Voc over the number of substrings is expected") {
  CHECK(word_of(14.0) == BypassWord::as_expected);
  CHECK(word_of(15.1) == BypassWord::as_expected);
  CHECK(word_of(12.9) == BypassWord::as_expected);
  CHECK(word_of(7.0, 3, 2) == BypassWord::as_expected);
}

TEST_CASE("bypass check: a drop that is clearly less or more is named and one near is not") {
  CHECK(word_of(21.0) == BypassWord::smaller);
  CHECK(word_of(16.0) == BypassWord::smaller);
  CHECK(word_of(15.4) == BypassWord::cannot_tell);
  CHECK(word_of(12.6) == BypassWord::cannot_tell);
  CHECK(word_of(7.0) == BypassWord::larger);
  CHECK(word_of(0.0) == BypassWord::larger);
  // A voltage that rises is a drop below zero.
  CHECK(word_of(21.5) == BypassWord::smaller);
}

TEST_CASE("bypass check: the gain cancels and the digits do not") {
  Assumptions assumptions;
  const BypassCheck check = check_bypass(trial_of(14.0), 3, assumptions);
  CHECK_THAT(check.drop.value.si(), WithinAbs(7.0, 1e-12));
  CHECK_THAT(check.expected->si(), WithinAbs(7.0, 1e-12));
  // x = 1 - s / f, times f: digits of s count fully, those of f by s / f = 2/3.
  const double digits = 0.2 / std::sqrt(3.0);
  CHECK_THAT(check.drop.standard_u.si(), WithinRel(digits * std::sqrt(1.0 + 4.0 / 9.0), 1e-9));
  CHECK_THAT(check.half_width.si(), WithinRel(1.959964 * check.drop.standard_u.si(), 1e-6));
  CHECK(assumptions.used().empty());
}

TEST_CASE("bypass check: without the number of substrings nothing can be told") {
  Assumptions assumptions;
  const BypassCheck check = check_bypass(trial_of(14.0), std::nullopt, assumptions);
  CHECK(check.word == BypassWord::cannot_tell);
  CHECK_FALSE(check.expected);
  CHECK(word_of(14.0, 1, 2) == BypassWord::cannot_tell);
}

TEST_CASE("bypass check: a voltmeter that nobody describes is listed under assumed") {
  ShadeTrial trial = trial_of(14.0);
  trial.voltmeter.reset();
  trial.voltmeter_step.reset();
  Assumptions assumptions;
  const BypassCheck check = check_bypass(trial, 3, assumptions);
  CHECK(assumptions.uses(DefaultId::meter_accuracy));
  CHECK(assumptions.uses(DefaultId::display_step));
  // 3 digits of the 1 V in which 21 and 14 are typed: too coarse to tell.
  CHECK(check.word == BypassWord::cannot_tell);
}

TEST_CASE("bypass check: a voltmeter without digits needs no step") {
  ShadeTrial trial = trial_of(14.0);
  trial.voltmeter->digits = 0.0;
  trial.voltmeter_step.reset();
  Assumptions assumptions;
  const BypassCheck check = check_bypass(trial, 3, assumptions);
  CHECK(check.drop.standard_u.si() == 0.0);
  CHECK_FALSE(assumptions.uses(DefaultId::display_step));
  CHECK(check.word == BypassWord::as_expected);
}

TEST_CASE("bypass check: one voltage alone is a mistake of ours") {
  Assumptions assumptions;
  ShadeTrial trial = trial_of(14.0);
  trial.open_shaded.reset();
  CHECK_THROWS_AS(check_bypass(trial, 3, assumptions), BugError);
  trial = trial_of(14.0);
  trial.open_free.reset();
  CHECK_THROWS_AS(check_bypass(trial, 3, assumptions), BugError);
}
