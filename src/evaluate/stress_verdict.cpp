#include "hailwright/evaluate/stress_verdict.hpp"

#include <algorithm>

#include "evaluate/looks.hpp"
#include "evaluate/timeline.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/metrology/estimate.hpp"

namespace hailwright {

namespace {

constexpr double confidence = 0.95;             // M10
constexpr double two_sided_confidence = 0.975;  // of each end

/// P(done <= bound), and 1 where a quantity without uncertainty lies on it.
double probability_at_most(const Estimate<Ratio>& done, double bound) {
  return probability_at_least(-done.value.si(), done.standard_u.si(), done.degrees_of_freedom,
                              -bound);
}

double probability_at_least(const Estimate<Ratio>& done, double bound) {
  return probability_at_least(done, Ratio::from_si(bound));
}

StressQuantity compared(StressReached reached) {
  StressQuantity q;
  const double weak = reached.weak_when_low ? -1.0 : 1.0;
  const Estimate<Ratio>& done = reached.done;
  q.counts_from = reached.planned * (1.0 + weak * reached.tolerance);
  const double strongest = reached.planned * (1.0 - weak * reached.tolerance);
  q.chance_not_weaker = reached.weak_when_low ? probability_at_least(done, q.counts_from)
                                              : probability_at_most(done, q.counts_from);
  const double chance_not_stronger = reached.weak_when_low ? probability_at_most(done, strongest)
                                                           : probability_at_least(done, strongest);
  q.not_stronger = chance_not_stronger >= confidence;
  if (q.chance_not_weaker >= confidence) q.side = StressSide::not_weaker;
  if (q.chance_not_weaker <= 1.0 - confidence) q.side = StressSide::weaker;
  q.low = lower_bound(done, two_sided_confidence).si();
  q.high = upper_bound(done, two_sided_confidence).si();
  q.reached = std::move(reached);
  return q;
}

/// How what was done stood to the plan: nothing told of it could have been anything.
StressDamageBy damage_by(const std::vector<StressQuantity>& quantities) {
  bool could_be_more = quantities.empty();
  for (const StressQuantity& q : quantities) {
    if (q.side == StressSide::weaker) return StressDamageBy::below_level;
    could_be_more = could_be_more || !q.not_stronger;
  }
  return could_be_more ? StressDamageBy::perhaps_more : StressDamageBy::at_level;
}

class StressJudge {
public:
  StressJudge(const Test& test, const Assessment& assessment, std::size_t done)
      : test_(test), a_(assessment), timeline_(test.record), done_(test.record.stresses[done]),
        plan_(test.protocol.stresses[done_.stress]), event_{false, done},
        place_(timeline_.place_of(event_)) {
    v_.done = done;
    v_.power_claimed = test.protocol.decide.judges_power;
    quantities();
    attach_looks();
    attach_power();
  }

  /// The truth table of M11: the first line that applies decides the word.
  StressVerdict judge() {
    if (line_damaged()) {
      v_.word = Word::damaged;
    } else if (line_not_reached()) {
      v_.word = Word::not_reached;
    } else if (line_undecided()) {
      v_.word = Word::undecided;
      add(StressBecause::delivered);
      if (v_.clean_looks) add(StressBecause::looks_clean);
    } else {
      v_.word = Word::withstood;
      add(StressBecause::delivered);
      add(StressBecause::looks_clean);
      if (v_.power_claimed) add(StressBecause::power_within);
    }
    add_what_bears_on_it();
    return std::move(v_);
  }

private:
  void add(StressBecause because, std::string subject = {}, SourceSpan where = {}) {
    v_.reasons.push_back({because, std::move(subject), where});
  }
  void add_seen(StressBecause because, const NewFinding& f) {
    v_.reasons.push_back({because, described(*f.finding), f.finding->origin, f.look});
  }
  static std::string described(const Finding& finding) {
    return std::string(finding.kind->word) + ", " + finding.where;
  }

  void quantities() {
    for (StressReached& reached :
         plan_.kind->reached(plan_.values, done_.values, test_.record.panel))
      v_.quantities.push_back(compared(std::move(reached)));
    v_.delivered = !v_.quantities.empty() &&
                   std::all_of(v_.quantities.begin(), v_.quantities.end(),
                               [](const auto& q) { return q.side == StressSide::not_weaker; });
  }

