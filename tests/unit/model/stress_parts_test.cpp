#include "model/stresses/stress_parts.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/stress_examples.hpp"

using namespace hailwright;
using namespace hailwright::stresses;

TEST_CASE("stress parts: standard uncertainties of JCGM 100:2008, 4.3.7 and F.2.2.1") {
  CHECK_THAT(from_half_width(3.0), WithinRel(1.7320508075688772, 1e-12));
  CHECK_THAT(from_step(1.0), WithinRel(0.28867513459481287, 1e-12));
  // Two readings of a clock, each rounded: the root of two times as much.
  CHECK_THAT(from_two_readings(1.0), WithinRel(std::sqrt(2.0) * from_step(1.0), 1e-12));
  CHECK_THAT(joined({3.0, 4.0}), WithinRel(5.0, 1e-12));
}

TEST_CASE("stress parts: times are told in minutes or, when short, in seconds") {
  const StressReached hour = time_reached("held", 3600.0, 3660.0, 60.0);
  CHECK(hour.unit == "min");
  CHECK_THAT(hour.planned, WithinRel(60.0, 1e-12));
  CHECK_THAT(hour.done.value.si(), WithinRel(61.0, 1e-12));
  CHECK_THAT(hour.done.standard_u.si(), WithinRel(from_two_readings(1.0), 1e-12));
  const StressReached minute = time_reached("held", 60.0, 59.0, 1.0);
  CHECK(minute.unit == "s");
  CHECK_THAT(minute.done.value.si(), WithinRel(59.0, 1e-12));
}

TEST_CASE("stress parts: a number of times has no uncertainty and no tolerance") {
  const StressReached times = count_reached("times", 3.0, 2.0);
  CHECK(times.done.standard_u.si() == 0.0);
  CHECK(times.tolerance == 0.0);
  CHECK(word_reached("side", false).done.value.si() == 0.0);
  CHECK(word_reached("side", true).done.value.si() == 1.0);
}

TEST_CASE("stress parts: an amount above its limit, or none, is not enough") {
  const StressQuestion bag = at_most("static load", "bag", "what a bag weighs", "10 kg",
                                     Measure::mass, 15.0, "15 kg or less", "id");
  CHECK_FALSE(bag.missing("15 kg"));
  CHECK(bag.missing("15.1 kg") == std::string("15 kg or less"));
  CHECK(bag.missing("-1 kg"));
  CHECK(bag.missing("10"));
  CHECK(bag.missing("light"));
}

TEST_CASE("stress parts: an installed panel is refused, another word is asked again") {
  const StressQuestion question = not_installed("spray");
  CHECK_FALSE(question.missing("no"));
  CHECK(question.missing("yes"));
  CHECK(question.missing("perhaps"));
  CHECK(question.refused_for == "yes");
  CHECK_FALSE(goes_after("spray").missing("electronic waste"));
  CHECK(goes_after("spray").missing("sold or installed"));
}

TEST_CASE("stress parts: what was typed, and its last digit") {
  const StressValues values{{"load", {2.5, 0.1, "2.5 kg", {}}}};
  CHECK(typed(values, "load") == 2.5);
  CHECK(last_digit(values, "load") == 0.1);
  CHECK_FALSE(typed(values, "scale"));
  CHECK(last_digit(values, "scale") == 0.0);
  CHECK_THAT(*area_of(hailwright::testing::glass_panel()), WithinRel(0.5, 1e-12));
  CHECK_FALSE(area_of(Panel()));
}
