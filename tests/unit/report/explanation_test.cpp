#include "report/explanation.hpp"

#include <cmath>
#include <regex>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

struct Worked {
  explicit Worked(const TestBuilder& builder) : test(builder.build()), a(assess(test)) {}
  Test test;
  Assessment a;
  SourceSet sources;
  [[nodiscard]] PowerCase power() const { return {a.power.at(0), test, sources}; }
};

std::string joined(const std::vector<std::string>& lines) {
  std::string all;
  for (const std::string& line : lines)
    all += line + "\n";
  return all;
}

std::string all_words(const Step& step) {
  return joined(step.what) + joined(step.formula) + joined(step.here);
}

/// The first number behind some words, as a reader would type it into a calculator.
double number_after(const Step& step, const std::string& words) {
  const std::string text = joined(step.here);
  const std::size_t at = text.find(words);
  CAPTURE(words, text);
  REQUIRE(at != std::string::npos);
  return std::stod(text.substr(at + words.size()));
}

/// Unevenly spread set-ups, so that a wrong weight shows.
TestBuilder uneven() {
  TestBuilder b;
  b.setups(3, 4).setup_scatter(0.006).loss(0.03);
  return b;
}

}  // namespace

TEST_CASE("explanation: the set-ups are found again with their readings, and give lambda") {
  for (const bool control : {true, false}) {
    TestBuilder b = uneven();
    if (!control) b.same_panel();
    const Worked w(b);
    const auto setups = weighed_setups(w.power().model(), w.test.record);
    REQUIRE(setups.size() == 7);
    CHECK_THAT(setups[0].weight, WithinAbs(-1.0 / 3.0, 1e-12));
    CHECK_THAT(setups[6].weight, WithinAbs(0.25, 1e-12));
    CHECK(setups[0].rows.size() == (control ? 6 : 3));
    double lambda = 0.0;
    for (const WeighedSetup& s : setups)
      lambda += s.weight * s.setup->q;
    CHECK_THAT(lambda, WithinAbs(w.a.power[0].estimate.lambda, 1e-9));
  }
}

TEST_CASE("explanation: nothing is said of weights where they do not give lambda") {
  Worked w{TestBuilder()};
  w.a.power[0].model->from.at(0).q += 0.01;
  CHECK(weighed_setups(w.power().model(), w.test.record).empty());
}

TEST_CASE("explanation: step 1 gives q again from its own numbers") {
  const Worked w{TestBuilder().same_panel()};
  const Step step = explain_reading(w.power());
  const double p = number_after(step, "P = ");
  const double g = number_after(step, "G = ");
  const double t = number_after(step, "T = ");
  const double gamma = number_after(step, "gamma = ") / 100.0;
  const double dt = number_after(step, "dT = ");
  const double tc = t + dt * g / 1000.0;

  const double q = std::log(p) - std::log(g / 1000.0) - std::log(1.0 + gamma * (tc - 25.0));
  CHECK_THAT(w.power().model().from.at(0).q, WithinAbs(q, 0.01));
  CHECK_THAT(std::log(number_after(step, "that is e^q = ")), WithinAbs(q, 1e-4));
}

TEST_CASE("explanation: step 2 gives lambda and the loss again from its tables") {
  const Worked w{uneven()};
  const Step step = explain_means(w.power());
  REQUIRE(step.tables.size() == 2);
  double value = 0.0;
  for (const auto& row : step.tables[0].rows)
    value += std::stod(row.at(4)) * std::stod(row.at(5));
  CHECK_THAT(value, WithinAbs(std::stod(step.tables[1].rows.at(0).at(2)), 5e-6));
  double lambda = 0.0;
  for (const auto& row : step.tables[1].rows)
    lambda += std::stod(row.at(2)) * std::stod(row.at(4));
  CHECK_THAT(lambda, WithinAbs(w.a.power[0].estimate.lambda, 5e-6));
  CHECK_THAT(number_after(step, "L = 1 - "), WithinAbs(std::exp(lambda), 1e-5));
  CHECK_THAT(joined(step.here), Contains(" = 3.16 %"));
}

// Found by review: of a log, thousands of lines "reading by reading".
TEST_CASE("explanation: of many readings of a set-up the first and the last are shown") {
  TestBuilder few = uneven(), many = uneven();
  const auto rows = [](const Worked& w) { return explain_means(w.power()).tables.at(0).rows; };
  const Worked w(few.same_panel().rounds(17));
  CHECK(rows(w).size() == 17);
  const Worked v(many.same_panel().rounds(40));
  const auto shown = rows(v);
  REQUIRE(shown.size() == 17);
  CHECK(shown[12][0] == "24 more like these");
  CHECK(shown[12].size() == shown[0].size());
  const auto all = weighed_setups(v.power().model(), v.test.record).front().rows;
  CHECK(shown[11][1] == as_typed(all[11].reading->power.si()));
  CHECK(shown[13][1] == as_typed(all[36].reading->power.si()));
  CHECK(shown[16][1] == as_typed(all[39].reading->power.si()));
}

