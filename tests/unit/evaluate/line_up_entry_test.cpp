#include <algorithm>
#include <cmath>

#include "hailwright/evaluate/line_up.hpp"
#include "support/catch.hpp"
#include "support/stress_examples.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::seen;
using hailwright::testing::TestBuilder;

namespace {

LineUpEntry entry_of(const Test& test, Extent extent = Extent::whole) {
  return line_up_entry(test, assess(test, std::nullopt, extent), "a.yaml");
}

bool same(const LineUpNumber& a, const LineUpNumber& b) {
  return a.log == b.log && a.standard_u == b.standard_u &&
         a.degrees_of_freedom == b.degrees_of_freedom && a.errors.size() == b.errors.size() &&
         std::equal(a.errors.begin(), a.errors.end(), b.errors.begin(),
                    [](const LineUpError& x, const LineUpError& y) {
                      return x.key == y.key && x.contribution == y.contribution;
                    });
}

}  // namespace

TEST_CASE("line-up entry: the panel as its file says") {
  TestBuilder b;
  Panel& panel = b.test.record.panel;
  panel.name = "Rigid A";
  panel.build = Build::flexible;
  panel.size = Outline{Length::from_si(1.0), Length::from_si(0.5), std::nullopt};
  panel.lead_length = Length::from_si(0.9);
  panel.connector = "round plugs, one a pole";
  panel.price = Money{89.0, "EUR"};
  panel.lowest_price = Money{79.0, "EUR"};
  b.test.record.serial = "0001";
  const LineUpEntry e = entry_of(b.build());
  CHECK(e.path == "a.yaml");
  CHECK(e.title == "Panel A");
  CHECK(e.date == "2026-06-14");
  CHECK(e.panel == "Rigid A");
  CHECK(e.serial == "0001");
  CHECK(e.build == "flexible");
  CHECK(e.connector == "round plugs, one a pole");
  CHECK_THAT(e.area->si(), WithinAbs(0.5, 1e-12));
  CHECK(e.lead_length->si() == 0.9);
  CHECK(e.price->amount == 89.0);
  CHECK(e.lowest_price->amount == 79.0);
  CHECK_FALSE(e.highest_price);
  CHECK_FALSE(e.weight);
  CHECK_FALSE(e.numbers.contains(LineUpQuantity::power_per_mass));
  CHECK_FALSE(e.shade);
  CHECK_FALSE(e.cautions.empty());
}

TEST_CASE("line-up entry: a word for each series with its places") {
  const LineUpEntry e =
      entry_of(TestBuilder().second_series().look(1, {seen("broken front", "place 4")}).build());
  REQUIRE(e.words.size() == 2);
  CHECK(e.words[0].series == "small");
  CHECK(e.words[0].target == "IEC 61215 25 mm");
  CHECK(e.words[0].word == Word::withstood);
  CHECK(e.words[0].places == 3);
  CHECK(e.words[0].places_struck == 3);
  CHECK(e.words[1].word == Word::damaged);
  CHECK(e.hardest_withstood == 0U);
  CHECK(e.mildest_damaged == 1U);
}

TEST_CASE("line-up entry: loss and what it could have shown") {
  const Test t = TestBuilder().loss(0.03).build();
  const LineUpEntry e = entry_of(t);
  CHECK(e.gap == LineUpGap::none);
  REQUIRE(e.loss);
  CHECK_THAT(e.loss->loss().si(), WithinAbs(0.03, 1e-3));
  CHECK(e.limit == percent(5));
  CHECK(e.smallest_shown->si() > 0.0);
  CHECK(e.answers->real == Answer::yes);
  CHECK(e.stage == "after");
  CHECK(e.numbers.contains(LineUpQuantity::loss));
}

