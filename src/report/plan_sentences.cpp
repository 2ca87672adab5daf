#include "report/plan_sentences.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/safety/yardsticks.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

/// A bound: rounded up.
std::string joule(Energy e) {
  return fixed(std::ceil(e.si() * 10.0) / 10.0, 1) + " J";
}

std::string metres(Length l) {
  return fixed(std::ceil(l.si()), 0) + " m";
}

}  // namespace

bool plan_was_kept(const Test& test) {
  const auto& planned = test.record.planned;
  return planned && planned->date <= test.record.date &&
         changed_parts(planned->mark, test.protocol.mark).empty();
}

std::string plan_kept_sentence(const Test& test) {
  const auto& planned = test.record.planned;
  if (!planned) return "nothing was kept that shows that the rules were set before the test";
  if (planned->date > test.record.date) {
    return fmt::format("dated {}, after the test: it does not show that the rules were set before",
                       planned->date);
  }
  const std::vector<PlanPart> changed = changed_parts(planned->mark, test.protocol.mark);
  if (changed.empty()) {
    return fmt::format("protocol unchanged since {} ({})", planned->date, text(planned->mark));
  }
  std::vector<std::string> parts;
  for (const PlanPart part : changed)
    parts.emplace_back(text(part));
  return fmt::format("protocol changed since {}: {}", planned->date, enumerate(parts));
}

std::string reach_sentence(const SeriesOutlook& s) {
  switch (s.obstacle) {
  case DeliveryObstacle::nominal_setting:
    return "no: a nominal setting supports no grade. Measure trial shots";
  case DeliveryObstacle::speed_not_measured:
    return "no: a ball of this speed cannot be measured in the way that the protocol says";
  case DeliveryObstacle::mass_not_weighed:
    return "no: the balls are not weighed";
  case DeliveryObstacle::few_trials:
    return "no: fewer than 5 trial shots at a setting support no grade";
  case DeliveryObstacle::none:
    break;
  }
  if (s.launcher_can && !*s.launcher_can) {
    return "no: the launcher's fastest speed is below what is needed";
  }
  const std::string chance = whole_percent(s.chance);
  if (s.drop) {
    return s.reached
               ? fmt::format("yes: in {} of such series, if every ball lands in its place", chance)
               : fmt::format("no: a fall of this height is shown to be enough in {} of such "
                             "series",
                             chance);
  }
  if (s.reached) {
    return fmt::format("yes: aimed as the sheet says, and if every ball lands in its place, every "
                       "place is shown to be struck at least at the grade in {} of such series",
                       chance);
  }
  return fmt::format("hardly: even aimed as high as is reasonable, {} of such series are shown to "
                     "be delivered{}",
                     chance, s.help ? ". " + help_sentence(*s.help) : "");
}

std::string help_sentence(DeliveryHelp help) {
  switch (help) {
  case DeliveryHelp::more_trials:
    return "What helps most: ten trial shots at the setting";
  case DeliveryHelp::better_speed:
    return "What helps most: a speed known twice as well (a longer base, more frames a second, the "
           "scale in the plane of flight)";
  case DeliveryHelp::better_scales:
    return "What helps most: scales twice as good, or more balls weighed together";
  case DeliveryHelp::steadier_launcher:
    return "What helps most: a launcher with half the scatter";
  }
  fail_contract("unknown help");
}

/// Simulated to half a per cent: no decimals.
std::string whole_percent(double probability) {
  const double percent = std::round(probability * 100.0);
  if (percent < 1.0) return "less than 1 %";
  if (percent > 99.0) return "more than 99 %";
  return fixed(percent, 0) + " %";
}

std::string ice_sentence(const SeriesOutlook& s) {
  switch (s.ice) {
  case IceObstacle::none:
    return "";
  case IceObstacle::not_tried:
    return fmt::format(
        "how many to freeze for {} cannot be said before some were thrown at a dummy "
        "and some made: launch: {{tried: ..., hit: ...}}, ice: {{made: ..., "
        "rejected: ...}}",
        counted(s.wanted, "hit"));
  case IceObstacle::no_success:
    return fmt::format("how many to freeze for {} cannot be said as long as no throw has hit or no "
                       "ball could be thrown",
                       counted(s.wanted, "hit"));
  case IceObstacle::too_many:
    return fmt::format("more than 10 000 balls for {}: practise aiming first",
                       counted(s.wanted, "hit"));
  case IceObstacle::no_such_mould:
    return "no mould of this size is stated: how many nights they take cannot be said";
  }
  fail_contract("unknown reason");
}

