#include "report/energy_picture_data.hpp"

#include "support/aim_examples.hpp"
#include "support/catch.hpp"
#include "support/struck_panel.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;

namespace {

std::vector<EnergyView> views_of(const Test& test) {
  const Assessment assessment = assess(test);
  return view_energies({&test, &assessment});
}

Test one_hit_each() {
  Test test = panel_to_strike();
  add_throw(test, throw_at(test, 0, 0, Landing::in));
  add_throw(test, throw_at(test, 1, 0, Landing::in));
  return test;
}

std::vector<std::string> names_of(const std::vector<EnergyLevel>& levels) {
  std::vector<std::string> names;
  for (const EnergyLevel& level : levels)
    names.push_back(level.name);
  return names;
}

void aim_at(SeriesPlan& series, const char* label) {
  const Grade* grade = find_grade(label);
  REQUIRE(grade != nullptr);
  series.target = {label, grade, grade->diameter, grade->mass, *grade->speed, std::nullopt};
}

}  // namespace

TEST_CASE("energy view: each throw is drawn or named with the reason") {
  Test test = panel_to_strike();
  add_throw(test, throw_at(test, 0, 0, Landing::in));
  add_throw(test, throw_at(test, 0, 1, Landing::miss));
  add_throw(test, throw_at(test, 0, 1, Landing::broke));
  add_throw(test, throw_of_unknown_energy(test, 0, 1));
  const auto views = views_of(test);
  REQUIRE(views.size() == 1);
  CHECK(views[0].scheme == "IEC 61215");
  REQUIRE(views[0].series.size() == 2);
  const EnergySeries& small = views[0].series[0];
  REQUIRE(small.marks.size() == 1);
  CHECK(small.marks[0].number == 1);
  CHECK(small.missed == std::vector<int>{2});
  CHECK(small.broken == std::vector<int>{3});
  CHECK(small.unknown == std::vector<int>{4});
  CHECK(views[0].series[1].marks.empty());
}

TEST_CASE("energy view: the bar is the two-sided 95 % interval of the energy") {
  const Test test = one_hit_each();
  const Assessment assessment = assess(test);
  const Estimate<Energy> energy = *assessment.delivery[0].shots[0].energy;
  const EnergyMark mark = view_energies({&test, &assessment})[0].series[0].marks[0];
  // The 97.5 % point of the normal distribution, 1.960 (NIST/SEMATECH e-Handbook, 1.3.6.7.1), at
  // infinite degrees of freedom; more at fewer.
  CHECK(mark.high.si() >= energy.value.si() + 1.9599 * energy.standard_u.si());
  CHECK(mark.low.si() <= energy.value.si() - 1.9599 * energy.standard_u.si());
  CHECK_THAT(mark.high.si() + mark.low.si(), WithinRel(2.0 * mark.value.si(), 1e-9));
  // Inside it lie the one-sided bounds that sentences print.
  CHECK(mark.low < lower_bound(energy, 0.95));
  CHECK(mark.at_grade == assessment.delivery[0].shots[0].sides.not_weaker);
}

TEST_CASE("energy view: the window is the box of mass and speed inside their tolerance") {
  const auto views = views_of(one_hit_each());
  const EnergyLevel& aimed = views[0].levels.front();
  CHECK(aimed.name == "25 mm");
  CHECK(aimed.aimed_at);
  // 7.53 g at 23.0 m/s, and -14.3 % to +15.8 % for 5 % on each (docs/measurement.md, M10).
  CHECK_THAT(aimed.value.si(), WithinAbs(1.9917, 0.00005));
  CHECK_THAT(aimed.low.si() / aimed.value.si(), WithinAbs(1.0 - 0.143, 0.0005));
  CHECK_THAT(aimed.high.si() / aimed.value.si(), WithinAbs(1.0 + 0.158, 0.0005));
}

TEST_CASE("energy view: grades beside the data are drawn, the next ones are named") {
  const auto views = views_of(one_hit_each());
  // Energies of the rows in J: 15 mm 0.258, 25 mm 1.99, 35 mm 7.66, 45 mm 20.7, 55 mm 46.1.
  CHECK(names_of(views[0].levels) == std::vector<std::string>{"25 mm", "35 mm"});
  CHECK(names_of(views[0].far_levels) == std::vector<std::string>{"15 mm", "45 mm"});
  CHECK(views[0].levels[1].aimed_at);
}

TEST_CASE("energy view: series of two schemes get two views, free targets one of their own") {
  Test test = one_hit_each();
  aim_at(test.protocol.series[1], "HW3");
  auto views = views_of(test);
  REQUIRE(views.size() == 2);
  CHECK(views[1].scheme == "VKF");
  test.protocol.series[1].target.grade = nullptr;
  test.protocol.series[1].target.label = "free: 30 mm, 13 g, 24 m/s";
  views = views_of(test);
  REQUIRE(views.size() == 2);
  CHECK(views[1].scheme.empty());
  CHECK(names_of(views[1].levels) == std::vector<std::string>{"large"});
  CHECK(views[1].far_levels.empty());
}

TEST_CASE("energy view: a grade with figures that nobody read is marked") {
  Test test = one_hit_each();
  test.protocol.series.resize(1);
  test.record.shots.resize(1);
  test.record.looks.resize(2);
  aim_at(test.protocol.series[0], "ISO 9806 ice 25 mm");
  const auto views = views_of(test);
  REQUIRE(views.size() == 1);
  CHECK(views[0].levels.front().doubtful);
  CHECK_THAT(views[0].series[0].target, Contains("[figures from memory]"));
  CHECK_FALSE(views_of(one_hit_each())[0].levels.front().doubtful);
}

TEST_CASE("energy view: two series at one grade share its line") {
  Test test = one_hit_each();
  test.protocol.series[1].target = test.protocol.series[0].target;
  test.record.shots[1] = throw_at(test, 1, 0, Landing::in);
  test.record.shots[1].number = 2;
  const auto views = views_of(test);
  REQUIRE(views.size() == 1);
  CHECK(views[0].series.size() == 2);
  int aimed = 0;
  for (const EnergyLevel& level : views[0].levels)
    aimed += level.aimed_at ? 1 : 0;
  CHECK(aimed == 1);
  test.record.shots.clear();
  CHECK(views_of(test).empty());
}
