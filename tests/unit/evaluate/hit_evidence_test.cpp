// MEASUREMENT M12: which hits are trials of their own, and what they show.
#include "evaluate/hit_evidence.hpp"

#include "hailwright/metrology/distributions.hpp"
#include "support/catch.hpp"
#include "support/stress_examples.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::seen;
using hailwright::testing::TestBuilder;

namespace {

/// One series of three places, each struck once at the grade.
struct Places {
  TestBuilder b;

  Places& final_look(std::vector<Finding> saw) {
    b.look(0, std::move(saw));
    return *this;
  }
  Places& look_after_throw(int number, std::vector<Finding> saw = {}) {
    Look l;
    l.after = number <= 3 ? 0 : 1;
    l.after_throw = number;
    l.saw = std::move(saw);
    b.test.record.looks.push_back(l);
    return *this;
  }
  [[nodiscard]] std::vector<HitEvidence> evidence() const {
    const Test t = b.build();
    return assess(t).evidence;
  }
  /// Of the first series; nothing when it has none.
  [[nodiscard]] std::optional<std::pair<int, int>> of_three() const {
    for (const HitEvidence& e : evidence()) {
      if (e.series == 0) return std::pair(e.places, e.with_damage);
    }
    return std::nullopt;
  }
};

const std::vector<Finding> broken{seen("broken front", "place 2")};

std::optional<std::pair<int, int>> counts(int places, int damaged) {
  return std::pair(places, damaged);
}

}  // namespace

// The bound is Clopper and Pearson's: 1 - 0.05^(1/3) for 0 of 3; R 4.2.2, run here:
// binom.test(1, 2, alternative = "less")$conf.int[2] = 0.9746794.
TEST_CASE("hit evidence: three places, nothing seen") {
  const auto e = Places().evidence();
  REQUIRE(e.size() == 1);
  CHECK(e[0].places == 3);
  CHECK(e[0].with_damage == 0);
  CHECK_THAT(e[0].upper, WithinAbs(0.6315968501, 1e-8));
}

TEST_CASE("hit evidence: a repeat on a place is no second trial") {
  Places p;
  p.b.test.record.shots.push_back(p.b.test.record.shots.back());
  p.b.test.record.shots.back().number = 4;
  CHECK(p.of_three() == counts(3, 0));
  // Nor is it one when only the repeat was at the grade.
  p.b.test.record.shots[2].speed = Speed::from_si(15.0);
  CHECK(p.of_three() == counts(2, 0));
}

TEST_CASE("hit evidence: damage in one look after all hits tells none apart") {
  Places p;
  p.final_look(broken);
  CHECK(p.evidence().empty());
}

TEST_CASE("hit evidence: a look after each hit tells which one did it") {
  Places p;
  p.final_look(broken).look_after_throw(1).look_after_throw(2, broken);
  CHECK(p.of_three() == counts(2, 1));
  CHECK_THAT(p.evidence()[0].upper, WithinAbs(0.9746794, 1e-7));
}

TEST_CASE("hit evidence: the very first hit may do it") {
  Places p;
  p.look_after_throw(1, broken);
  CHECK(p.of_three() == counts(1, 1));
  CHECK(p.evidence()[0].upper == 1.0);
}

// Visible damage persists: hits that no look saw anything after have done none.
TEST_CASE("hit evidence: hits before a clean look count, those after it cannot be told apart") {
  Places p;
  p.final_look(broken).look_after_throw(1);
  CHECK(p.of_three() == counts(1, 0));
  Places late;
  late.final_look(broken).look_after_throw(2);
  CHECK(late.of_three() == counts(3, 1));
}

TEST_CASE("hit evidence: a miss between two looks is no hit") {
  Places p;
  p.b.test.record.shots[2].landing = Landing::miss;
  p.final_look(broken).look_after_throw(1);
  CHECK(p.of_three() == counts(2, 1));
}

TEST_CASE("hit evidence: damage by a hit that was no trial ends the count") {
  Places weak;
  weak.b.test.record.shots[1].speed = Speed::from_si(15.0);
  weak.look_after_throw(1).look_after_throw(2, broken);
  CHECK(weak.of_three() == counts(1, 0));
}

TEST_CASE("hit evidence: a thing of unknown size ends the count") {
  Places p;
  p.look_after_throw(1).look_after_throw(2, {seen("cell crack", "cell 3")});
  CHECK(p.of_three() == counts(1, 0));
}

TEST_CASE("hit evidence: nothing is new without a look before") {
  Places p;
  p.b.no_look_at_start();
  p.look_after_throw(1, broken);
  CHECK(p.evidence().empty());
  // A clean look between throws is one before what comes later.
  Places later;
  later.b.no_look_at_start();
  later.look_after_throw(1).look_after_throw(2, broken);
  CHECK(later.of_three() == counts(2, 1));
}

TEST_CASE("hit evidence: hits without any look after them are no trials") {
  Places p;
  p.b.no_looks_after();
  CHECK(p.evidence().empty());
  CHECK(p.look_after_throw(2).of_three() == counts(2, 0));
}

TEST_CASE("hit evidence: series after the damage have none") {
  Places seen_damage;
  seen_damage.b.second_series();
  seen_damage.look_after_throw(1).look_after_throw(2, broken);
  REQUIRE(seen_damage.evidence().size() == 1);
  CHECK(seen_damage.evidence()[0].series == 0);
  Places measured;
  measured.b.second_series().stage_after(0, 0.12);
  REQUIRE(measured.evidence().size() == 1);
  CHECK(measured.evidence()[0].series == 0);
  Places sound;
  sound.b.second_series();
  CHECK(sound.evidence().size() == 2);
}

TEST_CASE("hit evidence: a hit beside all places is no trial") {
  Places p;
  Shot& off = p.b.test.record.shots.back();
  off.landing = Landing::offset;
  off.where = Position{Length::from_si(0.2), Length{}};
  CHECK(p.of_three() == counts(2, 0));
}

TEST_CASE("hit evidence: damage after a stress as well as a hit is not the hit's") {
  Places p;
  p.b.test.protocol.decide.judges_power = false;
  p.look_after_throw(1, broken);
  CHECK(p.of_three() == counts(1, 1));
  const StressKind& pull = *find_stress_kind("cable pull");
  p.b.test.protocol.stresses = {hailwright::testing::planned_by_examples(pull)};
  StressDone before_hail;
  before_hail.values = hailwright::testing::examples_of(pull.done);
  p.b.test.record.stresses = {before_hail};
  CHECK_FALSE(p.of_three().has_value());
}
