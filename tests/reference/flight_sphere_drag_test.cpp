// Drag of a sphere after Clift and Gauvin 1970, first printed form, against section 7.2 of the fact
// base on hail: the value at Re 200 was read in the tests of the public repository CalebBell/fluids
// (fluids/drag.py), the others were computed from the formula read there.

#include "hailwright/physics/drag.hpp"
#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("Clift and Gauvin at the printed Reynolds numbers", "[reference]") {
  CHECK_THAT(sphere_drag_coefficient(200), WithinAbs(0.7905400398, 5.01e-11));
  struct Row {
    double reynolds, coefficient;
  };
  for (const Row& r :
       {Row{1e4, 0.41032}, Row{4e4, 0.45607}, Row{1e5, 0.46745}, Row{2e5, 0.46700}}) {
    CAPTURE(r.reynolds);
    CHECK_THAT(sphere_drag_coefficient(r.reynolds), WithinAbs(r.coefficient, 5.01e-6));
  }
}

// The second printed form gives 0.81018 and 0.48264 at Re 200 and 4e4: it is not the one used here.
TEST_CASE("the form of Clift and Gauvin is the first", "[reference]") {
  CHECK(sphere_drag_coefficient(200) < 0.80);
  CHECK(sphere_drag_coefficient(4e4) < 0.47);
}

// Smooth spheres, table of the drag crisis as read (PyFME ball example): 0.20 at 3.5e5. A ball of
// ice that got this would fly farther and fall at 92 m/s; ours keeps 0.467.
TEST_CASE("no drag crisis beyond the range of the law", "[reference]") {
  CHECK_THAT(sphere_drag_coefficient(3.5e5), WithinAbs(0.46700, 5.01e-6));
}

// The named laws agree with each other within a few per cent where hail flies (Re 1e4 to 2e5):
// Haider and Levenspiel, and Cheng, as printed in the same section.
TEST_CASE("other laws for spheres lie near", "[reference]") {
  struct Row {
    double reynolds, haider_levenspiel, cheng;
  };
  for (const Row& r :
       {Row{200, 0.79596, 0.79391}, Row{1e4, 0.42038, 0.41675}, Row{4e4, 0.46501, 0.45267},
        Row{1e5, 0.47150, 0.46971}, Row{2e5, 0.46860, 0.47548}}) {
    CAPTURE(r.reynolds);
    CHECK_THAT(sphere_drag_coefficient(r.reynolds), WithinRel(r.haider_levenspiel, 0.025));
    CHECK_THAT(sphere_drag_coefficient(r.reynolds), WithinRel(r.cheng, 0.02));
  }
}
