// Steps 6 to 8 of an explanation: the questions, what could have been seen, the random trials.
#include "report/explanation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/monte_carlo.hpp"
#include "report/check_sentences.hpp"
#include "report/power_sentences.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string percent3(Ratio r) {
  return hundredfold(r.si(), 3) + " %";
}

const char* yes_no(bool yes) {
  return yes ? "yes" : "no";
}

/// "-0.774 % > 0: no".
std::string compared(Ratio value, const char* relation, const std::string& bound, bool holds) {
  return fmt::format("{} {} {}: {}", percent3(value), relation, bound, yes_no(holds));
}

std::string risk_line(const PowerCase& power) {
  const PowerResult& p = power.result;
  return fmt::format("alpha = {} % / {} = {} %",
                     plain_number(100.0 * p.estimate.alpha * p.looks_counted, 4),
                     counted(p.looks_counted, "look"), plain_number(100.0 * p.estimate.alpha, 4));
}

void limit_lines(Step& step, const PowerResult& p) {
  const LossEstimate& e = p.estimate;
  const std::string limit = limit_text(p.limit);
  if (p.simple) {
    step.here.push_back("beyond? by the estimate alone, " +
                        compared(e.loss(), ">", limit, e.loss() > p.limit));
    return;
  }
  step.here.push_back("beyond? " + compared(e.low(), ">", limit, e.low() > p.limit));
  step.here.push_back("within? " + compared(e.high(), "<=", limit, e.high() <= p.limit));
}

/// How the protocol lets the limit be answered.
void append_limit_rule(Step& step, bool simple) {
  if (simple) {
    step.formula.emplace_back("beyond: L > limit; within: L <= limit");
    step.formula.emplace_back("the protocol chose simple acceptance for the limit: the estimate "
                              "alone, wrong up to half the time near the limit");
  } else {
    step.formula.emplace_back("beyond: low > limit");
    step.formula.emplace_back("within: high <= limit; neither: undecided");
  }
}

/// The probability by t; where the guard of step 5 widens the interval, it widens u alike.
std::string probability_line(const PowerResult& p) {
  const LossEstimate& e = p.estimate;
  const std::string limit = limit_text(p.limit);
  const std::string result = probability_text(e.probability_above(p.limit));
  if (e.u_lambda <= 0.0) return fmt::format("P(L > {}) = {}", limit, result);
  const double widened_u = e.expanded / t_quantile(1.0 - e.alpha, e.degrees_of_freedom);
  return fmt::format("P(L > {}) = P(t < (ln(1 - {}) - ({})) / {}) at {} = {}", limit,
                     as_typed(p.limit.si()), six(e.lambda), six(widened_u),
                     degrees_text(e.degrees_of_freedom), result);
}

/// What changes the plain answers, if anything does.
void bearing_lines(Step& step, const PowerCase& power) {
  const PowerResult& p = power.result;
  if (p.baseline) step.here.push_back(baseline_sentence(p, *p.baseline));
  for (const PowerNote& n : p.notes) {
    switch (weight_of(n.remark)) {
    case RemarkWeight::no_verdict:
      step.here.push_back("no answer counts: " + note_sentence(n));
      break;
    case RemarkWeight::not_valid:
      step.here.push_back("not valid: " + note_sentence(n));
      break;
    case RemarkWeight::blocks_limit:
      step.here.push_back("no answer to the limit: " + note_sentence(n));
      break;
    case RemarkWeight::warning:
    case RemarkWeight::note:
      break;
    }
  }
}

}  // namespace

Step explain_answers(const PowerCase& power) {
  const PowerResult& p = power.result;
  Step step;
  step.title = "6. The two questions";
  step.what = {
      fmt::format("One interval at one risk answers {}. Alpha is the risk of each wrong statement, "
                  "fixed before the test and shared by all looks at the result; the "
                  "interval has level 1 - 2 alpha.",
                  p.simple ? "the first; the estimate alone the second" : "both"),
      "That no drop is shown does not mean that there is none: step 7 says what could have been "
      "missed."};
  step.formula = {"real: low > 0"};
  append_limit_rule(step, p.simple);
  step.formula.emplace_back("not valid: high < 0, since damage adds no power");
  step.formula.emplace_back("P(L > limit) by t, with U / t(1 - alpha; nu_eff) in the place of u");
  step.here = {risk_line(power),
               "real? " + compared(p.estimate.low(), ">", "0", p.estimate.low() > Ratio{})};
  limit_lines(step, p);
  step.here.push_back("power gained? " +
                      compared(p.estimate.high(), "<", "0", p.estimate.high() < Ratio{}));
  step.here.push_back(probability_line(p));
  bearing_lines(step, power);
  step.here.push_back(fmt::format("so: a drop? {}; beyond? {}", real_answer(p), beyond_answer(p)));
  step.source = "rules M4 to M6; JCGM 106:2012, clause 8 (guarded and simple acceptance)";
  if (p.settling) step.here.push_back(settling_sentence(p, *p.settling));
  step.pages = p.looks_counted > 1 || p.settling
                   ? method_pages({"interval-and-decision", "looks-and-extension"})
                   : method_pages({"interval-and-decision"});
  return step;
}

