#include "report/judgement_shading.hpp"

#include <algorithm>

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

Test shaded_test(int rounds, double shaded_w = 40.0) {
  Test test = TestBuilder().build();
  ShadeTrial trial;
  trial.shade = "one cell";
  for (int i = 0; i < rounds; ++i) {
    ShadeRound r;
    r.free = Power::from_si(80.0);
    r.shaded = Power::from_si(shaded_w);
    r.sun_free = r.sun_shaded = Irradiance::from_si(900.0);
    r.sun_typed_once = true;
    r.back_free = r.back_shaded = TemperaturePoint::from_celsius(44.0);
    trial.rounds.push_back(r);
  }
  test.record.shading = {trial};
  return test;
}

std::string told(const Test& test) {
  Assessment a;
  a.shading = weigh_shading(test);
  std::string text;
  for (const Fact& fact : shading_facts(test, a, SourceSet()).items) {
    text += fact.label + "\n";
    for (const Runs& line : fact.lines)
      text += line.at(0).text + "\n";
  }
  return text;
}

std::string bypass(BypassWord word, std::optional<Voltage> expected = Voltage::from_si(10.5)) {
  ShadeTrial trial;
  trial.open_free = Voltage::from_si(21.0);
  trial.open_shaded = Voltage::from_si(10.0);
  BypassCheck check;
  check.word = word;
  check.shaded = 1;
  check.substrings = 2;
  check.expected = expected;
  check.drop = {Voltage::from_si(11.0), Voltage::from_si(0.1)};
  check.half_width = Voltage::from_si(0.2);
  const auto lines = bypass_sentences(trial, check);
  return lines.at(0) + "\n" + lines.at(1);
}

}  // namespace

TEST_CASE("judgement shading: a record without a shade says nothing of one") {
  CHECK(told(TestBuilder().build()).empty());
}

TEST_CASE("judgement shading: the loss with its interval and what is not in it") {
  const std::string one = told(shaded_test(1));
  CHECK_THAT(one, Contains("one cell\nbefore the shots: takes 50") && Contains("95 % interval") &&
                      Contains("by 1 round") && Contains("instruments alone") &&
                      Contains("irradiance was typed once") && Contains("is not in the interval") &&
                      !Contains("back was typed once"));
  const std::string three = told(shaded_test(3));
  CHECK_THAT(three, Contains("by 3 rounds") && Contains("how far they differ is in the interval") &&
                        Contains("as far as the rounds differ"));
}

TEST_CASE("judgement shading: a shade that takes everything") {
  CHECK_THAT(told(shaded_test(1, 0.0)), Contains("takes 100") && Contains(" to 100"));
}

TEST_CASE("judgement shading: each word of the bypass check with what it leaves open") {
  CHECK_THAT(bypass(BypassWord::as_expected),
             Contains("fell from 21.00 V to 10.00 V, by 11.00 V") &&
                 Contains("1 of 2 substrings") && Contains("as expected, to within 20 % of it") &&
                 Contains("broken open"));
  CHECK_THAT(bypass(BypassWord::smaller), Contains("less than expected") &&
                                              Contains("shorted bypass diode") &&
                                              Contains("cannot tell them apart"));
  CHECK_THAT(bypass(BypassWord::larger), Contains("more than expected"));
  CHECK_THAT(bypass(BypassWord::cannot_tell), Contains("cannot be told at this accuracy"));
  CHECK_THAT(bypass(BypassWord::cannot_tell, std::nullopt),
             Contains("does not say how many substrings"));
}
