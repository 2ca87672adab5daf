#include "evaluate/hit_evidence.hpp"

#include <algorithm>
#include <tuple>

#include "evaluate/looks.hpp"
#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

struct Hit {
  const Shot* shot = nullptr;
  const ShotResult* result = nullptr;

  /// A place's first hit, shown to be at least at the grade.
  [[nodiscard]] bool is_trial() const {
    return result->place && !result->repeat && result->sides.not_weaker;
  }
};

/// Every hit on the panel in the order thrown.
std::vector<Hit> hits_in_order(const Record& record, const Assessment& a) {
  std::vector<Hit> hits;
  for (const SeriesDelivery& d : a.delivery) {
    for (const ShotResult& r : d.shots) {
      if (r.on_panel) hits.push_back({&record.shots[r.shot], &r});
    }
  }
  std::stable_sort(hits.begin(), hits.end(), [](const Hit& x, const Hit& y) {
    return std::tuple(x.shot->series, x.shot->number) < std::tuple(y.shot->series, y.shot->number);
  });
  return hits;
}

/// What a look showed that may count.
enum class Sight { nothing, major, open };

Sight sight_of(const Assessment& a, std::size_t look) {
  Sight sight = Sight::nothing;
  for (const NewFinding& f : a.new_findings) {
    if (f.look != look) continue;
    if (f.major) return Sight::major;
    if (f.undecided) sight = Sight::open;
  }
  return sight;
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
    std::erase_if(hits_, [&](const Hit& h) { return h.shot->series >= counted; });
  }

  std::vector<HitEvidence> collect() {
    auto next = hits_.cbegin();
    bool looked = false;
    for (const std::size_t i : looks_in_order(test_.record)) {
      const Look& look = test_.record.looks[i];
      const auto end = look.start ? next : std::find_if(next, hits_.cend(), [&](const Hit& h) {
        return !moment_of(look).is_after(*h.shot);
      });
      const Sight sight = sight_of(a_, i);
      if (sight == Sight::nothing) {
        std::for_each(next, end, [&](const Hit& h) { add(h, false); });
      } else {
        // Only what an earlier look did not show was done since, and by the one hit there was.
        if (sight == Sight::major && looked && end - next == 1) add(*next, true);
        break;
      }
      next = end;
      looked = true;
    }
    return finished();
  }

private:
  void add(const Hit& hit, bool damaged) {
    if (!hit.is_trial()) return;
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
  std::vector<Hit> hits_;
  std::vector<HitEvidence> evidence_;
};

}  // namespace

std::vector<HitEvidence> evidence_on_hits(const Test& test, const Assessment& assessment) {
  return Collector(test, assessment).collect();
}

}  // namespace hailwright
