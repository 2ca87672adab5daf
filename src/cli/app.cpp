#include "cli/app.hpp"

#include <CLI/CLI.hpp>

#include <functional>
#include <ios>
#include <sstream>
#include <string>
#include <vector>

#include "cli/commands.hpp"
#include "cli/exit_codes.hpp"
#include "cli/line_up_command.hpp"
#include "cli/plan_command.hpp"
#include "cli/readings_command.hpp"
#include "cli/speed_command.hpp"
#include "cli/start_command.hpp"
#include "cli/terminal.hpp"
#include "cli/threshold_command.hpp"
#include "cli/typed_options.hpp"
#include "cli/write_command.hpp"

namespace hailwright::cli {

namespace {

constexpr const char* about_program =
    "Judges home hail tests of small photovoltaic panels.\n"
    "A home test is no certification. Local law, licensed electricians and accredited\n"
    "laboratories come first.";

constexpr const char* footer =
    "Exit codes: 0 done, 1 judge --strict and not withstood, 2 wrong command line,\n"
    "3 errors in the files, 4 the safety gate stays closed, 5 output could not be\n"
    "written, 70 our own mistake, 71 not enough memory.";

/// Every option is read as text; quantities go through the one parser of the program, since a
/// command-line library's own numbers accept nan, octal and hexadecimal.
void add_format(CLI::App* command, std::string& format, const std::vector<std::string>& formats) {
  command->add_option("--format", format, "How the output is written")
      ->check(CLI::IsMember(formats))
      ->capture_default_str();
}

void add_grades(CLI::App& app, GradesOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand("grades", "The published hail-test grades and their sources");
  c->add_option("--scheme", o.scheme, "Only this scheme, such as \"IEC 61215\"");
  add_format(c, o.format, {"text", "md", "html", "json", "csv"});
  c->callback([&] { chosen = [&] { return run_grades(o); }; });
}

void add_sources(CLI::App& app, SourcesOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand("sources", "Every source that a number rests on");
  add_format(c, o.format, {"text", "md", "html"});
  c->callback([&] { chosen = [&] { return run_sources(o); }; });
}

void add_shot(CLI::App& app, ShotOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand("shot", "What one ball carries, and beside what");
  c->add_option("--diameter", o.diameter.value, "Of the ball, such as 25mm")->required();
  c->add_option("--mass", o.mass.value, "As weighed, such as 7.53g; left out: from the diameter");
  c->add_option("--speed", o.speed.value, "At the panel, such as 23m/s or 51mph")->required();
  const auto add_errors = [c](const std::string& name, StatedOption& option) {
    c->add_option("--" + name + "-accuracy", option.accuracy,
                  "Never wrong by more than this, such as 2%");
    c->add_option("--" + name + "-spread", option.spread, "Standard deviation of your own repeats");
  };
  add_errors("diameter", o.diameter);
  add_errors("mass", o.mass);
  add_errors("speed", o.speed);
  c->add_option("--angle", o.angle, "From the normal of the panel, such as 20deg");
  c->add_option("--scheme", o.scheme, "Grades to compare with")->capture_default_str();
  add_format(c, o.format, {"text", "md", "html", "json"});
  c->callback([&] { chosen = [&] { return run_shot(o); }; });
}

void add_start(CLI::App& app, StartOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand("start", "Writes commented files to begin a test from");
  c->add_option("DIR", o.folder, "Folder to write into; made when it is not there")->required();
  c->add_option("--from", o.from,
                "Kind of test: control-panel (left out), same-panel, sibling-panel, one-series or "
                "looks-only");
  c->callback([&] { chosen = [&] { return run_start(o); }; });
}

void add_plan(CLI::App& app, PlanOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand("plan", "The test plan, behind the safety gate");
  c->add_option("PROTOCOL", o.protocol, "Protocol file")->required();
  c->add_option("--panel", o.panels, "Panel files")->required();
  c->add_flag("--estimate-only", o.estimate_only,
              "Reach, energy, hazards and what the measurement can see; nothing to launch by");
  c->add_option("--order", o.order, "Order of the shots within a series")
      ->check(CLI::IsMember({"spread", "random"}))
      ->capture_default_str();
  c->add_option("--seed", o.seed, "Of a random order; 1 unless given");
  c->add_option("-o,--output", o.folder, "Folder to write HTML, Markdown, JSON and pictures into");
  c->add_flag("--replace", o.replace, "Replace files of these names that are there already");
  add_format(c, o.format, {"text", "md", "html", "json"});
  c->callback([&] { chosen = [&] { return run_plan(o); }; });
}

using AddOption = std::function<void(const char*, const char*, std::string&, const char*)>;

void add_speed_by_video(SpeedOptions& o, const AddOption& add) {
  const char* video = "Video frames over a length: --frames --video --length";
  add(video, "--frames", o.frames, "From mark to mark, or from picture to picture: 21, 20.5");
  add(video, "--video", o.video, "Frames per second, such as 240fps");
  add(video, "--length", o.length, "From mark to mark, such as 2m");
  add(video, "--length-accuracy", o.length_accuracy, "Never wrong by more than this: 5mm or 1%");
  add(video, "--parallax", o.parallax, "The scale lies in the plane of flight within this: 1%");
  add(video, "--rate-accuracy", o.rate_accuracy, "Of the frame rate: 0.1%");
  const char* pictures = "Positions in two pictures: --moved --frames --video";
  add(pictures, "--moved", o.moved, "From picture to picture, such as 800mm");
  add(pictures, "--position-accuracy", o.position_accuracy, "Of one position: 3mm");
  add(pictures, "--scale-accuracy", o.scale_accuracy, "Of the picture's scale: 0.5%");
  const char* camera = "The camera of a video";
  add(camera, "--exposure", o.exposure, "Of one picture, such as 0.5ms: how long it is blurred");
  add(camera, "--readout", o.readout, "Time in which a picture is read out row by row: 8ms");
  add(camera, "--readout-accuracy", o.readout_accuracy, "Of that time: 1ms or 10%");
  add(camera, "--field", o.field, "What the picture shows in that direction: 1.5m");
  add(camera, "--flight", o.flight, "along, against or across the read-out");
}

void add_speed_by_meter(SpeedOptions& o, const AddOption& add) {
  const char* gates = "Two gates: --gates --time";
  add(gates, "--gates", o.gates, "From gate to gate, such as 300mm");
  add(gates, "--gates-accuracy", o.gates_accuracy, "Of that: 3mm");
  add(gates, "--time", o.time, "As finely as it was shown: 13.00ms");
  add(gates, "--time-accuracy", o.time_accuracy, "Of clock and gates, or of two sounds: 20us");
  const char* radar = "Radar: --radar";
  add(radar, "--radar", o.radar, "As shown, such as 51mph");
  add(radar, "--radar-accuracy", o.radar_accuracy, "Of the meter: 1mph or 2%");
  add(radar, "--angle", o.angle, "Between beam and flight, such as 10deg");
  add(radar, "--angle-within", o.angle_within, "Of that angle: 5deg");
  const char* sounds = "Launch and impact on one track: --between --path "
                       "--launcher-to-microphone "
                       "--panel-to-microphone";
  add(sounds, "--between", o.between, "From sound to sound, such as 150ms");
  add(sounds, "--launch-sound", o.launch_sound, "On the track, instead of --between");
  add(sounds, "--impact-sound", o.impact_sound, "On the track, with --launch-sound");
  add(sounds, "--path", o.path, "Of the ball to the panel, such as 3m");
  add(sounds, "--path-accuracy", o.path_accuracy, "Of that: 20mm");
  add(sounds, "--launcher-to-microphone", o.launcher_to_microphone, "Way of the first sound: 1.5m");
  add(sounds, "--panel-to-microphone", o.panel_to_microphone, "Way of the second sound: 1.5m");
  add(sounds, "--microphone-accuracy", o.microphone_accuracy, "Of each of the two ways: 50mm");
}

void add_speed(CLI::App& app, SpeedOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand("speed", "How fast a ball was, and how well that is known");
  const AddOption add = [c](const char* group, const char* name, std::string& text,
                            const char* help) { c->add_option(name, text, help)->group(group); };
  add_speed_by_video(o, add);
  add_speed_by_meter(o, add);
  const char* unmeasured = "Not measured";
  add(unmeasured, "--drop", o.drop, "Height of a fall from rest, as it was");
  add(unmeasured, "--drop-accuracy", o.drop_accuracy, "Of that: 20mm");
  add(unmeasured, "--setting", o.setting, "What the launcher's setting is taken to give");
  const char* ball = "The ball, and the way to the panel";
  add(ball, "--to-panel", o.to_panel, "From the middle of the base to the panel, such as 1.5m");
  add(ball, "--diameter", o.diameter, "Of the ball, such as 25mm");
  add(ball, "--mass", o.mass, "As weighed, such as 7.53g; left out: from the diameter");
  add(ball, "--altitude", o.altitude, "Of the place over the sea, such as 500m");
  add(ball, "--air", o.air, "Temperature of the air, such as 20degC");
  add_format(c, o.format, {"text", "md", "html", "json"});
  c->callback([&] { chosen = [&] { return run_speed(o); }; });
}

void add_reading_of(CLI::App* c, ReadingsOptions& o, const AddOption& add) {
  c->add_option("FILE", o.files, "Files of one log, in sequence; gzip is read; - is standard input")
      ->required();
  const char* form = "How the file is written";
  const auto add_word = [&](const char* name, std::string& text, const char* help,
                            const std::vector<std::string>& words) {
    c->add_option(name, text, help)->check(CLI::IsMember(words))->group(form);
  };
  add(form, "--columns", o.columns, "Column map: a file as --suggest prints it");
  c->add_flag("--suggest", o.suggest, "Print a column map for the first file, and nothing else")
      ->group(form);
  add(form, "--zone", o.zone, "Of the time stamps, such as +02:00 or Europe/Berlin");
  add_word("--separator", o.separator, "Between the cells", {"comma", "semicolon", "tab"});
  add_word("--decimal", o.decimal, "Decimal mark", {"point", "comma"});
  add_word("--dates", o.dates, "Order in dates", {"year-first", "day-first", "month-first"});
  add(form, "--tolerate", o.tolerate, "Rows that cannot be read and are no error; 0 unless given");
}

void add_cutting(CLI::App* c, ReadingsOptions& o, const AddOption& add) {
  const char* cut = "What is cut out";
  c->add_option("--cut", o.cut, "The whole log unless given")
      ->check(CLI::IsMember({"whole", "plateaus", "markers"}))
      ->group(cut);
  c->add_option("--span", o.spans, "A stretch by its times; may be given several times")
      ->type_name("NAME FROM TO")
      ->type_size(3)
      ->expected(1)
      ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll)
      ->group(cut);
  add(cut, "--load-on", o.load_on, "Power from which on the panel gives any; 1W unless given");
  add(cut, "--shortest", o.shortest, "Plateau that counts; 2min of steady time unless given");
  add(cut, "--shortest-off", o.shortest_off, "Between two plateaus; 1min unless given");
  c->add_option("--as", o.place, "Where the block for a record belongs; sessions unless given")
      ->check(CLI::IsMember({"before", "after", "sessions"}))
      ->group(cut);
}

void add_rules_of_readings(CLI::App* c, ReadingsOptions& o, const AddOption& add) {
  const char* rules = "What counts";
  c->add_flag("--steady", o.steady, "Leave out rows that are not steady; done for what is cut out")
      ->group(rules);
  c->add_flag("--not-steady", o.not_steady, "Leave none out; done for the whole log")->group(rules);
  add(rules, "--window", o.window, "That is steady or not; 60s unless given, or six usual steps");
  add(rules, "--irradiance-change", o.irradiance_change, "In a window at most; 2% unless given");
  add(rules, "--ramp", o.ramp, "Of irradiance over a window at most; 1% unless given");
  add(rules, "--temperature-change", o.temperature_change, "In a window at most; 1K unless given");
  add(rules, "--longest-gap", o.longest_gap,
      "Bridged between two rows; five usual steps unless given, from 10s to 15min");
  add(rules, "--counter-wraps", o.counter_wraps, "Where an energy counter begins anew: 65535Wh");
}

void add_second_log(CLI::App* c, ReadingsOptions& o, const AddOption& add) {
  const char* second = "A second log";
  c->add_option("--beside", o.beside, "Its files, of the panel beside")->group(second);
  add(second, "--beside-columns", o.beside_columns, "Its column map; as --columns unless given");
  add(second, "--offset", o.offset, "Added to its time stamps: 7s; auto finds it by the clouds");
  add(second, "--offset-search", o.offset_search,
      "How far auto looks, both ways; 2min unless given");
}

void add_readings(CLI::App& app, ReadingsOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand("readings", "What a logger's file comes to, of any size");
  const AddOption add = [c](const char* group, const char* name, std::string& text,
                            const char* help) { c->add_option(name, text, help)->group(group); };
  add_reading_of(c, o, add);
  add_cutting(c, o, add);
  add_rules_of_readings(c, o, add);
  add_second_log(c, o, add);
  const char* known = "What is known beside";
  add(known, "--protocol", o.protocol, "Protocol file with the instruments and their errors");
  add(known, "--panel", o.panel, "Panel file, for power at 1000 W/m2 and 25 degC");
  add(known, "--beside-panel", o.beside_panel, "Panel file of the panel beside");
  c->add_option("--threads", o.threads, "1 to 64; all cores unless given. The result is the same");
  add_format(c, o.format, {"text", "md", "html", "json", "csv", "yaml"});
  c->callback([&] { chosen = [&] { return run_readings(o); }; });
}

void add_judging(CLI::App* command, JudgingOptions& o) {
  command->add_option("RECORD", o.records, "Record files")->required();
  command
      ->add_option("--trials", o.trials,
                   "Random trials that check the interval: 20000 to 10000000, adaptive (until the "
                   "result is stable), or 0 for none")
      ->capture_default_str();
  command->add_option("--seed", o.seed, "Of the random trials: the same seed gives the same result")
      ->capture_default_str();
  command->add_option(
      "--threads", o.threads,
      "For the random trials, 1 to 64; all cores unless given. The result is the same");
}

void add_judge(CLI::App& app, JudgeOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand("judge", "The verdict on one or more records, with its reasons");
  add_judging(c, o.judging);
  c->add_flag("--strict", o.strict, "Exit with 1 unless every series and stress was withstood");
  c->add_flag("--explain", o.explain, "Every step with its numbers, formula and source");
  c->add_flag("--shortest", o.judging.shortest, "The shortest interval of the random trials, too");
  c->add_option("--limit", o.judging.limit,
                "A limit of your own for the loss by hail, such as 2%; the verdict\n"
                "stays the protocol's");
  add_format(c, o.format, {"text", "md", "html", "json", "jsonl"});
  c->callback([&] { chosen = [&] { return run_judge(o); }; });
}

void add_write(CLI::App& app, WriteOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand("write", "The write-up: pages, pictures, tables, a spreadsheet");
  add_judging(c, o.judging);
  c->add_option("-o,--output", o.folder, "Folder to write into; made when it is not there")
      ->required();
  c->add_flag("--replace", o.replace, "Write a folder anew that holds a write-up already");
  c->add_flag("--without-photos", o.without_photos, "Tell photos in words alone");
  c->callback([&] { chosen = [&] { return run_write(o); }; });
}

void add_line_up(CLI::App& app, LineUpOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand("line-up", "Panels side by side, in the order that was shown");
  c->add_option("RECORD", o.records, "Record files")->required();
  c->add_option("--columns", o.columns,
                "Columns for people, with commas between them, or all; csv and json have all");
  c->add_option("--sort", o.sort,
                "What they are put in order by: loss, power, share-of-rated, power-per-area, "
                "power-per-mass, price-per-watt or shading-loss")
      ->capture_default_str();
  c->add_option("--title", o.title, "Of the page")->capture_default_str();
  CLI::Option* folder =
      c->add_option("-o,--output", o.folder, "Folder to write all formats and pictures into");
  c->add_flag("--replace", o.replace, "Write a folder anew that holds a line-up already")
      ->needs(folder);
  add_format(c, o.format, {"text", "md", "html", "json", "csv"});
  c->callback([&] { chosen = [&] { return run_line_up(o); }; });
}

void add_check(CLI::App& app, CheckOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand(
      "check", "All errors and warnings of protocols, panels, records and column maps");
  CLI::Option* files =
      c->add_option("FILE", o.files, "Protocol, panel, record, column map or specimens files");
  c->add_option("--schema", o.schema,
                "Print the JSON Schema of a kind of file, for an editor to complete and check it")
      ->check(CLI::IsMember({"protocol", "panel", "record", "columns", "specimens"}))
      ->excludes(files);
  c->callback([&] { chosen = [&] { return run_check(o); }; });
}

void add_threshold(CLI::App& app, ThresholdOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand("threshold", "The energy at which specimens are damaged");
  c->add_option("FILE", o.specimens, "File of specimens, each struck once")->required();
  c->add_option("--protocol", o.protocol, "Protocol whose safety answers hold for the next test");
  c->add_option("--panel", o.panels, "Panel files of the specimens, for the safety gate");
  add_format(c, o.format, {"text", "md", "html", "json"});
  c->callback([&] { chosen = [&] { return run_threshold(o); }; });
}

/// Help and version, which were asked for, or what is wrong with the command line.
int end_of_parsing(const CLI::App& app, const CLI::ParseError& end) {
  std::ostringstream output;
  std::ostringstream messages;
  // A stream keeps silent about memory that it did not get, unless told otherwise.
  output.exceptions(std::ios::badbit);
  messages.exceptions(std::ios::badbit);
  // The library's own codes begin at 100; ours are documented.
  const bool asked_for = app.exit(end, output, messages) == 0;
  write_messages(messages.str());
  return asked_for ? write_output(output.str()) : exit_usage;
}

/// What was typed of the chosen command, as others than the command-line library see it.
std::vector<TypedOption> typed_options(const CLI::App& command) {
  std::vector<TypedOption> typed;
  for (const CLI::Option* option : command.get_options()) {
    if (option->count() > 0) typed.push_back({option->get_name(), option->results()});
  }
  return typed;
}

/// What is wrong with options that are each by itself right; may be empty.
std::string unfit_options(const CLI::App& app) {
  std::string messages;
  for (const CLI::App* command : app.get_subcommands()) {
    const std::vector<TypedOption> typed = typed_options(*command);
    messages += empty_options(typed) + idle_options(command->get_name(), typed);
  }
  return messages;
}

}  // namespace

