// The answers that power and looks can give to a stress, one by one: MEASUREMENT M5, M9, M11.
#include <algorithm>

#include "hailwright/evaluate/assessment.hpp"
#include "support/catch.hpp"
#include "support/stress_examples.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

/// Stresses after the hail of the builder, each of its kind's examples and done by them.
struct StressRow {
  TestBuilder builder;

  StressRow& then(std::string_view word, bool after_hail = true) {
    const StressKind& kind = *find_stress_kind(word);
    Test& t = builder.test;
    t.protocol.stresses.push_back(planned_by_examples(kind));
    t.protocol.stresses.back().name += " " + std::to_string(t.protocol.stresses.size());
    StressDone done;
    done.stress = t.protocol.stresses.size() - 1;
    done.after_hail = after_hail;
    done.values = examples_of(kind.done);
    t.record.stresses.push_back(done);
    return *this;
  }
  StressRow& pull() { return then("cable pull"); }
  /// What is planned and done by the last of them.
  StressRow& planned(const char* key, const char* text) {
    StressPlan& plan = builder.test.protocol.stresses.back();
    plan.values[key] = planned_values(*plan.kind, {{key, text}}).at(key);
    return *this;
  }
  StressRow& done(const char* key, const char* text) {
    const StressKind& kind = *builder.test.protocol.stresses.back().kind;
    builder.test.record.stresses.back().values[key] = done_values(kind, {{key, text}}).at(key);
    return *this;
  }
  StressRow& looked(std::vector<Finding> saw = {}) {
    Look look;
    look.after_stress = builder.test.protocol.stresses.size() - 1;
    look.saw = std::move(saw);
    builder.test.record.looks.push_back(look);
    return *this;
  }
  StressRow& read(double loss) {
    builder.stage_after_stress(builder.test.protocol.stresses.size() - 1, loss);
    return *this;
  }
  StressRow& power_not_claimed() {
    builder.test.protocol.decide.judges_power = false;
    return *this;
  }
};

struct RowVerdicts {
  explicit RowVerdicts(const StressRow& row) : test(row.builder.build()), a(assess(test)) {}
  Test test;
  Assessment a;

  [[nodiscard]] Word word(std::size_t stress = 0) const { return a.stresses.at(stress).word; }
  [[nodiscard]] int count(StressBecause because, std::size_t stress = 0) const {
    const auto& reasons = a.stresses.at(stress).reasons;
    return static_cast<int>(
        std::count_if(reasons.begin(), reasons.end(),
                      [&](const StressReason& r) { return r.because == because; }));
  }
};

StressRow bent_over(const char* drum) {
  StressRow row;
  row.then("bending").power_not_claimed().planned("radius", "300 mm").done("drum", drum);
  row.builder.test.record.panel.build = Build::flexible;
  row.builder.test.record.panel.smallest_radius = Length::from_si(0.2);
  return row;
}

}  // namespace

// 5 % of 300 mm on the weak side are 315 mm; a tape to 5 mm on the drum is u = 1.4 mm of radius.
TEST_CASE("stress answers: a bend is weak where its radius is large") {
  const RowVerdicts as_planned{bent_over("600 mm").looked()};
  const StressQuantity& radius = as_planned.a.stresses.at(0).quantities.at(0);
  CHECK_THAT(radius.counts_from, WithinRel(315.0, 1e-12));
  CHECK(radius.side == StressSide::not_weaker);
  CHECK(radius.not_stronger);
  CHECK(as_planned.word() == Word::withstood);
  const RowVerdicts wide{bent_over("700 mm").looked()};
  CHECK(wide.word() == Word::not_reached);
  CHECK(wide.count(StressBecause::weaker) == 1);
  const RowVerdicts tight{bent_over("500 mm").looked({seen("broken back", "middle")})};
  CHECK(tight.word() == Word::damaged);
  CHECK(tight.a.stresses[0].damage_by == StressDamageBy::perhaps_more);
}

TEST_CASE("stress answers: power that the protocol claims has no answer") {
  const auto only = [](const StressRow& row, StressBecause because) {
    const RowVerdicts v{row};
    return v.word() == Word::undecided && v.count(because) == 1;
  };
  const StressRow pulled = StressRow().pull().looked();
  CHECK(only(pulled, StressBecause::power_missing));
  CHECK(only(StressRow(pulled).read(0.05), StressBecause::power_undecided));
  CHECK(only(StressRow(pulled).read(-0.06), StressBecause::power_not_valid));
  StressRow load = StressRow(pulled).read(0.0);
  load.builder.test.protocol.measure.maximum_power = MaximumPower::fixed_load;
  CHECK(only(load, StressBecause::power_not_deciding));
  StressRow not_said = StressRow(pulled).read(0.0);
  not_said.builder.test.protocol.measure.redone.reset();
  CHECK(only(not_said, StressBecause::power_obstacle));
  const RowVerdicts answered{StressRow(pulled).read(0.0)};
  CHECK(answered.word() == Word::withstood);
  CHECK(answered.count(StressBecause::power_within) == 1);
}

TEST_CASE("stress answers: power of a panel still wet says nothing") {
  const auto sprayed = [](const char* dried) {
    StressRow row;
    row.then("spray").done("dried", dried).done("lasting", "190 s").looked().read(0.3);
    return RowVerdicts{row};
  };
  const RowVerdicts wet = sprayed("not yet");
  CHECK(wet.word() == Word::undecided);
  CHECK(wet.count(StressBecause::power_spoilt) == 1);
  CHECK_FALSE(wet.a.stresses[0].power);
  const RowVerdicts dry = sprayed("fully");
  CHECK(dry.word() == Word::damaged);
  CHECK(dry.count(StressBecause::power_spoilt) == 0);
  CHECK(dry.count(StressBecause::unsuited) == 0);
}