TEST_CASE("explanation: step 3 gives the pooled scatter again from the values of step 2") {
  const Worked w{uneven()};
  const auto rows = explain_means(w.power()).tables.at(1).rows;
  double squares = 0.0;
  for (const auto& [first, last] : {std::pair(0U, 3U), std::pair(3U, 7U)}) {
    double sum = 0.0;
    for (unsigned i = first; i < last; ++i)
      sum += std::stod(rows.at(i).at(2));
    for (unsigned i = first; i < last; ++i)
      squares += std::pow(std::stod(rows.at(i).at(2)) - sum / (last - first), 2);
  }
  const Step step = explain_scatter(w.power());
  CHECK_THAT(number_after(step, ", s = "), WithinAbs(std::sqrt(squares / 5.0), 2e-6));
  CHECK_THAT(joined(step.here), Contains("nu = 5,"));
  const double u = std::sqrt(squares / 5.0) * std::sqrt(1.0 / 3.0 + 1.0 / 4.0);

  CHECK_THAT(joined(step.here), Contains("root of (1/3 + 1/4) = "));
  CHECK_THAT(number_after(step, "root of (1/3 + 1/4) = "), WithinAbs(u, 2e-6));
}

TEST_CASE("explanation: steps 4 and 5 give u, its degrees of freedom and the interval again") {
  const Worked w{uneven()};
  const LossEstimate& e = w.a.power[0].estimate;
  const Step inputs = explain_inputs(w.power());
  double squares = 0.0;
  double observed = 0.0;
  for (const auto& row : inputs.tables.at(0).rows) {
    const double points = std::stod(row.at(5));
    squares += points * points;
    if (row.at(2).starts_with("t, nu")) observed = points;
    // u x sensitivity x e^lambda, by the first numbers of their cells.
    CAPTURE(row.at(0));
    CHECK_THAT(std::abs(std::stod(row.at(1)) * std::stod(row.at(4))) * std::exp(e.lambda),
               WithinAbs(points, 0.0002));
  }
  const double u = std::sqrt(squares);
  const Step together = explain_together(w.power());
  CHECK_THAT(number_after(together, "u(L) = "), WithinAbs(u, 0.0005));
  CHECK_THAT(number_after(together, "points, u = "),
             WithinAbs(u / 100.0 / std::exp(e.lambda), 1e-5));
  const double nu = std::pow(u, 4) / (std::pow(observed, 4) / 5.0);
  CHECK_THAT(e.degrees_of_freedom, WithinRel(nu, 0.01));
  CHECK_THAT(number_after(together, "t u = "), WithinAbs(e.expanded, 2e-6));
  CHECK_THAT(joined(together.here), Contains("which is not larger: U = "));
}

TEST_CASE("explanation: the guard is told where it holds") {
  // Two set-ups a stage: t at two degrees of freedom is 4.30 (table of t).
  const Worked w{TestBuilder().setups(2, 2).setup_scatter(0.01)};
  const Step step = explain_together(w.power());
  CHECK_THAT(joined(step.here), Contains("t(0.975; 2) = 4.3027"));
}

TEST_CASE("explanation: what cancels is named, and only of the part that is one draw") {
  TestBuilder b;
  b.test.record.conditions.same_tools = true;
  const Worked w{b};
  const std::string words = all_words(explain_inputs(w.power()));
  CHECK_THAT(words, Contains("These cancel, or nearly: ") && Contains("power meter, gain"));
  const std::size_t begin = words.find("These cancel");
  CHECK_THAT(words.substr(begin, words.find("One and the same") - begin),
             !Contains("between the stages"));
}

TEST_CASE("explanation: the questions with the numbers compared") {
  const Step within = explain_answers(Worked{TestBuilder()}.power());
  CHECK_THAT(joined(within.here), Contains("alpha = 2.5 % / 1 look = 2.5 %"));
  CHECK_THAT(joined(within.here), Contains("<= 5 %: yes") && Contains("> 0: no"));
  CHECK_THAT(joined(within.here), Contains("beyond? no, within it"));
  const Worked w{TestBuilder().loss(-0.06)};
  CHECK_THAT(joined(explain_answers(w.power()).here), Contains("not valid: the power seems"));
}

TEST_CASE("explanation: simple acceptance compares the estimate") {
  Worked w{TestBuilder().loss(0.04)};
  w.a.power[0].simple = true;
  const Step step = explain_answers(w.power());
  CHECK_THAT(joined(step.here), Contains("by the estimate alone, 4.000 % > 5 %: no"));
  // Found by review: the interval's rule for the limit was shown beside it.
  CHECK_THAT(joined(step.formula), Contains("beyond: L > limit; within: L <= limit") &&
                                       !Contains("low > limit") && !Contains("high <= limit"));
  const Step guarded = explain_answers(Worked{TestBuilder()}.power());
  CHECK_THAT(joined(guarded.formula), Contains("beyond: low > limit") && Contains("high <= limit"));
}

