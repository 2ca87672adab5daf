// What was delivered, what changed, what was seen and what could have been.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "hailwright/report/pictures.hpp"
#include "report/judged_stages.hpp"
#include "report/judgement_bracket.hpp"
#include "report/judgement_delivery.hpp"
#include "report/judgement_done.hpp"
#include "report/judgement_looks.hpp"
#include "report/judgement_power.hpp"
#include "report/report_sections.hpp"
#include "report/sentences.hpp"
#include "report/tool_words.hpp"

namespace hailwright {

namespace {

/// Rows that a page shows of the readings; more stand in the file alone [ours].
constexpr std::size_t most_readings_shown = 400;

/// A picture, unless it is the one at the top.
void append_picture(Document& out, std::optional<Figure> picture, const std::string& shown) {
  if (!picture) return;
  if (picture->id == shown) return;
  out.blocks.push_back(std::move(*picture));
}

}  // namespace

void append_delivery(Document& out, ReportPart& part, const std::string& shown) {
  part.section(out, "What was delivered", "delivered");
  out.blocks.push_back(delivery_facts(part.test, part.assessment));
  append_picture(out, hit_map(part.judged, part.suffix), shown);
  for (Figure& figure : energy_pictures(part.judged, part.suffix))
    out.blocks.push_back(std::move(figure));
  part.append_table(out, "places");
  part.append_table(out, "shots");
  for (const Shot& shot : part.record.shots)
    part.append_photo(out, shot.photo);
}

namespace {

void add_instruments(Facts& facts, const Tools& tools, const std::string& when) {
  add_fact(facts, "power meter" + when, {tool_text(tools.meter, "W")});
  add_fact(facts, "sun meter" + when, {tool_text(tools.sun, "W/m2")});
  add_fact(facts, "thermometer" + when, {thermometer_text(tools.thermometer)});
}

/// Only those that the record calls others: the rest of `tools_after` is empty.
void add_other_instruments(Facts& facts, const Tools& after) {
  Facts all;
  add_instruments(all, after, " after the shots");
  const std::array<bool, 3> other{after.meter.origin.line > 0, after.sun.origin.line > 0,
                                  after.thermometer.origin.line > 0};
  for (std::size_t i = 0; i < all.items.size(); ++i) {
    if (other[i]) facts.items.push_back(std::move(all.items[i]));
  }
}

void append_uncertainty(Document& out, const ReportPart& part) {
  std::vector<const PowerResult*> powers = all_stages(part.assessment);
  std::erase_if(powers, [](const PowerResult* p) {
    return !p->estimated() || p->stage.kind == StageKind::later;
  });
  if (powers.empty()) return;
  part.section(out, "Where the uncertainty comes from", "uncertainty");
  for (const PowerResult* stage : powers) {
    const PowerResult& p = *stage;
    if (auto picture = budget_picture(part.judged, p, part.suffix))
      out.blocks.push_back(std::move(*picture));
    out.blocks.push_back(Paragraph{
        plain((powers.size() > 1 ? stage_text(p.stage, part.test) + ": " : "") + freedom_line(p))});
  }
  part.append_table(out, "budget");
}

}  // namespace

void append_power(Document& out, const ReportPart& part, const std::string& shown) {
  part.section(out, "Power", "power");
  Facts facts = power_facts(part.judged, part.sources);
  if (facts.items.empty()) {
    add_fact(facts, "power",
             {part.protocol.decide.judges_power
                  ? part.protocol.series.empty()
                        ? "not compared: there are no readings after what was done"
                        : "not compared: there are no readings after the shots"
                  : "not judged: the protocol judges by looks alone"});
  }
  if (!part.record.readings.empty()) {
    add_instruments(facts, part.protocol.tools, "");
    if (part.record.tools_after) add_other_instruments(facts, *part.record.tools_after);
  }
  out.blocks.push_back(std::move(facts));
  append_picture(out, loss_picture(part.judged, part.suffix), shown);
  for (const PowerResult* p : all_stages(part.assessment)) {
    if (auto picture = power_picture(part.judged, *p, part.suffix))
      out.blocks.push_back(std::move(*picture));
  }
  part.append_table(out, "set-ups");
  append_uncertainty(out, part);
}

void append_looks(Document& out, ReportPart& part) {
  part.section(out, "What was seen", "seen");
  Facts facts;
  add_fact(facts, "looks", look_lines(part.test, part.assessment));
  add_fact(facts, "where damage began", bracket_sentences(part.test, part.assessment));
  out.blocks.push_back(std::move(facts));
  for (const Look& look : part.record.looks) {
    for (const Finding& finding : look.saw)
      part.append_photo(out, finding.photo);
    for (const std::string& photo : look.photos)
      part.append_photo(out, photo);
  }
}

void append_could_have_seen(Document& out, const ReportPart& part) {
  Facts facts;
  append_detection_facts(facts, part.assessment, part.test);
  append_evidence_facts(facts, part.assessment, part.test);
  if (facts.items.empty()) return;
  part.section(out, "What this test could have seen", "could-have-seen");
  out.blocks.push_back(std::move(facts));
}

void append_readings(Document& out, const ReportPart& part) {
  if (part.record.readings.empty()) return;
  part.section(out, "Readings", "readings");
  part.append_table(out, "readings", most_readings_shown);
}

}  // namespace hailwright
