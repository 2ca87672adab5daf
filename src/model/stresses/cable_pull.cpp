// A weight pulls at the leads, a plug or the junction box.
#include <fmt/format.h>

#include "model/stresses/kinds.hpp"
#include "model/stresses/stress_parts.hpp"

namespace hailwright::stresses {

namespace {

constexpr std::string_view kind_word = "cable pull";

constexpr double strongest_N = 100.0;  // a falling weight of 10 kg is enough for a home [ours]

struct Pull {
  double N = 0.0, u_N = 0.0;
};

/// Weight of what hung there, or what a spring balance showed.
std::optional<Pull> pull_done(const StressValues& done) {
  const double scale = from_half_width(typed(done, "scale").value_or(usual_scale));
  if (const auto kg = typed(done, "mass")) {
    const double N = *kg * gravity_mps2;
    return Pull{N, N * joined({scale, from_step(last_digit(done, "mass")) / *kg})};
  }
  if (const auto N = typed(done, "force")) {
    return Pull{*N, *N * joined({scale, from_step(last_digit(done, "force")) / *N})};
  }
  return std::nullopt;
}

StressReached force_reached(double planned_N, const Pull& pull, const StressValues& done) {
  const std::string taken = typed(done, "scale") ? "" : "scale to 2 % of what it shows [ours]";
  return {.label = "force",
          .unit = "N",
          .planned = planned_N,
          .done = {Ratio::from_si(pull.N), Ratio::from_si(pull.u_N)},
          .decimals = 1,
          .weak_when_low = true,
          .tolerance = usual_tolerance,
          .taken = taken};
}

std::vector<StressReached> reached(const StressValues& planned, const StressValues& done,
                                   const Panel& /*panel*/) {
  const auto pull = pull_done(done);
  if (!pull || !typed(planned, "force")) return {};
  for (const char* key : {"held", "times", "at", "how"})
    if (!typed(planned, key) || !typed(done, key)) return {};
  return {
      force_reached(*typed(planned, "force"), *pull, done),
      time_reached("held", *typed(planned, "held"), *typed(done, "held"), last_digit(done, "held")),
      count_reached("times", *typed(planned, "times"), *typed(done, "times")),
      word_reached("pulled where planned", *typed(done, "at") == *typed(planned, "at")),
      word_reached("pulled as planned", *typed(done, "how") == *typed(planned, "how"))};
}

std::vector<StressAdvice> advice(const StressValues& planned, const Panel& /*panel*/) {
  const auto force = typed(planned, "force");
  if (!force) return {};
  const double kg = *force / gravity_mps2;
  return {{"weight", fmt::format("{} kg for {} N, hung just above a soft floor", fixed(kg, 2),
                                 fixed(*force, 0))}};
}

std::optional<std::string> unsuited(const StressValues& planned, const Panel& /*panel*/) {
  const auto force = typed(planned, "force");
  if (!force || *force <= strongest_N) return std::nullopt;
  return fmt::format("a pull of {} N is above the 100 N that a home should hang [ours]",
                     fixed(*force, 0));
}

std::vector<StressQuestion> questions() {
  return {
      not_installed(kind_word),
      one_word(kind_word, "under_weight", "what is under the weight",
               {"a soft floor close below", "feet or a hard floor"}, "pull_test"),
      one_word(kind_word, "panel_held", "how the panel is held", {"fixed", "loose"}, "pull_test"),
      one_word(kind_word, "worn", "what everyone there wears", {"shoes and goggles", "less"},
               "pull_test"),
      by_yes(kind_word, "children_away", "are children and animals kept out entirely", "pull_test"),
      one_word(kind_word, "cells", "the cells while it is pulled", {"covered", "open"},
               "pull_test_live"),
      one_word(kind_word, "leads", "the ends of the leads",
               {"disconnected and capped", "connected or bare"}, "pull_test_live"),
      goes_after(kind_word)};
}

std::vector<StressCaution> cautions() {
  return {
      {.id = "pull_test",
       .hazard = "The weight falls, or the panel is dragged off its rest",
       .text = "Fix the panel and hang the weight just above a soft floor, with no feet and no "
               "hands under it. Wear shoes and goggles, and keep children "
               "away.",
       .trigger = "cable pull",
       .source = "IEC 60068-2-21, Ua1, 40 N",
       .read_at = "instrumentstrade.com",
       .status = ReadStatus::ours,
       .status_note = "40 N read, the rule is ours",
       .people = true},
      {.id = "pull_test_live",
       .hazard = "A lead tears off and its end is live",
       .text = "Cover the cells and cap the ends before pulling. When a lead comes off, keep the "
               "panel covered and touch neither the lead nor the box.",
       .trigger = "cable pull",
       .source = "no published source",
       .read_at = "",
       .status = ReadStatus::ours,
       .status_note = "",
       .people = false},
  };
}

// Words of `how`, in this order.
constexpr double straight = 0.0, with_bends = 1.0;

std::vector<StressKey> shared_keys(bool were) {
  return {{.key = "held",
           .measure = Measure::time,
           .low = 1.0,
           .high = 86400.0,
           .range = "from 1 s to 24 h",
           .asks = were ? "how long it pulled, the shortest time of all"
                        : "how long it pulls each time",
           .example = "60 s",
           .required = true},
          {.key = "times",
           .low = 1.0,
           .high = 1000.0,
           .range = "from 1 to 1000",
           .asks = were ? "how often it pulled at each" : "how often it pulls at each",
           .example = "1",
           .required = true,
           .count = true},
          {.key = "at",
           .asks = were ? "what it pulled at" : "what it pulls at",
           .example = "each lead",
           .required = true,
           .words = {"each lead", "each plug", "junction box"}},
          {.key = "how",
           .asks = were ? "straight, or while the lead was bent to and fro"
                        : "straight, or while the lead is bent to and fro",
           .example = "straight",
           .required = true,
           .words = {"straight", "with bends"}}};
}

std::vector<StressKey> joined_keys(std::vector<StressKey> first, bool were) {
  for (StressKey& key : shared_keys(were))
    first.push_back(std::move(key));
  return first;
}

std::vector<StressKey> planned_keys() {
  return joined_keys({{.key = "force",
                       .measure = Measure::force,
                       .low = 1.0,
                       .high = 1000.0,
                       .range = "from 1 N to 1000 N",
                       .asks = "the force of the pull",
                       .example = "40 N",
                       .required = true}},
                     false);
}

std::vector<StressKey> done_keys() {
  return joined_keys({{.key = "mass",
                       .measure = Measure::mass,
                       .low = 0.05,
                       .high = 100.0,
                       .range = "from 50 g to 100 kg",
                       .asks = "what hung there, weighed; or `force`",
                       .example = "4.15 kg"},
                      {.key = "force",
                       .measure = Measure::force,
                       .low = 0.5,
                       .high = 1000.0,
                       .range = "from 0.5 N to 1000 N",
                       .asks = "what a spring balance showed",
                       .example = "41 N"},
                      scale_key()},
                     true);
}

}  // namespace

StressKind cable_pull() {
  StressKind kind;
  kind.word = kind_word;
  kind.about = "A weight pulls at the leads, a plug or the junction box.";
  kind.planned = planned_keys();
  kind.done = done_keys();
  kind.sources = {
      {.id = "iec-60068-2-21",
       .title = "IEC 60068-2-21, Ua1 and Ub, called by IEC 61215-2, MQT 14",
       .read_at = "instrumentstrade.com",
       .status = ReadStatus::read,
       .note = "40 N, and 20 N with 10 bends, read as quoted; how long a pull lasts is not printed "
               "there"},
      {.id = "ul-strain-relief",
       .title = "UL strain relief test of leads, 89 N for one minute",
       .read_at = "quoted beside the other two; the page was not kept",
       .status = ReadStatus::read,
       .note = "read as quoted"},
      {.id = "en-50521-clamp",
       .title = "EN 50521, cable clamp of a connector, 60 N",
       .read_at = "studylib.net 18668320",
       .status = ReadStatus::read,
       .note = "3 mm of slip allowed; how long a pull lasts is not printed there"}};
  kind.levels = {{.name = "IEC 60068-2-21 40 N",
                  .values = {{"force", 40.0}, {"how", straight}},
                  .source = "iec-60068-2-21"},
                 {.name = "IEC 60068-2-21 20 N and 10 bends",
                  .values = {{"force", 20.0}, {"times", 10.0}, {"how", with_bends}},
                  .source = "iec-60068-2-21"},
                 {.name = "UL 89 N",
                  .values = {{"force", 89.0}, {"held", 60.0}, {"how", straight}},
                  .source = "ul-strain-relief"},
                 {.name = "EN 50521 60 N",
                  .values = {{"force", 60.0}, {"how", straight}},
                  .source = "en-50521-clamp"}};
  kind.questions = questions();
  kind.cautions = cautions();
  kind.reached = reached;
  kind.advice = advice;
  kind.unlike = "MQT 14 of IEC 61215-2: one panel, a weight hung by hand, no insulation test "
                "afterwards";
  kind.unsuited = unsuited;
  return kind;
}

}  // namespace hailwright::stresses
