#include "hailwright/report/starter_files.hpp"

#include "report/starter_texts.hpp"

namespace hailwright::detail {

namespace {

constexpr const char* panel =
    R"(hailwright: panel 1

# What the maker says about this model of panel, and where yours came from. Written once, used by
# every record of it. ??? and #key: ... as in the protocol.
# Positions count from the lower left corner of the front, the long side lying: right x up.

name: ???                     # needed: what the panel is called in the write-up

build:
  kind: ???                   # needed: framed glass, frameless glass or flexible
  #glass: 3.2 mm              # thickness of the front glass

rated:                        # as the label prints it, at 1000 W/m2 and 25 degC
  power: ???                  # 100 W
  open_voltage: ???           # 22.1 V. Safety asks for more where it is not known
  short_current: ???          # 5.9 A

temperature:                  # from the data sheet
  power: ???                  # change of the power per kelvin: -0.35 %/K; or unknown
  #power: {value: -0.35 %/K, half_width: 0.05 %/K, shape: rectangular}    # or with its error
  #power: {value: -0.35 %/K, u: 0.03 %/K, degrees_of_freedom: 8}
  #power: {value: -0.35 %/K, expanded: 0.06 %/K, k: 2}
  #voltage: -0.28 %/K         # likewise, of the open-circuit voltage

size: ???                     # outer size, long side first: 1020 x 510 x 35 mm
#frame: 20 mm                 # width of one side of the frame as seen from the front

cells:
  grid: ???                   # cells along the long x the short side: 9 x 4
  #margin: 25 mm              # from the outer edge of the panel to the first cell
  #gap: 2 mm                  # between two cells

junction_box:                 # on the back, as it would be seen from the front
  at: ???                     # its middle: 510 x 450 mm
  size: ???                   # width x height: 90 x 70 mm

# The points where the panel is held:
#mounts: [100 x 20 mm, 920 x 20 mm, 100 x 490 mm, 920 x 490 mm]

weight: ???                   # 6.9 kg
price: ???                    # with its currency: 89 EUR
#price: {low: 79 EUR, high: 99 EUR, average: 89 EUR}     # or, where shops differ, all three
#leads: {length: 0.9 m, connector: "round plugs, one a pole"}
#substrings: 2                # groups of cells with a bypass diode each
#smallest_radius: 300 mm      # to which the maker says that it may be bent

came:                         # readers should know
  bought_by: ???              # who paid
  from: ???                   # where
  on: ???                     # the date: 2026-05-20
  condition: ???              # in which it came: new, without marks
)";

constexpr const char* record_head =
    R"(hailwright: record 1

# One panel, one test. Tools and launch are those of the protocol: only what differs is written
# here. Copy this file for each panel. ??? and #key: ... as in the protocol. Paths begin in the
# folder of this file.

#title: Panel A in June       # heading of the write-up; else the panel's name
protocol: protocol.yaml       # needed
# Copied, before the test, from the end of what this prints, so that everyone can see that the
# rules were set before:  hailwright plan protocol.yaml --panel panels/panel-a.yaml
planned: ???
panel: panels/panel-a.yaml    # needed
#serial: R-0117               # number on the label of this one panel
label: A                      # what the column `panel` of the tables calls this panel
)";

constexpr const char* control =
    R"(
control:                      # the unstruck panel beside it
  panel: panels/panel-a.yaml  # needed: its panel file; one of its own unless it is the same model
  same_model: yes             # then the temperature coefficient is shared
  label: C                    # what the column `panel` of the tables calls it
)";

constexpr const char* siblings =
    R"(
siblings:                     # needed: unstruck units of its model, by their letters in the tables
  - label: B
  - label: C
  - label: D
  - label: E
)";

constexpr const char* no_control =
    R"(# Only with `compare: control-panel` in the protocol:
#control: {panel: panels/panel-a.yaml, same_model: yes, label: control}
)";

constexpr const char* no_siblings =
    R"(# Only with `compare: sibling-panel` in the protocol:
#siblings: [{label: D}, {label: E}, {label: F}]
)";

constexpr const char* day =
    R"(
day:
  date: ???                   # needed: of the shots, and of set-ups that give no other: 2026-06-14
  air: ???                    # temperature of the air: 24 degC
  #air_density: 1.17 kg/m3    # if you know it: it slows the ball
  weather: ???                # in words: sun and clouds

