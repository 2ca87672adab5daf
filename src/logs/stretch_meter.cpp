#include "hailwright/logs/stretch_meter.hpp"

#include <algorithm>
#include <optional>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "logs/clipping.hpp"
#include "logs/energy_counter.hpp"
#include "logs/normalised_rows.hpp"
#include "logs/ratio_windows.hpp"
#include "logs/row_checks.hpp"
#include "logs/row_gaps.hpp"
#include "logs/row_keeper.hpp"
#include "logs/steady_windows.hpp"
#include "logs/stretch_sums.hpp"

namespace hailwright {

class StretchMeter::Work {
public:
  Work(const StretchRules& rules, std::size_t most_kept)
      : rules_(rules), longest_gap_us_(detail::microseconds(rules.longest_gap.si())),
        gaps_(longest_gap_us_), counter_(rules.counter_wraps_at, longest_gap_us_),
        clipping_(rules.load_on), clipping_beside_(rules.load_on),
        ratio_(rules.load_on, rules.longest_gap.si()), keeper_(most_kept) {
    if (rules.steady) steady_.emplace(*rules.steady, longest_gap_us_);
  }

  void take(const LogBlock& block, std::size_t begin, std::size_t end) {
    // So many rows stay in the nearest cache while one sum after the other goes over them.
    constexpr std::size_t piece = 4 * detail::rows_of_a_piece;
    for (; begin < end; begin += std::min(piece, end - begin))
      take_piece(block, begin, begin + std::min(piece, end - begin));
  }

  LogStretch finish(bool& complete) {
    if (steady_) steady_->finish(keeper_);
    LogStretch out;
    out.rows = rows_;
    out.from_us = from_us_;
    out.to_us = to_us_;
    write_energy(out);
    gaps_.write_to(out);
    (steady_ ? steady_->kept() : sums_).write_to(out);
    if (steady_) out.steady = steady_->tally();
    out.counter = counter_.finish();
    out.clipping = clipping_.finish();
    out.clipping_beside = clipping_beside_.finish();
    out.beside = ratio_.finish();
    complete = keeper_.complete();
    out.kept = keeper_.take();
    return out;
  }

private:
  void take_piece(const LogBlock& block, std::size_t begin, std::size_t end) {
    take_times(block, begin, end);
    integrate(block, begin, end);
    compare(block, begin, end);
    sum_up(block, begin, end);
  }

  void take_times(const LogBlock& block, std::size_t begin, std::size_t end) {
    if (rows_ == 0) from_us_ = block.time_us[begin];
    to_us_ = block.time_us[end - 1];
    rows_ += static_cast<std::int64_t>(end - begin);
    gaps_.take(block, begin, end);
  }

  /// What is measured over all rows, steady or not.
  void integrate(const LogBlock& block, std::size_t begin, std::size_t end) {
    const double longest_gap_s = rules_.longest_gap.si();
    const auto add = [&](PowerIntegral& integral, LogRole role) {
      const auto& power = block.column(role);
      if (power.empty()) return;
      integral.append(PowerIntegral::of(block.time_us, power, begin, end, longest_gap_s),
                      longest_gap_s);
    };
    add(energy_, LogRole::power);
    add(energy_beside_, LogRole::power_beside);
    const auto& counter = block.column(LogRole::energy);
    if (!counter.empty())
      counter_.take(block.time_us, counter, block.column(LogRole::power), begin, end);
  }

  void compare(const LogBlock& block, std::size_t begin, std::size_t end) {
    const auto& power = block.column(LogRole::power);
    const auto& beside = block.column(LogRole::power_beside);
    const auto& irradiance = block.column(LogRole::irradiance);
    if (!power.empty() && !irradiance.empty())
      clipping_.take(block.time_us, power, irradiance, begin, end);
    if (!beside.empty() && !irradiance.empty())
      clipping_beside_.take(block.time_us, beside, irradiance, begin, end);
    if (!power.empty() && !beside.empty()) ratio_.take(block.time_us, power, beside, begin, end);
  }

  /// Means and series: of the steady rows, where there is a rule.
  void sum_up(const LogBlock& block, std::size_t begin, std::size_t end) {
    normalise(normalised_, block, {}, begin, end);
    normalise(normalised_beside_, block, {LogRole::power_beside, LogRole::temperature_beside},
              begin, end);
    const detail::StretchRows rows{block, normalised_, normalised_beside_};
    if (steady_) {
      steady_->take(rows, begin, end, keeper_);
      return;
    }
    sums_.append(detail::StretchSums::of(rows, begin, end, longest_gap_us_), true, longest_gap_us_);
    keeper_.add(block, begin, end);
  }

  void normalise(std::vector<double>& into, const LogBlock& block,
                 detail::NormalisedColumns columns, std::size_t begin, std::size_t end) const {
    if (rules_.normalise && detail::can_normalise(block, columns))
      detail::fill_normalised(into, block, columns, *rules_.normalise, rules_.load_on, begin, end);
    else
      into.clear();
  }

  void write_energy(LogStretch& out) const {
    out.energy = Energy::from_si(energy_.energy_j());
    out.energy_beside = Energy::from_si(energy_beside_.energy_j());
    out.bridged_s = energy_.bridged_s();
    if (energy_.bridged_us > 0) out.mean_power = Power::from_si(energy_.energy_j() / out.bridged_s);
  }

  StretchRules rules_;
  std::int64_t longest_gap_us_;
  std::int64_t rows_ = 0, from_us_ = 0, to_us_ = 0;
  PowerIntegral energy_, energy_beside_;
  detail::RowGaps gaps_;
  detail::EnergyCounter counter_;
  detail::ClippingSearch clipping_, clipping_beside_;
  detail::RatioWindows ratio_;
  std::optional<detail::SteadyWindows> steady_;
  detail::StretchSums sums_;  ///< without a steady rule
  detail::RowKeeper keeper_;
  std::vector<double> normalised_, normalised_beside_;  ///< of the block at hand
};

StretchMeter::StretchMeter(const StretchRules& rules, std::size_t most_kept)
    : work_(std::make_unique<Work>(rules, most_kept)) {
  expects(rules.longest_gap.si() > 0.0, "StretchMeter: a longest gap");
}

StretchMeter::StretchMeter(StretchMeter&& other) noexcept = default;
StretchMeter& StretchMeter::operator=(StretchMeter&& other) noexcept = default;
StretchMeter::~StretchMeter() = default;

void StretchMeter::take(const LogBlock& block, std::size_t begin, std::size_t end) {
  expects(begin <= end && end <= block.rows(), "StretchMeter: rows of the block");
  work_->take(block, begin, end);
}

LogStretch StretchMeter::finish(bool& complete) {
  return work_->finish(complete);
}

}  // namespace hailwright
