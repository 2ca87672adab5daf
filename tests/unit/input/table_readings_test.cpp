#include "input/table.hpp"
#include "input/table_setups.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::input;

namespace {

Protocol one_series() {
  Protocol protocol;
  protocol.series.emplace_back();
  protocol.series.back().name = "small";
  return protocol;
}

TableLabels with_control() {
  return {"A", "C", {9, 3, 1, 1}, {9, 4, 1, 1}, true};
}
TableLabels with_siblings() {
  return {"A", "", {9, 3, 1, 1}, {}, false, {{{9, 4, 1, 1}, "D"}, {{9, 4, 9, 1}, "E"}}};
}
TableLabels alone() {
  return {"panel", "", {9, 1, 1, 1}, {}, false};
}

struct Read {
  Diagnostics notes;
  std::vector<Setup> setups;
  std::vector<Reading> readings;
  Read(std::string text, const TableLabels& labels, std::vector<Setup> listed = {})
      : setups(std::move(listed)) {
    readings = read_readings({1, 1, 1, std::move(text)}, one_series(), labels, "2026-06-14", setups,
                             {}, notes);
  }
  [[nodiscard]] const Diagnostic& only_note() const {
    for (const Diagnostic& d : notes.items())
      UNSCOPED_INFO(d.code << " " << d.message);
    REQUIRE(notes.items().size() == 1);
    return notes.items().front();
  }
};

Setup listed(const std::string& name, StageKind kind, int number, const std::string& date) {
  Setup setup;
  setup.origin = {9, 20, 5, 8};
  setup.name = name;
  setup.stage = {kind, 0};
  setup.number = number;
  setup.date = date;
  return setup;
}

constexpr const char* control_table = "time,setup,panel,power W,sun W/m2,temp degC,skip\n"
                                      "13:05,before 1,C,77.1,895,52.2,\n"
                                      "13:06,,A,79.0,910,51.4,\n"
                                      "13:07,,B,83.8,905,55.5,\n"
                                      "16:29,after 1,C,60.1,700,50.0,\n"
                                      "16:30,,A,25.1,310,50.1,cloud\n";

/// Two set-ups of one stage; the second begins at `second`.
std::string two_setups(const std::string& second) {
  return "setup,time,power W,sun W/m2,temp degC\n"
         "before 1,13:05,77,900,50\n"
         "before 1,13:10,77,900,50\n"
         "before 2," +
         second +
         ",77,900,50\n"
         "before 2,14:30,77,900,50\n";
}

}  // namespace

TEST_CASE("table readings: readings of the struck panel and its control, other panels left out") {
  const Read r(control_table, with_control());
  REQUIRE(r.notes.empty());
  REQUIRE(r.readings.size() == 4);
  REQUIRE(r.setups.size() == 2);
  CHECK(r.setups[0].name == "before 1");
  CHECK(r.setups[0].date == "2026-06-14");
  CHECK(r.setups[0].origin.line == 2);
  CHECK(r.setups[1].stage.kind == StageKind::after);
  CHECK(r.readings[0].role == Role::control);
  CHECK(r.readings[1].role == Role::struck);
  CHECK(r.readings[1].minute == 13 * 60 + 6);
  CHECK_THAT(r.readings[1].power.si(), WithinRel(79.0, 1e-12));
  CHECK_THAT(r.readings[1].irradiance.si(), WithinRel(910.0, 1e-12));
  CHECK_THAT(r.readings[1].temperature.celsius(), WithinAbs(51.4, 1e-9));
  CHECK(r.readings[3].setup == 1);
  CHECK(r.readings[3].skip == "cloud");
  CHECK_THAT(r.readings[3].power.si(), WithinRel(25.1, 1e-12));
  CHECK(r.readings[3].origin.line == 6);
}

TEST_CASE("table readings: separator, decimal mark and order of the columns change no reading") {
  const std::string text = GENERATE(
      "time;setup;panel;power W;sun W/m2;temp degC;skip\n13:05;before 1;C;77,1;895;52,2;\n"
      "13:06;;A;79,0;910;51,4;a, b\n",
      "time\tsetup\tpanel\tpower W\tsun W/m2\ttemp degC\tskip\n13:05\tbefore 1\tC\t77.1\t895\t"
      "52.2\t\n13:06\t\tA\t79.0\t910\t51.4\ta, b\n",
      "skip,temp degC,panel,sun W/m2,setup,power W,time\n,52.2,C,895,before 1,77.1,13:05\n"
      "\"a, b\",51.4,A,910,,79.0,13:06\n");
  CAPTURE(text);
  const Read r(text, with_control());
  REQUIRE(r.notes.empty());
  REQUIRE(r.readings.size() == 2);
  CHECK(r.readings[0].role == Role::control);
  CHECK_THAT(r.readings[0].power.si(), WithinRel(77.1, 1e-14));
  CHECK_THAT(r.readings[0].temperature.celsius(), WithinAbs(52.2, 1e-9));
  CHECK(r.readings[1].minute == 13 * 60 + 6);
  CHECK(r.readings[1].skip == "a, b");
}

