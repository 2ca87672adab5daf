#include "hailwright/report/compose_plan.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "hailwright/core/quantity_text.hpp"
#include "report/caution_items.hpp"
#include "report/plan_launch.hpp"
#include "report/plan_measuring.hpp"
#include "report/plan_sentences.hpp"
#include "report/plan_stresses.hpp"
#include "report/plan_timetable.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

/// A free choice is named by its size alone: the speed of its label would set a launcher.
std::string outlook_target(const Target& target) {
  if (target.grade != nullptr) return target_text(target);
  return fmt::format("a ball of {} of your own choice", in_unit(target.diameter, "mm", 1));
}

class PlanWriter {
public:
  PlanWriter(const TestPlan& plan, bool with_field_sheets, Document& out)
      : plan_(plan), protocol_(*plan.protocol), with_field_sheets_(with_field_sheets), out_(out) {}

  void write() {
    out_.title = protocol_.title;
    out_.foot = hail() ? std::string(shortest_caution()) : stress_foot(protocol_);
    out_.blocks.push_back(Paragraph{plain(fmt::format("Test plan of {}", plan_.today))});
    dangers();
    gate();
    append_measuring_outlook(plan_, out_);
    if (hail()) delivery();
    if (hail()) {
      ice_and_time();
    } else {
      heading("Time");
      append_timetable(plan_, out_);
    }
    append_stress_plan(plan_, out_);
    assumed();
    cautions();
    if (plan_.sheet) append_launch(plan_, *plan_.sheet, out_);
    planned_line();
    out_.blocks.push_back(Paragraph{plain(std::string(closing_sentence(protocol_)))});
    if (plan_.sheet && with_field_sheets_) append_field_sheets(plan_, *plan_.sheet, out_);
    if (plan_.stress_sheet && with_field_sheets_) append_stress_field_sheets(plan_, out_);
  }

private:
  [[nodiscard]] bool hail() const { return !protocol_.series.empty(); }

  void heading(const char* text) { out_.blocks.push_back(Heading{1, plain(text)}); }

  static void fact(Facts& facts, std::string label, std::vector<std::string> lines) {
    Fact f{std::move(label), {}};
    for (std::string& line : lines)
      f.lines.push_back(plain(std::move(line)));
    if (!f.lines.empty()) facts.items.push_back(std::move(f));
  }

  void dangers() {
    heading("What can hurt");
    const PlanOutlook& o = plan_.outlook;
    Facts facts;
    if (hail()) {
      fact(facts, "a miss", {miss_sentence(o.miss)});
      fact(facts, "a hit", {energy_sentence(o.dangers.muzzle_energy, o.miss)});
    }
    for (const StressPlan& stress : protocol_.stresses)
      fact(facts, stress.name, {std::string(stress.kind->cautions.front().hazard)});
    std::vector<std::string> voltages;
    for (const PanelOutlook& p : o.panels) {
      voltages.push_back(p.cold_voltage
                             ? fmt::format("{}: up to {} when cold and bright", p.panel->name,
                                           in_unit(*p.cold_voltage, "V", 1))
                             : fmt::format("{}: open-circuit voltage not stated in the panel file",
                                           p.panel->name));
    }
    fact(facts, "voltage", std::move(voltages));
    out_.blocks.push_back(std::move(facts));
  }

  /// Each with the plan's own figure behind it.
  void cautions() {
    heading("Cautions");
    CautionList list;
    for (const Caution* c : plan_.outlook.hazards) {
      CautionItem item = caution_item(*c);
      const std::string figure =
          hail() ? plan_figure(*c, plan_.outlook.dangers, protocol_.safety) : "";
      if (!figure.empty()) item.text += " This plan: " + figure + ".";
      list.items.push_back(std::move(item));
    }
    out_.blocks.push_back(std::move(list));
  }

  void gate() {
    const std::vector<std::string> refused = stress_refusals(plan_.stress_gate);
    if (!plan_.gate.refusals.empty() || !refused.empty()) return refusal(refused);
    if (!plan_.gate.findings.empty() || !plan_.stress_gate.findings.empty()) return questions();
    if (hail() && !plan_.sheet && !plan_.estimate_only) {
      heading("Not printed");
      out_.blocks.push_back(Paragraph{plain("No launch figures: what is needed is faster than the "
                                            "launcher's stated fastest speed.")});
    }
    if (plan_.estimate_only) {
      heading("Estimate only");
      out_.blocks.push_back(Paragraph{
          plain(hail() ? "Launch figures, aim maps and field sheets are left out, as asked."
                       : "What to make ready and the field sheets are left out, as "
                         "asked.")});
    }
  }

  void refusal(const std::vector<std::string>& of_stresses) {
    heading("This plan is refused");
    Bullets list;
    for (const RefusalFinding& r : plan_.gate.refusals)
      list.items.push_back({{refusal_sentence(r), Tone::strong}});
    for (const std::string& line : of_stresses)
      list.items.push_back({{line, Tone::strong}});
    out_.blocks.push_back(std::move(list));
    out_.blocks.push_back(Paragraph{
        plain(hail() ? "No answer changes that. Nothing that helps to launch is printed."
                     : "No answer under `safety:` changes that. Nothing that helps to do it is "
                       "printed.")});
  }

