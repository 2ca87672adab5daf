#include "report/stretch_table.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/logs/log_stream.hpp"
#include "report/readings_clock.hpp"

namespace hailwright {

namespace {

DataCell stretch_cell(double value) {
  return std::isfinite(value) ? DataCell(value) : DataCell(std::monostate{});
}

/// Columns and cells one by one, so that they stay together.
class TableMaker {
public:
  /// @param table  its rows hold the first cells of each
  TableMaker(DataTable table, const std::vector<StretchRow>& rows, StretchTimes shown)
      : entries_(rows), shown_(shown), table_(std::move(table)) {}

  DataTable make() {
    times();
    count("rows", [](const LogStretch& s) { return s.rows; });
    column({"time bridged", "s", 0},
           [](const StretchRow& e) { return stretch_cell(e.stretch.bridged_s); });
    number("energy", "Wh", [](const StretchNumbers& n) { return n.energy; });
    number("mean power", "W", [](const StretchNumbers& n) { return n.mean_power; });
    number("normalised power", "W", [](const StretchNumbers& n) { return n.normalised; });
    number("normalised power, second", "W",
           [](const StretchNumbers& n) { return n.normalised_beside; });
    number("second over first", "", [](const StretchNumbers& n) { return n.ratio; });
    series();
    gaps();
    counter();
    removed();
    return std::move(table_);
  }

private:
  template <class Cell>
  void column(DataColumn head, Cell cell_of) {
    table_.columns.push_back(std::move(head));
    for (std::size_t i = 0; i < entries_.size(); ++i)
      table_.rows[i].push_back(cell_of(entries_[i]));
  }

  /// For people as clocks show it; for machines as ISO 8601.
  void times() {
    const auto first = [](const LogStretch& stretch) { return stretch.from_us; };
    const auto last = [](const LogStretch& stretch) { return stretch.to_us; };
    add_time({"from", ""}, first, clock());
    add_time({"to", ""}, last, clock());
    add_time(for_machines({"first row", ""}), first, iso_time);
    add_time(for_machines({"last row", ""}), last, iso_time);
  }

  using TimeText = std::function<std::string(std::int64_t us, const std::string& zone)>;

  [[nodiscard]] TimeText clock() const {
    const bool seconds = shown_ == StretchTimes::second;
    return [seconds](std::int64_t us, const std::string& zone) {
      const LocalClock c = local_clock(us, zone);
      return c.date + ' ' + (seconds ? c.clock : c.minute());
    };
  }

  void add_time(DataColumn head, std::int64_t (*of)(const LogStretch&), const TimeText& text) {
    column(std::move(head), [&](const StretchRow& e) -> DataCell {
      if (e.stretch.rows == 0) return std::monostate{};
      return text(of(e.stretch), e.zone);
    });
  }

  template <class Count>
  void count(const std::string& title, Count count_of, bool machines = false) {
    DataColumn head{title, "", 0};
    if (machines) head = for_machines(head);
    column(std::move(head), [&](const StretchRow& e) -> DataCell {
      return static_cast<double>(count_of(e.stretch));
    });
  }

  /// Value and half of its interval; standard uncertainty and degrees of freedom for machines.
  template <class Of>
  void number(const std::string& title, const char* unit, Of of) {
    using Number = typename decltype(of(entries_.front().numbers))::value_type;
    using Q = decltype(Number{}.estimate.value);
    const Unit* in = *unit == '\0' ? nullptr : find_unit(unit, MeasureOf<Q>::value);
    const auto shown = [in](double si) { return in == nullptr ? si : number_in(si, *in); };
    int decimals = 0;
    for (const StretchRow& e : entries_) {
      const auto n = of(e.numbers);
      if (n) decimals = std::max(decimals, decimals_for(shown(n->estimate.standard_u.si())));
    }
    decimals = std::min(decimals, 4);
    const auto add = [&](DataColumn head, auto part) {
      column(std::move(head), [&](const StretchRow& e) -> DataCell {
        const auto n = of(e.numbers);
        return n ? stretch_cell(part(*n)) : DataCell(std::monostate{});
      });
    };
    add({title, unit, decimals}, [&](const Number& n) { return shown(n.estimate.value.si()); });
    add({"± " + title, unit, decimals},
        [&](const Number& n) { return shown(n.half_width().si()); });
    add(for_machines({title + ", standard uncertainty", unit, decimals}),
        [&](const Number& n) { return shown(n.estimate.standard_u.si()); });
    add(for_machines({title + ", degrees of freedom", "", 1}),
        [](const Number& n) { return n.estimate.degrees_of_freedom; });
  }

  void series() {
    const auto of = [](const LogStretch& s) -> const SeriesMean& {
      return s.normalised ? *s.normalised : s.power_series;
    };
    count(
        "readings", [of](const LogStretch& s) { return of(s).count; }, true);
    column(for_machines({"independent readings", "", 1}),
           [of](const StretchRow& e) { return stretch_cell(of(e.stretch).effective); });
    column(for_machines({"lag-1 autocorrelation", "", 3}),
           [of](const StretchRow& e) { return stretch_cell(of(e.stretch).lag1); });
  }

  void gaps() {
    count(
        "gaps", [](const LogStretch& s) { return s.gaps; }, true);
    column(for_machines({"time in gaps", "s", 0}),
           [](const StretchRow& e) { return stretch_cell(e.stretch.in_gaps_s); });
  }

  void counter() {
    const auto add = [this](DataColumn head, auto part) {
      column(for_machines(std::move(head)), [part](const StretchRow& e) -> DataCell {
        return e.stretch.counter ? stretch_cell(part(*e.stretch.counter))
                                 : DataCell(std::monostate{});
      });
    };
    add({"counted energy", "Wh", 1},
        [](const CounterReading& c) { return c.counted.si() / 3600.0; });
    add({"counted in gaps", "Wh", 1},
        [](const CounterReading& c) { return c.in_gaps.si() / 3600.0; });
    add({"counter resets", "", 0},
        [](const CounterReading& c) { return static_cast<double>(c.resets); });
    add({"counter steps back", "", 0},
        [](const CounterReading& c) { return static_cast<double>(c.steps_back); });
    add({"counter wrap-arounds", "", 0},
        [](const CounterReading& c) { return static_cast<double>(c.wraps); });
  }

  void removed() {
    const auto add = [this](const char* title, std::int64_t SteadyTally::*rows) {
      column(for_machines({title, "", 0}), [rows](const StretchRow& e) -> DataCell {
        return e.stretch.steady ? DataCell(static_cast<double>((*e.stretch.steady).*rows))
                                : DataCell(std::monostate{});
      });
    };
    add("rows kept", &SteadyTally::rows_kept);
    add("rows removed, irradiance changed", &SteadyTally::rows_irradiance);
    add("rows removed, irradiance drifted", &SteadyTally::rows_ramp);
    add("rows removed, temperature changed", &SteadyTally::rows_temperature);
    add("rows removed, broken window", &SteadyTally::rows_broken);
  }

  const std::vector<StretchRow>& entries_;
  StretchTimes shown_;
  DataTable table_;
};

}  // namespace

DataTable stretch_table(DataTable table, const std::vector<StretchRow>& rows, StretchTimes shown) {
  expects(table.rows.size() == rows.size(), "first cells of each row");
  return TableMaker(std::move(table), rows, shown).make();
}

}  // namespace hailwright
