#include "hailwright/core/contract.hpp"
#include "hailwright/report/pictures.hpp"
#include "hailwright/report/write_up.hpp"
#include "report/caution_items.hpp"
#include "report/judgement_delivery.hpp"
#include "report/report_sections.hpp"
#include "report/sentences.hpp"

namespace hailwright {

namespace {

void append_record(Document& out, ReportPart& part, const std::string& id) {
  const std::string shown = append_opening(out, part);
  append_questions(out, part);
  part.section(out, "The verdict and its reasons", "verdict");
  out.blocks.push_back(verdict_facts(part.test, part.assessment, part.sources));
  append_about(out, part, id);
  append_item(out, part);
  append_method(out, part);
  const bool hail = !part.protocol.series.empty();
  if (hail) append_ice(out, part);
  if (hail) append_speed(out, part);
  append_mounting(out, part);
  if (hail) append_delivery(out, part, shown);
  append_power(out, part, shown);
  append_looks(out, part);
  append_stresses(out, part);
  append_could_have_seen(out, part);
  append_logs(out, part);
  append_side_measurements(out, part);
  append_left_out(out, part);
  append_opinions(out, part);
  append_safety(out, part);
  append_whereabouts(out, part);
  append_readings(out, part);
}

/// Several records at one glance, before each has its say.
void append_side_by_side(Document& out, const WriteUp& write_up,
                         const std::vector<ReportPart>& parts) {
  std::vector<Figure> pictures = side_by_side_pictures(write_up.judged);
  const std::string shown = append_opening_of_several(out, parts, pictures);
  out.blocks.push_back(Heading{1, plain("Side by side"), "side-by-side"});
  for (Figure& figure : pictures) {
    if (figure.id != shown) out.blocks.push_back(std::move(figure));
  }
  for (const DataTable& table : report_tables(write_up)) {
    if (table.name == "comparison") out.blocks.push_back(to_table(table));
  }
}

}  // namespace

Document compose_report(const WriteUp& write_up) {
  expects(!write_up.judged.empty() && write_up.sources != nullptr, "judged records");
  const bool several = write_up.judged.size() > 1;
  const std::string id = report_id(write_up);
  std::vector<ReportPart> parts = parts_of(write_up);
  Document out;
  out.title = report_title(write_up);
  out.foot = "Report " + id + ". A home test, not a certification test.";
  if (several) append_side_by_side(out, write_up, parts);
  for (ReportPart& part : parts) {
    if (several) {
      out.blocks.push_back(PageBreak{});
      out.blocks.push_back(Heading{1, plain(part.record.title), "record" + part.suffix});
    }
    append_record(out, part, id);
  }
  // What stands for all records stands on the level of one.
  const int level = several ? 1 : 2;
  append_cautions(out, cautions_of(write_up.judged), level, Audience::reader);
  append_judge_again(out, write_up, level);
  append_rests_on(out, write_up, level);
  out.blocks.push_back(Paragraph{plain(std::string(closing_sentence(write_up.judged)))});
  out.blocks.push_back(Paragraph{{{"End of report " + id + ".", Tone::strong}}});
  return out;
}

}  // namespace hailwright
