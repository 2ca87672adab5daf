#include "report/judged_stages.hpp"

#include <algorithm>

namespace hailwright {

std::vector<const PowerResult*> all_stages(const Assessment& assessment) {
  std::vector<const PowerResult*> stages;
  for (const auto* results : {&assessment.power, &assessment.later_power}) {
    for (const PowerResult& p : *results)
      stages.push_back(&p);
  }
  for (const PowerResult& p : assessment.stress_power) {
    const bool told = std::any_of(stages.begin(), stages.end(),
                                  [&](const PowerResult* s) { return s->stage == p.stage; });
    if (!told) stages.push_back(&p);
  }
  return stages;
}

const PowerResult* first_estimated(const Assessment& assessment) {
  for (const PowerResult* p : all_stages(assessment)) {
    if (p->estimated()) return p;
  }
  return nullptr;
}

std::vector<JudgedStage> judged_stages(const Judged& judged) {
  std::vector<JudgedStage> stages;
  for (const PowerResult* p : all_stages(*judged.assessment))
    stages.push_back({p, nullptr});
  if (judged.reader_limit == nullptr) return stages;
  std::size_t i = 0;
  for (const auto* answers : {&judged.reader_limit->power, &judged.reader_limit->later_power}) {
    for (const LossAnswers& answer : *answers)
      stages.at(i++).reader = &answer;
  }
  return stages;
}

}  // namespace hailwright
