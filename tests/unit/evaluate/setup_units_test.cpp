#include "evaluate/setup_units.hpp"

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {
constexpr PowerQuestion both{
    {StageKind::before, 0}, {StageKind::after, 0}, PowerQuestion::Of::both, false};
}

TEST_CASE("set-ups: rounds pair the k-th readings of both panels, skipped ones counted") {
  Test t = TestBuilder().setups(1, 1).build();
  for (Reading& r : t.record.readings)
    r.round.reset();
  // The second struck reading of the first set-up falls to a cloud: its partner falls with it.
  int struck = 0;
  for (Reading& r : t.record.readings) {
    if (r.setup == 0 && r.role == Role::struck && ++struck == 2) r.skip = "cloud";
  }
  const StageBlocks blocks = collect_stage_blocks(t, both);
  REQUIRE(blocks.from.size() == 1);
  REQUIRE(blocks.from[0].rounds.size() == 2);
  CHECK(blocks.from[0].rounds[1].struck->irradiance ==
        blocks.from[0].rounds[1].control->irradiance);
}

TEST_CASE("set-ups: one without a complete round is named") {
  Test t = TestBuilder().setups(1, 1).build();
  for (Reading& r : t.record.readings) {
    if (r.setup == 1 && r.role == Role::control) r.skip = "cloud";
  }
  CHECK(collect_stage_blocks(t, both).unpaired == "after 1");
}

TEST_CASE("set-ups: readings of one set-up count as one unless a reason is given") {
  const std::vector<double> few(5, 1.0);
  CHECK(effective_readings(few, false) == 1.0);
  CHECK(effective_readings(few, true) == 5.0);
  std::vector<double> many;
  for (int i = 0; i < 24; ++i)
    many.push_back(i % 2 == 0 ? 1.0 : -1.0);
  CHECK(effective_readings(many, false) == 24.0);  // no positive autocorrelation
}

TEST_CASE("set-ups: what all of them redid") {
  TestBuilder b;
  Test t = b.setups(1, 1).build();
  t.record.setups[1].redone = std::vector<Redone>{Redone::mount, Redone::aim};
  const StageBlocks blocks = collect_stage_blocks(t, both);
  CHECK(redone_in_all(t, blocks) == std::vector<Redone>{Redone::mount, Redone::aim});
  t.protocol.measure.redone.reset();
  CHECK_FALSE(redone_in_all(t, blocks).has_value());
}

TEST_CASE("set-ups: stages that scatter unlike") {
  // F of the ratio of variances over F_0.975(3, 3) = 15.439 (table value, from memory).
  CHECK_THAT(*variance_ratio({1, -1, 1, -1}, {1, -1, 1, -1}), WithinAbs(1.0 / 15.439, 5e-5));
  CHECK(*variance_ratio({1, -1, 1, -1}, {10, -10, 10, -10}) > 1.0);
  CHECK_FALSE(variance_ratio({1, 2}, {1, 2, 3}).has_value());
  CHECK_FALSE(variance_ratio({1, 1, 1}, {1, 2, 3}).has_value());
}
