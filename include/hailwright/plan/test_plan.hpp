#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/place_layout.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/plan/ball_window.hpp"
#include "hailwright/plan/delivery_aim.hpp"
#include "hailwright/plan/ice_need.hpp"
#include "hailwright/plan/measuring_forecast.hpp"
#include "hailwright/plan/timetable.hpp"
#include "hailwright/safety/cautions.hpp"
#include "hailwright/safety/gate.hpp"
#include "hailwright/safety/stress_gate.hpp"

namespace hailwright {

/// What a fall from the protocol's height gives, over the range of the drag coefficient.
struct DropOutlook {
  Length height;
  Energy lowest, highest;        ///< at the panel
  std::optional<Length> needed;  ///< for the target's speed at the lowest drag; nothing: none does
};

/// Why nothing can be said about the delivery of a series.
enum class DeliveryObstacle {
  none,
  nominal_setting,
  speed_not_measured,
  mass_not_weighed,
  few_trials  ///< fewer than 5 support no grade
};

/// Why a number of balls or nights cannot be said.
enum class IceObstacle {
  none,
  not_tried,     ///< no trial throws, or no balls made, yet
  no_success,    ///< throws, but no hit; or balls, but none to throw
  too_many,      ///< more than can be reckoned with
  no_such_mould  ///< balls can be said, nights cannot
};

/// What can be expected of one series, without a number that sets a launcher.
struct SeriesOutlook {
  std::size_t series = 0;
  Ratio tolerance;
  Length place_radius;
  Energy nominal;  ///< of the target
  /// At the muzzle: the heaviest ball that the sheet lets through, at the tolerance corner of the
  /// aimed speed or three standard deviations of the launcher above it, whichever is more.
  Energy upper;
  Mass heaviest;  ///< that ball
  EnergyPerArea upper_per_area;
  DeliveryObstacle obstacle = DeliveryObstacle::none;
  double chance = 0.0;  ///< that every place is shown to be struck at least at the grade
  bool reached = false;
  std::optional<DeliveryHelp> help;
  std::optional<bool> launcher_can;  ///< nothing when its fastest speed is not stated
  std::optional<DropOutlook> drop;
  int trials = 0;  ///< measured trial shots planned
  int wanted = 0;  ///< hits on all panels together
  IceObstacle ice = IceObstacle::none;
  std::optional<int> balls;   ///< to freeze for the hits
  int trial_balls = 0;        ///< for the trials, with the same share of rejects
  std::optional<int> nights;  ///< for both, in the stated moulds
  std::optional<FreezingTime> freezing;
};

/// How far a miss can fly (MEASUREMENT M16). Bounds, none of them a distance that could be relied
/// on as free of danger.
struct MissOutlook {
  bool fastest_stated = false;  ///< the launcher's fastest speed is known, not reckoned
  Length height;                ///< of the muzzle over the lowest ground ahead
  Length no_air;                ///< first contact with level ground, no wind, no air
  Length with_wind;   ///< the same with Cd 0.3 and 10 m/s tailwind, the farthest of all balls
  Energy at_fastest;  ///< of the heaviest ball, should the launcher ever be set to its fastest
  [[nodiscard]] Length farthest() const { return no_air < with_wind ? with_wind : no_air; }
};

struct PanelOutlook {
  const Panel* panel = nullptr;
  std::optional<Voltage> cold_voltage;
  std::vector<MeasuringForecast> power;  ///< empty when judged by looks alone
};

/// What helps to decide for or against the test. Printed without the gate.
struct PlanOutlook {
  std::vector<SeriesOutlook> series;
  MissOutlook miss;
  std::vector<PanelOutlook> panels;
  /// That all series on all panels are shown to be delivered, if every ball lands in its place.
  double chance_of_all = 0.0;
  PlanDangers dangers;
  std::vector<const Caution*> hazards;
  int nights = 0;  ///< of freezing, all series after one another; 0 when not known
  Timetable timetable;
  Assumptions assumptions;
};

/// Where to aim a series' speed. None for a drop, whose height fixes it.
struct SpeedAim {
  Speed at_panel;
  Speed at_muzzle;                   ///< the same when it leaves the launcher
  std::optional<Speed> as_measured;  ///< the same where the protocol measures it
  /// Where it is measured, not slower than this: each shot, or the mean of the trials if they
  /// scatter no more than planned. Nothing where no speed up to the aim shows a hit to be enough.
  std::optional<Speed> least_measured;
  std::optional<double> frames_aim, frames_most;  ///< the same two in video frames
};

/// Mass of one ball as weighed, or of several together divided by their number.
struct MassAim {
  Mass aim;
  Mass least;                ///< a lighter one cannot be shown to be heavy enough
  std::optional<Mass> most;  ///< of balls weighed one by one
};

/// What one series asks of the launcher and of the balls.
struct LaunchSeries {
  std::size_t series = 0;
  DeliveryAim aim;
  std::optional<SpeedAim> speed;
  BallWindow ball;              ///< its diameters, and the masses of balls weighed one by one
  int together = 1;             ///< balls weighed at once
  std::optional<MassAim> mass;  ///< nothing where these scales cannot show a mass to be enough
  std::optional<Length> sag;    ///< fall below the line of aim on the way to the panel, aimed level
};

struct PanelSheet {
  const Panel* panel = nullptr;
  PlaceLayout layout;
  std::vector<std::vector<std::size_t>> order;  ///< of the places, by series
};

/// Everything that helps to launch. There is none without a clearance.
struct LaunchSheet {
  LaunchSheet(Clearance given, std::vector<LaunchSeries> s, std::vector<PanelSheet> p)
      : clearance(std::move(given)), series(std::move(s)), panels(std::move(p)) {}
  Clearance clearance;
  std::vector<LaunchSeries> series;
  std::vector<PanelSheet> panels;
};

/// What helps to do the stresses other than hail. There is none without a clearance for all that
/// the protocol plans.
struct StressSheet {
  StressSheet(StressClearance given, std::vector<std::vector<std::vector<StressAdvice>>> lines)
      : clearance(std::move(given)), advice(std::move(lines)) {}
  StressClearance clearance;
  /// By stress of the protocol, then by panel as in the outlook.
  std::vector<std::vector<std::vector<StressAdvice>>> advice;
};

struct TestPlan {
  const Protocol* protocol = nullptr;
  std::string today;
  bool estimate_only = false;
  PlanOutlook outlook;
  GateResult gate;               ///< of the hail; nothing is asked where there is none
  StressGateResult stress_gate;  ///< of the other stresses
  /// Whether all that is planned has its leave: the one gate gives none while the other waits.
  [[nodiscard]] bool cleared() const;
  std::optional<StressSheet> stress_sheet;
  /// Only with a clearance, and when no series asks more than the launcher's stated fastest speed.
  std::optional<LaunchSheet> sheet;
};

struct PlanRequest {
  const Protocol* protocol = nullptr;
  std::vector<const Panel*> panels;
  std::string today;  ///< ISO 8601
  bool estimate_only = false;
  std::optional<std::uint64_t> order_seed;  ///< a random order of the shots from this seed
};

/// Makes the plan: its outlook, what the gate says to it, and, where the gate gave its clearance,
/// the sheet to launch by. Places that do not fit on a panel are errors.
Checked<TestPlan> make_plan(const PlanRequest& request);

}  // namespace hailwright
