#include "evaluate/setup_units.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "evaluate/panel_thermal.hpp"
#include "evaluate/setup_drift.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

/// The panels that a question looks at in one set-up, and how their means make its value.
struct Looked {
  std::vector<PanelOf> panels;
  std::vector<double> contrast;
};

Looked looked_at(PowerQuestion::Of of) {
  constexpr PanelOf struck{Role::struck, 0};
  constexpr PanelOf control{Role::control, 0};
  switch (of) {
  case PowerQuestion::Of::struck:
    return {{struck}, {1.0}};
  case PowerQuestion::Of::control:
    return {{control}, {1.0}};
  case PowerQuestion::Of::both:
    return {{struck, control}, {1.0, -1.0}};
  case PowerQuestion::Of::siblings:
    break;
  }
  fail_contract("siblings are not compared from stage to stage");
}

bool has_readings(const Record& record, std::size_t setup, const std::vector<PanelOf>& panels) {
  return std::any_of(record.readings.begin(), record.readings.end(), [&](const Reading& r) {
    return r.setup == setup && std::find(panels.begin(), panels.end(), panel_of(r)) != panels.end();
  });
}

std::vector<UnitSetup> collect_block(const Test& test, const PowerQuestion& question, StageId stage,
                                     std::optional<std::string>& unpaired) {
  const Looked looked = looked_at(question.of);
  std::vector<UnitSetup> block;
  for (std::size_t i = 0; i < test.record.setups.size(); ++i) {
    const Setup& setup = test.record.setups[i];
    if (!(setup.stage == stage)) continue;
    std::vector<Round> rounds = complete_rounds(test, question, i, looked.panels);
    if (!rounds.empty()) {
      block.push_back(make_unit(test, i, looked.panels, looked.contrast, std::move(rounds)));
    } else if (looked.panels.size() > 1 && has_readings(test.record, i, looked.panels)) {
      unpaired = setup.name;
    }
  }
  return block;
}

/// The readings of a unit one by one.
struct Flat {
  std::vector<const Reading*> readings;
  std::vector<std::size_t> panel;
  std::vector<double> q;
};

Flat flatten(const Test& test, const std::vector<Round>& rounds) {
  Flat flat;
  for (const Round& round : rounds) {
    for (std::size_t p = 0; p < round.size(); ++p) {
      flat.readings.push_back(round[p]);
      flat.panel.push_back(p);
      flat.q.push_back(log_power(test, *round[p]));
    }
  }
  return flat;
}

/// The place of each reading among the rows of its set-up, those of all panels.
std::map<const Reading*, double> rows_of(const Record& record, std::size_t setup) {
  std::map<const Reading*, double> rows;
  for (const Reading& r : record.readings) {
    if (r.setup == setup) rows.emplace(&r, static_cast<double>(rows.size()));
  }
  return rows;
}

/// When the readings were taken: in hours, or as rows; nothing when neither is known.
struct Moments {
  std::vector<double> at;
  bool hours = false;
};

std::optional<Moments> moments_of(const Record& record, const std::vector<const Reading*>& all) {
  Moments moments;
  moments.hours =
      std::all_of(all.begin(), all.end(), [](const Reading* r) { return r->minute.has_value(); });
  const bool in_rounds =
      std::any_of(all.begin(), all.end(), [](const Reading* r) { return r->round.has_value(); });
  if (!moments.hours && in_rounds) return std::nullopt;
  constexpr double minutes_in_hour = 60.0;
  std::map<const Reading*, double> rows;
  if (!moments.hours) rows = rows_of(record, all.front()->setup);
  for (const Reading* r : all)
    moments.at.push_back(moments.hours ? *r->minute / minutes_in_hour : rows.at(r));
  return moments;
}

double sum_of_products(const std::vector<double>& weights, const std::vector<double>& q) {
  return std::inner_product(weights.begin(), weights.end(), q.begin(), 0.0);
}

