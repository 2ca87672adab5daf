// MEASUREMENT M3: that an instrument was the same is a fact of the record, never taken for granted.
#include "evaluate/same_tools.hpp"

#include "support/catch.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;

TEST_CASE("same tools: said, denied, or left open") {
  Test t = TestBuilder().build();
  for (const Instrument which : {Instrument::meter, Instrument::sun, Instrument::thermometer}) {
    t.record.conditions.same_tools = true;
    CHECK(same_tool_said(t, which));
    t.record.conditions.same_tools = false;
    CHECK_FALSE(same_tool_said(t, which));
    t.record.conditions.same_tools.reset();
    CHECK_FALSE(same_tool_said(t, which));
    CHECK_FALSE(described_after(t.record, which));
  }
}

// Found by review: scales described under tools_after made the meters the same ones.
TEST_CASE("same tools: what is described leaves the rest as it was said") {
  Test t = TestBuilder().build();
  t.record.tools_after = t.protocol.tools;
  t.record.tools_after->sun.origin.line = 4;
  CHECK(described_after(t.record, Instrument::sun));
  CHECK_FALSE(same_tool_said(t, Instrument::sun));
  CHECK(same_tool_said(t, Instrument::meter));
  CHECK(same_tool_said(t, Instrument::thermometer));
  for (const std::optional<bool> said : {std::optional<bool>(), std::optional(false)}) {
    t.record.conditions.same_tools = said;
    CHECK_FALSE(same_tool_said(t, Instrument::meter));
    CHECK_FALSE(same_tool_said(t, Instrument::thermometer));
  }
}

TEST_CASE("same tools: one id is one instrument") {
  Test t = TestBuilder().build();
  t.protocol.tools.meter.id = "clamp meter 2";
  t.record.tools_after = t.protocol.tools;
  t.record.tools_after->meter.origin.line = 4;
  CHECK(same_tool_said(t, Instrument::meter));
  t.record.tools_after->meter.id = "clamp meter 3";
  CHECK_FALSE(same_tool_said(t, Instrument::meter));
  t.protocol.tools.meter.id.clear();
  t.record.tools_after->meter.id.clear();
  CHECK_FALSE(same_tool_said(t, Instrument::meter));
}

TEST_CASE("same tools: readings after the shots were taken with what is described for them") {
  Test t = TestBuilder().build();
  CHECK(tools_when(t, true).meter.id == t.protocol.tools.meter.id);
  Tools other;
  other.meter.id = "clamp meter 3";
  other.sun.id = "cell 2";
  other.thermometer.id = "probe 2";
  t.record.tools_after = other;  // none of them described
  CHECK(tools_when(t, true).meter.id.empty());
  CHECK(tools_when(t, true).sun.id.empty());
  CHECK(tools_when(t, true).thermometer.id.empty());
  t.record.tools_after->meter.origin.line = 4;
  t.record.tools_after->sun.origin.line = 5;
  t.record.tools_after->thermometer.origin.line = 6;
  const Tools after = tools_when(t, true);
  CHECK(after.meter.id == "clamp meter 3");
  CHECK(after.sun.id == "cell 2");
  CHECK(after.thermometer.id == "probe 2");
  CHECK(tools_when(t, false).meter.id.empty());
}
