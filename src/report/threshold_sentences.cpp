#include "report/threshold_sentences.hpp"

#include <fmt/format.h>

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string interval_text(const EnergyInterval& interval) {
  if (interval.low && interval.high) {
    return fmt::format("{} to {}", threshold_energy_text(*interval.low),
                       threshold_energy_text(*interval.high));
  }
  if (interval.low) {
    return fmt::format("{} or more; these tests bound no upper end",
                       threshold_energy_text(*interval.low));
  }
  if (interval.high) {
    return fmt::format("{} or less; these tests bound no lower end",
                       threshold_energy_text(*interval.high));
  }
  return "these tests bound it on neither side";
}

std::string level_text() {
  return fmt::format("{:.0f} %", 100.0 * threshold_level);
}

/// "a factor of 1.28": one standard deviation of ln energy.
std::string factor_text(double log_energy) {
  return fmt::format("a factor of {}", significant(std::exp(log_energy), 3));
}

std::string missing(int found, const char* outcome) {
  const int more = ThresholdLimits::fewest_of_either - found;
  return fmt::format("{} {}: at least {} are needed, so {} more",
                     found == 0 ? "no specimen" : counted(found, "specimen"), outcome,
                     ThresholdLimits::fewest_of_either, more);
}

/// Whether two energies read alike: what cannot be told apart on the page is not called different.
bool reads_alike(Energy a, Energy b) {
  return threshold_energy_text(a) == threshold_energy_text(b);
}

/// Where the tests that are missing would have energies at which a home test is refused.
std::string laboratory_hint(std::optional<Energy> up_to) {
  if (!up_to || *up_to < CautionLimits::lethal) return "";
  return "; energies like these are for a laboratory: a home test is refused there";
}

std::string separated_sentence(const SpecimenBracket& b) {
  const bool tie = reads_alike(*b.highest_undamaged, *b.lowest_damaged);
  return fmt::format("every damaged specimen had at least as much energy as every other: the "
                     "scatter cannot be told. What is missing: more specimens {}, until the "
                     "outcomes overlap{}",
                     tie ? "on both sides of the bracket"
                         : "inside the bracket and just outside it",
                     laboratory_hint(b.lowest_damaged));
}

/// "test 5 (S5)".
std::string test_text(std::size_t at, const Specimens& specimens) {
  return fmt::format("test {} ({})", at + 1, specimens.tests.at(at).specimen);
}

std::string refused_sums(const StaircaseResult& s, const Specimens& specimens) {
  const std::string ratio = s.sums.scale ? significant(*s.sums.scale / s.step, 2) : "";
  switch (s.sums.obstacle) {
  case StaircaseObstacle::off_grid:
    return fmt::format("{} lies between two levels", test_text(s.sums.at, specimens));
  case StaircaseObstacle::rule_broken:
    return fmt::format(
        "{} is not one step from the test before, to the side that the rule asks for",
        test_text(s.sums.at, specimens));
  case StaircaseObstacle::few_tests:
    return fmt::format("{} of {} tests", specimens.tests.size(), StaircaseLimits::fewest);
  case StaircaseObstacle::one_outcome:
    return "all outcomes are the same";
  case StaircaseObstacle::scale_too_low:
    return fmt::format("the scatter comes out as {} steps, below the {} from which on they hold: "
                       "the steps are too wide",
                       ratio, StaircaseLimits::least_ratio);
  case StaircaseObstacle::scale_too_high:
    return fmt::format("the scatter comes out as {} steps, above the {} up to which they hold: "
                       "the steps are too narrow",
                       ratio, StaircaseLimits::most_ratio);
  case StaircaseObstacle::none:
    return "there is no estimate to stand beside";
  }
  fail_contract("unknown obstacle of a staircase");
}

}  // namespace

std::string threshold_energy_text(Energy energy) {
  // Far ends of an interval that is hardly bounded.
  if (energy.si() >= 1e6) return "1000000 J or more";
  if (energy.si() < 1e-3) return "less than 0.001 J";
  return significant(energy.si(), 3) + " J";
}

std::string tested_sentence(const DamageThreshold& t) {
  const int all = t.damaged + t.undamaged;
  if (all == 0) return "no specimen was struck yet";
  const std::string energies = reads_alike(*t.lowest, *t.highest)
                                   ? threshold_energy_text(*t.lowest)
                                   : fmt::format("from {} to {}", threshold_energy_text(*t.lowest),
                                                 threshold_energy_text(*t.highest));
  return fmt::format("{}, {}struck once: {} damaged, {} not; {}", counted(all, "specimen"),
                     all == 1 ? "" : "each ", t.damaged, t.undamaged, energies);
}

std::string bracket_sentence(const SpecimenBracket& b) {
  if (!b.lowest_damaged && !b.highest_undamaged) return "nothing to tell yet";
  if (!b.lowest_damaged) {
    return fmt::format("none was damaged, up to {}", threshold_energy_text(*b.highest_undamaged));
  }
  if (!b.highest_undamaged) {
    return fmt::format("all were damaged, from {} on", threshold_energy_text(*b.lowest_damaged));
  }
  if (reads_alike(*b.highest_undamaged, *b.lowest_damaged)) {
    return fmt::format("at {} some were damaged and some not",
                       threshold_energy_text(*b.lowest_damaged));
  }
  const std::string ends = fmt::format(
      "the most energy without damage was {}, the least with damage {}",
      threshold_energy_text(*b.highest_undamaged), threshold_energy_text(*b.lowest_damaged));
  return ends + (b.separated() ? ": of these specimens damage began in between"
                               : ": the two overlap, so specimens differ, or their energies are "
                                 "not known well enough");
}

