#include "honesty/tally.hpp"

#include <cmath>

#include <fmt/format.h>

namespace hailwright::honesty {

double Share::value() const {
  return tests > 0 ? static_cast<double>(of) / tests : 0.0;
}

double Share::standard_error() const {
  if (tests == 0) return 0.0;
  const double p = value();
  return std::sqrt(p * (1.0 - p) / tests);
}

namespace {

/// The word that the power alone leaves to a series which was struck and looked at as it should.
Word word_by(const PowerResult& p) {
  if (p.is_beyond()) return Word::damaged;
  return p.is_within() ? Word::withstood : Word::undecided;
}

/// Whether the answers of a usable result are those of its interval (MEASUREMENT M4).
bool follow_from_interval(const PowerResult& p) {
  const double low = p.estimate.low().si(), high = p.estimate.high().si(), limit = p.limit.si();
  return p.is_real() == (low > 0.0) && p.is_beyond() == (low > limit) &&
         p.is_within() == (high < limit);
}

}  // namespace

void Tally::add(const Assessment& assessment, double loss) {
  ++tests;
  const PowerResult& p = assessment.power.at(0);
  if (!p.estimated()) {
    ++without_interval;
    return;
  }
  covered += p.estimate.low().si() <= loss && loss <= p.estimate.high().si() ? 1 : 0;
  real += p.is_real() ? 1 : 0;
  within += p.is_within() ? 1 : 0;
  beyond += p.is_beyond() ? 1 : 0;
  unused += p.usable() ? 0 : 1;
  other_answers += p.usable() && !follow_from_interval(p) ? 1 : 0;
  undecided += p.valid && !p.is_within() && !p.is_beyond() ? 1 : 0;
  other_words += assessment.verdicts.at(0).word == word_by(p) ? 0 : 1;
  for (const BudgetRow& row : p.budget) {
    const double part = row.contribution() * row.contribution();
    variance += part;
    const bool counts =
        row.input.evaluation == Evaluation::type_a || row.input.shape == Shape::normal;
    if (counts) normal_variance += part;
  }
}

void Tally::add(const Tally& other) {
  tests += other.tests;
  covered += other.covered;
  real += other.real;
  within += other.within;
  beyond += other.beyond;
  unused += other.unused;
  other_answers += other.other_answers;
  undecided += other.undecided;
  without_interval += other.without_interval;
  other_words += other.other_words;
  variance += other.variance;
  normal_variance += other.normal_variance;
}

Share CellResult::coverage() const {
  return {at_none.covered + at_half.covered + at_limit.covered,
          at_none.tests + at_half.tests + at_limit.tests};
}

double CellResult::normal_share() const {
  const double all = at_none.variance + at_half.variance + at_limit.variance;
  const double normal =
      at_none.normal_variance + at_half.normal_variance + at_limit.normal_variance;
  return all > 0.0 ? normal / all : 1.0;
}

namespace {

/// Collects what is beyond its bound by more than the margin.
class Judge {
public:
  explicit Judge(double margin) : margin_(margin) {}

  void at_least(const char* what, Share share, double bound) {
    if (share.value() + conceded(bound, share) < bound) say(what, share, "below", bound);
  }
  void at_most(const char* what, Share share, double bound) {
    if (share.value() - conceded(bound, share) > bound) say(what, share, "above", bound);
  }
  std::vector<std::string> take() { return std::move(broken_); }

private:
  /// By the standard error of a share that lies on the bound.
  [[nodiscard]] double conceded(double bound, Share share) const {
    return share.tests > 0 ? margin_ * std::sqrt(bound * (1.0 - bound) / share.tests) : 0.0;
  }
  void say(const char* what, Share share, const char* side, double bound) {
    broken_.push_back(fmt::format("{} {:.2f} % (standard error {:.2f} %) is {} {:.1f} %", what,
                                  100.0 * share.value(), 100.0 * share.standard_error(), side,
                                  100.0 * bound));
  }

  double margin_;
  std::vector<std::string> broken_;
};

}  // namespace

std::vector<std::string> broken_promises(const CellResult& result, double margin) {
  Judge judge(margin);
  judge.at_least("coverage", result.coverage(), least_coverage);
  for (const Tally* tally : {&result.at_none, &result.at_half, &result.at_limit}) {
    judge.at_least("coverage at one loss", tally->share(tally->covered), least_coverage);
  }
  if (result.normal_share() >= most_coverage_from_normal_share)
    judge.at_most("coverage", result.coverage(), most_coverage);
  judge.at_most("false \"real\"", result.false_real(), most_wrong);
  judge.at_most("false \"within\"", result.false_within(), most_wrong);
  judge.at_most("false \"beyond\"", result.false_beyond(), most_wrong);
  for (const Tally* tally : {&result.at_half, &result.at_limit})
    judge.at_most("not judged", tally->share(tally->unused), most_unused);
  return judge.take();
}

std::vector<std::string> faults(const CellResult& result) {
  std::vector<std::string> found;
  for (const Tally* t : {&result.at_none, &result.at_half, &result.at_limit}) {
    if (t->without_interval > 0)
      found.push_back(fmt::format("{} tests without an interval", t->without_interval));
    if (t->other_answers > 0)
      found.push_back(fmt::format("{} answers other than the interval's", t->other_answers));
    if (t->other_words > 0)
      found.push_back(fmt::format("{} words that the power did not ask for", t->other_words));
  }
  return found;
}

}  // namespace hailwright::honesty