TEST_CASE("table readings: a temperature in degF is converted, points not differences") {
  const Read r("setup,power W,sun W/m2,temp degF\nbefore 1,77,900,122\n", alone());
  REQUIRE(r.notes.empty());
  CHECK_THAT(r.readings.at(0).temperature.celsius(), WithinAbs(50.0, 1e-9));
}

TEST_CASE("table readings: a skipped reading may lack values and is kept") {
  const Read r("setup,panel,power W,sun W/m2,temp degC,skip\n"
               "before 1,A,77,900,50,\n,A,77,,50,sun meter fell\n,C,77,900,50,\n",
               with_control());
  REQUIRE(r.notes.empty());
  REQUIRE(r.readings.size() == 3);
  CHECK(r.readings[1].skip == "sun meter fell");
  CHECK(r.readings[1].power.si() == 0.0);
}

TEST_CASE("table readings: skip wants a reason") {
  const Read r("setup,power W,sun W/m2,temp degC,skip\nbefore 1,77,900,50,no\n", alone());
  CHECK(r.only_note().code == "T16");
  CHECK(r.only_note().where.column == 20);
}

TEST_CASE("table readings: set-ups listed in the record keep their place and date") {
  const Read r("setup,power W,sun W/m2,temp degC,battery %\n"
               "before 2,77,900,50,55\nbefore 1,77,900,50,60\nbefore,77,900,50,70\n",
               alone(), {listed("before 1", StageKind::before, 1, "2026-06-13")});
  REQUIRE(r.notes.empty());
  REQUIRE(r.setups.size() == 2);
  CHECK(r.setups[0].date == "2026-06-13");
  CHECK(r.setups[1].date == "2026-06-14");
  CHECK(r.readings[0].setup == 1);
  CHECK(r.readings[1].setup == 0);
  CHECK(r.readings[2].setup == 0);
  CHECK_THAT(r.setups[0].battery->si(), WithinRel(0.70, 1e-12));
  CHECK_THAT(r.setups[1].battery->si(), WithinRel(0.55, 1e-12));
}

TEST_CASE("table readings: a listed set-up that nobody read is a warning at the list") {
  const Read r("setup,power W,sun W/m2,temp degC\nbefore 1,77,900,50\n", alone(),
               {listed("before 3", StageKind::before, 3, "2026-06-14")});
  CHECK(r.only_note().code == "T31");
  CHECK(r.only_note().severity == Severity::warning);
  CHECK(r.only_note().where.file == 9);
}

TEST_CASE("table readings: a later set-up on the day of the test is a warning") {
  const char* text = "setup,power W,sun W/m2,temp degC\nlater 1,77,900,50\n";
  CHECK(Read(text, alone()).only_note().code == "T31");
  CHECK(Read(text, alone(), {listed("later 1", StageKind::later, 1, "2026-12-14")}).notes.empty());
}

TEST_CASE("table readings: the labels of the record must stand in the table") {
  TableLabels wrong = with_control();
  wrong.control = "K";
  const Read r("setup,panel,power W,sun W/m2,temp degC\nbefore 1,A,77,900,50\n,C,77,900,50\n",
               wrong);
  REQUIRE(r.notes.items().size() == 2);
  CHECK(r.notes.items()[0].code == "T23");
  CHECK(r.notes.items()[0].where.line == 4);
  CHECK(r.notes.items()[1].code == "T30");
}

TEST_CASE("table readings: a control-panel set-up that lacks a panel") {
  const Read r("setup,panel,power W,sun W/m2,temp degC,skip\n"
               "before 1,A,77,900,50,\n,C,77,900,50,cloud\n"
               "before 2,C,77,900,50,\n,B,77,900,50,\n",
               with_control());
  CHECK(r.only_note().code == "T30");
  CHECK(r.only_note().where.line == 4);
  CHECK_THAT(r.only_note().message, Contains("\"before 2\"") && Contains("\"A\""));
}

