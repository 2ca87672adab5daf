#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "input/shared_ranges.hpp"
#include "input/table.hpp"
#include "input/table_clock.hpp"
#include "input/table_columns.hpp"
#include "input/table_labels.hpp"
#include "input/table_rules.hpp"
#include "input/table_setups.hpp"

namespace hailwright::input {

namespace {

constexpr Limits power_limits{0.0, most_power_w, true, "above 0 W, up to 100 kW"};
/// Total solar irradiance at the mean distance of the earth: Kopp and Lean 2011, 1360.8 W/m2 (from
/// memory).
constexpr Irradiance brightest_sun = Irradiance::from_si(1361.0);
constexpr Limits sun_limits{0.0, most_irradiance_w_m2, true, "above 0 W/m2, up to 2000 W/m2"};
// What a panel in the sun can show [ours].
constexpr Limits temp_limits{213.15, 423.15, false, "from -60 degC to 150 degC"};
constexpr Limits battery_limits{0.0, 1.0, false, "from 0 % to 100 %"};

class ReadingReader {
public:
  ReadingReader(const Sheet& sheet, const Protocol& protocol, const std::string& day,
                std::vector<Setup>& setups, std::vector<SetupRows> of_logs, Diagnostics& notes)
      : sheet_(sheet), protocol_(protocol), day_(day), setups_(setups), rows_(std::move(of_logs)),
        notes_(notes) {
    rows_.resize(setups.size());
  }

  /// nullopt when the row names no set-up or lacks a value.
  std::optional<Reading> read(const CellRow& row, const Whose& whose) {
    const auto setup = find_setup(row);
    if (!setup) return std::nullopt;
    Reading reading;
    reading.origin = row.origin;
    reading.setup = *setup;
    reading.role = whose.role;
    reading.unit = whose.unit;
    SetupRows& rows = rows_[*setup];
    if (!rows.first_row) rows.first_row = row.origin;
    rows.seen[static_cast<std::size_t>(whose.role)] = true;
    if (const Cell* time = sheet_.cell(row, "time")) {
      if (const auto moment = read_moment(*time, {}, notes_)) {
        reading.minute = moment->minute;
        note_time(rows, *moment, setups_[*setup].name, notes_);
      }
    }
    constexpr int most_rounds = 100'000;
    reading.round = sheet_.count(row, "round", 1, most_rounds, notes_);
    read_battery(row, setups_[*setup]);
    read_skip(row, reading);
    if (!read_values(row, reading)) return std::nullopt;
    return reading;
  }

  [[nodiscard]] const std::vector<SetupRows>& rows() const { return rows_; }

private:
  std::optional<std::size_t> find_setup(const CellRow& row) {
    const Cell* cell = sheet_.required_cell(row, "setup", notes_);
    if (cell == nullptr) return std::nullopt;
    const auto [known, is_new] = by_name_.try_emplace(std::string(cell->text), std::nullopt);
    if (!is_new) return known->second;
    const auto name = read_setup_name(cell->text, cell->origin, protocol_, notes_);
    if (!name) return std::nullopt;
    const auto same = std::find_if(setups_.begin(), setups_.end(), [&](const Setup& s) {
      return s.stage == name->first && s.number == name->second;
    });
    known->second = static_cast<std::size_t>(same - setups_.begin());
    if (same != setups_.end() && rows_[*known->second].from_log) {
      report_in_log(*cell, rows_[*known->second]);
      return known->second = std::nullopt;
    }
    if (same == setups_.end()) {
      Setup setup;
      setup.origin = cell->origin;
      setup.name = cell->text;
      setup.stage = name->first;
      setup.number = name->second;
      setup.date = day_;
      setups_.push_back(std::move(setup));
      rows_.emplace_back();
    }
    return known->second;
  }

  void report_in_log(const Cell& cell, const SetupRows& rows) {
    notes_
        .error("C05", cell.origin,
               fmt::format("set-up {} is read from a log and stands in the table too",
                           shown(cell.text)),
               {"delete its rows here, or its stretch of the log"})
        .related.push_back({*rows.first_row, "its first row in the log"});
  }

  void read_battery(const CellRow& row, Setup& setup) {
    const auto share = sheet_.value(row, "battery", battery_limits, notes_);
    if (!share) return;
    const Ratio battery = Ratio::from_si(*share);
    if (!setup.battery || *setup.battery < battery) setup.battery = battery;
  }

  void read_skip(const CellRow& row, Reading& reading) {
    const Cell* cell = sheet_.cell(row, "skip");
    if (cell == nullptr) return;
    reading.skip = cell->text;
    static const std::vector<std::string> no_reasons{"no", "yes", "y",    "n",    "x",    "-",
                                                     "0",  "1",   "skip", "true", "false"};
    if (std::find(no_reasons.begin(), no_reasons.end(), reading.skip) == no_reasons.end()) return;
    notes_.error(
        "T16", cell->origin,
        fmt::format("{} is no reason to leave a reading out", shown(reading.skip)),
        {"say why it does not count:  cloud", "a reading that counts has a blank cell here"});
  }

