#include "hailwright/model/place_layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <limits>
#include <map>
#include <set>

#include "core/quoted.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "model/length_rounding.hpp"
#include "model/place_candidates.hpp"

namespace hailwright {

namespace {

using detail::quoted;

/// The eleven places of IEC 61215-2, editions 2016 and 2021. From memory, and less sure than the
/// list of 2005; the text was not read (docs/places.md): 1 corner, 2 edge, 3-4 over the circuit
/// near interconnects, 5-6 over edges of the circuit, 7-8 near a mounting point, 9-10 farthest from
/// those, 11 an especially vulnerable place such as over the junction box.
constexpr std::array<Wish, full_set> eleven{
    Wish::corner,          Wish::edge,        Wish::cell_joint,
    Wish::cell_joint,      Wish::row_edge,    Wish::row_edge,
    Wish::near_mount,      Wish::near_mount,  Wish::far_from_mounts,
    Wish::far_from_mounts, Wish::junction_box};

/// One place of each kind of weakness [ours]: a corner and an edge of the glass, cells where they
/// are joined, a stiff spot (mount), and the joints behind the box. The places far from the mounts
/// are left out first: there the panel gives way and takes the blow softly.
constexpr std::array<Wish, reduced_set> five{Wish::corner, Wish::edge, Wish::cell_joint,
                                             Wish::near_mount, Wish::junction_box};

/// In which order places are chosen: those with the fewest points to choose from first [ours].
constexpr std::array<Wish, 8> order{Wish::junction_box, Wish::near_mount,     Wish::corner,
                                    Wish::edge,         Wish::cell_joint,     Wish::row_edge,
                                    Wish::cell_centre,  Wish::far_from_mounts};

Wish wish_of(PlaceKind kind) {
  switch (kind) {
  case PlaceKind::corner:
    return Wish::corner;
  case PlaceKind::edge:
    return Wish::edge;
  case PlaceKind::near_mount:
    return Wish::near_mount;
  case PlaceKind::far_from_mounts:
    return Wish::far_from_mounts;
  case PlaceKind::junction_box:
    return Wish::junction_box;
  case PlaceKind::cell_centre:
    return Wish::cell_centre;
  case PlaceKind::cell_edge:
  case PlaceKind::named:
    break;
  }
  return Wish::cell_joint;
}

PlaceKind kind_of(Wish wish) {
  switch (wish) {
  case Wish::corner:
    return PlaceKind::corner;
  case Wish::edge:
    return PlaceKind::edge;
  case Wish::near_mount:
    return PlaceKind::near_mount;
  case Wish::far_from_mounts:
    return PlaceKind::far_from_mounts;
  case Wish::junction_box:
    return PlaceKind::junction_box;
  case Wish::cell_centre:
    return PlaceKind::cell_centre;
  case Wish::cell_joint:
  case Wish::row_edge:
    break;
  }
  return PlaceKind::cell_edge;
}

/// The wish of the place with this index; nothing when only its name is known. Without mounts the
/// sets take two more far places instead of inventing a mount.
std::optional<Wish> wish_of(const SeriesPlan& series, std::size_t index, const Panel& panel) {
  const Place& place = series.places[index];
  if (!series.places_counted) {
    if (!place.kind || *place.kind == PlaceKind::named) return std::nullopt;
    return wish_of(*place.kind);
  }
  std::optional<Wish> wish;
  if (series.places.size() == eleven.size()) wish = eleven.at(index);
  if (series.places.size() == five.size()) wish = five.at(index);
  if (wish == Wish::near_mount && panel.mounting_points.empty()) return Wish::far_from_mounts;
  return wish;
}

std::optional<int> number_in(const std::string& name) {
  int number = 0;
  const char* end = name.data() + name.size();
  const auto read = std::from_chars(name.data(), end, number);
  if (read.ec != std::errc{} || read.ptr != end || number < 1) return std::nullopt;
  return number;
}

/// Names that are numbers keep them; the others take what is left, in their order.
void give_numbers(PlaceLayout& layout) {
  std::set<int> taken;
  for (auto& series : layout.series) {
    for (PlacedTarget& place : series) {
      const std::optional<int> own = number_in(place.name);
      if (own && taken.insert(*own).second) place.number = *own;
    }
  }
  int next = 1;
  for (auto& series : layout.series) {
    for (PlacedTarget& place : series) {
      if (place.number != 0) continue;
      while (taken.contains(next))
        ++next;
      place.number = next;
      taken.insert(next);
    }
  }
}

std::string mm_to_tenth(Length length) {
  return fixed(length.si() * 1000.0, 1);
}

/// Finds the places of one series after the other.
class Placer {
public:
  Placer(const Panel& panel, Diagnostics& notes)
      : panel_(panel), glass_(glass_of(panel)), notes_(notes) {}