std::string tolerance_text(const SeriesOutlook& s, const Target& target) {
  std::string text = "within " + percent_text(s.tolerance) + " of each";
  if (target.grade != nullptr && target.grade->tolerance &&
      s.tolerance > *target.grade->tolerance) {
    text += ", wider than the grade's own " + percent_text(*target.grade->tolerance);
  }
  return text;
}

std::string drop_sentence(const DropOutlook& drop, const SeriesOutlook& s) {
  const auto share = [&](Energy e) {
    return percent_text(Ratio::from_si(e.si() / s.nominal.si()), 0);
  };
  std::string text =
      fmt::format("a fall of {} gives {} to {}, {} to {} of the grade's energy",
                  in_unit(drop.height, "m", 1), in_unit(drop.lowest, "J", 2),
                  in_unit(drop.highest, "J", 2), share(drop.lowest), share(drop.highest));
  if (drop.highest >= s.nominal) return text;
  return text + (drop.needed ? ". Dropping is no way to this grade: it is a weak test and a danger "
                               "to whoever climbs"
                             : ". No fall reaches this grade: in air the ball stops gaining speed "
                               "below it");
}

std::string miss_sentence(const MissOutlook& miss) {
  return fmt::format("a miss can first touch level ground {} away (without air, from {} over the "
                     "ground{}); with a "
                     "wind of 10 m/s behind it and little drag {}. It bounces and rolls further; "
                     "no figure here is "
                     "a distance to rely on, and spin can carry a ball beyond it",
                     metres(miss.no_air), in_unit(miss.height, "m", 1),
                     miss.fastest_stated
                         ? ""
                         : "; the launcher's fastest speed is not stated, or too low for "
                           "the aim: 25 % more than "
                           "aimed at is taken",
                     metres(miss.with_wind));
}

std::string energy_sentence(Energy upper, const MissOutlook& miss) {
  std::string text = fmt::format(
      "the hardest ball carries up to {} as it leaves the launcher (upper value)", joule(upper));
  if (miss.fastest_stated && miss.at_fastest > upper) {
    text +=
        fmt::format(", and {} if the launcher is ever set to its fastest", joule(miss.at_fastest));
  }
  if (const Yardstick* outdone = strongest_eyewear_below(upper)) {
    text += fmt::format("; that outdoes what this is proved with: {} ({})", outdone->name,
                        in_unit(outdone->energy, "J", 1));
  }
  return text;
}

// Common practice, no source.
std::vector<std::string> stop_rules() {
  return {"a person or an animal comes near the line of fire",
          "a ball flies over, beside or through the backstop",
          "the panel's glass or sheet breaks: cover it before anyone goes near",
          "a band, spring, hose or joint of the launcher shows a nick or a leak",
          "wind moves the backstop, or the light fails",
          "the lookout, or anyone else, says stop"};
}

std::string refusal_sentence(const RefusalFinding& refusal) {
  switch (refusal.refusal) {
  case Refusal::lethal_energy:
    return fmt::format(
        "{}: from 58 foot-pounds (78.63 J) on this is no test for a home. Hand it to "
        "a laboratory",
        refusal.found);
  case Refusal::plastic_pressure:
    return fmt::format("{}: plastic pipe under gas pressure bursts into shards", refusal.found);
  case Refusal::installed_panel:
    return fmt::format("{}: only a loose panel, bought for the test, is struck", refusal.found);
  case Refusal::people_forward:
    return fmt::format("{}: nobody is forward of the launcher while it can fire", refusal.found);
  case Refusal::high_voltage_test:
    return fmt::format("{}: insulation tests use 500 V and more; leave them to a laboratory",
                       refusal.found);
  case Refusal::voltage_out_of_range:
    return fmt::format("{}: above 120 V the panels are out of the extra-low range; leave them to a "
                       "qualified person",
                       refusal.found);
  }
  fail_contract("unknown refusal");
}

std::string finding_sentence(const GateFinding& f) {
  const std::string key = f.block + ": " + f.key;
  switch (f.fault) {
  case AnswerFault::missing:
    return fmt::format("{}: not answered; {}", key, f.wanted);
  case AnswerFault::insufficient:
    return fmt::format("{}: found \"{}\"; wanted {}", key, f.found, f.wanted);
  case AnswerFault::too_old:
    return fmt::format("{}: {}; {}", key, f.found, f.wanted);
  }
  fail_contract("unknown fault of an answer");
}

}  // namespace hailwright
