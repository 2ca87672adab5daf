#include "evaluate/timeline.hpp"

#include "support/catch.hpp"

using namespace hailwright;

namespace {

StressDone done(std::size_t stress, bool after_hail) {
  StressDone d;
  d.stress = stress;
  d.after_hail = after_hail;
  return d;
}

Shot shot(int number, std::size_t series) {
  Shot s;
  s.number = number;
  s.series = series;
  return s;
}

Look look_after(std::size_t series, std::optional<int> after_throw = std::nullopt) {
  Look l;
  l.after = series;
  l.after_throw = after_throw;
  return l;
}

Look look_after_stress(std::size_t stress) {
  Look l;
  l.after_stress = stress;
  return l;
}

Look look_at_start() {
  Look l;
  l.start = true;
  return l;
}

void add_setup(Record& record, StageId stage) {
  Setup setup;
  setup.stage = stage;
  record.setups.push_back(setup);
}

/// Stress 0, two throws of series 0, two of series 1, stress 1.
Record mixed() {
  Record r;
  r.stresses = {done(1, true), done(0, false)};
  r.shots = {shot(1, 0), shot(2, 0), shot(3, 1), shot(4, 1)};
  return r;
}

}  // namespace

TEST_CASE("timeline: what was done in order, whatever the order of the file") {
  const Record r = mixed();
  const Timeline t(r);
  CHECK(t.events() == std::vector<PanelEvent>{{false, 1}, {true, 0}, {true, 1}, {false, 0}});
  CHECK(t.has_hail());
  CHECK(t.before_hail() == 1);
  CHECK(t.place_of({true, 1}) == 2);
  CHECK(t.place_of({true, 7}) == t.size());
}

TEST_CASE("timeline: where looks stand") {
  const Record r = mixed();
  const Timeline t(r);
  const auto stands = [&](const Look& look, std::size_t over, std::size_t begun) {
    return t.at(look).over == over && t.at(look).begun == begun;
  };
  CHECK(stands(look_at_start(), 0, 0));
  CHECK(stands(look_after_stress(0), 1, 1));
  CHECK(stands(look_after(0, 1), 1, 2));  // between two throws of series 0
  CHECK(stands(look_after(0, 2), 2, 2));
  CHECK(stands(look_after(0), 2, 2));
  CHECK(stands(look_after(1), 3, 3));
  CHECK(stands(look_after_stress(1), 4, 4));
}

TEST_CASE("timeline: looks in the order in which they were taken") {
  Record r = mixed();
  r.looks = {look_after_stress(1), look_after(1), look_after(0, 1), look_after_stress(0),
             look_at_start()};
  const Timeline t(r);
  for (std::size_t later = 0; later + 1 < r.looks.size(); ++later)
    CHECK(t.order_of(r.looks[later + 1]) < t.order_of(r.looks[later]));
  CHECK(t.since_look_before(3) == std::vector<PanelEvent>{{false, 1}});
  CHECK(t.since_look_before(2) == std::vector<PanelEvent>{{true, 0}});
  CHECK(t.since_look_before(1) == std::vector<PanelEvent>{{true, 0}, {true, 1}});
  CHECK(t.since_look_before(0) == std::vector<PanelEvent>{{false, 0}});
  CHECK(t.since_look_before(4).empty());
}

TEST_CASE("timeline: a second look after a stress shows what that stress did") {
  Record r = mixed();
  r.looks = {look_after(1), look_after_stress(1), look_after_stress(1)};
  CHECK(Timeline(r).since_look_before(2) == std::vector<PanelEvent>{{false, 0}});
}

TEST_CASE("timeline: a look that comes after a stress without one shows both") {
  Record r = mixed();
  r.looks = {look_at_start(), look_after(0)};
  const auto since = Timeline(r).since_look_before(1);
  CHECK(since == std::vector<PanelEvent>{{false, 1}, {true, 0}});
  CHECK(Timeline::stresses_of(since) == std::vector<std::size_t>{1});
}

TEST_CASE("timeline: stages before and after a standing") {
  Record r = mixed();
  const Timeline empty(r);
  CHECK(empty.last_stage_by(4) == StageId{StageKind::before, 0});
  CHECK_FALSE(empty.first_stage_from(1));
  add_setup(r, {StageKind::before, 0});
  add_setup(r, {StageKind::after_stress, 0});
  add_setup(r, {StageKind::after, 0});
  add_setup(r, {StageKind::later, 0});
  const Timeline t(r);
  CHECK(t.at(StageId{StageKind::after, 0}) == 3);
  CHECK(t.last_stage_by(0) == StageId{StageKind::before, 0});
  CHECK(t.last_stage_by(2) == StageId{StageKind::after_stress, 0});
  CHECK(t.last_stage_by(3) == StageId{StageKind::after, 0});
  CHECK(t.first_stage_from(2) == StageId{StageKind::after, 0});
  CHECK_FALSE(t.first_stage_from(4));  // `later` answers for nothing
}

TEST_CASE("timeline: baseline and later stages bound nothing") {
  Record r = mixed();
  add_setup(r, {StageKind::baseline, 0});
  add_setup(r, {StageKind::later, 0});
  const Timeline t(r);
  CHECK(t.at(StageId{StageKind::baseline, 0}) == 0);
  CHECK(t.at(StageId{StageKind::later, 0}) == t.size());
  CHECK(t.at(StageId{StageKind::after_series, 0}) == 2);
  CHECK(t.last_stage_by(t.size()) == StageId{StageKind::before, 0});
  CHECK_FALSE(t.first_stage_from(0));
}

TEST_CASE("timeline: without hail `after` is after everything") {
  Record r;
  r.stresses = {done(0, false), done(1, false)};
  const Timeline t(r);
  CHECK_FALSE(t.has_hail());
  CHECK(t.at(StageId{StageKind::after, 0}) == 2);
  CHECK(t.at(look_after(0)).over == 2);
  CHECK(t.order_of(look_after_stress(1)) < t.order_of(look_after(0)));
}