  void questions() {
    const GateResult& g = plan_.gate;
    heading("Not printed yet");
    out_.blocks.push_back(
        Paragraph{plain(hail() ? "Launch figures, aim maps and field sheets come when the safety "
                                 "section of the protocol answers what this plan asks:"
                               : "What to make ready and the field sheets come when the protocol "
                                 "answers what this plan asks:")});
    Bullets list;
    for (const GateFinding& f : g.findings)
      if (f.fault != AnswerFault::missing) list.items.push_back(plain(finding_sentence(f)));
    const auto missing = g.findings.size() - list.items.size();
    if (missing > 0) {
      list.items.push_back(
          plain(fmt::format("{} not answered", counted(static_cast<int>(missing), "question"))));
    }
    for (const std::string& line : stress_findings(plan_.stress_gate))
      list.items.push_back(plain(line));
    out_.blocks.push_back(std::move(list));
    std::vector<std::string> snippet = stress_snippet(plan_);
    snippet.insert(snippet.end(), g.snippet.begin(), g.snippet.end());
    if (!snippet.empty()) {
      out_.blocks.push_back(Paragraph{plain("Fill this in, truthfully, in the protocol file:")});
      out_.blocks.push_back(Snippet{std::move(snippet)});
    }
  }

  void delivery() {
    heading("Will the grade be reached?");
    Facts facts;
    for (const SeriesOutlook& s : plan_.outlook.series) {
      const SeriesPlan& series = protocol_.series[s.series];
      std::vector<std::string> lines{
          fmt::format("{} ({}), {} J, {} on each panel within {} of their middle",
                      outlook_target(series.target), tolerance_text(s, series.target),
                      fixed(s.nominal.si(), 2),
                      counted(static_cast<int>(series.places.size()), "place"),
                      in_unit(s.place_radius, "mm", 0)),
          reach_sentence(s)};
      if (s.trials > 0) lines.push_back(fmt::format("{} planned", counted(s.trials, "trial shot")));
      if (s.drop) lines.push_back(drop_sentence(*s.drop, s));
      fact(facts, series.name, std::move(lines));
    }
    fact(facts, "all together",
         {fmt::format("all series on all panels: {}, if every ball lands in its place",
                      whole_percent(plan_.outlook.chance_of_all))});
    out_.blocks.push_back(std::move(facts));
  }

  static std::vector<std::string> ice_lines(const SeriesOutlook& s) {
    std::vector<std::string> lines;
    if (s.balls) {
      std::string text = fmt::format("freeze {} for {} (9 times in 10 they suffice)",
                                     counted(*s.balls, "ball"), counted(s.wanted, "hit"));
      if (s.trial_balls > 0) text += fmt::format(", and {} for the trials", s.trial_balls);
      if (s.nights) text += fmt::format(": {} in your moulds", counted(*s.nights, "night"));
      lines.push_back(std::move(text));
    }
    if (s.ice != IceObstacle::none) lines.push_back(ice_sentence(s));
    if (s.freezing) {
      lines.push_back(fmt::format("freezing through takes {} to {} h",
                                  fixed(s.freezing->shortest.si() / 3600.0, 0),
                                  fixed(s.freezing->longest.si() / 3600.0, 0)));
    }
    return lines;
  }

  void ice_and_time() {
    heading("Ice and time");
    Facts facts;
    for (const SeriesOutlook& s : plan_.outlook.series)
      fact(facts, protocol_.series[s.series].name, ice_lines(s));
    out_.blocks.push_back(std::move(facts));
    append_timetable(plan_, out_);
  }

  void assumed() {
    const std::vector<DefaultId> used = plan_.outlook.assumptions.used();
    if (used.empty()) return;
    heading("Assumed for you");
    Bullets list;
    for (const DefaultId id : used) {
      const DefaultRow& row = default_row(id);
      list.items.push_back(
          plain(fmt::format("{}: {}. Write instead: {}", row.what, row.taken, row.replace)));
    }
    out_.blocks.push_back(std::move(list));
  }

  void planned_line() {
    if (!plan_.cleared()) return;
    heading("Keep this");
    out_.blocks.push_back(Paragraph{plain(
        "Copy this line into each record, so that it can be seen later that the rules were set "
        "before the test:")});
    out_.blocks.push_back(
        Snippet{{fmt::format("planned: {} {}", plan_.today, text(protocol_.mark))}});
  }

  const TestPlan& plan_;
  const Protocol& protocol_;
  bool with_field_sheets_;
  Document& out_;
};

}  // namespace

Document compose_plan(const TestPlan& plan, bool with_field_sheets) {
  Document out;
  PlanWriter(plan, with_field_sheets, out).write();
  return out;
}

}  // namespace hailwright
