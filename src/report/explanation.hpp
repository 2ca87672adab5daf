#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/document.hpp"

// The steps of an explanation: what is done, the numbers of this record, the formula, its source. A
// reader with a pocket calculator gets each result again from what is printed before it.

namespace hailwright {

/// One step as it is shown.
struct Step {
  std::string title;
  std::vector<std::string> what;  ///< paragraphs that say what is done, and why
  std::vector<Table> tables;
  std::vector<std::string> formula;
  std::vector<std::string> here;  ///< the same with the numbers of this record
  std::string source;             ///< rule of docs/measurement.md, published source
  std::string pages;              ///< of the documentation, by `method_pages`
};

void append_step(Document& out, Step step);

/// "docs/methods/drift.md" for "drift"; several with a comma between.
std::string method_pages(const std::vector<std::string>& names);

/// An estimated comparison of power with what it was made of.
struct PowerCase {
  const PowerResult& result;
  const Test& test;
  const SourceSet& sources;
  [[nodiscard]] const PowerModel& model() const { return *result.model; }
};

Step explain_reading(const PowerCase& power);
Step explain_means(const PowerCase& power);
Step explain_scatter(const PowerCase& power);
Step explain_inputs(const PowerCase& power);
Step explain_together(const PowerCase& power);
Step explain_answers(const PowerCase& power);
Step explain_smallest(const PowerCase& power);
Step explain_trials(const PowerCase& power);

/// The first hit on a place whose mass and speed are known; a reason where there is none.
Step explain_shot(const Assessment& assessment, const Test& test, const SourceSet& sources);
/// The same of a test without shots: each quantity of each stress with what it counts from.
Step explain_stresses(const Assessment& assessment, const Test& test);
/// The word of each series and stress, by the first line of MEASUREMENT M11 that applies.
Step explain_word(const Assessment& assessment, const Test& test);

/// A reading behind a term of a model with its weight in lambda.
struct WeighedRow {
  const Reading* reading = nullptr;
  const PowerModel::Term* term = nullptr;
};

/// A set-up with the readings that make its value.
struct WeighedSetup {
  const SetupValue* setup = nullptr;
  double weight = 0.0;           ///< of its value in lambda
  std::vector<WeighedRow> rows;  ///< none where panels of one set-up have values of their own
  std::string panel;             ///< whose value it is, where several panels have one
};

/// The set-ups of both stages with their readings, found again by their values; of siblings the
/// set-ups of each panel. Empty where they do not give lambda.
std::vector<WeighedSetup> weighed_setups(const PowerModel& model, const Record& record);

/// A number as anybody types it, without zeros at its end.
std::string as_typed(double value);
/// Of a reader's calculator: q, lambda and u(lambda) to six decimals, never "-0".
std::string six(double value);
/// "unlimited", or a number of degrees of freedom to two decimals at most.
std::string freedom_text(double degrees_of_freedom);
/// "1 degree of freedom", "4.2 degrees of freedom", "unlimited degrees of freedom".
std::string degrees_text(double degrees_of_freedom);
/// Per cent to so many decimals, without the sign "%".
std::string hundredfold(double share, int decimals);

}  // namespace hailwright