  /// What else was done from one standing to another.
  [[nodiscard]] std::vector<PanelEvent> others(std::size_t first, std::size_t end) const {
    std::vector<PanelEvent> events = timeline_.between(first, end);
    std::erase(events, event_);
    return events;
  }

  /// The last look before it and the first one after it.
  void attach_looks() {
    const std::vector<Look>& looks = test_.record.looks;
    for (const std::size_t i : looks_in_order(test_.record)) {
      const Standing at = timeline_.at(looks[i]);
      if (at.begun <= place_) v_.look_before = i;
      if (at.over > place_ && !v_.look_after) v_.look_after = i;
    }
    if (v_.look_after) {
      const std::size_t first = v_.look_before ? timeline_.at(looks[*v_.look_before]).over : 0;
      v_.look_others = others(first, timeline_.at(looks[*v_.look_after]).begun);
    }
    v_.clean_looks =
        v_.look_before && v_.look_after &&
        std::none_of(a_.new_findings.begin(), a_.new_findings.end(), [&](const NewFinding& f) {
          return (f.major || f.undecided) && may_have_done(f);
        });
  }

  /// What the look that showed it can show was done since the look before: this among it.
  [[nodiscard]] bool may_have_done(const NewFinding& f) const {
    const auto since = timeline_.since_look_before(f.look);
    return std::find(since.begin(), since.end(), event_) != since.end();
  }
  [[nodiscard]] bool alone_can_have_done(const NewFinding& f) const {
    return timeline_.since_look_before(f.look) == std::vector{event_};
  }

  void attach_power() {
    const auto to = timeline_.first_stage_from(place_ + 1);
    if (!to || power_spoilt()) return;
    const StageId from = timeline_.last_stage_by(place_);
    for (std::size_t i = 0; i < a_.stress_power.size(); ++i) {
      if (a_.stress_power[i].from == from) v_.power = i;  // to the next stage, which is `to`
    }
    v_.power_others = others(timeline_.at(from), timeline_.at(*to));
  }
  [[nodiscard]] std::optional<std::string> power_spoilt() const {
    if (!plan_.kind->power_spoilt) return std::nullopt;
    return plan_.kind->power_spoilt(done_.values);
  }
  [[nodiscard]] const PowerResult* power() const {
    return v_.power_claimed && v_.power ? &a_.stress_power[*v_.power] : nullptr;
  }
  [[nodiscard]] bool power_is_beyond() const { return power() != nullptr && power()->is_beyond(); }

  /// Line 1: a new major defect or a loss beyond the limit. What something else may have done as
  /// well counts against each of them, unless the panel was broken before this one.
  bool line_damaged() {
    for (const NewFinding& f : a_.new_findings) {
      if (f.major && v_.look_before && alone_can_have_done(f))
        add_seen(StressBecause::new_major_defect, f);
    }
    if (power_is_beyond() && v_.power_others.empty()) add(StressBecause::power_beyond);
    // Of damage by several it is not told which of them was strong enough.
    if (!v_.reasons.empty()) v_.damage_by = damage_by(v_.quantities);
    if (v_.look_before && !broken_before()) add_together();
    return !v_.reasons.empty();
  }

  bool line_not_reached() {
    if (v_.delivered) return false;
    if (v_.quantities.empty()) add(StressBecause::not_told, {}, done_.origin);
    for (const StressQuantity& q : v_.quantities) {
      if (q.side == StressSide::weaker) add(StressBecause::weaker, q.reached.label);
      if (q.side == StressSide::cannot_tell) add(StressBecause::perhaps_weaker, q.reached.label);
    }
    add_together();
    return true;
  }

  /// Damage that this or something else did.
  void add_together() {
    for (const NewFinding& f : a_.new_findings) {
      if (f.major && may_have_done(f) && !(v_.look_before && alone_can_have_done(f)))
        add_seen(StressBecause::together, f);
    }
    if (power_is_beyond() && !v_.power_others.empty()) add(StressBecause::together);
  }

