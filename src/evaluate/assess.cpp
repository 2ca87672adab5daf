#include <algorithm>
#include <cmath>

#include "evaluate/assess_logs.hpp"
#include "evaluate/caution_facts.hpp"
#include "evaluate/hit_evidence.hpp"
#include "evaluate/looks.hpp"
#include "evaluate/setup_units.hpp"
#include "evaluate/stress_power.hpp"
#include "evaluate/timeline.hpp"
#include "hailwright/evaluate/assessment.hpp"

namespace hailwright {

namespace {

/// The stages that answer for the series: after each one where it was measured, else `after`.
std::vector<StageId> answering_stages(const Test& test) {
  std::vector<StageId> stages;
  if (test.protocol.series.empty()) return stages;
  for (std::size_t s = 0; s < test.protocol.series.size(); ++s) {
    const StageId stage{StageKind::after_series, s};
    if (has_setups(test.record, stage)) stages.push_back(stage);
  }
  const StageId after{StageKind::after, 0};
  if (has_setups(test.record, after)) stages.push_back(after);
  return stages;
}

/// Last series that a stage comes after.
std::size_t last_series_before(StageId stage, std::size_t series_count) {
  return stage.kind == StageKind::after_series ? stage.series : series_count - 1;
}

/// The stage that answers for a series and the series it answers for together: the first stage
/// after it (of two at the same point, such as `after large` and `after`, one that shows damage,
/// else the later written), back to the last stage that showed the power within the limit. A stage
/// that left it open separates nothing.
void attach_power(const Test& test, const Assessment& a, SeriesVerdict& v) {
  const std::size_t count = test.protocol.series.size();
  v.power_covers = {v.series, v.series};
  std::size_t first = 0;
  for (std::size_t i = 0; i < a.power.size(); ++i) {
    const std::size_t last = last_series_before(a.power[i].stage, count);
    if (last < v.series) {
      if (a.power[i].is_within()) first = last + 1;
      continue;
    }
    const bool same_point = v.power && last == v.power_covers.last;
    if (!v.power || (same_point && !a.power[*v.power].is_beyond())) {
      v.power = i;
      v.power_covers = {first, last};
    }
  }
}

/// The hits on the panel up to a moment.
std::vector<const ShotResult*> hits_until(const Test& test, const Assessment& a,
                                          const Moment& moment) {
  std::vector<const ShotResult*> hits;
  for (const SeriesDelivery& d : a.delivery) {
    for (const ShotResult& r : d.shots) {
      if (r.on_panel && moment.is_after(test.record.shots[r.shot])) hits.push_back(&r);
    }
  }
  return hits;
}

/// How the hits before a damage was seen stood to one series' grade (MEASUREMENT M10).
DamageBy damage_by(const std::vector<const ShotResult*>& hits, const Target& target,
                   Ratio tolerance) {
  bool all_below = true;
  bool none_stronger = true;
  for (const ShotResult* hit : hits) {
    const HitSides sides = compare_hit(*hit, target, tolerance);
    all_below = all_below && sides.weaker;
    none_stronger = none_stronger && sides.not_stronger;
  }
  if (all_below) return DamageBy::below_grade;
  return none_stronger ? DamageBy::at_grade : DamageBy::perhaps_harder;
}

std::string names_of_missing(const SeriesPlan& plan, const SeriesDelivery& d) {
  std::string names;
  for (const PlaceResult& p : d.places) {
    if (p.struck) continue;
    if (!names.empty()) names += ", ";
    names += plan.places[p.place].name;
  }
  return names;
}

class SeriesJudge {
public:
  SeriesJudge(const Test& test, const Assessment& assessment, std::size_t series)
      : test_(test), a_(assessment) {
    v_.series = series;
    v_.power_claimed = test.protocol.decide.judges_power;
    looks_ = look_for(test.record, series);
    v_.look = looks_.look;
    v_.look_covers = looks_.covers;
    attach_power(test, a_, v_);
    if (v_.look) v_.look_stresses = stresses_since(*v_.look);
    if (power() != nullptr) {
      const Timeline timeline(test.record);
      v_.power_stresses = Timeline::stresses_of(
          timeline.between(timeline.at(power()->from), timeline.at(power()->stage)));
    }
    v_.clean_looks = looked_before() && v_.look && !anything_seen();
  }

