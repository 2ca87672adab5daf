#include "report/report_rows.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <span>
#include <tuple>
#include <utility>

#include "evaluate/scatter_choice.hpp"
#include "evaluate/setup_units.hpp"
#include "evaluate/sibling_units.hpp"
#include "report/judged_stages.hpp"
#include "report/power_picture_data.hpp"
#include "report/sentences.hpp"

namespace hailwright {

namespace {

/// Sums of weighted q that should be the same and were added in another order.
constexpr double rounding = 1e-9;

bool counts(const Reading& r) {
  return r.measured && r.skip.empty();
}

/// ln of the normalised power; none where a value is missing or has no logarithm.
std::optional<double> q_of(const Test& test, const Reading& r) {
  if (!r.measured || r.power.si() <= 0.0 || r.irradiance.si() <= 0.0) return std::nullopt;
  const double q = log_power(test, r);
  return std::isfinite(q) ? std::optional(q) : std::nullopt;
}

/// Weight of each reading in the mean of q of the untouched panel, by index.
std::map<std::size_t, double> weights_in_power(const Test& test) {
  const PowerQuestion question{
      {StageKind::before, 0}, {StageKind::later, 0}, PowerQuestion::Of::struck};
  const std::vector<UnitSetup> before = collect_stage_blocks(test, question).from;
  const std::vector<double> shares = stage_weights(before, false);
  std::map<std::size_t, double> weights;
  for (std::size_t i = 0; i < before.size(); ++i) {
    for (const WeighedReading& r : before[i].readings) {
      const auto index = static_cast<std::size_t>(r.reading - test.record.readings.data());
      weights[index] = shares[i] * r.weight;
    }
  }
  return weights;
}

/// A value of a set-up with what is known of its readings' weights.
struct Valued {
  SetupValue value;
  std::string panel;  ///< whose value, where several panels have one
  std::map<const Reading*, double> weights;
  std::optional<double> mean_before_q{};
};

void add_values(std::vector<Valued>& values, const std::vector<UnitSetup>& block) {
  for (const UnitSetup& unit : block) {
    Valued& valued = values.emplace_back(Valued{summary_of(unit), {}, {}});
    for (const WeighedReading& r : unit.readings)
      valued.weights[r.reading] = r.weight;
  }
}

void add_values(std::vector<Valued>& values, const std::vector<PanelSetups>& panels,
                const Record& record) {
  for (const PanelSetups& of : panels) {
    Reading like;
    like.role = of.panel.role;
    like.unit = of.panel.unit;
    for (const SetupValue& value : of.setups)
      values.push_back({value, panel_text(like, record), {}});
  }
}

/// The values that a comparison is made of, and also those of one that cannot be made.
std::vector<Valued> values_of(const Test& test, const PowerResult& p) {
  const PowerQuestion question = stage_question(test.protocol, p.from, p.stage);
  std::vector<Valued> values;
  if (question.of == PowerQuestion::Of::siblings) {
    const SiblingBlocks blocks = collect_sibling_blocks(test, question);
    add_values(values, blocks.struck, test.record);
    add_values(values, blocks.unstruck, test.record);
  } else {
    const StageBlocks blocks = collect_stage_blocks(test, question);
    for (const auto* block : {&blocks.from, &blocks.to, &blocks.baseline})
      add_values(values, *block);
  }
  return values;
}

/// Adds the rows of one record.
class RecordRows {
public:
  RecordRows(const Judged& judged, std::size_t record, ReportRows& rows)
      : test_(*judged.test), a_(*judged.assessment), record_(record), rows_(rows),
        first_(rows.readings.size()) {}

  void add() {
    readings();
    weights();
    setups();
    const std::size_t count = rows_.readings.size() - first_;
    for (const PowerResult* p : all_stages(a_))
      rows_.comparisons.push_back({record_, p, first_, count});
    if (all_stages(a_).empty()) rows_.comparisons.push_back({record_, nullptr, first_, count});
  }

private:
  void readings() {
    const Record& record = test_.record;
    for (std::size_t i = 0; i < record.readings.size(); ++i) {
      const Reading& r = record.readings[i];
      rows_.readings.push_back({record_,
                                i,
                                panel_text(r, record),
                                q_of(test_, r),
                                std::vector<std::optional<double>>(rows_.stages.size()),
                                {}});
    }
    const bool by_panel = test_.protocol.measure.compare == Comparison::sibling_panel;
    const auto key = [&](const ReadingRow& row) {
      const Reading& r = record.readings[row.reading];
      return by_panel ? std::tuple(r.setup, r.role, r.unit) : std::tuple(r.setup, Role{}, 0UL);
    };
    std::stable_sort(rows_.readings.begin() + static_cast<std::ptrdiff_t>(first_),
                     rows_.readings.end(),
                     [&](const auto& x, const auto& y) { return key(x) < key(y); });
  }

