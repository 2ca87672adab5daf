#include "evaluate/hit_evidence.hpp"

#include <algorithm>

#include "evaluate/hits_and_looks.hpp"
#include "evaluate/looks.hpp"
#include "evaluate/timeline.hpp"
#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

/// A place's first hit, shown to be at least at the grade.
bool is_trial(const PanelHit& hit) {
  return hit.result->place && !hit.result->repeat && hit.result->sides.not_weaker;
}

/// Number of series, from the first on, that were thrown before the readings that showed the power
/// beyond the limit first.
std::size_t series_before_loss(const Assessment& a) {
  std::size_t count = a.delivery.size();
  for (const SeriesVerdict& v : a.verdicts) {
    if (v.power && a.power[*v.power].is_beyond()) count = std::min(count, v.power_covers.last + 1);
  }
  return count;
}

class Collector {
public:
  Collector(const Test& test, const Assessment& a)
      : test_(test), a_(a), hits_(hits_in_order(test.record, a)), evidence_(a.delivery.size()) {
    const std::size_t counted = series_before_loss(a);
    std::erase_if(hits_, [&](const PanelHit& h) { return h.shot->series >= counted; });
  }

  std::vector<HitEvidence> collect() {
    auto next = hits_.cbegin();
    bool looked = false;
    const Timeline timeline(test_.record);
    for (const std::size_t i : looks_in_order(test_.record)) {
      const Look& look = test_.record.looks[i];
      const auto end = hits_by_then(look, next);
      const Sight sight = sight_of(a_, i);
      if (sight == Sight::nothing) {
        std::for_each(next, end, [&](const PanelHit& h) { add(h, false); });
      } else {
        // Only what an earlier look did not show was done since, and by the one hit there was.
        if (sight == Sight::major && looked && end - next == 1 && !timeline.with_a_stress(i))
          add(*next, true);
        break;
      }
      next = end;
      looked = true;
    }
    return finished();
  }

private:
  using HitAt = std::vector<PanelHit>::const_iterator;

  /// The first hit that had not been made when this look was taken.
  [[nodiscard]] HitAt hits_by_then(const Look& look, HitAt next) const {
    if (is_before_hail(test_.record, look)) return next;
    if (look.after_stress) return hits_.cend();
    return std::find_if(next, hits_.cend(),
                        [&](const PanelHit& h) { return !moment_of(look).is_after(*h.shot); });
  }

  void add(const PanelHit& hit, bool damaged) {
    if (!is_trial(hit)) return;
    HitEvidence& e = evidence_[hit.shot->series];
    ++e.places;
    if (damaged) ++e.with_damage;
  }

  std::vector<HitEvidence> finished() {
    for (std::size_t s = 0; s < evidence_.size(); ++s)
      evidence_[s].series = s;
    std::erase_if(evidence_, [](const HitEvidence& e) { return e.places == 0; });
    for (HitEvidence& e : evidence_)
      e.upper = proportion_upper_bound(e.with_damage, e.places, hit_confidence);
    return std::move(evidence_);
  }

  const Test& test_;
  const Assessment& a_;
  std::vector<PanelHit> hits_;
  std::vector<HitEvidence> evidence_;
};

}  // namespace

std::vector<HitEvidence> evidence_on_hits(const Test& test, const Assessment& assessment) {
  return Collector(test, assessment).collect();
}

}  // namespace hailwright
