// Protocols with a panel, as `hailwright plan` reads them; also panels, column maps and files of
// specimens by themselves, as `hailwright check` does. An input is one file, or a protocol with a
// part `--- panel.yaml`.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "hailwright/input/readers.hpp"
#include "hailwright/plan/test_plan.hpp"
#include "hailwright/report/compose_plan.hpp"
#include "hailwright/report/compose_threshold.hpp"
#include "hailwright/report/render.hpp"
#include "hailwright/safety/stress_gate.hpp"
#include "named_parts.hpp"

namespace {

using namespace hailwright;  // NOLINT(google-build-using-namespace): one file, one program
using fuzzing::NamedParts;

constexpr std::string_view usual_panel = R"(hailwright: panel 1
name: Rigid A
build: {kind: framed glass, glass: 3.2 mm}
rated: {power: 100 W, open_voltage: 22.1 V, short_current: 5.9 A}
size: 1020 x 510 x 35 mm
)";

constexpr const char* day_of_plan = "2026-06-12";
/// A plan reckons deliveries for half a second.
constexpr unsigned plans_in = 24;

/// Messages of both gates, and the dangers of launcher and panel as far as they are on paper.
void ask_gates(const Protocol& protocol, const std::optional<Panel>& panel,
               const SourceSet& sources) {
  PlanDangers dangers;
  dangers.launcher = protocol.launch.kind;
  dangers.muzzle_energy = Energy::from_si(9.0);
  dangers.per_area = EnergyPerArea::from_si(9000.0);
  dangers.no_air_reach = Length::from_si(60.0);
  dangers.launch_origin = protocol.launch.origin;
  fuzzing::say(gate_messages(Gate::ask(protocol.safety, dangers, day_of_plan)), sources);
  for (const Caution* caution : plan_hazards(dangers, protocol.safety))
    static_cast<void>(plan_figure(*caution, dangers, protocol.safety));
  const std::span<const Panel> panels =
      panel ? std::span<const Panel>(&*panel, 1) : std::span<const Panel>();
  fuzzing::say(stress_gate_messages(StressGate::ask(protocol, panels, day_of_plan)), sources);
}

/// A thousand set-ups of a thousand readings, or sixty series, are reckoned for seconds.
bool is_quick(const Protocol& protocol) {
  const int setups = protocol.measure.before.value_or(1) + protocol.measure.after.value_or(1);
  return protocol.series.size() <= 4 && setups * protocol.measure.readings.value_or(1) <= 2000;
}

void plan(const Protocol& protocol, const Panel& panel, const SourceSet& sources) {
  PlanRequest request;
  request.today = day_of_plan;
  request.protocol = &protocol;
  request.panels = {&panel};
  const Checked<TestPlan> made = make_plan(request);
  fuzzing::say(made.notes, sources);
  if (!made.value) return;
  const Document document = compose_plan(*made.value);
  static_cast<void>(render_console(document, {}));
  static_cast<void>(render_html(document));
  static_cast<void>(render_markdown(document));
  static_cast<void>(plan_json(*made.value));
}

void plan_specimens(const NamedParts& parts, SourceSet& sources) {
  const Checked<Specimens> specimens = read_specimens(parts.main_name(), parts.loader(), sources);
  fuzzing::say(specimens.notes, sources);
  if (!specimens.value) return;
  const ThresholdAnswer answer = answer_threshold(*specimens.value, nullptr);
  static_cast<void>(render_html(compose_threshold(answer)));
  static_cast<void>(threshold_json(answer));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view input = fuzzing::text_of(data, size);
  NamedParts parts(input, "protocol.yaml");
  parts.add_unless_there("panel.yaml", usual_panel);
  SourceSet sources;
  if (parts.main_text().find("hailwright: specimens") != std::string::npos) {
    plan_specimens(parts, sources);
    return 0;
  }
  if (parts.main_text().find("hailwright: protocol") == std::string::npos) {
    fuzzing::say(check_file(parts.main_name(), parts.loader(), sources, parts.log_opener()),
                 sources);
    return 0;
  }
  const Checked<Protocol> protocol = read_protocol(parts.main_name(), parts.loader(), sources);
  fuzzing::say(protocol.notes, sources);
  fuzzing::require(protocol.value.has_value() != protocol.notes.has_errors(),
                   "a protocol, or errors");
  const Checked<Panel> panel = read_panel("panel.yaml", parts.loader(), sources);
  fuzzing::say(panel.notes, sources);
  fuzzing::require(panel.value.has_value() != panel.notes.has_errors(), "a panel, or errors");
  if (!protocol.value) return 0;
  ask_gates(*protocol.value, panel.value, sources);
  if (panel.value && is_quick(*protocol.value) && fuzzing::one_in(plans_in, input))
    plan(*protocol.value, *panel.value, sources);
  return 0;
}
