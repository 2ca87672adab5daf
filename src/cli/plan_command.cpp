#include "cli/plan_command.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <optional>

#include "cli/exit_codes.hpp"
#include "cli/files.hpp"
#include "cli/output_files.hpp"
#include "cli/picture_files.hpp"
#include "cli/terminal.hpp"
#include "cli/today.hpp"
#include "cli/written_folder.hpp"
#include "hailwright/input/readers.hpp"
#include "hailwright/report/compose_plan.hpp"
#include "hailwright/report/render.hpp"

namespace hailwright::cli {

namespace {

/// Nothing, with a message, for a seed that is no whole number.
std::optional<std::uint64_t> read_seed(const std::string& text) {
  std::uint64_t seed = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, seed);
  if (error == std::errc() && stop == end) return seed;
  write_messages("hailwright: --seed must be a whole number, found '" + text + "'\n");
  return std::nullopt;
}

int exit_code(const TestPlan& plan) {
  return plan.cleared() || plan.estimate_only ? exit_done : exit_gate;
}

/// What the gate found at places of the file. What is missing there stands in the plan as lines to
/// fill in.
Diagnostics located_findings(GateResult gate) {
  std::erase_if(gate.findings,
                [](const GateFinding& f) { return f.fault == AnswerFault::missing; });
  return gate_messages(gate);
}
Diagnostics located_findings(StressGateResult gate) {
  std::erase_if(gate.findings,
                [](const StressFinding& f) { return f.fault == AnswerFault::missing; });
  return stress_gate_messages(gate);
}

/// Aim maps of another plan that would stay beside this one, as if they were its own.
std::vector<WriteFault> stale_maps(const std::string& folder,
                                   const std::vector<OutputFile>& files) {
  std::vector<WriteFault> faults;
  std::error_code none;
  for (const auto& entry : std::filesystem::directory_iterator(folder, none)) {
    const std::string name = entry.path().filename().string();
    if (!name.starts_with("aim-map-") || !name.ends_with(".svg")) continue;
    const bool ours = std::any_of(files.begin(), files.end(),
                                  [&](const OutputFile& file) { return file.name == name; });
    if (!ours) {
      faults.push_back({fmt::format("{}/{}", folder, name), "belongs to another plan",
                        "remove it, or name another folder"});
    }
  }
  return faults;
}

/// The plan in all formats with its pictures.
int write_plan_folder(const PlanOptions& options, const TestPlan& plan, const Document& document) {
  std::vector<OutputFile> files{
      {"plan.html", render_html(document)},
      {"plan.md", render_markdown(document, MarkdownStyle{.pictures = true})},
      {"plan.json", plan_json(plan)}};
  add_pictures(files, document);
  std::vector<std::string> read = options.panels;
  read.push_back(options.protocol);
  auto faults = inputs_in_the_way(options.folder, files, read);
  if (faults.empty()) faults = stale_maps(options.folder, files);
  if (faults.empty())
    faults =
        write_into(options.folder, files, options.replace ? Existing::replace : Existing::keep);
  if (!faults.empty()) {
    write_messages(text_of(faults));
    return exit_output;
  }
  std::string text;
  for (const OutputFile& file : files)
    text += options.folder + "/" + file.name + "\n";
  return write_output(text);
}

int write_plan(const PlanOptions& options, const TestPlan& plan) {
  const bool on_screen = options.folder.empty() && options.format == "text";
  const Document document = compose_plan(plan, !on_screen);
  if (!options.folder.empty()) return write_plan_folder(options, plan, document);
  if (options.format == "json") return write_output(plan_json(plan));
  if (options.format == "html") return write_output(render_html(document));
  if (options.format == "md") return write_output(render_markdown(document));
  return write_output(render_console(document, console_style()));
}

}  // namespace

int run_plan(const PlanOptions& options) {
  PlanRequest request;
  request.today = today();
  request.estimate_only = options.estimate_only;
  if (options.order == "random") {
    request.order_seed = read_seed(options.seed.empty() ? "1" : options.seed);
    if (!request.order_seed) return exit_usage;
  } else if (!options.seed.empty()) {
    write_messages("hailwright: --seed belongs to --order random\n");
    return exit_usage;
  }
  SourceSet sources;
  Diagnostics notes;
  Checked<Protocol> protocol = read_protocol(options.protocol, load_file, sources);
  notes.append(std::move(protocol.notes));
  std::vector<Panel> panels;
  for (const std::string& path : options.panels) {
    Checked<Panel> panel = read_panel(path, load_file, sources);
    notes.append(std::move(panel.notes));
    if (panel.value) panels.push_back(std::move(*panel.value));
  }
  std::optional<TestPlan> plan;
  if (!notes.has_errors()) {
    request.protocol = &*protocol.value;
    for (const Panel& panel : panels)
      request.panels.push_back(&panel);
    Checked<TestPlan> made = make_plan(request);
    notes.append(std::move(made.notes));
    plan = std::move(made.value);
  }
  write_messages(render_diagnostics(notes, sources));
  if (notes.has_errors() || !plan) return exit_input;
  const int written = write_plan(options, *plan);
  if (!plan->estimate_only) {
    Diagnostics findings = located_findings(plan->gate);
    findings.append(located_findings(plan->stress_gate));
    write_messages(render_diagnostics(findings, sources));
  }
  return written == exit_done ? exit_code(*plan) : written;
}

}  // namespace hailwright::cli