  std::vector<PlacedTarget> place(const SeriesPlan& series, Length radius) {
    ball_ = series.target.diameter / 2.0;
    own_.clear();
    own_index_.clear();
    listed_.clear();
    std::vector<PlacedTarget> targets;
    for (const Place& place : series.places) {
      PlacedTarget target;
      target.name = place.name;
      target.radius = radius;
      target.kind = place.kind.value_or(PlaceKind::named);
      if (place.at && !place.found) take_typed(series, place, target);
      targets.push_back(std::move(target));
    }
    find_others(series, targets);
    for (const PlacedTarget& target : targets) {
      if (target.at) earlier_.push_back({*target.at, target.radius});
    }
    return targets;
  }

private:
  void take_typed(const SeriesPlan& series, const Place& place, PlacedTarget& target) {
    target.at = place.at;
    target.what = "where the protocol says";
    check_on_panel(place);
    const Disc disc{*place.at, target.radius};
    for (std::size_t i = 0; i < own_.size(); ++i) {
      if (!overlap(disc, own_[i])) continue;
      const Place& other = series.places[own_index_[i]];
      notes_
          .error("C26", place.origin,
                 fmt::format("places {} and {} of one series overlap: their middles are {} mm "
                             "apart, and each reaches {} mm around its own",
                             quoted(other.name), quoted(place.name),
                             mm_to_tenth(distance(disc.at, own_[i].at)),
                             mm_to_tenth(target.radius)),
                 {"a hit between them would count for one by chance: move one of the two",
                  "or make the places of this series smaller, as in  place_size: 10 mm"})
          .related.push_back({other.origin, "the other place"});
    }
    target.repeats_earlier = hits_earlier(disc);
    add_own(disc, static_cast<std::size_t>(&place - series.places.data()));
  }

  void check_on_panel(const Place& place) {
    if (!panel_.size) return;
    const Glass outline{{}, {panel_.size->long_side, panel_.size->short_side}};
    if (!holds(outline, *place.at)) {
      notes_
          .error("C09", place.origin,
                 fmt::format("place {} lies outside the panel", quoted(place.name)),
                 {"write how far right of the left edge and how far above the lower edge it is, "
                  "the long side lying"})
          .related.push_back({panel_.origin, "the panel with its size"});
      return;
    }
    const std::string frame = fmt::format("{} mm", mm_to_tenth(frame_width(panel_)));
    if (!frame_assumed(panel_) && glass_ && !holds(*glass_, *place.at)) {
      notes_
          .error("C25", place.origin,
                 fmt::format("place {} lies on the frame, which is {} wide", quoted(place.name),
                             frame),
                 {fmt::format("a whole ball lands on the glass from {} mm inside the edges",
                              mm_to_tenth(frame_width(panel_) + ball_))})
          .related.push_back({panel_.origin, "the panel with its frame"});
      return;
    }
    warn_of_reach(place, frame);
  }

  void warn_of_reach(const Place& place, const std::string& frame) {
    const Glass outline{{}, {panel_.size->long_side, panel_.size->short_side}};
    const Length inside = depth_in(outline, *place.at) - frame_width(panel_);
    if (inside.si() >= ball_.si() - rounding_m) return;
    std::vector<std::string> hints{
        fmt::format("a whole ball lands on the glass from {} mm inside the edges of the panel",
                    mm_to_tenth(frame_width(panel_) + ball_))};
    if (frame_assumed(panel_)) {
      hints.push_back(fmt::format("the frame is taken as {} wide: write its width into the panel "
                                  "file, as in  frame: {}",
                                  frame, frame));
    }
    notes_
        .warning("C27", place.origin,
                 fmt::format("a ball of {} mm aimed at place {} reaches {} mm over the {}",
                             mm_to_tenth(2.0 * ball_), quoted(place.name),
                             mm_to_tenth(ball_ - inside),
                             frame_width(panel_).si() > 0.0 ? "frame" : "edge"),
                 std::move(hints))
        .related.push_back({panel_.origin, "the panel"});
  }

  void find_others(const SeriesPlan& series, std::vector<PlacedTarget>& targets) {
    std::vector<std::optional<Wish>> wishes;
    for (std::size_t i = 0; i < targets.size(); ++i) {
      wishes.push_back(targets[i].at ? std::nullopt : wish_of(series, i, panel_));
      if (!targets[i].at && !wishes.back()) {
        targets[i].why_not = "neither the protocol nor its name says where";
      }
    }
    for (const Wish wish : order) {
      for (std::size_t i = 0; i < targets.size(); ++i) {
        if (wishes[i] == wish) find(wish, i, targets[i]);
      }
    }
  }

  void find(Wish wish, std::size_t index, PlacedTarget& target) {
    target.kind = kind_of(wish);
    if (!glass_) {
      target.why_not = panel_.size ? "the frame leaves no glass" : "the panel file names no size";
      return;
    }
    const std::optional<Glass> room = room_for_ball(*glass_, ball_);
    if (!room) {
      target.why_not = "the glass is too small for this ball";
      return;
    }
    const std::optional<Candidate> found = wish == Wish::far_from_mounts
                                               ? far_point(*room, target)
                                               : listed_point(wish, *room, target);
    if (!found) {
      if (target.why_not.empty())
        target.why_not = "no room is left beside the other places of this series";
      return;
    }
    target.at = found->at;
    target.what = found->what;
    const Disc disc{found->at, target.radius};
    target.repeats_earlier = hits_earlier(disc);
    add_own(disc, index);
  }

