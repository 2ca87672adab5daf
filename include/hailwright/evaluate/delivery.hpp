#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/evaluate/extent.hpp"
#include "hailwright/metrology/estimate.hpp"
#include "hailwright/model/record.hpp"
#include "hailwright/physics/speed.hpp"

namespace hailwright {

/// A quantity of one shot with the part of its uncertainty that the shots of a series share and the
/// part that is its own, both as shares of the value.
struct ShotQuantity {
  double value = 0.0;  ///< SI
  double shared_u = 0.0;
  double own_u = 0.0;
  double own_dof = std::numeric_limits<double>::infinity();
  bool supports_grade = true;  ///< false: good for an interval, not for a claim (M10, M13)
  bool nominal = false;        ///< a launcher's setting, not measured
  /// Trials that `own_u` = s sqrt(1 + 1/n) was predicted from; 0: not from trials.
  int trials = 0;
};

/// How a hit stands to a grade, each side of the tolerance by itself, at 95 %.
struct HitSides {
  bool not_weaker = false;    ///< shown to be at least at the grade
  bool not_stronger = false;  ///< shown to be at most at the grade
  bool weaker = false;  ///< shown to be below the grade: one quantity below, the other not above
};

/// Why a hit cannot be called "at least at the grade".
enum class StrengthDoubt {
  none,
  mass_unknown,
  mass_from_diameter,  ///< a mass derived from the diameter is not a measured mass
  mass_low,            ///< not shown to be at least 95 % of the grade's
  speed_unknown,       ///< no trial shots at this setting, no speed of its own
  few_trials,          ///< fewer than 5 trial shots support no grade
  speed_nominal,       ///< the launcher's setting is no measurement
  speed_low,
  diameter_unknown,
  diameter_off  ///< outside its tolerance
};

/// One throw at the panel as it was judged.
struct ShotResult {
  std::size_t shot = 0;  ///< index into Record::shots
  bool on_panel = false;
  std::optional<std::size_t> place;  ///< where it counts: index into the series' places
  std::optional<Length> off;         ///< distance from the middle of the place aimed at
  bool repeat = false;               ///< the place had been struck before
  std::optional<Length> diameter;
  std::optional<ShotQuantity> mass;   ///< at the impact, after melting
  std::optional<ShotQuantity> speed;  ///< at the panel
  std::optional<Estimate<Energy>> energy;
  HitSides sides;  ///< against its own series' grade
  StrengthDoubt doubt =
      StrengthDoubt::none;  ///< first reason why it is not shown to be at least at the grade
};

struct PlaceResult {
  std::size_t place = 0;
  int hits = 0;
  std::optional<std::size_t> best;  ///< index into SeriesDelivery::shots: its strongest evidence
  bool struck = false;              ///< by a hit not weaker than the grade
};

/// What one series delivered.
struct SeriesDelivery {
  std::size_t series = 0;
  Ratio tolerance;
  Length place_radius;
  std::vector<ShotResult> shots;
  std::vector<PlaceResult> places;
  int throws = 0, hits = 0, off_places = 0, misses = 0, broken = 0;
  std::optional<TrialSpeeds> trials;  ///< at this series' setting
  std::optional<Speed> trial_speed_at_panel;
  int places_hit = 0, places_struck = 0;
  int places_struck_first = 0;  ///< by the first hit on them
  int places_with_energy = 0;   ///< whose best hit has a known energy
  /// Lower 95 % bound of the energy, the least over the best hits of the places hit.
  std::optional<Energy> at_least;
  /// Upper 95 % bound of the energy of the hardest throw, misses too: what the cautions reckon
  /// with.
  std::optional<Energy> at_most;
  /// Probability that every place was truly struck at least at the grade, with what the shots share
  /// drawn once for the series. Nothing when a place was not hit or a strength is unknown.
  std::optional<double> joint_probability;

  [[nodiscard]] bool reached() const { return places_struck == static_cast<int>(places.size()); }
};

/// Tolerance of a target: as the protocol states it, else the grade's, else the default.
Ratio tolerance_of(const Target& target, Assumptions& assumptions);

/// Radius of the places of a series: as the protocol states it, else the default.
Length place_radius_of(const SeriesPlan& plan, Assumptions& assumptions);

/// Confidence of every one-sided statement about a single hit (MEASUREMENT M10).
inline constexpr double hit_confidence = 0.95;

/// How one quantity of a hit, its mass or its speed, stands to the grade's figure (MEASUREMENT
/// M10); neither side when it supports no grade. `weaker` is of this quantity alone.
template <class Q>
HitSides compare_quantity(const ShotQuantity& quantity, Q nominal, Ratio tolerance);

/// How a hit stands to any target, with that target's tolerance.
HitSides compare_hit(const ShotResult& hit, const Target& target, Ratio tolerance);

/// Judges the delivery of every series (MEASUREMENT M10, M13).
std::vector<SeriesDelivery> judge_delivery(const Test& test, Assumptions& assumptions,
                                           Extent extent = Extent::whole);

/// Combined estimate of a shot's quantity.
template <class Q>
Estimate<Q> combined(const ShotQuantity& s);

}  // namespace hailwright
