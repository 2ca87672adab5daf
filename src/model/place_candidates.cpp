#include "model/place_candidates.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "model/length_rounding.hpp"

namespace hailwright {

namespace {

std::string in_mm(Length length) {
  const double mm = length.si() * 1000.0;
  const bool whole = std::abs(mm - std::round(mm)) < 0.05;
  return fixed(mm, whole ? 0 : 1);
}

std::string in_mm(Position at) {
  return fmt::format("{} x {} mm", in_mm(at.right), in_mm(at.up));
}

/// The middle of the ball lies one ball radius inside the glass on both sides.
Candidates corners(const Glass& room) {
  return {{{{room.low, "lower left corner of the glass"},
            {{room.high.right, room.low.up}, "lower right corner of the glass"},
            {{room.low.right, room.high.up}, "upper left corner of the glass"},
            {room.high, "upper right corner of the glass"}}},
          {}};
}

/// The four sides at this share of their length.
std::vector<Candidate> on_sides(const Glass& room, double share, std::string_view words) {
  const Length right = room.low.right + share * (room.high.right - room.low.right);
  const Length up = room.low.up + share * (room.high.up - room.low.up);
  return {{{right, room.low.up}, fmt::format("{} of the lower side", words)},
          {{room.low.right, up}, fmt::format("{} of the left side", words)},
          {{room.high.right, up}, fmt::format("{} of the right side", words)},
          {{right, room.high.up}, fmt::format("{} of the upper side", words)}};
}

/// The middles of the sides; the quarter points when all of those are taken.
Candidates edges(const Glass& room) {
  std::vector<Candidate> quarters = on_sides(room, 0.25, "first quarter");
  for (Candidate& other : on_sides(room, 0.75, "third quarter"))
    quarters.push_back(std::move(other));
  return {{on_sides(room, 0.5, "middle"), std::move(quarters)}, {}};
}

void keep_in(const Glass& room, std::vector<Candidate>& points) {
  std::erase_if(points, [&](const Candidate& c) { return !holds(room, c.at); });
}

/// Middles of the edges that cells of a row share with their neighbours.
std::vector<Candidate> joints(const CellField& field) {
  std::vector<Candidate> points;
  for (int row = 0; row < field.across; ++row) {
    for (int column = 0; column + 1 < field.along; ++column) {
      const Glass cell = cell_at(field, column, row);
      points.push_back({{cell.high.right + field.gap / 2.0, middle_of(cell).up},
                        fmt::format("over the edge between cells {} and {} of row {}", column + 1,
                                    column + 2, row + 1)});
    }
  }
  return points;
}

/// Middles of the edges that rows of cells share.
std::vector<Candidate> row_edges(const CellField& field) {
  std::vector<Candidate> points;
  for (int row = 0; row + 1 < field.across; ++row) {
    for (int column = 0; column < field.along; ++column) {
      const Glass cell = cell_at(field, column, row);
      points.push_back({{middle_of(cell).right, cell.high.up + field.gap / 2.0},
                        fmt::format("over the edge between rows {} and {}, cell {}", row + 1,
                                    row + 2, column + 1)});
    }
  }
  return points;
}

/// Middles of the edges that have no neighbour.
std::vector<Candidate> outer_edges(const CellField& field) {
  std::vector<Candidate> points;
  const auto add = [&](int column, int row, Position at) {
    points.push_back(
        {at, fmt::format("over the outer edge of cell {} of row {}", column + 1, row + 1)});
  };
  for (int column = 0; column < field.along; ++column) {
    const Glass low = cell_at(field, column, 0);
    const Glass high = cell_at(field, column, field.across - 1);
    add(column, 0, {middle_of(low).right, low.low.up});
    add(column, field.across - 1, {middle_of(high).right, high.high.up});
  }
  for (int row = 0; row < field.across; ++row) {
    const Glass low = cell_at(field, 0, row);
    const Glass high = cell_at(field, field.along - 1, row);
    add(0, row, {low.low.right, middle_of(low).up});
    add(field.along - 1, row, {high.high.right, middle_of(high).up});
  }
  return points;
}

std::vector<Candidate> centres(const CellField& field) {
  std::vector<Candidate> points;
  for (int row = 0; row < field.across; ++row) {
    for (int column = 0; column < field.along; ++column) {
      points.push_back({middle_of(cell_at(field, column, row)),
                        fmt::format("over the middle of cell {} of row {}", column + 1, row + 1)});
    }
  }
  return points;
}

/// Cells are counted from the left, rows from below. Which edges have joints is not in the panel
/// file: the cells of a row along the long side are taken as one string, whose ribbons cross the
/// middle of the edges between them [ours].
Candidates on_cells(Wish wish, const Panel& panel, const Glass& room) {
  const std::optional<CellField> field = cell_field(panel);
  if (!field) return {{}, "the panel file names no cells"};
  std::vector<std::vector<Candidate>> tiers;
  switch (wish) {
  case Wish::cell_joint:
    tiers = {joints(*field), row_edges(*field), outer_edges(*field)};
    break;
  case Wish::row_edge:
    tiers = {row_edges(*field), joints(*field), outer_edges(*field)};
    break;
  default:
    tiers = {centres(*field)};
    break;
  }
  for (std::vector<Candidate>& tier : tiers)
    keep_in(room, tier);
  std::erase_if(tiers, [](const auto& tier) { return tier.empty(); });
  if (tiers.empty()) return {{}, "no ball fits there beside the frame"};
  return {std::move(tiers), {}};
}

/// So far from a mounting point towards the middle; to the right of one at the very middle.
Position beside_mount(Position mount, Position middle, Length way) {
  const double to_middle_m = distance(middle, mount).si();
  if (to_middle_m == 0.0) return {mount.right + way, mount.up};
  const double share = way.si() / to_middle_m;
  return {mount.right + share * (middle.right - mount.right),
          mount.up + share * (middle.up - mount.up)};
}

/// At half a ball diameter from each mounting point, towards the middle of the panel, so that the
/// ball strikes the glass and not the bolt; where the frame is in the way, as near as the ball
/// fits.
Candidates near_mounts(const Panel& panel, const Glass& room, Length ball_radius) {
  std::vector<Candidate> points;
  for (const Position mount : panel.mounting_points) {
    Position at = nearest_in(room, mount);
    const Position beside = beside_mount(mount, middle_of(room), ball_radius);
    // Nearer than that only where the frame leaves no way round.
    if (distance(at, mount) < ball_radius && holds(room, beside)) at = beside;
    const Length off = distance(at, mount);
    std::string what = fmt::format("{} mm from the mounting point at {}", in_mm(off), in_mm(mount));
    if (off.si() > ball_radius.si() + rounding_m) what += ", as near as the ball fits";
    points.push_back({at, std::move(what)});
  }
  if (points.empty()) return {{}, "the panel file names no mounts"};
  return {{std::move(points)}, {}};
}

Candidates over_box(const Panel& panel, const Glass& room) {
  if (!panel.junction_box) return {{}, "the panel file names no junction_box"};
  const JunctionBox& box = *panel.junction_box;
  const Glass area{{box.at.right - box.width / 2.0, box.at.up - box.height / 2.0},
                   {box.at.right + box.width / 2.0, box.at.up + box.height / 2.0}};
  const Position at = nearest_in(room, box.at);
  if (!holds(area, at)) return {{}, "no ball fits over the junction box beside the frame"};
  const bool shifted = distance(at, box.at).si() > rounding_m;
  return {{{{at, shifted ? "over the junction box, as near its middle as the ball fits"
                         : "over the middle of the junction box"}}},
          {}};
}

/// What the far point keeps away from.
class Distances {
public:
  Distances(const Panel& panel, const Glass& glass, const std::vector<Disc>& apart,
            const std::vector<Disc>& earlier)
      : glass_(glass), points_(panel.mounting_points),
        from_edge_(panel.mounting_points.empty() || frame_width(panel).si() > 0.0) {
    for (const std::vector<Disc>* discs : {&apart, &earlier}) {
      for (const Disc& disc : *discs)
        points_.push_back(disc.at);
    }
  }
  /// To the nearest of all; only a bound from above as soon as that is not above `least_m`, which
  /// spares most of the search.
  [[nodiscard]] double nearest_m(Position at, double least_m) const {
    double nearest = std::numeric_limits<double>::max();
    if (from_edge_) nearest = depth_in(glass_, at).si();
    for (const Position other : points_) {
      if (nearest <= least_m) break;
      const double right_m = at.right.si() - other.right.si();
      const double up_m = at.up.si() - other.up.si();
      nearest = std::min(nearest, std::sqrt(right_m * right_m + up_m * up_m));
    }
    return nearest;
  }

private:
  Glass glass_;
  std::vector<Position> points_;
  bool from_edge_;
};

/// Step of the grid: 1, 2 or 5 times a power of ten of millimetres, so that a tape shows it, and at
/// most some 200 steps along the longer side [ours].
double grid_step_m(double longer_m) {
  constexpr double most_steps = 210.0;
  double step_m = 0.001;
  while (longer_m > most_steps * 5.0 * step_m)
    step_m *= 10.0;
  for (const double factor : {1.0, 2.0}) {
    if (longer_m <= most_steps * factor * step_m) return factor * step_m;
  }
  return 5.0 * step_m;
}

/// The multiples of a step between two lengths; their middle where there is none.
std::vector<Length> multiples(double step_m, Length low, Length high) {
  std::vector<Length> all;
  const double first = std::ceil(low.si() / step_m - rounding_m);
  const double last = std::floor(high.si() / step_m + rounding_m);
  for (int k = 0; first + k <= last; ++k)
    all.push_back(Length::from_si((first + k) * step_m));
  if (all.empty()) all.push_back((low + high) / 2.0);
  return all;
}

std::string far_words(const Panel& panel) {
  if (panel.mounting_points.empty())
    return "far from the edges and the other places; the panel file names no mounts";
  return frame_width(panel).si() > 0.0
             ? "far from the mounting points, the frame and the other places"
             : "far from the mounting points and the other places";
}

}  // namespace

bool overlap(const Disc& a, const Disc& b) {
  return distance(a.at, b.at).si() < (a.radius + b.radius).si() - rounding_m;
}

Candidates find_candidates(Wish wish, const Panel& panel, const Glass& room, Length ball_radius) {
  switch (wish) {
  case Wish::corner:
    return corners(room);
  case Wish::edge:
    return edges(room);
  case Wish::cell_joint:
  case Wish::row_edge:
  case Wish::cell_centre:
    return on_cells(wish, panel, room);
  case Wish::near_mount:
    return near_mounts(panel, room, ball_radius);
  case Wish::junction_box:
    return over_box(panel, room);
  case Wish::far_from_mounts:
    break;
  }
  fail_contract("a wish with points of its own");
}

Candidates find_far_point(const Panel& panel, const Glass& glass, const Glass& room, Length radius,
                          const std::vector<Disc>& apart, const std::vector<Disc>& earlier) {
  const Distances distances(panel, glass, apart, earlier);
  const Length longer = std::max(room.high.right - room.low.right, room.high.up - room.low.up);
  const double step_m = grid_step_m(longer.si());
  const std::vector<Length> ups = multiples(step_m, room.low.up, room.high.up);
  std::optional<Position> best;
  double best_m = 0.0;
  for (const Length right : multiples(step_m, room.low.right, room.high.right)) {
    for (const Length up : ups) {
      const Position at{right, up};
      const double nearest = distances.nearest_m(at, best ? best_m + tie_m : -1.0);
      if (best && nearest <= best_m + tie_m) continue;
      const bool free = std::none_of(apart.begin(), apart.end(), [&](const Disc& other) {
        return overlap({at, radius}, other);
      });
      if (!free) continue;
      best = at;
      best_m = nearest;
    }
  }
  if (!best) return {};
  return {{{{*best, far_words(panel)}}}, {}};
}

}  // namespace hailwright
