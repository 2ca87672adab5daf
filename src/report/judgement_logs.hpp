#pragma once

#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/document.hpp"
#include "report/audience.hpp"

namespace hailwright {

/// What the loggers' files of a record came to: readings by log, sessions with their numbers, what
/// was assumed for those. Nothing where the record has no log.
Facts log_facts(const Test& test, const Assessment& assessment, Audience audience);

}  // namespace hailwright