  /// The truth table: the first line that applies decides the word.
  SeriesVerdict judge() {
    if (line_damaged()) {
      v_.word = Word::damaged;
    } else if (line_not_reached()) {
      v_.word = Word::not_reached;
    } else if (line_undecided()) {
      v_.word = Word::undecided;
      add(Reason::all_places_struck);
      if (v_.clean_looks) add(Reason::looks_clean);
    } else {
      v_.word = Word::withstood;
      add(Reason::all_places_struck);
      add(Reason::looks_clean);
      if (v_.power_claimed) add(Reason::power_within);
    }
    add_what_bears_on_it();
    return std::move(v_);
  }

private:
  void add(Reason reason, std::string subject = {}, SourceSpan where = {}) {
    v_.reasons.push_back({reason, std::move(subject), where});
  }
  void add_seen(Reason reason, const NewFinding& f, const Moment& moment) {
    v_.reasons.push_back({reason, described(*f.finding, moment), f.finding->origin, f.look});
  }

  /// What decides nothing and may not be left unsaid beside the word.
  void add_what_bears_on_it() {
    for (const Finding* f : a_.defects_from_start)
      add(Reason::defect_from_start, described(*f, {}), f->origin);
    if (v_.power_claimed && power() != nullptr && was_extended(*power())) add(Reason::extended);
  }
  static bool was_extended(const PowerResult& p) {
    return std::any_of(p.notes.begin(), p.notes.end(),
                       [](const PowerNote& n) { return n.remark == PowerRemark::extended; });
  }
  [[nodiscard]] const PowerResult* power() const {
    return v_.power ? &a_.power[*v_.power] : nullptr;
  }
  /// The look shows what this series did: the one that answers for it, or one between its throws.
  [[nodiscard]] bool is_its_look(std::size_t look) const {
    return look == looks_.look ||
           std::find(looks_.between.begin(), looks_.between.end(), look) != looks_.between.end();
  }
  [[nodiscard]] bool anything_seen() const {
    return std::any_of(a_.new_findings.begin(), a_.new_findings.end(), [&](const NewFinding& f) {
      return is_its_look(f.look) && (f.major || f.undecided);
    });
  }
  /// Stresses other than hail done since the look before this one.
  [[nodiscard]] std::vector<std::size_t> stresses_since(std::size_t look) const {
    return Timeline::stresses_of(Timeline(test_.record).since_look_before(look));
  }
  [[nodiscard]] bool looked_before() const { return look_at_start(test_.record).has_value(); }

  /// Line 1: a new major defect, absent before and seen after, or power beyond the limit. Without a
  /// single hit on the panel up to then it was not the hail.
  bool line_damaged() {
    std::optional<Moment> first_seen;
    const auto seen_at = [&](const Moment& moment) {
      first_seen = first_seen ? std::min(*first_seen, moment) : moment;
    };
    for (const NewFinding& f : a_.new_findings) {
      if (!looked_before() || !is_its_look(f.look) || !f.major) continue;
      if (!stresses_since(f.look).empty()) continue;  // that may have done it
      const Moment moment = moment_of(test_.record.looks[f.look]);
      if (!any_hit(moment)) continue;
      add_seen(Reason::new_major_defect, f, moment);
      seen_at(moment);
    }
    if (power_is_beyond() && !beyond_before() && any_hit(power_moment())) {
      add(Reason::power_beyond);
      seen_at(power_moment());
    }
    if (first_seen) {
      v_.damage_by =
          damage_by(hits_until(test_, a_, *first_seen), test_.protocol.series[v_.series].target,
                    a_.delivery[v_.series].tolerance);
    }
    return first_seen.has_value();
  }

