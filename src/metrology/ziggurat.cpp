#include "metrology/ziggurat.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "metrology/portable_kernels.hpp"

namespace hailwright::detail {

namespace {

double bell(double x) {
  return exp_kernel(-0.5 * x * x);
}

/// Width of the rectangle of this area that stands on height y and just reaches the bell curve; 0
/// when none fits any more. Height from width and width from height in turn fall to the widest one.
double widest_rectangle(double area, double y, double start) {
  double x = start;
  for (;;) {
    const double top = y + area / x;
    if (top >= 1.0) return 0.0;
    const double next = std::sqrt(-2.0 * log_kernel(top));
    if (next >= x) return x;
    x = next;
  }
}

/// Without a branch, which would be taken wrongly every other time: bit 10 becomes the sign's.
double with_sign_of(std::uint64_t bit, double x) {
  static_assert(Ziggurat::layers == 1U << 10U);
  return std::bit_cast<double>(std::bit_cast<std::uint64_t>(x) | (bit << 53U));
}

}  // namespace

/// The second derivative of the bell curve is nowhere beyond 1.
Ziggurat::Box Ziggurat::box_between(double left, double right, double low, double high) {
  const double dx = right - left;
  const double dy = high - low;
  return {left, dx, low, dy, dx * dx / 8.0 / dy};
}

Ziggurat::Ziggurat() {
  lay_columns(lay_rectangles());
}

std::size_t Ziggurat::lay_rectangles() {
  // Of the right half below exp(-x^2/2).
  const double whole = std::sqrt(std::numbers::pi / 2.0);
  const double area = whole / static_cast<double>(layers);
  double y = 0.0;
  // Wider than the lowest rectangle.
  double x = 10.0;
  for (;;) {
    const double width = widest_rectangle(area, y, x);
    const double top = width > 0.0 ? y + area / width : 1.0;
    if (rectangles_ > 0) boxes_[rectangles_] = box_between(width, x, y, top);
    if (width == 0.0) break;
    if (rectangles_ == 0) tail_start_ = width;
    full_width_[rectangles_++] = 2.0 * width;
    x = width;
    y = top;
  }
  return rectangles_ + 1;
}

/// The alias method of Walker (1977): columns of one height, each filled up with what another box
/// has too much.
void Ziggurat::lay_columns(std::size_t boxes) {
  expects(boxes <= layers, "Ziggurat: more boxes than columns");
  std::array<double, layers> share{};
  // Above the tail lies bell(s) exp(-s (x - s)), s being its start.
  share[0] = bell(tail_start_) / tail_start_;
  double sum = share[0];
  for (std::size_t i = 1; i < boxes; ++i) {
    share[i] = boxes_[i].dx * boxes_[i].dy;
    sum += share[i];
  }
  std::vector<std::size_t> low;
  std::vector<std::size_t> high;
  for (std::size_t i = 0; i < layers; ++i) {
    share[i] *= static_cast<double>(layers) / sum;
    columns_[i].boxes = {i, i};
    (share[i] < 1.0 ? low : high).push_back(i);
  }
  while (!low.empty() && !high.empty()) {
    const std::size_t short_of = low.back();
    const std::size_t giver = high.back();
    low.pop_back();
    columns_[short_of] = {share[short_of], {short_of, giver}};
    share[giver] -= 1.0 - share[short_of];
    if (share[giver] >= 1.0) continue;
    high.pop_back();
    low.push_back(giver);
  }
}

/// By rejection over all boxes: where a draw fails, the box is drawn again too, or boxes that are
/// filled less would get more than their share.
double Ziggurat::rest(RandomStream& random) const {
  for (;;) {
    // The lowest bits give the column, the highest the height in it, one between them the sign.
    const std::uint64_t word = random.bits();
    const Column& column = columns_[word % layers];
    const std::size_t box = column.boxes[one_to_two(word) - 1.0 < column.own ? 0 : 1];
    const double x = box == 0 ? try_tail(random) : try_box(boxes_[box], random);
    if (x > 0.0) return with_sign_of(word & layers, x);
  }
}

/// A draw from the exponential above the tail, or 0 when it lies above the curve.
double Ziggurat::try_tail(RandomStream& random) const {
  const double step = -log_kernel(random.uniform()) / tail_start_;
  // The curve is exp(-step^2/2) of the exponential.
  const bool below = step * step < -2.0 * log_kernel(random.uniform());
  return below ? tail_start_ + step : 0.0;
}

/// A draw from a box, or 0 when it lies above the curve.
double Ziggurat::try_box(const Box& box, RandomStream& random) {
  const double across = random.uniform();
  const double up = random.uniform();
  const double x = box.x + box.dx * across;
  const double above_chord = across + up - 1.0;
  if (above_chord >= box.margin) return 0.0;
  return above_chord < -box.margin || box.y + box.dy * up < bell(x) ? x : 0.0;
}

const Ziggurat& ziggurat() {
  static const Ziggurat only;
  return only;
}

}  // namespace hailwright::detail
