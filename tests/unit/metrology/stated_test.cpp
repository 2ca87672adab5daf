#include "hailwright/metrology/stated.hpp"

#include <cmath>

#include "support/catch.hpp"

using namespace hailwright;

// case spec_to_u (computed) and kpu_spec (read): a meter's "0.5 % + 2 digits" at 96.2 with a last
// digit of 0.1, and "2.5 % + 3 digits" at 32.00.
TEST_CASE("a maker's figure splits into gain and digits") {
  Stated<Power> spec;
  spec.relative = percent(0.5);
  spec.digits = 2;
  const Power step = Power::from_si(0.1);
  CHECK_THAT(spec.relative_u() * 96.2, WithinAbs(0.277705, 1e-6));
  CHECK_THAT(spec.absolute_u(step).si(), WithinAbs(0.11547, 1e-6));
  CHECK_THAT(0.025 * 32.0 + 3 * 0.01, WithinAbs(0.83, 1e-9));
}

TEST_CASE("divisors of the shapes") {
  CHECK_THAT(1.0 / half_width_divisor(Shape::rectangular), WithinAbs(0.57735026919, 1e-10));
  CHECK_THAT(1.0 / half_width_divisor(Shape::triangular), WithinAbs(0.408248290464, 1e-10));
  CHECK_THAT(1.0 / half_width_divisor(Shape::arcsine), WithinAbs(0.707106781187, 1e-10));
  CHECK(half_width_divisor(Shape::normal) == 1.0);
}

TEST_CASE("constant part and digits are two errors") {
  Stated<Mass> s;
  s.absolute = Mass::from_si(3.0);
  s.digits = 4;
  CHECK_THAT(s.absolute_u(Mass::from_si(1.0)).si(), WithinRel(5.0 / std::sqrt(3.0), 1e-12));
}
