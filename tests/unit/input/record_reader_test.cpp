#include "input/record_reader.hpp"

#include "hailwright/evaluate/delivery.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using input_files::Files;
using input_files::good_files;
using input_files::only;
using input_files::seen;
using input_files::Seen;

namespace {

Checked<Test> read(const Files& files, const std::string& path = "record.yaml") {
  SourceSet sources;
  auto checked = read_test(path, input_files::loader(files), sources);
  // Every message can be printed: its place is in a file of the set.
  CHECK_NOTHROW(render_diagnostics(checked.notes, sources));
  return checked;
}

void replace(Files& files, const std::string& file, const std::string& from,
             const std::string& to) {
  std::string& text = files.at(file);
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
}

/// The same panel against three unstruck units, with nothing read before the shots.
Files with_siblings() {
  Files files = good_files();
  replace(files, "protocol.yaml", "same-panel", "sibling-panel, siblings: 3, meters: 2");
  replace(files, "record.yaml",
          "day:", "label: A\nsiblings: [{label: D}, {label: E}, {label: F}]\nday:");
  replace(files, "record.yaml", "  shots: |\n    series,place,landed,ball", R"(  readings: |
    setup,round,panel,time,power W,sun W/m2,temp degC
    after 1,1,A,16:00,77,900,50
    after 1,1,D,16:01,80,900,50
    after 1,1,E,16:02,81,900,50
    after 1,1,F,16:03,82,900,50
    after 1,1,G,16:03,12,900,50
    after 2,1,F,16:20,82,905,51
    after 2,1,A,16:21,78,905,51
  shots: |
    series,place,landed,ball)");
  return files;
}

/// The same test as a comparison with a control panel.
Files with_control() {
  Files files = good_files();
  files["control.yaml"] = files.at("panel.yaml");
  replace(files, "protocol.yaml", "same-panel", "control-panel, meters: 2");
  replace(files, "record.yaml",
          "day:", "label: A\ncontrol: {panel: control.yaml, same_model: yes, label: C}\nday:");
  return files;
}

}  // namespace

TEST_CASE("record_reader: a record with its protocol, panel and tables") {
  const auto checked = read(good_files());
  CAPTURE(seen(checked.notes));
  CHECK(checked.notes.empty());
  REQUIRE(checked.value);
  const Record& r = checked.value->record;
  CHECK(checked.value->protocol.series.size() == 2);
  CHECK(r.title == "Panel A");
  CHECK(r.panel_label == "panel");
  CHECK(r.date == "2026-06-14");
  CHECK(r.balls.size() == 1);
  CHECK(r.trials.size() == 2);
  CHECK(r.shots.size() == 2);
  CHECK(r.looks.size() == 2);
  CHECK_FALSE(r.control);
  CHECK_FALSE(r.tools_after);
}

