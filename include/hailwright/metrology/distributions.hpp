#pragma once

namespace hailwright {

// Degrees of freedom are real numbers above 0; infinity means the normal distribution. They are
// never truncated to integers: t at a real number of degrees of freedom is well defined
// (JCGM 100:2008, G.4.2 note, allows interpolation).

/// Standard normal distribution function and its inverse; 0 < p < 1.
double normal_cdf(double z);
double normal_quantile(double p);

/// Student's t.
double t_cdf(double t, double degrees_of_freedom);
double t_quantile(double p, double degrees_of_freedom);

/// P(T <= t) of the non-central t with this noncentrality.
double noncentral_t_cdf(double t, double degrees_of_freedom, double noncentrality);

/// Noncentrality at which a one-sided test at risk `alpha` finds the effect with probability
/// `1 - beta`: the smallest loss that a test shows is this times its standard uncertainty
/// (MEASUREMENT M4, L_D). Requires 0 < alpha < 0.5 and 0 < beta <= 0.5.
double detectable_noncentrality(double degrees_of_freedom, double alpha, double beta);

/// Quantiles of chi squared and of F.
double chi_squared_quantile(double p, double degrees_of_freedom);
double f_quantile(double p, double numerator_dof, double denominator_dof);

/// Exact (Clopper-Pearson) one-sided upper bound of a proportion: `events` seen in `trials`,
/// trials >= 1, 0 <= events <= trials. For no event it is 1 - (1 - confidence)^(1/trials).
double proportion_upper_bound(int events, int trials, double confidence);
/// Exact one-sided lower bound; 0 when no event was seen.
double proportion_lower_bound(int events, int trials, double confidence);

}  // namespace hailwright
