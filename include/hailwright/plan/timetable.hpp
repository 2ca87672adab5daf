#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "hailwright/core/quantity.hpp"
#include "hailwright/model/protocol.hpp"

namespace hailwright {

/// What a day's work consists of.
struct TimetableFacts {
  int panels = 1;                           ///< that are struck
  int unstruck = 0;                         ///< read beside them: a control, or siblings
  int setups_before = 0, setups_after = 0;  ///< of each stage; all panels are in each of them
  int readings = 0;                         ///< of one panel in one set-up
  int trials = 0;                           ///< measured shots at the dummy
  int throws = 0;                           ///< expected throws at the panels, all together
  int looks = 0;                            ///< at the panels, all together
  int nights = 0;                           ///< of freezing
};

enum class TaskKind { freezing, gate, setups_before, trials, throws, looks, setups_after };

struct Task {
  TaskKind kind{};
  Time takes;  ///< of freezing: filling and emptying the moulds, not the nights
  int people = 0;
};

/// The work in its order with the time each part takes and the people it needs.
struct Timetable {
  std::vector<Task> tasks;  ///< only those that take any time
  int nights = 0;
  Time day;        ///< all but the freezing
  int people = 1;  ///< at least
};

/// How long things take [ours].
namespace timetable_pace {
inline constexpr Time night = Time::from_si(15.0 * 60.0);   ///< filling and emptying, one person
inline constexpr Time gate = Time::from_si(20.0 * 60.0);    ///< the safety answers, on the spot
inline constexpr Time setup = Time::from_si(25.0 * 60.0);   ///< 15 min in the sun among them (M9)
inline constexpr Time further = Time::from_si(40.0);        ///< a reading of a third panel or more
inline constexpr Time trial = Time::from_si(5.0 * 60.0);    ///< with its measured speed
inline constexpr Time a_throw = Time::from_si(2.0 * 60.0);  ///< with its row in the table
inline constexpr Time look = Time::from_si(15.0 * 60.0);    ///< front, back, raking light, photo
}  // namespace timetable_pace

Timetable make_timetable(const TimetableFacts& facts);

/// One place of one panel, left out when light or ice runs out.
struct Drop {
  std::size_t series;  ///< index into Protocol::series
  std::size_t panel;   ///< in the order they were given
  std::size_t place;   ///< index into the series' places
  friend bool operator==(const Drop&, const Drop&) = default;
};

/// What to leave out first: the hardest series on the last panel, its last place first, then the
/// panel before it, and so on. The first place of the weakest series is never on the list; neither
/// is anything of `never_dropped`. A series with a place left out comes out as "not reached", so
/// one series loses all it can before the next one loses anything.
std::vector<Drop> drop_order(const std::vector<SeriesPlan>& series, std::size_t panels);

/// Without the readings after the shots and the looks nothing that was thrown says anything.
inline constexpr std::array never_dropped{TaskKind::gate, TaskKind::setups_after, TaskKind::looks};

}  // namespace hailwright
