#include "honesty/written_test.hpp"

#include <iterator>
#include <stdexcept>

#include <fmt/format.h>

#include "hailwright/core/contract.hpp"
#include "hailwright/input/readers.hpp"

namespace hailwright::honesty {

namespace {

std::string percent_text(double share) {
  return fmt::format("{:.4f} %", 100.0 * share);
}

std::string label_of(std::size_t panel) {
  return panel == 0 ? "A" : fmt::format("B{}", panel);
}

std::string panel_file(const Errors& stated) {
  return fmt::format("hailwright: panel 1\n"
                     "name: Rigid A\n"
                     "build: {{kind: framed glass}}\n"
                     "temperature: {{power: {{value: {:.6g} %/K, half_width: {:.4f} %/K}}}}\n",
                     100.0 * gamma_per_k, 100.0 * stated.gamma_per_k);
}

std::string tools_text(const Errors& stated) {
  const std::string digits =
      stated.meter_digits > 0.0 ? fmt::format(" + {:.6g} digits", stated.meter_digits) : "";
  return fmt::format("tools:\n"
                     "  meter: {{accuracy: {}{}, step: 0.1 W, between_stages: {}}}\n"
                     "  sun: {{accuracy: {}, step: 1 W/m2, between_stages: {}}}\n"
                     "  thermometer: {{accuracy: {:.4f} degC, each_time: {:.4f} K, where: back}}\n"
                     "  scales: {{accuracy: 0.02 g, step: 0.01 g}}\n",
                     percent_text(stated.meter_gain), digits, percent_text(stated.meter_between),
                     percent_text(stated.sun_gain), percent_text(stated.sun_between),
                     stated.thermometer_k, stated.each_time_k);
}

/// What differs from comparison to comparison.
std::string comparison_text(const Design& design, const Errors& stated) {
  const std::string drift = percent_text(stated.stage);
  switch (design.kind) {
  case Kind::control_beside:
    return "  compare: control-panel\n  meters: 2\n  control_stability: " + drift + "\n";
  case Kind::control_in_turn:
    return "  compare: control-panel\n  meters: 1\n  control_stability: " + drift + "\n";
  case Kind::siblings:
    return "  compare: sibling-panel\n  meters: 1\n";
  case Kind::fitted_trend:
    return "  compare: same-panel\n  trend: fitted\n  stage: " + drift + "\n";
  case Kind::stated_scatter:
    return "  compare: same-panel\n"
           "  readings_independent: the load was taken off before each\n"
           "  setup_scatter: {setting up: " +
           percent_text(stated.setup) + "}\n  stage: " + drift + "\n";
  case Kind::same_panel:
  case Kind::same_panel_days:
  case Kind::with_baseline:
    return "  compare: same-panel\n  stage: " + drift + "\n";
  }
  fail_contract("unknown kind of comparison");
}

std::string protocol_file(const Design& design, const Errors& stated) {
  return "hailwright: protocol 1\n"
         "title: Simulated\n"
         "decide: {limit: 5 %, risk: 2.5 %}\n"
         "series:\n"
         "  - {name: small, grade: IEC 61215 25 mm, places: 2}\n"
         "launch: {kind: sling}\n"
         "speed: {by: each shot, accuracy: 1 %, to_panel: 0 m}\n" +
         tools_text(stated) + "measure:\n" + comparison_text(design, stated) +
         "  maximum_power: sweep\n"
         "  redone: [mount, aim, probe, leads]\n"
         "  day: " +
         percent_text(stated.day) +
         fmt::format("\n  cell_above_back: {{value: {:.6g} K, half_width: {:.4f} K}}\n",
                     cell_above_back_k, stated.cell_k);
}

std::string unstruck_text(const Design& design, const Layout& layout) {
  if (has_control(design)) {
    return fmt::format("control: {{panel: panel.yaml, same_model: yes, label: {}}}\n", label_of(1));
  }
  if (!has_siblings(design)) return "";
  std::string text = "siblings:\n";
  for (std::size_t panel = 1; panel < layout.panels; ++panel)
    text += fmt::format("  - {{label: {}}}\n", label_of(panel));
  return text;
}

std::string dates_text(const Layout& layout) {
  std::string text;
  for (const LaidSetup& s : layout.setups) {
    if (s.date != shot_date) text += fmt::format("  - {{name: {}, date: {}}}\n", s.name, s.date);
  }
  return text.empty() ? text : "setups:\n" + text;
}

std::string record_file(const Design& design, const Layout& layout) {
  return "hailwright: record 1\n"
         "protocol: protocol.yaml\n"
         "panel: panel.yaml\n"
         "label: A\n" +
         unstruck_text(design, layout) +
         fmt::format("day: {{date: {}, air: 20 degC}}\n", shot_date) + dates_text(layout) +
         "tables:\n"
         "  readings: readings.csv\n"
         "  shots: |\n"
         "    series,place,landed,out s,mass g,diameter mm,speed m/s,angle deg\n"
         "    small,1,in,20,7.80,25.2,23.80,0\n"
         "    small,2,in,20,7.80,25.2,23.80,0\n"
         "looks:\n"
         "  - {when: start, saw: nothing}\n"
         "  - {when: after small, saw: nothing}\n"
         "conditions: {clean_and_dry: yes, same_leads: yes, same_tools: yes, pre_exposed: yes,\n"
         "             in_sun_first: 20 min, incidence: 15 deg, since_last_shot: 45 min}\n"
         "incidents: none\n";
}

std::string readings_table(const Layout& layout, const std::vector<Typed>& readings) {
  std::string text = "setup,panel,time,round,power W,sun W/m2,temp degC\n";
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const LaidReading& laid = layout.readings[i];
    fmt::format_to(std::back_inserter(text), "{},{},{:02}:{:02},{},{:.1f},{:.0f},{:.1f}\n",
                   layout.setups[laid.setup].name, label_of(laid.panel), laid.minute / 60,
                   laid.minute % 60, laid.round, readings[i].watts, readings[i].w_per_m2,
                   readings[i].temperature);
  }
  return text;
}

}  // namespace

WrittenTest::WrittenTest(const Design& design, const Layout& layout, const Errors& stated)
    : files_{{"protocol.yaml", protocol_file(design, stated)},
             {"panel.yaml", panel_file(stated)},
             {"record.yaml", record_file(design, layout)}},
      layout_(layout) {}

Test WrittenTest::read(const std::vector<Typed>& readings) const {
  const auto load = [&](const std::string& path, std::size_t) {
    Loaded loaded;
    const auto file = files_.find(path);
    if (path == "readings.csv") {
      loaded.text = readings_table(layout_, readings);
    } else if (file != files_.end()) {
      loaded.text = file->second;
    } else {
      loaded.problem = "is not there";
    }
    return loaded;
  };
  SourceSet sources;
  Checked<Test> checked = read_test("record.yaml", load, sources);
  if (!checked.value) throw std::runtime_error(render_diagnostics(checked.notes, sources));
  return std::move(*checked.value);
}

void put_readings(Test& test, const std::vector<Typed>& readings) {
  expects(test.record.readings.size() == readings.size(), "put_readings: one for each row");
  for (std::size_t i = 0; i < readings.size(); ++i) {
    Reading& r = test.record.readings[i];
    r.power = Power::from_si(readings[i].watts);
    r.irradiance = Irradiance::from_si(readings[i].w_per_m2);
    r.temperature = TemperaturePoint::from_celsius(readings[i].temperature);
  }
}

}  // namespace hailwright::honesty
