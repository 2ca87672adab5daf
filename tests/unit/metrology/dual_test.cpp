#include "hailwright/metrology/dual.hpp"

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("derivatives of a formula are exact") {
  using D = Dual<2>;
  const D x = D::variable(3.0, 0);
  const D y = D::variable(2.0, 1);
  const D f = log(x * y + 1.0) - 2.0 * x + (5.0 - y * 0.5) / 4.0 + (1.0 + x) - 3.0;
  CHECK_THAT(f.value, WithinRel(std::log(7.0) - 6.0 + 1.0 + 4.0 - 3.0, 1e-14));
  CHECK_THAT(f.slope[0], WithinRel(2.0 / 7.0 - 2.0 + 1.0, 1e-14));
  CHECK_THAT(f.slope[1], WithinRel(3.0 / 7.0 - 0.125, 1e-14));
}

TEST_CASE("what is subtracted from itself has no sensitivity") {
  using D = Dual<1>;
  const D x = D::variable(7.0, 0);
  CHECK((x - x).slope[0] == 0.0);
}
