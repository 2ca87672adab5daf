#include "input/table.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::input;

namespace {

Protocol two_series() {
  Protocol protocol;
  protocol.speed.video = FrameRate::from_si(240.0);
  SeriesPlan small;
  small.name = "small";
  small.places = {{"1", std::nullopt, {}},
                  {"2", Position{Length::from_si(0.255), Length::from_si(0.012)}, {}},
                  {"3", std::nullopt, {}}};
  SeriesPlan large;
  large.name = "large";
  large.places = {{"4", std::nullopt, {}}, {"junction box", std::nullopt, {}}};
  protocol.series = {small, large};
  return protocol;
}

Panel sized() {
  Panel panel;
  panel.size = Outline{Length::from_si(1.020), Length::from_si(0.510), std::nullopt};
  return panel;
}

TableLabels labels() {
  return {"A", "C", {9, 3, 1, 1}, {9, 4, 1, 1}, true};
}

struct Read {
  Diagnostics notes;
  std::vector<Shot> shots;
  explicit Read(std::string text, const Protocol& protocol = two_series(),
                const TableLabels& names = labels()) {
    shots = read_shots({1, 1, 1, std::move(text)}, protocol, sized(), names, notes);
  }
  [[nodiscard]] const Diagnostic& only_note() const {
    for (const Diagnostic& d : notes.items())
      UNSCOPED_INFO(d.code << " " << d.message);
    REQUIRE(notes.items().size() == 1);
    return notes.items().front();
  }
};

constexpr const char* afternoon = "panel,series,place,landed,out s,note\n"
                                  "A,small,1,in,40,\n"
                                  ",,2,miss,35,\n"
                                  "B,small,1,in,38,\n"
                                  ",,2,in,41,\n"
                                  "A,small,3,broke,45,cracked in the pouch\n"
                                  ",,3,8 x 12 mm,41,\n"
                                  ",large,junction box,at 312 x 480 mm,,\n";

}  // namespace

TEST_CASE("table shots: shots of one panel, in the order thrown") {
  const Read r(afternoon);
  REQUIRE(r.notes.empty());
  REQUIRE(r.shots.size() == 5);
  for (std::size_t i = 0; i < r.shots.size(); ++i)
    CHECK(r.shots[i].number == static_cast<int>(i) + 1);
  CHECK(r.shots[0].landing == Landing::in);
  CHECK_THAT(r.shots[0].out->si(), WithinRel(40.0, 1e-12));
  CHECK(r.shots[1].landing == Landing::miss);
  CHECK(r.shots[1].place == 1);
  CHECK(r.shots[2].landing == Landing::broke);
  CHECK(r.shots[2].origin.line == 6);
  CHECK(r.shots[2].note == "cracked in the pouch");
  CHECK(r.shots[3].landing == Landing::offset);
  CHECK_THAT(r.shots[3].where->up.si(), WithinRel(0.012, 1e-12));
  CHECK(r.shots[4].landing == Landing::at);
  CHECK(r.shots[4].series == 1);
  CHECK(r.shots[4].place == 1);
  CHECK_FALSE(r.shots[4].out.has_value());
}

TEST_CASE("table shots: rows of other panels are another record's") {
  TableLabels b = labels();
  b.struck = "B";
  const Read r(afternoon, two_series(), b);
  REQUIRE(r.notes.empty());
  REQUIRE(r.shots.size() == 2);
  CHECK(r.shots[1].number == 2);
  CHECK(r.shots[1].origin.line == 5);
}

TEST_CASE("table shots: without a panel column all rows are the record's") {
  const Read r("series;place;landed\nsmall;1;in\n;2;in\n");
  CHECK(r.notes.empty());
  CHECK(r.shots.size() == 2);
}

TEST_CASE("table shots: a label that stands in no row is an error at the label") {
  TableLabels x = labels();
  x.struck = "a";
  const Read r(afternoon, two_series(), x);
  CHECK(r.only_note().code == "T23");
  CHECK(r.only_note().where.file == 9);
  CHECK(r.only_note().where.line == 3);
  CHECK(r.only_note().hints.front() == "did you mean \"A\"?");
  // A table without rows yet has nothing to compare with.
  CHECK(Read("panel,series,place,landed\n", two_series(), x).notes.empty());
}

TEST_CASE("table shots: a shot at the control is an error") {
  const Read r("panel,series,place,landed\nA,small,1,in\nC,,2,in\n");
  CHECK(r.only_note().code == "T24");
  CHECK(r.only_note().where.line == 3);
  CHECK(r.shots.size() == 1);
}

