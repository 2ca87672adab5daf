#include "hailwright/evaluate/damage_bracket.hpp"

#include <algorithm>
#include <vector>

#include "evaluate/hits_and_looks.hpp"
#include "evaluate/looks.hpp"
#include "evaluate/timeline.hpp"
#include "hailwright/evaluate/assessment.hpp"

namespace hailwright {

namespace {

class Bracketing {
public:
  Bracketing(const Test& test, const Assessment& a)
      : record_(test.record), a_(a), hits_(hits_in_order(test.record, a)) {}

  std::optional<DamageBracket> find() {
    bool looked = false;
    const Timeline timeline(record_);
    for (const std::size_t i : looks_in_order(record_)) {
      const Look& look = record_.looks[i];
      if (look.start || look.after_stress) continue;
      const std::size_t end = hits_by(look, hits_);
      if (end == 0) continue;
      const Sight sight = sight_of(a_, i);
      if (sight == Sight::open) break;                                // neither borne nor damaged
      if (sight == Sight::major && timeline.with_a_stress(i)) break;  // that may have done it
      looked = true;
      if (sight == Sight::major) {
        damaged(i, end);
        break;
      }
      borne(i, end);
      clean_until_ = end;
    }
    if (!looked) return std::nullopt;
    bracket_.maybe_before = bracket_.damage_seen && !look_at_start(record_);
    return bracket_;
  }

private:
  void borne(std::size_t look, std::size_t end) {
    for (std::size_t i = clean_until_; i < end; ++i) {
      if (!hits_[i].result->energy) continue;
      const Estimate<Energy>& energy = *hits_[i].result->energy;
      const Energy bound = std::max(lower_bound(energy, hit_confidence), Energy{});
      if (!bracket_.borne || bound > bracket_.borne->bound)
        bracket_.borne = BracketHit{hits_[i].result->shot, energy.value, bound, look};
    }
  }

  void damaged(std::size_t look, std::size_t end) {
    bracket_.damage_seen = true;
    bracket_.hits_between = static_cast<int>(end - clean_until_);
    // Found without a hit since: a late crack, of any of the hits before.
    const std::size_t first = clean_until_ < end ? clean_until_ : 0;
    for (std::size_t i = first; i < end; ++i) {
      // One unknown energy among them could have been above all others.
      if (!hits_[i].result->energy) {
        bracket_.damaged_by = std::nullopt;
        return;
      }
      const Estimate<Energy>& energy = *hits_[i].result->energy;
      const Energy bound = upper_bound(energy, hit_confidence);
      if (!bracket_.damaged_by || bound > bracket_.damaged_by->bound)
        bracket_.damaged_by = BracketHit{hits_[i].result->shot, energy.value, bound, look};
    }
  }

  const Record& record_;
  const Assessment& a_;
  std::vector<PanelHit> hits_;
  std::size_t clean_until_ = 0;  ///< so many hits were looked at without a new major defect
  DamageBracket bracket_;
};

}  // namespace

std::optional<DamageBracket> bracket_damage(const Test& test, const Assessment& assessment) {
  return Bracketing(test, assessment).find();
}

}  // namespace hailwright
