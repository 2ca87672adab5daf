#pragma once

#include <optional>
#include <string>

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/compose.hpp"
#include "hailwright/report/document.hpp"

namespace hailwright {

/// What a reader's own limit comes to in one stage.
struct ReaderAnswer {
  Ratio limit;
  LossAnswers answers;
};

/// Loss, watts, the two answers and what bears on them, for one stage. Lines of files are named
/// after `sources`.
void append_power_facts(Facts& facts, const PowerResult& power, const Test& test,
                        const SourceSet& sources,
                        const std::optional<ReaderAnswer>& reader = std::nullopt);

/// The same for all stages of a record, later ones last, with the reader's limit if there is one.
Facts power_facts(const Judged& judged, const SourceSet& sources);

/// "loss 0.7 % (95 % interval -0.8 % to 2.1 %)". Contract: an estimated result.
std::string loss_line(const PowerResult& power);

/// "about 0.6 W of 97.2 W (between -0.8 and 2.1 W), at 1000 W/m2 and 25 degC": the loss as a part
/// of the power before. Contract: an estimated result whose power before is known.
std::string watts_text(const PowerResult& power);

/// When a later stage was measured and what it does. Contract: a later stage that is dated.
std::string later_line(const PowerResult& power);

/// What was compared with what, and how far its units scatter. Contract: an estimated result.
std::string basis_line(const PowerResult& power);

/// What the power comparison could have shown.
void append_detection_facts(Facts& facts, const Assessment& assessment, const Test& test);

/// "41.6 degrees of freedom; the interval is 2.02 times the standard uncertainty each way."
std::string freedom_line(const PowerResult& power);

/// The uncertainty budgets, largest contribution first.
void append_budget(Document& out, const Assessment& assessment, const Test& test);

}  // namespace hailwright
