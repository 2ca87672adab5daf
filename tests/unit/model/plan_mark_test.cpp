#include "hailwright/model/plan_mark.hpp"

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("plan_mark: what is written is read again, and nothing else") {
  const PlanMark mark{{"7f3a", "9c01", "52de", "0b44"}};
  CHECK(text(mark) == "7f3a-9c01-52de-0b44");
  CHECK(read_plan_mark("7f3a-9c01-52de-0b44") == mark);
  for (const char* wrong : {"", "7f3a-9c01-52de", "7f3a-9c01-52de-0b4", "7f3a-9c01-52de-0b44-",
                            "7F3a-9c01-52de-0b44", "7f3a_9c01-52de-0b44", "7f3g-9c01-52de-0b44"}) {
    CAPTURE(wrong);
    CHECK_FALSE(read_plan_mark(wrong));
  }
}
