// Static load: bags of sand that lie evenly on a face for a time.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "model/stresses/kinds.hpp"
#include "model/stresses/stress_parts.hpp"

namespace hailwright::stresses {

namespace {

constexpr std::string_view kind_word = "static load";

// What is taken where it was not typed, all half-widths [ours].
constexpr double usual_uneven = 0.05;   // of the mean pressure
constexpr double outline_edge = 0.001;  // m, of a side as the panel's file states it

constexpr double highest_Pa = 5400.0;     // the highest level that was read
constexpr double heaviest_kg = 600.0;     // that a home should pile up [ours]
constexpr double heaviest_bag_kg = 15.0;  // lifted from the side, arms stretched [ours]

/// Half-width of the share by which the load, and so the pressure, may be off.
double share_or(const StressValues& done, std::string_view key, double usual) {
  return typed(done, key).value_or(usual);
}

/// Relative standard uncertainty of the pressure, but for the last digit of the load.
double pressure_share_u(const StressValues& done, const Outline& size) {
  return joined({from_half_width(share_or(done, "scale", usual_scale)),
                 from_half_width(share_or(done, "uneven", usual_uneven)),
                 from_half_width(outline_edge / size.long_side.si()),
                 from_half_width(outline_edge / size.short_side.si())});
}

std::string taken_for_pressure(const StressValues& done) {
  std::string taken;
  if (!typed(done, "scale")) taken += "scale to 2 % of the load [ours]";
  if (!typed(done, "uneven")) {
    taken += taken.empty() ? "" : ", ";
    taken += "spread evenly to 5 % [ours]";
  }
  taken += taken.empty() ? "" : ", ";
  return taken + "sides of the panel to 1 mm [ours]";
}

StressReached pressure_reached(double planned_Pa, const StressValues& done, const Panel& panel) {
  const double kg = *typed(done, "load");
  const double Pa = kg * gravity_mps2 / *area_of(panel);
  const double u_Pa =
      Pa * joined({pressure_share_u(done, *panel.size), from_step(last_digit(done, "load")) / kg});
  return {.label = "pressure",
          .unit = "Pa",
          .planned = planned_Pa,
          .done = {Ratio::from_si(Pa), Ratio::from_si(u_Pa)},
          .decimals = 0,
          .weak_when_low = true,
          .tolerance = usual_tolerance,
          .taken = taken_for_pressure(done)};
}

constexpr double both_faces = 2.0;  // index of the word of `face`

double faces_of(double face) {
  return face == both_faces ? 2.0 : 1.0;
}
/// How many of the planned faces were loaded.
double planned_faces_loaded(double planned, double done) {
  if (done == both_faces) return faces_of(planned);
  if (planned == both_faces) return 1.0;
  return planned == done ? 1.0 : 0.0;
}

std::vector<StressReached> reached(const StressValues& planned, const StressValues& done,
                                   const Panel& panel) {
  const auto pressure = typed(planned, "pressure");
  if (!pressure || !typed(done, "load") || !area_of(panel)) return {};
  for (const char* key : {"held", "times", "face"})
    if (!typed(planned, key) || !typed(done, key)) return {};
  return {
      pressure_reached(*pressure, done, panel),
      time_reached("held", *typed(planned, "held"), *typed(done, "held"), last_digit(done, "held")),
      count_reached("times", *typed(planned, "times"), *typed(done, "times")),
      count_reached("planned faces loaded", faces_of(*typed(planned, "face")),
                    planned_faces_loaded(*typed(planned, "face"), *typed(done, "face")))};
}

/// The pressure at which bags weighed and spread as usual are shown to be not weaker at 95 %.
double aimed_Pa(double planned_Pa, const Outline& size) {
  constexpr double one_sided_95 = 1.6449;
  const double worst = 1.0 - one_sided_95 * pressure_share_u({}, size);
  return planned_Pa * std::max(1.0, (1.0 - usual_tolerance) / worst);
}

std::vector<StressAdvice> advice(const StressValues& planned, const Panel& panel) {
  const auto Pa = typed(planned, "pressure");
  if (!Pa) return {};
  std::vector<StressAdvice> lines{
      {"load per area",
       fmt::format("{} kg/m2 for {} Pa", fixed(*Pa / gravity_mps2, 2), fixed(*Pa, 0))}};
  const auto area = area_of(panel);
  if (!area) {
    lines.push_back({"load", "the panel's file states no size: measure it and write `size:`"});
    return lines;
  }
  // Rounded up: what is rounded down would be weaker.
  const double kg = std::ceil(10.0 * aimed_Pa(*Pa, *panel.size) * *area / gravity_mps2) / 10.0;
  lines.push_back(
      {"load", fmt::format("{} kg on {} m2, all bags together", fixed(kg, 1), fixed(*area, 3))});
  if (const auto bag = typed(planned, "bag")) {
    lines.push_back({"bags", fmt::format("{} of {} kg, the last one filled to the total",
                                         fixed(std::ceil(kg / *bag), 0), fixed(*bag, 1))});
  }
  return lines;
}

std::optional<std::string> unsuited(const StressValues& planned, const Panel& panel) {
  const auto mounted = typed(planned, "mounted");
  constexpr double bonded = 2.0;  // index of the word
  if (panel.build == Build::flexible && mounted != bonded) {
    return "a load is not defined for a flexible panel that is not bonded to a rigid sheet";
  }
  const auto Pa = typed(planned, "pressure");
  if (Pa && *Pa > highest_Pa) {
    return fmt::format("{} Pa is above the highest published level, 5400 Pa", fixed(*Pa, 0));
  }
  const auto area = area_of(panel);
  if (Pa && area && *Pa * *area / gravity_mps2 > heaviest_kg) {
    return fmt::format("{} kg of bags are more than the 600 kg that a home should pile up [ours]",
                       fixed(*Pa * *area / gravity_mps2, 0));
  }
  return std::nullopt;
}

std::vector<StressQuestion> questions() {
  std::vector<StressQuestion> asked{
      not_installed(kind_word),
      one_word(kind_word, "supports", "what the frame or sheet rests on",
               {"low and steady", "high or loose"}, "static_load"),
      one_word(kind_word, "under_it",
               "who is under the panel, or reaches under it, while it is "
               "loaded",
               {"nobody", "somebody"}, "static_load"),
      one_word(kind_word, "unloaded_from", "from where bags are put on and taken off",
               {"the side", "above it"}, "static_load"),
      at_most(kind_word, "heaviest_bag", "the heaviest bag that anyone lifts", "10 kg",
              Measure::mass, heaviest_bag_kg, "15 kg or less", "static_load_lifting"),
      one_word(kind_word, "worn", "what everyone there wears", {"shoes and goggles", "less"},
               "static_load"),
      by_yes(kind_word, "children_away", "are children and animals kept out entirely",
             "static_load"),
      one_word(kind_word, "leads", "the leads while the panel is loaded",
               {"disconnected and capped", "connected or bare"}, "pv_energised"),
      goes_after(kind_word)};
  asked[2].refused_for = "somebody";
  return asked;
}

std::vector<StressCaution> cautions() {
  return {
      {.id = "static_load",
       .hazard = "Panel or frame collapses under sandbags",
       .text = "Never be under or reach under a loaded panel. Support the frame on low stands, "
               "load and unload small bags from the side, wear shoes and goggles, and keep "
               "children and animals away.",
       .trigger = "static load",
       .source = "levels of IEC 61215-2, MQT 16, as makers print them",
       .read_at = "ulmeka.com; a maker's manual, page 5, at easymanua.ls",
       .status = ReadStatus::ours,
       .status_note = "levels read, mass computed, the rule is ours",
       .people = true},
      {.id = "static_load_lifting",
       .hazard = "Back strain and crushed fingers from heavy bags",
       .text = "Hundreds of kilograms are moved twice. Fill bags of 15 kg or less, lift with two "
               "hands close to the body, and put each down without fingers under it.",
       .trigger = "static load",
       .source = "no published source",
       .read_at = "",
       .status = ReadStatus::ours,
       .status_note = "15 kg is ours",
       .people = true},
  };
}

std::vector<StressKey> planned_keys() {
  return {
      {.key = "pressure",
       .measure = Measure::pressure,
       .low = 100.0,
       .high = 10000.0,
       .range = "from 100 Pa to 10000 Pa",
       .asks = "the load over the panel's area",
       .example = "2400 Pa",
       .required = true},
      {.key = "held",
       .measure = Measure::time,
       .low = 60.0,
       .high = 86400.0,
       .range = "from 1 min to 24 h",
       .asks = "how long the load lies each time",
       .example = "60 min",
       .required = true},
      {.key = "times",
       .low = 1.0,
       .high = 20.0,
       .range = "from 1 to 20",
       .asks = "how often each face is loaded",
       .example = "3",
       .required = true,
       .count = true},
      {.key = "face",
       .asks = "which face is loaded",
       .example = "front",
       .required = true,
       .words = {"front", "back", "both in turn"}},
      {.key = "mounted",
       .asks = "how the panel is held",
       .example = "by its frame",
       .required = true,
       .words = {"by its frame", "by its edges", "bonded to a rigid sheet"}},
      {.key = "bag",
       .measure = Measure::mass,
       .low = 0.5,
       .high = heaviest_bag_kg,
       .range = "from 0.5 kg to 15 kg",
       .asks = "what one bag weighs, for the number of bags",
       .example = "10 kg"},
  };
}

std::vector<StressKey> done_keys() {
  return {
      {.key = "load",
       .measure = Measure::mass,
       .low = 0.5,
       .high = 2000.0,
       .range = "from 0.5 kg to 2000 kg",
       .asks = "what all bags weighed together",
       .example = "124.5 kg",
       .required = true},
      scale_key(),
      {.key = "uneven",
       .measure = Measure::ratio,
       .low = 0.0,
       .high = 0.5,
       .range = "from 0 % to 50 %",
       .asks = "how far a part of the area may be from the mean; 5 % unless typed",
       .example = "5 %"},
      {.key = "held",
       .measure = Measure::time,
       .low = 1.0,
       .high = 86400.0,
       .range = "from 1 s to 24 h",
       .asks = "how long the load lay, the shortest time of all",
       .example = "61 min",
       .required = true},
      {.key = "times",
       .low = 1.0,
       .high = 20.0,
       .range = "from 1 to 20",
       .asks = "how often each face was loaded",
       .example = "3",
       .required = true,
       .count = true},
      {.key = "face",
       .asks = "which face was loaded",
       .example = "front",
       .required = true,
       .words = {"front", "back", "both in turn"}},
  };
}

}  // namespace

StressKind static_load() {
  StressKind kind;
  kind.word = kind_word;
  kind.about = "Bags of sand lie evenly on a face of the panel for a time.";
  kind.planned = planned_keys();
  kind.done = done_keys();
  kind.sources = {{.id = "iec-61215-2-mqt-16",
                   .title = "IEC 61215-2, MQT 16, static mechanical load",
                   .read_at = "ulmeka.com; a maker's manual, page 5, at easymanua.ls",
                   .status = ReadStatus::read,
                   .note = "2400 Pa, 5400 Pa and one hour read as quoted; three cycles, each on "
                           "front and back, from memory"}};
  // How often, and on which face, is for the protocol to say: home tests seldom do all of it.
  kind.levels = {{.name = "IEC 61215 2400 Pa",
                  .values = {{"pressure", 2400.0}, {"held", 3600.0}},
                  .source = "iec-61215-2-mqt-16"},
                 {.name = "IEC 61215 5400 Pa",
                  .values = {{"pressure", 5400.0}, {"held", 3600.0}},
                  .source = "iec-61215-2-mqt-16"}};
  kind.questions = questions();
  kind.cautions = cautions();
  kind.reached = reached;
  kind.advice = advice;
  kind.unlike =
      "MQT 16 of IEC 61215-2, which loads both faces in turn, three times [from memory], "
      "and watches the current meanwhile: one panel, sandbags in place of an even pressure";
  kind.unsuited = unsuited;
  return kind;
}

}  // namespace hailwright::stresses
