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
  // Found by review: "(body_hit_any)" in a page that is published.
  Document published;
  append_cautions(published, {&caution("body_hit_any")}, 2, Audience::reader);
  CHECK(std::get<CautionList>(published.blocks[1]).items[0].id.empty());
  Document none;
  append_cautions(none, {});
  CHECK(none.blocks.empty());
}

// Found by review: "Source: no published source (ours, no published source)".
TEST_CASE("caution items: a caution without a document says so once") {
  CHECK(caution_item(caution("bystanders")).source == "common practice, no source");
  CHECK_THAT(caution_item(caution("body_hit_any")).source,
             Contains("EN 71-1") && Contains("(read)"));
}
