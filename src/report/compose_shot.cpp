#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/physics/ice_ball.hpp"
#include "hailwright/physics/impact.hpp"
#include "hailwright/report/compose.hpp"
#include "hailwright/safety/yardsticks.hpp"
#include "hailwright/tables/hailstones.hpp"
#include "report/caution_items.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

ShotAnswer answer_shot(const ShotQuestion& q) {
  ShotAnswer a;
  a.question = q;
  if (q.mass) {
    a.mass = *q.mass;
    a.density = implied_density(a.mass, q.diameter);
    a.density_believable = believable_ice(a.density.value);
  } else {
    a.density = {defaults::density,
                 Density::from_si(defaults::density_within.si() / std::sqrt(3.0))};
    a.mass = mass_of_sphere(q.diameter, a.density);
    a.mass_from_diameter = true;
  }
  a.energy = kinetic_energy(a.mass, q.speed);
  a.momentum = momentum(a.mass, q.speed);
  if (q.angle) a.normal_share = normal_energy_share(*q.angle);
  a.per_area = energy_per_cross_section(a.energy.value, q.diameter.value);
  for (const Grade& g : impact_grades()) {
    if (g.scheme != q.scheme || !g.energy()) continue;
    const Energy nominal = *g.energy();
    a.grades.push_back(
        {&g,
         {a.energy.value / nominal, a.energy.standard_u / nominal, a.energy.degrees_of_freedom}});
  }
  const HailstoneRange stones = equal_energy_hailstones(a.energy.value);
  a.hailstone_smallest = stones.smallest;
  a.hailstone_largest = stones.largest;
  CautionFacts facts;
  facts.launches = true;
  facts.energy = upper_bound(a.energy, 0.95);
  facts.energy_per_area = energy_per_cross_section(*facts.energy, q.diameter.value);
  // A shot on paper: no panel, no launcher chosen, no freezer named; what is known to be absent is
  // said so, the rest stays unknown and its cautions are shown.
  facts.installed = false;
  facts.high_voltage_test = false;
  a.cautions = cautions_for(facts);
  return a;
}

namespace {

/// "1.99 J, u 0.13 J (6.5 %)".
template <class Q>
std::string with_u(const Estimate<Q>& e, const char* unit, double per_si) {
  const double value = e.value.si() * per_si;
  const double u = e.standard_u.si() * per_si;
  if (u == 0.0) return fmt::format("{} {}, no uncertainty given", plain_number(value, 5), unit);
  const int decimals = decimals_for(u);
  return fmt::format("{} {}, u {} {} ({})", fixed(value, decimals), unit, fixed(u, decimals), unit,
                     percent_text(Ratio::from_si(u / value)));
}

void add_ball_facts(Facts& facts, const ShotAnswer& a) {
  Fact mass{"mass", {plain(with_u(a.mass, "g", 1000.0))}};
  if (a.mass_from_diameter) {
    mass.lines.push_back(plain("from the diameter and 0.87 to 0.93 g/cm3; a weighed ball would do "
                               "better, and only a weighed one supports a grade"));
  }
  facts.items.push_back(std::move(mass));
  if (a.density_believable) return;
  facts.items.push_back(
      {"warning",
       {{{fmt::format("mass and diameter imply {} g/cm3, which is not ice (0.87 to 0.93): the mass "
                      "or the diameter is wrong",
                      fixed(a.density.value.si() / 1000.0, 3)),
          Tone::bad}}}});
}

Table grade_shares(const ShotAnswer& a) {
  Table table{
      fmt::format("Share of the energy of each {} grade", a.question.scheme),
      {{"grade"}, {"J", Align::right}, {"share", Align::right}, {"u", Align::right}, {"known"}},
      {}};
  for (const GradeShare& g : a.grades) {
    table.rows.push_back({std::string(g.grade->name), fixed(g.grade->energy()->si(), 4),
                          significant(g.share.value.si() * 100.0, 3) + " %",
                          significant(g.share.standard_u.si() * 100.0, 2) + " %",
                          std::string(text(g.grade->status))});
  }
  return table;
}

void add_eyewear(Document& out, const ShotAnswer& a) {
  Table table{"What eye protection is proved with (a small steel ball, never ice)",
              {{"protection"}, {"J", Align::right}, {"this ball"}, {"known"}},
              {}};
  for (const EyewearAgainstBall& e : eyewear_against(upper_bound(a.energy, 0.95))) {
    table.rows.push_back({std::string(e.eyewear->name), significant(e.eyewear->energy.si(), 3),
                          e.outdone ? "carries as much or more" : "carries less",
                          std::string(text(e.eyewear->status))});
  }
  out.blocks.push_back(std::move(table));
}

}  // namespace

Document compose_shot(const ShotAnswer& a) {
  Document out;
  out.title = "One shot";
  Facts facts;
  facts.items.push_back({"energy", {{{with_u(a.energy, "J", 1.0), Tone::strong}}}});
  if (a.normal_share) {
    facts.items.push_back({"along the normal",
                           {plain(fmt::format("{} of it, the square of the cosine of the angle "
                                              "(common practice, no source)",
                                              percent_text(*a.normal_share)))}});
  }
  facts.items.push_back({"momentum", {plain(with_u(a.momentum, "kg m/s", 1.0))}});
  facts.items.push_back({"ball", {plain(with_u(a.question.diameter, "mm", 1000.0))}});
  facts.items.push_back({"speed", {plain(with_u(a.question.speed, "m/s", 1.0))}});
  add_ball_facts(facts, a);
  facts.items.push_back(
      {"same energy as",
       {plain(fmt::format(
           "a freely falling hailstone of {} to {} mm, the range over {} named fits; "
           "about {} size (US weather service)",
           fixed(a.hailstone_smallest.si() * 1000.0, 1),
           fixed(a.hailstone_largest.si() * 1000.0, 1), fall_speed_fits().size(),
           nearest_size_name(0.5 * (a.hailstone_smallest + a.hailstone_largest)).name))}});
  out.blocks.push_back(std::move(facts));
  out.blocks.push_back(grade_shares(a));
  add_eyewear(out, a);
  append_cautions(out, a.cautions);
  out.blocks.push_back(Paragraph{
      plain("Equal energy does not mean equal damage: diameter, mass, speed and ice count each for "
            "themselves. A share of a grade is not the grade.")});
  return out;
}

}  // namespace hailwright
