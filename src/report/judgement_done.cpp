#include "report/judgement_done.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/quantity_text.hpp"
#include "report/sentences.hpp"
#include "report/skipped_readings.hpp"
#include "report/words.hpp"

namespace hailwright {

std::string or_unstated(const std::string& text) {
  return text.empty() ? "not stated" : text;
}

std::string bought_by_text(const Record& record) {
  if (record.disclosure && !record.disclosure->bought_by.empty())
    return record.disclosure->bought_by;
  const auto& came = record.panel.came;
  if (came && !came->bought_by.empty()) return came->bought_by + " (by the file of the panel)";
  return or_unstated("");
}

void add_fact(Facts& facts, std::string label, std::vector<std::string> lines) {
  if (lines.empty()) return;
  Fact fact{std::move(label), {}};
  for (std::string& line : lines)
    fact.lines.push_back(plain(std::move(line)));
  facts.items.push_back(std::move(fact));
}

namespace {

std::string assumed_line(const AssumedEffect& e, Audience audience) {
  const DefaultRow& row = default_row(e.id);
  std::string adds;
  if (e.on_loss) {
    adds = fmt::format("; adds {} points to u of the loss", fixed(e.on_loss->points(), 2));
  } else if (e.on_energy) {
    adds = fmt::format("; adds {} to u of an energy", percent_text(*e.on_energy));
  }
  std::string line = fmt::format("{}: {}{}", row.what, row.taken, adds);
  if (audience == Audience::reviewer) line += fmt::format(". Write instead: {}", row.replace);
  return line;
}

}  // namespace

void append_assumed(Document& out, const Assessment& a, Audience audience) {
  std::vector<AssumedEffect> sorted = a.assumed;
  // By what is printed: of errors that cancel only rounding is left, which must not order them.
  const auto hundredths = [](const AssumedEffect& e) {
    return e.on_loss ? std::round(100.0 * e.on_loss->points()) : -1.0;
  };
  std::stable_sort(sorted.begin(), sorted.end(),
                   [&](const auto& x, const auto& y) { return hundredths(x) > hundredths(y); });
  Bullets list;
  for (const AssumedEffect& e : sorted)
    list.items.push_back(plain(assumed_line(e, audience)));
  out.blocks.push_back(std::move(list));
  out.blocks.push_back(Paragraph{
      plain("u is the standard uncertainty, points are percentage points. Where nothing is added, "
            "the value decides how an answer is read.")});
}

std::vector<std::string> skipped_lines(const Test& test, const SourceSet& sources) {
  const Record& record = test.record;
  const std::vector<bool> from_log = setups_from_logs(record);
  std::vector<std::string> lines;
  for (const Reading& reading : record.readings) {
    if (reading.skip.empty() || from_log[reading.setup]) continue;
    lines.push_back(fmt::format(
        "reading of {}, '{}': {}{}",
        (reading.role == Role::sibling ? "" : "the ") + panel_text(reading, record),
        record.setups[reading.setup].name, reading.skip, place_text(sources, reading.origin)));
  }
  for (const SkippedReadings& skipped : skipped_of_logs(record)) {
    lines.push_back(fmt::format("{}: {} of the log, {}", record.setups[skipped.setup].name,
                                counted(skipped.count, "reading"), skipped.reason));
  }
  return lines;
}

}  // namespace hailwright
