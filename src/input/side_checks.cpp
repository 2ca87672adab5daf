#include "input/side_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>

#include "input/record_checks.hpp"

namespace hailwright::input {

namespace {

// Bounds [ours]: wide enough that no honest reading is told of, narrow enough for a decimal slip.
/// A shade may seem to add so much, by a sun that rose and a panel that cooled between two
/// readings.
constexpr double risen_voltage = 1.03, risen_power = 1.05;
constexpr double most_of_rating = 1.5;       // of a voltage or a current of the panel
constexpr double most_of_rated_power = 1.3;  // at the irradiance of the session
constexpr double suns_apart = 2.0;           // of two readings of one round
constexpr double full_side_sun = 1000.0;     // W/m2
constexpr double least_side_sun = 600.0;     // W/m2, MEASUREMENT M9

/// Of a set-up before the shots, or of a panel that nothing strikes: shaded or worn ones give more,
/// kilowatts typed for watts and a slipped decimal point less.
constexpr double least_of_rated_power = 0.2;

const char* const side_slip =
    "is a decimal point or a unit wrong? Mend it; if it is as read, leave it";

std::string side_figure(double value) {
  return fmt::format("{:.6g}", value);
}

class SideChecks {
public:
  SideChecks(const Record& record, bool panel_fine, Diagnostics& notes)
      : record_(record), panel_fine_(panel_fine), notes_(notes) {
    find_days();
  }

  void check() {
    for (const ShadeTrial& trial : record_.shading)
      check_trial(trial);
    for (const MeterSession& session : record_.energy)
      check_session(session);
    check_readings();
    if (!record_.curves) return;
    for (const auto* stage : {&record_.curves->before, &record_.curves->after}) {
      for (const CurveReading& reading : *stage)
        check_reading(reading);
    }
  }

private:
  /// From the first thing done to the panel to the last one.
  void find_days() {
    first_ = last_ = record_.stresses.empty() || !record_.shots.empty() ? record_.date : "";
    for (const StressDone& done : record_.stresses) {
      const std::string& day = done.date.empty() ? record_.date : done.date;
      if (day.empty()) continue;
      first_ = first_.empty() ? day : std::min(first_, day);
      last_ = std::max(last_, day);
    }
  }

  void check_date(const std::string& date, bool after, const SourceSpan& where) {
    if (date.empty() || first_.empty()) return;
    if (after ? date >= first_ : date <= last_) return;
    notes_.error("C59", where,
                 fmt::format("this was read {} what was done to the panel, and it is dated {}, {} "
                             "{}",
                             after ? "after" : "before", date, after ? "before" : "after",
                             after ? first_ : last_),
                 {"mend its  date:  or its  when:,  or the day of the record"});
  }

  void doubt(const SourceSpan& where, std::string message) {
    notes_.warning("C58", where, std::move(message), {side_slip});
  }

  void check_trial(const ShadeTrial& trial) {
    check_date(trial.date, trial.after, trial.origin);
    if (trial.open_free && trial.open_shaded &&
        trial.open_shaded->si() > risen_voltage * trial.open_free->si()) {
      notes_.error(
          "C57", trial.origin,
          fmt::format("the open-circuit voltage rises in the shade, from {} V to {} V",
                      side_figure(trial.open_free->si()), side_figure(trial.open_shaded->si())),
          {"no shade does that: were  free  and  shaded  exchanged, or is a digit wrong?"});
    }
    for (const ShadeRound& round : trial.rounds)
      check_round(round);
  }

  void check_round(const ShadeRound& r) {
    const double free_sun = r.sun_free.si();
    const double shaded_sun = r.sun_shaded.si();
    if (!(free_sun > 0.0) || !(shaded_sun > 0.0) || !(r.free.si() > 0.0)) return;
    if (std::max(free_sun, shaded_sun) > suns_apart * std::min(free_sun, shaded_sun)) {
      doubt(r.origin, fmt::format("the irradiance is {} W/m2 without the shade and {} W/m2 in it, "
                                  "in one round",
                                  side_figure(free_sun), side_figure(shaded_sun)));
      return;
    }
    if (r.shaded.si() / shaded_sun > risen_power * r.free.si() / free_sun) {
      doubt(r.origin,
            fmt::format("the power is larger in the shade than without it, {} W and {} W, at the "
                        "irradiance of this round",
                        side_figure(r.shaded.si()), side_figure(r.free.si())));
    }
  }

  void check_session(const MeterSession& s) {
    check_date(s.date, s.after, s.origin);
    const auto& rated = record_.panel.rated_power;
    if (!panel_fine_ || !rated || !(s.lasting.si() > 0.0)) return;
    // Between its ends the sun may be higher than at both, at noon; never above full sun for long.
    const double sun = s.sun_start && s.sun_end && s.lasting.si() <= 3600.0
                           ? std::max(s.sun_start->si(), s.sun_end->si())
                           : full_side_sun;
    const double mean = s.energy.si() / s.lasting.si();
    if (mean <= most_of_rated_power * rated->si() * sun / full_side_sun) return;
    doubt(s.origin,
          fmt::format("{} W on average, and a panel rated {} W gives about {} W at {} W/m2",
                      fmt::format("{:.4g}", mean), side_figure(rated->si()),
                      fmt::format("{:.3g}", rated->si() * sun / full_side_sun), side_figure(sun)));
  }

