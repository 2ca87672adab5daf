#include "report/check_sentences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/metrology/monte_carlo.hpp"
#include "report/sentences.hpp"
#include "report/shown_loss.hpp"
#include "report/words.hpp"

namespace hailwright {

std::string grouped(std::int64_t count) {
  constexpr std::size_t group = 3;
  std::string digits = std::to_string(count);
  for (std::size_t at = digits.size(); at > group;) {
    at -= group;
    digits.insert(at, "\u00a0");
  }
  return digits;
}

namespace {

/// Which answers the trials would give otherwise; the limit is not asked of them where the estimate
/// alone answers it.
std::string answered_otherwise(const PowerResult& p, const MonteCarloCheck& c) {
  const LossAnswers by_interval = decide_loss(p.estimate, p.limit);
  std::vector<std::string> questions;
  if (by_interval.real != c.answers.real) questions.emplace_back("whether there is a drop");
  if (by_interval.beyond != c.answers.beyond && !p.simple) {
    questions.push_back("whether it is beyond " + limit_text(p.limit));
  }
  return enumerate(questions);
}

std::string agreement(const PowerResult& p, const MonteCarloCheck& c) {
  const std::string otherwise = c.disagrees ? answered_otherwise(p, c) : "";
  if (!otherwise.empty()) {
    return fmt::format("{} would be answered otherwise by them. The two methods disagree at this "
                       "accuracy, so this is left undecided",
                       otherwise);
  }
  const double off = std::max(std::abs(p.estimate.low().si() - c.low.si()),
                              std::abs(p.estimate.high().si() - c.high.si()));
  const std::string points = fixed(100.0 * off, 2) + " points";
  if (c.agreed_digits > 0) {
    return fmt::format("the ends above agree with these within {}, to {} of the uncertainty{}",
                       points, counted(c.agreed_digits, "digit"),
                       c.agreed_digits == 1 ? ", to which the loss is rounded" : "");
  }
  return fmt::format("the ends above differ from these by up to {}, more than 1 digit of the "
                     "uncertainty allows; the loss is rounded to that digit{}",
                     points, p.usable() ? "; each answer is the same by both" : "");
}

std::string made(const MonteCarloCheck& c) {
  if (!c.adaptive) return "";
  return c.capped ? ", the most allowed, and not stable yet" : ", when the result was stable";
}

/// The ends of a shortest interval are noisier than those of the symmetric one.
std::string shortest_text(const PowerResult& p, const MonteCarloCheck& c) {
  const double last_digit = 2.0 * numerical_tolerance(100.0 * p.estimate.u_loss().si(), 1);
  const int one_digit = std::max(0, -static_cast<int>(std::lround(std::log10(last_digit))));
  const int decimals = telling_decimals({c.shortest->first, c.shortest->second}, p.limit,
                                        std::min(loss_decimals(p), one_digit));
  return fmt::format("{} to {}", percent_text(c.shortest->first, decimals),
                     percent_text(c.shortest->second, decimals));
}

}  // namespace

std::vector<std::string> trials_sentences(const PowerResult& p, const MonteCarloCheck& c) {
  std::vector<std::string> lines{
      fmt::format("checked by {} random trials of the same model{}: {}; {}", grouped(c.trials),
                  made(c), ends_text(c.low, c.high, p), agreement(p, c))};
  if (c.shortest) {
    lines.push_back(fmt::format("the shortest interval that holds {} of those trials: {}",
                                level_text(p.estimate.alpha), shortest_text(p, c)));
  }
  return lines;
}

std::string unchecked_sentence() {
  return "not checked by random trials: the loss is rounded by its uncertainty alone, up to the "
         "second digit, which trials might not bear out";
}

std::string baseline_sentence(const PowerResult& p, const BaselineCheck& b) {
  return fmt::format("the untouched panel, measured twice: change {} ({} to {}): {}",
                     loss_text(b.change.loss(), p), loss_text(b.change.low(), p),
                     loss_text(b.change.high(), p),
                     b.moved ? "a change is shown where there was none" : "no change shown");
}

std::string simple_sentence() {
  return "answered by the estimate alone, as the protocol says: a loss near the limit is called "
         "wrongly up to half the time";
}

std::string siblings_sentence(const SiblingSpread& s) {
  const std::string units =
      "against " + counted(static_cast<int>(s.units.size()), "unstruck unit") + " of its model";
  if (s.assumed || !s.sd) {
    return units + "; the maker's tolerance stands for the spread of the model";
  }
  return fmt::format("{}, which differ among themselves by {}", units,
                     percent_text(Ratio::from_si(*s.sd)));
}

namespace {

/// "3 more set-ups after the shots".
std::string further_units(const PowerResult& p, int count) {
  return counted(count, p.model && p.model->unit_is_day ? "more day" : "more set-up") +
         (p.model && p.model->unit_is_day ? " of set-ups after the shots" : " after the shots");
}

/// A probability rounded down, so that no more is promised than was computed.
std::string at_least_chance(double chance) {
  return chance_text(Ratio::from_si(std::floor(chance * 100.0 + 1e-9) / 100.0));
}

/// A power that rose is taken for no loss.
bool risen(const PowerResult& p) {
  return p.estimate.lambda > 0.0;
}

std::string as_taken(const PowerResult& p) {
  return risen(p) ? "if nothing was lost, since damage adds no power, and the other figures stay"
                  : "if the figures stay";
}

std::string off_by_one_u(const PowerResult& p, const Settling& s) {
  const auto number = [](const std::optional<int>& n) {
    return n ? std::to_string(*n) : fmt::format("more than {}", most_further_setups);
  };
  if (risen(p)) {
    return fmt::format("; {} if the loss is one standard uncertainty instead", number(s.nearer));
  }
  if (s.further == s.nearer) return "; as many if the loss is one standard uncertainty off";
  return fmt::format("; {} if the loss lies one standard uncertainty further from the limit, {} if "
                     "as much nearer",
                     number(s.further), number(s.nearer));
}

std::string risk_text(const Settling& s) {
  return plain_number(s.alpha * 100.0, 3) + " %";
}

std::string risk_of_looking(const PowerResult& p, const Settling& s) {
  const std::string risk = risk_text(s);
  if (s.alpha >= p.estimate.alpha * (1.0 - 1e-9)) {
    return fmt::format(". That look is judged at a risk of {}, like this one", risk);
  }
  return fmt::format(". Looking again costs risk: that look is judged at {} instead of {} %", risk,
                     plain_number(p.estimate.alpha * 100.0, 3));
}

}  // namespace

std::string settling_sentence(const PowerResult& p, const Settling& s) {
  const auto points = [](Ratio r) { return fixed(100.0 * std::abs(r.si()), 2); };
  if (s.never) {
    return fmt::format(
        "no number of set-ups {}settles this: with endless ones, at the {} risk of "
        "another look, the loss would still be known to {} points each way only, and "
        "{} {} {}{}",
        s.other_days ? "on the same days " : "", risk_text(s), points(s.floor),
        risen(p) ? "even if nothing was lost the limit lies" : "it lies", points(s.margin),
        risen(p) ? "away" : "from the limit",
        s.other_days ? ". Set-ups after the shots on further days could: they shrink what the sky "
                       "of one day hides"
                     : "");
  }
  if (!s.as_estimated) {
    return fmt::format(
        "not even {} would settle this 8 times in 10, but {}, {}{}{}",
        further_units(p, most_further_setups), at_least_chance(s.chance), as_taken(p),
        s.further && !risen(p) ? fmt::format("; {} would if the loss lies one standard "
                                             "uncertainty further from the limit",
                                             *s.further)
                               : "",
        risk_of_looking(p, s));
  }
  return fmt::format("{} would settle it {}, {}{}{}", further_units(p, *s.as_estimated),
                     at_least_chance(s.chance), as_taken(p), off_by_one_u(p, s),
                     risk_of_looking(p, s));
}

}  // namespace hailwright
