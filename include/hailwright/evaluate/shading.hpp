#pragma once

#include <optional>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/evaluate/log_results.hpp"
#include "hailwright/metrology/budget.hpp"
#include "hailwright/metrology/estimate.hpp"
#include "hailwright/model/record.hpp"

namespace hailwright {

/// How the open-circuit voltage fell when whole substrings were put in full shade.
enum class BypassWord { as_expected, smaller, larger, cannot_tell };

/// The drop of the open-circuit voltage held against Voc times the share of the substrings that
/// were shaded.
struct BypassCheck {
  BypassWord word = BypassWord::cannot_tell;
  int shaded = 0;                   ///< whole substrings in full shade
  std::optional<int> substrings;    ///< of the panel; nothing: its file does not say
  std::optional<Voltage> expected;  ///< drop; nothing without `substrings`
  /// As seen. Its uncertainty is that of its difference from what is expected, where the gain of
  /// the voltmeter cancels.
  Estimate<Voltage> drop;
  Voltage half_width;             ///< of the 95 % interval
  std::vector<BudgetRow> budget;  ///< sensitivities in V
};

/// What one shade costs (docs/methods/partial-shading.md).
struct ShadingResult {
  std::size_t trial = 0;           ///< index into Record::shading
  std::vector<Ratio> rounds_left;  ///< share of the power that was left in the shade, by round
  // The mean of the rounds; nothing where the shade was read by its voltage alone.
  std::optional<Estimate<Ratio>> left;  ///< share of the power that is left
  Ratio loss;                           ///< 1 - left
  Ratio low, high;                      ///< of the loss, at 95 %; never above 1
  /// Sensitivities of `left`. Ids as of a log's numbers: "meter/gain", "sun/digits/free".
  std::vector<BudgetRow> budget;
  bool scatter_seen = false;  ///< two rounds or more: how they differ is in the interval
  /// The irradiance, or the back temperature, was typed once for both readings of a round.
  bool sun_typed_once = false, back_typed_once = false;
  /// The natural logarithm of `left` with its budget, for comparing panels. Nothing where so little
  /// is left that its logarithm has no useful interval.
  std::optional<LogNumber<Ratio>> log_left;
  std::optional<BypassCheck> bypass;
  Assumptions assumptions;
};

/// So much of the expected drop may be missing, or come on top, before it counts as another one
/// [ours]: some light gets under a card, and substrings of a warm panel differ.
inline constexpr Ratio bypass_tolerance = percent(20);

/// Up to this relative standard uncertainty of what is left it is reckoned by its logarithm, beyond
/// it by itself [ours]: the two intervals then differ by less than a tenth of their width.
inline constexpr Ratio shading_by_logarithm_up_to = percent(10);

/// As `Record::shading`. What was read before the shots or after them makes no difference here.
std::vector<ShadingResult> weigh_shading(const Test& test);

}  // namespace hailwright