TEST_CASE("line-up entry: why there is no loss to rank by") {
  TestBuilder looks;
  looks.test.protocol.decide.judges_power = false;
  CHECK(entry_of(looks.build()).gap == LineUpGap::not_compared);
  CHECK(entry_of(TestBuilder().no_final_stage().build()).gap == LineUpGap::not_compared);

  const LineUpEntry once = entry_of(TestBuilder().setups(1, 1).build());
  CHECK(once.gap == LineUpGap::obstacle);
  CHECK_FALSE(once.loss);

  const LineUpEntry rose = entry_of(TestBuilder().loss(-0.06).build());
  CHECK(rose.gap == LineUpGap::not_valid);
  CHECK_FALSE(rose.loss);
  CHECK_FALSE(rose.numbers.contains(LineUpQuantity::loss));
  CHECK(rose.numbers.contains(LineUpQuantity::power));

  const LineUpEntry few = entry_of(TestBuilder().setups(2, 2).build());
  CHECK(few.gap == LineUpGap::not_deciding);
  CHECK(few.loss);
  CHECK_FALSE(few.answers);
  CHECK_FALSE(few.numbers.contains(LineUpQuantity::loss));
}

TEST_CASE("line-up entry: the same without what stands beside the verdicts") {
  TestBuilder skipped;
  skipped.loss(0.04).second_series().stage_after(0, 0.01);
  TestBuilder spread;
  spread.siblings(4, 0.01).loss(0.02);
  for (const Test& t : {TestBuilder().loss(0.03).build(), skipped.build(), spread.build(),
                        TestBuilder().same_panel().setups(2, 2).build(),
                        TestBuilder().loss(-0.06).build(), TestBuilder().later(0.02).build()}) {
    const Assessment whole = assess(t);
    const Assessment quick = assess(t, std::nullopt, Extent::verdicts);
    REQUIRE(whole.verdicts.size() == quick.verdicts.size());
    for (std::size_t i = 0; i < whole.verdicts.size(); ++i)
      CHECK(whole.verdicts[i].word == quick.verdicts[i].word);
    const LineUpEntry a = line_up_entry(t, whole, "x");
    const LineUpEntry b = line_up_entry(t, quick, "x");
    CHECK(a.gap == b.gap);
    CHECK(a.traits == b.traits);
    CHECK(a.answers == b.answers);
    CHECK(a.smallest_shown == b.smallest_shown);
    CHECK(a.cautions == b.cautions);
    CHECK(a.hardest_withstood == b.hardest_withstood);
    REQUIRE(a.loss.has_value() == b.loss.has_value());
    if (a.loss) CHECK(a.loss->expanded == b.loss->expanded);
    REQUIRE(a.numbers.size() == b.numbers.size());
    for (const auto& [quantity, number] : a.numbers)
      CHECK(same(number, b.numbers.at(quantity)));
    // It does leave something out.
    CHECK(whole.delivery[0].joint_probability.has_value());
    CHECK_FALSE(quick.delivery[0].joint_probability.has_value());
    CHECK(quick.later_power.empty());
  }
}

// Found by review: a record with two stresses was ranked by the loss of the last step alone, and
// its words were "no series".
TEST_CASE("line-up entry: with stresses the loss is of all that was done, and each has its word") {
  TestBuilder b;
  for (std::size_t i = 0; i < 2; ++i) {
    b.test.protocol.stresses.push_back(
        hailwright::testing::planned_by_examples(stress_kinds().front()));
    StressDone done;
    done.stress = i;
    done.after_hail = true;
    b.test.record.stresses.push_back(done);
  }
  b.stage_after_stress(0, 0.02).stage_after_stress(1, 0.05);
  const LineUpEntry e = entry_of(b.build());
  REQUIRE(e.loss);
  CHECK_THAT(e.loss->loss().si(), WithinAbs(0.05, 1e-3));
  CHECK_THAT(e.numbers.at(LineUpQuantity::loss).log, WithinAbs(e.loss->lambda, 0.0));
  REQUIRE(e.words.size() == 3);
  CHECK_FALSE(e.words[0].is_stress);
  CHECK(e.words[1].is_stress);
  CHECK(e.words[1].target == std::string(stress_kinds().front().word));
  CHECK(e.words[1].places == 0);
  const LineUpEntry hail = entry_of(TestBuilder().build());
  CHECK(e.traits[3].text != hail.traits[3].text);
}

