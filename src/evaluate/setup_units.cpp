#include "evaluate/setup_units.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "evaluate/panel_thermal.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/statistics.hpp"

namespace hailwright {

namespace {

bool counts(const Reading& r, bool keep_skipped) {
  return r.measured && (keep_skipped || r.skip.empty());
}

/// The readings of one set-up in rounds. A round is what the table calls one; without that column
/// the k-th reading of one panel belongs to the k-th of the other, skipped ones counted, so that a
/// cloud does not shift the partners.
std::map<int, Round> rounds_of(const Record& record, std::size_t setup) {
  std::map<int, Round> rounds;
  int next_struck = 0;
  int next_control = 0;
  for (const Reading& r : record.readings) {
    if (r.setup != setup) continue;
    int& next = r.role == Role::struck ? next_struck : next_control;
    const int number = r.round ? *r.round : ++next;
    const Reading*& place = r.role == Role::struck ? rounds[number].struck : rounds[number].control;
    expects(place == nullptr, "one reading of a panel in a round; the table reader checks it");
    place = &r;
  }
  return rounds;
}

std::optional<Round> usable_round(Round round, const PowerQuestion& question) {
  const auto usable = [&](const Reading* r) {
    return r != nullptr && counts(*r, question.keep_skipped);
  };
  switch (question.of) {
  case PowerQuestion::Of::struck:
    return usable(round.struck) ? std::optional(Round{round.struck, nullptr}) : std::nullopt;
  case PowerQuestion::Of::control:
    return usable(round.control) ? std::optional(Round{nullptr, round.control}) : std::nullopt;
  case PowerQuestion::Of::both:
    return usable(round.struck) && usable(round.control) ? std::optional(round) : std::nullopt;
  }
  return std::nullopt;
}

double log_power(const Test& test, const Reading& r) {
  return log_normalised_power(normalised_reading(test, r), std::array<double, error_slots>{});
}

double round_value(const Test& test, const Round& round, PowerQuestion::Of of) {
  switch (of) {
  case PowerQuestion::Of::struck:
    return log_power(test, *round.struck);
  case PowerQuestion::Of::control:
    return log_power(test, *round.control);
  case PowerQuestion::Of::both:
    return log_power(test, *round.struck) - log_power(test, *round.control);
  }
  return 0.0;
}

std::vector<UnitSetup> collect_block(const Test& test, const PowerQuestion& question, StageId stage,
                                     std::optional<std::string>& unpaired) {
  std::vector<UnitSetup> block;
  for (std::size_t i = 0; i < test.record.setups.size(); ++i) {
    const Setup& setup = test.record.setups[i];
    if (!(setup.stage == stage)) continue;
    UnitSetup unit{i, setup.name, setup.date, {}, {}, 0.0, std::nullopt};
    const std::map<int, Round> rounds = rounds_of(test.record, i);
    for (const auto& [number, round] : rounds) {
      if (const auto usable = usable_round(round, question)) {
        unit.rounds.push_back(*usable);
        unit.values.push_back(round_value(test, *usable, question.of));
      }
    }
    if (unit.values.empty()) {
      if (question.of == PowerQuestion::Of::both && !rounds.empty()) unpaired = setup.name;
      continue;
    }
    unit.value = mean(unit.values);
    unit.reading_sd = sample_sd(unit.values);
    block.push_back(std::move(unit));
  }
  return block;
}

}  // namespace

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

double effective_readings(const std::vector<double>& values, bool independent) {
  constexpr std::size_t enough_for_autocorrelation = 20;
  if (independent) return static_cast<double>(values.size());
  if (values.size() < enough_for_autocorrelation) return 1.0;
  return effective_count(static_cast<int>(values.size()),
                         lag1_autocorrelation(values).value_or(0.0));
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