  static std::string described(const Finding& finding, const Moment& moment) {
    std::string text = std::string(finding.kind->word) + ", " + finding.where;
    if (moment.after_throw) text += ", seen after throw " + std::to_string(*moment.after_throw);
    return text;
  }
  [[nodiscard]] Moment power_moment() const { return {v_.power_covers.last, std::nullopt}; }
  [[nodiscard]] bool any_hit(const Moment& moment) const {
    return !hits_until(test_, a_, moment).empty();
  }
  [[nodiscard]] bool power_is_beyond() const {
    return power_is_beyond_with_stresses() && v_.power_stresses.empty();
  }
  [[nodiscard]] bool power_is_beyond_with_stresses() const {
    return v_.power_claimed && power() != nullptr && power()->is_beyond();
  }

  /// A stage before the series this one answers for was beyond the limit already.
  [[nodiscard]] bool beyond_before() const {
    return std::any_of(a_.power.begin(), a_.power.end(), [&](const PowerResult& p) {
      return last_series_before(p.stage, test_.protocol.series.size()) < v_.series && p.is_beyond();
    });
  }

  bool line_not_reached() {
    const SeriesDelivery& d = a_.delivery[v_.series];
    if (d.reached()) return false;
    add(Reason::places_missing, names_of_missing(test_.protocol.series[v_.series], d));
    if (power_is_beyond() && !any_hit(power_moment())) add(Reason::nothing_struck);
    return true;
  }

  /// Line 3: an inspection is missing, or the power that the protocol claims has no answer.
  bool line_undecided() {
    if (damaged_earlier()) add(Reason::damaged_before);
    damaged_by_stress();
    done_with_a_stress();
    if (!looked_before()) add(Reason::no_look_before);
    if (!v_.look) add(Reason::no_look_after);
    for (const NewFinding& f : a_.new_findings) {
      // What an earlier look left open bears on all that was thrown after it.
      const Look& look = test_.record.looks[f.look];
      const bool earlier =
          look.after_stress ? is_before_hail(test_.record, look) : look.after < v_.series;
      if (!f.undecided || !(is_its_look(f.look) || earlier)) continue;
      add_seen(Reason::cell_share_not_stated, f, moment_of(test_.record.looks[f.look]));
    }
    if (v_.power_claimed) power_reasons();
    return !v_.reasons.empty();
  }

  /// A stress before the hail, which left nothing to be told of it. Those after it are judged
  /// later.
  void damaged_by_stress() {
    for (const StressVerdict& v : a_.stresses) {
      const StressDone& done = test_.record.stresses[v.done];
      if (v.word == Word::damaged)
        add(Reason::damaged_before, test_.protocol.stresses[done.stress].name, done.origin);
    }
  }

  /// Damage that hail or a stress since the look or the stage before did: which of them is not
  /// told.
  void done_with_a_stress() {
    for (const NewFinding& f : a_.new_findings) {
      if (f.major && is_its_look(f.look) && !stresses_since(f.look).empty())
        add_seen(Reason::with_a_stress, f, moment_of(test_.record.looks[f.look]));
    }
    if (power_is_beyond_with_stresses() && !v_.power_stresses.empty()) add(Reason::with_a_stress);
  }

  void power_reasons() {
    const PowerResult* p = power();
    if (p == nullptr) {
      add(Reason::power_missing);
    } else if (!p->estimated()) {
      add(Reason::power_obstacle);
    } else if (!p->valid) {
      add(Reason::power_not_valid);
    } else if (!p->decides) {
      add(Reason::power_not_deciding);
    } else if (!p->is_within() && !p->is_beyond()) {
      add(Reason::power_undecided);
    }
  }

  /// So far there are the verdicts on the series before this one.
  [[nodiscard]] bool damaged_earlier() const {
    return std::any_of(a_.verdicts.begin(), a_.verdicts.end(),
                       [](const SeriesVerdict& v) { return v.word == Word::damaged; });
  }