mounting: ???                 # how the panel was held at the shots: own frame in four clamps
panel_at_shots: ???           # temperature of the panel at the shots: 26 degC

# Set-ups that differ from the protocol or were made on another day. The others come from the table
# of readings. remounted: yes stands for all four of redone.
#setups:
#  - {name: before 1, date: 2026-06-13, redone: [mount, aim], battery: 55 %}
#  - {name: after 1, remounted: yes}

tables:
  balls: balls.csv
  trials: trials.csv
  shots: shots.csv            # needed: every throw at the panel, misses and broken balls too
)";

constexpr const char* logs =
    R"(
# Set-ups that are cut out of a data logger's file, in place of the table of readings or beside it.
# `hailwright readings --suggest` proposes the columns; without them the headers decide.
#before:
#  log: before.csv            # or a list of files that follow each other
#  columns:                   # what each column is, by its header
#    time: Time               # or two columns:  date: Day  and  clock: Time
#    power: {name: P1, unit: W}     # or  voltage: U1  and  current: I1
#    irradiance: Sun
#    temperature: Back 1
#    power_beside: P2         # of the control
#    temperature_beside: Back 2
#    energy: Wh               # a counter
#    marker: Note             # for  cut: markers
#  separator: comma           # or semicolon, tab
#  decimal: point             # or comma
#  dates: year first          # or day first, month first
#  zone: "+02:00"             # or a name: Europe/Berlin
#  setups:
#    - {name: before 1, from: 2026-06-14T10:02:00, to: 2026-06-14T10:07:00}
#after:
#  log: after.csv
#  zone: "+02:00"
#  cut: plateaus              # where the load went on and off; or markers
#  plateaus: {shortest: 2 min, shortest_off: 1 min}
#  steady: {window: 60 s, irradiance_change: 2 %, ramp: 1 %, temperature_change: 1 K}
#  longest_gap: 10 s
#  load_on: 1 W
#  tolerate: 2                # so many rows may be unreadable
# Longer times, for energy and mean power; nothing is judged by them.
#sessions:
#  log: week.csv
#  zone: "+02:00"
#  wraps_at: 65535 Wh         # where the counter begins anew
#  times: [{name: morning, from: 2026-06-14T06:00:00, to: 2026-06-14T12:00:00}]
)";

constexpr const char* beside_text =
    R"(
# Beside the test; nothing is judged by it. What a shade costs, and a look at the bypass diodes:
#shading:
#  - shade: lower left cell covered whole
#    when: before             # or after: the shots
#    date: 2026-06-14
#    rounds:                  # three or more
#      - {free: 81.2 W, shaded: 39.9 W, sun: 905 W/m2, back: 44 degC}
#      - free: 81.0 W
#        shaded: 39.6 W
#        sun: {free: 902 W/m2, shaded: 904 W/m2}
#        back: {free: 44 degC, shaded: 45 degC}
#    open_voltage:            # with whole substrings in full shade
#      free: 21.8 V
#      shaded: 11.2 V
#      substrings: 1
#      accuracy: 0.5 % + 2 digits
#      step: 0.01 V
# Energy that was read off a meter:
#energy:
#  - name: morning
#    when: before
#    date: 2026-06-14
#    lasting: 3 h 10 min
#    energy: 212.4 Wh
#    step: 0.1 Wh
#    accuracy: 1 % + 1 digit
#    sun: {start: 640 W/m2, end: 870 W/m2}
#    back: {start: 41 degC, end: 52 degC}
#    beside:                  # a panel beside it, by a meter of its own
#      label: C
#      energy: 209.8 Wh
#      step: 0.1 Wh
#      accuracy: 1 % + 1 digit
#      back: {start: 41 degC, end: 51 degC}
)";

constexpr const char* curves =
    R"(
# Figures of the curve before and after, for what a loss looks like; nothing is judged by them. Any
# of the four may be missing.
#curves:
#  voltmeter: {accuracy: 0.5 % + 2 digits, step: 0.01 V}
#  ammeter: {accuracy: 1 % + 3 digits, step: 0.01 A}
#  before:                    # three readings or more show their scatter
#    - {open_voltage: 20.9 V, short_current: 5.3 A, voltage_at_maximum: 16.8 V,
#       current_at_maximum: 5.0 A, sun: 905 W/m2, back: 44 degC}
#  after:
#    - {open_voltage: 20.8 V, short_current: 5.3 A, voltage_at_maximum: 16.7 V,
#       current_at_maximum: 4.9 A, sun: 900 W/m2, back: 45 degC}
)";

