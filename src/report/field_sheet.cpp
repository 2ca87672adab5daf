#include "hailwright/report/field_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "hailwright/core/contract.hpp"
#include "hailwright/model/findings.hpp"
#include "hailwright/safety/cautions.hpp"

namespace hailwright {

namespace {

// How much room a sheet leaves [ours].
constexpr int spare_readings = 1;
constexpr int spare_throws = 4;
constexpr int ball_rows = 2;    // of a series
constexpr int trial_rows = 10;  // of a setting; five trials at least support a grade (M13)
constexpr int look_rows = 3;    // of one moment

using Row = std::vector<std::string>;

std::vector<Column> columns(std::initializer_list<const char*> titles) {
  std::vector<Column> made;
  for (const char* title : titles)
    made.push_back({title, Align::left});
  return made;
}

void add_columns(std::vector<Column>& to, const std::vector<std::string>& titles) {
  for (const std::string& title : titles)
    to.push_back({title, Align::left});
}

/// A row with this in its first cells and the others empty.
Row row_with(std::vector<std::string> first, std::size_t cells) {
  first.resize(cells);
  return first;
}

Table form(std::string caption, std::vector<Column> titles) {
  return {std::move(caption), std::move(titles), {}, true};
}

void add_rows(Table& table, const std::vector<std::string>& first, int count) {
  for (int i = 0; i < count; ++i)
    table.rows.push_back(row_with(first, table.columns.size()));
}

/// A part of the sheets. Sheets lie about loose: each part names its panel.
void add_title(const FieldSheet& sheet, const std::string& title, Document& out) {
  out.blocks.push_back(Heading{2, plain(sheet.panel + ": " + title)});
}

/// The same, on paper of its own.
void begin_part(const FieldSheet& sheet, const std::string& title, Document& out) {
  out.blocks.push_back(PageBreak{});
  add_title(sheet, title, out);
}

void say(Document& out, const std::string& text) {
  out.blocks.push_back(Paragraph{plain(text)});
}

Checklist checklist(std::initializer_list<const char*> items) {
  Checklist list;
  for (const char* item : items)
    list.items.push_back(plain(item));
  return list;
}

void add_fact(Facts& facts, const char* label, const std::string& text) {
  if (!text.empty()) facts.items.push_back({label, {plain(text)}});
}

void append_front(const Clearance& clearance, const FieldSheet& sheet, Document& out) {
  out.blocks.push_back(Heading{1, plain(sheet.panel)});
  Facts facts;
  add_fact(facts, "test", sheet.test_title);
  add_fact(facts, "planned", sheet.fingerprint);
  add_fact(facts, "safety answers",
           fmt::format("by {} on {}", clearance.agreed_by(), clearance.agreed_on()));
  out.blocks.push_back(std::move(facts));
  Table day = form("The day", columns({"date", "air degC", "panel degC at the shots",
                                       "at the launcher", "lookout", "weather"}));
  add_rows(day, {}, 1);
  out.blocks.push_back(std::move(day));
  add_title(sheet, "before the first ball", out);
  out.blocks.push_back(checklist(
      {"everybody here has read the cautions below",
       "eye protection is on, as the safety answers say, wherever a ball or a chip could reach",
       "the lookout sees the ground ahead, does nothing else, calls all-clear before each ball",
       "the backstop hangs, its sides are closed, nobody and nothing to lose is behind it",
       "the launcher has been looked over and stays unloaded until the first all-clear",
       "a telephone and first aid are at hand, and somebody besides the one at the launcher",
       "the panel is covered while its leads are unplugged; leads capped, load off",
       "the panel sits in its mount as the record will say",
       "looked at front and back, in raking light too, photographs taken (look: start)",
       "balls weighed and measured, and back in the freezer until each is thrown"}));
  add_title(sheet, "cautions", out);
  CautionList cautions{sheet.cautions};
  for (CautionItem& item : cautions.items)
    item.source.clear();  // room on paper; hailwright sources has them
  out.blocks.push_back(std::move(cautions));
  say(out, "Where each of them comes from: hailwright sources.");
}

Table readings_form(const FieldSheet& sheet, const std::string& setup) {
  Table table = form("readings, setup " + setup,
                     columns({"time", "panel", "power W", "sun W/m2", "temp degC", "skip"}));
  for (const std::string& label : sheet.reading_order)
    add_rows(table, {"", label}, 1);
  const int panels = 1 + (sheet.control ? 1 : 0) + static_cast<int>(sheet.siblings.size());
  if (sheet.reading_order.empty()) add_rows(table, {}, std::max(sheet.readings, 1) * panels);
  add_rows(table, {}, spare_readings);
  return table;
}

/// What a set-up is, and which panel is which.
std::string setup_text(const FieldSheet& sheet) {
  constexpr const char* rest =
      "Tick what was done anew. A reading that does not count stays, with the reason under skip.";
  if (sheet.siblings.empty()) {
    return fmt::format("A set-up is the panel taken down, put up, aimed and plugged in again, and "
                       "then read. {}",
                       rest);
  }
  std::string labels;
  for (const std::string& letter : sheet.siblings)
    labels += (labels.empty() ? "" : ", ") + fmt::format("{{label: {}}}", letter);
  return fmt::format("A set-up is all panels taken down, put up, aimed and plugged in again, and "
                     "then read in turn. {0} {1} is the struck panel, the other letters are "
                     "unstruck units of its model. In the record: label: {1}, siblings: [{2}].",
                     rest, sheet.label, labels);
}

void append_setups(const FieldSheet& sheet, const char* stage, int count, const char* title,
                   Document& out) {
  if (count < 1) return;
  begin_part(sheet, title, out);
  say(out, setup_text(sheet));
  Table redone = form(
      "set-ups", columns({"setup", "date", "mount", "aim", "probe", "leads", "battery %", "note"}));
  for (int i = 1; i <= count; ++i)
    add_rows(redone, {fmt::format("{} {}", stage, i)}, 1);
  out.blocks.push_back(std::move(redone));
  for (int i = 1; i <= count; ++i)
    out.blocks.push_back(readings_form(sheet, fmt::format("{} {}", stage, i)));
}

void append_aim(const FieldSheet& sheet, Document& out) {
  begin_part(sheet, "where to aim", out);
  if (sheet.aim_map.svg.empty()) {
    say(out, "No aim map: the panel file gives no size.");
  } else {
    out.blocks.push_back(sheet.aim_map);
  }
}

void append_balls(const FieldSheet& sheet, Document& out) {
  add_title(sheet, "balls", out);
  Table wanted{
      "What they should be", columns({"kind", "ball", "mass", "diameter", "to take along"}), {}};
  Table table = form("balls", columns({"kind", "count", "together g", "mass g", "diameter mm",
                                       "diameter mm", "diameter mm", "note"}));
  for (const FieldSheetSeries& series : sheet.series) {
    wanted.rows.push_back({series.name, series.ball, series.mass_window, series.diameter_window,
                           std::to_string(series.balls)});
    add_rows(table, {series.name}, ball_rows);
  }
  out.blocks.push_back(std::move(wanted));
  say(out,
      "Together: several balls on the scales at once, with their count. Mass: one ball alone.");
  out.blocks.push_back(std::move(table));
}

void append_trials(const FieldSheet& sheet, Document& out) {
  if (sheet.speed_columns.empty() || sheet.each_shot_measured) return;
  begin_part(sheet, "trial shots at the dummy", out);
  say(out, "Some before the counted shots and some after them, so that a drift of the launcher "
           "shows. Misses too.");
  std::vector<Column> titles = columns({"setting"});
  add_columns(titles, sheet.speed_columns);
  add_columns(titles, {"landed", "note"});
  Table table = form("trials", std::move(titles));
  std::vector<std::string> done;
  for (const FieldSheetSeries& series : sheet.series) {
    if (std::find(done.begin(), done.end(), series.setting) != done.end()) continue;
    done.push_back(series.setting);
    add_rows(table, {series.setting}, trial_rows);
  }
  out.blocks.push_back(std::move(table));
}

Runs stop_line(const FieldSheet& sheet) {
  Runs line{{"Stop at once: ", Tone::strong}};
  for (std::size_t i = 0; i < sheet.stop_rules.size(); ++i)
    line.push_back({(i > 0 ? "; " : "") + sheet.stop_rules[i], Tone::plain});
  return line;
}

Table shots_form(const FieldSheet& sheet, const FieldSheetSeries& series) {
  std::vector<Column> titles =
      columns({"map", "place", "position", "in", "miss", "broke", "out s"});
  if (sheet.each_shot_measured) add_columns(titles, sheet.speed_columns);
  add_columns(titles, {"note"});
  Table table = form("shots, series " + series.name, std::move(titles));
  for (const FieldSheetPlace& place : series.places) {
    add_rows(table, {std::to_string(place.number), place.name, place.position},
             std::max(series.shots_per_place, 1));
  }
  const int planned = static_cast<int>(table.rows.size());
  add_rows(table, {}, std::max(series.balls - planned, spare_throws));
  return table;
}

void append_shots(const FieldSheet& sheet, const FieldSheetSeries& series, Document& out) {
  begin_part(sheet, "shots of series " + series.name, out);
  Facts facts;
  add_fact(facts, "ball", series.ball);
  add_fact(facts, "setting", series.setting);
  add_fact(facts, "speed", series.speed_window);
  add_fact(facts, "mass", series.mass_window);
  add_fact(facts, "diameter", series.diameter_window);
  out.blocks.push_back(std::move(facts));
  if (!sheet.stop_rules.empty()) out.blocks.push_back(Paragraph{stop_line(sheet)});
  say(out,
      "One row a throw, in the order thrown; tick in, miss or broke, or write how far from the "
      "middle under in. A place to be thrown at again takes a spare row. Out: seconds from the "
      "freezer to the impact.");
  out.blocks.push_back(shots_form(sheet, series));
}

void append_during(const FieldSheet& sheet, Document& out) {
  begin_part(sheet, "while throwing", out);
  if (!sheet.stop_rules.empty()) {
    out.blocks.push_back(Heading{3, plain("Stop at once")});
    Bullets rules;
    for (const std::string& rule : sheet.stop_rules)
      rules.items.push_back(plain(rule));
    out.blocks.push_back(std::move(rules));
  }
  out.blocks.push_back(Heading{3, plain("Each time")});
  out.blocks.push_back(Bullets{
      {plain("All-clear from the lookout before each ball."),
       plain("Launcher unloaded before anybody goes forward."),
       plain("Every throw is written down, misses and broken balls too."),
       plain("After each series: look front and back, in raking light too, and photographs, before "
             "the next series begins.")}});
  Table incidents = form("unlike_protocol and incidents", columns({"time", "what"}));
  add_rows(incidents, {}, spare_throws);
  out.blocks.push_back(std::move(incidents));
}

void append_looks(const FieldSheet& sheet, Document& out) {
  begin_part(sheet, "looks", out);
  say(out, "Write the word nothing where nothing was seen: a look that is not noted counts as not "
           "taken. "
           "Use the words below; what is major is decided later, by the program.");
  Table looks = form("looks", columns({"when", "saw", "where", "share %", "photo"}));
  add_rows(looks, {"start"}, look_rows);
  for (const FieldSheetSeries& series : sheet.series)
    add_rows(looks, {"after " + series.name}, look_rows);
  out.blocks.push_back(std::move(looks));
  Table kinds{"What can be seen", columns({"word", "meaning"}), {}};
  for (const FindingKind& kind : finding_kinds())
    kinds.rows.push_back({std::string(kind.word), std::string(kind.meaning)});
  out.blocks.push_back(std::move(kinds));
}

void append_end(const FieldSheet& sheet, Document& out) {
  add_title(sheet, "after the last ball", out);
  out.blocks.push_back(checklist(
      {"launcher unloaded, nothing left in it that could still drive a ball",
       "eye protection and cut-resistant gloves stay on until all pieces of glass are picked up",
       "the panel is covered before its leads are touched, and marked as struck",
       "a struck panel is not left in the sun under load unattended",
       "looks taken after every series, photographs named",
       "trial shots after the counted ones written down",
       "every sheet photographed before it leaves this place",
       "what went otherwise than planned written down, and what went wrong"}));
}

}  // namespace

void append_field_sheet(const Clearance& clearance, const FieldSheet& sheet, Document& out) {
  expects(!sheet.panel.empty(), "a field sheet for a panel with a name");
  expects(!sheet.cautions.empty(), "a field sheet with its cautions");
  for (const FieldSheetSeries& series : sheet.series)
    expects(!series.name.empty(), "a series with a name");
  if (out.title.empty())
    out.title = sheet.test_title.empty() ? "Field sheets" : "Field sheets: " + sheet.test_title;
  if (out.foot.empty()) out.foot = shortest_caution();
  if (!out.blocks.empty()) out.blocks.push_back(PageBreak{});
  append_front(clearance, sheet, out);
  append_setups(sheet, "before", sheet.setups_before, "set-ups before the shots", out);
  append_aim(sheet, out);
  append_balls(sheet, out);
  append_trials(sheet, out);
  for (const FieldSheetSeries& series : sheet.series)
    append_shots(sheet, series, out);
  append_during(sheet, out);
  append_looks(sheet, out);
  append_end(sheet, out);
  append_setups(sheet, "after", sheet.setups_after, "set-ups after the shots", out);
}

}  // namespace hailwright
