#pragma once

#include <string>

#include "hailwright/evaluate/power.hpp"

namespace hailwright {

/// Why there is no comparison of power, with the mend.
std::string obstacle_sentence(PowerObstacle obstacle, const std::string& subject);

/// What speaks for or against a comparison of power.
std::string note_sentence(const PowerNote& note);

/// The two questions about the power and their answers.
std::string real_answer(const PowerResult& power);
std::string beyond_answer(const PowerResult& power);

}  // namespace hailwright