void weigh(UnitSetup& unit, const Flat& flat, const LineWeights& weights) {
  for (const std::vector<double>& mean_of_panel : weights.mean)
    unit.means.push_back(sum_of_products(mean_of_panel, flat.q));
  for (std::size_t i = 0; i < flat.readings.size(); ++i) {
    double weight = 0.0;
    for (std::size_t p = 0; p < unit.panels.size(); ++p)
      weight += unit.contrast[p] * weights.mean[p][i];
    unit.readings.push_back({flat.readings[i], flat.panel[i], weight});
  }
}

/// Value and scatter of rounds that were read at once, or of one panel.
void settle_rounds(UnitSetup& unit, const Flat& flat) {
  weigh(unit, flat, plain_means(flat.panel));
  unit.value = mean(unit.values);
  unit.reading_sd = sample_sd(unit.values);
  const auto n = static_cast<double>(unit.values.size());
  unit.reading_dof = n - 1.0;
  unit.reading_share = 1.0 / std::sqrt(n);
}

/// What takes the drift out of readings in turn.
struct Line {
  Moments moments;
  LineWeights weights;
};

std::optional<Line> line_of(const Test& test, const UnitSetup& unit, const Flat& flat) {
  const bool in_turn = unit.panels.size() > 1 && test.protocol.measure.meters == 1;
  if (!in_turn || unit.rounds.size() < 2) return std::nullopt;
  auto moments = moments_of(test.record, flat.readings);
  if (!moments) return std::nullopt;
  auto weights = means_beside_line(flat.panel, moments->at);
  if (!weights) return std::nullopt;
  return Line{std::move(*moments), std::move(*weights)};
}

/// Value and scatter of readings in turn, a line in time taken out: one degree of freedom fewer.
void settle_beside_line(UnitSetup& unit, const Flat& flat, const Line& line) {
  weigh(unit, flat, line.weights);
  const double slope = sum_of_products(line.weights.slope, flat.q);
  const double middle = mean(line.moments.at);
  double squares = 0.0;
  double share = 0.0;
  for (std::size_t i = 0; i < flat.q.size(); ++i) {
    const double rest =
        flat.q[i] - unit.means[flat.panel[i]] - slope * (line.moments.at[i] - middle);
    squares += rest * rest;
    unit.value += unit.readings[i].weight * flat.q[i];
    share += unit.readings[i].weight * unit.readings[i].weight;
  }
  unit.reading_dof = static_cast<double>(flat.q.size() - unit.panels.size()) - 1.0;
  unit.reading_sd = std::sqrt(squares / unit.reading_dof);
  unit.reading_share = std::sqrt(share);
  if (line.moments.hours) unit.drift_per_hour = slope;
}

}  // namespace

UnitSetup make_unit(const Test& test, std::size_t setup, std::vector<PanelOf> panels,
                    std::vector<double> contrast, std::vector<Round> rounds) {
  expects(!rounds.empty() && panels.size() == contrast.size(), "make_unit: rounds of these panels");
  UnitSetup unit;
  unit.setup = setup;
  unit.name = test.record.setups[setup].name;
  unit.date = test.record.setups[setup].date;
  unit.panels = std::move(panels);
  unit.contrast = std::move(contrast);
  unit.rounds = std::move(rounds);
  const Flat flat = flatten(test, unit.rounds);
  unit.values.resize(unit.rounds.size(), 0.0);
  for (std::size_t i = 0; i < flat.q.size(); ++i)
    unit.values[i / unit.panels.size()] += unit.contrast[flat.panel[i]] * flat.q[i];
  if (const auto line = line_of(test, unit, flat)) {
    settle_beside_line(unit, flat, *line);
  } else {
    settle_rounds(unit, flat);
  }
  return unit;
}

std::vector<double> stage_weights(const std::vector<UnitSetup>& setups, bool by_day) {
  std::map<std::string, int> per_day;
  for (const UnitSetup& s : setups)
    ++per_day[s.date];
  std::vector<double> weights;
  for (const UnitSetup& s : setups) {
    weights.push_back(by_day ? 1.0 / static_cast<double>(per_day.size()) / per_day[s.date]
                             : 1.0 / static_cast<double>(setups.size()));
  }
  return weights;
}

