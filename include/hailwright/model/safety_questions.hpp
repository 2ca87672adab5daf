#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/core/source.hpp"

namespace hailwright {

/// One answer of the safety blocks as it was written.
struct SafetyAnswer {
  std::string text;
  SourceSpan origin;
};

/// What form an answer has.
enum class AnswerForm {
  yes_no,
  word,    ///< one of a closed list
  amount,  ///< a quantity of `measure`
  sides,   ///< width x height, two lengths
  date,    ///< ISO 8601
  text
};

/// One question of the safety blocks of a protocol. The words of a list are all answers that a
/// person may have to give, the bad ones too: what is enough is for the safety gate to say.
struct SafetyQuestion {
  std::string_view block;  ///< launcher, people, ground, eyes, panel, ice, after, agreed
  std::string_view key;
  AnswerForm form = AnswerForm::yes_no;
  std::string_view asks;                     ///< what is asked, in a line
  std::string_view example;                  ///< as it is written: "cord from the side"
  std::vector<std::string_view> words = {};  ///< of a `word`
  Measure measure = Measure::length;         ///< of an `amount`
};

/// All questions, block after block in the order of the format page.
std::span<const SafetyQuestion> safety_questions();
/// The question of this block and key; nullptr when there is none.
const SafetyQuestion* find_safety_question(std::string_view block, std::string_view key);
/// The blocks in their order.
std::span<const std::string_view> safety_blocks();

/// What may be answered, in words: "yes or no", "dry gloves; tongs; bare hands", "a length".
std::string possible_answers(const SafetyQuestion& question);

/// Stands in a printed list of open questions where the answer belongs. It is no answer: the
/// reader refuses it.
inline constexpr std::string_view answer_to_come = "???";

}  // namespace hailwright
