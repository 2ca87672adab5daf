#include "support/stress_examples.hpp"

#include <algorithm>
#include <stdexcept>

namespace hailwright::testing {

namespace {

StressValues values_of(const std::vector<StressKey>& keys, const std::vector<TypedStress>& typed) {
  StressValues values;
  for (const TypedStress& one : typed) {
    const auto key = std::find_if(keys.begin(), keys.end(),
                                  [&](const StressKey& k) { return k.key == one.key; });
    if (key == keys.end()) throw std::invalid_argument("no key " + one.key);
    values[one.key] = stress_value(*key, one.text);
  }
  return values;
}

}  // namespace

StressValue stress_value(const StressKey& key, const std::string& text) {
  StressValue value;
  value.text = text;
  if (!key.words.empty()) {
    const auto word = std::find(key.words.begin(), key.words.end(), text);
    if (word == key.words.end()) throw std::invalid_argument("no word " + text);
    value.si = static_cast<double>(word - key.words.begin());
    return value;
  }
  if (key.count) {
    value.si = read_count(text).value.value();
    value.step_si = 1.0;
  } else {
    const Amount amount = read_amount(text, key.measure).value.value();
    value.si = amount.si;
    value.step_si = amount.step_si;
  }
  if (value.si < key.low || value.si > key.high) throw std::out_of_range(text);
  return value;
}

StressValues planned_values(const StressKind& kind, const std::vector<TypedStress>& typed) {
  return values_of(kind.planned, typed);
}

StressValues done_values(const StressKind& kind, const std::vector<TypedStress>& typed) {
  return values_of(kind.done, typed);
}

StressValues examples_of(const std::vector<StressKey>& keys) {
  StressValues values;
  for (const StressKey& key : keys)
    values[std::string(key.key)] = stress_value(key, std::string(key.example));
  return values;
}

Panel glass_panel() {
  Panel panel;
  panel.name = "Rigid A";
  panel.build = Build::framed_glass;
  panel.open_voltage = Voltage::from_si(22.0);
  panel.size = Outline{Length::from_si(1.0), Length::from_si(0.5), std::nullopt};
  return panel;
}

Panel flexible_panel() {
  Panel panel;
  panel.name = "Flex B";
  panel.build = Build::flexible;
  panel.open_voltage = Voltage::from_si(22.0);
  panel.size = Outline{Length::from_si(1.1), Length::from_si(0.5), std::nullopt};
  panel.smallest_radius = Length::from_si(0.25);
  return panel;
}

Panel panel_for(const StressKind& kind, const StressValues& planned) {
  const Panel glass = glass_panel();
  return !kind.unsuited || !kind.unsuited(planned, glass) ? glass : flexible_panel();
}

std::map<std::string, SafetyAnswer> good_answers(const StressKind& kind) {
  std::map<std::string, SafetyAnswer> answers;
  for (const StressQuestion& question : kind.questions)
    answers[std::string(question.asked.key)] = {std::string(question.asked.example), {}};
  return answers;
}

StressPlan planned_by_examples(const StressKind& kind) {
  StressPlan plan;
  plan.name = std::string(kind.word);
  plan.kind = &kind;
  plan.values = examples_of(kind.planned);
  plan.safety = good_answers(kind);
  return plan;
}

}  // namespace hailwright::testing