TEST_CASE("table readings: time goes forward inside a set-up") {
  const Read r("setup,time,power W,sun W/m2,temp degC\n"
               "before 1,13:05,77,900,50\n,13:05,77,900,50\n,,77,900,50\n,13:04,77,900,50\n",
               alone());
  CHECK(r.only_note().code == "T27");
  CHECK(r.only_note().where.line == 5);
  CHECK(r.only_note().where.column == 2);
  CHECK(r.only_note().related.at(0).where.line == 3);
  CHECK_FALSE(r.readings.at(2).minute.has_value());
}

TEST_CASE("table readings: set-ups of one stage less than five minutes apart") {
  const Read close(two_setups("13:14"), alone());
  CHECK(close.only_note().code == "T29");
  CHECK(close.only_note().severity == Severity::warning);
  CHECK(close.only_note().where.line == 4);
  CHECK(close.only_note().related.at(0).where.line == 3);
  CHECK_THAT(close.only_note().hints.at(0), Contains("remounted: yes"));
  CHECK(Read(two_setups("13:15"), alone()).notes.empty());
  CHECK(Read(two_setups("13:10"), alone()).only_note().code == "T29");

  Setup second = listed("before 2", StageKind::before, 2, "2026-06-14");
  second.redone = std::vector<Redone>{Redone::mount, Redone::aim, Redone::probe};
  CHECK(Read(two_setups("13:14"), alone(), {second}).only_note().code == "T29");
  second.redone->push_back(Redone::leads);
  CHECK(Read(two_setups("13:14"), alone(), {second}).notes.empty());

  second.redone.reset();
  second.date = "2026-06-13";
  CHECK(Read(two_setups("13:14"), alone(), {second}).notes.empty());
  second.date = "2026-06-15";  // before the shots, and dated after them
  CHECK(Read(two_setups("13:14"), alone(), {second}).only_note().code == "T33");
}

TEST_CASE("table readings: set-ups of two stages may follow each other quickly") {
  const Read r("setup,time,power W,sun W/m2,temp degC\n"
               "baseline 1,13:05,77,900,50\nbefore 1,13:06,77,900,50\n",
               alone());
  CHECK(r.notes.empty());
}

TEST_CASE("table readings: one panel cannot be in two set-ups at once") {
  const Read r(two_setups("13:09"), alone());
  CHECK(r.only_note().code == "T28");
  CHECK(r.only_note().severity == Severity::error);
  CHECK(r.only_note().where.line == 4);
}

TEST_CASE("table readings: mistakes in readings") {
  struct Case {
    const char* text;
    const char* code;
    int line, column;
  };
  const auto c = GENERATE(values<Case>({
      {"setup,power W,sun W/m2,temp degC\nbefore 1,0,900,50\n", "T14", 2, 10},
      {"setup,power W,sun W/m2,temp degC\nbefore 1,100001,900,50\n", "T14", 2, 10},
      {"setup,power W,sun W/m2,temp degC\nbefore 1,77,0,50\n", "T14", 2, 13},
      {"setup,power W,sun W/m2,temp degC\nbefore 1,77,2001,50\n", "T14", 2, 13},
      {"setup,power W,sun W/m2,temp degC\nbefore 1,77,900,151\n", "T14", 2, 17},
      {"setup,power W,sun W/m2,temp degC\nbefore 1,77,900,-61\n", "T14", 2, 17},
      {"setup,power W,sun W/m2,temp degC\nbefore 1,,900,50\n", "T12", 2, 10},
      {"setup,power W,sun W/m2,temp degC\nbefore 1,77,,50\n", "T12", 2, 13},
      {"setup,power W,sun W/m2,temp degC\nbefore 1,77,900,\n", "T12", 2, 17},
      {"setup,power W,sun W/m2,temp degC\nbfore 1,77,900,50\n,78,900,50\n", "T25", 2, 1},
      {"setup,power W,sun W/m2\nbefore 1,77,900\n", "T08", 1, 1},
      {"setup,power W,sun lux,temp degC\nbefore 1,77,900,50\n", "T10", 1, 19},
      {"setup,power W,sun W/m2,temp mm\nbefore 1,77,900,50\n", "T10", 1, 29},
      {"setup,power W,sun W/m2,temp degC,time\nbefore 1,77,900,50,24:00\n", "T26", 2, 20},
      {"setup,power W,sun W/m2,temp degC,time\nbefore 1,77,900,50,13.05\n", "T26", 2, 20},
      {"setup,power W,sun W/m2,temp degC,time\nbefore 1,77,900,50,1:05 pm\n", "T26", 2, 20},
      {"setup,power W,sun W/m2,temp degC,time\nbefore 1,77,900,50,13:5\n", "T26", 2, 20},
      {"setup,power W,sun W/m2,temp degC,round\nbefore 1,77,900,50,0\n", "T14", 2, 20},
      {"setup,power W,sun W/m2,temp degC,battery %\nbefore 1,77,900,50,101\n", "T14", 2, 20},
  }));
  CAPTURE(c.text);
  const Read r(c.text, alone());
  CHECK(r.only_note().code == c.code);
  CHECK(r.only_note().where.line == c.line);
  CHECK(r.only_note().where.column == c.column);
}

