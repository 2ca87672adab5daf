#include <algorithm>
#include <cmath>

#include "hailwright/report/compose_threshold.hpp"

namespace hailwright {

namespace {

/// Standard uncertainty of an energy that nobody stated, for the cautions alone [ours].
constexpr double unstated_u = 0.1;

CautionFacts facts_of(const ThresholdAnswer& answer) {
  CautionFacts facts;
  facts.launches = true;
  if (answer.threshold.highest) {
    const double u = answer.threshold.doubt ? answer.threshold.doubt->largest_u : unstated_u;
    facts.energy = *answer.threshold.highest * std::exp(2.0 * u);
  }
  if (answer.plan != nullptr) facts.launcher = answer.plan->protocol->launch.kind;
  facts.panel_present = true;
  facts.high_voltage_test = false;  // the format has no way to record one
  facts.broken = answer.threshold.damaged > 0;
  facts.published = true;
  return facts;
}

/// Those of the tests and those of the plan, in the order of urgency.
std::vector<const Caution*> cautions_of(const ThresholdAnswer& answer) {
  std::vector<const Caution*> wanted = cautions_for(facts_of(answer));
  if (answer.plan != nullptr) {
    const auto& hazards = answer.plan->outlook.hazards;
    wanted.insert(wanted.end(), hazards.begin(), hazards.end());
  }
  std::vector<const Caution*> ordered;
  for (const Caution& caution : all_cautions()) {
    if (std::find(wanted.begin(), wanted.end(), &caution) != wanted.end())
      ordered.push_back(&caution);
  }
  return ordered;
}

}  // namespace

ThresholdAnswer answer_threshold(const Specimens& specimens, const TestPlan* plan) {
  ThresholdAnswer answer;
  answer.specimens = &specimens;
  answer.threshold = judge_threshold(specimens);
  answer.plan = plan;
  if (plan != nullptr) answer.next = ask_for_next_specimen(*plan, answer.threshold);
  answer.cautions = cautions_of(answer);
  return answer;
}

}  // namespace hailwright
