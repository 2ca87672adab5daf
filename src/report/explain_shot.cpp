// Step 9 of an explanation: what one hit carried, and how it stands to the grade.
#include "report/explanation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

struct Hit {
  const SeriesDelivery* series = nullptr;
  const ShotResult* shot = nullptr;
};

/// The first hit on a place whose mass and speed are known.
Hit first_known(const Assessment& a) {
  for (const SeriesDelivery& d : a.delivery) {
    for (const ShotResult& r : d.shots) {
      if (r.on_panel && r.place && r.energy) return {&d, &r};
    }
  }
  return {};
}

std::string parts_text(const ShotQuantity& q) {
  std::string own = "its own";
  if (std::isfinite(q.own_dof)) own += fmt::format(" ({})", degrees_text(q.own_dof));
  return fmt::format("u = root of ({}^2 + {}^2) %, shared by the series and {}",
                     hundredfold(q.shared_u, 3), hundredfold(q.own_u, 3), own);
}

template <class Q>
double relative_u(const ShotQuantity& q) {
  return combined<Q>(q).relative_u();
}

/// One quantity against one side of the tolerance.
std::string side_text(const char* symbol, double value, double u, double nu, double bound,
                      const char* unit, bool at_least) {
  const double above = probability_at_least(value, u, nu, bound);
  const double probability = at_least ? above : 1.0 - above;
  return fmt::format("{} {} {} {}: P(t < {}) at {} = {}, {}", symbol,
                     at_least ? ">=" : "<=", fixed(bound, 3), unit,
                     fixed((at_least ? value - bound : bound - value) / u, 3), degrees_text(nu),
                     fixed(probability, 4), probability >= hit_confidence ? "shown" : "not shown");
}

template <class Q>
void sides(Step& step, const char* symbol, const ShotQuantity& q, Q nominal, Ratio tolerance,
           double unit_factor, const char* unit) {
  const Estimate<Q> e = combined<Q>(q);
  const double value = e.value.si() * unit_factor;
  const double u = e.standard_u.si() * unit_factor;
  if (!q.supports_grade || u <= 0.0) {
    step.here.push_back(
        fmt::format("{}: {}", symbol,
                    q.supports_grade ? "taken as exact" : "good for an energy, not for a grade"));
    return;
  }
  for (const bool at_least : {true, false}) {
    const double share = at_least ? 1.0 - tolerance.si() : 1.0 + tolerance.si();
    step.here.push_back(side_text(symbol, value, u, e.degrees_of_freedom,
                                  nominal.si() * unit_factor * share, unit, at_least));
  }
}

void energy_lines(Step& step, const ShotResult& r) {
  const double mass_g = r.mass->value * 1000.0;
  const double speed = r.speed->value;
  const Estimate<Energy>& e = *r.energy;
  const double um = relative_u<Mass>(*r.mass);
  const double uv = relative_u<Speed>(*r.speed);
  step.here.push_back(fmt::format("m = {} g at the impact, less what melts; {}", fixed(mass_g, 3),
                                  parts_text(*r.mass)));
  step.here.push_back(fmt::format("v = {} m/s at the panel, along its normal; {}", fixed(speed, 3),
                                  parts_text(*r.speed)));
  step.here.push_back(fmt::format("E = 0.5 x {} kg x ({} m/s)^2 = {} J", fixed(mass_g / 1000.0, 6),
                                  fixed(speed, 3), fixed(e.value.si(), 4)));
  step.here.push_back(fmt::format("u_E = root of ({}^2 + (2 x {})^2) % = {} %", hundredfold(um, 3),
                                  hundredfold(uv, 3), hundredfold(e.relative_u(), 3)));
  if (e.standard_u.si() <= 0.0) return;
  const double t = t_quantile(hit_confidence, e.degrees_of_freedom);
  step.here.push_back(fmt::format("at least {} - {} x {} = {} J (95 %, t at {})",
                                  fixed(e.value.si(), 4), fixed(t, 3), fixed(e.standard_u.si(), 4),
                                  fixed(lower_bound(e, hit_confidence).si(), 4),
                                  degrees_text(e.degrees_of_freedom)));
}

void trial_lines(Step& step, const SeriesDelivery& d, const ShotQuantity& speed) {
  if (speed.trials == 0 || !d.trials) return;
  step.here.push_back(fmt::format(
      "{} at this setting: mean {} m/s, scatter {} %; of one unmeasured shot {} x root of (1 + "
      "1/{}) = {} %",
      counted(d.trials->n, "trial"), fixed(d.trials->mean.si(), 3),
      hundredfold(d.trials->scatter, 3), hundredfold(d.trials->scatter, 3), d.trials->n,
      hundredfold(d.trials->unmeasured_u(), 3)));
}

std::string grade_line(const SeriesDelivery& d, const Target& target) {
  return fmt::format("{}: {} g and {} m/s, each within {} %", target_text(target),
                     plain_number(target.mass.si() * 1000.0, 6), plain_number(target.speed.si(), 6),
                     plain_number(d.tolerance.si() * 100.0, 4));
}

}  // namespace

Step explain_shot(const Assessment& a, const Test& test, const SourceSet& sources) {
  Step step;
  step.title = "9. One shot";
  step.source = "rules M10 and M13; JCGM 100:2008, 5.1.6 (relative u of a product); derivation of "
                "drag and melting";
  step.pages = method_pages({"shot-strength"});
  const Hit hit = first_known(a);
  if (hit.shot == nullptr) {
    step.what = {"No hit on a place has a known mass and a known speed, so there is no energy to "
                 "work out."};
    return step;
  }
  const Shot& shot = test.record.shots[hit.shot->shot];
  const SeriesPlan& plan = test.protocol.series[hit.series->series];
  step.what = {fmt::format("Each hit gets a mass, a speed at the panel and an energy. Below is the "
                           "first hit on a place that has all three: throw {} of series {}{}.",
                           shot.number, plan.name, place_text(sources, shot.origin)),
               "Each side of the tolerance is asked by itself. A hit counts for the grade when it "
               "is shown, at 95 %, to be not weaker in mass and in speed, and its diameter lies in "
               "the tolerance."};
  step.formula = {
      "E = m v^2 / 2, u_E^2 = u_m^2 + (2 u_v)^2 in shares of the value",
      "not weaker: P(value >= (1 - tolerance) x grade) >= 0.95, not stronger: P(value <= (1 + "
      "tolerance) x grade) >= 0.95; of the mass m, then of the speed v"};
  trial_lines(step, *hit.series, *hit.shot->speed);
  energy_lines(step, *hit.shot);
  step.here.push_back(grade_line(*hit.series, plan.target));
  sides(step, "m", *hit.shot->mass, plan.target.mass, hit.series->tolerance, 1000.0, "g");
  sides(step, "v", *hit.shot->speed, plan.target.speed, hit.series->tolerance, 1.0, "m/s");
  step.here.push_back(fmt::format(
      "so: at least at the grade {}{}; at most at the grade {}",
      hit.shot->sides.not_weaker ? "shown" : "not shown",
      hit.shot->doubt == StrengthDoubt::none ? "" : " (" + doubt_text(hit.shot->doubt) + ")",
      hit.shot->sides.not_stronger ? "shown" : "not shown"));
  return step;
}

}  // namespace hailwright
