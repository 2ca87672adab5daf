#include "hailwright/report/starter_files.hpp"

#include <set>
#include <string_view>
#include <utility>

#include "hailwright/model/safety_questions.hpp"
#include "hailwright/safety/gate.hpp"
#include "report/starter_texts.hpp"
#include "report/text_layout.hpp"

namespace hailwright::detail {

namespace {

constexpr const char* head =
    R"(hailwright: protocol 1

# What will be done and what will count as damage, written before the test. It names no panel and
# holds no result: one protocol serves any number of panels.
#
#   ???        only you can answer: write your answer in its place
#   #key: ...  not needed: take the first # of the line away to use it. What is left out is absent,
#              or takes a wide default that every output lists
#   needed     the line must stay. Any other line that you cannot answer may be deleted
#
# Amounts have their unit: 25 mm, 62 mph, -0.35 %/K. Yes and no are written yes and no.
# `hailwright check` says what is still to be filled in.
#
# A home test is no certification. Local law, licensed electricians and accredited laboratories
# come first.

title: ???                    # needed: what the test is called in every output

decide:
)";

constexpr const char* decide_power =
    R"(  limit: 5 %                  # needed: a loss of power above this is damage
  #risk: 2.5 %                # risk of each wrong statement
  #rule: guarded              # or simple: by the estimate alone, up to half wrong near the limit
  #see: 5 %                   # smallest loss that the test should be able to show
  #see_chance: 90 %           # how often it should show it
  #looks: 1                   # planned looks at the result, up to 3, which share the risk
  #judged_on: looks and power # or looks alone: then nothing is said about power
)";

constexpr const char* decide_looks =
    R"(  limit: 5 %                  # needed: a loss of power above this would be damage
  #risk: 2.5 %                # risk of each wrong statement
  #rule: guarded              # or simple: by the estimate alone, up to half wrong near the limit
  #see: 5 %                   # smallest loss that the test should be able to show
  #see_chance: 90 %           # how often it should show it
  #looks: 1                   # planned looks at the result, up to 3, which share the risk
  judged_on: looks            # nothing is said about power. Or: looks and power, with `measure`
)";

constexpr const char* first_series =
    R"(
series:                       # weakest first: what a strong ball broke cannot be blamed on a weaker
  - name: small               # needed: as the tables call it
    grade: IEC 61215 25 mm    # needed: `hailwright grades` lists them
    #ball: {diameter: 25 mm, mass: 7.5 g, speed: 23 m/s}     # instead of grade: your own
    #tolerance: 5 %           # so near to mass, speed and diameter counts as delivered
    places: 11                # needed: how many; they are called 1, 2, 3, ... through all series
    #places: [corner, {name: rim, at: 255 x 30 mm, kind: edge}]    # instead of places: by name
    #place_size: 25 mm        # radius: a hit counts for the place in which it lands
    setting: ???              # the launcher's, as the table of trials calls it: mark 3
)";

constexpr const char* second_series =
    R"(  - name: large
    grade: IEC 61215 35 mm
    places: 5
    setting: ???              # another one than that of the small balls: mark 5
)";

constexpr const char* launch =
    R"(
launch:
  # needed: sling, elastic, spring, compressed air, ball machine, drop, thrown by hand or other
  kind: ???
  distance: ???               # from the launcher to the panel: 3.0 m
  height: ???                 # of the muzzle over the ground it stands on; for drop, of the fall
  #aim: level                 # in words
  fastest: ???                # fastest speed at the muzzle that it can give at any setting: 32 m/s
  #spread: 2 %                # standard deviation of its speed from shot to shot, earlier shots
  ground_falls: ???           # so far lies the lowest ground ahead below the launcher's: 0 m
  #altitude: 300 m            # of the place over the sea: thinner air slows a ball less
  #air: 20 degC               # temperature of the air
  #tried: 10                  # throws at a dummy so far, and beside it
  #hit: 8                     # so many landed where they were aimed
)";

constexpr const char* speed =
    R"(