TEST_CASE("table readings: the panel column is needed where two panels are read") {
  const char* text = "setup,power W,sun W/m2,temp degC\nbefore 1,77,900,50\n";
  CHECK(Read(text, with_control()).only_note().code == "T08");
  CHECK(Read(text, alone()).notes.empty());
}

TEST_CASE("table readings: the ends of the ranges are taken") {
  const Read r("setup,power W,sun W/m2,temp degC,battery %\nbefore 1,100000,2000,150,100\n"
               ",1,1,-60,0\n",
               alone());
  CHECK_FALSE(r.notes.has_errors());
  CHECK(r.readings.size() == 2);
}

TEST_CASE("table readings: more sun than reaches the earth above the air is a warning") {
  const std::string head = "setup,power W,sun W/m2,temp degC\nbefore 1,77,";
  CHECK(Read(head + "1361,52\n", alone()).notes.empty());
  const Read bright(head + "1361.1,52\n", alone());
  CHECK(bright.only_note().code == "T14");
  CHECK(bright.only_note().severity == Severity::warning);
  CHECK(bright.only_note().where.column == 13);
  CHECK(bright.readings.size() == 1);
}

TEST_CASE("table readings: on one day the set-ups before the shots are read before those after") {
  const std::string head = "setup,time,power W,sun W/m2,temp degC\n";
  const std::string after = "after 1,12:21,77,895,52\n";
  const std::string before = "before 1,13:01,77,895,52\n";
  const Diagnostic note = Read(head + before + after, alone()).only_note();
  CHECK(note.code == "T33");
  CHECK(note.where.line == 2);
  CHECK(note.related.at(0).where.line == 3);
  CHECK(Read(head + after + before, alone()).only_note().where.line == 3);
  CHECK(Read(head + "before 1,12:01,77,895,52\n" + after, alone()).notes.empty());
  CHECK(Read(head + "later 1,12:01,77,895,52\n" + before, alone()).only_note().code == "T31");
}

TEST_CASE("table readings: siblings are told apart by their unit") {
  const Read r("setup,panel,round,power W,sun W/m2,temp degC\n"
               "after 1,D,1,77,900,50\n,E,1,78,900,50\n,A,1,70,900,50\n,B,1,60,900,50\n"
               "after 2,E,1,78,900,50\n,A,1,70,900,50\n",
               with_siblings());
  CAPTURE(r.notes.items().size());
  REQUIRE(r.notes.empty());
  REQUIRE(r.readings.size() == 5);
  CHECK(r.readings[0].role == Role::sibling);
  CHECK(r.readings[0].unit == 0);
  CHECK(r.readings[1].role == Role::sibling);
  CHECK(r.readings[1].unit == 1);
  CHECK(r.readings[2].role == Role::struck);
  CHECK(r.readings[3].unit == 1);
  CHECK(r.readings[3].setup == 1);
}

// Two siblings in one round were two readings of one role, and refused.
TEST_CASE("table readings: a round has one reading of each sibling") {
  const Read r("setup,panel,round,power W,sun W/m2,temp degC\n"
               "after 1,D,1,77,900,50\n,E,1,78,900,50\n,A,1,70,900,50\n,D,1,77,900,50\n",
               with_siblings());
  CHECK(r.only_note().code == "T32");
  CHECK(r.only_note().where.line == 5);
  CHECK(r.only_note().related.at(0).where.line == 2);
}

TEST_CASE("table readings: every sibling has a row, and every row says whose it is") {
  const Read gone("setup,panel,power W,sun W/m2,temp degC\nafter 1,D,77,900,50\n,A,70,900,50\n",
                  with_siblings());
  CHECK(gone.only_note().code == "T23");
  CHECK(gone.only_note().where.file == 9);
  CHECK(gone.only_note().where.column == 9);
  CHECK_THAT(gone.only_note().message, Contains("\"E\""));
  const Read blind("setup,power W,sun W/m2,temp degC\nafter 1,77,900,50\n", with_siblings());
  CHECK(blind.only_note().code == "T08");
}
