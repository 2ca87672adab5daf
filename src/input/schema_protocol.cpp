#include "input/schema_mappings.hpp"

#include "hailwright/model/place_kind.hpp"
#include "hailwright/tables/impact_grades.hpp"
#include "input/protocol_launch.hpp"
#include "input/protocol_reader.hpp"
#include "input/protocol_series.hpp"
#include "input/schema_patterns.hpp"
#include "input/schema_values.hpp"
#include "input/shared_ranges.hpp"

namespace hailwright::input {

namespace {

using enum Need;

SchemaNode measure_unless_looks() {
  const SchemaNode judged_on_looks = SchemaNode::object(
      {{"properties",
        SchemaNode::object({{"judged_on", SchemaNode::object({{"const", "looks"}})}})},
       {"required", SchemaNode::texts({"judged_on"})}});
  return SchemaNode::object(
      {{"if", SchemaNode::object({{"properties", SchemaNode::object({{"decide", judged_on_looks}})},
                                  {"required", SchemaNode::texts({"decide"})}})},
       {"else", SchemaNode::object({{"required", SchemaNode::texts({"measure"})}})}});
}

/// What throws the balls goes with what is thrown; other stresses do without both.
SchemaNode hail_unless_stresses() {
  const auto needed = [](const std::vector<std::string>& keys) {
    return SchemaNode::object({{"required", SchemaNode::texts(keys)}});
  };
  const SchemaNode no_hail = SchemaNode::object(
      {{"required", SchemaNode::texts({"stresses"})},
       {"not",
        SchemaNode::object({{"anyOf", SchemaNode::list({needed({"series"}), needed({"launch"}),
                                                        needed({"speed"}), needed({"ice"})})}})}});
  return SchemaNode::object(
      {{"anyOf", SchemaNode::list({no_hail, needed({"series", "launch", "speed"})})}});
}

/// Letters, digits, blanks and -, but not the name of a stage or of one throw.
SchemaNode series_name() {
  constexpr const char* pattern =
      "^(?! )(?!(?:[Bb][Ee][Ff][Oo][Rr][Ee]|[Aa][Ff][Tt][Ee][Rr]|[Ll][Aa][Tt][Ee][Rr]|"
      "[Bb][Aa][Ss][Ee][Ll][Ii][Nn][Ee]|throw (?:0|[1-9][0-9]*))$)"
      "(?:[^\\x00-,./:-@\\x5b-`{-\\x7f])*[^\\x00-,./:-@\\x5b-`{-\\x7f ]$";
  SchemaNode name = SchemaNode::object();
  name.set("type", SchemaNode::texts({"string", "number", "boolean"}));
  name.set("pattern", pattern);
  name.set("examples", SchemaNode::texts({"small", "large"}));
  return name;
}

/// The grades of ice balls with a speed, by their label or by a name that no other has.
SchemaNode grade() {
  std::vector<std::string> labels;
  std::vector<std::string> names;
  for (const Grade& grade : impact_grades()) {
    if (grade.projectile != Projectile::ice || !grade.speed) continue;
    labels.push_back(grade_label(grade));
    if (find_grade(grade.name) == &grade) names.emplace_back(grade.name);
  }
  std::vector<std::string> all = labels;
  all.insert(all.end(), names.begin(), names.end());
  return value::either(
      {value::words(labels),
       SchemaNode::object({{"type", "string"}, {"pattern", pattern::any_of_plain(all)}})});
}

/// How many, or a list of names and places.
SchemaNode places() {
  SchemaNode number = SchemaNode::object({{"type", SchemaNode::texts({"integer", "string"})},
                                          {"minimum", 1},
                                          {"maximum", most_places},
                                          {"pattern", "^[ \\t]*[1-9][0-9]*[ \\t]*(?: places?)*$"},
                                          {"examples", SchemaNode::list({11, 5})}});
  return value::either(
      {std::move(number),
       value::list_of(value::either({value::text(), value::defined("place")}), 1)});
}

SchemaNode weigh() {
  return value::matching("^(?:one by one| *(?:two|three|four|five|six|seven|eight|nine|ten|eleven|"
                         "twelve|[1-9][0-9]*) +together *)$",
                         {"one by one", "ten together"});
}

/// Cavities by the diameter of the ball.
SchemaNode moulds() {
  const SchemaNode by_diameter =
      SchemaNode::object({{pattern::amount(Measure::length), value::count(1, most_cavities)}});
  return SchemaNode::object(
      {{"type", "object"}, {"patternProperties", by_diameter}, {"additionalProperties", false}});
}

Mapping protocol_mapping() {
  return {"protocol",
          keys_named(protocol_keys(), "the protocol"),
          {
              {"hailwright", SchemaNode::object({{"const", "protocol 1"}}), required,
               "first key of the file: `protocol 1`"},
              {"title", value::text(), required, "What the test is called in every output"},
              {"decide", value::defined("decide"), required, "What counts as damage, see Decide"},
              {"series", value::list_of(value::defined("series"), 1), optional,
               "List of series of shots, at least one, weakest first by energy: what a strong ball "
               "broke cannot be blamed on a weaker one after it. Required without `stresses`"},
              {"launch", value::defined("launch"), optional,
               "What throws the balls, see Launch. Required with `series`, an error without"},
              {"speed", value::defined("speed"), optional,
               "How the speed of the balls is known, see Speed. Required with `series`, an error "
               "without"},
              {"ice", value::defined("ice"), optional, "How the balls are made, see Ice"},
              {"stresses", value::list_of(planned_stress_of_any_kind(), 1), optional,
               "List of stresses other than hail, see Stresses. There may be no `series` beside "
               "them"},
              {"tools", value::defined("tools"), optional, "The measuring instruments, see Tools"},
              {"measure", value::defined("measure"), optional,
               "How the power is measured, see Measure. Required unless the panel is `judged_on: "
               "looks`"},
              {"safety", value::defined("safety"), optional,
               "Answers about people, ground and launcher, see Safety"},
          },
          SchemaNode::object(
              {{"allOf", SchemaNode::list({measure_unless_looks(), hail_unless_stresses()})}})};
}

Mapping decide() {
  return {"decide",
          keys_named(protocol_keys(), "decide"),
          {
              {"limit", value::amount(Measure::ratio, "5 %"), required,
               "A loss above this is damage", "more than 0 %, less than 50 %"},
              {"risk", value::amount(Measure::ratio, "5 %"), optional,
               "Risk of each wrong statement", "0.1 % to 10 %", "see defaults.md"},
              {"rule", value::words({"guarded", "simple"}), optional,
               "How a loss is held against `limit`. `guarded`: beyond it or within it only where "
               "the whole interval is. `simple`: the estimate alone decides; near the limit that "
               "word is wrong up to 50 % of the time, and the risk is printed with it",
               "", "`guarded`"},
              {"see", value::amount(Measure::ratio, "3 %"), optional,
               "Smallest loss that the test should be able to show", "more than 0 %, up to 50 %",
               "the plan takes `limit`"},
              {"see_chance", value::amount(Measure::ratio, "80 %"), optional,
               "How often it should show it", "50 % to 99.9 %", "see defaults.md"},
              {"looks", value::count(1, 3), optional,
               "How many times the power may be judged: once after the planned set-ups, again "
               "after more of them. All that are planned count, taken or not: each has its equal "
               "share of `risk`",
               "1 to 3", "1"},
              {"judged_on", value::words({"looks and power", "looks"}), optional,
               "`looks and power`, or `looks` alone: then nothing is said about power", "",
               "`looks and power`"},
          }};
}

Mapping series() {
  return {"series",
          series_keys,
          {
              {"name", series_name(), required,
               "Letters, digits, blanks and `-`; each name once; not `before`, `after`, `later`, "
               "`baseline`, nor `throw` and a number"},
              {"grade", grade(), optional,
               "A published grade, as `hailwright grades` lists it: `IEC 61215 25 mm`. Grades of "
               "steel balls and grades without a speed are refused. Either this or `ball`"},
              {"ball", value::defined("ball"), optional,
               "A ball of your own choice, see Ball. Either this or `grade`"},
              {"tolerance", value::amount(Measure::ratio, "5 %"), optional,
               "Within which share of the target mass, speed and diameter count as delivered",
               "0.5 % to 20 %", "the grade's, or see defaults.md"},
              {"places", places(), required,
               "How many, `11`: they are then called by numbers that run on through all series. "
               "`11` and `5` are sets that are found on each panel (places.md); other counts only "
               "give names. Or a list of names and places: `[corner, {name: logo, at: 255 x 30 "
               "mm}]`. Each name once in the whole protocol",
               "1 to 500"},
              {"place_size", value::amount(Measure::length, "25 mm"), optional,
               "Radius of a place: a hit counts for the place in which it lands", "5 mm to 100 mm",
               "see defaults.md"},
              {"setting", value::text(), optional,
               "The launcher's setting, as the table of trials calls it: `mark 3`"},
          },
          rule::exactly_one({"grade", "ball"})};
}

Mapping ball() {
  return {
      "ball",
      ball_keys,
      {
          {"diameter", value::amount(Measure::length, "30 mm"), required, "", "5 mm to 150 mm"},
          {"mass", value::amount(Measure::mass, "13 g"), required, "", "more than 0 g, up to 1 kg"},
          {"speed", value::amount(Measure::speed, "24 m/s"), required, "At the panel",
           "more than 0 m/s, up to 100 m/s"},
      }};
}

Mapping place() {
  return {"place",
          place_keys,
          {
              {"name", value::text(), required,
               "As the table of shots calls it. A kind's word, also with a number behind it "
               "(`corner 2`), is that kind without `kind`"},
              {"at", value::matching(pattern::sides(2, 2), {"255 x 30 mm"}), optional,
               "Its middle, `right x up` from the lower left corner of the front, the long side "
               "lying: `255 x 30 mm`. It goes before `kind`"},
              {"kind", value::words(place_kind_words()), optional,
               "What to look for on each panel: `corner`, `edge`, `cell edge`, `near mount`, `far "
               "from mounts`, `junction box` or `cell centre`. See places.md"},
          }};
}

Mapping launch() {
  return {
      "launch",
      launch_keys,
      {
          {"kind",
           value::words({"sling", "elastic", "spring", "compressed air", "ball machine", "drop",
                         "thrown by hand", "other"}),
           required,
           "`sling`, `elastic`, `spring`, `compressed air`, `ball machine`, `drop`, `thrown by "
           "hand` or `other`"},
          {"distance", value::amount(Measure::length, "3.0 m"), optional,
           "From the launcher to the panel", "more than 0 m, up to 100 m"},
          {"height", value::amount(Measure::length, "1.2 m"), optional,
           "Of the muzzle over the ground it stands on; for `drop`, of the fall", "0 m to 100 m"},
          {"aim", value::text(), optional, "In words: `level`, `steeply down`"},
          {"fastest", value::amount(Measure::speed, "32 m/s"), optional,
           "Fastest speed at the muzzle that the launcher can give at any setting. What safety "
           "reckons with",
           "more than 0 m/s, up to 200 m/s"},
          {"spread", value::amount(Measure::ratio, "2 %"), optional,
           "Standard deviation of its speed from shot to shot, from earlier shots: `2 %`",
           "0 % to 50 %"},
          {"ground_falls", value::amount(Measure::length, "0.5 m"), optional,
           "How far the lowest ground ahead lies below the ground of the launcher", "0 m to 100 m"},
          {"altitude", value::amount(Measure::length, "120 m"), optional,
           "Of the place over the sea: thinner air slows a ball less", "-430 m to 6000 m"},
          {"air", value::amount(Measure::temperature, "24 degC"), optional,
           "Temperature of the air", "-50 degC to 60 degC"},
          {"tried", value::count(1, 10000), optional, "Throws at a dummy so far, with `hit`",
           "1 to 10000"},
          {"hit", value::count(0, 10000), optional, "How many of them landed where they were aimed",
           "0 to `tried`"},
      },
      rule::needs({{"tried", "hit"}, {"hit", "tried"}})};
}

Mapping ice() {
  return {
      "ice",
      ice_keys,
      {
          {"water", value::text(), optional, "In words: `boiled tap water`"},
          {"freezer", value::amount(Measure::temperature, "-18 degC"), optional, "Its temperature",
           "-80 degC to 0 degC"},
          {"weigh", weigh(), optional,
           "`one by one`, or how many at once: `ten together`, `8 together`", "two to 1000"},
          {"moulds", moulds(), optional,
           "Cavities by the diameter of the ball: `{25 mm: 12, 35 mm: 6}`",
           "1 to 1000 of 5 mm to 150 mm"},
          {"made", value::count(1, 10000), optional, "Balls made so far, with `rejected`",
           "1 to 10000"},
          {"rejected", value::count(0, 10000), optional,
           "How many of them could not be thrown: cracked, out of round, too light", "0 to `made`"},
      },
      rule::needs({{"made", "rejected"}, {"rejected", "made"}})};
}

void append(std::vector<Mapping>& all, std::vector<Mapping> more) {
  all.insert(all.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

}  // namespace

std::vector<Mapping> protocol_mappings() {
  std::vector<Mapping> all{protocol_mapping(), decide(), series(), ball(), place(),
                           launch(),           ice()};
  append(all, speed_mappings());
  append(all, tool_mappings());
  append(all, measure_mappings());
  append(all, safety_mappings());
  append(all, stress_mappings());
  append(all, uncertainty_mappings());
  all.push_back(value_mapping(Measure::temperature_difference, "3 K"));
  return all;
}

}  // namespace hailwright::input