std::string obstacle_sentence(ThresholdObstacle obstacle, const DamageThreshold& t) {
  switch (obstacle) {
  case ThresholdObstacle::few_damaged:
    return missing(t.damaged, "with damage") + laboratory_hint(t.highest);
  case ThresholdObstacle::few_undamaged:
    return missing(t.undamaged, "without damage") + laboratory_hint(t.lowest);
  case ThresholdObstacle::separated:
    return separated_sentence(t.bracket);
  case ThresholdObstacle::not_rising:
    return "damage did not become more frequent with energy: these tests show no threshold. What "
           "is missing: specimens struck with clearly less and clearly more energy; look also "
           "whether all are alike and were struck alike" +
           laboratory_hint(t.highest);
  }
  fail_contract("unknown obstacle of a threshold");
}

std::string threshold_sentence(const ThresholdEnergy& e) {
  std::string text = fmt::format("{}; {} interval: {}", threshold_energy_text(e.estimate),
                                 level_text(), interval_text(e.interval));
  if (e.below_all_tests) {
    text += "; the estimate lies below all energies tested and rests on the shape of the curve";
  }
  return text;
}

std::string shared_error_sentence(const EnergyInterval& interval) {
  return fmt::format("with the stated error of the energies, should all tests share it: {}",
                     interval_text(interval));
}

bool shows_threshold(const ThresholdEstimate& e) {
  return e.scale.high && (e.e50.interval.low || e.e50.interval.high);
}

std::string_view hint_only_sentence() {
  return "a hint only: these tests do not show that damage becomes more frequent with energy";
}

std::string scatter_sentence(const ThresholdEstimate& e) {
  std::string found = fmt::format("standard deviation of ln energy {} ({})",
                                  significant(e.fit.scale, 2), factor_text(e.fit.scale));
  if (!e.scale.low) return found;
  if (!e.scale.high) {
    return fmt::format("{}; {} interval: {} or more, these tests bound no upper end", found,
                       level_text(), significant(*e.scale.low, 2));
  }
  return fmt::format("{}; {} interval: {} to {}", found, level_text(), significant(*e.scale.low, 2),
                     significant(*e.scale.high, 2));
}

std::string doubt_sentence(const DamageThreshold& t) {
  if (!t.doubt) {
    return "how well the energies are known is not stated: an error that all tests share moves "
           "every energy here by as much and stands in no interval; write  energy: {accuracy: ...}";
  }
  std::string text = fmt::format("the energies are known within {} (standard uncertainty, the "
                                 "largest of the tests)",
                                 fmt::format("{} %", significant(100.0 * t.doubt->largest_u, 2)));
  if (!t.doubt->of_scale) return text;
  text += fmt::format(", {} of the scatter", significant(*t.doubt->of_scale, 2));
  if (t.doubt->notable()) {
    text += fmt::format("; where it differs from test to test, it makes up a notable part of the "
                        "scatter (more than {} of it): the specimens themselves scatter less",
                        ThresholdLimits::notable_u);
  }
  return text;
}

std::string staircase_sentence(const StaircaseResult& s, const Specimens& specimens) {
  if (!s.e50) {
    return fmt::format("not evaluated by the sums of Dixon and Mood: {}",
                       refused_sums(s, specimens));
  }
  return fmt::format("by the sums of Dixon and Mood over the {} {} damage: E50 {}, "
                     "standard deviation of ln energy {}, {} steps; the interval is the one above",
                     counted(s.sums.counted, "specimen"), s.sums.counts_ones ? "with" : "without",
                     threshold_energy_text(*s.e50), significant(*s.scale, 2),
                     significant(*s.scale / s.step, 2));
}

std::string next_sentence(const ThresholdAnswer& answer) {
  if (!answer.next) {
    return "The next energy is not printed without the safety answers of a protocol with a series "
           "of shots. It is asked for by naming the protocol and its panels:";
  }
  switch (answer.next->obstacle) {
  case NextObstacle::none:
    return fmt::format(
        "A fresh specimen at {}, with the ball of series {}; up to {} at the muzzle. Each specimen "
        "is struck once: never strike one again, the first hit may have weakened it.",
        threshold_energy_text(answer.next->next->energy),
        answer.plan->protocol->series[answer.next->series].name,
        threshold_energy_text(answer.next->next->upper_at_muzzle));
  case NextObstacle::no_staircase:
    return "There is no rule for the next energy. An up-and-down test is planned in the file of "
           "specimens:";
  case NextObstacle::between_levels:
    return "The last test lies between two levels, so the rule gives no next energy.";
  case NextObstacle::too_little:
    return "The rule asks for less energy than a file of specimens can state: none is printed.";
  case NextObstacle::gate_closed:
    return answer.next->gate->refusals.empty()
               ? "The next energy is not printed: the safety section of the protocol does not "
                 "answer all that this test asks."
               : "The next energy is not printed: this test is refused, whatever is answered.";
  case NextObstacle::launcher_too_slow:
    return "The next energy is not printed: at its upper end it needs a higher speed at the muzzle "
           "than the launcher's stated fastest speed.";
  }
  fail_contract("unknown obstacle of a next specimen");
}

std::vector<std::string> next_to_copy(const ThresholdAnswer& answer) {
  if (!answer.next) return {"hailwright threshold FILE --protocol FILE --panel FILE"};
  if (answer.next->obstacle == NextObstacle::no_staircase)
    return {"staircase: {start: ..., step: ...}"};
  return {};
}

std::string_view threshold_scope_sentence() {
  return "Of specimens like these, each struck once, in the same way. It says nothing about a "
         "panel "
         "that is struck again, nor about other panels of the model. A home test is no "
         "certification, and does not replace local law, licensed electricians or an accredited "
         "laboratory.";
}

}  // namespace hailwright
