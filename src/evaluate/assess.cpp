#include <algorithm>
#include <cmath>

#include "evaluate/caution_facts.hpp"
#include "evaluate/looks.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

/// The stages that answer for the series: after each one where it was measured, else `after`.
std::vector<StageId> answering_stages(const Test& test) {
  std::vector<StageId> stages;
  for (std::size_t s = 0; s < test.protocol.series.size(); ++s) {
    const StageId stage{StageKind::after_series, s};
    const bool read = std::any_of(test.record.setups.begin(), test.record.setups.end(),
                                  [&](const Setup& x) { return x.stage == stage; });
    if (read) stages.push_back(stage);
  }
  const StageId after{StageKind::after, 0};
  const bool read = std::any_of(test.record.setups.begin(), test.record.setups.end(),
                                [&](const Setup& x) { return x.stage == after; });
  if (read) stages.push_back(after);
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

/// How the hits up to the last series before a damage was seen stood to one series' grade.
DamageBy damage_by(const Assessment& a, const Target& target, Ratio tolerance, std::size_t last) {
  bool all_below = true;
  bool none_stronger = true;
  for (const SeriesDelivery& d : a.delivery) {
    if (d.series > last) continue;
    for (const ShotResult& r : d.shots) {
      if (!r.on_panel) continue;
      const HitSides sides = compare_hit(r, target, tolerance);
      all_below = all_below && sides.weaker;
      none_stronger = none_stronger && sides.not_stronger;
    }
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
    const LookFor look = look_for(test.record, series, test.protocol.series.size());
    v_.look = look.look;
    v_.look_covers = look.covers;
    attach_power(test, a_, v_);
    v_.clean_looks = looked_before() && v_.look && !seen_in_its_look();
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
    return std::move(v_);
  }

private:
  void add(Reason reason, std::string subject = {}, SourceSpan where = {}) {
    v_.reasons.push_back({reason, std::move(subject), where});
  }
  [[nodiscard]] const PowerResult* power() const {
    return v_.power ? &a_.power[*v_.power] : nullptr;
  }
  [[nodiscard]] bool seen_in_its_look() const {
    return std::any_of(a_.new_findings.begin(), a_.new_findings.end(), [&](const NewFinding& f) {
      return f.look == *v_.look && (f.major || f.undecided);
    });
  }
  [[nodiscard]] bool looked_before() const { return look_at_start(test_.record).has_value(); }

  /// Line 1: a new major defect, absent before and seen after, or power beyond the limit. Without a
  /// single hit on the panel up to then it was not the hail.
  bool line_damaged() {
    bool damaged = false;
    std::size_t last = v_.series;
    if (looked_before() && v_.look) {
      for (const NewFinding& f : a_.new_findings) {
        if (f.look != *v_.look || !f.major || !any_hit(v_.look_covers.last)) continue;
        add(Reason::new_major_defect, std::string(f.finding->kind->word) + ", " + f.finding->where,
            f.finding->origin);
        last = std::max(last, v_.look_covers.last);
        damaged = true;
      }
    }
    if (power_is_beyond() && !beyond_before() && any_hit(v_.power_covers.last)) {
      add(Reason::power_beyond);
      last = std::max(last, v_.power_covers.last);
      damaged = true;
    }
    if (damaged) {
      v_.damage_by = damage_by(a_, test_.protocol.series[v_.series].target,
                               a_.delivery[v_.series].tolerance, last);
    }
    return damaged;
  }

  [[nodiscard]] bool any_hit(std::size_t last) const {
    return std::any_of(a_.delivery.begin(), a_.delivery.end(),
                       [last](const SeriesDelivery& d) { return d.series <= last && d.hits > 0; });
  }
  [[nodiscard]] bool power_is_beyond() const {
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
    if (power_is_beyond() && !any_hit(v_.power_covers.last)) add(Reason::nothing_struck);
    return true;
  }

  /// Line 3: an inspection is missing, or the power that the protocol claims has no answer.
  bool line_undecided() {
    if (damaged_earlier()) add(Reason::damaged_before);
    if (!looked_before()) add(Reason::no_look_before);
    if (!v_.look) add(Reason::no_look_after);
    for (const NewFinding& f : a_.new_findings) {
      if (v_.look && f.look == *v_.look && f.undecided) {
        add(Reason::cell_share_not_stated,
            std::string(f.finding->kind->word) + ", " + f.finding->where, f.finding->origin);
      }
    }
    if (v_.power_claimed) power_reasons();
    return !v_.reasons.empty();
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

  [[nodiscard]] bool damaged_earlier() const {
    return std::any_of(a_.verdicts.begin(), a_.verdicts.end(), [&](const SeriesVerdict& v) {
      return v.word == Word::damaged && v.series < v_.series;
    });
  }

  const Test& test_;
  const Assessment& a_;
  SeriesVerdict v_;
};

/// MEASUREMENT M12, for series without any new major defect: each place's first hit that was at
/// least at the grade is one trial. With damage the hits would have to be inspected one by one.
void collect_evidence(Assessment& a) {
  constexpr double confidence = 0.95;
  for (const SeriesVerdict& v : a.verdicts) {
    const bool defect = std::any_of(a.new_findings.begin(), a.new_findings.end(),
                                    [](const NewFinding& f) { return f.major || f.undecided; });
    const SeriesDelivery& d = a.delivery[v.series];
    if (!v.look || defect || d.places_struck == 0) continue;
    a.evidence.push_back(
        {v.series, d.places_struck, 0, proportion_upper_bound(0, d.places_struck, confidence)});
  }
}

/// Whether an id begins with one of the words of a list.
bool begins_with_one_of(const std::string& id, std::string_view words) {
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    if (id.starts_with(words.substr(0, end))) return true;
    words.remove_prefix(std::min(end + 1, words.size()));
  }
  return false;
}

/// What each used default adds to the standard uncertainty of the loss, over all stages the most.
void weigh_assumptions(Assessment& a, const Assumptions& assumptions) {
  for (const DefaultId id : assumptions.used()) {
    const std::string_view prefix = default_row(id).budget;
    AssumedEffect effect{id, std::nullopt, assumptions.on_energy(id)};
    for (const PowerResult& p : a.power) {
      if (prefix.empty() || !p.estimated()) continue;
      double variance = 0.0;
      for (const BudgetRow& row : p.budget) {
        if (begins_with_one_of(row.input.id, prefix)) {
          variance += row.contribution() * row.contribution();
        }
      }
      const auto points =
          PercentagePoints::of(100.0 * std::exp(p.estimate.lambda) * std::sqrt(variance));
      if (!effect.on_loss || points > *effect.on_loss) effect.on_loss = points;
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

}  // namespace

Assessment assess(const Test& test) {
  Assessment a;
  Assumptions assumptions;
  a.delivery = judge_delivery(test, assumptions);
  if (test.protocol.decide.judges_power) {
    for (const StageId stage : answering_stages(test)) {
      a.power.push_back(judge_power(test, stage, assumptions));
    }
    const StageId later{StageKind::later, 0};
    if (std::any_of(test.record.setups.begin(), test.record.setups.end(),
                    [&](const Setup& s) { return s.stage == later; })) {
      a.later_power.push_back(judge_power(test, later, assumptions));
    }
  }
  a.new_findings = new_findings(test.record);
  for (std::size_t s = 0; s < test.protocol.series.size(); ++s) {
    a.verdicts.push_back(SeriesJudge(test, a, s).judge());
  }
  find_headline(a);
  collect_evidence(a);
  weigh_assumptions(a, assumptions);
  a.cautions = cautions_for(caution_facts(test, a));
  return a;
}

}  // namespace hailwright
