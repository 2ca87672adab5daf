#include "evaluate/pattern_weighing.hpp"

#include <algorithm>
#include <cmath>

#include "evaluate/pattern_likelihood.hpp"
#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

Ratio relative(double log_change) {
  return Ratio::from_si(std::expm1(log_change));
}

double variance(const CurveChanges& c, std::size_t i, std::size_t j) {
  return c.scatter[i][j] + c.shared[i][j];
}

/// Half of the interval at 95 %, of a number with this much scatter in its variance.
double half_width(double scatter, double whole, double scatter_dof) {
  const double share = scatter / whole;
  const double dof = share > 0.0 ? scatter_dof / (share * share) : 1e6;
  return t_quantile(0.975, std::min(dof, 1e6)) * std::sqrt(whole);
}

CurveChange change_of(const CurveChanges& c, CurveFigure figure) {
  const auto k = static_cast<std::size_t>(figure);
  CurveChange change;
  change.figure = figure;
  change.before = c.before[k];
  change.after = c.after[k];
  change.mean_before = std::exp(c.mean_before[k]);
  change.mean_after = std::exp(c.mean_after[k]);
  change.log_change = c.change[k];
  const double whole = variance(c, k, k);
  change.standard_u = std::sqrt(whole);
  const double share = c.scatter[k][k] / whole;
  change.degrees_of_freedom = c.scatter_dof / (share * share);
  const double half = half_width(c.scatter[k][k], whole, c.scatter_dof);
  change.low = relative(change.log_change - half);
  change.high = relative(change.log_change + half);
  return change;
}

bool was_read(const CurveChanges& c, CurveFigure figure) {
  return std::find(c.read.begin(), c.read.end(), figure) != c.read.end();
}

std::optional<CurvePower> power_of(const CurveChanges& c) {
  if (!was_read(c, CurveFigure::voltage_at_maximum) ||
      !was_read(c, CurveFigure::current_at_maximum)) {
    return std::nullopt;
  }
  const auto sum = [](const CurveMatrix& m) { return m[2][2] + m[3][3] + 2.0 * m[2][3]; };
  CurvePower power;
  power.log_change = c.change[2] + c.change[3];
  const double scatter = sum(c.scatter);
  const double whole = scatter + sum(c.shared);
  power.standard_u = std::sqrt(whole);
  const double half = half_width(scatter, whole, c.scatter_dof);
  power.low = relative(power.log_change - half);
  power.high = relative(power.log_change + half);
  return power;
}

void fit_all(LossPattern& p, const PatternLikelihood& likelihood, const PatternTable& table) {
  p.fits.push_back(fit_no_change(likelihood));
  for (const CurvePattern pattern : all_curve_patterns) {
    const std::vector<PatternPoint>& points = table[static_cast<std::size_t>(pattern)];
    if (points.empty()) {
      p.left_out.push_back(pattern);
    } else {
      p.fits.push_back(fit_pattern(likelihood, pattern, points));
    }
  }
  std::stable_sort(p.fits.begin(), p.fits.end(), [](const PatternFit& a, const PatternFit& b) {
    return a.log_likelihood > b.log_likelihood;
  });
}

/// The words: first whether there is a pattern at all, then which.
void decide(LossPattern& p) {
  const PatternFit& best = p.fits.front();
  const bool resolved =
      best.pattern && times_better(best, p.no_change()) >= pattern_bounds::over_nothing;
  if (!resolved) {
    p.word =
        best.fits || p.no_change().fits ? PatternWord::nothing_resolvable : PatternWord::none_fits;
    return;
  }
  for (const PatternFit& fit : p.fits) {
    if (fit.pattern && fit.fits && times_better(best, fit) < pattern_bounds::told_apart)
      p.named.push_back(*fit.pattern);
  }
  p.word = p.named.empty()       ? PatternWord::none_fits
           : p.named.size() == 1 ? PatternWord::named
                                 : PatternWord::alike;
}

/// What was not read and would tell those apart that fit alike.
void find_what_would_tell(LossPattern& p) {
  if (p.word != PatternWord::alike) return;
  constexpr double enough = 0.02;
  for (const CurveFigure figure : p.missing) {
    const auto k = static_cast<std::size_t>(figure);
    double low = 0.0;
    double high = 0.0;
    bool first = true;
    for (const PatternFit& fit : p.fits) {
      if (!fit.pattern || std::find(p.named.begin(), p.named.end(), *fit.pattern) == p.named.end())
        continue;
      low = first ? fit.predicted[k] : std::min(low, fit.predicted[k]);
      high = first ? fit.predicted[k] : std::max(high, fit.predicted[k]);
      first = false;
    }
    if (high - low >= enough) p.would_tell.push_back(figure);
  }
}

void find_kept_voltage(LossPattern& p) {
  const auto open = std::find_if(p.changes.begin(), p.changes.end(), [](const CurveChange& c) {
    return c.figure == CurveFigure::open_voltage;
  });
  p.voltage_kept = p.power && p.power->high < Ratio{} && open != p.changes.end() &&
                   open->low <= Ratio{} && open->high >= Ratio{};
}

}  // namespace

PatternTable pattern_table(const AssumedPanel& panel) {
  constexpr int intervals = 80;
  PatternTable table;
  for (const CurvePattern pattern : all_curve_patterns)
    table[static_cast<std::size_t>(pattern)] = pattern_points(panel, pattern, intervals);
  return table;
}

LossPattern weigh_patterns(const CurveChanges& c, const AssumedPanel& panel,
                           const PatternTable& table) {
  LossPattern p;
  p.panel = panel;
  for (std::size_t k = 0; k < curve_figures; ++k) {
    const auto figure = static_cast<CurveFigure>(k);
    if (was_read(c, figure)) {
      p.changes.push_back(change_of(c, figure));
    } else {
      p.missing.push_back(figure);
    }
  }
  const PatternLikelihood likelihood(c);
  p.inputs = c.inputs;
  p.assumed = c.assumed;
  p.scatter_assumed = c.scatter_assumed;
  p.degrees_of_freedom = likelihood.degrees_of_freedom();
  fit_all(p, likelihood, table);
  decide(p);
  find_what_would_tell(p);
  p.power = power_of(c);
  find_kept_voltage(p);
  return p;
}

}  // namespace hailwright
