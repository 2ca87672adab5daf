#include "input/record_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/quoted.hpp"
#include "input/record_looks.hpp"
#include "input/table_clock.hpp"
#include "input/table_speed.hpp"

namespace hailwright::input {

namespace {

using hailwright::detail::quoted;

bool is_hit(const Shot& shot) {
  return shot.landing != Landing::miss && shot.landing != Landing::broke;
}

bool has_own_speed(const Shot& shot) {
  return !is_blank(speed_reading(shot));
}

std::string setting_text(const std::string& setting) {
  return setting.empty() ? "without a setting" : "at setting " + quoted(setting);
}

/// Series that were hit by shots whose speed only trials can tell.
std::vector<const SeriesPlan*> series_that_need_trials(const Test& test) {
  std::set<std::size_t> needed;
  for (const Shot& shot : test.record.shots) {
    if (is_hit(shot) && !has_own_speed(shot)) needed.insert(shot.series);
  }
  std::vector<const SeriesPlan*> series;
  for (const std::size_t index : needed)
    series.push_back(&test.protocol.series.at(index));
  return series;
}

/// Trials at a setting tell of one size of ball (MEASUREMENT M13).
void check_settings_apart(const Test& test, Diagnostics& notes) {
  const auto& all = test.protocol.series;
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      const bool same_ball = all[i].target.diameter == all[k].target.diameter;
      if (all[i].setting != all[k].setting || same_ball) continue;
      notes
          .error("C18", all[i].origin,
                 fmt::format("series {} and {} throw balls of two sizes at one setting, and the "
                             "speed is known by trials at a setting",
                             quoted(all[k].name), quoted(all[i].name)),
                 {"give each its own, here and in the trials:  setting: mark 3 small"})
          .related.push_back({all[k].origin, "the other series"});
    }
  }
}

/// What the trials tell must be of use to the protocol's way; the first that is not is enough.
void check_trial_speeds(const Test& test, Diagnostics& notes) {
  const SpeedMethod& method = test.protocol.speed;
  for (const Trial& trial : test.record.trials) {
    if (trial.frames && method.measures() && method.way() == SpeedWay::typed) {
      notes
          .error("C13", trial.origin, "frames say nothing: the protocol names no video",
                 {"give the protocol  speed: {video: 240 fps, length: 3.00 m}",
                  "or give the table a column  speed m/s"})
          .related.push_back({method.origin, "the speed method"});
      return;
    }
    if (!fits_method(speed_reading(trial), method, trial.origin, notes)) return;
  }
}

void check_settings_known(const Test& test, Diagnostics& notes) {
  std::vector<std::string> known;
  for (const SeriesPlan& series : test.protocol.series)
    known.push_back(series.setting);
  std::set<std::string> reported;
  for (const Trial& trial : test.record.trials) {
    if (std::find(known.begin(), known.end(), trial.setting) != known.end()) continue;
    if (!reported.insert(trial.setting).second) continue;
    std::vector<std::string> hints{"trials count for the series that have the same setting"};
    if (const auto nearest = nearest_word(trial.setting, known); nearest && !nearest->empty())
      hints.insert(hints.begin(), fmt::format("did you mean '{}'?", *nearest));
    notes.warning(
        "C16", trial.origin,
        fmt::format("no series of the protocol is thrown {}", setting_text(trial.setting)),
        std::move(hints));
  }
}

}  // namespace

void check_trials(const Test& test, const RecordPlaces& places, Diagnostics& notes) {
  const Record& record = test.record;
  check_trial_speeds(test, notes);
  check_settings_known(test, notes);
  if (test.protocol.speed.by != SpeedSource::trial_shots) return;
  check_settings_apart(test, notes);
  const auto needed = series_that_need_trials(test);
  if (needed.empty()) return;
  if (places.trials.line == 0) {
    notes.error("C12", places.tables,
                "the speed is known by trial shots, and there is no table of trials",
                {"add  trials: trials.csv  with one row for each trial shot"});
    return;
  }
  for (const SeriesPlan* series : needed) {
    const bool tried =
        std::any_of(record.trials.begin(), record.trials.end(),
                    [&](const Trial& trial) { return trial.setting == series->setting; });
    if (tried) continue;
    notes
        .warning("C17", places.trials,
                 fmt::format("there is no trial {}, so the speed of series {} is not known",
                             setting_text(series->setting), quoted(series->name)),
                 {"add the trials made there, five or more"})
        .related.push_back({series->origin, "the series"});
  }
}

void check_balls(const Test& test, const RecordPlaces& places, Diagnostics& notes) {
  std::vector<std::string> kinds;
  for (const BallKind& ball : test.record.balls)
    kinds.push_back(ball.kind);
  std::set<std::string> reported;
  for (const Shot& shot : test.record.shots) {
    if (shot.ball.empty() || std::find(kinds.begin(), kinds.end(), shot.ball) != kinds.end())
      continue;
    if (!reported.insert(shot.ball).second) continue;
    const std::string message = fmt::format("no ball is called {}", quoted(shot.ball));
    if (places.balls.line == 0) {
      notes.error("C14", shot.origin, message, {"add  balls: balls.csv  to the tables"});
    } else {
      report_unknown("C14", shot.origin, message, shot.ball, kinds, notes);
    }
  }
}

namespace {

/// The timed readings of each set-up in the order of the table, which is that of their times.
std::vector<std::vector<const Reading*>> timed_readings(const Record& record) {
  std::vector<std::vector<const Reading*>> by_setup(record.setups.size());
  for (const Reading& reading : record.readings) {
    if (reading.minute) by_setup.at(reading.setup).push_back(&reading);
  }
  return by_setup;
}

/// The first shot that lies between the first and the last of the readings.
const Shot* shot_between(const Record& record, const std::vector<const Reading*>& readings) {
  const auto shot = std::find_if(record.shots.begin(), record.shots.end(), [&](const Shot& s) {
    return s.minute && *s.minute > *readings.front()->minute &&
           *s.minute < *readings.back()->minute;
  });
  return shot == record.shots.end() ? nullptr : &*shot;
}

}  // namespace

