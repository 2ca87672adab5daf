#include "report/judged_stages.hpp"

#include "support/catch.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;
using hailwright::testing::WrittenUp;

TEST_CASE("judged stages: those of the series, then later ones, each with its answers") {
  WrittenUp written(TestBuilder().second_series().stage_after(0, 0.01));
  Assessment& a = written.assessment();
  REQUIRE(a.power.size() == 2);
  a.later_power = {a.power.back()};
  const std::vector<const PowerResult*> order{&a.power[0], &a.power[1], &a.later_power[0]};
  CHECK(all_stages(a) == order);
  Judged judged = written.judged().front();
  for (const JudgedStage& stage : judged_stages(judged))
    CHECK(stage.reader == nullptr);
  const ReaderLimit limit = answer_reader_limit(a, percent(2));
  judged.reader_limit = &limit;
  const std::vector<JudgedStage> stages = judged_stages(judged);
  REQUIRE(stages.size() == 3);
  CHECK(stages[0].reader == &limit.power[0]);
  CHECK(stages[1].reader == &limit.power[1]);
  CHECK(stages[2].reader == &limit.later_power[0]);
  CHECK(stages[2].power == order[2]);
}

TEST_CASE("judged stages: the first that was estimated, of the later ones too") {
  const Test alone = TestBuilder().no_final_stage().later(0.1).build();
  const Assessment a = assess(alone);
  CHECK(first_estimated(a) == &a.later_power.at(0));
  CHECK(first_estimated(Assessment{}) == nullptr);
}
