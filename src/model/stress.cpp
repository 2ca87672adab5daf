#include "hailwright/model/stress.hpp"

#include <algorithm>

#include "model/stresses/kinds.hpp"

namespace hailwright {

std::span<const StressKind> stress_kinds() {
  static const std::vector<StressKind> kinds{
      stresses::static_load(),
      stresses::bending(),
      stresses::cable_pull(),
      stresses::spray(),
  };
  return kinds;
}

const StressKind* find_stress_kind(std::string_view word) {
  for (const StressKind& kind : stress_kinds()) {
    if (kind.word == word) return &kind;
  }
  return nullptr;
}

std::string stress_kind_words() {
  std::string words;
  for (const StressKind& kind : stress_kinds()) {
    if (!words.empty()) words += "; ";
    words += kind.word;
  }
  return words;
}

const StressLevel* find_stress_level(const StressKind& kind, std::string_view name) {
  const auto found = std::find_if(kind.levels.begin(), kind.levels.end(),
                                  [&](const StressLevel& level) { return level.name == name; });
  return found == kind.levels.end() ? nullptr : &*found;
}

const StressQuestion* find_stress_question(const StressKind& kind, std::string_view key) {
  const auto found = std::find_if(kind.questions.begin(), kind.questions.end(),
                                  [&](const StressQuestion& q) { return q.asked.key == key; });
  return found == kind.questions.end() ? nullptr : &*found;
}

std::span<const Citation> stress_sources() {
  static const std::vector<Citation> sources = [] {
    std::vector<Citation> joined;
    for (const StressKind& kind : stress_kinds())
      joined.insert(joined.end(), kind.sources.begin(), kind.sources.end());
    return joined;
  }();
  return sources;
}

}  // namespace hailwright