TEST_CASE("record_reader: every other key") {
  Files files = with_control();
  replace(files, "record.yaml", "day: {date: 2026-06-14}",
          R"(title: One afternoon
planned: 2026-06-10 7f3a-9c01-52de-0b44
day: {date: 2026-06-14, air: 24 degC, weather: sun}
mounting: four clamps
panel_at_shots: 26 degC
setups:
  - {name: before 1, redone: [mount, aim], battery: 60 %}
  - {name: after small 1, date: 2026-06-15, remounted: yes}
conditions: {clean_and_dry: yes, same_leads: no, pre_exposed: yes, in_sun_first: 20 min,
             incidence: 20 deg, incidence_change: 5 deg, since_last_shot: 60 min}
tools_after: {meter: {accuracy: 1 %}}
unlike_protocol: [place 2 not struck]
incidents: none
disclosure: {bought_by: me, interests: none, panel_goes: kept}
serial: R-0117
photos: [{file: mounting.jpg, shows: the mounting}]
write_up: {author: me, issued: 2026-06-20}
)");
  replace(files, "record.yaml", "  shots: |\n    series,place", R"(  readings: |
    setup,panel,time,power W,sun W/m2,temp degC
    before 1,A,13:00,79,900,50
    before 1,C,13:01,78,900,50
    after small 1,A,13:00,77,900,50
    after small 1,C,13:01,78,900,50
  shots: |
    series,place)");
  const auto checked = read(files);
  CAPTURE(seen(checked.notes));
  CHECK(checked.notes.empty());
  REQUIRE(checked.value);
  const Record& r = checked.value->record;
  CHECK(r.title == "One afternoon");
  REQUIRE(r.planned);
  CHECK(r.planned->date == "2026-06-10");
  CHECK(text(r.planned->mark) == "7f3a-9c01-52de-0b44");
  CHECK_THAT(r.air->celsius(), WithinAbs(24.0, 1e-9));
  CHECK_THAT(r.panel_at_shots->celsius(), WithinAbs(26.0, 1e-9));
  CHECK(r.panel_label == "A");
  CHECK(r.control_label == "C");
  CHECK(r.control_same_model);
  REQUIRE(r.control);
  REQUIRE(r.setups.size() == 2);
  CHECK(r.setups[0].date == "2026-06-14");
  CHECK(r.setups[0].redone == std::vector<Redone>{Redone::mount, Redone::aim});
  CHECK(r.setups[0].battery == percent(60));
  CHECK(r.setups[1].date == "2026-06-15");
  CHECK(r.setups[1].redone->size() == 4);
  CHECK(r.setups[1].stage == StageId{StageKind::after_series, 0});
  CHECK(r.readings.size() == 4);
  CHECK(r.conditions.clean_and_dry == true);
  CHECK(r.conditions.same_leads == false);
  CHECK(r.conditions.in_sun_first->si() == 1200.0);
  CHECK_THAT(r.conditions.incidence->si(), WithinRel(0.3490658503988659, 1e-12));
  REQUIRE(r.tools_after);
  CHECK(r.tools_after->meter.error);
  CHECK(r.tools_after->sun.origin.line == 0);
  CHECK(r.unlike_protocol == std::vector<std::string>{"place 2 not struck"});
  // Found by review: `none` was read as if the key were missing.
  REQUIRE(r.incidents);
  CHECK(r.incidents->empty());
  CHECK(r.disclosure->panel_goes == "kept");
  CHECK(r.serial == "R-0117");
  REQUIRE(r.photos.size() == 1);
  CHECK(r.photos[0].shows == "the mounting");
  CHECK(r.write_up.author == "me");
  CHECK(r.write_up.issued == "2026-06-20");
}

TEST_CASE("record_reader: a bad cell inside a text block is located in the YAML file") {
  Files files = good_files();
  replace(files, "record.yaml", "mark 3,30\n", "mark 3,3O\n");
  const Diagnostic note = only(read(files).notes);
  CHECK(note.code == "U13");
  CHECK(note.where.line == 12);
  CHECK(note.where.column == 13);  // the letter O in "3O"
  // A blank line and a remark in between, four more blanks before the rows, letters of two bytes.
  files = good_files();
  replace(files, "record.yaml", "    setting,frames\n    mark 3,29.5\n    mark 3,30\n",
          "\n        setting,note,frames\n        # as filmed\n        mark 3,é,29.5\n\n"
          "        mark 3,ü,3O\n");
  const Diagnostic moved = only(read(files).notes);
  CHECK(moved.where.line == 15);
  CHECK(moved.where.column == 19);
}

TEST_CASE("record_reader: tables in files, from the folder of the record") {
  Files files = good_files();
  replace(files, "record.yaml", "trials: |\n    setting,frames\n    mark 3,29.5\n    mark 3,30\n",
          "trials: trials.csv\n");
  Files moved;
  for (const auto& [name, text] : files)
    moved["day/" + name] = text;
  moved["day/trials.csv"] = "\xEF\xBB\xBFsetting;frames\r\nmark 3;29,5\r\nmark 3;30\r\n";
  const auto checked = read(moved, "day/record.yaml");
  CAPTURE(seen(checked.notes));
  REQUIRE(checked.value);
  CHECK(checked.value->record.trials.at(0).frames == 29.5);
  moved["day/trials.csv"] = "setting,frames\nmark 3,x\n";
  const Diagnostic cell = only(read(moved, "day/record.yaml").notes);
  CHECK(cell.where.line == 2);
  CHECK(cell.where.column == 8);
  moved.erase("day/trials.csv");
  const Diagnostic gone = only(read(moved, "day/record.yaml").notes);
  CHECK(gone.code == "F01");
  CHECK(gone.where.line == 9);
  CHECK(gone.where.column == 11);
  CHECK_THAT(gone.message, Contains("day/trials.csv"));
}

TEST_CASE("record_reader: a table that stands in the record begins with a bar") {
  Files files = good_files();
  replace(files, "record.yaml", "trials: |", "trials: >");
  CHECK(only(read(files).notes).code == "K15");
}

