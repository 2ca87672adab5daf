#include "evaluate/settling.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "evaluate/scatter_choice.hpp"
#include "hailwright/metrology/loss_decision.hpp"

namespace hailwright {

namespace {

constexpr double wanted_chance = 0.80;  // MEASUREMENT M6
constexpr double infinite = std::numeric_limits<double>::infinity();

/// A budget in the two parts that an interval is made of.
struct Parts {
  Combined all, observed;
};

/// Of one set-up (or day), not of what several share.
bool is_of_a_unit(const BudgetRow& row) {
  return row.input.evaluation == Evaluation::type_a || row.input.scope == Scope::setup ||
         row.input.scope == Scope::reading;
}

/// The budget of a comparison after further set-ups of the stage after the shots.
class FurtherSetups {
public:
  FurtherSetups(const PowerModel& model, std::span<const BudgetRow> budget)
      : before_(model.units_from), after_(model.units_to),
        repeats_(std::max(0, before_ - 1) + std::max(0, after_ - 1) +
                 std::max(0, model.units_baseline - 1)),
        observed_(model.pooled_sd.has_value()) {
    std::vector<BudgetRow> units;
    std::vector<BudgetRow> shared;
    for (const BudgetRow& row : budget)
      (is_of_a_unit(row) ? units : shared).push_back(row);
    units_ = combine(units);
    readings_ = combine(units, Evaluation::type_a);
    stated_ = combine(units, Evaluation::type_b);
    shared_ = combine(shared);
  }

  [[nodiscard]] Parts with(int further) const {
    const double left = share_left(1.0 / (after_ + further));
    const double dof = repeats_ + further;
    // With repeats enough the judgement rests on them, though it rests on stated scatter now.
    if (observed_ || dof >= deciding_dof) return repeated(left, dof);
    const Combined readings{readings_.standard_u * left, readings_.degrees_of_freedom};
    const Combined stated{stated_.standard_u * left, stated_.degrees_of_freedom};
    return {combine(combine(readings, stated), shared_), readings};
  }
  /// Without the scatter of the stage after the shots, and the other one's known exactly.
  [[nodiscard]] Parts with_endless() const { return repeated(share_left(0.0), infinite); }

private:
  /// Units of both stages scatter alike, so their variance goes by 1/K_before + 1/K_after.
  [[nodiscard]] double share_left(double after) const {
    return std::sqrt((1.0 / before_ + after) / (1.0 / before_ + 1.0 / after_));
  }
  [[nodiscard]] Parts repeated(double left, double dof) const {
    const Combined scatter{units_.standard_u * left, dof};
    return {combine(scatter, shared_), scatter};
  }

  int before_, after_;
  int repeats_;  ///< degrees of freedom of the repeats that there are
  bool observed_;
  Combined units_, readings_, stated_, shared_;
};

/// The question whether a loss is beyond the limit, put again after further set-ups.
class NextLook {
public:
  NextLook(const FurtherSetups& setups, Ratio limit, double alpha)
      : setups_(setups), limit_(std::log1p(-limit.si())), alpha_(alpha) {}

  /// Chance that the whole interval then lies on the true loss's side of the limit.
  [[nodiscard]] double chance(double lambda, int further) const {
    const Parts parts = setups_.with(further);
    const double cleared =
        chance_cleared(parts.all, parts.observed, alpha_, std::abs(lambda - limit_));
    if (lambda < limit_) return cleared;
    // An interval wholly below zero is not valid, whatever the limit (M5).
    return std::max(0.0, cleared - chance_cleared(parts.all, parts.observed, alpha_, lambda));
  }

  [[nodiscard]] std::optional<int> fewest(double lambda) const {
    const auto enough = [&](int n) { return chance(lambda, n) >= wanted_chance; };
    // One by one where stated scatter may give way to repeats; from there on the chance rises.
    constexpr int last_stated = 4;
    for (int n = 1; n <= last_stated; ++n) {
      if (enough(n)) return n;
    }
    int low = last_stated;
    int high = 2 * low;
    while (!enough(high)) {
      if (high == most_further_setups) return std::nullopt;
      low = high;
      high = std::min(2 * high, most_further_setups);
    }
    while (high - low > 1) {
      const int middle = low + (high - low) / 2;
      (enough(middle) ? high : low) = middle;
    }
    return high;
  }

private:
  const FurtherSetups& setups_;
  double limit_;  ///< as lambda
  double alpha_;
};

/// The budget when the sky of the days after the shots is averaged over endless days.
std::vector<BudgetRow> without_later_sky(std::span<const BudgetRow> budget) {
  std::vector<BudgetRow> rows(budget.begin(), budget.end());
  std::erase_if(rows, [](const BudgetRow& row) { return row.input.id.starts_with("day/after"); });
  return rows;
}

/// Distance in the loss from one lambda to another.
Ratio loss_between(double a, double b) {
  return Ratio::from_si(std::abs(loss_at(a) - loss_at(b)));
}

}  // namespace

std::optional<Settling> settle(const PowerModel& model, std::span<const BudgetRow> budget,
                               const LossEstimate& estimate, Ratio limit, double alpha) {
  if (model.siblings || model.trend) return std::nullopt;
  const double lambda = std::min(estimate.lambda, 0.0);
  const double limit_lambda = std::log1p(-limit.si());
  const double towards = limit_lambda < lambda ? -1.0 : 1.0;
  const auto half_width_with = [&](std::span<const BudgetRow> rows) {
    const Parts endless = FurtherSetups(model, rows).with_endless();
    return estimate_loss(lambda, endless.all, endless.observed, alpha).expanded;
  };
  const double half_width = half_width_with(budget);

  Settling s;
  s.alpha = alpha;
  s.margin = loss_between(lambda, limit_lambda);
  s.floor = loss_between(lambda, lambda + towards * half_width);
  s.never = half_width > std::abs(limit_lambda - lambda);
  if (s.never) {
    s.other_days = half_width_with(without_later_sky(budget)) <= std::abs(limit_lambda - lambda);
    return s;
  }
  const FurtherSetups setups(model, budget);
  const NextLook next(setups, limit, alpha);
  s.as_estimated = next.fewest(lambda);
  s.chance = next.chance(lambda, s.as_estimated.value_or(most_further_setups));
  if (estimate.u_lambda < std::abs(limit_lambda - lambda)) {
    s.nearer = next.fewest(lambda + towards * estimate.u_lambda);
  }
  s.further = next.fewest(std::min(lambda - towards * estimate.u_lambda, 0.0));
  return s;
}

}  // namespace hailwright
