#include "cli/threshold_command.hpp"

#include <optional>

#include "cli/exit_codes.hpp"
#include "cli/files.hpp"
#include "cli/terminal.hpp"
#include "cli/today.hpp"
#include "hailwright/input/readers.hpp"
#include "hailwright/report/compose_threshold.hpp"
#include "hailwright/report/render.hpp"

namespace hailwright::cli {

namespace {

/// The protocol whose gate is asked, with what was read for it; it must outlive the plan.
struct Planned {
  std::optional<Protocol> protocol;
  std::vector<Panel> panels;
  std::optional<TestPlan> plan;
};

void read_panels(const std::vector<std::string>& paths, Planned& planned, SourceSet& sources,
                 Diagnostics& notes) {
  for (const std::string& path : paths) {
    Checked<Panel> panel = read_panel(path, load_file, sources);
    notes.append(std::move(panel.notes));
    if (panel.value) planned.panels.push_back(std::move(*panel.value));
  }
}

void make_plan_of(const std::string& path, const std::vector<std::string>& panels, Planned& planned,
                  SourceSet& sources, Diagnostics& notes) {
  Checked<Protocol> protocol = read_protocol(path, load_file, sources);
  notes.append(std::move(protocol.notes));
  read_panels(panels, planned, sources, notes);
  if (notes.has_errors()) return;
  planned.protocol = std::move(protocol.value);
  // Without a series there is no ball to throw, and no plan of one.
  if (planned.protocol->series.empty()) return;
  PlanRequest request;
  request.today = today();
  request.protocol = &*planned.protocol;
  for (const Panel& panel : planned.panels)
    request.panels.push_back(&panel);
  Checked<TestPlan> made = make_plan(request);
  notes.append(std::move(made.notes));
  planned.plan = std::move(made.value);
}

int write_answer(const ThresholdAnswer& answer, const std::string& format) {
  if (format == "json") return write_output(threshold_json(answer));
  const Document document = compose_threshold(answer);
  if (format == "html") return write_output(render_html(document));
  if (format == "md") return write_output(render_markdown(document));
  return write_output(render_console(document, console_style()));
}

bool gate_closed(const ThresholdAnswer& answer) {
  return answer.next && answer.next->obstacle == NextObstacle::gate_closed;
}

}  // namespace

int run_threshold(const ThresholdOptions& o) {
  SourceSet sources;
  Checked<Specimens> specimens = read_specimens(o.specimens, load_file, sources);
  Diagnostics notes = std::move(specimens.notes);
  Planned planned;
  const std::string protocol =
      o.protocol.empty() && specimens.value ? specimens.value->protocol : o.protocol;
  if (!protocol.empty()) make_plan_of(protocol, o.panels, planned, sources, notes);
  if (protocol.empty() && !o.panels.empty()) {
    write_messages("hailwright: --panel belongs to --protocol\n");
    return exit_usage;
  }
  write_messages(render_diagnostics(notes, sources));
  if (notes.has_errors()) return exit_input;
  const ThresholdAnswer answer =
      answer_threshold(*specimens.value, planned.plan ? &*planned.plan : nullptr);
  const int written = write_answer(answer, o.format);
  if (written != exit_done) return written;
  return gate_closed(answer) ? exit_gate : exit_done;
}

}  // namespace hailwright::cli
