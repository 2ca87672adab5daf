#include "report/power_picture_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/sentences.hpp"
#include "report/shown_loss.hpp"
#include "report/words.hpp"

namespace hailwright::detail {

std::string stage_id(StageId stage) {
  switch (stage.kind) {
  case StageKind::before:
    return "before";
  case StageKind::after:
    return "after";
  case StageKind::later:
    return "later";
  case StageKind::baseline:
    return "baseline";
  case StageKind::after_series:
    return fmt::format("after-series-{}", stage.series + 1);
  case StageKind::after_stress:
    return fmt::format("after-stress-{}", stage.series + 1);
  }
  fail_contract("unknown stage");
}

std::string PowerWords::title() const {
  return fmt::format("{} of {} by set-up, {}",
                     view_.per_cent ? "Power against the control" : "Normalised power",
                     test_.record.title, stage_text(power_.stage, test_));
}

std::string PowerWords::axis() const {
  return view_.per_cent ? "power of the panel over that of the control, in % of its mean before"
                        : "power at 1000 W/m2 and 25 degC, in W";
}

std::string PowerWords::value(double shown) const {
  if (!std::isfinite(shown)) return "no bound";
  if (view_.per_cent) return fixed(shown, loss_decimals(power_)) + " %";
  return fixed(shown, watts_decimals(power_, Power::from_si(view_.from))) + " W";
}

std::string PowerWords::from_name() const {
  return view_.siblings ? "units" : "before";
}

std::string PowerWords::to_name() const {
  return view_.siblings ? "panel" : stage_text(power_.stage, test_);
}

std::string PowerWords::from_level() const {
  return from_name() + ' ' + value(view_.from);
}

std::string PowerWords::limit_level() const {
  return "limit " + value(view_.limit);
}

std::string PowerWords::to_level() const {
  const bool series = power_.stage.kind == StageKind::after_series && !view_.siblings;
  return (series ? "after" : to_name()) + ' ' + value(view_.to);
}

std::string PowerWords::counted_readings(std::size_t n) const {
  return counted(static_cast<int>(n), view_.per_cent ? "round" : "reading");
}

std::string PowerWords::readings(bool one_by_one) const {
  std::string words = counted_readings(view_.readings() - view_.apart());
  if (view_.per_cent) {
    words += power_.in_turn ? ", each of both panels read in turn" : ", each of both panels";
  }
  if (one_by_one) return words;
  return words + ", too many to draw one by one: the line is from the least to the largest of a "
                 "set-up, its long ticks hold the middle half of them";
}

std::string PowerWords::apart() const {
  const std::size_t n = view_.apart();
  return fmt::format("{} that {} apart and {} kept", counted_readings(n), n == 1 ? "lies" : "lie",
                     n == 1 ? "is" : "are");
}

std::string PowerWords::skipped(std::size_t beyond_axis) const {
  std::string words =
      counted_readings(view_.skipped()) + " left out; the table of readings says why";
  if (beyond_axis > 0) {
    words += fmt::format("; {} beyond the axis, drawn at its edge",
                         beyond_axis == 1 ? "1 lies" : fmt::format("{} lie", beyond_axis));
  }
  return words;
}

std::string PowerWords::from_mean() const {
  return fmt::format("{}: mean {}; dashed where it is drawn on to compare", from_name(),
                     value(view_.from));
}

std::string PowerWords::to_mean() const {
  std::string words =
      fmt::format("{}: mean {}, with the {} interval of its {}: {} to {}", to_name(),
                  value(view_.to), level_text(power_.estimate.alpha),
                  view_.siblings ? "difference to the units" : "change since before",
                  value(view_.to_interval.low), value(view_.to_interval.high));
  if (!power_.valid) return words + "; not valid, so no answer is drawn from it";
  if (!power_.decides) return words + "; no answer is drawn from it";
  return words;
}

std::string PowerWords::limit() const {
  return fmt::format("limit: {} less than {}, {}", limit_text(power_.limit),
                     view_.siblings ? "the units" : "before", value(view_.limit));
}

std::string PowerWords::notes() const {
  std::string words = "The axis does not begin at zero.";
  if (const auto day = view_.one_day())
    words = fmt::format("All set-ups are of {}. ", *day) + words;
  if (power_.model->trend) {
    words += " The two means have a straight line in time, over all set-ups, taken out.";
  }
  if (power_.model->drift_taken_out()) {
    words += " A steady drift in time inside a set-up is taken out of the set-up's mean, not of "
             "what is drawn around it.";
  }
  return words;
}

std::string PowerWords::description() const {
  std::string groups;
  for (const PowerGroup& group : view_.groups) {
    groups += fmt::format("{}{}: {}", groups.empty() ? "" : "; ", group.title,
                          counted(static_cast<int>(group.columns.size()), "set-up"));
  }
  return fmt::format("Vertical axis: {}. Set-ups from left to right, {}. {}: mean {}. {}. {}. The "
                     "table of set-ups has each number.",
                     axis(), groups, from_name(), value(view_.from), to_mean(), limit());
}

}  // namespace hailwright::detail
