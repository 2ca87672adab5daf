#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/metrology/stated.hpp"
#include "hailwright/model/findings.hpp"
#include "hailwright/model/log_use.hpp"
#include "hailwright/model/panel.hpp"
#include "hailwright/model/protocol.hpp"
#include "hailwright/model/side_measurements.hpp"

namespace hailwright {

/// Balls of one kind, or one ball. Several may be weighed together.
struct BallKind {
  SourceSpan origin;
  std::string kind;
  int count = 1;
  std::optional<Mass> together;  ///< mass of all `count` balls on the scales at once
  std::vector<Length> diameters;
  std::string note;
};

/// One measured shot at the dummy.
struct Trial {
  SourceSpan origin;
  std::string setting;
  std::optional<double> frames;  ///< over the protocol's length, or between two pictures
  std::optional<Speed> speed;
  std::optional<Speed> step;      ///< of the speed as typed, in the unit of its column
  std::optional<Length> moved;    ///< between two pictures so many frames apart
  std::optional<Time> time;       ///< between gates, or between sounds
  std::optional<Time> time_step;  ///< of it as typed
  bool hit = true;
};

enum class Landing {
  in,      ///< inside the place aimed at
  miss,    ///< not on the panel
  broke,   ///< in pieces before the panel; never a hit
  offset,  ///< on the panel, so far right and up of the middle of the place aimed at
  at       ///< on the panel, at a position of the panel
};

/// One throw at the panel, in the order thrown.
struct Shot {
  SourceSpan origin;
  int number = 0;          ///< counts from 1 over all throws of this record
  std::size_t series = 0;  ///< index into Protocol::series
  std::size_t place = 0;   ///< index into the series' places: what was aimed at
  Landing landing = Landing::miss;
  std::optional<Position> where;  ///< offset or position, as `landing` says
  std::optional<Time> out;        ///< out of the freezer until the impact
  std::string ball;               ///< kind or single ball in `balls`; empty: the series' name
  std::optional<Mass> mass;
  std::vector<Length> diameters;
  std::optional<Speed> speed;
  std::optional<Speed> speed_step;  ///< of it as typed
  std::optional<double> frames;
  std::optional<Length> moved;  ///< as in Trial, and the two below
  std::optional<Time> time, time_step;
  std::optional<Angle> angle;  ///< from the normal of the panel
  std::optional<int> minute;   ///< of the day, when it was thrown
  std::string note;
  std::string photo;  ///< file of a photo of where it hit; may be empty
};

/// The stages of a test. Every stage is compared with `before`.
enum class StageKind { before, after_series, after_stress, after, later, baseline };

struct StageId {
  StageKind kind = StageKind::before;
  /// For after_series: index into Protocol::series; for after_stress: into Protocol::stresses.
  std::size_t series = 0;
  friend bool operator==(const StageId&, const StageId&) = default;
};

/// One set-up: the panel mounted, aimed, plugged in and read.
struct Setup {
  SourceSpan origin;
  std::string name;  ///< as typed: "before 1"
  StageId stage;
  int number = 1;
  std::string date;                           ///< ISO 8601; set-ups of one date share a day
  std::optional<std::vector<Redone>> redone;  ///< where it differs from the protocol
  std::optional<Ratio> battery;               ///< state of charge, when the load is one
};

enum class Role { struck, control, sibling };

/// One reading of one panel.
struct Reading {
  SourceSpan origin;
  std::size_t setup = 0;  ///< index into Record::setups
  Role role = Role::struck;
  std::size_t unit = 0;       ///< for a sibling: index into Record::siblings
  std::optional<int> minute;  ///< of the day
  std::optional<int> round;   ///< readings of two panels in one round belong together
  bool measured = true;       ///< false: a skipped row without all three values
  Power power;
  Irradiance irradiance;
  TemperaturePoint temperature;
  std::string skip;  ///< why it does not count; empty when it does
};

/// A look at the panel.
struct Look {
  SourceSpan origin;
  bool start = false;     ///< before the first shot
  std::size_t after = 0;  ///< otherwise: after this series (index)
  /// Or between two throws of that series: after the throw of this number (`Shot::number`).
  std::optional<int> after_throw;
  /// Or after this stress (index into Protocol::stresses); `after` means nothing then.
  std::optional<std::size_t> after_stress;
  std::string date;  ///< empty: the record's day
  std::vector<Finding> saw;
  std::vector<std::string> photos;
};

/// What the reviewer answered about the conditions of the measurement (M9). Absent is "not stated".
struct Conditions {
  SourceSpan origin;
  std::optional<bool> clean_and_dry;
  std::optional<bool> same_leads;
  /// The very same instruments in all stages but for those under `tools_after`. Not said: each
  /// stage is taken to have had others of the same kind.
  std::optional<bool> same_tools;
  std::optional<bool> pre_exposed;  ///< new panels have been in the sun before
  std::optional<Time> in_sun_first;
  std::optional<Angle> incidence;         ///< largest angle between sun and normal
  std::optional<Angle> incidence_change;  ///< between the stages
  std::optional<Time> since_last_shot;
};

/// A photo of the test that belongs to no look and no shot: of the mounting, of the instruments.
struct RecordPhoto {
  SourceSpan origin;
  std::string file;
  std::string shows;
};

/// What a write-up says about itself. Texts are as typed, empty where not stated.
struct WriteUpNotes {
  std::string author, contact;
  std::string place;                  ///< where the test was made
  std::string asked_by;               ///< who asked for the test, or paid for it
  std::string received;               ///< day on which the panel came, ISO 8601
  std::string issued;                 ///< day of the write-up, ISO 8601
  std::vector<std::string> opinions;  ///< printed as the author's opinions, apart from the results
};

struct Disclosure {
  std::string bought_by;
  std::string interests;
  std::string panel_goes;
};

/// An unstruck unit of the struck panel's model.
struct Sibling {
  SourceSpan origin;
  std::string label;  ///< in the `panel` column of the readings
};

/// One panel, one test.
struct Record {
  SourceSpan origin;
  std::string title;  ///< printed as the heading; the struck panel's name unless given
  /// What `plan` printed before the test; absent when no plan was kept.
  std::optional<PlannedLine> planned;
  std::string panel_label;  ///< in the `panel` column of the tables
  std::string control_label;
  Panel panel;
  std::optional<Panel> control;
  bool control_same_model = false;
  std::vector<Sibling> siblings;
  std::string date;
  std::optional<TemperaturePoint> air;
  std::optional<Density> air_density;
  std::optional<TemperaturePoint> panel_at_shots;
  std::string weather;
  std::string mounting;
  std::vector<BallKind> balls;
  std::vector<Trial> trials;
  std::vector<Shot> shots;
  std::vector<Setup> setups;
  std::vector<Reading> readings;
  std::vector<Look> looks;
  Conditions conditions;
  std::optional<Tools> tools_after;  ///< other instruments in the stages after the shots
  /// How often the result was looked at, this time included; more than the protocol plans is an
  /// extension after seeing the result (M6). Absent: not more often than planned.
  std::optional<int> results_seen;
  std::vector<std::string> unlike_protocol;
  std::optional<std::vector<std::string>> incidents;  ///< empty: none; absent: not stated
  std::optional<Disclosure> disclosure;
  std::string serial;                ///< of the struck panel; empty: not stated
  std::vector<LogUse> logs;          ///< whose rows stand among the readings (`before`, `after`)
  std::vector<LogUse> sessions;      ///< energy and mean power over longer times; judged by nothing
  std::vector<StressDone> stresses;  ///< other than hail, in the order in which they were done
  std::vector<ShadeTrial> shading;   ///< judged by nothing, as what follows
  std::vector<MeterSession> energy;  ///< sessions whose energy was read off a meter
  std::optional<CurveReadings> curves;  ///< what the verdict's loss looks like
  std::vector<RecordPhoto> photos;
  WriteUpNotes write_up;
};

/// A record with the protocol that it followed.
struct Test {
  Protocol protocol;
  Record record;
};

}  // namespace hailwright
