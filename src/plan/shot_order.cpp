#include "hailwright/plan/shot_order.hpp"

#include <numeric>
#include <utility>

#include "hailwright/metrology/random.hpp"
#include "hailwright/model/panel_geometry.hpp"

namespace hailwright {

std::vector<std::size_t> spread_order(const std::vector<PlacedTarget>& places) {
  std::vector<std::size_t> left;
  std::vector<std::size_t> unplaced;
  for (std::size_t i = 0; i < places.size(); ++i)
    (places[i].at ? left : unplaced).push_back(i);
  std::vector<std::size_t> order;
  while (!left.empty()) {
    std::size_t next = 0;
    if (!order.empty()) {
      const Position here = *places[order.back()].at;
      for (std::size_t i = 1; i < left.size(); ++i) {
        if (distance(*places[left[i]].at, here) > distance(*places[left[next]].at, here)) next = i;
      }
    }
    order.push_back(left[next]);
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(next));
  }
  order.insert(order.end(), unplaced.begin(), unplaced.end());
  return order;
}

std::vector<std::size_t> random_order(std::size_t places, std::uint64_t seed) {
  std::vector<std::size_t> order(places);
  std::iota(order.begin(), order.end(), std::size_t{0});
  RandomStream random(seed);
  // Fisher and Yates; one uniform number in 2^53 is even enough for a few hundred places.
  for (std::size_t i = places; i > 1; --i) {
    const auto j = static_cast<std::size_t>(random.uniform() * static_cast<double>(i));
    std::swap(order[i - 1], order[j]);
  }
  return order;
}

}  // namespace hailwright
