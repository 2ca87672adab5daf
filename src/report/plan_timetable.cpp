#include "report/plan_timetable.hpp"

#include <fmt/format.h>

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string task_text(TaskKind kind, bool hail) {
  switch (kind) {
  case TaskKind::freezing:
    return "fill and empty the moulds, over the nights before";
  case TaskKind::gate:
    return "go through the safety answers on the spot";
  case TaskKind::setups_before:
    return hail ? "set-ups before the shots" : "set-ups before the stresses";
  case TaskKind::trials:
    return "trial shots at a dummy";
  case TaskKind::throws:
    return "throws at the panels";
  case TaskKind::looks:
    return "looks and photos";
  case TaskKind::setups_after:
    return hail ? "set-ups after the shots" : "set-ups after the stresses";
  }
  fail_contract("unknown task");
}

/// "25 min", "3.4 h".
std::string duration(Time t) {
  constexpr double hour_s = 3600.0;
  if (t.si() < 1.5 * hour_s) return fixed(t.si() / 60.0, 0) + " min";
  return fixed(t.si() / hour_s, 1) + " h";
}

/// The series and panels in the order in which their places are left out, each once.
std::vector<std::string> dropped_first(const TestPlan& plan) {
  std::vector<std::string> order;
  std::optional<Drop> last;
  const std::vector<Drop> drops = drop_order(plan.protocol->series, plan.outlook.panels.size());
  for (const Drop& d : drops) {
    if (last && last->series == d.series && last->panel == d.panel) continue;
    order.push_back(fmt::format("{} on {}", plan.protocol->series[d.series].name,
                                plan.outlook.panels[d.panel].panel->name));
    last = d;
  }
  return order;
}

}  // namespace

void append_timetable(const TestPlan& plan, Document& out) {
  const Timetable& t = plan.outlook.timetable;
  Table table{fmt::format("The work in its order: {} on the day for {}{}", duration(t.day),
                          counted(t.people, "adult"),
                          t.nights > 0
                              ? fmt::format(", after {} of freezing", counted(t.nights, "night"))
                              : ""),
              {{"what"}, {"takes about", Align::right}, {"people", Align::right}},
              {}};
  for (const Task& task : t.tasks) {
    table.rows.push_back({task_text(task.kind, !plan.protocol->series.empty()),
                          duration(task.takes), std::to_string(task.people)});
  }
  out.blocks.push_back(std::move(table));
  const std::vector<std::string> first = dropped_first(plan);
  if (first.empty()) return;
  out.blocks.push_back(Paragraph{plain(fmt::format(
      "If light or ice runs out, leave out the last places of {}: that series is then not reached. "
      "Never leave out the looks{}.",
      fmt::join(first, ", then of "),
      plan.protocol->decide.judges_power ? ", nor the set-ups after the shots" : ""))});
}

}  // namespace hailwright
