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

}  // namespace

std::vector<LogResults> weigh_logs(const std::vector<LogUse>& logs, const Test& test) {
  const Record& record = test.record;
  std::vector<LogResults> results;
  for (const LogUse& use : logs) {
    const Tools tools = tools_when(test, is_after_the_shots(use, record));
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