void check_setups_whole(const Record& record, Diagnostics& notes) {
  const auto by_setup = timed_readings(record);
  for (std::size_t i = 0; i < record.setups.size(); ++i) {
    const Setup& setup = record.setups[i];
    const std::vector<const Reading*>& readings = by_setup[i];
    if (setup.date != record.date || readings.empty()) continue;
    const Shot* shot = shot_between(record, readings);
    if (shot == nullptr) continue;
    const auto later = std::find_if(readings.begin(), readings.end(), [&](const Reading* reading) {
      return *reading->minute > *shot->minute;
    });
    notes
        .error("T34", (*later)->origin,
               fmt::format("the shot of {} lies between readings of set-up {} ({} to {})",
                           time_text(*shot->minute), quoted(setup.name),
                           time_text(*readings.front()->minute),
                           time_text(*readings.back()->minute)),
               {"a set-up is read in one go: give the readings from here on a new set-up name",
                "if it was another day, give the record  setups: [{name: ..., date: ...}]"})
        .related.push_back({shot->origin, "the shot"});
  }
}

namespace {

/// Which side of the shots a set-up stands on by its name.
class SidesOfShots {
public:
  SidesOfShots(const Record& record, Diagnostics& notes) : record_(record), notes_(notes) {}

  void check() {
    if (record_.shots.empty() || record_.date.empty()) return;
    const auto by_setup = timed_readings(record_);
    for (std::size_t i = 0; i < record_.setups.size(); ++i) {
      check_stress_day(record_.setups[i]);
      if (record_.setups[i].date == record_.date && !by_setup[i].empty()) check(i, by_setup[i]);
    }
  }

private:
  [[nodiscard]] bool stands_before(StageId stage, const Shot& shot) const {
    switch (stage.kind) {
    case StageKind::before:
    case StageKind::baseline:
      return true;
    case StageKind::after_series:
      return shot.series > stage.series;
    case StageKind::after_stress:
      return follows_stress_before_shots(record_, stage.series);
    case StageKind::after:
    case StageKind::later:
      break;
    }
    return false;
  }

  /// The readings of one set-up of the day of the shots. That no shot lies among them is told by
  /// check_setups_whole.
  void check(std::size_t setup, const std::vector<const Reading*>& readings) {
    const StageId stage = record_.setups[setup].stage;
    const int begin = *readings.front()->minute;
    const int end = *readings.back()->minute;
    const auto wrong = std::find_if(record_.shots.begin(), record_.shots.end(), [&](const Shot& s) {
      if (!s.minute) return false;
      return stands_before(stage, s) ? begin >= *s.minute && end > *s.minute
                                     : begin < *s.minute && end <= *s.minute;
    });
    if (wrong == record_.shots.end()) return;
    report(setup, readings, *wrong);
  }

  void report(std::size_t setup, const std::vector<const Reading*>& readings, const Shot& shot) {
    const std::string name = quoted(record_.setups[setup].name);
    const bool before = stands_before(record_.setups[setup].stage, shot);
    notes_
        .error("T33", readings.front()->origin,
               fmt::format("set-up {} ({} to {}) is read {} the shot of {}, and by its name it "
                           "stands {} it",
                           name, time_text(*readings.front()->minute),
                           time_text(*readings.back()->minute), before ? "after" : "before",
                           time_text(*shot.minute), before ? "before" : "after"),
               {"check the name of the set-up, and both times",
                log_of(record_, setup) != nullptr
                    ? std::string("the times of the shots are those of a clock in the zone of the "
                                  "log: check that zone, and the clock of the logger")
                    : fmt::format("if it was another day, give the record  setups: [{{name: {}, "
                                  "date: ...}}]",
                                  record_.setups[setup].name)})
        .related.push_back({shot.origin, "the shot"});
  }

  /// What follows a stress before the shots is not dated after them.
  void check_stress_day(const Setup& setup) {
    if (setup.stage.kind != StageKind::after_stress || setup.date <= record_.date ||
        !follows_stress_before_shots(record_, setup.stage.series))
      return;
    notes_.error(
        "T33", setup.origin,
        fmt::format("set-up {} is dated {}, after the shots of {}, and what it stands after was "
                    "done before them",
                    quoted(setup.name), setup.date, record_.date),
        {"check its date, that of the record's day, and 'after_hail' of the stress"});
  }

  const Record& record_;
  Diagnostics& notes_;
};

}  // namespace

const LogUse* log_of(const Record& record, std::size_t setup) {
  const auto use = std::find_if(record.logs.begin(), record.logs.end(), [&](const LogUse& each) {
    return std::find(each.setups.begin(), each.setups.end(), setup) != each.setups.end();
  });
  return use == record.logs.end() ? nullptr : &*use;
}

void check_sides_of_shots(const Record& record, Diagnostics& notes) {
  SidesOfShots(record, notes).check();
}

bool report_thrown(const MapReader& tables, SourceSpan protocol, Diagnostics& notes) {
  bool any = false;
  for (const std::string_view key : {"balls", "trials", "shots"}) {
    if (tables.find(key) == nullptr) continue;
    any = true;
    notes
        .error("C48", tables.at(key),
               fmt::format("'{}' says nothing: the protocol has no series of shots", key),
               {fmt::format("delete '{}', or add  series:  to the protocol", key)})
        .related.push_back({protocol, "the protocol"});
  }
  return any;
}

}  // namespace hailwright::input
