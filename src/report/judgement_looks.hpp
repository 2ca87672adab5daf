#pragma once

#include <string>
#include <vector>

#include "hailwright/evaluate/assessment.hpp"

namespace hailwright {

/// Every look with what was seen and whether that is new and major, a line each; that nobody
/// looked where there is none.
std::vector<std::string> look_lines(const Test& test, const Assessment& assessment);

/// One of those lines.
std::string look_line(const Test& test, const Assessment& assessment, std::size_t look);

/// "before the shots", "after throw 7 (small)", "after small".
std::string look_moment(const Look& look, const Test& test);

/// "2026-07-01, 17 days after the shots"; empty for a look on the day of the shots.
std::string look_day(const Look& look, const Record& record);

/// "scuff (place 14; new, not a major defect)".
std::string finding_text(const Finding& finding, std::size_t look, const Record& record,
                         const Assessment& assessment);

}  // namespace hailwright
