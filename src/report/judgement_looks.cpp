#include "report/judgement_looks.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "hailwright/core/calendar.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

bool looked_at_start(const Record& record) {
  return std::any_of(record.looks.begin(), record.looks.end(),
                     [](const Look& l) { return l.start; });
}

/// Whether a thing seen is new, and whether it counts.
std::string standing_text(const Finding& f, std::size_t look, const Record& record,
                          const Assessment& a) {
  const auto found = std::find_if(a.new_findings.begin(), a.new_findings.end(),
                                  [&](const NewFinding& n) { return n.finding == &f; });
  if (found == a.new_findings.end()) {
    return record.looks[look].start ? "there from the start" : "seen before";
  }
  if (!found->major && found->undecided) {
    return "it cannot be told whether it is a new major defect";
  }
  return fmt::format("{}{}", looked_at_start(record) ? "new, " : "whether it is new is not known; ",
                     found->major ? "a major defect" : "not a major defect");
}

}  // namespace

std::string finding_text(const Finding& f, std::size_t look, const Record& record,
                         const Assessment& a) {
  return fmt::format("{} ({}; {})", f.kind->word, f.where, standing_text(f, look, record, a));
}

std::string look_moment(const Look& look, const Test& test) {
  if (look.start) return test.protocol.series.empty() ? "at the start" : "before the shots";
  if (look.after_stress) return "after " + test.protocol.stresses[*look.after_stress].name;
  if (test.protocol.series.empty()) return "at the end";
  const std::string& series = test.protocol.series[look.after].name;
  if (look.after_throw) return fmt::format("after throw {} ({})", *look.after_throw, series);
  return "after " + series;
}

std::string look_day(const Look& look, const Record& record) {
  if (look.date.empty() || look.date == record.date) return "";
  if (look.after_stress) return look.date;
  const auto day = day_number(look.date);
  const auto shots = day_number(record.date);
  if (!day || !shots || *day < *shots) return look.date;
  return fmt::format("{}, {} after the shots", look.date,
                     counted(static_cast<int>(*day - *shots), "day"));
}

std::string look_line(const Test& test, const Assessment& a, std::size_t look) {
  const Record& record = test.record;
  const Look& l = record.looks.at(look);
  std::vector<std::string> things;
  for (const Finding& f : l.saw)
    things.push_back(finding_text(f, look, record, a));
  const std::string day = look_day(l, record);
  return fmt::format("{}{}: {}", look_moment(l, test), day.empty() ? "" : ", " + day,
                     things.empty() ? "nothing seen" : enumerate(things));
}

std::vector<std::string> look_lines(const Test& test, const Assessment& a) {
  if (test.record.looks.empty()) return {"nobody looked"};
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < test.record.looks.size(); ++i)
    lines.push_back(look_line(test, a, i));
  return lines;
}

}  // namespace hailwright