Step explain_smallest(const PowerCase& power) {
  const PowerResult& p = power.result;
  const LossEstimate& e = p.estimate;
  const Combined observed = combine(p.budget, Evaluation::type_a);
  const double beta = 1.0 - p.see_chance.si();
  Step step;
  step.title = "7. What this test could have seen";
  step.what = {"A loss estimated above L_C is called a drop. L_D is the smallest true loss that "
               "would have been, with the chance that the protocol asks for. Neither is about the "
               "loss that was found, and below L_D a loss may be there all the same."};
  step.formula = {"L_C = 1 - e^(-U)",
                  "L_D = 1 - e^(-delta u), delta from the non-central t at alpha and the chance; "
                  "with the guard of step 5 the larger of delta(nu_eff) u and delta(nu_A) u_A"};
  step.here = {fmt::format("L_C = 1 - e^(-{}) = {}", six(e.expanded), percent3(e.real_above()))};
  if (e.u_lambda > 0.0) {
    const double delta = detectable_noncentrality(e.degrees_of_freedom, e.alpha, beta);
    step.here.push_back(fmt::format("delta({}) = {}; delta u = {}",
                                    freedom_text(e.degrees_of_freedom), fixed(delta, 3),
                                    six(delta * e.u_lambda)));
  }
  if (observed.standard_u > 0.0) {
    const double delta = detectable_noncentrality(observed.degrees_of_freedom, e.alpha, beta);
    step.here.push_back(fmt::format("delta({}) = {}; delta u_A = {}",
                                    freedom_text(observed.degrees_of_freedom), fixed(delta, 3),
                                    six(delta * observed.standard_u)));
  }
  step.here.push_back(
      fmt::format("L_D = {}, {}", percent3(p.smallest_shown), chance_text(p.see_chance)));
  if (p.smallest_shown_range &&
      percent3(p.smallest_shown_range->first) != percent3(p.smallest_shown_range->second)) {
    step.here.push_back(fmt::format(
        "the scatter itself is known to s x root of (nu / chi squared) only; at the ends of its "
        "90 % range L_D is {} and {}",
        percent3(p.smallest_shown_range->first), percent3(p.smallest_shown_range->second)));
  }
  step.source = "rule M4; the idea of ISO 11843 (from memory); non-central t";
  step.pages = method_pages({"smallest-loss"});
  return step;
}

namespace {

/// Clause 8 of JCGM 101: both ends against the numerical tolerance at one digit and at two.
void clause_8(Step& step, const PowerResult& p, const MonteCarloCheck& c) {
  const double off_low = std::abs(p.estimate.low().si() - c.low.si());
  const double off_high = std::abs(p.estimate.high().si() - c.high.si());
  step.here.push_back(fmt::format("ends differ by {} and {} points", hundredfold(off_low, 4),
                                  hundredfold(off_high, 4)));
  const double u = p.estimate.u_loss().si();
  if (u <= 0.0) return;
  for (const int digits : {1, 2}) {
    const double tolerance = numerical_tolerance(u, digits);
    step.here.push_back(fmt::format(
        "at {} of u: tolerance {} points, {}", counted(digits, "digit"), hundredfold(tolerance, 4),
        std::max(off_low, off_high) <= tolerance ? "agrees" : "does not agree"));
  }
}

std::string moments_line(const MonteCarloCheck& c) {
  if (!c.standard_u || !c.mean) {
    return fmt::format("median {}; no mean and no standard uncertainty: with scatter of so few "
                       "degrees of freedom they never settle",
                       percent3(c.median));
  }
  return fmt::format("median {}, mean {}, standard uncertainty {} points", percent3(c.median),
                     percent3(*c.mean), hundredfold(c.standard_u->si(), 3));
}

}  // namespace

Step explain_trials(const PowerCase& power) {
  const PowerResult& p = power.result;
  Step step;
  step.title = "8. Random trials";
  step.source = "rule M7; JCGM 101:2008, 6.4.9 (t), 7.7 (interval), 7.9 (trials), clause 8 "
                "(agreement)";
  step.pages = method_pages({"random-trials"});
  if (!p.check) {
    step.what = {"None were made (--trials 0), so the first-order interval stands unchecked."};
    return step;
  }
  const MonteCarloCheck& c = *p.check;
  step.what = {
      "All inputs are drawn at random by their shapes, each once for all readings it "
      "touches, and the loss is computed whole each time. The first-order interval "
      "decides; the trials check it, and a question that they would answer otherwise stays "
      "undecided."};
  step.formula = {"the same formula as in steps 1 and 2, with the errors put in",
                  "tolerance = half of the last digit that u has when it is given to so many "
                  "digits; both ends must agree within it"};
  step.here = {fmt::format("{} trials{}, seed {}", grouped(c.trials),
                           !c.adaptive ? ""
                           : c.capped  ? " (the most allowed, and not stable yet)"
                                       : " (stopped when stable)",
                           c.seed),
               moments_line(c),
               fmt::format("loss from {} to {}, the first-order one from {} to {}", percent3(c.low),
                           percent3(c.high), percent3(p.estimate.low()),
                           percent3(p.estimate.high()))};
  if (c.shortest) {
    step.here.push_back(fmt::format("shortest interval, its ends less sure: {} % to {} %",
                                    hundredfold(c.shortest->first.si(), 2),
                                    hundredfold(c.shortest->second.si(), 2)));
  }
  step.here.push_back(fmt::format("above 0: {} of the trials; above {}: {}",
                                  probability_text(c.above_zero), limit_text(p.limit),
                                  probability_text(c.above_limit)));
  clause_8(step, p, c);
  return step;
}

}  // namespace hailwright
