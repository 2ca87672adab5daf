#include "report/judgement_power.hpp"

#include "hailwright/report/render.hpp"
#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

namespace {

std::string power_facts(const TestBuilder& builder) {
  const Test test = builder.build();
  const Assessment a = assess(test);
  Facts facts;
  for (const PowerResult& p : a.power)
    append_power_facts(facts, p, test);
  return render_console({"", {facts}}, {.width = 120, .colour = false});
}

}  // namespace

TEST_CASE("power facts: watts stand beside per cent") {
  const std::string s = power_facts(TestBuilder().loss(0.12));
  CHECK_THAT(s, Contains("loss 12.0 %") && Contains(" W of ") && Contains("beyond 5 %? yes"));
  CHECK_THAT(s, Contains("in turn with one meter"));
}

TEST_CASE("power facts: what does not count gives no probability") {
  CHECK_THAT(power_facts(TestBuilder()), Contains("probability"));
  CHECK_THAT(power_facts(TestBuilder().loss(-0.06)), !Contains("probability"));
  CHECK_THAT(power_facts(TestBuilder().setups(2, 2)), !Contains("probability"));
  CHECK_THAT(power_facts(TestBuilder().setups(1, 1)), Contains("no comparison"));
}

TEST_CASE("power budget: the largest first, together at the end") {
  const Test test = TestBuilder().build();
  const Assessment a = assess(test);
  Document d;
  append_budget(d, a, test);
  const auto& table = std::get<Table>(d.blocks.at(1));
  REQUIRE(table.rows.size() >= 3);
  CHECK(std::stod(table.rows[0][1]) >= std::stod(table.rows[1][1]));
  CHECK_THAT(table.rows.back()[0], Contains("together"));
}
