#include "report/aim_map_labels.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace hailwright::detail {

namespace {

/// Right, left, above and below first, since a reader looks there first [ours].
constexpr double diagonal = 0.70710678118654752;  // cos 45 deg
constexpr std::array<Spot, 8> directions{{{1.0, 0.0},
                                          {-1.0, 0.0},
                                          {0.0, -1.0},
                                          {0.0, 1.0},
                                          {diagonal, -diagonal},
                                          {-diagonal, -diagonal},
                                          {diagonal, diagonal},
                                          {-diagonal, diagonal}}};

constexpr double label_air = 1.5;  ///< kept free around a label, in units of the picture

bool within(const LabelBox& inner, const LabelBox& outer) {
  return std::abs(inner.middle.x - outer.middle.x) + inner.width / 2.0 <= outer.width / 2.0 &&
         std::abs(inner.middle.y - outer.middle.y) + inner.height / 2.0 <= outer.height / 2.0;
}

bool touches_disc(const LabelBox& box, const Labelled& disc) {
  const double dx = std::max(0.0, std::abs(box.middle.x - disc.middle.x) - box.width / 2.0);
  const double dy = std::max(0.0, std::abs(box.middle.y - disc.middle.y) - box.height / 2.0);
  return std::hypot(dx, dy) < disc.radius + label_air;
}

class Labeller {
public:
  Labeller(const std::vector<Labelled>& discs, std::vector<LabelBox> fixed, const LabelBox& area)
      : discs_(discs), taken_(std::move(fixed)), area_(area) {}

  std::optional<LabelBox> inside(const Labelled& disc) {
    const double half = std::hypot(disc.width, disc.height) / 2.0;
    const double room = disc.radius - half - label_air;
    if (room < 0.0) return std::nullopt;
    if (auto box = try_at(disc, disc.middle, false)) return box;
    for (const double share : {0.5, 1.0}) {
      for (const Spot d : directions) {
        const Spot at{disc.middle.x + share * room * d.x, disc.middle.y + share * room * d.y};
        if (auto box = try_at(disc, at, false)) return box;
      }
    }
    return std::nullopt;
  }

  std::optional<LabelBox> beside(const Labelled& disc, bool may_cross_discs) {
    constexpr int most_rings = 12;  // far enough to leave any crowd of places [ours]
    for (int ring = 0; ring < most_rings; ++ring) {
      const double gap = disc.radius + 5.0 + 8.0 * ring;
      for (const Spot d : directions) {
        const Spot at{disc.middle.x + d.x * (gap + disc.width / 2.0),
                      disc.middle.y + d.y * (gap + disc.height / 2.0)};
        if (auto box = try_at(disc, at, !may_cross_discs)) return box;
      }
    }
    return std::nullopt;
  }

private:
  std::optional<LabelBox> try_at(const Labelled& disc, Spot at, bool clear_of_discs) {
    const LabelBox box{at, disc.width, disc.height};
    if (!within(box, area_)) return std::nullopt;
    for (const LabelBox& other : taken_) {
      if (touch(box, other)) return std::nullopt;
    }
    if (clear_of_discs && std::any_of(discs_.begin(), discs_.end(), [&](const Labelled& other) {
          return touches_disc(box, other);
        })) {
      return std::nullopt;
    }
    taken_.push_back(box);
    return box;
  }

  const std::vector<Labelled>& discs_;
  std::vector<LabelBox> taken_;
  LabelBox area_;
};

}  // namespace

bool touch(const LabelBox& a, const LabelBox& b) {
  return std::abs(a.middle.x - b.middle.x) < (a.width + b.width) / 2.0 + label_air &&
         std::abs(a.middle.y - b.middle.y) < (a.height + b.height) / 2.0 + label_air;
}

std::vector<Label> place_labels(const std::vector<Labelled>& discs,
                                const std::vector<LabelBox>& fixed, const LabelBox& area) {
  Labeller labeller(discs, fixed, area);
  std::vector<std::optional<LabelBox>> inside;
  for (const Labelled& disc : discs)
    inside.push_back(labeller.inside(disc));
  std::vector<Label> labels;
  for (std::size_t i = 0; i < discs.size(); ++i) {
    if (inside[i]) {
      labels.push_back({*inside[i], true, false});
      continue;
    }
    auto box = labeller.beside(discs[i], false);
    if (!box) box = labeller.beside(discs[i], true);
    const LabelBox on_top{discs[i].middle, discs[i].width, discs[i].height};
    labels.push_back({box.value_or(on_top), !box, !box});
  }
  return labels;
}

}  // namespace hailwright::detail
