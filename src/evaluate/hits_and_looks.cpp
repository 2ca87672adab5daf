#include "evaluate/hits_and_looks.hpp"

#include <algorithm>
#include <tuple>

#include "evaluate/looks.hpp"

namespace hailwright {

std::vector<PanelHit> hits_in_order(const Record& record, const Assessment& assessment) {
  std::vector<PanelHit> hits;
  for (const SeriesDelivery& d : assessment.delivery) {
    for (const ShotResult& r : d.shots) {
      if (r.on_panel) hits.push_back({&record.shots[r.shot], &r});
    }
  }
  std::stable_sort(hits.begin(), hits.end(), [](const PanelHit& x, const PanelHit& y) {
    return std::tuple(x.shot->series, x.shot->number) < std::tuple(y.shot->series, y.shot->number);
  });
  return hits;
}

std::size_t hits_by(const Look& look, const std::vector<PanelHit>& hits) {
  const Moment moment = moment_of(look);
  const auto end = std::find_if(hits.begin(), hits.end(),
                                [&](const PanelHit& h) { return !moment.is_after(*h.shot); });
  return static_cast<std::size_t>(end - hits.begin());
}

Sight sight_of(const Assessment& assessment, std::size_t look) {
  Sight sight = Sight::nothing;
  for (const NewFinding& f : assessment.new_findings) {
    if (f.look != look) continue;
    if (f.major) return Sight::major;
    if (f.undecided) sight = Sight::open;
  }
  return sight;
}

}  // namespace hailwright