  /// False when a value is missing or wrong.
  bool read_values(const CellRow& row, Reading& reading) {
    const auto cell = [&](std::string_view column) {
      return reading.skip.empty() ? sheet_.required_cell(row, column, notes_)
                                  : sheet_.cell(row, column);
    };
    bool complete = true;
    for (const std::string_view column : {"power", "sun", "temp"})
      complete = cell(column) != nullptr && complete;
    const auto watts = sheet_.value(row, "power", power_limits, notes_);
    const auto watts_m2 = sheet_.value(row, "sun", sun_limits, notes_);
    const auto kelvin = sheet_.value(row, "temp", temp_limits, notes_);
    reading.measured = complete;
    if (!complete) return !reading.skip.empty();
    if (!watts || !watts_m2 || !kelvin) return false;
    reading.power = Power::from_si(*watts);
    reading.irradiance = Irradiance::from_si(*watts_m2);
    look_at_sun(row, reading.irradiance);
    reading.temperature = TemperaturePoint::from_kelvin(*kelvin);
    return true;
  }

  /// Bright edges of clouds add to the sun for seconds, in which no power is measured.
  void look_at_sun(const CellRow& row, Irradiance sun) {
    if (sun <= brightest_sun) return;
    notes_.warning("T14", sheet_.cell(row, "sun")->origin,
                   fmt::format("sun of {:.0f} W/m2 is more than {:.0f} W/m2, which reach the earth "
                               "above the air",
                               sun.si(), brightest_sun.si()),
                   {"check the digits, and what the irradiance meter was set to",
                    "at the edge of a cloud, wait and read again"});
  }

  const Sheet& sheet_;
  const Protocol& protocol_;
  const std::string& day_;
  std::vector<Setup>& setups_;
  std::vector<SetupRows> rows_;  ///< goes along with setups_
  std::map<std::string, std::optional<std::size_t>> by_name_;
  Diagnostics& notes_;
};

/// A round holds one reading of each panel, and either all readings of a set-up say theirs or none.
void check_rounds(const std::vector<Reading>& readings, const std::vector<Setup>& setups,
                  Diagnostics& notes) {
  std::map<std::tuple<std::size_t, Role, std::size_t, int>, SourceSpan> taken;
  std::map<std::size_t, const Reading*> first_of;
  for (const Reading& r : readings) {
    const std::string name = shown(setups[r.setup].name);
    const Reading* first = first_of.try_emplace(r.setup, &r).first->second;
    if (first->round.has_value() != r.round.has_value()) {
      notes
          .error("T32", r.origin,
                 fmt::format("some readings of set-up {} have a round and others none", name),
                 {"give each reading its round, or none in this set-up"})
          .related.push_back({first->origin, "the first reading of the set-up"});
      return;
    }
    if (!r.round) continue;
    const auto [same, is_new] = taken.try_emplace({r.setup, r.role, r.unit, *r.round}, r.origin);
    if (is_new) continue;
    notes
        .error("T32", r.origin,
               fmt::format("round {} of set-up {} has two readings of one panel", *r.round, name),
               {"number the rounds 1, 2, 3, ...: one reading of each panel in each"})
        .related.push_back({same->second, "the other one"});
  }
}

}  // namespace

std::vector<ColumnRule> reading_columns(bool several_panels) {
  return {
      {.name = "setup",
       .required = true,
       .from_above = true,
       .means = "name of the set-up: before 1, after 1, after small 1, baseline 1, later 1"},
      {.name = "panel",
       .required = several_panels,
       .from_above = true,
       .means = "label of the panel, as in the record; needed with a control panel or siblings"},
      {.name = "time", .holds = Holds::clock, .means = "hours and minutes, 24 hours a day: 13:05"},
      {.name = "round",
       .holds = Holds::count,
       .means = "readings of several panels with the same number belong together"},
      {.name = "power",
       .holds = Holds::quantity,
       .measure = Measure::power,
       .unit = "W",
       .required = true,
       .means = "as the power meter shows it"},
      {.name = "sun",
       .holds = Holds::quantity,
       .measure = Measure::irradiance,
       .unit = "W/m2",
       .required = true,
       .means = "as the irradiance meter shows it"},
      {.name = "temp",
       .holds = Holds::quantity,
       .measure = Measure::temperature,
       .unit = "degC",
       .required = true,
       .means = "of the panel, where the protocol's thermometer sits"},
      {.name = "battery",
       .holds = Holds::quantity,
       .measure = Measure::ratio,
       .unit = "%",
       .means = "how full the battery is, where one is the load"},
      {.name = "skip",
       .means = "why this reading does not count, in a word or more (cloud); blank: it counts"},
  };
}

std::vector<Reading> read_readings(const TableSource& source, const Protocol& protocol,
                                   const TableLabels& labels, const std::string& day,
                                   std::vector<Setup>& setups,
                                   const std::vector<SetupRows>& of_logs, Diagnostics& notes) {
  const bool several_panels = labels.control_expected || !labels.siblings.empty();
  const Sheet sheet(source, reading_columns(several_panels), notes);
  std::vector<Reading> readings;
  if (!sheet.usable()) return readings;
  ReadingReader reader(sheet, protocol, day, setups, of_logs, notes);
  PanelSorter sorter(sheet, labels);
  MessageLimit limit(notes);
  for (const CellRow& row : sheet.rows()) {
    if (limit.reached(row.origin, notes)) return readings;
    const auto whose = sorter.sort(row, notes);
    if (!whose || whose->another) continue;
    if (auto reading = reader.read(row, *whose)) readings.push_back(std::move(*reading));
  }
  sorter.check_labels(true, notes);
  check_setups(setups, reader.rows(), labels, day, notes);
  check_rounds(readings, setups, notes);
  return readings;
}

}  // namespace hailwright::input