constexpr const char* looks_head =
    R"(
# What you saw; the program decides what counts as major. Words for it: broken front, broken back,
# broken frame, cell crack, scuff, dent, ... all in docs/record-format.md.
looks:
)";

constexpr const char* looks_tail =
    R"(    #date: 2026-06-14         # where it was another day than that of the test
    #photos: [a-front.jpg, a-back.jpg]
)";

constexpr const char* conditions =
    R"(
conditions:                   # of the measurement
  clean_and_dry: ???          # all panels, in all set-ups: yes or no
  same_leads: ???             # the same leads and plugs before and after: yes or no
  same_tools: ???             # the very same meters, but for those of tools_after: yes or no
  pre_exposed: ???            # new panels had been in the sun before: yes or no
  in_sun_first: ???           # time in the sun before the readings: 20 min
  incidence: ???              # largest angle between the sun and the normal of the panel: 15 deg
  incidence_change: ???       # its change between the stages: 5 deg
  since_last_shot: ???        # time between the last shot and the readings after it: 60 min
)";

constexpr const char* record_tail =
    R"(
# Only those tools that were other instruments after the shots, as under `tools` of the protocol:
#tools_after:
#  meter: {id: meter 2, accuracy: 1 % + 3 digits, step: 0.1 W, between_stages: 0.05 %}
#  sun: {spread: 2 %, step: 1 W/m2}
#  thermometer: {within: "1 K, 95 %", each_time: 1 K, where: back, kind: contact, one_per: panel}
#  scales: {uncertainty: {u: 0.1 g}, step: 0.1 g}
#  calipers: {accuracy: unknown}

#results_seen: 2              # how often the result was looked at, where that was more than planned

# What was done otherwise than planned:
#unlike_protocol: [place 16 not hit]
incidents: ???                # none, or a list of what went wrong: [a ball over the backstop]

disclosure:                   # readers should know who paid
  bought_by: ???              # who paid for the panel
  interests: ???              # of the reviewer: money, goods, friends; or none
  panel_goes: ???             # what happens to the panel: kept and marked as struck

# Further photos, beside those of looks and shots. They are shown as pixels alone: where and when
# they were taken does not come out.
#photos:
#  - {file: mounting.jpg, shows: the panel in its clamps}

# What the report says about itself:
#write_up:
#  author: the reviewer        # who answers for it
#  contact: letters welcome    # how to reach the author
#  place: a back garden        # where the test was made
#  asked_by: nobody            # who asked for the test, or paid for it
#  received: 2026-05-20        # day on which the panel came
#  issued: 2026-06-20          # day of the report
#  opinions: [the frame seems stiff for its weight]     # printed as the author's opinions
)";

std::string look(const std::string& when, const std::string& remark) {
  return "  - when: " + when + "\n    saw: ???" + remark + "\n";
}

std::string looks(const StarterKind& kind) {
  std::string text = looks_head;
  text +=
      look("start", "                  # needed: nothing, or [{scuff: place 14, photo: a14.jpg}]");
  text += looks_tail;
  text += "    # of a crack or of voids, the share of that cell's area too:\n"
          "    #saw: [{cell crack: place 3, share: 12 %, photo: a3.jpg}]\n";
  text += look("after small", "");
  text += "    # or between two throws, by the number of the one before: when: after throw 7\n";
  if (kind.two_series) text += look("after large", "");
  return text;
}

}  // namespace

std::string panel_start() {
  return panel;
}

std::string record_start(const StarterKind& kind) {
  std::string text = record_head;
  text += kind.siblings ? siblings : kind.control ? control : "";
  if (!kind.control) text += no_control;
  if (!kind.siblings) text += no_siblings;
  text += day;
  text += kind.power ? "  readings: readings.csv\n"
                     : "  #readings: readings.csv     # only where the power is measured\n";
  text += logs;
  text += beside_text;
  text += curves;
  text += stresses_done_start();
  text += looks(kind);
  text += conditions;
  text += record_tail;
  return text;
}

}  // namespace hailwright::detail
