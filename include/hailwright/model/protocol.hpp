#pragma once

#include <array>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/metrology/stated.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/place_kind.hpp"
#include "hailwright/model/plan_mark.hpp"
#include "hailwright/model/speed_method.hpp"
#include "hailwright/model/stress.hpp"
#include "hailwright/tables/impact_grades.hpp"

namespace hailwright {

/// A region of the panel that shots aim at.
struct Place {
  std::string name;
  std::optional<Position> at;  ///< its middle, when the protocol or the panel's geometry gives one
  SourceSpan origin;
  std::optional<PlaceKind> kind{};  ///< what to look for on the panel, when the protocol says so
  bool found = false;               ///< `at` comes from the panel's geometry, not from the protocol
};

/// What one shot of a series should be. Either a published grade or a free choice.
struct Target {
  std::string label;             ///< "IEC 61215 25 mm", or "free: 30 mm, 13 g, 24 m/s"
  const Grade* grade = nullptr;  ///< the published row; nullptr for a free choice
  Length diameter;
  Mass mass;
  Speed speed;
  std::optional<Ratio> tolerance;  ///< as the protocol states it; else the grade's or the default
};

/// One series of shots at one setting of the launcher.
struct SeriesPlan {
  SourceSpan origin;
  std::string name;
  Target target;
  std::vector<Place> places;
  bool places_counted = false;  ///< the protocol gave their number alone
  std::optional<Length> place_radius;
  std::string setting;  ///< the launcher's setting; empty when the protocol names none
};

/// What the protocol decides by, fixed before the test.
struct DecisionRule {
  SourceSpan origin;
  Ratio limit = percent(5);  ///< a loss above this is damage
  SourceSpan limit_origin;
  std::optional<Ratio> risk;        ///< alpha: risk of each wrong statement
  std::optional<Ratio> see;         ///< smallest loss the test should be able to see
  std::optional<Ratio> see_chance;  ///< how often it should see it
  int looks = 1;  ///< planned looks at the result (M6): each of them gets its share of the risk
  bool judges_power = true;  ///< false: `judged_on: looks`
  /// `rule: simple`: the estimate alone is held against the limit, at a risk of up to 50 % (M4).
  bool simple = false;
};

enum class Launcher {
  sling,
  elastic,
  spring,
  compressed_air,
  ball_machine,
  drop,
  throw_by_hand,
  other
};

/// So many tried, so many of them good.
struct Tally {
  SourceSpan origin;
  int tried = 0;
  int good = 0;
};

struct Launch {
  SourceSpan origin;
  Launcher kind = Launcher::other;
  std::optional<Length> distance;  ///< launcher to panel
  std::optional<Length> height;    ///< muzzle over the ground it stands on
  std::string aim;
  /// Fastest muzzle speed that the launcher can give at any setting: what safety reckons with.
  std::optional<Speed> fastest;
  std::optional<Ratio> spread;         ///< standard deviation of its speed from shot to shot
  std::optional<Length> ground_falls;  ///< lowest ground ahead, so far below the launcher's
  std::optional<Length> altitude;      ///< of the place over the sea
  std::optional<TemperaturePoint> air;
  std::optional<Tally> tried;  ///< throws at the dummy: how many hit where they were aimed
};

/// A measuring instrument. `error` is absent when the protocol says `unknown` or nothing.
template <class Q>
struct Tool {
  SourceSpan origin;  ///< of the tool's entry; line 0 when it has none
  std::string id;     ///< which one it is, such as "clamp meter 2"; empty: not said
  std::optional<Stated<Q>> error;
  std::optional<Q> step;  ///< of its display
  /// Part of the gain that is drawn anew in each stage (M3), as a share of the reading.
  std::optional<Ratio> between_stages;
};

enum class SensorPlace { back, cell, front };

struct Thermometer {
  SourceSpan origin;
  std::string id;                                          ///< as of `Tool`
  std::optional<Stated<TemperatureDifference>> error;      ///< offset, the same all the time
  std::optional<Stated<TemperatureDifference>> each_time;  ///< attaching or aiming it anew
  std::optional<SensorPlace> where;
  bool infrared = false;
  bool one_per_panel = false;  ///< each panel has its own sensor
};

struct Tools {
  Tool<Power> meter;
  Tool<Irradiance> sun;
  Thermometer thermometer;
  Tool<Mass> scales;
  Tool<Length> calipers;
};

enum class Comparison {
  same_panel,     ///< after against before
  control_panel,  ///< the same, minus an unstruck panel's
  sibling_panel   ///< struck against unstruck units of its model; no reading before the shots
};

enum class MaximumPower { sweep, tracker_settled, fixed_load };

/// What a set-up takes down and builds again (M1).
enum class Redone { mount, aim, probe, leads };
inline constexpr std::array<Redone, 4> all_redone{Redone::mount, Redone::aim, Redone::probe,
                                                  Redone::leads};

/// A component of the set-up scatter that the protocol states instead of, or beside, observing it.
struct SetupComponent {
  SourceSpan origin;
  std::string name;
  std::optional<Redone> of;  ///< which step of a set-up it belongs to
  Ratio standard_u;          ///< of the logarithm of the power
  Shape shape = Shape::normal;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
};

struct MeasurementPlan {
  SourceSpan origin;
  Comparison compare = Comparison::same_panel;
  std::optional<int> before, after, readings;  ///< planned numbers
  std::optional<int> meters;                   ///< 1: panels are read in turn; 2: side by side
  std::optional<MaximumPower> maximum_power;
  std::string load;
  std::optional<std::vector<Redone>> redone;
  std::vector<SetupComponent> setup_scatter;
  /// Standard deviation from set-up to set-up that the plan reckons with; never judged by.
  std::optional<Ratio> expected_scatter;
  std::optional<Ratio> day;                ///< standard uncertainty of one day's sky
  std::optional<Ratio> stage;              ///< drift of the panel between the stages
  std::optional<Ratio> control_stability;  ///< drift of the control between the stages
  std::optional<int> siblings;             ///< planned number of unstruck units
  /// Half-width within which the maker says the power of each unit lies; for siblings whose spread
  /// is not measured.
  std::optional<Ratio> unit_tolerance;
  bool fitted_trend = false;         ///< a straight line in time over all set-ups is taken out (M8)
  std::string readings_independent;  ///< the reason why readings of a set-up count one by one
  std::optional<StatedValue<TemperatureDifference>> cell_above_back;  ///< at 1000 W/m2
};

/// Moulds for balls of one diameter.
struct Mould {
  SourceSpan origin;
  Length ball;
  int cavities = 0;
};

/// How the balls are made.
struct Ice {
  SourceSpan origin;
  std::string water;
  std::optional<TemperaturePoint> freezer;
  std::optional<int> weighed_together;  ///< so many at once; 1: one by one
  std::vector<Mould> moulds;
  std::optional<Tally> made;  ///< balls made so far: how many could be thrown
};

struct SafetyAnswers {
  SourceSpan origin;
  /// Block, then key, then the answer. The reader checks their form, the gate what they say.
  std::map<std::string, std::map<std::string, SafetyAnswer>> blocks;
};

/// A test as it was planned: reusable for any panel, holds no results.
struct Protocol {
  SourceSpan origin;
  std::string title;
  DecisionRule decide;
  std::vector<SeriesPlan> series;
  Launch launch;
  SpeedMethod speed;
  Ice ice;
  Tools tools;
  MeasurementPlan measure;
  SafetyAnswers safety;
  std::vector<StressPlan> stresses;  ///< other than hail; there may be no series beside them
  PlanMark mark;                     ///< of the file as it was read
};

}  // namespace hailwright
