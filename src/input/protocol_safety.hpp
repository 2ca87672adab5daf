#pragma once

#include <optional>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/model/protocol.hpp"
#include "input/map_reader.hpp"

namespace hailwright::input {

/// Reads the safety blocks: whether each answer has the form of its question. Whether it is enough
/// is not the reader's business. An answer of the wrong form is reported and left out. S01: an
/// answer that is still to come.
SafetyAnswers read_safety(const Entry& entry, Diagnostics& notes);

/// One answer, by the form of its question.
std::optional<SafetyAnswer> read_safety_answer(const Entry& entry, const SafetyQuestion& question,
                                               Diagnostics& notes);

/// The blocks, and each block with its keys, for the format page. They are made from
/// `safety_questions()`.
const std::vector<KeyList>& safety_key_lists();

}  // namespace hailwright::input