TEST_CASE("table shots: what else a row of shots can hold") {
  const Read r(
      "series,place,landed,ball,mass g,diameter mm,diameter mm,speed m/s,frames,angle deg\n"
      "small,1,in,S7,7.5,25.0,25.2,23.5,,10\n"
      "small,2,in,,,,,,29.5,\n");
  REQUIRE(r.notes.empty());
  const Shot& a = r.shots.at(0);
  CHECK(a.ball == "S7");
  CHECK_THAT(a.mass->si(), WithinRel(0.0075, 1e-12));
  CHECK(a.diameters.size() == 2);
  CHECK_THAT(a.speed->si(), WithinRel(23.5, 1e-12));
  CHECK_THAT(a.angle->si(), WithinRel(0.17453292519943295, 1e-12));
  CHECK(r.shots.at(1).frames == 29.5);
  CHECK(r.shots.at(1).ball.empty());
}

TEST_CASE("table shots: the order of the columns changes nothing") {
  const Read a("series,place,landed,out s,mass g,diameter mm\nsmall,2,3 x -4 mm,40,7.5,25\n");
  const Read b("diameter mm;out min;landed;mass kg;place;series\n"
               "25;0.66666666666666667;3 x -4 mm;0.0075;2;small\n");
  REQUIRE(a.notes.empty());
  REQUIRE(b.notes.empty());
  const Shot& x = a.shots.at(0);
  const Shot& y = b.shots.at(0);
  CHECK(x.series == y.series);
  CHECK(x.place == y.place);
  CHECK(x.landing == y.landing);
  CHECK_THAT(y.where->right.si(), WithinRel(x.where->right.si(), 1e-14));
  CHECK_THAT(y.where->up.si(), WithinRel(x.where->up.si(), 1e-14));
  CHECK_THAT(y.out->si(), WithinRel(x.out->si(), 1e-12));
  CHECK_THAT(y.mass->si(), WithinRel(x.mass->si(), 1e-14));
}

TEST_CASE("table shots: mistakes in shots") {
  struct Case {
    const char* text;
    const char* code;
    int line, column;
    const char* hint;
  };
  const auto c = GENERATE(values<Case>({
      {"series,place,landed\nsmal,1,in\n", "T17", 2, 1, "did you mean \"small\"?"},
      {"series,place,landed\nsmall,4,in\n", "T18", 2, 7, "belongs to series \"large\""},
      {"series,place,landed\nsmall,9,in\n", "T18", 2, 7, "1, 2, 3"},
      {"series,place,landed\nsmall,,in\n", "T12", 2, 7, nullptr},
      {"series,place,landed\n,1,in\n", "T12", 2, 1, nullptr},
      {"series,place,landed\nsmall,1,\n", "T12", 2, 9, nullptr},
      {"series,place,landed\nsmall,1,hit\n", "T16", 2, 9, "in, miss, broke"},
      {"series,place,landed\nsmall,2,0 x -13 mm\n", "T19", 2, 9, "miss"},
      {"series,place\nsmall,1\n", "T08", 1, 1, "landed"},
      {"series,place,landed,out s\nsmall,1,in,3601\n", "T14", 2, 12, nullptr},
      {"series,place,landed,out s\nsmall,1,in,-1\n", "T14", 2, 12, nullptr},
      {"series,place,landed,angle deg\nsmall,1,in,91\n", "T14", 2, 12, nullptr},
      {"series,place,landed,speed m/s\nsmall,1,in,0\n", "T14", 2, 12, nullptr},
      {"series,place,landed,speed m/s,frames\nsmall,1,in,20,30\n", "T15", 2, 12, nullptr},
      {"series,place,landed,mass g,diameter mm\nsmall,1,in,9.0,25\n", "T22", 2, 1, nullptr},
      {"panel,series,place,landed\n,small,1,in\nA,small,1,in\n", "T12", 2, 1, nullptr},
  }));
  CAPTURE(c.text);
  const Read r(c.text);
  const Diagnostic& d = r.only_note();
  CHECK(d.code == c.code);
  CHECK(d.where.line == c.line);
  CHECK(d.where.column == c.column);
  if (c.hint != nullptr) CHECK_THAT(d.hints.at(0), Contains(c.hint));
}

TEST_CASE("table shots: frames after the shots need the video's frame rate") {
  Protocol protocol = two_series();
  protocol.speed.video.reset();
  const Read r("series,place,landed,frames\nsmall,1,in,30\nsmall,2,in,\n", protocol);
  CHECK(r.only_note().code == "T21");
  CHECK(r.only_note().where.column == 12);
}

TEST_CASE("table shots: spans of a table in a YAML block point into the YAML file") {
  Diagnostics notes;
  read_shots({2, 31, 5, "series,place,landed\nsmall,1,gone\n"}, two_series(), sized(), labels(),
             notes);
  REQUIRE(notes.items().size() == 1);
  CHECK(notes.items()[0].where.file == 2);
  CHECK(notes.items()[0].where.line == 32);
  CHECK(notes.items()[0].where.column == 13);
  CHECK(notes.items()[0].where.length == 4);
}

