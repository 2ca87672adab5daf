#include "report/judgement_delivery.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/physics/impact.hpp"
#include "hailwright/tables/hailstones.hpp"
#include "report/judgement_stress.hpp"
#include "report/sentences.hpp"
#include "report/shown_energy.hpp"
#include "report/words.hpp"

namespace hailwright {

std::string joule_text(Energy e) {
  return in_unit(e.si(), "J", e.si() < 10.0 ? 2 : 1);
}

std::string sure_text(double probability) {
  const double whole = std::round(probability * 100.0);
  if (whole >= 100.0) return "over 99 %";
  if (whole < 1.0) return "less than 1 %";
  return fixed(whole, 0) + " %";
}

std::string throws_text(const SeriesDelivery& d) {
  return fmt::format("{}: {} on a place, {} elsewhere on the panel, {}, {} broke before it",
                     counted(d.throws, "throw"), d.hits - d.off_places, d.off_places,
                     counted(d.misses, "miss"), d.broken);
}

std::string struck_text(const SeriesDelivery& d) {
  if (d.hits == 0) return "none struck the panel";
  if (d.places_hit == 0) {
    return fmt::format("no place struck, {} elsewhere on the panel", counted(d.hits, "hit"));
  }
  const auto of_all = [&](int n) {
    return fmt::format("{} of {}", n, counted(static_cast<int>(d.places.size()), "place"));
  };
  if (!d.at_least || d.at_least->si() <= 0.0)
    return of_all(d.places_hit) + " struck, how hard is not known";
  const int unknown = d.places_hit - d.places_with_energy;
  return fmt::format("{} struck with at least {} each (95 %){}", of_all(d.places_with_energy),
                     joule_text(*d.at_least),
                     unknown > 0 ? fmt::format(", and {} with an energy that is not known", unknown)
                                 : "");
}

bool anything_struck(const Assessment& a) {
  return std::any_of(a.delivery.begin(), a.delivery.end(),
                     [](const SeriesDelivery& d) { return d.hits > 0; });
}

std::string hailstone_size_text(Energy energy) {
  const HailstoneRange stone = equal_energy_hailstones(energy);
  return fmt::format("{} to {} mm, about {} size", fixed(stone.smallest.si() * 1000.0, 0),
                     fixed(stone.largest.si() * 1000.0, 0),
                     nearest_size_name(0.5 * (stone.smallest + stone.largest)).name);
}

std::string hailstone_text(Energy energy) {
  return "the energy of a freely falling hailstone of " + hailstone_size_text(energy);
}

namespace {

using Lines = std::vector<std::string>;

Fact as_fact(const std::string& label, Lines lines) {
  Fact fact{label, {}};
  for (std::string& line : lines)
    fact.lines.push_back(plain(std::move(line)));
  return fact;
}

void add_energy_lines(const SeriesDelivery& d, const Target& target, Lines& lines) {
  if (!d.at_least) return;
  const Energy nominal = kinetic_energy({target.mass}, {target.speed}).value;
  const EnergyEnds box = corners_of_tolerance(nominal, d.tolerance);
  lines.push_back(fmt::format(
      "{}at least {} each (95 %); the grade is {}, within its tolerance {} to {}",
      d.places_with_energy < d.places_hit ? fmt::format("{} of them ", d.places_with_energy) : "",
      joule_text(*d.at_least), joule_text(nominal), joule_text(box.low), joule_text(box.high)));
  if (d.at_least->si() > 0.0) lines.push_back(hailstone_text(*d.at_least));
}

void add_angles(const SeriesDelivery& d, const Test& test, Lines& lines) {
  double largest_deg = 0.0;
  for (const ShotResult& r : d.shots) {
    const auto& angle = test.record.shots[r.shot].angle;
    if (r.on_panel && angle) {
      largest_deg = std::max(largest_deg, angle->si() * 180.0 / std::numbers::pi);
    }
  }
  if (largest_deg > 0.0) {
    lines.push_back(fmt::format("hits up to {} deg from straight on: speed and energy are those "
                                "along the normal of the panel",
                                fixed(largest_deg, 0)));
  }
}

void add_doubts(const SeriesDelivery& d, const Test& test, Word word, Lines& lines) {
  std::map<StrengthDoubt, Lines> doubts;
  int perhaps_harder = 0;
  for (const ShotResult& r : d.shots) {
    if (!r.on_panel) continue;
    if (r.place && r.doubt != StrengthDoubt::none) {
      doubts[r.doubt].push_back(fmt::format("{}", test.record.shots[r.shot].number));
    }
    if (!r.sides.not_stronger) ++perhaps_harder;
  }
  for (const auto& [doubt, shots] : doubts) {
    lines.push_back(fmt::format("throw {}: {}", enumerate(shots), doubt_text(doubt)));
  }
  if (perhaps_harder > 0) {
    lines.push_back(fmt::format(
        "{} of {} may have been harder than the grade{}", perhaps_harder, counted(d.hits, "hit"),
        word == Word::withstood ? ", which does not weaken \"withstood\"" : ""));
  }
}

Lines delivery_lines(const SeriesDelivery& d, const Test& test, const Assessment& a) {
  const Target& target = test.protocol.series[d.series].target;
  Lines lines{throws_text(d)};
  lines.push_back(fmt::format("{} of {} hit (within {} of the middle), {} at least at the grade",
                              d.places_hit, counted(static_cast<int>(d.places.size()), "place"),
                              in_unit(d.place_radius.si(), "mm", 0), d.places_struck));
  if (d.series == 0 && d.hits > 0) {
    lines.push_back("at least at the grade: mass and speed each shown to be no lower than the "
                    "grade's tolerance allows");
  }
  add_energy_lines(d, target, lines);
  if (d.trials) {
    lines.push_back(fmt::format(
        "speed from {}: {} with {} scatter, {} at the panel; the grade says {}",
        counted(d.trials->n, "trial"), in_unit(d.trials->mean.si(), "m/s", 1),
        percent_text(Ratio::from_si(d.trials->scatter)),
        in_unit(d.trial_speed_at_panel->si(), "m/s", 1), in_unit(target.speed.si(), "m/s", 1)));
  }
  if (d.joint_probability) {
    lines.push_back(fmt::format("all places truly struck at least at the grade: {} sure",
                                sure_text(*d.joint_probability)));
  }
  add_angles(d, test, lines);
  add_doubts(d, test, a.verdicts[d.series].word, lines);
  return lines;
}

}  // namespace

Facts verdict_facts(const Test& test, const Assessment& a, const SourceSet& sources) {
  Facts facts;
  for (const SeriesVerdict& v : a.verdicts) {
    const SeriesPlan& plan = test.protocol.series[v.series];
    const std::string delivered = delivered_sentence(a.delivery[v.series], v, a);
    Fact fact{plan.name, {}};
    fact.lines.push_back({{std::string(word_text(v.word)), word_tone(v.word)},
                          {fmt::format(" ({})", target_text(plan.target)), Tone::plain}});
    if (v.word == Word::not_reached) fact.lines.push_back(plain(delivered));
    for (const SeriesReason& r : v.reasons) {
      fact.lines.push_back(plain(reason_sentence(r, v, test, a) + place_text(sources, r.where)));
    }
    if (v.damage_by) {
      fact.lines.push_back(plain(damage_sentence(*v.damage_by)));
      fact.lines.push_back(plain(delivered));
    }
    facts.items.push_back(std::move(fact));
  }
  append_stress_verdicts(facts, test, a, sources);
  return facts;
}

void append_evidence_facts(Facts& facts, const Assessment& a, const Test& test) {
  for (const HitEvidence& e : a.evidence)
    facts.items.push_back(as_fact(test.protocol.series[e.series].name, {evidence_sentence(e)}));
}

Facts delivery_facts(const Test& test, const Assessment& a) {
  Facts facts;
  for (const SeriesDelivery& d : a.delivery) {
    facts.items.push_back(as_fact(test.protocol.series[d.series].name, delivery_lines(d, test, a)));
  }
  return facts;
}

}  // namespace hailwright
