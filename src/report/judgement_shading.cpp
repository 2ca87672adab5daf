#include "report/judgement_shading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "report/judgement_done.hpp"
#include "report/judgement_energy.hpp"
#include "report/readings_sentences.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

int loss_decimals(const ShadingResult& r) {
  return std::min(3, decimals_for(r.left->standard_u.si() * 100.0));
}

std::string as_percent(Ratio ratio, const ShadingResult& r) {
  return percent_text(ratio, loss_decimals(r));
}

std::string once_sentence(const char* what, bool scatter_seen) {
  return fmt::format("the {} was typed once for both readings of a round: {}", what,
                     scatter_seen ? "what it did between them is in the interval as far as the "
                                    "rounds differ"
                                  : "what it did between them is not in the interval");
}

/// What the difference from what was expected says, and what it leaves open.
std::string word_sentence(const BypassCheck& check) {
  const std::string tolerance = percent_text(bypass_tolerance, 0);
  switch (check.word) {
  case BypassWord::as_expected:
    return fmt::format("that is as expected, to within {} of it. A diode that is broken open does "
                       "not show at open circuit",
                       tolerance);
  case BypassWord::smaller:
    return fmt::format("that is less than expected, by more than {} of it: a shorted bypass diode "
                       "does that, and so does light that gets under the card. One reading cannot "
                       "tell them apart",
                       tolerance);
  case BypassWord::larger:
    return fmt::format("that is more than expected, by more than {} of it: more was in the shade "
                       "than was said, or the panel has fewer substrings than its file says",
                       tolerance);
  case BypassWord::cannot_tell:
    break;
  }
  if (!check.expected) {
    return "the panel file does not say how many substrings there are: there is nothing to hold it "
           "against. Write there, as in  substrings: 2";
  }
  return fmt::format("whether that is as expected, to within {} of it, cannot be told at this "
                     "accuracy",
                     tolerance);
}

}  // namespace

std::string shading_loss_sentence(const ShadingResult& r) {
  expects(r.left.has_value(), "a shade that was read by its power");
  return fmt::format("takes {} of the power, 95 % interval {} to {}, by {}", as_percent(r.loss, r),
                     as_percent(r.low, r), as_percent(r.high, r),
                     counted(static_cast<int>(r.rounds_left.size()), "round"));
}

std::vector<std::string> shading_basis_sentences(const ShadingResult& r) {
  std::vector<std::string> lines;
  if (r.scatter_seen) {
    std::vector<std::string> losses;
    for (const Ratio left : r.rounds_left)
      losses.push_back(as_percent(Ratio::from_si(1.0) - left, r));
    lines.push_back(fmt::format("round by round {}; how far they differ is in the interval",
                                enumerate(losses)));
  } else {
    lines.emplace_back(
        "a single round does not show how far rounds differ: the interval is that of "
        "the instruments alone");
  }
  lines.emplace_back("what is wrong by the same share in both readings, the gains of power meter "
                     "and sun meter, cancels; digits do not");
  if (r.sun_typed_once) lines.push_back(once_sentence("irradiance", r.scatter_seen));
  if (r.back_typed_once) lines.push_back(once_sentence("temperature of the back", r.scatter_seen));
  return lines;
}

std::vector<std::string> bypass_sentences(const ShadeTrial& trial, const BypassCheck& check) {
  expects(trial.open_free && trial.open_shaded, "both open-circuit voltages");
  const double u = check.drop.standard_u.si();
  const int decimals = u > 0.0 ? std::min(3, decimals_for(u)) : 2;
  const auto volts = [&](Voltage v) { return in_unit(v, "V", decimals); };
  std::string text =
      fmt::format("with {} in full shade the open-circuit voltage {} from {} to {}",
                  counted(check.shaded, "substring"), check.drop.value.si() < 0.0 ? "rose" : "fell",
                  volts(*trial.open_free), volts(*trial.open_shaded));
  text += ", by " + within_text(std::abs(check.drop.value.si()), u, check.half_width.si(), "V");
  if (check.expected) {
    text += fmt::format("; {} of {} substrings make {}", check.shaded, *check.substrings,
                        volts(*check.expected));
  }
  return {text, word_sentence(check)};
}

Facts shading_facts(const Test& test, const Assessment& assessment, const SourceSet& sources) {
  Facts facts;
  std::vector<std::string> assumed;
  for (const ShadingResult& r : assessment.shading) {
    const ShadeTrial& trial = test.record.shading.at(r.trial);
    std::vector<std::string> lines;
    if (r.left) {
      lines.push_back(shading_loss_sentence(r));
      const auto basis = shading_basis_sentences(r);
      lines.insert(lines.end(), basis.begin(), basis.end());
    }
    if (r.bypass) {
      const auto bypass = bypass_sentences(trial, *r.bypass);
      lines.insert(lines.end(), bypass.begin(), bypass.end());
    }
    lines.front() =
        fmt::format("{}: {}{}", when_text(trial.after, trial.date, !test.protocol.series.empty()),
                    lines.front(), place_text(sources, trial.origin));
    add_fact(facts, trial.shade, std::move(lines));
    add_assumed_lines(assumed, r.assumptions);
  }
  add_fact(facts, "assumed for them", std::move(assumed));
  return facts;
}

}  // namespace hailwright