TEST_CASE("line-up entry: each build has its words") {
  TestBuilder b;
  const auto words = [&](Build build) {
    b.test.record.panel.build = build;
    return entry_of(b.build(), Extent::verdicts).build;
  };
  CHECK(words(Build::framed_glass) == "framed glass");
  CHECK(words(Build::frameless_glass) == "frameless glass");
  CHECK(words(Build::flexible) == "flexible");
}

TEST_CASE("line-up entry: a stress alone is compared from the untouched panel") {
  const StressKind& pull = *find_stress_kind("cable pull");
  TestBuilder b;
  Test& t = b.test;
  t.protocol.series.clear();
  t.record.shots.clear();
  std::erase_if(t.record.looks, [](const Look& l) { return !l.start; });
  t.protocol.stresses = {hailwright::testing::planned_by_examples(pull)};
  StressDone done_once;
  done_once.values = hailwright::testing::examples_of(pull.done);
  t.record.stresses = {done_once};
  b.no_final_stage().stage_after_stress(0, 0.02);
  const LineUpEntry once = entry_of(b.build());
  REQUIRE(once.loss);
  CHECK_THAT(once.loss->loss().si(), WithinAbs(0.02, 1e-6));
  CHECK(once.stage == "after cable pull");
  // Of two, the second is judged against the first and ranked against the panel before both.
  t.protocol.stresses.push_back(t.protocol.stresses[0]);
  t.protocol.stresses[1].name = "second pull";
  done_once.stress = 1;
  t.record.stresses.push_back(done_once);
  b.stage_after_stress(1, 0.03);
  const LineUpEntry twice = entry_of(b.build());
  REQUIRE(twice.loss);
  CHECK_THAT(twice.loss->loss().si(), WithinAbs(0.03, 1e-6));
  CHECK(twice.stage == "after second pull");
  // Of one that nobody read after there is nothing to compare.
  CHECK(entry_of(TestBuilder().no_final_stage().build()).gap == LineUpGap::not_compared);
}

TEST_CASE("line-up entry: a stress before the hail counts with it, from before both") {
  const StressKind& pull = *find_stress_kind("cable pull");
  TestBuilder b;
  b.test.protocol.stresses = {hailwright::testing::planned_by_examples(pull)};
  StressDone first;
  first.values = hailwright::testing::examples_of(pull.done);
  b.test.record.stresses = {first};
  b.loss(0.03).stage_after_stress(0, 0.01);
  const LineUpEntry e = entry_of(b.build());
  REQUIRE(e.loss);
  CHECK_THAT(e.loss->loss().si(), WithinAbs(0.03, 1e-6));
  CHECK(e.stage == "after");
}

TEST_CASE("line-up entry: a shade that was weighed has its number") {
  TestBuilder b;
  ShadeRound round;
  round.free = Power::from_si(80.0);
  round.shaded = Power::from_si(40.0);
  round.sun_free = round.sun_shaded = Irradiance::from_si(900.0);
  round.back_free = round.back_shaded = TemperaturePoint::from_celsius(45.0);
  ShadeTrial trial;
  trial.shade = "one cell";
  trial.rounds = {round, round};
  b.test.record.shading = {trial};
  const LineUpEntry e = entry_of(b.build());
  CHECK(e.shade == "one cell");
  REQUIRE(e.numbers.contains(LineUpQuantity::shading_loss));
  CHECK_THAT(e.numbers.at(LineUpQuantity::shading_loss).log, WithinAbs(std::log(0.5), 1e-9));
}
