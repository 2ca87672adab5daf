#include "input/protocol_stresses.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/quoted.hpp"
#include "input/protocol_safety.hpp"
#include "input/protocol_series.hpp"
#include "input/stress_values.hpp"

namespace hailwright::input {

namespace {

std::vector<std::string> kind_words() {
  std::vector<std::string> words;
  for (const StressKind& kind : stress_kinds())
    words.emplace_back(kind.word);
  return words;
}

/// The kind decides which other keys there are, so it is looked up first.
const StressKind* read_kind(const Node& node, Diagnostics& notes) {
  const std::vector<std::string> words = kind_words();
  const std::string hint = fmt::format("write the kind, as in  kind: {}", words.front());
  if (node.kind == NodeKind::broken) return nullptr;
  if (node.kind != NodeKind::map) {
    notes.error("K05", node.span,
                fmt::format("a stress is {}, found {}", name(NodeKind::map), name(node.kind)),
                {hint});
    return nullptr;
  }
  const auto entry = std::find_if(node.entries.begin(), node.entries.end(),
                                  [](const Entry& e) { return e.key == "kind"; });
  if (entry == node.entries.end()) {
    notes.error("K02", node.span, "'kind' is missing in this stress",
                {fmt::format("write it as in  kind: {}; known are {}", words.front(),
                             fmt::format("{}", fmt::join(words, ", ")))});
    return nullptr;
  }
  const auto index = read_word(entry->value, "'kind'", words, notes);
  return index ? &stress_kinds()[*index] : nullptr;
}

/// As a protocol writes what the level gives.
StressValues values_of(const StressLevel& level, SourceSpan origin) {
  StressValues values;
  for (const auto& [key, si] : level.values)
    values.emplace(std::string(key), StressValue{si, 0.0, std::string(level.name), origin});
  return values;
}

class StressReader {
public:
  StressReader(const std::vector<SeriesPlan>& series, Diagnostics& notes) : notes_(notes) {
    for (const SeriesPlan& plan : series)
      names_.emplace_back(plan.name, plan.origin);
  }

  void read(const Node& node, std::vector<StressPlan>& into) {
    const StressKind* kind = read_kind(node, notes_);
    if (kind == nullptr) return;
    const StressKeyLists& lists = stress_key_lists(*kind);
    const MapReader map(node, lists.planned, node.span, notes_);
    StressPlan plan;
    plan.origin = map.at("kind");
    plan.kind = kind;
    read_name(map, plan);
    read_level(map, plan);
    read_values(map, plan);
    if (const Entry* safety = map.find("safety")) plan.safety = read_answers(*safety, lists);
    into.push_back(std::move(plan));
  }

private:
  void read_name(const MapReader& map, StressPlan& plan) {
    const Entry* entry = map.find("name");
    plan.name = entry == nullptr ? std::string(plan.kind->word) : map.text("name");
    if (plan.name.empty()) return;
    const SourceSpan where = entry == nullptr ? plan.origin : entry->value.span;
    plan.origin = where;
    check_stage_name(plan.name, where, "stress", notes_);
    const auto same = std::find_if(names_.begin(), names_.end(),
                                   [&](const auto& other) { return other.first == plan.name; });
    if (same != names_.end()) {
      notes_
          .error("C05", where,
                 fmt::format("a second series or stress is called {}",
                             hailwright::detail::quoted(plan.name)),
                 {"give it a name of its own, as in  name: sandbags"})
          .related.push_back({same->second, "the first one"});
    }
    names_.emplace_back(plan.name, where);
  }

  void read_level(const MapReader& map, StressPlan& plan) {
    const Entry* entry = map.find("level");
    if (entry == nullptr) return;
    const auto text = read_text(entry->value, "'level'", notes_);
    if (!text) return;
    std::vector<std::string> names;
    for (const StressLevel& level : plan.kind->levels) {
      if (level.name == *text) plan.level = &level;
      names.emplace_back(level.name);
    }
    if (plan.level == nullptr) {
      report_unknown("K19", entry->value.span,
                     fmt::format("no published level of {} is called {}", plan.kind->word,
                                 hailwright::detail::quoted(*text)),
                     *text, names, notes_);
      return;
    }
    plan.values = values_of(*plan.level, entry->value.span);
  }

  /// A level that could not be read would raise false complaints about what it gives.
  void read_values(const MapReader& map, StressPlan& plan) {
    StressValues held = plan.values;
    if (map.find("level") != nullptr && plan.level == nullptr) {
      for (const StressKey& key : plan.kind->planned)
        held.emplace(std::string(key.key), StressValue{});
    }
    for (auto& [key, value] : read_stress_values(map, plan.kind->planned, held)) {
      const auto given = plan.values.find(key);
      if (given != plan.values.end()) {
        check_against_level(key, value, given->second, plan);
        continue;
      }
      plan.values.emplace(key, value);
    }
  }

  /// Another amount than the level's would bear the name of the level.
  void check_against_level(const std::string& key, const StressValue& typed,
                           const StressValue& given, const StressPlan& plan) {
    constexpr double rounding = 1e-9;
    if (std::abs(typed.si - given.si) <= rounding * std::abs(given.si)) return;
    notes_
        .error("C47", typed.origin,
               fmt::format("'{}' is another one than that of {}", key, plan.level->name),
               {fmt::format("delete '{}', or delete 'level' and give all keys yourself", key)})
        .related.push_back({given.origin, "the level is named here"});
  }

  std::map<std::string, SafetyAnswer> read_answers(const Entry& entry,
                                                   const StressKeyLists& lists) {
    const MapReader map(entry.value, lists.safety, entry.key_span, notes_);
    std::map<std::string, SafetyAnswer> answers;
    for (const StressQuestion& question : lists.kind->questions) {
      const Entry* answer = map.find(question.asked.key);
      if (answer == nullptr || answer->value.kind == NodeKind::broken) continue;
      if (auto read = read_safety_answer(*answer, question.asked, notes_))
        answers.emplace(std::string(question.asked.key), *std::move(read));
    }
    return answers;
  }

  Diagnostics& notes_;
  std::vector<std::pair<std::string, SourceSpan>> names_;
};

}  // namespace

std::vector<StressPlan> read_stresses(const MapReader& map, const std::vector<SeriesPlan>& series,
                                      Diagnostics& notes) {
  std::vector<StressPlan> plans;
  const std::vector<Node>* items = map.list("stresses");
  if (items == nullptr) return plans;
  if (items->empty()) {
    notes.error("K14", map.at("stresses"), "'stresses' is an empty list",
                {"name at least one stress, or delete the key"});
  }
  StressReader reader(series, notes);
  for (const Node& item : *items)
    reader.read(item, plans);
  return plans;
}

std::vector<KeyList> stress_plan_keys() {
  std::vector<KeyList> lists;
  for (const StressKeyLists& kind : stress_key_lists()) {
    lists.push_back(kind.planned);
    lists.push_back(kind.safety);
  }
  return lists;
}

}  // namespace hailwright::input
