#pragma once

#include <vector>

#include "hailwright/report/compose.hpp"

namespace hailwright {

/// Stages of a record in the order in which they are told, each once: those that answer for series,
/// then later ones, then those that answer for other stresses.
std::vector<const PowerResult*> all_stages(const Assessment& assessment);

/// The first of them that was estimated; nullptr where none was. All are judged at one risk.
const PowerResult* first_estimated(const Assessment& assessment);

/// One of them with what a reader's own limit comes to in it.
struct JudgedStage {
  const PowerResult* power = nullptr;
  const LossAnswers* reader = nullptr;  ///< nullptr: no limit of a reader's was asked about
};
std::vector<JudgedStage> judged_stages(const Judged& judged);

}  // namespace hailwright