TEST_CASE("record_reader: errors of all files come in one run") {
  Files files = good_files();
  replace(files, "protocol.yaml", "limit: 5 %", "limit: 5");
  replace(files, "panel.yaml", "1020 x 510", "510 x 1020");
  replace(files, "record.yaml", "saw: nothing", "saw: nothing, seen: x");
  replace(files, "record.yaml", "mark 3,29.5", "mark 3,29.3");
  const auto checked = read(files);
  CHECK_FALSE(checked.value);
  std::vector<std::string> codes;
  for (const Diagnostic& note : checked.notes.items())
    codes.emplace_back(note.code);
  CHECK(codes == std::vector<std::string>{"U02", "C08", "T14", "K01"});
}

TEST_CASE("record_reader: faults in the protocol raise no false complaints about the record") {
  Files files = good_files();
  replace(files, "protocol.yaml", "IEC 61215 25 mm", "IEC 61215 24 mm");
  CHECK(only(read(files).notes).code == "K12");
  files.erase("protocol.yaml");
  CHECK(only(read(files).notes).code == "F01");
  files = good_files();
  files["protocol.yaml"] = files.at("panel.yaml");
  const Diagnostic other = only(read(files).notes);
  CHECK(other.code == "K11");
  CHECK(other.related.at(0).where.line == 2);
}

TEST_CASE("record_reader: control and comparison agree") {
  Files files = with_control();
  const auto checked = read(files);
  CAPTURE(seen(checked.notes));
  CHECK(checked.value);
  files = with_control();
  replace(files, "protocol.yaml", "control-panel, meters: 2", "same-panel");
  CHECK(only(read(files).notes).code == "C10");
  files = with_control();
  replace(files, "record.yaml", "control: {panel: control.yaml, same_model: yes, label: C}\n", "");
  CHECK(only(read(files).notes).code == "K02");
  files = with_control();
  replace(files, "record.yaml", "label: C", "label: A");
  CHECK(only(read(files).notes).code == "C11");
}

TEST_CASE("record_reader: places without a position get theirs from the panel") {
  Files files = good_files();
  replace(files, "protocol.yaml", "places: 2", "places: 5");
  replace(files, "protocol.yaml", "places: 1", "places: [{name: mine, at: 300 x 200 mm}, logo]");
  replace(files, "panel.yaml", "size: 1020 x 510 x 35 mm",
          "size: 1020 x 510 x 35 mm\nframe: 12 mm\nmounts: [255 x 12 mm]");
  // Aimed at 1, landed on the mount's place, which is 4.
  replace(files, "record.yaml", "small,1,in,small", "small,1,at 250 x 30 mm,small");
  const auto checked = read(files);
  CAPTURE(seen(checked.notes));
  REQUIRE(checked.value);
  const auto& small = checked.value->protocol.series[0].places;
  REQUIRE(small.size() == 5);
  REQUIRE(small[3].at);
  CHECK(small[3].found);
  CHECK(small[3].kind == PlaceKind::near_mount);
  CHECK_THAT(small[3].at->right.si(), WithinAbs(0.255, 1e-12));
  CHECK_THAT(small[3].at->up.si(), WithinAbs(0.0245, 1e-12));
  // No cells and no box in the panel file: 3 and 5 stay without a position.
  CHECK_FALSE(small[2].at);
  CHECK_FALSE(small[4].at);
  const auto& large = checked.value->protocol.series[1].places;
  CHECK(large[0].at->right == 300.0_mm);
  CHECK_FALSE(large[0].found);
  CHECK_FALSE(large[1].at);
  Assumptions assumptions;
  const auto delivered = judge_delivery(*checked.value, assumptions);
  CHECK(delivered.at(0).places.at(3).hits == 1);
  CHECK(delivered.at(0).places.at(0).hits == 0);
}

TEST_CASE("record_reader: positions of places are held against the panel") {
  Files files = good_files();
  replace(files, "protocol.yaml", "places: 2", "places: [{name: out, at: 1100 x 200 mm}]");
  replace(files, "record.yaml", "small,1,in,small\n    small,2,in,small", "small,out,in,small");
  replace(files, "record.yaml", "saw: [{scuff: place 1}]", "saw: nothing");
  const Diagnostic note = only(read(files).notes);
  CHECK(note.code == "C09");
  CHECK(note.where.line == 5);
  CHECK(note.related.at(0).where.line == 1);
}