std::vector<double> unit_values(const std::vector<UnitSetup>& setups, bool by_day) {
  std::map<std::string, std::vector<double>> by_unit;
  for (std::size_t i = 0; i < setups.size(); ++i) {
    by_unit[by_day ? setups[i].date : std::to_string(i)].push_back(setups[i].value);
  }
  std::vector<double> values;
  for (const auto& [unit, q] : by_unit)
    values.push_back(mean(q));
  return values;
}

SetupValue summary_of(const UnitSetup& unit) {
  return {unit.setup, unit.value, static_cast<int>(unit.values.size()), unit.reading_sd,
          unit.drift_per_hour};
}

bool has_setups(const Record& record, StageId stage) {
  return std::any_of(record.setups.begin(), record.setups.end(),
                     [&](const Setup& s) { return s.stage == stage; });
}

StageBlocks collect_stage_blocks(const Test& test, const PowerQuestion& question) {
  StageBlocks blocks;
  blocks.from = collect_block(test, question, question.from, blocks.unpaired);
  blocks.to = collect_block(test, question, question.to, blocks.unpaired);
  const StageId baseline{StageKind::baseline, 0};
  if (!(question.from == baseline) && !(question.to == baseline)) {
    blocks.baseline = collect_block(test, question, baseline, blocks.unpaired);
  }
  return blocks;
}

NormalisedReading normalised_reading(const Test& test, const Reading& reading) {
  const PanelThermal thermal = panel_thermal(test, reading.role);
  return {reading.power, reading.irradiance, reading.temperature, thermal.gamma,
          thermal.cell_above_back};
}

double log_power(const Test& test, const Reading& reading) {
  return log_normalised_power(normalised_reading(test, reading), std::array<double, error_slots>{});
}

double effective_readings(const std::vector<double>& values, bool independent) {
  constexpr std::size_t enough_for_autocorrelation = 20;
  if (independent) return static_cast<double>(values.size());
  if (values.size() < enough_for_autocorrelation) return 1.0;
  return effective_count(static_cast<int>(values.size()),
                         lag1_autocorrelation(values).value_or(0.0));
}

double reading_u(const UnitSetup& unit, bool independent) {
  expects(unit.reading_sd.has_value(), "reading_u: a unit with scatter");
  const auto n = static_cast<double>(unit.values.size());
  const double worth = effective_readings(unit.values, independent);
  return *unit.reading_sd * unit.reading_share * std::sqrt(n / worth);
}

std::optional<std::vector<Redone>> redone_in_all(const Test& test, const StageBlocks& blocks) {
  std::vector<Redone> common(all_redone.begin(), all_redone.end());
  for (const auto* block : {&blocks.from, &blocks.to, &blocks.baseline}) {
    for (const UnitSetup& unit : *block) {
      const Setup& setup = test.record.setups[unit.setup];
      const auto& redone = setup.redone ? setup.redone : test.protocol.measure.redone;
      if (!redone) return std::nullopt;
      std::erase_if(common, [&](Redone part) {
        return std::find(redone->begin(), redone->end(), part) == redone->end();
      });
    }
  }
  return common;
}

std::optional<double> variance_ratio(const std::vector<double>& before,
                                     const std::vector<double>& after) {
  if (before.size() < 3 || after.size() < 3) return std::nullopt;
  const double sd_before = *sample_sd(before);
  const double sd_after = *sample_sd(after);
  const bool before_larger = sd_before > sd_after;
  const double larger = before_larger ? sd_before : sd_after;
  const double smaller = before_larger ? sd_after : sd_before;
  if (smaller == 0.0) return std::nullopt;
  const double larger_nu = static_cast<double>((before_larger ? before : after).size()) - 1.0;
  const double smaller_nu = static_cast<double>((before_larger ? after : before).size()) - 1.0;
  const double ratio = larger / smaller;
  return ratio * ratio / f_quantile(0.975, larger_nu, smaller_nu);
}

}  // namespace hailwright
