#include "evaluate/pattern_likelihood.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

using Matrix = std::vector<std::vector<double>>;

/// Lower triangle with L L' = matrix, which is positive definite: each figure has a step or a
/// scatter of its own.
Matrix cholesky(const Matrix& matrix) {
  const std::size_t n = matrix.size();
  Matrix lower(n, std::vector<double>(n, 0.0));
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double rest = matrix[i][j];
      for (std::size_t k = 0; k < j; ++k)
        rest -= lower[i][k] * lower[j][k];
      lower[i][j] = i == j ? std::sqrt(std::max(rest, 1e-18)) : rest / lower[j][j];
    }
  }
  return lower;
}

/// L x = b.
std::vector<double> solve_lower(const Matrix& lower, std::vector<double> b) {
  for (std::size_t i = 0; i < b.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k)
      b[i] -= lower[i][k] * b[k];
    b[i] /= lower[i][i];
  }
  return b;
}

double squared(const std::vector<double>& x) {
  double sum = 0.0;
  for (const double v : x)
    sum += v * v;
  return sum;
}

/// Share of the whole covariance that scatter makes, averaged over its directions: trace of
/// whole^-1 scatter over their number.
double share_of_scatter(const Matrix& whole, const CurveMatrix& scatter,
                        const std::vector<std::size_t>& read) {
  const Matrix lower = cholesky(whole);
  double trace = 0.0;
  // trace(L^-1 S L'^-1) by the columns of S.
  Matrix half;
  for (const std::size_t c : read) {
    std::vector<double> column;
    for (const std::size_t r : read)
      column.push_back(scatter[r][c]);
    half.push_back(solve_lower(lower, std::move(column)));
  }
  for (std::size_t i = 0; i < read.size(); ++i) {
    std::vector<double> row;
    for (std::size_t c = 0; c < read.size(); ++c)
      row.push_back(half[c][i]);
    trace += solve_lower(lower, std::move(row))[i];
  }
  return std::clamp(trace / static_cast<double>(read.size()), 0.0, 1.0);
}

double largest(const CurveVector& changes) {
  double most = 0.0;
  for (const double c : changes)
    most = std::max(most, std::abs(c));
  return most;
}

CurveVector between(const PatternPoint& a, const PatternPoint& b, double share) {
  CurveVector change{};
  for (std::size_t k = 0; k < curve_figures; ++k)
    change[k] = a.change[k] + share * (b.change[k] - a.change[k]);
  return change;
}

/// A bypass diode begins to conduct between two points: nothing lies between them.
bool jumps(const PatternPoint& a, const PatternPoint& b) {
  constexpr double longest = 0.1;
  CurveVector step{};
  for (std::size_t k = 0; k < curve_figures; ++k)
    step[k] = b.change[k] - a.change[k];
  return largest(step) > longest;
}

}  // namespace

PatternLikelihood::PatternLikelihood(const CurveChanges& changes)
    : changes_(changes), dof_(changes.scatter_dof) {
  for (const CurveFigure f : changes.read)
    read_.push_back(static_cast<std::size_t>(f));
  if (std::isinf(dof_)) return;
  const double share = share_of_scatter(covariance(0.0), changes.scatter, read_);
  dof_ = share > 0.0 ? dof_ / (share * share) : std::numeric_limits<double>::infinity();
}

std::vector<std::vector<double>> PatternLikelihood::covariance(double prediction_u) const {
  Matrix matrix(read_.size(), std::vector<double>(read_.size(), 0.0));
  for (std::size_t i = 0; i < read_.size(); ++i) {
    for (std::size_t j = 0; j < read_.size(); ++j)
      matrix[i][j] = changes_.scatter[read_[i]][read_[j]] + changes_.shared[read_[i]][read_[j]];
    matrix[i][i] += prediction_u * prediction_u;
  }
  return matrix;
}

PatternLikelihood::At PatternLikelihood::at(const CurveVector& predicted) const {
  const Matrix lower = cholesky(covariance(pattern_bounds::prediction_share * largest(predicted)));
  std::vector<double> off;
  double log_root_determinant = 0.0;
  for (std::size_t i = 0; i < read_.size(); ++i) {
    off.push_back(changes_.change[read_[i]] - predicted[read_[i]]);
    log_root_determinant += std::log(lower[i][i]);
  }
  const auto n = static_cast<double>(read_.size());
  At at;
  at.misfit = squared(solve_lower(lower, std::move(off)));
  if (std::isinf(dof_)) {
    at.log_likelihood =
        -0.5 * (at.misfit + n * std::log(2.0 * std::numbers::pi)) - log_root_determinant;
  } else {
    at.log_likelihood = std::lgamma(0.5 * (dof_ + n)) - std::lgamma(0.5 * dof_) -
                        0.5 * n * std::log(dof_ * std::numbers::pi) - log_root_determinant -
                        0.5 * (dof_ + n) * std::log1p(at.misfit / dof_);
  }
  return at;
}

bool PatternLikelihood::fits(double misfit, int fitted) const {
  const double left = static_cast<double>(read_.size()) - fitted;
  if (left < 1.0) return true;
  constexpr double as_good_as_endless = 1e6;
  const double bound =
      f_quantile(1.0 - pattern_bounds::misfit_risk, left, std::min(dof_, as_good_as_endless));
  return misfit <= left * bound;
}

PatternFit fit_pattern(const PatternLikelihood& likelihood, CurvePattern pattern,
                       const std::vector<PatternPoint>& points) {
  // Fine enough for the narrowest likelihood of hand-held meters [ours].
  constexpr int parts = 10;
  PatternFit fit;
  fit.pattern = pattern;
  std::vector<double> logs;
  double best = -std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const bool jump = jumps(points[i], points[i + 1]);
    for (int part = 0; part < parts; ++part) {
      const double share = (part + 0.5) / parts;
      const CurveVector predicted =
          between(points[i], points[i + 1], jump ? std::round(share) : share);
      const PatternLikelihood::At at = likelihood.at(predicted);
      logs.push_back(at.log_likelihood);
      if (at.log_likelihood <= best) continue;
      best = at.log_likelihood;
      fit.size = points[i].size + share * (points[i + 1].size - points[i].size);
      fit.predicted = predicted;
      fit.misfit = at.misfit;
    }
  }
  double sum = 0.0;
  for (const double log_likelihood : logs)
    sum += std::exp(log_likelihood - best);
  fit.log_likelihood = best + std::log(sum / static_cast<double>(logs.size()));
  fit.fits = likelihood.fits(fit.misfit, 1);
  return fit;
}

PatternFit fit_no_change(const PatternLikelihood& likelihood) {
  PatternFit fit;
  const PatternLikelihood::At at = likelihood.at({});
  fit.log_likelihood = at.log_likelihood;
  fit.misfit = at.misfit;
  fit.fits = likelihood.fits(at.misfit, 0);
  return fit;
}

}  // namespace hailwright