  [[nodiscard]] std::span<ReadingRow> mine() { return std::span(rows_.readings).subspan(first_); }

  void weights() {
    std::vector<ReadingRow*> by_reading(test_.record.readings.size(), nullptr);
    for (ReadingRow& row : mine())
      by_reading[row.reading] = &row;
    for (const auto& [index, weight] : weights_in_power(test_))
      by_reading[index]->weight_in_power = weight;
    for (const PowerResult* p : all_stages(a_)) {
      if (!p->estimated()) continue;
      const std::string stage = stage_text(p->stage, test_);
      const auto column = static_cast<std::size_t>(
          std::find(rows_.stages.begin(), rows_.stages.end(), stage) - rows_.stages.begin());
      for (const PowerModel::Term& term : p->model->terms)
        by_reading[term.index]->weights[column] = term.weight;
    }
  }

  /// Each value once, in the order of the set-ups: a stage before the shots is compared with every
  /// later one.
  void setups() {
    std::map<std::pair<std::size_t, std::string>, Valued> values;
    for (const PowerResult* p : all_stages(a_)) {
      std::optional<double> mean_before_q;
      if (p->estimated()) mean_before_q = detail::view_power(test_, *p).from_q;
      for (Valued& v : values_of(test_, *p)) {
        v.mean_before_q = mean_before_q;
        values.try_emplace({v.value.setup, v.panel}, std::move(v));
      }
    }
    for (std::size_t s = 0; s < test_.record.setups.size(); ++s) {
      auto at = values.lower_bound({s, ""});
      if (at == values.end() || at->first.first != s) setup(nullptr, s);
      for (; at != values.end() && at->first.first == s; ++at)
        setup(&at->second, s);
    }
  }

  void setup(const Valued* valued, std::size_t index) {
    SetupRow row;
    row.record = record_;
    row.setup = index;
    row.value_of = valued != nullptr ? value_of(*valued) : "";
    std::size_t i = first_;
    for (const ReadingRow& r : mine()) {
      const bool inside = test_.record.readings[r.reading].setup == index &&
                          (valued == nullptr || valued->panel.empty() || r.panel == valued->panel);
      if (inside && row.count++ == 0) row.first = i;
      ++i;
    }
    if (valued != nullptr) {
      row.value = valued->value;
      row.mean_before_q = valued->mean_before_q;
      row.weights = weights_of(*valued, row);
    }
    rows_.setups.push_back(std::move(row));
  }

  [[nodiscard]] std::string value_of(const Valued& valued) const {
    if (!valued.panel.empty()) return valued.panel;
    return test_.protocol.measure.compare == Comparison::control_panel ? "panel to control"
                                                                       : "panel";
  }

  /// Those that the comparison has. Of panels that have values of their own those of plain means,
  /// where they give the value.
  [[nodiscard]] std::vector<std::optional<double>> weights_of(const Valued& valued,
                                                              const SetupRow& row) const {
    std::vector<std::optional<double>> weights(row.count);
    double sum = 0.0;
    for (std::size_t i = 0; i < row.count; ++i) {
      const ReadingRow& r = rows_.readings[row.first + i];
      const Reading& reading = test_.record.readings[r.reading];
      const auto known = valued.weights.find(&reading);
      if (known != valued.weights.end()) weights[i] = known->second;
      if (valued.weights.empty() && counts(reading)) weights[i] = 1.0 / valued.value.readings;
      if (weights[i]) sum += *weights[i] * r.q.value_or(0.0);
    }
    if (std::abs(sum - valued.value.q) > rounding) return {};
    return weights;
  }

  const Test& test_;
  const Assessment& a_;
  std::size_t record_;
  ReportRows& rows_;
  std::size_t first_;
};

}  // namespace

ReportRows report_rows(const WriteUp& write_up) {
  ReportRows rows;
  for (const Judged& judged : write_up.judged) {
    for (const PowerResult* p : all_stages(*judged.assessment)) {
      std::string stage = stage_text(p->stage, *judged.test);
      if (p->estimated() &&
          std::find(rows.stages.begin(), rows.stages.end(), stage) == rows.stages.end())
        rows.stages.push_back(std::move(stage));
    }
  }
  for (std::size_t i = 0; i < write_up.judged.size(); ++i)
    RecordRows(write_up.judged[i], i, rows).add();
  return rows;
}

}  // namespace hailwright
