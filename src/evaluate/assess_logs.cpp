#include "evaluate/assess_logs.hpp"

#include <algorithm>

#include "evaluate/same_tools.hpp"

namespace hailwright {

namespace {

/// The set-ups of a log stand all before the shots or all after them.
bool is_after_the_shots(const LogUse& use, const Record& record) {
  return std::any_of(use.setups.begin(), use.setups.end(), [&](std::size_t setup) {
    const StageKind kind = record.setups[setup].stage.kind;
    return kind != StageKind::before && kind != StageKind::baseline;
  });
}

Tools tools_of(const LogUse& use, const Test& test) {
  Tools tools = test.protocol.tools;
  const Record& record = test.record;
  if (!record.tools_after || !is_after_the_shots(use, record)) return tools;
  if (described_after(record, Instrument::meter)) tools.meter = record.tools_after->meter;
  if (described_after(record, Instrument::sun)) tools.sun = record.tools_after->sun;
  if (described_after(record, Instrument::thermometer))
    tools.thermometer = record.tools_after->thermometer;
  return tools;
}

}  // namespace

std::vector<LogResults> weigh_logs(const std::vector<LogUse>& logs, const Test& test) {
  const Record& record = test.record;
  std::vector<LogResults> results;
  for (const LogUse& use : logs) {
    const Tools tools = tools_of(use, test);
    LogInstruments known;
    known.tools = &tools;
    known.panel = &record.panel;
    if (record.control) known.panel_beside = &*record.control;
    known.cell_above_back = test.protocol.measure.cell_above_back;
    results.push_back(weigh_log(use.findings, known, std::nullopt));
  }
  return results;
}

}  // namespace hailwright