TEST_CASE("record_reader: faults at their places") {
  struct Row {
    const char* from;
    const char* to;
    const char* code;
    int line;
    int column;
  };
  const Row row = GENERATE(
      Row{"protocol: protocol.yaml\n", "", "K02", 1, 1},
      Row{"panel: panel.yaml\n", "", "K02", 1, 1},
      Row{"day: {date: 2026-06-14}\n", "", "K02", 1, 1},
      Row{"{date: 2026-06-14}", "{air: 20 degC}", "K02", 4, 1},
      Row{"2026-06-14", "14.6.2026", "R03", 4, 13},
      Row{"2026-06-14}", "2026-06-14, air: 24}", "U02", 4, 30},
      Row{"  shots: |", "  shts: |", "K01", 13, 3},
      Row{"tables:", "setups: none\ntables:", "K05", 5, 9},
      Row{"tables:", "setups: [{name: befor 1}]\ntables:", "T25", 5, 17},
      Row{"tables:", "setups: [{date: 2026-06-14}]\ntables:", "K02", 5, 10},
      Row{"tables:", "setups: [{name: before 1, redone: [aim], remounted: yes}]\ntables:", "C01", 5,
          42},
      Row{"tables:", "setups: [{name: before 1}, {name: before 1}]\ntables:", "C05", 5, 35},
      Row{"tables:", "setups: [{name: before 1, battery: 120 %}]\ntables:", "R01", 5, 36},
      Row{"tables:", "conditions: {clean_and_dry: true}\ntables:", "K06", 5, 29},
      Row{"tables:", "conditions: {same_tools: same}\ntables:", "K06", 5, 26},
      Row{"tables:", "results_seen: 0\ntables:", "R02", 5, 15},
      Row{"tables:", "results_seen: 21\ntables:", "R02", 5, 15},
      Row{"tables:", "conditions: {incidence: 95 deg}\ntables:", "R01", 5, 25},
      Row{"small,2,in,small", "small,2,in,smal", "C14", 16, 5});
  CAPTURE(row.from, row.to);
  Files files = good_files();
  replace(files, "record.yaml", row.from, row.to);
  const auto checked = read(files);
  CHECK_FALSE(checked.value);
  const Diagnostic note = only(checked.notes);
  CHECK(note.code == row.code);
  CHECK(note.where.line == row.line);
  CHECK(note.where.column == row.column);
}

TEST_CASE("record_reader: a struck panel against three siblings") {
  const auto checked = read(with_siblings());
  CAPTURE(seen(checked.notes));
  CHECK(checked.notes.empty());
  REQUIRE(checked.value);
  CHECK(checked.value->protocol.measure.compare == Comparison::sibling_panel);
  CHECK(checked.value->protocol.measure.siblings == 3);
  const Record& r = checked.value->record;
  CHECK(r.panel_label == "A");
  CHECK_FALSE(r.control);
  REQUIRE(r.siblings.size() == 3);
  CHECK(r.siblings[0].label == "D");
  CHECK(r.siblings[2].label == "F");
  CHECK(r.siblings[2].origin.line == 5);
  REQUIRE(r.setups.size() == 2);
  CHECK(r.setups[0].stage == StageId{StageKind::after, 0});
  REQUIRE(r.readings.size() == 6);
  CHECK(r.readings[0].role == Role::struck);
  for (std::size_t unit = 0; unit < 3; ++unit) {
    CAPTURE(unit);
    CHECK(r.readings[unit + 1].role == Role::sibling);
    CHECK(r.readings[unit + 1].unit == unit);
    CHECK(r.readings[unit + 1].round == 1);
    CHECK(r.readings[unit + 1].power == Power::from_si(80.0 + static_cast<double>(unit)));
  }
  CHECK(r.readings[4].unit == 2);
  CHECK(r.readings[4].setup == 1);
  CHECK(r.readings[5].role == Role::struck);
}

TEST_CASE("record_reader: siblings and comparison agree") {
  const std::string list = "siblings: [{label: D}, {label: E}, {label: F}]\n";
  struct Row {
    const char* file;
    std::string from, to;
    const char* code;
    int line;
  };
  const Row row = GENERATE_COPY(
      Row{"record.yaml", list, "", "K02", 1}, Row{"record.yaml", list, "siblings: []\n", "K14", 5},
      Row{"record.yaml", "{label: F}]", "{label: F}, {label: A}]", "C11", 5},
      Row{"record.yaml", "{label: F}]", "{label: F}, {label: E}]", "C11", 5},
      Row{"record.yaml", "{label: F}]", "{label: F}, {label: H}]", "T23", 5},
      Row{"record.yaml", "day:", "control: {panel: panel.yaml, label: C}\nday:", "C10", 6},
      Row{"protocol.yaml", "sibling-panel, siblings: 3, meters: 2", "same-panel", "C10", 5});
  CAPTURE(row.from, row.to);
  Files files = with_siblings();
  replace(files, row.file, row.from, row.to);
  const Diagnostic note = only(read(files).notes);
  CHECK(note.code == row.code);
  CHECK(note.where.line == row.line);
}

