#include "report/pattern_sentences.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/curve_readings.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

LossPattern found(CurvePattern pattern, double size, const std::optional<int>& substrings = 3) {
  Test test = test_for_curves();
  test.record.panel.substrings = substrings;
  test.record.curves = drawn_curves(pattern, size, 9);
  return *find_loss_pattern(test);
}

std::string joined(const std::vector<std::string>& lines) {
  std::string all;
  for (const std::string& line : lines)
    all += line + '\n';
  return all;
}

}  // namespace

TEST_CASE("pattern_sentences: changes up and down") {
  CHECK(change_text(std::log(0.667)) == "down 33.3 %");
  CHECK(change_text(std::log(1.004)) == "up 0.4 %");
  CurveChange c;
  c.figure = CurveFigure::short_current;
  c.mean_before = 5.9;
  c.mean_after = 5.605;
  c.log_change = std::log(0.95);
  c.low = percent(-7.0);
  c.high = percent(-3.0);
  CHECK(change_sentence(c) == "short-circuit current: 5.90 A before, 5.61 A after, down 5.0 % (95 "
                              "%: -7.0 % to -3.0 %)");
}

TEST_CASE("pattern_sentences: sizes with their units") {
  CHECK(pattern_size(CurvePattern::substring_gone, 0.44) == "the way around it takes about 0.4 V");
  CHECK(pattern_size(CurvePattern::part_of_one_cell, 0.123) == "about 12 % of it");
  CHECK(pattern_size(CurvePattern::all_cells_less, 0.052) == "about 5.2 % less");
  CHECK(pattern_size(CurvePattern::series_resistance, 0.312) == "about 0.31 ohm");
  CHECK(pattern_size(CurvePattern::shunt, 1.0 / 31.4) == "as by about 31 ohm across the panel");
}

TEST_CASE("pattern_sentences: a named pattern is a suggestion with ratios") {
  const std::string s = pattern_sentence(found(CurvePattern::substring_gone, 0.4));
  CAPTURE(s);
  CHECK_THAT(s, Contains("The change suggests one substring gone") &&
                    Contains("more than a million times better than no change") &&
                    Contains("better than the next pattern") && Contains("can look the same"));
}

TEST_CASE("pattern_sentences: nothing resolvable shows no absence") {
  const LossPattern p = found(CurvePattern::all_cells_less, 0.0);
  REQUIRE(p.word == PatternWord::nothing_resolvable);
  CHECK_THAT(pattern_sentence(p), Contains("no pattern fits 20 times better than no change") &&
                                      Contains("stays unseen"));
  CHECK(kept_voltage_sentences(p).empty());
}

TEST_CASE("pattern_sentences: kept voltage is explained with a number of the panel") {
  const LossPattern p = found(CurvePattern::series_resistance, 0.3);
  const std::string s = joined(kept_voltage_sentences(p));
  // 0.046 ln(1/0.9): half a per cent.
  CHECK_THAT(s, Contains("follows the logarithm of the current") && Contains("about 0.5 %"));
}

// Found by review: with an interval of tens of per cent "no change was shown" was no contradiction.
TEST_CASE("pattern_sentences: a kept voltage is explained only where it is known well") {
  LossPattern p = found(CurvePattern::series_resistance, 0.3);
  REQUIRE_FALSE(kept_voltage_sentences(p).empty());
  for (CurveChange& change : p.changes) {
    change.low = Ratio::from_si(-0.03);
    change.high = Ratio::from_si(0.02);
  }
  CHECK(kept_voltage_sentences(p).empty());
}

TEST_CASE("pattern_sentences: what was left out and what is missing") {
  LossPattern p = found(CurvePattern::shunt, 0.02, std::nullopt);
  CHECK_THAT(joined(left_out_sentences(p)),
             Contains("one substring gone: the panel file does not say") &&
                 Contains("as without bypass diodes"));
  p.would_tell = {CurveFigure::open_voltage};
  p.missing = {CurveFigure::open_voltage};
  p.scatter_assumed = true;
  CHECK_THAT(joined(pattern_remarks(p)), Contains("they differ in open-circuit voltage") &&
                                             Contains("Not read before and after") &&
                                             Contains("three and two"));
  CHECK_THAT(joined(pattern_basis(p)), Contains("36 equal cells"));
}

TEST_CASE("pattern_sentences: power by the curve beside the loss judged") {
  const LossPattern p = found(CurvePattern::series_resistance, 0.3);
  Assessment a;
  CHECK(curve_power_sentences(p, a).size() == 1);
  PowerResult power;
  power.estimate.lambda = p.power->log_change;
  power.estimate.u_lambda = 0.01;
  a.power.push_back(power);
  CHECK_THAT(joined(curve_power_sentences(p, a)), Contains("agree as well as both are known"));
  a.power.back().estimate.lambda = std::log(0.7);
  CHECK_THAT(joined(curve_power_sentences(p, a)), Contains("differ by more than both leave open"));
}

TEST_CASE("pattern_sentences: several alike and none") {
  LossPattern p = found(CurvePattern::shunt, 1.0 / 30.0);
  p.word = PatternWord::alike;
  p.named = {CurvePattern::shunt, CurvePattern::part_of_one_cell};
  CHECK_THAT(pattern_sentence(p),
             Contains("fits a lower shunt resistance and part of one cell cut off nearly alike"));
  p.word = PatternWord::none_fits;
  CHECK_THAT(pattern_sentence(p), Contains("fits none of these patterns"));
}
