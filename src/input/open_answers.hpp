#pragma once

#include "hailwright/core/diagnostic.hpp"
#include "input/document.hpp"

namespace hailwright::input {

/// Reports every value that is still `answer_to_come` (hailwright/model/safety_questions.hpp), as
/// the files of `hailwright start` have it where only a person can answer, and marks it broken: the
/// readers pass over it and find what else is wrong. The safety answers of a protocol are left to
/// their own reader, which knows what each question asks.
void report_open_answers(Document& document, Diagnostics& notes);

}  // namespace hailwright::input
