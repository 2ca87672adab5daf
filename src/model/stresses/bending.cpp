// Bending a flexible panel round a drum, or over an arc, of a stated radius.
#include <fmt/format.h>

#include <numbers>

#include "model/stresses/kinds.hpp"
#include "model/stresses/stress_parts.hpp"

namespace hailwright::stresses {

namespace {

constexpr std::string_view kind_word = "bending";

// What is taken where it was not typed, half-widths [ours].
constexpr double usual_tape_m = 0.005;
constexpr std::string_view tape_taken = "tape to 5 mm [ours]";
constexpr double usual_protractor_rad = 2.0 * std::numbers::pi / 180.0;

struct Radius {
  double m = 0.0, u_m = 0.0;
  std::string taken;
};

/// Half of the drum's diameter.
Radius from_drum(const StressValues& done) {
  const double tape = typed(done, "tape").value_or(usual_tape_m);
  Radius radius;
  radius.m = *typed(done, "drum") / 2.0;
  radius.u_m = joined({from_half_width(tape), from_step(last_digit(done, "drum"))}) / 2.0;
  if (!typed(done, "tape")) radius.taken = tape_taken;
  return radius;
}

/// Length of the bent arc over the angle between its ends, in radian.
Radius from_arc(const StressValues& done) {
  const double arc = *typed(done, "arc");
  const double angle = *typed(done, "angle");
  const double tape = typed(done, "tape").value_or(usual_tape_m);
  const double protractor = typed(done, "protractor").value_or(usual_protractor_rad);
  const double share =
      joined({from_half_width(tape) / arc, from_step(last_digit(done, "arc")) / arc,
              from_half_width(protractor) / angle, from_step(last_digit(done, "angle")) / angle});
  Radius radius{arc / angle, arc / angle * share, {}};
  if (!typed(done, "tape")) radius.taken = tape_taken;
  if (!typed(done, "protractor")) {
    radius.taken += radius.taken.empty() ? "" : ", ";
    radius.taken += "angle to 2 deg [ours]";
  }
  return radius;
}

std::optional<Radius> radius_done(const StressValues& done) {
  if (typed(done, "drum")) return from_drum(done);
  if (typed(done, "arc") && typed(done, "angle")) return from_arc(done);
  return std::nullopt;
}

StressReached radius_reached(double planned_m, const Radius& done) {
  constexpr double mm = 1000.0;
  return {.label = "radius",
          .unit = "mm",
          .planned = planned_m * mm,
          .done = {Ratio::from_si(done.m * mm), Ratio::from_si(done.u_m * mm)},
          .decimals = 0,
          .weak_when_low = false,
          .tolerance = usual_tolerance,
          .taken = done.taken};
}

constexpr double both_ways = 2.0;  // index of the word of `outward`

std::vector<StressReached> reached(const StressValues& planned, const StressValues& done,
                                   const Panel& /*panel*/) {
  const auto radius = radius_done(done);
  if (!radius || !typed(planned, "radius")) return {};
  for (const char* key : {"times", "outward", "along"})
    if (!typed(planned, key) || !typed(done, key)) return {};
  const double outward = *typed(done, "outward");
  return {radius_reached(*typed(planned, "radius"), *radius),
          count_reached("times", *typed(planned, "times"), *typed(done, "times")),
          word_reached("side outward as planned",
                       outward == both_ways || outward == *typed(planned, "outward")),
          word_reached("bent side as planned", *typed(done, "along") == *typed(planned, "along"))};
}

std::vector<StressAdvice> advice(const StressValues& planned, const Panel& panel) {
  const auto radius = typed(planned, "radius");
  if (!radius) return {};
  std::vector<StressAdvice> lines{
      {"drum", fmt::format("{} mm in diameter, for a radius of {} mm", fixed(*radius * 2000.0, 0),
                           fixed(*radius * 1000.0, 0))}};
  const auto along = typed(planned, "along");
  if (panel.size && along) {
    const Length side = *along == 0.0 ? panel.size->long_side : panel.size->short_side;
    const double angle_deg = side.si() / *radius * 180.0 / std::numbers::pi;
    lines.push_back({"angle", fmt::format("the whole side of {} mm bent so turns through {} deg",
                                          fixed(side.si() * 1000.0, 0), fixed(angle_deg, 0))});
  }
  if (panel.smallest_radius) {
    lines.push_back({"maker's smallest radius",
                     fmt::format("{} mm", fixed(panel.smallest_radius->si() * 1000.0, 0))});
  }
  return lines;
}

/// `planned` may hold what was done as well: a drum or an arc.
std::optional<std::string> unsuited(const StressValues& planned, const Panel& panel) {
  if (panel.build != Build::flexible) return "a panel of glass is not bent: it breaks";
  const auto radius = typed(planned, "radius");
  if (!panel.smallest_radius) {
    return "the panel's file does not state the maker's `smallest_radius`, which bounds the bend";
  }
  if (radius && *radius < panel.smallest_radius->si()) {
    return fmt::format("a radius of {} mm is below the maker's smallest, {} mm",
                       fixed(*radius * 1000.0, 0), fixed(panel.smallest_radius->si() * 1000.0, 0));
  }
  const auto done = radius_done(planned);
  if (done && done->m < panel.smallest_radius->si()) {
    return fmt::format("it was bent to {} mm, below the maker's smallest radius of {} mm{}",
                       fixed(done->m * 1000.0, 0), fixed(panel.smallest_radius->si() * 1000.0, 0),
                       done->m + 2.0 * done->u_m < panel.smallest_radius->si()
                           ? ""
                           : ", though no more than the tape can be off");
  }
  return std::nullopt;
}

std::vector<StressQuestion> questions() {
  return {not_installed(kind_word),
          one_word(kind_word, "bent_over", "what the panel is bent over",
                   {"a drum or a form of the radius", "free hand"}, "flex_test"),
          one_word(kind_word, "hands", "gloves of who bends", {"cut-resistant", "others"},
                   "flex_test_splinters"),
          one_word(kind_word, "eyes", "eyes of everyone there", {"goggles", "open"},
                   "flex_test_splinters"),
          one_word(kind_word, "faces", "where faces are while it may spring back",
                   {"away from its edges", "near them"}, "flex_test"),
          by_yes(kind_word, "children_away", "are children and animals kept out entirely",
                 "flex_test_splinters"),
          one_word(kind_word, "cells", "the cells while it is bent", {"covered", "open"},
                   "pv_energised"),
          one_word(kind_word, "leads", "the leads while it is bent",
                   {"disconnected and capped", "connected or bare"}, "pv_energised"),
          goes_after(kind_word)};
}

std::vector<StressCaution> cautions() {
  return {
      {.id = "flex_test",
       .hazard = "Bent flexible panel cracks or springs back, exposing live parts",
       .text = "Stay at or above the maker's smallest radius and bend over a drum, not free hand. "
               "Cover the panel, and keep faces away from edges that may spring back.",
       .trigger = "bending",
       .source = "a seller's page on bending radius (200 to 400 mm); IEC 61215-2, MQT 22",
       .read_at = "sungoldsolar.com",
       .status = ReadStatus::from_memory,
       .status_note = "seller's page read, MQT 22 from memory",
       .people = true},
      {.id = "flex_test_splinters",
       .hazard = "Splinters of silicon and plastic",
       .text = "A bent panel can break into sharp splinters. Wear cut-resistant gloves and "
               "goggles, keep children and animals away, and stop at the first crack heard or "
               "seen.",
       .trigger = "bending",
       .source = "no published source",
       .read_at = "",
       .status = ReadStatus::common_practice,
       .status_note = "",
       .people = true},
  };
}

StressKey times_key(std::string_view asks) {
  return {.key = "times",
          .low = 1.0,
          .high = 10000.0,
          .range = "from 1 to 10000",
          .asks = asks,
          .example = "25",
          .required = true,
          .count = true};
}
StressKey outward_key(std::string_view asks) {
  return {.key = "outward",
          .asks = asks,
          .example = "front",
          .required = true,
          .words = {"front", "back", "both in turn"}};
}
StressKey along_key(std::string_view asks) {
  return {.key = "along",
          .asks = asks,
          .example = "long side",
          .required = true,
          .words = {"long side", "short side"}};
}

std::vector<StressKey> planned_keys() {
  return {{.key = "radius",
           .measure = Measure::length,
           .low = 0.05,
           .high = 10.0,
           .range = "from 50 mm to 10 m",
           .asks = "the radius to which it is bent",
           .example = "300 mm",
           .required = true},
          times_key("how often it is bent and let flat"),
          outward_key("which face lies outward"),
          along_key("which side becomes the arc")};
}

std::vector<StressKey> done_keys() {
  return {{.key = "drum",
           .measure = Measure::length,
           .low = 0.05,
           .high = 20.0,
           .range = "from 50 mm to 20 m",
           .asks = "diameter of what it was bent over; or `arc` and `angle`",
           .example = "590 mm"},
          {.key = "arc",
           .measure = Measure::length,
           .low = 0.05,
           .high = 5.0,
           .range = "from 50 mm to 5 m",
           .asks = "length of the bent part along the arc",
           .example = "1.0 m"},
          {.key = "angle",
           .measure = Measure::angle,
           .low = std::numbers::pi / 180.0,
           .high = 2.0 * std::numbers::pi,
           .range = "from 1 deg to 360 deg",
           .asks = "angle through which the bent part turns",
           .example = "30 deg"},
          {.key = "tape",
           .measure = Measure::length,
           .low = 0.0,
           .high = 0.1,
           .range = "from 0 mm to 100 mm",
           .asks = "how far off the length may be; 5 mm unless typed",
           .example = "2 mm"},
          {.key = "protractor",
           .measure = Measure::angle,
           .low = 0.0,
           .high = std::numbers::pi / 6.0,
           .range = "from 0 deg to 30 deg",
           .asks = "how far off the angle may be; 2 deg unless typed",
           .example = "1 deg"},
          times_key("how often it was bent and let flat"),
          outward_key("which face lay outward"),
          along_key("which side became the arc")};
}

}  // namespace

StressKind bending() {
  StressKind kind;
  kind.word = kind_word;
  kind.about = "A flexible panel is bent to a radius and let flat again, many times.";
  kind.planned = planned_keys();
  kind.done = done_keys();
  kind.sources = {{.id = "iec-61215-2-mqt-22",
                   .title = "IEC 61215-2, MQT 22, bending test of flexible panels",
                   .read_at = "",
                   .status = ReadStatus::from_memory,
                   .note =
                       "that MQT 22 was added in 2021 was read at csagroup.org; 25 bends to the "
                       "maker's smallest radius are from memory"}};
  kind.levels = {
      {.name = "IEC 61215 25 bends", .values = {{"times", 25.0}}, .source = "iec-61215-2-mqt-22"}};
  kind.questions = questions();
  kind.cautions = cautions();
  kind.reached = reached;
  kind.advice = advice;
  kind.unlike = "MQT 22 of IEC 61215-2: one panel, bent by hand, no insulation test afterwards";
  kind.unsuited = unsuited;
  return kind;
}

}  // namespace hailwright::stresses
