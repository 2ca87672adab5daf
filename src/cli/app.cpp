#include "cli/app.hpp"

#include <CLI/CLI.hpp>

#include <functional>
#include <string>
#include <vector>

#include "cli/commands.hpp"
#include "cli/exit_codes.hpp"

namespace hailwright::cli {

namespace {

constexpr const char* about =
    "Judges home hail tests of small photovoltaic panels.\n"
    "A home test is no certification. Local law, licensed electricians and accredited\n"
    "laboratories come first.";

constexpr const char* footer =
    "Exit codes: 0 done, 1 judge --strict and not withstood, 2 wrong command line,\n"
    "3 errors in the files, 5 output could not be written, 70 our own mistake.";

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
  add_format(c, o.format, {"text", "md", "json", "csv"});
  c->callback([&] { chosen = [&] { return run_grades(o); }; });
}

void add_sources(CLI::App& app, SourcesOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand("sources", "Every source that a number rests on");
  add_format(c, o.format, {"text", "md"});
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
  add_format(c, o.format, {"text", "md", "json"});
  c->callback([&] { chosen = [&] { return run_shot(o); }; });
}

void add_judge(CLI::App& app, JudgeOptions& o, std::function<int()>& chosen) {
  CLI::App* c = app.add_subcommand("judge", "The verdict on one or more records, with its reasons");
  c->add_option("RECORD", o.records, "Record files")->required();
  c->add_flag("--strict", o.strict, "Exit with 1 unless every series was withstood");
  add_format(c, o.format, {"text", "md"});
  c->callback([&] { chosen = [&] { return run_judge(o); }; });
}

void add_check(CLI::App& app, CheckOptions& o, std::function<int()>& chosen) {
  CLI::App* c =
      app.add_subcommand("check", "All errors and warnings of protocols, panels and records");
  c->add_option("FILE", o.files, "Protocol, panel or record files")->required();
  c->callback([&] { chosen = [&] { return run_check(o); }; });
}

}  // namespace

int run(int argc, char** argv) {
  CLI::App app(about, "hailwright");
  app.footer(footer);
  app.set_version_flag("--version", "hailwright " HAILWRIGHT_VERSION);
  app.require_subcommand(1);
  GradesOptions grades;
  SourcesOptions sources;
  ShotOptions shot;
  JudgeOptions judge;
  CheckOptions check;
  std::function<int()> chosen;
  add_judge(app, judge, chosen);
  add_check(app, check, chosen);
  add_grades(app, grades, chosen);
  add_shot(app, shot, chosen);
  add_sources(app, sources, chosen);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    // The library's own codes begin at 100; ours are documented.
    return app.exit(e) == 0 ? exit_done : exit_usage;
  }
  return chosen();
}

}  // namespace hailwright::cli
