#include "report/power_picture_data.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <set>

#include "evaluate/setup_units.hpp"
#include "hailwright/core/contract.hpp"
#include "report/sentences.hpp"

namespace hailwright::detail {

namespace {

/// Gathers one view.
class Viewer {
public:
  Viewer(const Test& test, const PowerResult& power)
      : test_(test), power_(power), model_(*power.model) {
    view_.siblings = model_.siblings.has_value();
    view_.per_cent = test.protocol.measure.compare == Comparison::control_panel;
    question_.of = view_.per_cent ? PowerQuestion::Of::both : PowerQuestion::Of::struck;
    question_.keep_skipped = true;
    for (const std::size_t index : power.outlying)
      outlying_.insert(&test.record.readings.at(index));
    from_q_ = view_.siblings ? mean_of_units() : mean_by_weights();
  }

  PowerView view() {
    add_levels();
    if (view_.siblings) {
      add_units();
    } else {
      add_before();
    }
    add_group(view_.siblings ? "panel" : stage_text(power_.stage, test_), model_.to, struck(),
              true);
    return std::move(view_);
  }

private:
  using Panels = std::vector<PanelOf>;

  [[nodiscard]] Panels struck() const {
    return view_.per_cent ? Panels{{Role::struck, 0}, {Role::control, 0}}
                          : Panels{{Role::struck, 0}};
  }

  [[nodiscard]] double mean_of_units() const {
    const auto& units = model_.siblings->units;
    const double sum =
        std::accumulate(units.begin(), units.end(), 0.0,
                        [](double s, const SiblingSpread::Unit& u) { return s + u.q; });
    return sum / static_cast<double>(units.size());
  }

  /// Weights of the set-ups before the shots add up to -1: of days, set-ups or about a line in
  /// time.
  [[nodiscard]] double mean_by_weights() const {
    double mean = 0.0;
    for (const SetupValue& s : model_.from) {
      for (const PowerModel::Term& term : model_.terms) {
        const Reading& reading = test_.record.readings.at(term.index);
        if (reading.setup == s.setup && reading.role != Role::control) mean -= term.weight * s.q;
      }
    }
    return mean;
  }

  /// A logarithm in the unit of the axis.
  [[nodiscard]] double shown(double q) const {
    return view_.per_cent ? 100.0 * std::exp(q - from_q_) : std::exp(q);
  }

  void add_levels() {
    const LossEstimate& e = power_.estimate;
    view_.from_q = from_q_;
    view_.from = shown(from_q_);
    view_.to = view_.from * (1.0 - e.loss().si());
    view_.to_interval = {view_.from * (1.0 - e.high().si()), view_.from * (1.0 - e.low().si())};
    view_.limit = view_.from * (1.0 - power_.limit.si());
  }

  void add_before() {
    const bool baseline_first =
        !model_.baseline.empty() && began(model_.baseline) < began(model_.from);
    if (baseline_first) add_baseline();
    const bool from_start = power_.from.kind == StageKind::before;
    add_group(from_start ? "before" : "earlier", model_.from, struck(), false);
    if (!model_.baseline.empty() && !baseline_first) add_baseline();
  }

  void add_baseline() { add_group("baseline", model_.baseline, struck(), false); }

  void add_units() {
    auto next = model_.from.begin();
    for (const SiblingSpread::Unit& unit : model_.siblings->units) {
      const std::vector<SetupValue> own(next, next + unit.setups);
      next += unit.setups;
      add_group("unit " + test_.record.siblings.at(unit.unit).label, own,
                {{Role::sibling, unit.unit}}, false);
    }
  }

  /// When a set-up was made, as far as is known.
  using Moment = std::pair<std::string, int>;
  [[nodiscard]] Moment moment(const SetupValue& s) const {
    constexpr int not_known = std::numeric_limits<int>::max();
    int first = not_known;
    for (const Reading& r : test_.record.readings) {
      if (r.setup == s.setup && r.minute) first = std::min(first, *r.minute);
    }
    return {test_.record.setups.at(s.setup).date, first};
  }

