#include "hailwright/evaluate/reader_limit.hpp"

#include "hailwright/core/contract.hpp"

namespace hailwright {

namespace {

LossAnswers answers_about(const PowerResult& power, Ratio limit) {
  if (!power.usable()) return {};
  const LossAnswers deciding = decide_loss(power.estimate, limit);
  if (!power.check) return deciding;
  return agreed(deciding, decide_loss(power.check->low, power.check->high, limit));
}

std::vector<LossAnswers> all_answers(const std::vector<PowerResult>& powers, Ratio limit) {
  std::vector<LossAnswers> answers;
  answers.reserve(powers.size());
  for (const PowerResult& power : powers)
    answers.push_back(answers_about(power, limit));
  return answers;
}

}  // namespace

ReaderLimit answer_reader_limit(const Assessment& assessment, Ratio limit) {
  expects(limit.si() > 0.0 && limit.si() < 1.0, "a limit between 0 and 1");
  return {limit, all_answers(assessment.power, limit), all_answers(assessment.later_power, limit)};
}

}  // namespace hailwright