  const Test& test_;
  const Assessment& a_;
  LookFor looks_;
  SeriesVerdict v_;
};

/// Whether an id begins with one of the words of a list.
bool begins_with_one_of(const std::string& id, std::string_view words) {
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    if (id.starts_with(words.substr(0, end))) return true;
    words.remove_prefix(std::min(end + 1, words.size()));
  }
  return false;
}

/// Standard uncertainty of the loss, in points, from the rows whose ids begin so.
PercentagePoints share_of_loss(const PowerResult& p, std::string_view words) {
  double variance = 0.0;
  for (const BudgetRow& row : p.budget) {
    if (!begins_with_one_of(row.input.id, words)) continue;
    variance += row.contribution() * row.contribution();
  }
  return PercentagePoints::of(100.0 * std::exp(p.estimate.lambda) * std::sqrt(variance));
}

/// What each used default adds to the standard uncertainty of the loss, over all stages the most.
void weigh_assumptions(Assessment& a, const Assumptions& assumptions) {
  for (const DefaultId id : assumptions.used()) {
    const std::string_view prefix = default_row(id).budget;
    AssumedEffect effect{id, std::nullopt, assumptions.on_energy(id)};
    for (const auto* stages : {&a.power, &a.later_power, &a.stress_power}) {
      for (const PowerResult& p : *stages) {
        if (prefix.empty() || !p.estimated()) continue;
        const PercentagePoints points = share_of_loss(p, prefix);
        if (!effect.on_loss || points > *effect.on_loss) effect.on_loss = points;
      }
    }
    a.assumed.push_back(effect);
  }
}

void find_headline(Assessment& a) {
  for (std::size_t i = 0; i < a.verdicts.size(); ++i) {
    if (a.verdicts[i].word == Word::withstood) a.hardest_withstood = i;
    if (a.verdicts[i].word == Word::damaged && !a.mildest_damaged) a.mildest_damaged = i;
  }
}

/// Stages that answer for hail are compared with the last one read before it.
void judge_all_power(const Test& test, const std::optional<CheckPlan>& check, Extent extent,
                     Assumptions& assumptions, Assessment& a) {
  const Timeline timeline(test.record);
  const StageId from = timeline.last_stage_by(timeline.has_hail() ? timeline.before_hail() : 0);
  for (const StageId stage : answering_stages(test))
    a.power.push_back(judge_power(test, stage, assumptions, check, from, extent));
  a.stress_power = judge_stress_power(test, assumptions, check, extent);
  const StageId later{StageKind::later, 0};
  if (extent == Extent::whole && has_setups(test.record, later))
    a.later_power.push_back(judge_power(test, later, assumptions, check));
}

/// Those before the hail or after it, in the order in which they were done: each sees the verdicts
/// on what was done before it.
void judge_stresses(const Test& test, bool after_hail, Assessment& a) {
  for (std::size_t i = 0; i < a.stresses.size(); ++i) {
    if (test.record.stresses[i].after_hail == after_hail) a.stresses[i] = judge_stress(test, a, i);
  }
}

/// What stands beside the verdicts.
void add_beside(const Test& test, const Assumptions& assumptions, Assessment& a) {
  a.evidence = evidence_on_hits(test, a);
  weigh_assumptions(a, assumptions);
  a.logs = weigh_logs(test.record.logs, test);
  a.sessions = weigh_logs(test.record.sessions, test);
  a.bracket = bracket_damage(test, a);
  a.energy = weigh_meter_sessions(test);
  a.pattern = find_loss_pattern(test);
}

}  // namespace

Assessment assess(const Test& test, const std::optional<CheckPlan>& check, Extent extent) {
  Assessment a;
  Assumptions assumptions;
  a.delivery = judge_delivery(test, assumptions, extent);
  if (test.protocol.decide.judges_power) judge_all_power(test, check, extent, assumptions, a);
  a.new_findings = new_findings(test.record);
  a.defects_from_start = defects_from_start(test.record);
  a.stresses.resize(test.record.stresses.size());
  judge_stresses(test, false, a);
  for (std::size_t s = 0; s < test.protocol.series.size(); ++s) {
    a.verdicts.push_back(SeriesJudge(test, a, s).judge());
  }
  judge_stresses(test, true, a);
  find_headline(a);
  a.shading = weigh_shading(test);
  if (extent == Extent::whole) add_beside(test, assumptions, a);
  a.cautions = cautions_for(caution_facts(test, a));
  return a;
}

}  // namespace hailwright