speed:                        # how the speed of the balls is known
  by: trial shots             # needed: or each shot; drop; setting, which measures nothing
  #trials: 10                 # planned trial shots of each series
  video: ???                  # frames per second: 240 fps
  length: ???                 # over which the frames are counted: 3.00 m
  #length_accuracy: 5 mm      # half-width of the error of that length
  #parallax: 1 %              # half-width: the scale is not in the plane of flight
  #rate_accuracy: 0.1 %       # half-width of the error of the frame rate
  #shutter: {readout: 8 ms, readout_accuracy: 2 ms, field: 3.2 m, flight: along}  # rolling
  to_panel: ???               # from the middle of that length to the panel: 1.5 m
  #drift: 1 %                 # half-width of the launcher's change between trials and shots
  #height_accuracy: 20 mm     # with by: drop, half-width of the error of the height
  # Other ways, one of them instead of video and length. Where the ball is in two pictures:
  #positions: {video: 240 fps, accuracy: 3 mm, scale_accuracy: 1 %}
  # The time between two gates:
  #gates: {spacing: 300 mm, spacing_accuracy: 1 mm, time_accuracy: 0.1 ms}
  # A radar; its errors also as spread, within or uncertainty:
  #radar: {accuracy: 1 mph, angle: 10 deg, angle_within: 5 deg}
  # The time between the sounds of launch and impact:
  #sounds: {path: 3.0 m, path_accuracy: 20 mm, launcher_to_microphone: 3.0 m,
  #         panel_to_microphone: 0.5 m, microphone_accuracy: 50 mm, air: 20 degC,
  #         time_accuracy: 1 ms}
  # Speeds typed into the tables, with one of these for the meter that showed them:
  #accuracy: 2 %              # the maker's figure
  #spread: 1 %                # standard deviation of your own check of it
  #within: 2 %, 95 %          # what a certificate says of it
  #uncertainty: {u: 1 %}      # the metrologist's ways, as under tools
)";

constexpr const char* ice_head =
    R"(
ice:
  water: boiled tap water     # in words
  freezer: ???                # its temperature: -18 degC
  weigh: ten together         # or one by one
  moulds:                     # how many cavities, by the diameter of the ball
    25 mm: ???
)";

constexpr const char* ice_tail =
    R"(  #made: 20                   # balls made so far, and beside it
  #rejected: 2                # how many of them were cracked, out of round, too light
)";

constexpr const char* electrical_tools =
    R"(  meter:                      # of the power
    accuracy: ???             # as its manual prints it: 1 % + 3 digits; or unknown
    #id: meter 1              # which one it is, where you have several of a kind
    # Instead of accuracy, one of these:
    #spread: 0.3 %            # standard deviation of your own repeats
    #within: 0.6 %, 95 %      # a certificate
    #uncertainty: {u: 0.2 %, degrees_of_freedom: 5}          # the metrologist's ways
    #uncertainty: {half_width: 0.5 %, shape: rectangular}
    #uncertainty: {expanded: 0.4 %, k: 2}
    step: ???                 # one step of its display: 0.1 W
    #between_stages: 0.05 %   # so much its gain may change between the stages
  sun:                        # irradiance meter
    accuracy: ???             # 5 %, or unknown; and all the ways above
    step: ???                 # 1 W/m2
  thermometer:                # of the panel; an amount is a difference: 2 degC means 2 K
    accuracy: ???             # the same error all the time: 2 degC, or unknown
    #each_time: 1 K           # half-width of the error of attaching or aiming it anew
    where: ???                # back, cell or front
    kind: ???                 # infrared or contact
    #one_per: panel           # each panel has a thermometer of its own
)";

constexpr const char* sizing_tools =
    R"(  scales:                     # for the balls
    accuracy: ???             # 0.2 g, or unknown
    step: ???                 # 0.1 g
  calipers:                   # for the balls
    accuracy: ???             # 0.1 mm, or unknown
    step: ???                 # 0.1 mm
)";

constexpr const char* measure_head =
    R"(
measure:
)";

constexpr const char* with_control =
    R"(  # needed: with an unstruck panel beside it; or same-panel, with itself before; or sibling-panel,
  # with unstruck units of its model, where nothing is read before the shots
  compare: control-panel
)";

constexpr const char* with_siblings =
    R"(  # needed: with unstruck units of its model; or same-panel, with itself before; or control-panel,
  # with itself before and an unstruck panel beside it
  compare: sibling-panel
)";

constexpr const char* without_control =
    R"(  # needed: with itself before; or control-panel, with an unstruck panel beside it; or
  # sibling-panel, with unstruck units of its model, where nothing is read before the shots
  compare: same-panel
)";

constexpr const char* counts_of_stages =
    R"(  before: 3                   # planned set-ups before the first shot
  after: 3                    # and after the last
  #siblings: 4                # for sibling-panel: planned unstruck units, three at least
  #unit_tolerance: 3 %        # so far from its rating the maker lets the power of a unit be
  #trend: fitted              # or none: a line in time taken out of four set-ups a stage or more
)";

constexpr const char* counts_of_siblings =
    R"(  #before: 3                  # planned set-ups before the first shot, for the other comparisons
  after: 3                    # planned set-ups of all panels, after the last shot
  siblings: 4                 # planned unstruck units, three at least
  #unit_tolerance: 3 %        # so far from its rating the maker lets the power of a unit be
  #trend: none                # or fitted, for the other comparisons: a line in time taken out
)";

constexpr const char* meters_open =
    "  meters: ???                 # needed: 1, the panels are read in turn; 2, at once\n";
constexpr const char* meters_idle =
    "  #meters: 1                  # for a control panel: 1, read in turn; 2, at once\n";

