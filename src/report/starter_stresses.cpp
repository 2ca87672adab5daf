// How stresses other than hail are written, not in use in the files to begin from: few tests have
// them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/model/safety_questions.hpp"
#include "hailwright/model/stress.hpp"
#include "report/starter_texts.hpp"

namespace hailwright::detail {

namespace {

using Items = std::vector<std::string>;

void add(Items& items, std::string_view key, std::string_view example) {
  items.push_back(fmt::format("{}: {}", key, example));
}

/// Between braces behind a key, as items of the list around it.
void add_block(Items& items, std::string_view key, Items block) {
  block.front().insert(0, fmt::format("{}: {{", key));
  block.back() += '}';
  items.insert(items.end(), block.begin(), block.end());
}

/// One entry of a list in braces, in as many lines as it takes; none breaks inside an item.
std::string entry(const Items& items) {
  constexpr std::size_t width = 96;
  std::string out;
  std::string line = "#  - {";
  for (std::size_t i = 0; i < items.size(); ++i) {
    const std::string item = items[i] + (i + 1 < items.size() ? "," : "}");
    if (line.size() + 1 + item.size() > width) {
      out += line + '\n';
      line = "#    ";
    }
    line += (line.back() == '{' ? "" : " ") + item;
  }
  return out + line + '\n';
}

/// What an example comes to, as a level has it; nothing for a word.
std::optional<double> amount_of(const StressKey& key) {
  if (!key.words.empty()) {
    const auto word = std::find(key.words.begin(), key.words.end(), key.example);
    return static_cast<double>(word - key.words.begin());
  }
  if (key.count) return read_count(key.example).value;
  const TextResult<Amount> amount = read_amount(key.example, key.measure);
  if (!amount.value) return std::nullopt;
  return amount.value->si;
}

/// The first level that the examples do not contradict.
const StressLevel* fitting_level(const StressKind& kind) {
  constexpr double rounding = 1e-9;
  for (const StressLevel& level : kind.levels) {
    const bool fits = std::all_of(kind.planned.begin(), kind.planned.end(), [&](const auto& key) {
      const auto set = level.values.find(key.key);
      const auto typed = amount_of(key);
      return set == level.values.end() ||
             (typed && std::abs(*typed - set->second) <= rounding * std::abs(set->second));
    });
    if (fits) return &level;
  }
  return nullptr;
}

Items planned(const StressKind& kind) {
  Items items;
  add(items, "kind", kind.word);
  add(items, "name", kind.word);
  if (const StressLevel* level = fitting_level(kind)) add(items, "level", level->name);
  for (const StressKey& key : kind.planned)
    add(items, key.key, key.example);
  const std::string quoted_question = fmt::format("\"{}\"", answer_to_come);
  Items answers;
  for (const StressQuestion& question : kind.questions)
    add(answers, question.asked.key, quoted_question);
  add_block(items, "safety", std::move(answers));
  return items;
}

Items done(const StressKind& kind) {
  Items items;
  add(items, "name", kind.word);
  add(items, "date", "2026-06-15");
  add(items, "after_hail", "yes");
  add(items, "note", "in the shed");
  Items amounts;
  for (const StressKey& key : kind.done)
    add(amounts, key.key, key.example);
  add_block(items, "done", std::move(amounts));
  return items;
}

}  // namespace

std::string stresses_start() {
  std::string out = R"(
# Stresses other than hail that a home can do, with or without series, launch, speed and ice.
# Levels and words stand in docs/protocol-format.md; a level gives some of the amounts beside it.
#stresses:
)";
  for (const StressKind& kind : stress_kinds())
    out += entry(planned(kind));
  return out;
}

std::string stresses_done_start() {
  std::string out = R"(
# What was done of stresses other than hail, where the protocol plans any.
# A pull has `mass` or `force`, a bend `drum` or `arc` and `angle`: delete the other way.
#stresses:
)";
  for (const StressKind& kind : stress_kinds())
    out += entry(done(kind));
  return out;
}

}  // namespace hailwright::detail