  [[nodiscard]] Moment began(const std::vector<SetupValue>& setups) const {
    Moment earliest = moment(setups.front());
    for (const SetupValue& s : setups)
      earliest = std::min(earliest, moment(s));
    return earliest;
  }

  void add_group(std::string title, std::vector<SetupValue> setups, const Panels& panels,
                 bool after) {
    std::stable_sort(setups.begin(), setups.end(), [&](const SetupValue& a, const SetupValue& b) {
      return moment(a) < moment(b);
    });
    PowerGroup group{std::move(title), after, {}};
    for (const SetupValue& s : setups)
      group.columns.push_back(column(s, panels));
    view_.groups.push_back(std::move(group));
  }

  [[nodiscard]] PowerColumn column(const SetupValue& s, const Panels& panels) const {
    const Setup& setup = test_.record.setups.at(s.setup);
    PowerColumn column{std::to_string(setup.number), setup.date, shown(s.q), {}, {}, {}};
    for (const Round& round : complete_rounds(test_, question_, s.setup, panels))
      add_round(column, round);
    return column;
  }

  void add_round(PowerColumn& column, const Round& round) const {
    double q = log_power(test_, *round.front());
    if (view_.per_cent) q -= log_power(test_, *round.back());
    const auto any = [&](const auto& is) { return std::any_of(round.begin(), round.end(), is); };
    if (any([](const Reading* r) { return !r->skip.empty(); })) {
      column.skipped.push_back(shown(q));
    } else if (any([&](const Reading* r) { return outlying_.contains(r); })) {
      column.apart.push_back(shown(q));
    } else {
      column.readings.push_back(shown(q));
    }
  }

  const Test& test_;
  const PowerResult& power_;
  const PowerModel& model_;
  PowerQuestion question_;
  std::set<const Reading*> outlying_;
  double from_q_ = 0.0;
  PowerView view_;
};

template <class Count>
std::size_t over_columns(const PowerView& view, const Count& count) {
  std::size_t sum = 0;
  for (const PowerGroup& group : view.groups) {
    for (const PowerColumn& column : group.columns)
      sum += count(column);
  }
  return sum;
}

}  // namespace

std::optional<std::string> PowerView::one_day() const {
  std::set<std::string> days;
  for (const PowerGroup& group : groups) {
    for (const PowerColumn& column : group.columns)
      days.insert(column.date);
  }
  if (days.size() != 1 || days.begin()->empty()) return std::nullopt;
  return *days.begin();
}

std::size_t PowerView::columns() const {
  return over_columns(*this, [](const PowerColumn&) { return std::size_t{1}; });
}

std::size_t PowerView::readings() const {
  return over_columns(*this,
                      [](const PowerColumn& c) { return c.readings.size() + c.apart.size(); });
}

std::size_t PowerView::skipped() const {
  return over_columns(*this, [](const PowerColumn& c) { return c.skipped.size(); });
}

std::size_t PowerView::apart() const {
  return over_columns(*this, [](const PowerColumn& c) { return c.apart.size(); });
}

Spread spread_of(std::vector<double> values) {
  expects(!values.empty(), "one reading or more");
  std::sort(values.begin(), values.end());
  const auto at = [&](double share) {
    const double place = share * static_cast<double>(values.size() - 1);
    const auto below = static_cast<std::size_t>(place);
    const std::size_t above = std::min(below + 1, values.size() - 1);
    return values[below] + (place - std::floor(place)) * (values[above] - values[below]);
  };
  return {values.front(), at(0.25), at(0.75), values.back()};
}

PowerView view_power(const Test& test, const PowerResult& power) {
  expects(power.estimated() && power.model, "a comparison that was made");
  return Viewer(test, power).view();
}

}  // namespace hailwright::detail
