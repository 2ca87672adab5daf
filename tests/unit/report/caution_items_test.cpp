#include "report/caution_items.hpp"

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("caution items: in the order of urgency, whatever order they came in") {
  Document d;
  append_cautions(d, {&caution("claims"), &caution("body_hit_any")});
  REQUIRE(d.blocks.size() == 3);
  const auto& list = std::get<CautionList>(d.blocks[1]);
  CHECK(list.items[0].id == "body_hit_any");
  CHECK(list.items[1].id == "claims");
  CHECK_FALSE(list.items[0].source.empty());
  Document none;
  append_cautions(none, {});
  CHECK(none.blocks.empty());
}