TEST_CASE("stress answers: each of two stresses is held against its own stages") {
  const RowVerdicts v{StressRow().pull().looked().read(0.0).pull().looked().read(0.3)};
  CHECK(v.word(0) == Word::withstood);
  CHECK(v.word(1) == Word::damaged);
  CHECK(v.a.stresses[0].power != v.a.stresses[1].power);
}

TEST_CASE("stress answers: a loss before it leaves a stress undecided") {
  SECTION("by the stress before") {
    const RowVerdicts v{StressRow().pull().looked().read(0.3).pull().looked().read(0.3)};
    CHECK(v.word(0) == Word::damaged);
    CHECK(v.word(1) == Word::undecided);
    CHECK(v.count(StressBecause::damaged_before, 1) == 1);
  }
  SECTION("by two stresses before, of which nobody knows which") {
    const RowVerdicts v{
        StressRow().pull().looked().pull().looked().read(0.3).pull().looked().read(0.3)};
    CHECK(v.word(0) == Word::damaged);
    CHECK(v.count(StressBecause::together, 0) == 1);
    CHECK(v.word(2) == Word::undecided);
    CHECK(v.count(StressBecause::damaged_before, 2) == 1);
  }
  SECTION("by the hail") {
    StressRow row;
    row.builder.loss(0.3);
    const RowVerdicts v{row.pull().looked().read(0.3)};
    CHECK(v.a.verdicts.at(0).word == Word::damaged);
    CHECK(v.word() == Word::undecided);
    CHECK(v.count(StressBecause::damaged_before) == 1);
  }
}

TEST_CASE("stress answers: what came after it does not count against a stress") {
  StressRow row = StressRow().then("cable pull", false).looked().power_not_claimed();
  row.builder.look(0, {seen("broken front", "place 2")});
  const RowVerdicts v{row};
  CHECK(v.a.verdicts.at(0).word == Word::damaged);
  CHECK(v.word() == Word::withstood);
  // The same where the verdict on the hail is known already.
  CHECK(judge_stress(v.test, v.a, 0).word == Word::withstood);
}

TEST_CASE("stress answers: small things seen decide nothing") {
  const RowVerdicts v{StressRow().pull().power_not_claimed().looked({seen("scuff", "corner")})};
  CHECK(v.word() == Word::withstood);
  CHECK(v.a.stresses[0].clean_looks);
}

TEST_CASE("stress answers: a crack without its share of the cell leaves it open") {
  const Finding crack = seen("cell crack", "cell 4");
  SECTION("seen after it") {
    const RowVerdicts v{StressRow().pull().power_not_claimed().looked({crack})};
    CHECK(v.word() == Word::undecided);
    CHECK(v.count(StressBecause::cell_share_not_stated) == 1);
    CHECK_FALSE(v.a.stresses[0].clean_looks);
  }
  SECTION("seen before it") {
    StressRow row = StressRow().pull().power_not_claimed().looked({crack});
    row.builder.look(0, {crack});
    const RowVerdicts v{row};
    CHECK(v.word() == Word::undecided);
    CHECK(v.count(StressBecause::cell_share_not_stated) == 1);
  }
  SECTION("seen after the next one only") {
    const RowVerdicts v{StressRow().pull().power_not_claimed().looked().pull().looked({crack})};
    CHECK(v.word(0) == Word::withstood);
    CHECK(v.word(1) == Word::undecided);
  }
}

TEST_CASE("stress answers: a defect is not called new when nobody looked before") {
  StressRow row =
      StressRow().then("cable pull", false).power_not_claimed().looked({seen("broken front", "x")});
  row.builder.no_look_at_start();
  const RowVerdicts v{row};
  CHECK(v.word() == Word::undecided);
  CHECK(v.count(StressBecause::no_look_before) == 1);
  CHECK(v.count(StressBecause::together) == 1);
  CHECK(v.count(StressBecause::new_major_defect) == 0);
}

TEST_CASE("stress answers: a defect from the start is told once") {
  StressRow row = StressRow().pull().power_not_claimed();
  const std::vector<Finding> old{seen("broken frame", "left"), seen("scuff", "right")};
  Look& start = row.builder.test.record.looks.front();
  REQUIRE(start.start);
  start.saw = {old[0], old[1], old[0]};
  row.builder.look(0, old);
  const RowVerdicts v{row.looked(old)};
  CHECK(v.word() == Word::withstood);
  CHECK(v.count(StressBecause::defect_from_start) == 1);
}

TEST_CASE("stress answers: a loss that several may have done is no open loss") {
  StressRow row;
  row.then("cable pull", false).then("cable pull", false).looked().read(0.3);
  row.builder.no_look_at_start();
  const RowVerdicts v{row};
  CHECK(v.word() == Word::undecided);
  CHECK(v.count(StressBecause::no_look_before) == 1);
  CHECK(v.count(StressBecause::together) == 1);
  CHECK(v.count(StressBecause::power_undecided) == 0);
}

TEST_CASE("stress answers: days are counted from the stress that was dated") {
  StressRow row;
  row.pull().looked().read(0.0);
  CHECK(RowVerdicts{row}.a.stress_power.at(0).days_after_shots == 0);
  row.builder.test.record.stresses[0].date = "2026-06-10";  // the panel was read on the 14th
  CHECK(RowVerdicts{row}.a.stress_power.at(0).days_after_shots == 4);
}