TEST_CASE("table shots: a shot at a sibling is an error") {
  TableLabels names = labels();
  names.siblings = {{{9, 5, 1, 1}, "D"}};
  const Read r("panel,series,place,landed\nA,small,1,in\nD,,2,in\n", two_series(), names);
  CHECK(r.only_note().code == "T24");
  CHECK(r.only_note().where.line == 3);
  CHECK_THAT(r.only_note().message, Contains("sibling panel \"D\""));
  CHECK(r.only_note().related.at(0).where.line == 5);
  CHECK(r.shots.size() == 1);
  // Siblings need no row here.
  CHECK(Read("panel,series,place,landed\nA,small,1,in\n", two_series(), names).notes.empty());
}

TEST_CASE("table shots: the time of day of a throw") {
  const Read r("series,place,landed,time\nsmall,1,in,13:05\n,2,in,\n,3,in,13:05\n"
               "large,4,in,13:58\n");
  REQUIRE(r.notes.empty());
  CHECK(r.shots.at(0).minute == 13 * 60 + 5);
  CHECK_FALSE(r.shots.at(1).minute);
  CHECK(r.shots.at(2).minute == 13 * 60 + 5);
  CHECK(r.shots.at(3).minute == 13 * 60 + 58);
}

TEST_CASE("table shots: time goes forward, inside a series and from one to the next") {
  for (const char* row : {"small,2,in,13:04\n", "large,4,in,13:04\n"}) {
    CAPTURE(row);
    const Read r(std::string("series,place,landed,time\nsmall,1,in,13:05\nsmall,3,in,\n") + row);
    CHECK(r.only_note().code == "T27");
    CHECK(r.only_note().where.line == 4);
    CHECK(r.only_note().where.column == 12);
    CHECK(r.only_note().related.at(0).where.line == 2);
    CHECK_THAT(r.only_note().message, Contains("13:04 after 13:05"));
  }
}

// Found by review: throws of a weaker series behind a harder one were sorted to the front in
// silence, and the hardest hit before a damage was told wrong.
TEST_CASE("table shots: a throw of a weaker series does not stand behind one of a harder") {
  const Read r("panel,series,place,landed\nA,small,1,in\nA,large,4,miss\nA,large,4,in\n"
               "A,small,2,miss\nA,large,4,in\nA,small,3,in\n");
  const Diagnostic& note = r.only_note();
  CHECK(note.code == "T36");
  CHECK(note.severity == Severity::error);
  CHECK(note.where.line == 5);
  CHECK(note.where.column == 3);
  CHECK(note.related.at(0).where.line == 4);
  CHECK_THAT(note.message, Contains("throw 4, of series \"small\"") &&
                               Contains("throw 3, of the harder series \"large\""));
  CHECK(note.hints.size() == 2);
  // Each panel has its own order.
  CHECK(Read("panel,series,place,landed\nB,large,4,in\nA,small,1,in\nB,large,4,in\nA,small,2,in\n"
             "A,large,4,in\n")
            .notes.empty());
}

// One word in the header, told apart by the unit.
TEST_CASE("table shots: the time between gates stands beside the time of day") {
  Protocol protocol = two_series();
  protocol.speed.video.reset();
  protocol.speed.gates.emplace();
  protocol.speed.gates->spacing = 300.0_mm;
  for (const char* header :
       {"series,place,landed,time ms,time", "series,place,landed,time,time ms"}) {
    const bool gates_first = std::string(header).find("time ms,") != std::string::npos;
    const Read r(std::string(header) + "\nsmall,1,in," +
                     (gates_first ? "12.5,13:05\n" : "13:05,12.5\n"),
                 protocol);
    CAPTURE(header);
    REQUIRE(r.notes.empty());
    CHECK(r.shots.at(0).minute == 13 * 60 + 5);
    CHECK_THAT(r.shots.at(0).time->si(), WithinRel(0.0125, 1e-12));
  }
  const Read slip("series,place,landed,time\nsmall,1,in,12.5\n", protocol);
  CHECK(slip.only_note().code == "T26");
  CHECK_THAT(slip.only_note().hints.at(1), Contains("time ms"));
  const Read twice("series,place,landed,time,time\nsmall,1,in,13:05,13:05\n", protocol);
  CHECK(twice.only_note().code == "T07");
}

TEST_CASE("table shots: a photo of where it hit") {
  const Read r("panel,series,place,landed,photo\nA,small,1,in,a 1.jpg\n,,2,in,\n");
  REQUIRE(r.notes.empty());
  REQUIRE(r.shots.size() == 2);
  CHECK(r.shots[0].photo == "a 1.jpg");
  CHECK(r.shots[1].photo.empty());
}
