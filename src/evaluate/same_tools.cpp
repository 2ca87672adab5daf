#include "evaluate/same_tools.hpp"

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

/// What tells instruments of any kind apart.
struct Identity {
  bool described = false;
  std::string id;
};

Identity identity(const Tools& tools, Instrument which) {
  const auto of = [](const auto& tool) { return Identity{tool.origin.line != 0, tool.id}; };
  switch (which) {
  case Instrument::meter:
    return of(tools.meter);
  case Instrument::sun:
    return of(tools.sun);
  case Instrument::thermometer:
    return of(tools.thermometer);
  }
  fail_contract("unknown instrument");
}

}  // namespace

bool described_after(const Record& record, Instrument which) {
  return record.tools_after && identity(*record.tools_after, which).described;
}

Tools tools_when(const Test& test, bool after_the_shots) {
  Tools tools = test.protocol.tools;
  const Record& record = test.record;
  if (!after_the_shots || !record.tools_after) return tools;
  if (described_after(record, Instrument::meter)) tools.meter = record.tools_after->meter;
  if (described_after(record, Instrument::sun)) tools.sun = record.tools_after->sun;
  if (described_after(record, Instrument::thermometer))
    tools.thermometer = record.tools_after->thermometer;
  return tools;
}

bool same_tool_said(const Test& test, Instrument which) {
  const Record& record = test.record;
  if (described_after(record, which)) {
    const std::string id = identity(*record.tools_after, which).id;
    return !id.empty() && id == identity(test.protocol.tools, which).id;
  }
  // What is not described follows what is said; nothing said is no.
  return record.conditions.same_tools == true;
}

}  // namespace hailwright
