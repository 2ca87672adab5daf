// JCGM 100:2008, Annex H, worked examples. Expected values read in published reproductions: the
// manual of an R propagation package, the tests of two open uncertainty calculators.
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include "hailwright/metrology/budget.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/dual.hpp"
#include "hailwright/metrology/statistics.hpp"
#include "support/catch.hpp"

using namespace hailwright;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// H.1.2: length of an end gauge, lS + d - lS (dalpha theta + alphaS dtheta).
template <class Number>
Number end_gauge(const std::array<Number, 6>& x) {
  const auto& [l_s, d, d_alpha, theta, alpha_s, d_theta] = x;
  return l_s + d - l_s * (d_alpha * theta + alpha_s * d_theta);
}

BudgetRow row(const char* id, double sensitivity, double u, double dof) {
  return {{id, id, Scope::record, Evaluation::type_b, u, dof}, sensitivity};
}

}  // namespace

// case gum_h1 (read; exact inputs computed).
TEST_CASE("H.1 end gauge: contributions, combined uncertainty, degrees of freedom, U99") {
  using D = Dual<6>;
  const std::array<double, 6> best{50000623, 215, 0, -0.1, 11.5e-6, 0};
  const std::array<double, 6> u{
      25, 9.7, 1e-6 / std::sqrt(3.0), 0.41, 2e-6 / std::sqrt(3.0), 0.05 / std::sqrt(3.0)};
  const std::array<double, 6> dof{18, 25.6, 50, infinite, infinite, 2};
  std::array<D, 6> x;
  for (std::size_t i = 0; i < 6; ++i)
    x[i] = D::variable(best[i], i);
  const D l = end_gauge(x);
  CHECK_THAT(l.value, WithinAbs(50000838, 0.5));
  std::vector<BudgetRow> rows;
  for (std::size_t i = 0; i < 6; ++i)
    rows.push_back(row("x", l.slope[i], u[i], dof[i]));
  CHECK_THAT(rows[0].contribution(), WithinAbs(25, 0.5));
  CHECK_THAT(rows[1].contribution(), WithinAbs(9.7, 0.05));
  CHECK_THAT(std::abs(rows[2].contribution()), WithinAbs(2.9, 0.05));
  CHECK_THAT(std::abs(rows[5].contribution()), WithinAbs(16.6, 0.05));
  const Combined c = combine(rows);
  CHECK_THAT(c.standard_u, WithinRel(31.66940543105552, 1e-9));
  CHECK_THAT(c.degrees_of_freedom, WithinRel(16.763411848352916, 1e-9));
  CHECK_THAT(t_quantile(0.995, 16), WithinAbs(2.92, 0.005));
  CHECK_THAT(t_quantile(0.995, 16) * c.standard_u, WithinAbs(93, 1.0));
}

// case gum_h1_d_components (read), ws_inf (read), ws_equal4 (read).
TEST_CASE("Welch-Satterthwaite") {
  const double u3[] = {5.8, 3.9, 6.7};
  const double nu3[] = {24, 5, 8};
  CHECK_THAT(welch_satterthwaite(u3, nu3), WithinRel(25.447250777362726, 1e-9));
  const double u2[] = {0.57, 0.25};
  const double nu2[] = {9, infinite};
  CHECK_THAT(welch_satterthwaite(u2, nu2), WithinRel(12.795649034137076, 1e-9));
  const double u4[] = {1, 1, 1, 1};
  const double nu4[] = {10, 10, 10, 10};
  CHECK_THAT(welch_satterthwaite(u4, nu4), WithinAbs(40, 1e-12));
  const double none[] = {0.0};
  const double many[] = {infinite};
  CHECK(std::isinf(welch_satterthwaite(none, many)));
}

// case gum_h2 (read; computed digits beside): resistance, reactance and impedance from one set of
// correlated readings.
TEST_CASE("H.2 simultaneous resistance and reactance, with correlation") {
  const std::vector<double> v{5.007, 4.994, 5.005, 4.990, 4.999};
  const std::vector<double> i{0.019663, 0.019639, 0.019640, 0.019685, 0.019678};
  const std::vector<double> phi{1.0456, 1.0438, 1.0468, 1.0428, 1.0433};
  const std::vector<double>* series[] = {&v, &i, &phi};
  double m[3];
  double u[3];
  double r[9];
  for (std::size_t a = 0; a < 3; ++a) {
    m[a] = mean(*series[a]);
    u[a] = *sample_sd(*series[a]) / std::sqrt(5.0);
  }
  for (std::size_t a = 0; a < 3; ++a) {
    for (std::size_t b = 0; b < 3; ++b) {
      double sum = 0.0;
      for (std::size_t k = 0; k < 5; ++k)
        sum += ((*series[a])[k] - m[a]) * ((*series[b])[k] - m[b]);
      r[3 * a + b] = sum / 20.0 / (u[a] * u[b]);
    }
  }
  CHECK_THAT(r[1], WithinRel(-0.35531121981747704, 1e-9));
  CHECK_THAT(r[2], WithinRel(0.8576242108399618, 1e-9));
  CHECK_THAT(r[5], WithinRel(-0.6451112176892463, 1e-9));
  const double resistance = m[0] / m[1] * std::cos(m[2]);
  const double reactance = m[0] / m[1] * std::sin(m[2]);
  const double impedance = m[0] / m[1];
  const double c_r[] = {resistance / m[0], -resistance / m[1], -reactance};
  const double c_x[] = {reactance / m[0], -reactance / m[1], resistance};
  const double c_z[] = {1.0 / m[1], -impedance / m[1], 0.0};
  CHECK_THAT(resistance, WithinRel(127.73216992810208, 1e-9));
  CHECK_THAT(reactance, WithinRel(219.84651191263848, 1e-9));
  CHECK_THAT(impedance, WithinRel(254.25970194801894, 1e-9));
  CHECK_THAT(propagate_correlated(c_r, u, r), WithinRel(0.07107140739699515, 1e-9));
  CHECK_THAT(propagate_correlated(c_x, u, r), WithinRel(0.2955816773586383, 1e-9));
  CHECK_THAT(propagate_correlated(c_z, u, r), WithinRel(0.23633613008237028, 1e-9));
  // Without the correlations the figures are plainly others: dropping them is the usual mistake.
  const double none[] = {1, 0, 0, 0, 1, 0, 0, 0, 1};
  CHECK_THAT(propagate_correlated(c_r, u, none), WithinRel(0.19454445448858, 1e-9));
  CHECK_THAT(propagate_correlated(c_x, u, none), WithinRel(0.20090930592765302, 1e-9));
  CHECK_THAT(propagate_correlated(c_z, u, none), WithinRel(0.2040764254473449, 1e-9));
}
