// Worse data never make a better verdict. What is worse comes in two kinds, and so does the order.
//
// Worse outcomes (less power after the shots, a defect more): the hardest series withstood is never
// a harder one than before, the mildest series damaged never a harder one. The word of a single
// series may not be held against itself: where a weaker series turns out to have damaged the panel,
// a harder one that had been "damaged" becomes "undecided", since nothing is left to be told of it.
//
// Less knowledge (larger errors, fewer set-ups, no look, a slower ball): what was decided may
// become undecided or not reached, both good and bad; no word "withstood" or "damaged" appears.
//
// One exception belongs to M5: a gain of power beyond its uncertainty is not valid. A lower power
// after the shots, or a larger uncertainty, can make it believable and so lift "undecided". Powers
// that rose are therefore no start here.
#include <algorithm>

#include "hailwright/evaluate/assessment.hpp"
#include "support/catch.hpp"
#include "support/drawn_test.hpp"
#include "support/property.hpp"
#include "support/test_builder.hpp"

namespace hailwright::testing {

namespace {

Assessment assessed_briefly(const Test& test) {
  return assess(test, std::nullopt, Extent::verdicts);
}

/// Two series, struck well or nearly so; readings after each or after both, of any loss.
TestBuilder drawn_builder(Draw& draw) {
  TestBuilder b;
  b.second_series();
  const int setups = draw.whole("set-ups a stage", 3, 5);
  b.setups(setups, setups);
  b.setup_scatter(draw.magnitude("set-up scatter", 1e-4, 0.02));
  const double loss = draw.number("loss", 0.0, 0.15);
  if (draw.coin("readings after each series")) {
    b.stage_after(0, loss * draw.number("part of it after the first series", 0.0, 1.0));
  }
  b.loss(loss);
  for (Shot& shot : b.test.record.shots) {
    const double strength = draw.number("speed of throw " + std::to_string(shot.number), 0.9, 1.1);
    shot.speed = strength * *shot.speed;
  }
  for (std::size_t series = 0; series < 2; ++series) {
    if (draw.whole("defect after series " + std::to_string(series + 1), 0, 4) == 4)
      b.look(series, {seen("cell crack", "place 1")});
  }
  return b;
}

/// Index of a series, with none below or above all.
int hardest_withstood(const Assessment& a) {
  return a.hardest_withstood ? static_cast<int>(*a.hardest_withstood) : -1;
}
int mildest_damaged(const Assessment& a) {
  return a.mildest_damaged ? static_cast<int>(*a.mildest_damaged)
                           : static_cast<int>(a.verdicts.size());
}

bool decided(Word word) {
  return word == Word::withstood || word == Word::damaged;
}

bool any_gain(const Assessment& a) {
  return std::any_of(a.power.begin(), a.power.end(),
                     [](const PowerResult& p) { return p.answers.gained; });
}

void must_not_be_better(const Assessment& worse, const Assessment& before) {
  must(hardest_withstood(worse) <= hardest_withstood(before), "no harder series withstood");
  must(mildest_damaged(worse) <= mildest_damaged(before), "no harder series the first damaged");
}

void must_not_know_more(const Assessment& worse, const Assessment& before) {
  for (std::size_t i = 0; i < worse.verdicts.size(); ++i) {
    const Word now = worse.verdicts[i].word;
    must(!decided(now) || now == before.verdicts[i].word,
         "series " + std::to_string(i + 1) + " is not decided by knowing less");
  }
}

void must_not_know_more(const PowerResult& worse, const PowerResult& before) {
  must(!worse.is_beyond() || before.is_beyond(), "beyond the limit only if it was");
  must(!worse.is_within() || before.is_within(), "within the limit only if it was");
  must(!worse.is_real() || before.is_real(), "a real drop only if it was");
}

/// From within the limit to beyond it.
int severity(const PowerResult& p) {
  return p.is_within() ? 0 : p.is_beyond() ? 2 : 1;
}

}  // namespace

TEST_CASE("Property: less power after the shots is never judged to be a smaller loss") {
  holds("within, undecided, beyond is the only way as all powers after the shots fall",
        [](Draw& draw) {
          DrawnKind kind = drawn_kind(draw);
          kind.proportional = true;
          Test test = drawn_test(draw, kind);
          const PowerResult before = judged_briefly(test);
          if (before.answers.gained) return;
          const double k = draw.number("power left", 0.7, 1.0);
          for (const std::size_t i : readings_of(test, StageKind::after)) {
            if (test.record.readings[i].role == Role::struck) multiply(test.record.readings[i], k);
          }
          const PowerResult worse = judged_briefly(test);
          must_not_fall(worse.estimate.low().si(), before.estimate.low().si(), 1e-12, "lower end");
          must_not_fall(worse.estimate.high().si(), before.estimate.high().si(), 1e-12,
                        "upper end");
          must(severity(worse) >= severity(before), "the answer is no better");
          must(worse.is_real() || !before.is_real(), "a real drop stays one");
        });
}

TEST_CASE("Property: less power after the shots never makes a better verdict") {
  holds(
      "the power of any stage after the shots falls",
      [](Draw& draw) {
        const TestBuilder b = drawn_builder(draw);
        Test test = b.build();
        const Assessment before = assessed_briefly(test);
        if (any_gain(before)) return;
        const double k = draw.number("power left", 0.7, 1.0);
        const StageKind stage = draw.one_of<StageKind>("after one series, or all",
                                                       {StageKind::after, StageKind::after_series});
        for (Reading& r : test.record.readings) {
          if (r.role == Role::struck && test.record.setups[r.setup].stage.kind == stage)
            multiply(r, k);
        }
        must_not_be_better(assessed_briefly(test), before);
      },
      40);
}

TEST_CASE("Property: one defect more never makes a better verdict") {
  holds(
      "a major or minor defect more in any look after the shots",
      [](Draw& draw) {
        TestBuilder b = drawn_builder(draw);
        const Assessment before = assessed_briefly(b.build());
        // What was there at the start is not new: it can clear a later look, and is no worse
        // outcome.
        Look& look = b.test.record.looks.at(static_cast<std::size_t>(draw.whole("look", 1, 2)));
        const auto& kinds = finding_kinds();
        const auto kind = static_cast<std::size_t>(
            draw.whole("kind of defect", 0, static_cast<int>(kinds.size()) - 1));
        Finding finding;
        finding.kind = &kinds[kind];
        finding.where = draw.one_of<std::string>("where", {"place 2", "place 1", "back"});
        look.saw.push_back(finding);
        must_not_be_better(assessed_briefly(b.build()), before);
      },
      40);
}

TEST_CASE("Property: knowing less about the power decides nothing more") {
  holds("all stated errors k times as large", [](Draw& draw) {
    Test test = drawn_test(draw, drawn_kind(draw));
    const PowerResult before = judged_briefly(test);
    if (before.answers.gained) return;
    const double k = draw.magnitude("times", 1.0, 30.0);
    for (const Growing& error : stated_errors())
      error.grow(test, k);
    must_not_know_more(judged_briefly(test), before);
  });
}

// The same loss and the same scatter found by fewer set-ups. Those of one measurement left out
// would change both, in either direction.
TEST_CASE("Property: fewer set-ups of the same scatter decide nothing more") {
  holds("two or four set-ups less a stage", [](Draw& draw) {
    TestBuilder b;
    if (draw.coin("same panel")) b.same_panel();
    b.setup_scatter(draw.magnitude("set-up scatter", 1e-4, 0.02));
    b.loss(draw.number("loss", 0.0, 0.15));
    const int most = 2 * draw.whole("pairs of set-ups", 2, 4);
    const int fewer = 2 * draw.whole("pairs of them left", 1, most / 2);
    const PowerResult before = judged_briefly(b.setups(most, most).build());
    const PowerResult after = judged_briefly(b.setups(fewer, fewer).build());
    must_be_close(after.estimate.lambda, before.estimate.lambda, 1e-12, "lambda");
    must_not_fall(after.estimate.expanded, before.estimate.expanded, 1e-12, "half-width");
    if (!before.answers.gained) must_not_know_more(after, before);
  });
}

TEST_CASE("Property: looks left out decide nothing more") {
  holds(
      "no look before or no look after the shots",
      [](Draw& draw) {
        TestBuilder b = drawn_builder(draw);
        const Assessment before = assessed_briefly(b.build());
        if (draw.coin("none at the start")) b.no_look_at_start();
        if (draw.coin("none after")) b.no_looks_after();
        must_not_know_more(assessed_briefly(b.build()), before);
      },
      40);
}

TEST_CASE("Property: slower balls or speeds known less well reach no more places") {
  holds(
      "every throw slower, its speed less well known, or not on the panel",
      [](Draw& draw) {
        TestBuilder b = drawn_builder(draw);
        const Assessment before = assessed_briefly(b.build());
        const double k = draw.number("speed left", 0.8, 1.0);
        for (Shot& shot : b.test.record.shots)
          shot.speed = k * *shot.speed;
        const double times = draw.magnitude("error of the speed, times", 1.0, 10.0);
        b.test.protocol.speed.error->relative = times * b.test.protocol.speed.error->relative;
        if (draw.coin("a miss"))
          b.test.record.shots.at(static_cast<std::size_t>(draw.whole("throw", 0, 4))).landing =
              Landing::miss;
        const Assessment worse = assessed_briefly(b.build());
        for (std::size_t s = 0; s < worse.delivery.size(); ++s) {
          must(worse.delivery[s].places_struck <= before.delivery[s].places_struck,
               "no more places of series " + std::to_string(s + 1) + " are struck");
        }
        must_not_know_more(worse, before);
      },
      40);
}

}  // namespace hailwright::testing