  std::optional<Candidate> far_point(const Glass& room, const PlacedTarget& target) {
    std::vector<Disc> all = own_;
    all.insert(all.end(), earlier_.begin(), earlier_.end());
    Candidates found = find_far_point(panel_, *glass_, room, target.radius, all, {});
    if (found.tiers.empty())
      found = find_far_point(panel_, *glass_, room, target.radius, own_, earlier_);
    if (found.tiers.empty()) return std::nullopt;
    return found.tiers.front().front();
  }

  /// Of the points that are free, the one farthest from all places chosen before; ties go to the
  /// first. Where none is free, one that only places of earlier series overlap.
  std::optional<Candidate> listed_point(Wish wish, const Glass& room, PlacedTarget& target) {
    Listed& listed = listed_of(wish, room, target.radius);
    target.why_not = listed.candidates.why_not;
    for (const bool may_repeat : {false, true}) {
      for (std::size_t t = 0; t < listed.standings.size(); ++t) {
        const std::vector<Standing>& tier = listed.standings[t];
        std::optional<std::size_t> best;
        double best_m = 0.0;
        for (std::size_t i = 0; i < tier.size(); ++i) {
          if (tier[i].on_own || (!may_repeat && tier[i].on_earlier)) continue;
          if (best && tier[i].nearest_m <= best_m + tie_m) continue;
          best = i;
          best_m = tier[i].nearest_m;
        }
        if (best) return listed.candidates.tiers[t][*best];
      }
    }
    return std::nullopt;
  }

  /// How a candidate stands to the places that were chosen before.
  struct Standing {
    bool on_own = false, on_earlier = false;
    double nearest_m = std::numeric_limits<double>::max();  ///< farther than any panel: none yet
  };
  /// The candidates of one wish; each chosen place is held against them once.
  struct Listed {
    Candidates candidates;
    std::vector<std::vector<Standing>> standings;  ///< as the tiers
    std::size_t own_seen = 0;
  };

  Listed& listed_of(Wish wish, const Glass& room, Length radius) {
    const auto [entry, is_new] = listed_.try_emplace(wish);
    Listed& listed = entry->second;
    if (is_new) {
      listed.candidates = find_candidates(wish, panel_, room, ball_);
      for (const std::vector<Candidate>& tier : listed.candidates.tiers)
        listed.standings.emplace_back(tier.size());
      for (const Disc& disc : earlier_)
        hold_against(disc, radius, &Standing::on_earlier, listed);
    }
    for (; listed.own_seen < own_.size(); ++listed.own_seen)
      hold_against(own_[listed.own_seen], radius, &Standing::on_own, listed);
    return listed;
  }

  static void hold_against(const Disc& disc, Length radius, bool Standing::*covered,
                           Listed& listed) {
    for (std::size_t t = 0; t < listed.standings.size(); ++t) {
      for (std::size_t i = 0; i < listed.standings[t].size(); ++i) {
        const Position at = listed.candidates.tiers[t][i].at;
        Standing& standing = listed.standings[t][i];
        if (overlap({at, radius}, disc)) standing.*covered = true;
        standing.nearest_m = std::min(standing.nearest_m, distance(at, disc.at).si());
      }
    }
  }

  [[nodiscard]] bool hits_earlier(const Disc& disc) const {
    return std::any_of(earlier_.begin(), earlier_.end(),
                       [&](const Disc& other) { return overlap(disc, other); });
  }
  void add_own(const Disc& disc, std::size_t index) {
    own_.push_back(disc);
    own_index_.push_back(index);
  }

  const Panel& panel_;
  std::optional<Glass> glass_;
  Length ball_;
  std::vector<Disc> own_;               ///< places of this series
  std::vector<std::size_t> own_index_;  ///< and their indices
  std::vector<Disc> earlier_;           ///< places of the series before
  std::map<Wish, Listed> listed_;       ///< of this series
  Diagnostics& notes_;
};

}  // namespace

Checked<PlaceLayout> layout_places(const Protocol& protocol, const Panel& panel,
                                   Length default_radius) {
  Checked<PlaceLayout> result;
  PlaceLayout layout;
  Placer placer(panel, result.notes);
  for (const SeriesPlan& series : protocol.series)
    layout.series.push_back(placer.place(series, series.place_radius.value_or(default_radius)));
  give_numbers(layout);
  if (!result.notes.has_errors()) result.value = std::move(layout);
  return result;
}

void take_positions(const PlaceLayout& layout, Protocol& protocol) {
  for (std::size_t s = 0; s < protocol.series.size(); ++s) {
    std::vector<Place>& places = protocol.series[s].places;
    for (std::size_t i = 0; i < places.size(); ++i) {
      const PlacedTarget& target = layout.series.at(s).at(i);
      if (places[i].at && !places[i].found) continue;
      places[i].at = target.at;
      places[i].found = target.at.has_value();
      if (target.at) places[i].kind = target.kind;
    }
  }
}

}  // namespace hailwright
