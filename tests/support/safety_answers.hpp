#pragma once

#include <string>
#include <string_view>

#include "hailwright/model/protocol.hpp"

/// Answers to the safety questions, made by code.
namespace safety_answers {

inline constexpr const char* day = "2026-06-10";  ///< of `agreed`

/// The example of every question, asked or not: enough for every launcher. Line 1 of file 1.
hailwright::SafetyAnswers all(hailwright::Launcher launcher);
/// Puts another answer, on line 2.
void set(hailwright::SafetyAnswers& answers, std::string_view block, std::string_view key,
         std::string_view text);
void remove(hailwright::SafetyAnswers& answers, std::string_view block, std::string_view key);
/// The blocks as they stand under `safety:` in a protocol.
std::string yaml(const hailwright::SafetyAnswers& answers);

}  // namespace safety_answers
