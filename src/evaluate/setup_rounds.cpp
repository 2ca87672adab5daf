#include "evaluate/setup_rounds.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

bool counts(const Test& test, const PowerQuestion& question, const Reading& r) {
  const auto index = static_cast<std::size_t>(&r - test.record.readings.data());
  const auto& out = question.leave_out;
  return r.measured && (question.keep_skipped || r.skip.empty()) &&
         std::find(out.begin(), out.end(), index) == out.end();
}

}  // namespace

PanelOf panel_of(const Reading& reading) {
  return {reading.role, reading.role == Role::sibling ? reading.unit : 0};
}

std::string panel_name(const Record& record, PanelOf panel) {
  switch (panel.role) {
  case Role::struck:
    return "struck";
  case Role::control:
    return "control";
  case Role::sibling:
    break;
  }
  const std::string& label = record.siblings.at(panel.unit).label;
  // A sibling that somebody labels like that is still another panel.
  return label == "struck" || label == "control" ? "sibling " + label : label;
}

std::vector<PanelOf> panels_read(const Test& test, const PowerQuestion& question,
                                 std::size_t setup) {
  std::set<PanelOf> panels;
  for (const Reading& r : test.record.readings) {
    if (r.setup == setup && counts(test, question, r)) panels.insert(panel_of(r));
  }
  return {panels.begin(), panels.end()};
}

std::vector<Round> complete_rounds(const Test& test, const PowerQuestion& question,
                                   std::size_t setup, const std::vector<PanelOf>& panels) {
  std::map<int, Round> rounds;
  std::vector<int> last(panels.size(), 0);
  for (const Reading& r : test.record.readings) {
    if (r.setup != setup) continue;
    const auto panel = std::find(panels.begin(), panels.end(), panel_of(r));
    if (panel == panels.end()) continue;
    const auto place = static_cast<std::size_t>(panel - panels.begin());
    const int number = r.round ? *r.round : ++last[place];
    Round& round = rounds.try_emplace(number, panels.size(), nullptr).first->second;
    expects(round[place] == nullptr,
            "one reading of a panel in a round; the table reader checks it");
    round[place] = &r;
  }
  std::vector<Round> complete;
  for (auto& [number, round] : rounds) {
    const bool whole = std::all_of(round.begin(), round.end(), [&](const Reading* r) {
      return r != nullptr && counts(test, question, *r);
    });
    if (whole) complete.push_back(std::move(round));
  }
  return complete;
}

}  // namespace hailwright
