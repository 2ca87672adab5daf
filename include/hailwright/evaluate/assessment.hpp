#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/evaluate/damage_bracket.hpp"
#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/evaluate/delivery.hpp"
#include "hailwright/evaluate/log_results.hpp"
#include "hailwright/evaluate/loss_pattern.hpp"
#include "hailwright/evaluate/meter_sessions.hpp"
#include "hailwright/evaluate/power.hpp"
#include "hailwright/evaluate/shading.hpp"
#include "hailwright/evaluate/stress_verdict.hpp"
#include "hailwright/evaluate/verdict_word.hpp"
#include "hailwright/model/record.hpp"
#include "hailwright/safety/cautions.hpp"

namespace hailwright {

/// How the hits that came before a damage stood to the grade (MEASUREMENT M10).
enum class DamageBy {
  at_grade,        ///< no hit up to it could have been stronger
  perhaps_harder,  ///< some may have been: says nothing about the grade itself
  below_grade      ///< every hit was shown to be below the grade
};

/// What decided a series' word, and what else bears on it.
enum class Reason {
  new_major_defect,  ///< subject: the defect and its place
  power_beyond,
  places_missing,  ///< subject: names of the places not struck at least at the grade
  no_look_before,
  no_look_after,
  cell_share_not_stated,  ///< a crack or void without its share of the cell; subject: where
  power_missing,          ///< the protocol claims power, but there is no comparison
  power_obstacle,         ///< there is one, but it could not be made
  power_not_deciding,     ///< few units, or a load that took less than the maximum
  power_not_valid,
  power_undecided,
  damaged_before,     ///< an earlier series had damaged the panel already, or a stress before the
                      ///< hail; subject: the stress, empty for a series
  nothing_struck,     ///< the power is beyond the limit, but nothing struck the panel
  defect_from_start,  ///< subject: a major defect that was there before the first shot
  extended,           ///< the power was judged anew after its result had been seen
  with_a_stress,      ///< a stress other than hail may have done it; subject: what was seen, or
                      ///< empty for the power
  all_places_struck,
  looks_clean,
  power_within
};

struct SeriesReason {
  Reason reason;
  std::string subject;
  SourceSpan where;
  std::optional<std::size_t> look{};  ///< index into Record::looks, of a thing seen
};

/// Which look or stage answers for a series, and which series it answers for together.
struct Coverage {
  std::size_t first = 0, last = 0;  ///< series indices, inclusive
  [[nodiscard]] bool joint() const { return first != last; }
};

/// One series: its word by the truth table, and why.
struct SeriesVerdict {
  std::size_t series = 0;
  Word word = Word::undecided;
  std::vector<SeriesReason> reasons;  ///< deciding ones first
  std::optional<DamageBy> damage_by;
  std::optional<std::size_t> look;  ///< index into Record::looks that answers for it
  Coverage look_covers;
  std::optional<std::size_t> power;  ///< index into Assessment::power that answers for it
  Coverage power_covers;
  bool power_claimed = true;
  bool clean_looks = false;  ///< looked before and after, and no new major defect
  /// Stresses other than hail done since the look, or the stage of readings, with which what
  /// answers is compared: indices into Record::stresses.
  std::vector<std::size_t> look_stresses{}, power_stresses{};
};

/// A new thing seen that counts as a major visual defect, or may.
struct NewFinding {
  const Finding* finding = nullptr;
  std::size_t look = 0;
  bool major = false;
  bool undecided = false;  ///< its share of the cell is not stated
};

/// Evidence on the hits of a series up to the first damage (MEASUREMENT M12). A series without a
/// hit that counts has none.
struct HitEvidence {
  std::size_t series = 0;
  int places = 0;       ///< struck once at least at the grade, and looked at since
  int with_damage = 0;  ///< of these, with visible damage: 0 or 1, since it ends the count
  double upper = 1.0;   ///< one-sided exact 95 % bound of the chance of visible damage per hit
};

/// What one default adds to the answers.
struct AssumedEffect {
  DefaultId id{};
  std::optional<PercentagePoints> on_loss;  ///< standard uncertainty it brings to the loss
  std::optional<Ratio> on_energy;           ///< and to the energy of a shot, as a share
};

/// Everything that `judge` knows of one record. Renderers add nothing to it.
struct Assessment {
  std::vector<SeriesDelivery> delivery;
  std::vector<PowerResult> power;        ///< stages that answer for series, in order
  std::vector<PowerResult> later_power;  ///< dated later stages: they add, never replace
  std::vector<NewFinding> new_findings;
  /// Major defects that were there before the first shot: not new, so they decide nothing.
  std::vector<const Finding*> defects_from_start;
  std::vector<SeriesVerdict> verdicts;           ///< one a series, weakest first
  std::optional<std::size_t> hardest_withstood;  ///< index into verdicts
  std::optional<std::size_t> mildest_damaged;
  std::vector<HitEvidence> evidence;
  std::vector<AssumedEffect> assumed;
  std::vector<const Caution*> cautions;
  /// As `Record::logs` and `Record::sessions`; they decide nothing, and what was assumed for them
  /// stands with them.
  std::vector<LogResults> logs, sessions;
  std::vector<StressVerdict> stresses;  ///< as `Record::stresses`
  /// Stages that answer for stresses, each compared with the last stage read before the stress.
  std::vector<PowerResult> stress_power;
  std::optional<DamageBracket> bracket;
  // Beside the verdict; they decide nothing.
  std::vector<ShadingResult> shading;      ///< as `Record::shading`
  std::vector<MeterSessionResult> energy;  ///< as `Record::energy`
  std::optional<LossPattern> pattern;
};

/// Judges a test whole.
/// @param check   how many random trials to check the power by; nothing: none
/// @param extent  what is left out changes nothing in the rest
Assessment assess(const Test& test, const std::optional<CheckPlan>& check = std::nullopt,
                  Extent extent = Extent::whole);

}  // namespace hailwright
