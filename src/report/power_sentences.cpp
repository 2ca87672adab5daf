#include "report/power_sentences.hpp"

#include <fmt/format.h>

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/words.hpp"

namespace hailwright {

std::string obstacle_sentence(PowerObstacle obstacle, const std::string& subject) {
  switch (obstacle) {
  case PowerObstacle::none:
    return "";
  case PowerObstacle::no_reading_before:
    return "no reading before the shots that counts";
  case PowerObstacle::no_reading_after:
    return "no reading after the shots that counts";
  case PowerObstacle::no_replication:
    return "one set-up before and one after: nothing in the data tells how far two set-ups of an "
           "unchanged panel differ. Three or more a stage would; readings without mounting anew "
           "do not count as set-ups";
  case PowerObstacle::redone_not_stated:
    return "it is not said what each set-up took down and built again, so the set-ups cannot "
           "count as repeats. Write measure: {redone: [mount, aim, probe, leads]} in the "
           "protocol, if that is what was done";
  case PowerObstacle::part_not_redone:
    return fmt::format("'{0}' was not redone in each set-up and its size is not stated. Redo it, "
                       "or state it: measure: {{setup_scatter: {{...: {{spread: ..., of: {0}}}}}}}",
                       subject);
  case PowerObstacle::part_not_stated:
    return fmt::format("the stated set-up scatter leaves out '{0}'. State every step, or one "
                       "figure for a whole set-up: measure: {{setup_scatter: {{{0}: ..., ...}}}}",
                       subject);
  case PowerObstacle::one_reading:
    return "a set-up with one reading has no spread: take three or more readings in each";
  case PowerObstacle::no_control_pair:
    return fmt::format("set-up '{}' has no round in which both panels were read", subject);
  }
  fail_contract("unknown obstacle");
}

namespace {

std::string condition_words(const std::string& key) {
  if (key == "clean_and_dry") return "whether both panels were clean and dry";
  if (key == "same_leads") return "whether the same leads were used";
  if (key == "pre_exposed") return "whether the panels had been in the sun before";
  if (key == "in_sun_first") return "how long the panels stood in the sun first";
  if (key == "incidence") return "how steeply the sun fell in";
  if (key == "incidence_change") return "how much that changed between the stages";
  if (key == "since_last_shot") return "the time since the last shot";
  return key;
}

std::string warning_sentence(const PowerNote& n) {
  const auto number = [&](std::size_t i, int decimals) { return fixed(n.numbers.at(i), decimals); };
  switch (n.remark) {
  case PowerRemark::low_irradiance:
    return fmt::format("irradiance down to {} W/m2; below {} the correction grows doubtful",
                       number(0, 0), number(1, 0));
  case PowerRemark::irradiance_differs:
    return fmt::format("mean irradiance {} W/m2 before and {} after: more than 10 % apart",
                       number(0, 0), number(1, 0));
  case PowerRemark::unsteady_irradiance:
    return fmt::format("irradiance moved by {} % each way in set-up '{}'; up to {} % counts as "
                       "steady",
                       fixed(n.numbers.at(0) * 100, 1), n.subject, fixed(n.numbers.at(1) * 100, 0));
  case PowerRemark::unsteady_temperature:
    return fmt::format("temperature moved by {} K each way in set-up '{}'; up to {} K counts as "
                       "steady",
                       number(0, 1), n.subject, number(1, 0));
  case PowerRemark::temperature_differs:
    return fmt::format("cells {} K apart between the stages; {} K is the most", number(0, 1),
                       number(1, 0));
  case PowerRemark::incidence_large:
    return fmt::format("sun at {} deg from the normal; {} deg is the most", number(0, 0),
                       number(1, 0));
  case PowerRemark::incidence_changed:
    return fmt::format("angle of the sun changed by {} deg between the stages; {} deg is the most",
                       number(0, 0), number(1, 0));
  case PowerRemark::short_time_in_sun:
    return fmt::format("{} min in the sun first; {} min is the least", number(0, 0), number(1, 0));
  case PowerRemark::soon_after_shots:
    return fmt::format("read {} min after the last shot; {} min let the panel dry and settle",
                       number(0, 0), number(1, 0));
  case PowerRemark::variances_differ:
    return fmt::format("the set-ups scatter unlike in the two stages (F at {} of its 97.5 % "
                       "point); the pooled figure is used all the same",
                       number(0, 1));
  case PowerRemark::stated_smaller_than_observed:
    return fmt::format("the set-ups scatter more than the protocol states ({} against {} points "
                       "in u): the observed scatter is used",
                       fixed(n.numbers.at(1) * 100, 2), fixed(n.numbers.at(0) * 100, 2));
  default:
    fail_contract("not a warning with numbers");
  }
}

}  // namespace

std::string note_sentence(const PowerNote& n) {
  switch (n.remark) {
  case PowerRemark::fixed_load:
    return "the load is a fixed one: the readings are not maximum power";
  case PowerRemark::battery_full:
    return fmt::format("the battery stood at {} % in '{}': above 90 % it does not take all the "
                       "power",
                       fixed(n.numbers.at(0) * 100, 0), n.subject);
  case PowerRemark::few_units:
    return fmt::format("{0} of freedom in the scatter of the {1}s: too few to decide by. Three "
                       "{1}s before and three after are the least",
                       counted(static_cast<int>(std::lround(n.numbers.at(0))), "degree"),
                       n.subject);
  case PowerRemark::power_gained:
    return "the power seems to have risen by more than the uncertainty allows. Hail adds no "
           "power: something else changed, such as dirt washed off, the sun meter moved, or a "
           "panel not yet settled in the sun";
  case PowerRemark::control_moved:
    return fmt::format("the unstruck control changed by {} %, more than the {} % it is said to "
                       "be stable to",
                       fixed(n.numbers.at(0) * 100, 1), fixed(n.numbers.at(1) * 100, 1));
  case PowerRemark::baseline_moved:
    return fmt::format("two blocks of the untouched panel differ by {} % ({} to {}): the method "
                       "shows a change where there was none",
                       fixed(n.numbers.at(0) * 100, 1), fixed(n.numbers.at(1) * 100, 1),
                       fixed(n.numbers.at(2) * 100, 1));
  case PowerRemark::not_following_sun:
    return fmt::format("the power of the {} rises with {} of the irradiance where 1 is due: "
                       "something else than the sun limited it, so nothing is said about the "
                       "limit",
                       n.subject, fixed(n.numbers.at(0), 2));
  case PowerRemark::not_stated:
    return "not stated: " + condition_words(n.subject);
  case PowerRemark::battery_not_stated:
    return fmt::format("whether the load took all the power is not checked where its state of "
                       "charge is not stated: {}",
                       n.subject);
  case PowerRemark::baseline_not_checked:
    return "the baseline was not compared with the readings before: too few set-ups";
  case PowerRemark::other_instrument:
    return fmt::format("another instrument after the shots: {}. Its gain does not cancel",
                       n.subject);
  case PowerRemark::not_clean:
    return "the panels were not clean and dry";
  case PowerRemark::other_leads:
    return "other leads were used after the shots";
  case PowerRemark::not_pre_exposed:
    return "a new panel drifts in its first sun";
  default:
    return warning_sentence(n);
  }
}

std::string real_answer(const PowerResult& p) {
  if (!p.valid) return "not valid";
  if (!p.decides) return "not decided";
  if (p.is_real()) return "yes, shown";
  return "not shown, which is not the same as none";
}

std::string beyond_answer(const PowerResult& p) {
  if (!p.valid) return "not valid";
  if (!p.decides) return "not decided";
  if (p.is_beyond()) return "yes";
  if (p.is_within()) return "no, within it";
  return "undecided";
}

}  // namespace hailwright
