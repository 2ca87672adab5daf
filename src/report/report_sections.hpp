#pragma once

#include <string>
#include <vector>

#include "report/report_part.hpp"

// The sections of a report, in the order of the checklist for one reviewer that follows ISO/IEC
// 17025:2017, 7.8 (read in a reproduction, muhaz.org, pages 42 and 46).

namespace hailwright {

/// What a reader sees first. @return the id of its picture, empty where it has none.
std::string append_opening(Document& out, const ReportPart& part);

/// The same for several records together: what became of each, before each has a section of its
/// own.
std::string append_opening_of_several(Document& out, const std::vector<ReportPart>& parts,
                                      const std::vector<Figure>& pictures);

/// What readers ask, each with a short answer made from the assessment.
void append_questions(Document& out, const ReportPart& part);

/// @param id  of the report
void append_about(Document& out, const ReportPart& part, const std::string& id);
void append_item(Document& out, const ReportPart& part);
void append_method(Document& out, const ReportPart& part);

void append_ice(Document& out, const ReportPart& part);
void append_speed(Document& out, const ReportPart& part);
void append_mounting(Document& out, ReportPart& part);

/// @param shown_picture  id of the picture at the top, which is not repeated
void append_delivery(Document& out, ReportPart& part, const std::string& shown_picture);
void append_power(Document& out, const ReportPart& part, const std::string& shown_picture);
void append_looks(Document& out, ReportPart& part);
void append_could_have_seen(Document& out, const ReportPart& part);
/// Readings and sessions that stand in logs.
void append_logs(Document& out, const ReportPart& part);

/// Stresses other than hail.
void append_stresses(Document& out, const ReportPart& part);
/// What the loss looks like.
void append_pattern(Document& out, const ReportPart& part);
/// What the loss looks like, shades, sessions by meter.
void append_side_measurements(Document& out, const ReportPart& part);

void append_left_out(Document& out, const ReportPart& part);
void append_opinions(Document& out, const ReportPart& part);
void append_safety(Document& out, const ReportPart& part);
void append_whereabouts(Document& out, const ReportPart& part);
void append_readings(Document& out, const ReportPart& part);

/// Inputs with their checksums, and the line that judges them again.
void append_judge_again(Document& out, const WriteUp& write_up, int level);
/// Every document that the numbers rest on.
void append_rests_on(Document& out, const WriteUp& write_up, int level);

/// The sources that numbers of the judged records rest on, in the order of `hailwright sources`:
/// grades aimed at, hailstones, the list of things seen, methods. Cautions and defaults name their
/// own.
std::vector<const Citation*> sources_used(const std::vector<Judged>& judged);

/// Title of a report: "Hail test: Rigid A".
std::string report_title(const WriteUp& write_up);

/// What was compared with what: "the panel after the shots with itself before them".
std::string comparison_text(const Test& test);

/// Risk of each wrong statement: as the protocol states it, else the default.
Ratio risk_of(const DecisionRule& rule);

}  // namespace hailwright
