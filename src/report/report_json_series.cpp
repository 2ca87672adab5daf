#include "report/report_json_parts.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/physics/impact.hpp"
#include "hailwright/tables/hailstones.hpp"
#include "report/place_words.hpp"
#include "report/report_json_words.hpp"
#include "report/sentences.hpp"
#include "report/shown_energy.hpp"

namespace hailwright::json {

namespace {

constexpr std::string_view strength = "method-shot-strength";

// Target.

std::string_view tolerance_source(const Grade& grade) {
  return grade.scheme == "IEC 61215" ? std::string_view("iec61215-mqt17-tolerance")
                                     : grade.citation;
}

Json tolerance(const SeriesPlan& plan, Ratio taken, Ledger& ledger) {
  const Target& t = plan.target;
  if (t.tolerance) return ledger.stated(*t.tolerance, plan.origin);
  if (t.grade != nullptr && t.grade->tolerance)
    return ledger.computed(taken, {tolerance_source(*t.grade)});
  return ledger.computed(taken, {default_source(DefaultId::tolerance)});
}

Json grade(const Grade* g, Ledger& ledger) {
  if (g == nullptr) return nullptr;
  return {{"scheme", g->scheme},
          {"name", g->name},
          {"projectile", text(g->projectile)},
          {"source", ledger.use(g->citation)},
          {"status", text(g->status)},
          {"diameter_status", text(g->diameter_status)},
          {"mass_status", text(g->mass_status)},
          {"speed_status", text(g->speed_status)},
          {"energy_printed", ledger.computed(g->printed, {g->citation})},
          {"note", words_or_null(std::string(g->note))}};
}

Json target(const SeriesPlan& plan, Ratio taken, Ledger& ledger) {
  const Target& t = plan.target;
  const auto figure = [&](auto q) {
    return t.grade != nullptr ? ledger.computed(q, {t.grade->citation})
                              : ledger.stated(q, plan.origin);
  };
  const Energy nominal = kinetic_energy({t.mass}, {t.speed}).value;
  const double corner = taken.si();
  return {{"label", t.label},
          {"named", target_text(t)},
          {"grade", grade(t.grade, ledger)},
          {"diameter", figure(t.diameter)},
          {"mass", figure(t.mass)},
          {"speed", figure(t.speed)},
          {"tolerance", tolerance(plan, taken, ledger)},
          {"energy", ledger.computed(nominal, {strength})},
          {"energy_low", ledger.computed(nominal * std::pow(1.0 - corner, 3), {strength})},
          {"energy_high", ledger.computed(nominal * std::pow(1.0 + corner, 3), {strength})}};
}

Json place_radius(const SeriesPlan& plan, Length taken, Ledger& ledger) {
  return plan.place_radius ? ledger.stated(*plan.place_radius, plan.origin)
                           : ledger.computed(taken, {default_source(DefaultId::place_size)});
}

// Throws.

template <class Q>
Json shot_quantity(const std::optional<ShotQuantity>& s, Ledger& ledger) {
  if (!s) return nullptr;
  const Estimate<Q> whole = combined<Q>(*s);
  Json j = ledger.estimated(whole.value.si(), whole.standard_u.si(), whole.degrees_of_freedom,
                            si_unit_of<Q>(), {strength});
  return {{"estimate", std::move(j)},
          {"shared", ledger.computed(s->shared_u, "1", strength)},
          {"own", ledger.computed(s->own_u, "1", strength)},
          {"own_degrees_of_freedom", degrees_of_freedom(s->own_dof)},
          {"supports_grade", s->supports_grade},
          {"nominal", s->nominal},
          {"trials", s->trials}};
}

Json energy(const std::optional<Estimate<Energy>>& e, Ledger& ledger) {
  if (!e) return nullptr;
  const EnergyEnds ends = two_sided_interval(*e);
  return {{"estimate", ledger.estimated(e->value.si(), e->standard_u.si(), e->degrees_of_freedom,
                                        "J", {strength})},
          {"low", ledger.computed(ends.low, {strength})},
          {"high", ledger.computed(ends.high, {strength})}};
}

Json read_off(const Shot& s, const Ledger& ledger) {
  Json diameters = Json::array();
  for (const Length d : s.diameters)
    diameters.push_back(ledger.stated(d, s.origin));
  return {{"position", position(s.where, s.origin, ledger)},
          {"mass", ledger.stated(s.mass, s.origin)},
          {"diameters", std::move(diameters)},
          {"speed", ledger.stated(s.speed, s.origin)},
          {"frames", s.frames ? ledger.stated(*s.frames, "1", s.origin) : Json(nullptr)},
          {"moved", ledger.stated(s.moved, s.origin)},
          {"time", ledger.stated(s.time, s.origin)},
          {"angle", ledger.stated(s.angle, s.origin)},
          {"out_of_freezer", ledger.stated(s.out, s.origin)}};
}

Json sides(const HitSides& s) {
  return {{"not_weaker", s.not_weaker}, {"not_stronger", s.not_stronger}, {"weaker", s.weaker}};
}

Json throw_of(const ShotResult& r, const SeriesPlan& plan, const Record& record, Ledger& ledger) {
  const Shot& s = record.shots[r.shot];
  Json j{{"number", s.number},
         {"where", ledger.where(s.origin)},
         {"aimed_at", plan.places[s.place].name},
         {"landing", word(s.landing)},
         {"clock", clock(s.minute)},
         {"ball", words_or_null(s.ball)},
         {"read_off", read_off(s, ledger)},
         {"on_panel", r.on_panel},
         {"place", r.place ? Json(plan.places[*r.place].name) : Json(nullptr)},
         {"off", ledger.computed(r.off, {strength})},
         {"repeat", r.repeat},
         {"diameter", ledger.computed(r.diameter, {strength})},
         {"mass", shot_quantity<Mass>(r.mass, ledger)},
         {"speed", shot_quantity<Speed>(r.speed, ledger)},
         {"energy", energy(r.energy, ledger)},
         {"sides", sides(r.sides)},
         {"doubt", word(r.doubt)},
         {"doubt_sentence", words_or_null(doubt_text(r.doubt))},
         {"note", words_or_null(s.note)},
         {"photo", words_or_null(s.photo)}};
  return j;
}

// Places.

/// As the protocol says, or as it follows from the geometry of the panel.
Json middle(const Place& p, Ledger& ledger) {
  if (!p.at || !p.found) return position(p.at, p.origin, ledger);
  constexpr std::string_view geometry = "method-places";
  return {{"right", ledger.computed(p.at->right, {geometry})},
          {"up", ledger.computed(p.at->up, {geometry})}};
}

/// @param what  "lower left corner of the glass"; empty where the places cannot be laid out
Json place(const PlaceResult& result, const SeriesDelivery& d, const SeriesPlan& plan,
           const std::string& what, const Record& record, Ledger& ledger) {
  const Place& p = plan.places[result.place];
  return {{"name", p.name},
          {"kind", p.kind ? Json(text(*p.kind)) : Json(nullptr)},
          {"what", words_or_null(what)},
          {"at", middle(p, ledger)},
          {"found", p.found},
          {"hits", result.hits},
          {"best_throw",
           result.best ? Json(record.shots[d.shots[*result.best].shot].number) : Json(nullptr)},
          {"struck", result.struck}};
}

// Delivery.

Json trials(const SeriesDelivery& d, Ledger& ledger) {
  if (!d.trials) return nullptr;
  return {{"count", d.trials->n},
          {"mean", ledger.computed(d.trials->mean, {strength})},
          {"scatter", ledger.computed(d.trials->scatter, "1", strength)},
          {"step_limited", d.trials->step_limited},
          {"supports_grade", d.trials->supports_grade()},
          {"speed_at_panel", ledger.computed(d.trial_speed_at_panel, {strength})}};
}

Json hailstone(const std::optional<Energy>& at_least, Ledger& ledger) {
  if (!at_least || at_least->si() <= 0.0) return nullptr;
  const HailstoneRange range = equal_energy_hailstones(*at_least);
  const auto size = [&](Length d) {
    Json j = ledger.computed(d, {strength});
    for (const FallSpeedFit& fit : fall_speed_fits())
      j["sources"].push_back(ledger.use(fit.citation));
    j["sources"].push_back(ledger.use("crc-ice-density"));
    return j;
  };
  return {{"smallest", size(range.smallest)},
          {"largest", size(range.largest)},
          {"size_name", nearest_size_name(0.5 * (range.smallest + range.largest)).name},
          {"size_name_source", ledger.use("nws-hail-sizes")}};
}

Json delivery(const SeriesDelivery& d, Ledger& ledger) {
  return {{"throws", d.throws},
          {"hits", d.hits},
          {"off_places", d.off_places},
          {"misses", d.misses},
          {"broken", d.broken},
          {"places_hit", d.places_hit},
          {"places_struck", d.places_struck},
          {"places_struck_first", d.places_struck_first},
          {"places_with_energy", d.places_with_energy},
          {"reached", d.reached()},
          {"at_least", ledger.computed(d.at_least, {strength})},
          {"at_most", ledger.computed(d.at_most, {strength})},
          {"hailstone", hailstone(d.at_least, ledger)},
          {"joint_probability", d.joint_probability
                                    ? ledger.computed(*d.joint_probability, "1", strength)
                                    : Json(nullptr)},
          {"trials", trials(d, ledger)}};
}

}  // namespace

Json series(const Judged& judged, std::size_t index, Ledger& ledger) {
  const Test& test = *judged.test;
  const SeriesPlan& plan = test.protocol.series[index];
  const SeriesDelivery& d = judged.assessment->delivery[index];
  Json places = Json::array();
  const std::vector<std::string> what = what_places_are(test, index);
  for (const PlaceResult& p : d.places)
    places.push_back(place(p, d, plan, what[p.place], test.record, ledger));
  Json throws = Json::array();
  for (const ShotResult& r : d.shots)
    throws.push_back(throw_of(r, plan, test.record, ledger));
  return {{"name", plan.name},
          {"where", ledger.where(plan.origin)},
          {"setting", words_or_null(plan.setting)},
          {"target", target(plan, d.tolerance, ledger)},
          {"place_radius", place_radius(plan, d.place_radius, ledger)},
          {"verdict", verdict(judged.assessment->verdicts[index], judged, ledger)},
          {"delivery", delivery(d, ledger)},
          {"places", std::move(places)},
          {"shots", std::move(throws)},
          {"evidence", evidence(judged, index, ledger)}};
}

}  // namespace hailwright::json