  /// Line 3: an inspection is missing, or the power that the protocol claims has no answer.
  bool line_undecided() {
    if (broken_before()) add(StressBecause::damaged_before);
    if (!v_.look_before) add(StressBecause::no_look_before);
    if (!v_.look_after) add(StressBecause::no_look_after);
    add_together();
    for (const NewFinding& f : a_.new_findings) {
      // What an earlier look left open bears on all that was done after it.
      const bool earlier = timeline_.at(test_.record.looks[f.look]).begun <= place_;
      if (f.undecided && (earlier || may_have_done(f)))
        add_seen(StressBecause::cell_share_not_stated, f);
    }
    if (v_.power_claimed) power_reasons();
    return !v_.reasons.empty();
  }

  void power_reasons() {
    const PowerResult* p = power();
    if (const auto why = power_spoilt()) {
      add(StressBecause::power_spoilt, *why, done_.origin);
    } else if (p == nullptr) {
      add(StressBecause::power_missing);
    } else if (!p->estimated()) {
      add(StressBecause::power_obstacle);
    } else if (!p->valid) {
      add(StressBecause::power_not_valid);
    } else if (!p->decides) {
      add(StressBecause::power_not_deciding);
    } else if (!p->is_within() && !p->is_beyond()) {
      add(StressBecause::power_undecided);
    }
  }

  [[nodiscard]] bool is_earlier(PanelEvent event) const {
    return timeline_.place_of(event) < place_;
  }
  /// An earlier stress came out damaged by what this one cannot have had a part in. Its own defect
  /// was seen before this one was done.
  [[nodiscard]] bool damaged_without_this(const StressVerdict& v) const {
    return std::any_of(v.reasons.begin(), v.reasons.end(), [&](const StressReason& r) {
      if (r.because == StressBecause::power_beyond) return true;
      if (r.because != StressBecause::together) return false;
      const auto& others = r.subject.empty() ? v.power_others : v.look_others;
      return std::find(others.begin(), others.end(), event_) == others.end();
    });
  }
  [[nodiscard]] bool broken_before() const {
    const auto seen = [this](const NewFinding& f) {
      return f.major && timeline_.at(test_.record.looks[f.look]).begun <= place_;
    };
    const auto hail = [this](const SeriesVerdict& v) {
      return v.word == Word::damaged && is_earlier({true, v.series});
    };
    const auto stress = [this](const StressVerdict& v) {
      return is_earlier({false, v.done}) && damaged_without_this(v);
    };
    return std::any_of(a_.new_findings.begin(), a_.new_findings.end(), seen) ||
           std::any_of(a_.verdicts.begin(), a_.verdicts.end(), hail) ||
           std::any_of(a_.stresses.begin(), a_.stresses.end(), stress);
  }

  /// What decides nothing and may not be left unsaid beside the word.
  void add_what_bears_on_it() {
    if (plan_.kind->unsuited) {
      // What was typed of the doing is held against the panel with the plan.
      StressValues planned_and_done = plan_.values;
      planned_and_done.insert(done_.values.begin(), done_.values.end());
      if (const auto why = plan_.kind->unsuited(planned_and_done, test_.record.panel))
        add(StressBecause::unsuited, *why, plan_.origin);
    }
    std::vector<std::string> told;
    for (const Look& look : test_.record.looks) {
      if (!look.start) continue;
      for (const Finding& f : look.saw) {
        if (is_major(f) != Answer::yes) continue;
        std::string text = described(f);
        if (std::find(told.begin(), told.end(), text) != told.end()) continue;
        add(StressBecause::defect_from_start, text, f.origin);
        told.push_back(std::move(text));
      }
    }
  }

  const Test& test_;
  const Assessment& a_;
  Timeline timeline_;
  const StressDone& done_;
  const StressPlan& plan_;
  PanelEvent event_;
  std::size_t place_;
  StressVerdict v_;
};

}  // namespace

StressVerdict judge_stress(const Test& test, const Assessment& assessment, std::size_t done) {
  return StressJudge(test, assessment, done).judge();
}

}  // namespace hailwright