TEST_CASE("record_reader: looks between throws and how often the result was seen") {
  Files files = good_files();
  replace(files, "record.yaml", "day: {date: 2026-06-14}\n",
          "day: {date: 2026-06-14}\nresults_seen: 2\nconditions: {same_tools: yes}\n");
  replace(files, "record.yaml", "  - {when: after small",
          "  - {when: after throw 1, saw: nothing}\n  - {when: after small");
  const auto checked = read(files);
  CAPTURE(seen(checked.notes));
  REQUIRE(checked.value);
  const Record& r = checked.value->record;
  CHECK(r.results_seen == 2);
  CHECK(r.conditions.same_tools == true);
  REQUIRE(r.looks.size() == 3);
  CHECK(r.looks[1].after_throw == 1);
  CHECK(r.looks[1].after == 0);
  replace(files, "record.yaml", "after throw 1", "after throw 3");
  CHECK(only(read(files).notes).code == "C35");
  // Without a table that can be read nobody knows how many throws there were.
  replace(files, "record.yaml", "small,2,in,small", "small,2,ni,small");
  CHECK(only(read(files).notes).code == "T16");
  const auto plain = read(good_files());
  CHECK_FALSE(plain.value->record.results_seen);
  CHECK_FALSE(plain.value->record.conditions.same_tools);
}

TEST_CASE("record_reader: other tools for some is no contradiction to the same for the rest") {
  for (const char* same : {"yes", "no"}) {
    for (const char* tools : {"", "tools_after: {meter: {id: B, accuracy: 1 %}}\n"}) {
      Files files = good_files();
      replace(files, "record.yaml", "tables:",
              std::string("conditions: {same_tools: ") + same + "}\n" + tools + "tables:");
      const auto checked = read(files);
      CAPTURE(same, tools, seen(checked.notes));
      REQUIRE(checked.value);
      CHECK(checked.value->record.conditions.same_tools == (std::string(same) == "yes"));
      if (*tools != '\0') CHECK(checked.value->record.tools_after->meter.id == "B");
    }
  }
}

namespace {

/// The good files with a set-up before the shots, whose first was thrown at a time.
Files with_set_up_from_13_00_to_13_20(const std::string& first_shot) {
  Files files = good_files();
  replace(files, "record.yaml", "  shots: |\n    series,place,landed,ball\n    small,1,in,small\n",
          R"(  readings: |
    setup,time,power W,sun W/m2,temp degC
    before 1,13:00,79,900,50
    before 1,13:20,79,900,50
  shots: |
    series,place,landed,ball,time
    small,1,in,small,)" +
              first_shot + "\n");
  replace(files, "record.yaml", "    small,2,in,small\n", "    small,2,in,small,13:30\n");
  return files;
}

}  // namespace

TEST_CASE("record_reader: a shot between the readings of a set-up") {
  Files files = with_set_up_from_13_00_to_13_20("13:10");
  const Diagnostic note = only(read(files).notes);
  CHECK(note.code == "T34");
  CHECK(note.where.line == 16);
  CHECK(note.related.at(0).where.line == 19);
  replace(files, "record.yaml", "small,13:10", "small,13:20");
  const auto checked = read(files);
  CHECK(checked.notes.empty());
  CHECK(checked.value->record.shots.at(0).minute == 13 * 60 + 20);
}

// Found by review: both went through without a word.
TEST_CASE("record_reader: looks and set-ups on the wrong side of the shots") {
  Files files = good_files();
  replace(files, "record.yaml", "{when: start,", "{when: start, date: 2026-06-15,");
  CHECK(only(read(files).notes).code == "T33");
  files = with_set_up_from_13_00_to_13_20("07:50");
  const Diagnostic note = only(read(files).notes);
  CHECK(note.code == "T33");
  CHECK(note.where.line == 15);
  CHECK(note.related.at(0).where.line == 19);
}

TEST_CASE("record_reader: days of looks wait for shots and looks without errors") {
  Files files = good_files();
  replace(files, "record.yaml", "{when: start,", "{when: start, date: 2026-06-15,");
  replace(files, "record.yaml", "small,2,in", "small,2,within");
  CHECK(only(read(files).notes).code == "T16");
  files = good_files();
  replace(files, "record.yaml", "{when: start,", "{when: start, date: 2026-06-15,");
  replace(files, "record.yaml", "{when: after small,", "{when: after smal,");
  CHECK(only(read(files).notes).code == "K06");
}