constexpr const char* measure_tail =
    R"(  # needed: how the load finds the maximum: sweep, tracker settled or fixed load
  maximum_power: ???
  load: ???                   # in words: power station
  redone: [mount, aim, probe, leads]     # what each set-up does anew
  #expected_scatter: 0.6 %    # from set-up to set-up, for the plan alone
  # Scatter from set-up to set-up that is stated, not observed. The names are yours, each with a
  # standard deviation, or with one of the ways under tools and the step it belongs to:
  #setup_scatter:
  #  alignment: 0.3 %
  #  contact: {spread: 0.1 %, of: leads}
  #  clamp: {accuracy: 0.2 %, of: mount}
  #  sensor: {within: "0.2 %, 95 %", of: probe}
  #  sighting: {uncertainty: {u: 0.1 %}, of: aim}
  #day: 0.4 %                 # standard uncertainty that all set-ups of a day share
  #stage: 0.2 %               # of the panel's own drift between the stages
  #control_stability: 0.15 %  # of the control against the struck panel
  #readings_independent: each after a new search of the maximum    # why they count one by one
  #cell_above_back: 3 K       # so much warmer are the cells than the back, at 1000 W/m2
  #cell_above_back: {value: 3 K, half_width: 1 K, shape: rectangular}    # or with its error
  #cell_above_back: {value: 3 K, u: 0.5 K}
  #cell_above_back: {value: 3 K, expanded: 1 K, k: 2}
)";

std::string disabled(std::string_view text) {
  std::string out;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = text.find('\n', at);
    if (end > at) out += '#';
    out += text.substr(at, end - at + 1);
    at = end + 1;
  }
  return out;
}

std::string measure(const StarterKind& kind) {
  std::string body = measure_head;
  body += kind.siblings ? with_siblings : kind.control ? with_control : without_control;
  body += kind.siblings ? counts_of_siblings : counts_of_stages;
  body += "  readings: 6                 # planned readings of each panel in a set-up\n";
  body += kind.siblings || kind.control ? meters_open : meters_idle;
  body += measure_tail;
  return kind.power ? body : disabled(body);
}

/// A remark in lines that fit a screen.
std::string remark(const std::string& text, const std::string& indent) {
  constexpr int width = 96;
  std::string out;
  for (const Runs& line : wrap(plain(text), width - static_cast<int>(indent.size()) - 2)) {
    out += indent + "# ";
    for (const Run& run : line)
      out += run.text;
    out += '\n';
  }
  return out;
}

/// Questions that the gate asks of an ordinary test; the others stand ready behind a #, and `plan`
/// names those that a test of another kind has to answer too.
std::set<std::pair<std::string, std::string>> usual_questions() {
  PlanDangers usual;
  usual.launcher = Launcher::sling;
  // The 35 mm ball of IEC 61215 on a 12 V panel, cold [ours]; they decide nothing but what is
  // asked.
  usual.muzzle_energy = Energy::from_si(8.0);
  usual.no_air_reach = Length::from_si(80.0);
  usual.cold_voltages = {Voltage::from_si(24.0)};
  std::set<std::pair<std::string, std::string>> asked;
  for (const GateFinding& finding : Gate::ask({}, usual, "2000-01-01").findings)
    asked.emplace(finding.block, finding.key);
  return asked;
}

std::string safety() {
  const auto usual = usual_questions();
  std::string out = R"(
safety:                       # what you and everyone there keep to; figures to launch by are
                              # printed when it is answered. Answers count for 30 days
)";
  for (const std::string_view block : safety_blocks()) {
    out += "  " + std::string(block) + ":\n";
    for (const SafetyQuestion& question : safety_questions()) {
      if (question.block != block) continue;
      const bool asked = usual.contains({std::string(block), std::string(question.key)});
      std::string says(question.asks);
      says += question.form == AnswerForm::word || question.form == AnswerForm::yes_no
                  ? ": " + possible_answers(question)
                  : ", such as " + std::string(question.example);
      out += remark(says, "    ");
      out += "    " + std::string(asked ? "" : "#") + std::string(question.key) + ": " +
             std::string(answer_to_come) +
             (asked ? "\n" : "    # only for some tests; `plan` says whether for yours\n");
    }
  }
  return out;
}

}  // namespace

std::string protocol_start(const StarterKind& kind) {
  std::string text = head;
  text += kind.power ? decide_power : decide_looks;
  text += first_series;
  if (kind.two_series) text += second_series;
  text += launch;
  text += speed;
  text += ice_head;
  if (kind.two_series) text += "    35 mm: ???\n";
  text += ice_tail;
  text += stresses_start();
  text += "\ntools:\n";
  text += kind.power ? electrical_tools : disabled(electrical_tools);
  text += sizing_tools;
  text += measure(kind);
  text += safety();
  return text;
}

}  // namespace hailwright::detail