// Design of M4: delta at alpha 0.025, beta 0.1 and nu = 6: 3.913 (MEASUREMENT M4).
TEST_CASE("explanation: what could have been seen, with the delta of the table") {
  TestBuilder b;
  b.setup_scatter(0.02);
  const Worked w{b};
  const Step step = explain_smallest(w.power());
  CHECK_THAT(joined(step.here), Contains("delta(6) = 3.913"));
  CHECK_THAT(number_after(step, "L_D = "),
             WithinAbs(100.0 * w.a.power[0].smallest_shown.si(), 0.001));
}

TEST_CASE("explanation: no trials, or trials with the tolerances of clause 8") {
  Worked w{TestBuilder()};
  CHECK_THAT(all_words(explain_trials(w.power())), Contains("--trials 0"));
  PowerResult& p = w.a.power[0];
  p.check.emplace();
  p.check->trials = 1'000'000;
  p.check->seed = 7;
  p.check->median = p.estimate.loss();
  p.check->low = Ratio::from_si(p.estimate.low().si() - 0.0002);
  p.check->high = p.estimate.high();
  const Step step = explain_trials(w.power());
  CHECK_THAT(joined(step.here), Contains("seed 7") && Contains("differ by 0.0200 and 0.0000"));
  CHECK_THAT(joined(step.here),
             Contains("at 1 digit of u: tolerance 0.0500 points, agrees") &&
                 Contains("at 2 digits of u: tolerance 0.0050 points, does not"));
  CHECK_THAT(joined(step.here), Contains("no mean and no standard uncertainty"));
  p.check->mean = p.estimate.loss();
  p.check->standard_u = p.estimate.u_loss();
  CHECK_THAT(joined(explain_trials(w.power()).here), Contains("standard uncertainty 0.6"));
}

// 0.5 x 0.00753 kg x (23 m/s)^2 = 1.9917 J (IEC 61215 25 mm, read at secondary sources).
TEST_CASE("explanation: one shot, from mass and speed to the sides of the grade") {
  const Worked w{TestBuilder()};
  const Step step = explain_shot(w.a, w.test, w.sources);
  const double m = number_after(step, "m = ");
  const double v = number_after(step, "v = ");
  CHECK_THAT(0.5 * m / 1000.0 * v * v, WithinAbs(number_after(step, "(23.000 m/s)^2 = "), 0.001));
  CHECK_THAT(joined(step.here), Contains("m >= 7.154 g") && Contains("v >= 21.850 m/s"));
  CHECK_THAT(joined(step.here), Contains("so: at least at the grade shown"));
}

TEST_CASE("explanation: without a hit of known strength there is no shot to work out") {
  TestBuilder b;
  for (Shot& s : b.test.record.shots)
    s.landing = Landing::miss;
  const Worked w{b};
  const Step step = explain_shot(w.a, w.test, w.sources);
  CHECK(step.here.empty());
  CHECK_THAT(joined(step.what), Contains("no energy to work out"));
}

TEST_CASE("explanation: the first line that applies") {
  const auto word = [](const TestBuilder& b) {
    const Worked w{b};
    return joined(explain_word(w.a, w.test).here);
  };
  CHECK_THAT(word(TestBuilder()), Contains("not lines 1, 2 and 3, but line 4: withstood"));
  CHECK_THAT(word(TestBuilder().loss(0.12)), Contains("small: line 1 (loss of power 12.0 %"));
  CHECK_THAT(word(TestBuilder().no_looks_after()),
             Contains("not lines 1 and 2, but line 3 (nobody looked after"));
  CHECK_THAT(word(TestBuilder().second_series()), Contains("small and large together"));
  // 1 - 0.05^(1/3) = 0.6316 (facts on exact bounds: 0 of 3, one-sided 95 %).
  CHECK_THAT(word(TestBuilder()), Contains("1 - 0.05^(1/3) = 0.6316"));
}

// Found by review: which scatter is used where the observed one exceeds the stated one.
TEST_CASE("explanation: of two scatters the one that is used is named") {
  Worked w{TestBuilder()};
  CHECK_THAT(joined(explain_scatter(w.power()).here), !Contains("which is the observed one"));
  w.a.power[0].notes.push_back({PowerRemark::stated_smaller_than_observed, {0.002, 0.004}, {}, {}});
  CHECK_THAT(
      joined(explain_scatter(w.power()).here),
      Contains("by what the protocol states u had been 0.002000") &&
          Contains("observed it is 0.004000: the larger is used, which is the observed one"));
}

// Found by review: "1 degrees of freedom", and a range whose ends print alike.
TEST_CASE("explanation: one degree of freedom, and no range of one value") {
  CHECK(degrees_text(1.0) == "1 degree of freedom");
  CHECK(degrees_text(4.25) == "4.25 degrees of freedom");
  Worked w{TestBuilder()};
  w.a.power[0].smallest_shown_range = std::pair(percent(2.01), percent(2.0101));
  CHECK_THAT(joined(explain_smallest(w.power()).here), !Contains("90 % range"));
}

TEST_CASE("explanation: degrees of freedom as they are said") {
  CHECK(freedom_text(6.0) == "6");
  CHECK(freedom_text(41.861) == "41.86");
  CHECK(freedom_text(std::numeric_limits<double>::infinity()) == "unlimited");
}
