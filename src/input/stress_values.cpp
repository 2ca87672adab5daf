#include "input/stress_values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <string>

#include "hailwright/core/contract.hpp"

namespace hailwright::input {

namespace {

std::optional<StressValue> read_amount_value(const Entry& entry, const StressKey& key,
                                             const std::string& what, Diagnostics& notes) {
  const Range range{key.low, key.high, key.range};
  const auto amount = read_amount_of(entry.value, what, key.measure, range, notes);
  if (!amount) return std::nullopt;
  return StressValue{amount->si, amount->step_si, entry.value.text, entry.value.span};
}

std::optional<StressValue> read_count_value(const MapReader& map, const Entry& entry,
                                            const StressKey& key) {
  const auto number = map.count(key.key, static_cast<int>(key.low), static_cast<int>(key.high));
  if (!number) return std::nullopt;
  return StressValue{static_cast<double>(*number), 0.0, entry.value.text, entry.value.span};
}

std::optional<StressValue> read_word_value(const Entry& entry, const StressKey& key,
                                           const std::string& what, Diagnostics& notes) {
  const auto index = read_word(entry.value, what, {key.words.begin(), key.words.end()}, notes);
  if (!index) return std::nullopt;
  return StressValue{static_cast<double>(*index), 0.0, entry.value.text, entry.value.span};
}

std::optional<StressValue> read_value(const MapReader& map, const Entry& entry,
                                      const StressKey& key) {
  const std::string what = fmt::format("'{}'", key.key);
  if (!key.words.empty()) return read_word_value(entry, key, what, map.notes());
  if (key.count) return read_count_value(map, entry, key);
  return read_amount_value(entry, key, what, map.notes());
}

std::string joined_keys(std::string text, const std::vector<StressKey>& keys) {
  for (const StressKey& key : keys)
    text += (text.empty() ? "" : " ") + std::string(key.key);
  return text;
}

std::string joined_questions(const StressKind& kind) {
  std::string text;
  for (const StressQuestion& question : kind.questions)
    text += (text.empty() ? "" : " ") + std::string(question.asked.key);
  return text;
}

/// The lists with the texts that they point at, which never move.
class ListMaker {
public:
  StressKeyLists lists_of(const StressKind& kind) {
    const std::string word(kind.word);
    return {&kind,
            {kind.word, keep(joined_keys("kind name level", kind.planned) + " safety")},
            {keep("safety of " + word), keep(joined_questions(kind))},
            {keep("done of " + word), keep(joined_keys("", kind.done))}};
  }

private:
  std::string_view keep(std::string text) { return texts_.emplace_back(std::move(text)); }

  std::deque<std::string> texts_;
};

}  // namespace

std::string example_of(const StressKey& key) {
  return fmt::format("{}: {}", key.key, key.example);
}

StressValues read_stress_values(const MapReader& map, const std::vector<StressKey>& keys,
                                const StressValues& held) {
  StressValues values;
  for (const StressKey& key : keys) {
    const std::string name(key.key);
    const Entry* entry = map.find(key.key);
    if (entry == nullptr) {
      if (key.required && !held.contains(name) && map.usable())
        map.require(key.key, "write it as in  " + example_of(key));
      continue;
    }
    if (auto value = read_value(map, *entry, key)) values.emplace(name, *std::move(value));
  }
  return values;
}

const std::vector<StressKeyLists>& stress_key_lists() {
  static ListMaker maker;
  static const std::vector<StressKeyLists> all = [] {
    std::vector<StressKeyLists> lists;
    for (const StressKind& kind : stress_kinds())
      lists.push_back(maker.lists_of(kind));
    return lists;
  }();
  return all;
}

const StressKeyLists& stress_key_lists(const StressKind& kind) {
  const auto& all = stress_key_lists();
  const auto found = std::find_if(all.begin(), all.end(),
                                  [&](const StressKeyLists& lists) { return lists.kind == &kind; });
  expects(found != all.end(), "a kind of stress that is not registered");
  return *found;
}

}  // namespace hailwright::input
