// Water sprayed at the side of the junction box.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "model/stresses/kinds.hpp"
#include "model/stresses/stress_parts.hpp"

namespace hailwright::stresses {

namespace {

constexpr std::string_view kind_word = "spray";

constexpr double litre_m3 = 0.001;
constexpr double minute_s = 60.0;
// What is taken where it was not typed, half-widths [ours].
constexpr double usual_bucket = 0.05;   // of what it holds
constexpr double reaction_s = 0.5;      // of whoever presses the stopwatch
constexpr double usual_tape_m = 0.1;    // of the distance, held by hand
constexpr double highest_wet_V = 60.0;  // "below 60 V", see `refused_from_V`
constexpr double bucket_litres = 10.0;  // for advice

/// Litres per minute by the time in which a bucket fills.
StressReached flow_reached(double planned_m3, const StressValues& done) {
  const double bucket = *typed(done, "bucket");
  const double filled_s = *typed(done, "filled_in");
  const double flow = bucket / litre_m3 / filled_s * minute_s;
  const double share = joined({from_half_width(typed(done, "bucket_within").value_or(usual_bucket)),
                               from_step(last_digit(done, "bucket")) / bucket,
                               from_two_readings(last_digit(done, "filled_in")) / filled_s,
                               from_half_width(reaction_s) / filled_s});
  const std::string taken = typed(done, "bucket_within")
                                ? "stopwatch to 0.5 s [ours]"
                                : "bucket to 5 % of what it holds, stopwatch to 0.5 s [ours]";
  return {.label = "water",
          .unit = "l/min",
          .planned = planned_m3 / litre_m3,
          .done = {Ratio::from_si(flow), Ratio::from_si(flow * share)},
          .decimals = 1,
          .weak_when_low = true,
          .tolerance = usual_tolerance,
          .taken = taken};
}

StressReached distance_reached(double planned_m, const StressValues& done) {
  return {.label = "distance",
          .unit = "m",
          .planned = planned_m,
          .done = {Ratio::from_si(*typed(done, "distance")),
                   Ratio::from_si(joined(
                       {from_half_width(usual_tape_m), from_step(last_digit(done, "distance"))}))},
          .decimals = 1,
          .weak_when_low = false,
          .tolerance = usual_tolerance,
          .taken = "distance to 0.1 m [ours]"};
}

std::vector<StressReached> reached(const StressValues& planned, const StressValues& done,
                                   const Panel& /*panel*/) {
  for (const char* key : {"per_minute", "lasting"})
    if (!typed(planned, key)) return {};
  for (const char* key : {"bucket", "filled_in", "lasting"})
    if (!typed(done, key)) return {};
  std::vector<StressReached> out{flow_reached(*typed(planned, "per_minute"), done),
                                 time_reached("lasting", *typed(planned, "lasting"),
                                              *typed(done, "lasting"),
                                              last_digit(done, "lasting"))};
  if (const auto distance = typed(planned, "distance")) {
    if (!typed(done, "distance")) return {};
    out.push_back(distance_reached(*distance, done));
  }
  if (const auto jet = typed(planned, "jet")) {
    if (!typed(done, "jet")) return {};
    out.push_back(word_reached("nozzle as planned", *jet == *typed(done, "jet")));
  }
  return out;
}

std::vector<StressAdvice> advice(const StressValues& planned, const Panel& panel) {
  const auto flow = typed(planned, "per_minute");
  if (!flow) return {};
  const double litres = *flow / litre_m3;
  std::vector<StressAdvice> lines{
      {"water", fmt::format("a bucket of {} l fills in {} s at {} l/min", fixed(bucket_litres, 0),
                            fixed(bucket_litres / litres * minute_s, 0), fixed(litres, 1))}};
  const auto area = area_of(panel);
  const auto lasting = typed(planned, "lasting");
  if (lasting) {
    lines.push_back({"water in all", fmt::format("{} l", fixed(litres * *lasting / minute_s, 0))});
  }
  if (area) {
    // IPX5: one minute per square metre, three at least [read at dlsemc.com].
    const double minutes = std::max(3.0, *area);
    lines.push_back({"time of a jet", fmt::format("{} min by one minute per square metre, three "
                                                  "at least",
                                                  fixed(minutes, 1))});
  }
  return lines;
}

std::optional<std::string> power_spoilt(const StressValues& done) {
  const auto dried = typed(done, "dried");
  constexpr double fully = 0.0;  // index of the word
  if (dried && *dried == fully) return std::nullopt;
  return "power read on a panel that was not fully dried says nothing";
}

std::vector<StressQuestion> questions() {
  std::vector<StressQuestion> asked{
      not_installed(kind_word),
      one_word(kind_word, "leads", "the leads while it is sprayed and until it is dry",
               {"disconnected and capped", "connected or bare"}, "water_spray"),
      one_word(kind_word, "cells", "the cells while it is sprayed and until it is dry",
               {"covered", "open"}, "water_spray"),
      at_most(kind_word, "voltage", "the panel's open-circuit voltage by its label, when cold",
              "24 V", Measure::voltage, std::nextafter(highest_wet_V, 0.0), "below 60 V",
              "water_spray"),
      one_word(kind_word, "gloves", "gloves of who touches the wet panel", {"insulated", "others"},
               "dc_wet"),
      one_word(kind_word, "mains", "mains equipment near the water",
               {"none", "behind a residual-current device", "other"}, "water_spray_mains"),
      by_yes(kind_word, "dried_first", "is it fully dried before anyone touches a lead",
             "water_spray"),
      one_word(kind_word, "sprayed_at", "what is sprayed at", {"side of the junction box", "other"},
               "water_spray"),
      by_yes(kind_word, "children_away", "are children and animals kept out entirely",
             "water_spray_mains"),
      goes_after(kind_word)};
  asked[5].missing = [](const std::string& answer) -> std::optional<std::string> {
    if (answer == "none" || answer == "behind a residual-current device") return std::nullopt;
    return "none, or behind a residual-current device";
  };
  return asked;
}

std::vector<StressCaution> cautions() {
  return {
      {.id = "water_spray_mains",
       .hazard = "Mains voltage and water",
       .text = "Never use mains equipment near the spray without a residual-current device, and "
               "keep cables, pumps and bystanders out of the wet.",
       .trigger = "spray",
       .source = "no published source",
       .read_at = "",
       .status = ReadStatus::common_practice,
       .status_note = "",
       .people = true},
      {.id = "water_spray",
       .hazard = "Water and electricity together",
       .text = "Disconnect and cover the panel before spraying, spray the side of the junction box "
               "only, and dry it thoroughly. Do not touch leads while anything is wet; from 60 V "
               "do not spray at all.",
       .trigger = "spray",
       .source = "levels of IEC 60529; touch voltage as in dc_wet and dc_dry",
       .read_at = "dlsemc.com",
       .status = ReadStatus::ours,
       .status_note = "levels read, the rule is ours",
       .people = false},
  };
}

StressKey lasting_key(std::string_view asks) {
  return {.key = "lasting",
          .measure = Measure::time,
          .low = 10.0,
          .high = 7200.0,
          .range = "from 10 s to 2 h",
          .asks = asks,
          .example = "3 min",
          .required = true};
}
StressKey distance_key(std::string_view asks) {
  return {.key = "distance",
          .measure = Measure::length,
          .low = 0.1,
          .high = 10.0,
          .range = "from 0.1 m to 10 m",
          .asks = asks,
          .example = "3.0 m"};
}
StressKey jet_key(std::string_view asks) {
  return {.key = "jet",
          .asks = asks,
          .example = "jet of 6.3 mm",
          .words = {"spray head", "jet of 6.3 mm", "garden nozzle"}};
}

// Words of `jet`, in this order.
constexpr double spray_head = 0.0, jet_of_6_3_mm = 1.0;

std::vector<StressKey> planned_keys() {
  return {{.key = "per_minute",
           .measure = Measure::volume,
           .low = 1.0 * litre_m3,
           .high = 100.0 * litre_m3,
           .range = "from 1 l to 100 l",
           .asks = "water in a minute",
           .example = "12.5 l",
           .required = true},
          lasting_key("how long it is sprayed"),
          distance_key("nozzle to panel, at the farthest"),
          jet_key("what the water comes from")};
}

std::vector<StressKey> done_keys() {
  return {{.key = "bucket",
           .measure = Measure::volume,
           .low = 0.5 * litre_m3,
           .high = 200.0 * litre_m3,
           .range = "from 0.5 l to 200 l",
           .asks = "what the bucket holds that was filled to find the flow",
           .example = "10.0 l",
           .required = true},
          {.key = "filled_in",
           .measure = Measure::time,
           .low = 1.0,
           .high = 3600.0,
           .range = "from 1 s to 1 h",
           .asks = "how long the bucket took to fill",
           .example = "46 s",
           .required = true},
          {.key = "bucket_within",
           .measure = Measure::ratio,
           .low = 0.0,
           .high = 0.3,
           .range = "from 0 % to 30 %",
           .asks = "how far off the bucket may be; 5 % unless typed",
           .example = "2 %"},
          lasting_key("how long it was sprayed"),
          distance_key("nozzle to panel, at the farthest"),
          jet_key("what the water came from"),
          {.key = "dried",
           .asks = "whether it was dry before power was read",
           .example = "fully",
           .required = true,
           .words = {"fully", "not yet"}}};
}

}  // namespace

StressKind spray() {
  StressKind kind;
  kind.word = kind_word;
  kind.about = "Water is sprayed at the side of the junction box, with the panel disconnected.";
  kind.planned = planned_keys();
  kind.done = done_keys();
  kind.sources = {{.id = "iec-60529",
                   .title = "IEC 60529, IPX4 and IPX5",
                   .read_at = "dlsemc.com",
                   .status = ReadStatus::read,
                   .note = "levels read as quoted; another page prints 15 min for IPX5"}};
  kind.levels = {
      {.name = "IEC 60529 IPX4",
       .values = {{"per_minute", 10.0 * litre_m3}, {"lasting", 300.0}, {"jet", spray_head}},
       .source = "iec-60529"},
      {.name = "IEC 60529 IPX5",
       .values = {{"per_minute", 12.5 * litre_m3},
                  {"lasting", 180.0},
                  {"distance", 3.0},
                  {"jet", jet_of_6_3_mm}},
       .source = "iec-60529"}};
  kind.questions = questions();
  kind.cautions = cautions();
  kind.reached = reached;
  kind.advice = advice;
  kind.unlike = "the IP tests of IEC 60529: one panel, a garden hose, one side only, nobody looked "
                "inside the box, no insulation test";
  kind.power_spoilt = power_spoilt;
  kind.refused_from_V = highest_wet_V;
  return kind;
}

}  // namespace hailwright::stresses
