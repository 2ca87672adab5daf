#include "report/power_picture_words.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/judged_power.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;
using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;

namespace {

struct Said {
  explicit Said(Test t) : test(std::move(t)), power(judged(test)), view(view_power(test, power)) {}
  Test test;
  PowerResult power;
  PowerView view;
  [[nodiscard]] PowerWords words() const { return {test, power, view}; }
};

}  // namespace

TEST_CASE("power_picture_words: stages in ids") {
  CHECK(stage_id({StageKind::after, 0}) == "after");
  CHECK(stage_id({StageKind::after_series, 1}) == "after-series-2");
  CHECK(stage_id({StageKind::later, 0}) == "later");
  CHECK(stage_id({StageKind::before, 0}) == "before");
  CHECK(stage_id({StageKind::baseline, 0}) == "baseline");
}

TEST_CASE("power_picture_words: numbers in the decimals of the judgement") {
  const Said said(TestBuilder().loss(0.04).build());
  const PowerWords words = said.words();
  CHECK(words.title() == "Power against the control of Panel A by set-up, after");
  CHECK(words.from_level() == "before 100.0 %");
  CHECK(words.to_level() == "after 96.0 %");
  CHECK(words.limit_level() == "limit 95.0 %");
  CHECK(words.limit() == "limit: 5 % less than before, 95.0 %");
  CHECK_THAT(words.to_mean(), StartsWith("after: mean 96.0 %, with the 95 % interval of its change "
                                         "since before: "));
  CHECK_THAT(words.description(), Contains("before: 4 set-ups; after: 4 set-ups") &&
                                      Contains("in % of its mean before"));
  const Said watts(TestBuilder().same_panel().build());
  CHECK_THAT(watts.words().from_level(), StartsWith("before ") && EndsWith(" W"));
  CHECK_THAT(watts.words().axis(), Contains("in W"));
  CHECK(watts.words().title() == "Normalised power of Panel A by set-up, after");
}

TEST_CASE("power_picture_words: no answer where there is none") {
  Said said(TestBuilder().loss(0.04).build());
  CHECK_THAT(said.words().to_mean(), !Contains("no answer"));
  said.power.decides = false;
  CHECK_THAT(said.words().to_mean(), EndsWith("; no answer is drawn from it"));
  said.power.valid = false;
  CHECK_THAT(said.words().to_mean(), EndsWith("; not valid, so no answer is drawn from it"));
}

TEST_CASE("power_picture_words: how readings are drawn and which were left out") {
  Said said(TestBuilder().build());
  CHECK(said.words().readings(true) == "24 rounds, each of both panels read in turn");
  CHECK_THAT(said.words().readings(false), Contains("too many to draw one by one"));
  PowerColumn& column = said.view.groups.front().columns.front();
  column.skipped = {50.0};
  column.apart = {101.0, 99.0};
  CHECK(said.words().skipped(0) == "1 round left out; the table of readings says why");
  CHECK(said.words().skipped(1) ==
        "1 round left out; the table of readings says why; 1 lies beyond "
        "the axis, drawn at its edge");
  CHECK(said.words().apart() == "2 rounds that lie apart and are kept");
  const Said same(TestBuilder().same_panel().build());
  CHECK(same.words().readings(true) == "24 readings");
}

TEST_CASE("power_picture_words: units and panel where siblings are compared") {
  const Said said(TestBuilder().siblings(4, 0.01).build());
  CHECK_THAT(said.words().from_level(), StartsWith("units "));
  CHECK_THAT(said.words().to_level(), StartsWith("panel "));
  CHECK_THAT(said.words().to_mean(), Contains("of its difference to the units"));
  CHECK_THAT(said.words().limit(), StartsWith("limit: 5 % less than the units, "));
}

TEST_CASE("power_picture_words: notes on the day and on what was taken out") {
  Said said(TestBuilder().build());
  CHECK_THAT(said.words().notes(),
             StartsWith("All set-ups are of 2026-06-14. The axis does not begin at zero."));
  said.power.model->trend = FittedTrend{};
  CHECK_THAT(said.words().notes(), Contains("straight line in time"));
  said.power.model->to.front().drift_per_hour = 0.01;
  CHECK_THAT(said.words().notes(), Contains("A steady drift in time inside a set-up"));
}

TEST_CASE("power_picture_words: an interval without an end has no figure there") {
  const Said said(TestBuilder().build());
  CHECK(said.words().value(INFINITY) == "no bound");
}