int run(int argc, char** argv) {
  CLI::App app(about_program, "hailwright");
  app.footer(footer);
  app.set_version_flag("--version", "hailwright " HAILWRIGHT_VERSION);
  app.require_subcommand(1);
  GradesOptions grades;
  SourcesOptions sources;
  ShotOptions shot;
  StartOptions start;
  PlanOptions plan;
  SpeedOptions speed;
  ReadingsOptions readings;
  JudgeOptions judge;
  WriteOptions write;
  LineUpOptions line_up;
  ThresholdOptions threshold;
  CheckOptions check;
  std::function<int()> chosen;
  add_start(app, start, chosen);
  add_plan(app, plan, chosen);
  add_speed(app, speed, chosen);
  add_readings(app, readings, chosen);
  add_judge(app, judge, chosen);
  add_write(app, write, chosen);
  add_line_up(app, line_up, chosen);
  add_threshold(app, threshold, chosen);
  add_check(app, check, chosen);
  add_grades(app, grades, chosen);
  add_shot(app, shot, chosen);
  add_sources(app, sources, chosen);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& end) {
    return end_of_parsing(app, end);
  }
  const std::string unfit = unfit_options(app);
  write_messages(unfit);
  return unfit.empty() ? chosen() : exit_usage;
}

}  // namespace hailwright::cli
