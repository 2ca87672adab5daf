#include "input/schema_mappings.hpp"

#include "hailwright/model/findings.hpp"
#include "input/record_looks.hpp"
#include "input/record_reader.hpp"
#include "input/record_siblings.hpp"
#include "input/record_write_up.hpp"
#include "input/schema_values.hpp"

namespace hailwright::input {

namespace {

using enum Need;

SchemaNode planned() {
  return value::matching("^ *[0-9]{4}-[0-9]{2}-[0-9]{2} +[0-9a-f]{4}(?:-[0-9a-f]{4}){3} *$",
                         {"2026-06-10 7f3a-9c01-52de-0b44"});
}

SchemaNode when() {
  return value::matching("^(?:start|end|after [^]+)$",
                         {"start", "after small", "after throw 7", "end"});
}

SchemaNode saw() {
  return value::either(
      {SchemaNode::object({{"const", "nothing"}}), value::list_of(value::defined("finding"), 1)});
}

/// One log, or several.
SchemaNode logs(std::string_view name) {
  return value::either({value::defined(name), value::list_of(value::defined(name), 1)});
}

/// What was seen stands among the keys: one word of the list in each finding.
void add_words(Mapping& finding) {
  std::vector<std::string> words;
  for (const FindingKind& kind : finding_kinds()) {
    words.emplace_back(kind.word);
    finding.words.push_back({kind.word, value::text(), optional, kind.meaning});
  }
  finding.rules = rule::exactly_one(words);
}

// NOLINTNEXTLINE(readability-function-size): one table, a row for each key of the file
Mapping record_mapping() {
  return {
      "record",
      keys_named(record_keys(), "the record"),
      {
          {"hailwright", SchemaNode::object({{"const", "record 1"}}), required,
           "first key of the file: `record 1`"},
          {"title", value::text(), optional, "Heading of the write-up", "", "the panel's name"},
          {"protocol", value::text(), required,
           "Path of the protocol, from the record's folder, as all paths here"},
          {"planned", planned(), optional,
           "The line that `hailwright plan` printed before the test: a date and the mark of the "
           "protocol. `judge` then says whether the protocol is still the same, or which part "
           "changed",
           "", "no plan to compare with"},
          {"panel", value::text(), required, "Path of the panel file"},
          {"serial", value::text(), optional, "Number on the label of this one panel", "",
           "not stated"},
          {"label", value::text(), optional,
           "What the column `panel` of the tables calls this panel", "", "`panel`"},
          {"control", value::defined("control"), optional,
           "The unstruck panel beside it, see Control. Required when the protocol compares with a "
           "control panel, an error otherwise"},
          {"siblings", value::list_of(value::defined("sibling"), 1), optional,
           "List of the unstruck units of the same model, see Sibling. Required when the protocol "
           "compares with siblings, an error otherwise"},
          {"day", value::defined("day"), required, "See Day"},
          {"mounting", value::text(), optional, "How the panel was held at the shots, in words", "",
           "not stated"},
          {"panel_at_shots", value::amount(Measure::temperature, "26 degC"), optional,
           "Temperature of the panel at the shots", "-60 degC to 150 degC", "not stated"},
          {"setups", value::list_of(value::defined("set-up"), 0), optional,
           "List of set-ups that differ from the protocol or were made on another day. The others "
           "come from the table of readings, or from a log"},
          {"tables", value::defined("tables"), optional,
           "See Tables. Required when the protocol has series of shots"},
          {"before", logs("log"), optional,
           "Logs with the set-ups before the shots: a log, or a list of them"},
          {"after", logs("log"), optional, "The same of the set-ups after the shots"},
          {"sessions", logs("log of sessions"), optional,
           "Logs of longer times, for energy and mean power: a log of sessions, or a list of them. "
           "They are reported and judge nothing"},
          {"stresses", value::list_of(value::defined("stress"), 1), optional,
           "List of what was done of the protocol's other stresses, in that order, see Stress"},
          {"shading", value::list_of(value::defined("shade"), 1), optional,
           "List of shades that the panel was read in, see Shade. They judge nothing", "", "none"},
          {"energy", value::list_of(value::defined("session by meter"), 1), optional,
           "List of longer times whose energy was read off a meter, see Session by meter. They "
           "judge nothing",
           "", "none"},
          {"curves", value::defined("curves"), optional,
           "Figures of the curve before the shots and after them, for what a loss looks like, see "
           "Curves. They judge nothing"},
          {"looks", value::list_of(value::defined("look"), 0), optional,
           "List of looks at the panel", "", "no visual verdict"},
          {"conditions", value::defined("conditions"), optional,
           "Of the measurement, see Conditions", "", "not stated"},
          {"tools_after", value::defined("tools"), optional,
           "Only those tools that were other instruments after the shots", "", "the protocol's"},
          {"results_seen", value::count(1, 20), optional,
           "How often the result was looked at, this time included. More often than the protocol's "
           "`looks` is an extension after seeing the result, and is judged and marked so",
           "1 to 20", "not more often than planned"},
          {"unlike_protocol", value::texts(), optional,
           "List of what was done otherwise than planned"},
          {"incidents", value::texts(), optional, "`none`, or a list of what went wrong", "",
           "not stated"},
          {"disclosure", value::defined("disclosure"), optional, "See Disclosure", "",
           "not stated"},
          {"photos", value::list_of(value::defined("photo"), 0), optional,
           "List of photos that belong to no look and no shot: of the mounting, of the instruments",
           "", "none"},
          {"write_up", value::defined("write-up"), optional,
           "What the report of `hailwright write` says about itself, see Write_up", "",
           "not stated"},
      }};
}

Mapping control() {
  return {"control",
          keys_named(record_keys(), "control"),
          {
              {"panel", value::text(), required, "Path of its panel file"},
              {"same_model", value::yes_no(), optional,
               "`yes` if it is of the same model: then the temperature coefficient is shared", "",
               "`no`"},
              {"label", value::text(), optional,
               "What the column `panel` of the tables calls it; not that of the struck panel", "",
               "`control`"},
          }};
}

Mapping sibling() {
  return {"sibling",
          sibling_keys,
          {
              {"label", value::text(), required,
               "What the column `panel` of the tables calls it; no other panel's"},
          }};
}

Mapping day() {
  return {
      "day",
      keys_named(record_keys(), "day"),
      {
          {"date", value::date(), required, "Of the shots, and of the set-ups that give no other"},
          {"air", value::amount(Measure::temperature, "24 degC"), optional,
           "Temperature of the air", "-50 degC to 60 degC"},
          {"air_density", value::amount(Measure::density, "1.2 kg/m3"), optional,
           "Of the air on the day, if you know it: it slows the ball", "0.5 kg/m3 to 1.6 kg/m3"},
          {"weather", value::text(), optional, "In words"},
      }};
}

Mapping setup() {
  return {
      "set-up",
      keys_named(record_keys(), "this set-up"),
      {
          {"name", value::setup_name(), required,
           "A stage and a number: `before 1`, `after small 1`, `after 1`, `baseline 1`, `later 1`"},
          {"date", value::date(), optional, "", "", "the day of the test"},
          {"redone", value::words_list({"mount", "aim", "probe", "leads"}), optional,
           "What was done anew: a list of `mount`, `aim`, `probe`, `leads`", "", "the protocol's"},
          {"remounted", value::yes_no(), optional, "`yes`: all four"},
          {"battery", value::amount(Measure::ratio, "80 %"), optional,
           "Charge of the battery that was the load, 0 % to 100 %", "", "not stated"},
      },
      rule::at_most_one({"redone", "remounted"})};
}

Mapping tables() {
  return {
      "tables",
      keys_named(record_keys(), "tables"),
      {
          {"balls", value::table(), optional,
           "Kinds of balls, or single ones, with their mass and diameters"},
          {"trials", value::table(), optional,
           "Trial shots. Needed when the speed is known by `trial shots` and the panel was hit"},
          {"shots", value::table(), optional,
           "Every throw at the panel, in the order thrown, misses and broken balls too; the series "
           "one after the other, the weakest first. Required when the protocol has series of "
           "shots, an error otherwise"},
          {"readings", value::table(), optional,
           "Power, irradiance and temperature by set-up; no electrical verdict without it or a "
           "log"},
      }};
}

Mapping look() {
  return {"look",
          look_keys,
          {
              {"when", when(), required,
               "`start`, `after` and the name of a series or a stress, `after throw 7` (after the "
               "seventh throw at this panel, counted over all series, misses and broken balls "
               "too), or `end` (after the last series). Each moment once"},
              {"date", value::date(), optional,
               "At the start not after the shots, else not before them, and in the order of the "
               "looks",
               "", "the day of the test"},
              {"saw", saw(), required,
               "`nothing`, or a list of findings: `[{scuff: place 14}]`. Nothing may be assumed"},
              {"photos", value::texts(), optional, "List of pictures", "", "none"},
          }};
}

Mapping finding() {
  Mapping mapping = {"finding",
                     finding_keys,
                     {
                         {"share", value::amount(Measure::ratio, "12 %"), optional,
                          "For a crack or voids: share of that cell's area, 0 % to 100 %"},
                         {"photo", value::text(), optional, "A picture of it"},
                     }};
  add_words(mapping);
  return mapping;
}

Mapping conditions() {
  return {
      "conditions",
      keys_named(record_keys(), "conditions"),
      {
          {"clean_and_dry", value::yes_no(), optional, "All panels, in all set-ups: `yes` or `no`"},
          {"same_leads", value::yes_no(), optional,
           "The same leads and plugs before and after: `yes` or `no`"},
          {"same_tools", value::yes_no(), optional,
           "The very same instruments in all stages, but for those under `tools_after`: `yes` or "
           "`no`. Not said is taken as `no`: each stage had others of the same kind"},
          {"pre_exposed", value::yes_no(), optional,
           "New panels had been in the sun before: `yes` or `no`"},
          {"in_sun_first", value::amount(Measure::time, "20 min"), optional,
           "Time in the sun before the readings", "0 s or more"},
          {"incidence", value::amount(Measure::angle, "10 deg"), optional,
           "Largest angle between the sun and the normal of the panel", "0 deg to 90 deg"},
          {"incidence_change", value::amount(Measure::angle, "5 deg"), optional,
           "Its change between the stages", "0 deg to 90 deg"},
          {"since_last_shot", value::amount(Measure::time, "2 h"), optional,
           "Time between the last shot and the readings after it", "0 s or more"},
      }};
}

Mapping disclosure() {
  return {"disclosure",
          keys_named(record_keys(), "disclosure"),
          {
              {"bought_by", value::text(), optional, "Who paid for the panel"},
              {"interests", value::text(), optional, "Of the reviewer: money, goods, friends"},
              {"panel_goes", value::text(), optional, "What happens to the panel"},
          }};
}

Mapping photo() {
  return {"photo",
          photo_keys,
          {
              {"file", value::text(), required, "The picture, a JPEG or PNG file"},
              {"shows", value::text(), required,
               "What it shows, in words: title of the photo, and all there is for whoever cannot "
               "see it"},
          }};
}

Mapping write_up() {
  return {"write-up",
          write_up_keys,
          {
              {"author", value::text(), optional, "Who wrote the report and answers for it"},
              {"contact", value::text(), optional, "How to reach the author"},
              {"place", value::text(), optional, "Where the test was made"},
              {"asked_by", value::text(), optional, "Who asked for the test, or paid for it"},
              {"received", value::date(), optional,
               "Day on which the panel came; not after the first day of the test"},
              {"issued", value::date(), optional,
               "Day of the report; not before the last set-up or look"},
              {"opinions", value::texts(), optional,
               "List of what the author thinks of it: printed as opinions, apart from the results"},
          }};
}

}  // namespace

std::vector<Mapping> record_mappings() {
  std::vector<Mapping> all{record_mapping(), control(),    sibling(), day(),
                           setup(),          tables(),     look(),    finding(),
                           conditions(),     disclosure(), photo(),   write_up()};
  for (Mapping& mapping : log_mappings())
    all.push_back(std::move(mapping));
  for (Mapping& mapping : side_mappings())
    all.push_back(std::move(mapping));
  for (Mapping& mapping : stress_done_mappings())
    all.push_back(std::move(mapping));
  for (Mapping& mapping : curve_mappings())
    all.push_back(std::move(mapping));
  return all;
}

}  // namespace hailwright::input
