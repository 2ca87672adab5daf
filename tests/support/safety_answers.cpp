#include "support/safety_answers.hpp"

#include "hailwright/model/safety_questions.hpp"

namespace safety_answers {

using namespace hailwright;

SafetyAnswers all(Launcher launcher) {
  SafetyAnswers answers;
  answers.origin = {1, 1, 1, 6};
  for (const SafetyQuestion& q : safety_questions())
    answers.blocks[std::string(q.block)][std::string(q.key)] = {std::string(q.example),
                                                                {1, 1, 10, 1}};
  set(answers, "agreed", "on", day);
  if (launcher == Launcher::compressed_air)
    set(answers, "launcher", "pressure_part", "approved vessel with relief valve");
  return answers;
}

void set(SafetyAnswers& answers, std::string_view block, std::string_view key,
         std::string_view text) {
  answers.blocks[std::string(block)][std::string(key)] = {std::string(text), {1, 2, 10, 1}};
}

void remove(SafetyAnswers& answers, std::string_view block, std::string_view key) {
  const auto found = answers.blocks.find(std::string(block));
  if (found == answers.blocks.end()) return;
  found->second.erase(std::string(key));
  if (found->second.empty()) answers.blocks.erase(found);
}

std::string yaml(const SafetyAnswers& answers) {
  std::string text = "safety:\n";
  for (const auto& [block, keys] : answers.blocks) {
    text += "  " + block + ":\n";
    for (const auto& [key, answer] : keys)
      text += "    " + key + ": " + answer.text + "\n";
  }
  return text;
}

}  // namespace safety_answers
