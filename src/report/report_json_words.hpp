#pragma once

#include <string_view>

#include "hailwright/evaluate/assessment.hpp"

// The words of the report for machines. A word that a file of the user has is spelled as there;
// the others have no blanks. Each list stands in docs/schemas/report.schema.json with what its
// words mean, and a test holds the two together.

namespace hailwright::json {

std::string_view word(DamageBy value);
std::string_view word(Reason value);
std::string_view word(StrengthDoubt value);
std::string_view word(Landing value);
std::string_view word(StageKind value);
std::string_view word(Role value);
std::string_view word(Answer value);
std::string_view word(PowerObstacle value);
std::string_view word(PowerRemark value);
std::string_view word(RemarkWeight value);
std::string_view word(Comparison value);
std::string_view word(MaximumPower value);
std::string_view word(Redone value);
std::string_view word(Launcher value);
std::string_view word(SpeedSource value);
std::string_view word(SpeedWay value);
std::string_view word(SensorPlace value);
std::string_view word(Build value);
std::string_view word(Gravity value);
std::string_view word(Scope value);
std::string_view word(Evaluation value);
std::string_view word(Shape value);
std::string_view word(DefaultId value);

}  // namespace hailwright::json
