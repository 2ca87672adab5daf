#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/damage_threshold.hpp"
#include "hailwright/plan/next_specimen.hpp"
#include "hailwright/report/document.hpp"
#include "hailwright/safety/cautions.hpp"

namespace hailwright {

/// Everything that is said of a set of specimens.
struct ThresholdAnswer {
  const Specimens* specimens = nullptr;
  DamageThreshold threshold;
  const TestPlan* plan = nullptr;          ///< of the protocol named; nullptr: none was
  std::optional<NextSpecimenAnswer> next;  ///< with a plan
  std::vector<const Caution*> cautions;
};

/// @param plan  of the protocol whose safety answers hold for the next test; nullptr: none named
ThresholdAnswer answer_threshold(const Specimens& specimens, const TestPlan* plan);

Document compose_threshold(const ThresholdAnswer& answer);
std::string threshold_json(const ThresholdAnswer& answer);

/// The tests by energy and outcome with the fitted curve and its intervals, or with the gap or
/// overlap of the outcomes where there is no estimate. Nothing without a test. Id "threshold".
std::optional<Figure> threshold_picture(const ThresholdAnswer& answer);

}  // namespace hailwright
