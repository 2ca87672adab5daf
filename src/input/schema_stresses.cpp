#include <algorithm>
#include <deque>
#include <string>
#include <utility>

#include "input/record_stresses.hpp"
#include "input/schema_mappings.hpp"
#include "input/schema_values.hpp"
#include "input/stress_values.hpp"

namespace hailwright::input {

namespace {

using enum Need;

SchemaNode value_of(const StressKey& key) {
  if (!key.words.empty()) return value::words({key.words.begin(), key.words.end()});
  if (key.count) return value::count(static_cast<int>(key.low), static_cast<int>(key.high));
  return value::amount(key.measure, key.example);
}

SchemaNode answer_of(const SafetyQuestion& question) {
  switch (question.form) {
  case AnswerForm::yes_no:
    return value::yes_no();
  case AnswerForm::word:
    return value::words({question.words.begin(), question.words.end()});
  case AnswerForm::amount:
    return value::amount(question.measure, question.example);
  case AnswerForm::date:
    return value::date();
  case AnswerForm::sides:
  case AnswerForm::text:
    break;
  }
  return value::text();
}

/// Texts that rows point at.
std::string_view keep(std::string text) {
  static std::deque<std::string> texts;
  return texts.emplace_back(std::move(text));
}

/// "which face is loaded: `front`, `back` or `both in turn`".
std::string_view with_words(std::string_view asks, const std::vector<std::string_view>& words) {
  if (words.empty()) return asks;
  std::string text(asks);
  for (std::size_t i = 0; i < words.size(); ++i) {
    text += i == 0 ? ": " : i + 1 == words.size() ? " or " : ", ";
    text += '`' + std::string(words[i]) + '`';
  }
  return keep(std::move(text));
}

std::vector<std::string> level_names(const StressKind& kind) {
  std::vector<std::string> names;
  for (const StressLevel& level : kind.levels)
    names.emplace_back(level.name);
  return names;
}

SchemaNode level_of(const StressKind& kind) {
  const std::vector<std::string> names = level_names(kind);
  return names.empty() ? SchemaNode::object({{"not", SchemaNode::object()}}) : value::words(names);
}

bool some_level_gives(const StressKind& kind, const StressKey& key) {
  return std::any_of(kind.levels.begin(), kind.levels.end(),
                     [&](const StressLevel& level) { return level.values.contains(key.key); });
}

/// The level, or what it would give.
SchemaNode level_or_amounts(const StressKind& kind) {
  std::vector<std::string> needed;
  for (const StressKey& key : kind.planned) {
    if (key.required && some_level_gives(kind, key)) needed.emplace_back(key.key);
  }
  if (needed.empty()) return SchemaNode::object();
  const SchemaNode by_level = SchemaNode::object({{"required", SchemaNode::texts({"level"})}});
  const SchemaNode by_keys = SchemaNode::object({{"required", SchemaNode::texts(needed)}});
  return SchemaNode::object({{"anyOf", SchemaNode::list({by_level, by_keys})}});
}

Mapping planned_mapping(const StressKeyLists& lists) {
  const StressKind& kind = *lists.kind;
  Mapping mapping{std::string(kind.word), lists.planned, {}, level_or_amounts(kind)};
  mapping.rows = {
      {"kind", SchemaNode::object({{"const", kind.word}}), required,
       "The kind of stress: its word is the heading above"},
      {"name", value::text(), optional, "As set-ups and looks after it call it", "", "its kind"},
      {"level", level_of(kind), optional,
       "A published level: it gives the amounts. Else all that are needed are given"}};
  for (const StressKey& key : kind.planned) {
    const bool always = key.required && !some_level_gives(kind, key);
    mapping.rows.push_back({key.key, value_of(key), always ? required : optional,
                            with_words(key.asks, key.words), key.range});
  }
  mapping.rows.push_back({"safety", value::defined(lists.safety.where), optional,
                          "Answers that `plan` asks for, see the table below"});
  return mapping;
}

Mapping safety_mapping(const StressKeyLists& lists) {
  Mapping mapping{std::string(lists.safety.where), lists.safety, {}};
  for (const StressQuestion& question : lists.kind->questions)
    mapping.rows.push_back({question.asked.key, answer_of(question.asked), optional,
                            with_words(question.asked.asks, question.asked.words)});
  return mapping;
}

Mapping done_mapping(const StressKeyLists& lists) {
  Mapping mapping{std::string(lists.done.where), lists.done, {}};
  for (const StressKey& key : lists.kind->done)
    mapping.rows.push_back({key.key, value_of(key), key.required ? required : optional,
                            with_words(key.asks, key.words), key.range});
  return mapping;
}

/// What was done goes by the kind, which the protocol says.
SchemaNode done_of_any_kind() {
  std::vector<SchemaNode> ways;
  for (const StressKeyLists& lists : stress_key_lists())
    ways.push_back(value::defined(lists.done.where));
  return SchemaNode::object({{"anyOf", SchemaNode::list(std::move(ways))}});
}

std::vector<Mapping> make_stress_mappings() {
  std::vector<Mapping> all;
  for (const StressKeyLists& lists : stress_key_lists()) {
    all.push_back(planned_mapping(lists));
    all.push_back(safety_mapping(lists));
  }
  return all;
}

std::vector<Mapping> make_stress_done_mappings() {
  std::vector<Mapping> all{
      {"stress",
       stress_done_keys,
       {{"name", value::text(), required, "The name that the protocol gives it"},
        {"done", done_of_any_kind(), required, "What was done, by the keys of its kind below"},
        {"date", value::date(), optional, "The day of it", "", "the record's day"},
        {"after_hail", value::yes_no(), optional, "Whether it came after the shots of this record",
         "", "`no`"},
        {"note", value::text(), optional, "What else is to be said of it"}}}};
  for (const StressKeyLists& lists : stress_key_lists())
    all.push_back(done_mapping(lists));
  return all;
}

}  // namespace

std::vector<Mapping> stress_mappings() {
  static const std::vector<Mapping> all = make_stress_mappings();
  return all;
}

std::vector<Mapping> stress_done_mappings() {
  static const std::vector<Mapping> all = make_stress_done_mappings();
  return all;
}

SchemaNode planned_stress_of_any_kind() {
  std::vector<SchemaNode> ways;
  for (const StressKeyLists& lists : stress_key_lists())
    ways.push_back(value::defined(lists.kind->word));
  return value::either(std::move(ways));
}

}  // namespace hailwright::input