  /// The rating of the panel of a reading; nothing where none is known.
  [[nodiscard]] std::optional<Power> rated_power_of(const Reading& r) const {
    if (r.role != Role::control) return panel_fine_ ? record_.panel.rated_power : std::nullopt;
    return record_.control ? record_.control->rated_power : std::nullopt;
  }

  /// The table or the log that a reading comes from: the first file of a log of several.
  [[nodiscard]] std::uint32_t source_of(const Reading& r) const {
    const LogUse* log = log_of(record_, r.setup);
    return log != nullptr ? log->question.first_file : r.origin.file;
  }

  /// Power over what the rating gives at the sun of the reading; nothing where that is not known.
  [[nodiscard]] std::optional<double> share_of_rating(const Reading& r) const {
    const std::optional<Power> rated = rated_power_of(r);
    if (!rated || !r.measured || !r.skip.empty()) return std::nullopt;
    const double due_w = rated->si() * r.irradiance.si() / full_side_sun;
    return due_w > 0.0 ? std::optional(r.power.si() / due_w) : std::nullopt;
  }

  /// One panel in one set-up.
  struct ReadingBlock {
    double sum = 0.0;
    int readings = 0;
    const Reading *least = nullptr, *most = nullptr;  ///< by their share of the rating
    double least_share = 0.0, most_share = 0.0;
  };

  /// Says it once for a table or a log: one wrong unit is wrong in all its rows. A block is looked
  /// at as a whole, since single rows of a log lie apart where a cloud passes.
  void check_readings() {
    std::map<std::tuple<std::size_t, Role, std::size_t>, ReadingBlock> blocks;
    for (const Reading& r : record_.readings) {
      const auto share = share_of_rating(r);
      if (!share) continue;
      ReadingBlock& block = blocks[{r.setup, r.role, r.unit}];
      block.sum += *share;
      ++block.readings;
      if (block.least == nullptr || *share < block.least_share) {
        block.least = &r;
        block.least_share = *share;
      }
      if (block.most == nullptr || *share > block.most_share) {
        block.most = &r;
        block.most_share = *share;
      }
    }
    std::set<std::uint32_t> told;
    for (const auto& [key, block] : blocks) {
      const Reading* doubtful = doubtful_of(block);
      if (doubtful != nullptr && told.insert(source_of(*doubtful)).second) doubt_reading(*doubtful);
    }
  }

  /// The reading that shows best that a block is far from the rating; nullptr where it is not.
  [[nodiscard]] const Reading* doubtful_of(const ReadingBlock& block) const {
    const double mean = block.sum / block.readings;
    if (mean > most_of_rated_power) return block.most;
    const StageKind stage = record_.setups[block.least->setup].stage.kind;
    const bool untouched = block.least->role != Role::struck || stage == StageKind::before ||
                           stage == StageKind::baseline;
    return untouched && mean < least_of_rated_power ? block.least : nullptr;
  }

  void doubt_reading(const Reading& r) {
    const double rated_w = rated_power_of(r)->si();
    const double sun = r.irradiance.si();
    doubt(r.origin,
          fmt::format("set-up {} has {} W at {} W/m2, and a panel rated {} W gives about "
                      "{:.3g} W there",
                      record_.setups[r.setup].name, side_figure(r.power.si()), side_figure(sun),
                      side_figure(rated_w), rated_w * sun / full_side_sun));
  }

  /// @param share  part of the rating that the sun of the reading lets expect
  template <class Q>
  void hold_to_rating(const CurveReading& r, const char* what, const std::optional<Q>& read,
                      const std::optional<Q>& rating, double share, const char* unit) {
    if (!panel_fine_ || !read || !rating) return;
    if (read->si() <= most_of_rating * rating->si() * share) return;
    doubt(r.origin, fmt::format("{} is {} {}, and the panel is rated {} {}", what,
                                side_figure(read->si()), unit, side_figure(rating->si()), unit));
  }

  void check_reading(const CurveReading& r) {
    const Panel& panel = record_.panel;
    const double share = std::max(1.0, r.sun.si() / full_side_sun);
    hold_to_rating(r, "the open-circuit voltage", r.open_circuit, panel.open_voltage, 1.0, "V");
    hold_to_rating(r, "the voltage at maximum power", r.at_maximum, panel.open_voltage, 1.0, "V");
    hold_to_rating(r, "the short-circuit current", r.short_circuit, panel.short_current, share,
                   "A");
    hold_to_rating(r, "the current at maximum power", r.current_at_maximum, panel.short_current,
                   share, "A");
    if (r.sun.si() > 0.0 && r.sun.si() < least_side_sun) {
      doubt(r.origin,
            fmt::format("the irradiance of this reading is {} W/m2; readings that are compared "
                        "want {} W/m2 or more (rule M9)",
                        side_figure(r.sun.si()), side_figure(least_side_sun)));
    }
  }

  const Record& record_;
  bool panel_fine_;
  Diagnostics& notes_;
  std::string first_, last_;
};

}  // namespace

void check_side_measurements(const Record& record, bool panel_fine, Diagnostics& notes) {
  SideChecks(record, panel_fine, notes).check();
}

}  // namespace hailwright::input
