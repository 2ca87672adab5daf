#include "hailwright/metrology/stated.hpp"

#include <cmath>

#include "support/catch.hpp"

using namespace hailwright;

namespace {

/// "0.5 % + 2 digits" as manuals print it.
Stated<Power> as_printed(double per_cent, double digits) {
  Stated<Power> spec;
  spec.relative = percent(per_cent);
  spec.digits = digits;
  return spec;
}

/// Both parts as one half-width, as a manual means it for a single reading.
double half_width(const Stated<Power>& spec, double reading, double step) {
  return (spec.relative_u() * reading + spec.absolute_u(Power::from_si(step)).si()) *
         half_width_divisor(spec.shape);
}

}  // namespace

// A meter's "0.5 % + 2 digits" at 96.2 with a last digit of 0.1. Status: computed; tolerance 1e-6.
// The tool keeps gain and digits apart, so that a gain shared by two readings can cancel; together
// they are then less than the one half-width.
TEST_CASE("check spec_to_u: a maker's figure as half-width, gain and digits") {
  const Stated<Power> spec = as_printed(0.5, 2);
  const double gain = spec.relative_u() * 96.2;
  const double digits = spec.absolute_u(Power::from_si(0.1)).si();
  CHECK_THAT(half_width(spec, 96.2, 0.1), WithinAbs(0.681, 1e-6));
  CHECK_THAT(half_width(spec, 96.2, 0.1) / half_width_divisor(spec.shape),
             WithinAbs(0.393175533318, 1e-6));
  CHECK_THAT(gain, WithinAbs(0.277705, 1e-6));
  CHECK_THAT(digits, WithinAbs(0.11547, 1e-6));
  CHECK(std::hypot(gain, digits) < 0.31);
  const double half_a_step = 0.05;
  CHECK_THAT(half_a_step / half_width_divisor(Shape::rectangular),
             WithinAbs(0.0288675134595, 1e-6));
  CHECK_THAT(1.0 / half_width_divisor(Shape::arcsine), WithinAbs(0.707106781187, 1e-6));
  CHECK_THAT(1.0 / half_width_divisor(Shape::rectangular), WithinAbs(0.57735026919, 1e-6));
  CHECK_THAT(1.0 / half_width_divisor(Shape::triangular), WithinAbs(0.408248290464, 1e-6));
  CHECK(half_width_divisor(Shape::normal) == 1.0);
}

// A college's worked example: "2.5 % + 3 digits" at 32.00 with a last digit of 0.01. Status: read;
// tolerance 1e-9.
TEST_CASE("check kpu_spec: a worked example of a meter's figure") {
  CHECK_THAT(half_width(as_printed(2.5, 3), 32.0, 0.01), WithinAbs(0.83, 1e-9));
}

TEST_CASE("constant part and digits are two errors") {
  Stated<Mass> s;
  s.absolute = Mass::from_si(3.0);
  s.digits = 4;
  const Mass step = Mass::from_si(1.0);
  CHECK_THAT(s.constant_u().si(), WithinRel(3.0 / std::sqrt(3.0), 1e-12));
  CHECK_THAT(s.digits_u(step).si(), WithinRel(4.0 / std::sqrt(3.0), 1e-12));
  CHECK_THAT(s.absolute_u(step).si(), WithinRel(5.0 / std::sqrt(3.0), 1e-12));
}
