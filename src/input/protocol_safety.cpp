#include "input/protocol_safety.hpp"

#include <fmt/format.h>

#include <array>

#include "core/quoted.hpp"
#include "hailwright/model/safety_questions.hpp"
#include "input/sides_text.hpp"

namespace hailwright::input {

namespace {

// Ranges [ours]: wide enough for anything meant, narrow enough to catch a slip in the unit.
constexpr Range length_range{0.0, 10000.0, "from 0 m to 10000 m"};
constexpr Range pressure_range{0.0, 3e7, "more than 0 bar, up to 300 bar", true};
constexpr Range volume_range{0.0, 1.0, "more than 0 l, up to 1000 l", true};
constexpr Range mass_range{0.0, 1000.0, "more than 0 kg, up to 1000 kg", true};
constexpr Range stated_voltage_range{0.0, 1500.0, "from 0 V to 1500 V"};
constexpr Range side_range{0.0, 100.0, "more than 0 m, up to 100 m", true};

Range range_of(Measure measure) {
  if (measure == Measure::pressure) return pressure_range;
  if (measure == Measure::volume) return volume_range;
  if (measure == Measure::mass) return mass_range;
  if (measure == Measure::voltage) return stated_voltage_range;
  return length_range;
}

/// "launcher under safety": how messages and the format page name a block.
std::string name_of(std::string_view block) {
  return fmt::format("{} under safety", block);
}

/// The lists with the texts that they point at.
struct KeyTexts {
  std::vector<std::string> names, keys;
  std::vector<KeyList> lists;
};

KeyTexts make_key_texts() {
  KeyTexts made;
  made.names.emplace_back("safety");
  made.keys.emplace_back();
  for (const std::string_view block : safety_blocks()) {
    made.keys.front() += std::string(made.keys.front().empty() ? "" : " ") + std::string(block);
    made.names.push_back(name_of(block));
    made.keys.emplace_back();
    for (const SafetyQuestion& question : safety_questions()) {
      if (question.block == block) made.keys.back() += std::string(question.key) + ' ';
    }
  }
  for (std::size_t i = 0; i < made.names.size(); ++i)
    made.lists.push_back({made.names[i], made.keys[i]});
  return made;
}

bool has_word(const Node& node, const SafetyQuestion& question, const std::string& what,
              Diagnostics& notes) {
  std::vector<std::string> words;
  if (question.form == AnswerForm::yes_no) {
    words = {"yes", "no"};
  } else {
    words.assign(question.words.begin(), question.words.end());
  }
  return read_word(node, what, words, notes).has_value();
}

bool has_sides(const Node& node, const std::string& what, Diagnostics& notes) {
  const auto sides = read_sides(node.text, 2, 2);
  if (sides.problem) {
    add_problem(node, *sides.problem, what, notes);
    return false;
  }
  for (const Length side : *sides.value) {
    if (side_range.holds(side.si())) continue;
    notes.error("R01", node.span,
                fmt::format("width and height of {} must be {}, found {}", what, side_range.words,
                            hailwright::detail::quoted(node.text)));
    return false;
  }
  return true;
}

bool has_date(const Node& node, const std::string& what, Diagnostics& notes) {
  if (is_iso_date(node.text)) return true;
  notes.error("R03", node.span,
              fmt::format("{} is not a date: {}", what, hailwright::detail::quoted(node.text)),
              {"write year, month and day as in 2026-06-14"});
  return false;
}

/// Whether a text has the form that the question asks for.
bool has_form(const Node& node, const SafetyQuestion& question, Diagnostics& notes) {
  const std::string what = fmt::format("'{}'", question.key);
  switch (question.form) {
  case AnswerForm::yes_no:
  case AnswerForm::word:
    return has_word(node, question, what, notes);
  case AnswerForm::amount:
    return read_amount_of(node, what, question.measure, range_of(question.measure), notes)
        .has_value();
  case AnswerForm::sides:
    return has_sides(node, what, notes);
  case AnswerForm::date:
    return has_date(node, what, notes);
  case AnswerForm::text:
    return true;
  }
  return false;
}

}  // namespace

std::optional<SafetyAnswer> read_safety_answer(const Entry& entry, const SafetyQuestion& question,
                                               Diagnostics& notes) {
  const auto text = read_text(entry.value, fmt::format("'{}'", question.key), notes);
  if (!text) return std::nullopt;
  if (*text == answer_to_come) {
    notes.error("S01", entry.value.span,
                fmt::format("'{}' is not answered yet: {}", question.key, question.asks),
                {fmt::format("in place of {} write {}, as in  {}: {}", answer_to_come,
                             possible_answers(question), question.key, question.example)});
    return std::nullopt;
  }
  if (!has_form(entry.value, question, notes)) return std::nullopt;
  return SafetyAnswer{*text, entry.value.span};
}

SafetyAnswers read_safety(const Entry& entry, Diagnostics& notes) {
  const std::vector<KeyList>& lists = safety_key_lists();
  const MapReader map(entry.value, lists.front(), entry.key_span, notes);
  SafetyAnswers answers;
  answers.origin = entry.key_span;
  for (std::size_t i = 0; i < safety_blocks().size(); ++i) {
    const std::string block(safety_blocks()[i]);
    const Entry* given = map.find(block);
    if (given == nullptr) continue;
    const MapReader reader(given->value, lists[i + 1], given->key_span, notes);
    for (const std::string& key : words_of(lists[i + 1].keys)) {
      const Entry* answer = reader.find(key);
      if (answer == nullptr || answer->value.kind == NodeKind::broken) continue;
      if (auto read = read_safety_answer(*answer, *find_safety_question(block, key), notes))
        answers.blocks[block][key] = *std::move(read);
    }
  }
  return answers;
}

const std::vector<KeyList>& safety_key_lists() {
  static const KeyTexts texts = make_key_texts();
  return texts.lists;
}

}  // namespace hailwright::input
