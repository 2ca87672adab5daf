#include "hailwright/evaluate/delivery.hpp"

#include <algorithm>
#include <cmath>

#include "evaluate/shot_strength.hpp"
#include "hailwright/metrology/budget.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/random.hpp"
#include "hailwright/model/panel_geometry.hpp"
#include "hailwright/physics/impact.hpp"

namespace hailwright {

template <class Q>
Estimate<Q> combined(const ShotQuantity& s) {
  const Combined u = combine(Combined{s.shared_u}, Combined{s.own_u, s.own_dof});
  return {Q::from_si(s.value), Q::from_si(s.value * u.standard_u), u.degrees_of_freedom};
}

template Estimate<Mass> combined<Mass>(const ShotQuantity&);
template Estimate<Speed> combined<Speed>(const ShotQuantity&);

template <class Q>
HitSides compare_quantity(const ShotQuantity& quantity, Q nominal, Ratio tolerance) {
  if (!quantity.supports_grade) return {};
  const Estimate<Q> e = combined<Q>(quantity);
  const double at_least = probability_at_least(e, nominal * (1.0 - tolerance.si()));
  const double above = probability_at_least(e, nominal * (1.0 + tolerance.si()));
  return {at_least >= hit_confidence, 1.0 - above >= hit_confidence,
          1.0 - at_least >= hit_confidence};
}

template HitSides compare_quantity<Mass>(const ShotQuantity&, Mass, Ratio);
template HitSides compare_quantity<Speed>(const ShotQuantity&, Speed, Ratio);

Ratio tolerance_of(const Target& target, Assumptions& assumptions) {
  if (target.tolerance) return *target.tolerance;
  if (target.grade != nullptr && target.grade->tolerance) return *target.grade->tolerance;
  assumptions.use(DefaultId::tolerance);
  return defaults::tolerance;
}

Length place_radius_of(const SeriesPlan& plan, Assumptions& assumptions) {
  if (plan.place_radius) return *plan.place_radius;
  assumptions.use(DefaultId::place_size);
  return defaults::place_size;
}

namespace {

Position plus(Position a, Position b) {
  return {a.right + b.right, a.up + b.up};
}

/// The place in whose region a hit landed: the aimed one for "in"; by its offset from it; or, where
/// the protocol gives positions, the nearest place whose region it fell into.
void locate(const SeriesPlan& plan, const Shot& shot, Length radius, ShotResult& result) {
  const Position origin{};
  if (shot.landing == Landing::in) {
    result.place = shot.place;
    return;
  }
  const auto& aimed = plan.places[shot.place].at;
  std::optional<Position> point;
  if (shot.landing == Landing::offset) {
    result.off = distance(*shot.where, origin);
    if (*result.off <= radius) result.place = shot.place;
    if (aimed) point = plus(*aimed, *shot.where);
  } else {
    point = shot.where;
    if (aimed) result.off = distance(*point, *aimed);
  }
  if (!point) return;
  double nearest = radius.si();
  for (std::size_t i = 0; i < plan.places.size(); ++i) {
    if (!plan.places[i].at) continue;
    const double d = distance(*point, *plan.places[i].at).si();
    if (d <= nearest) {
      nearest = d;
      result.place = i;
    }
  }
}

bool diameter_fits(const ShotResult& r, const Target& target, Ratio tolerance) {
  return r.diameter && std::abs(r.diameter->si() / target.diameter.si() - 1.0) <= tolerance.si();
}

StrengthDoubt first_doubt(const ShotResult& r, const Target& target, Ratio tolerance) {
  if (!r.mass) return StrengthDoubt::mass_unknown;
  if (!r.speed) return StrengthDoubt::speed_unknown;
  if (!r.mass->supports_grade) return StrengthDoubt::mass_from_diameter;
  if (!r.speed->supports_grade) {
    return r.speed->nominal ? StrengthDoubt::speed_nominal : StrengthDoubt::few_trials;
  }
  if (!r.diameter) return StrengthDoubt::diameter_unknown;
  if (!diameter_fits(r, target, tolerance)) return StrengthDoubt::diameter_off;
  if (!compare_quantity(*r.mass, target.mass, tolerance).not_weaker) return StrengthDoubt::mass_low;
  if (!compare_quantity(*r.speed, target.speed, tolerance).not_weaker)
    return StrengthDoubt::speed_low;
  return StrengthDoubt::none;
}

void judge_strength(const Target& target, Ratio tolerance, ShotResult& r) {
  r.doubt = first_doubt(r, target, tolerance);
  r.sides = compare_hit(r, target, tolerance);
  if (r.mass && r.speed) {
    r.energy = kinetic_energy(combined<Mass>(*r.mass), combined<Speed>(*r.speed));
  }
}

/// One draw of what the shots of a series share: the common error, and of trials or single
/// weighings how far their mean and scatter are from the true ones. Then the chance that one shot
/// is truly not below its bound, given that draw.
class SharedDraw {
public:
  SharedDraw(RandomStream& random, const ShotQuantity& like) : common_(random.normal()) {
    if (!std::isfinite(like.own_dof)) return;
    const int nu = static_cast<int>(std::lround(like.own_dof));
    widening_ = std::sqrt(nu / random.chi_squared(nu));
    if (like.trials > 0) mean_ = random.normal() / std::sqrt(static_cast<double>(like.trials));
  }
  [[nodiscard]] double at_least(const ShotQuantity& s, double bound) const {
    double scatter = s.own_u * widening_;
    // s sqrt(1 + 1/n): the 1/n is the error of the trials' mean, which all shots share.
    if (s.trials > 0) scatter /= std::sqrt(1.0 + 1.0 / s.trials);
    const double centre = s.value * (1.0 + s.shared_u * common_ + scatter * mean_);
    if (scatter == 0.0) return centre >= bound ? 1.0 : 0.0;
    return normal_cdf((centre - bound) / (s.value * scatter));
  }

private:
  double common_;
  double mean_ = 0.0;
  double widening_ = 1.0;
};

bool can_support(const ShotResult& r, const Target& target, Ratio tolerance) {
  return r.on_panel && r.place && r.mass && r.speed && r.mass->supports_grade &&
         r.speed->supports_grade && diameter_fits(r, target, tolerance);
}

/// MEASUREMENT M10 and M13: probability that every place was truly struck at least at the grade.
std::optional<double> joint_probability(const SeriesDelivery& d, const Target& target) {
  std::vector<std::vector<const ShotResult*>> by_place(d.places.size());
  for (const ShotResult& r : d.shots) {
    if (can_support(r, target, d.tolerance)) by_place[*r.place].push_back(&r);
  }
  for (const auto& hits : by_place) {
    if (hits.empty()) return std::nullopt;
  }
  constexpr int draws = 4000;  // about 0.8 points of noise at worst; printed as whole per cent
  RandomStream random(20260614);
  const double least_mass = target.mass.si() * (1.0 - d.tolerance.si());
  const double least_speed = target.speed.si() * (1.0 - d.tolerance.si());
  double sum = 0.0;
  for (int i = 0; i < draws; ++i) {
    const SharedDraw mass(random, *by_place[0][0]->mass);
    const SharedDraw speed(random, *by_place[0][0]->speed);
    double all = 1.0;
    for (const auto& hits : by_place) {
      double none = 1.0;
      for (const ShotResult* r : hits) {
        none *= 1.0 - mass.at_least(*r->mass, least_mass) * speed.at_least(*r->speed, least_speed);
        if (none == 0.0) break;  // as it stays: of thousands of hits on one place only some count
      }
      all *= 1.0 - none;
    }
    sum += all;
  }
  return sum / draws;
}

/// Gives each hit to its place, in the order thrown.
void fill_places(SeriesDelivery& d) {
  const auto bound = [](const ShotResult& s) {
    return s.energy ? lower_bound(*s.energy, hit_confidence).si() : 0.0;
  };
  for (std::size_t i = 0; i < d.shots.size(); ++i) {
    ShotResult& r = d.shots[i];
    if (!r.on_panel || !r.place) continue;
    PlaceResult& place = d.places[*r.place];
    r.repeat = place.hits > 0;
    ++place.hits;
    place.struck = place.struck || r.sides.not_weaker;
    if (!r.repeat && r.sides.not_weaker) ++d.places_struck_first;
    if (!place.best || bound(r) > bound(d.shots[*place.best])) place.best = i;
  }
}

void summarise_places(SeriesDelivery& d) {
  for (const PlaceResult& place : d.places) {
    if (place.hits == 0) continue;
    ++d.places_hit;
    if (place.struck) ++d.places_struck;
    const ShotResult& best = d.shots[*place.best];
    if (!best.energy) continue;
    ++d.places_with_energy;
    const Energy low = std::max(Energy{}, lower_bound(*best.energy, hit_confidence));
    d.at_least = d.at_least ? std::min(*d.at_least, low) : low;
  }
  for (const ShotResult& r : d.shots) {
    if (!r.energy) continue;
    const Energy high = upper_bound(*r.energy, hit_confidence);
    d.at_most = d.at_most ? std::max(*d.at_most, high) : high;
  }
}

ShotResult judge_shot(const SeriesPlan& plan, std::size_t index, const Shot& shot,
                      const SeriesDelivery& d, ShotStrength& strength) {
  ShotResult r;
  r.shot = index;
  r.diameter = strength.diameter(shot);
  r.mass = strength.mass(shot);
  r.speed = strength.speed(shot, r.mass);
  r.on_panel = shot.landing != Landing::miss && shot.landing != Landing::broke;
  if (r.on_panel) locate(plan, shot, d.place_radius, r);
  judge_strength(plan.target, d.tolerance, r);
  return r;
}

}  // namespace

HitSides compare_hit(const ShotResult& hit, const Target& target, Ratio tolerance) {
  if (!hit.mass || !hit.speed) return {};
  const HitSides mass = compare_quantity(*hit.mass, target.mass, tolerance);
  const HitSides speed = compare_quantity(*hit.speed, target.speed, tolerance);
  HitSides both;
  both.not_weaker = mass.not_weaker && speed.not_weaker && diameter_fits(hit, target, tolerance);
  both.not_stronger = mass.not_stronger && speed.not_stronger;
  both.weaker = (mass.weaker && speed.not_stronger) || (speed.weaker && mass.not_stronger);
  return both;
}

std::vector<SeriesDelivery> judge_delivery(const Test& test, Assumptions& assumptions,
                                           Extent extent) {
  ShotStrength strength(test, assumptions);
  std::vector<SeriesDelivery> all;
  for (std::size_t s = 0; s < test.protocol.series.size(); ++s) {
    const SeriesPlan& plan = test.protocol.series[s];
    SeriesDelivery d;
    d.series = s;
    d.tolerance = tolerance_of(plan.target, assumptions);
    d.place_radius = place_radius_of(plan, assumptions);
    for (std::size_t p = 0; p < plan.places.size(); ++p)
      d.places.push_back({p, 0, {}, false});
    for (std::size_t i = 0; i < test.record.shots.size(); ++i) {
      const Shot& shot = test.record.shots[i];
      if (shot.series != s) continue;
      ++d.throws;
      if (shot.landing == Landing::miss) ++d.misses;
      if (shot.landing == Landing::broke) ++d.broken;
      d.shots.push_back(judge_shot(plan, i, shot, d, strength));
      const ShotResult& r = d.shots.back();
      if (r.on_panel) ++d.hits;
      if (r.on_panel && !r.place) ++d.off_places;
    }
    d.trials = strength.trials(plan.setting);
    if (d.trials) {
      d.trial_speed_at_panel =
          d.trials->mean * strength.slowing(plan.target.mass, plan.target.diameter).remaining.si();
    }
    fill_places(d);
    summarise_places(d);
    if (extent == Extent::whole) d.joint_probability = joint_probability(d, plan.target);
    all.push_back(std::move(d));
  }
  return all;
}

}  // namespace hailwright
