// Measured beside the test: nothing of it decides a verdict.
#include "report/judgement_energy.hpp"
#include "report/judgement_shading.hpp"
#include "report/report_sections.hpp"

namespace hailwright {

namespace {

void append_shading(Document& out, const ReportPart& part) {
  Facts facts = shading_facts(part.test, part.assessment, part.sources);
  if (facts.items.empty()) return;
  part.section(out, "In partial shade", "shade");
  out.blocks.push_back(Paragraph{plain("Nothing is judged by it.")});
  out.blocks.push_back(std::move(facts));
  part.append_table(out, "shading");
}

void append_meter_sessions(Document& out, const ReportPart& part) {
  Facts facts = energy_facts(part.test, part.assessment, part.sources);
  if (facts.items.empty()) return;
  part.section(out, "Sessions by meter", "meters");
  out.blocks.push_back(Paragraph{plain("Nothing is judged by them.")});
  out.blocks.push_back(std::move(facts));
  part.append_table(out, "meter-sessions");
}

}  // namespace

void append_side_measurements(Document& out, const ReportPart& part) {
  append_pattern(out, part);
  append_shading(out, part);
  append_meter_sessions(out, part);
}

}  // namespace hailwright
