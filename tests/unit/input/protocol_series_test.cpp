#include "input/protocol_series.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;
using input_files::Seen;
using input_files::tree;

namespace {

std::vector<SeriesPlan> read(const std::string& yaml, Diagnostics& notes) {
  return read_series(tree(yaml).items, notes);
}

Diagnostic fault(const std::string& yaml) {
  Diagnostics notes;
  read(yaml, notes);
  return only(notes);
}

}  // namespace

TEST_CASE("protocol_series: a grade, a ball of one's own, places of every form") {
  Diagnostics notes;
  const auto series = read(R"(- {name: small, grade: IEC 61215 25 mm, places: 11, setting: mark 3}
- {name: own, ball: {diameter: 30 mm, mass: 13 g, speed: 24 m/s}, tolerance: 3 %,
   places: [corner, {name: edge, at: 255 x 30 mm}], place_size: 10 mm}
- {name: large, grade: IEC 61215 35 mm, places: 2 places}
)",
                           notes);
  CAPTURE(seen(notes));
  CHECK(notes.empty());
  REQUIRE(series.size() == 3);
  CHECK(series[0].target.label == "IEC 61215 25 mm");
  REQUIRE(series[0].target.grade != nullptr);
  CHECK(series[0].target.mass == series[0].target.grade->mass);
  CHECK_FALSE(series[0].target.tolerance);
  CHECK(series[0].setting == "mark 3");
  REQUIRE(series[0].places.size() == 11);
  CHECK(series[0].places.front().name == "1");
  CHECK(series[1].target.label == "free: 30 mm, 13 g, 24 m/s");
  CHECK(series[1].target.grade == nullptr);
  CHECK(series[1].target.diameter == 30.0_mm);
  CHECK(series[1].target.tolerance == percent(3));
  CHECK(series[1].place_radius == 10.0_mm);
  REQUIRE(series[1].places.size() == 2);
  CHECK(series[1].places[0].name == "corner");
  CHECK_FALSE(series[1].places[0].at);
  CHECK(series[1].places[0].kind == PlaceKind::corner);
  CHECK(series[0].places_counted);
  CHECK_FALSE(series[1].places_counted);
  CHECK(series[1].places[1].at->right == 255.0_mm);
  CHECK(series[1].places[1].origin.line == 3);
  // Numbers run on through all series, so that each names one place.
  REQUIRE(series[2].places.size() == 2);
  CHECK(series[2].places[0].name == "12");
  CHECK(series[2].places[1].name == "13");
}

TEST_CASE("protocol_series: kinds of places, by name or by key") {
  Diagnostics notes;
  const auto series = read(R"(- name: a
  grade: IEC 61215 25 mm
  places: [corner, corner 2, logo, {name: mine, kind: cell edge},
           {name: junction box, at: 255 x 30 mm}, {name: edge, kind: near mount}]
)",
                           notes);
  CAPTURE(seen(notes));
  CHECK(notes.empty());
  REQUIRE(series.size() == 1);
  std::vector<std::optional<PlaceKind>> kinds;
  for (const Place& place : series[0].places)
    kinds.push_back(place.kind);
  CHECK(kinds == std::vector<std::optional<PlaceKind>>{
                     PlaceKind::corner, PlaceKind::corner, std::nullopt, PlaceKind::cell_edge,
                     PlaceKind::junction_box, PlaceKind::near_mount});
  for (const Place& place : series[0].places)
    CHECK_FALSE(place.found);
  const Diagnostic slip =
      fault("- {name: a, grade: IEC 61215 25 mm, places: [{name: x, kind: cell edges}]}\n");
  CHECK(slip.code == "K06");
  CHECK(slip.where.column == 62);
  CHECK_THAT(slip.hints.at(0), Contains("cell edge"));
}

TEST_CASE("protocol_series: grades that are not offered say why") {
  const Diagnostic slip = fault("- {name: a, grade: IEC 61215 26 mm, places: 1}\n");
  CHECK(slip.code == "K12");
  CHECK_THAT(slip.hints.at(0), Contains("did you mean 'IEC 61215 2"));
  const Diagnostic unread = fault("- {name: a, grade: IEC TS 63397 40 mm, places: 1}\n");
  CHECK(unread.code == "K12");
  CHECK_THAT(unread.hints.at(0), Contains("IEC TS 63397 is not offered"));
  CHECK_THAT(fault("- {name: a, grade: hailstorm, places: 1}\n").hints.at(0), Contains("grades"));
  // One row of each sort that cannot be thrown here, whatever the table calls it.
  const Grade* steel = nullptr;
  const Grade* no_speed = nullptr;
  for (const Grade& grade : impact_grades()) {
    if (grade.projectile != Projectile::ice) steel = &grade;
    if (grade.projectile == Projectile::ice && !grade.speed) no_speed = &grade;
  }
  REQUIRE(steel != nullptr);
  const Diagnostic not_ice =
      fault("- {name: a, grade: \"" + grade_label(*steel) + "\", places: 1}\n");
  CHECK(not_ice.code == "C06");
  CHECK_THAT(not_ice.message, Contains("not of ice"));
  if (no_speed != nullptr) {
    const Diagnostic slow =
        fault("- {name: a, grade: \"" + grade_label(*no_speed) + "\", places: 1}\n");
    CHECK(slow.code == "C06");
    CHECK_THAT(slow.message, Contains("sets no speed"));
  }
}

TEST_CASE("protocol_series: faults at their places") {
  struct Row {
    const char* yaml;
    const char* code;
    int column;
  };
  const Row row = GENERATE(
      Row{"- {name: before, grade: IEC 61215 25 mm, places: 1}\n", "K13", 10},
      Row{"- {name: throw 7, grade: IEC 61215 25 mm, places: 1}\n", "K13", 10},
      Row{"- {name: a/b, grade: IEC 61215 25 mm, places: 1}\n", "K13", 10},
      Row{"- {name: a, places: 1}\n", "K02", 3},
      Row{"- {grade: IEC 61215 25 mm, places: 1}\n", "K02", 3},
      Row{"- {name: a, grade: IEC 61215 25 mm}\n", "K02", 3},
      Row{"- {name: a, grade: IEC 61215 25 mm, places: 0}\n", "R02", 45},
      Row{"- {name: a, grade: IEC 61215 25 mm, places: 501}\n", "R02", 45},
      Row{"- {name: a, grade: IEC 61215 25 mm, places: many}\n", "U14", 45},
      Row{"- {name: a, grade: IEC 61215 25 mm, places: []}\n", "K14", 45},
      Row{"- {name: a, grade: IEC 61215 25 mm, places: {a: b}}\n", "K05", 45},
      Row{"- {name: a, grade: IEC 61215 25 mm, places: [x, x]}\n", "C05", 49},
      Row{"- {name: a, grade: IEC 61215 25 mm, places: [{at: 1 x 2 mm}]}\n", "K02", 46},
      Row{"- {name: a, grade: IEC 61215 25 mm, places: [{name: x, at: 1 x 2}]}\n", "U02", 64},
      Row{"- {name: a, grade: IEC 61215 25 mm, places: 1, tolerance: 30 %}\n", "R01", 59},
      Row{"- {name: a, grade: IEC 61215 25 mm, places: 1, place_size: 1 m}\n", "R01", 60},
      Row{"- {name: a, ball: {diameter: 30 mm, mass: 13 g}, places: 1}\n", "K02", 13},
      Row{"- {name: a, ball: {diameter: 30 mm, mass: 13 kg, speed: 24 m/s}, places: 1}\n", "R01",
          43},
      Row{"- {name: a, ball: {diameter: 3 mm, mass: 13 g, speed: 24 m/s}, places: 1}\n", "R01", 30},
      Row{"- {name: a, ball: 30 mm, places: 1}\n", "K05", 19}, Row{"- small\n", "K05", 3});
  CAPTURE(row.yaml);
  const Diagnostic note = fault(row.yaml);
  CHECK(note.code == row.code);
  CHECK(note.where.column == row.column);
}

TEST_CASE("protocol_series: faults between two entries name both") {
  const Diagnostic both = fault("- name: a\n  grade: IEC 61215 25 mm\n  ball: {diameter: 30 mm, "
                                "mass: 13 g, speed: 24 m/s}\n  places: 1\n");
  CHECK(both.code == "C04");
  CHECK(both.where.line == 3);
  CHECK(both.related.at(0).where.line == 2);
  const Diagnostic names = fault("- {name: a, grade: IEC 61215 25 mm, places: 1}\n"
                                 "- {name: a, grade: IEC 61215 35 mm, places: 1}\n");
  CHECK(names.code == "C05");
  CHECK(names.where.line == 2);
  CHECK(names.related.at(0).where.line == 1);
  const Diagnostic places = fault("- {name: a, grade: IEC 61215 25 mm, places: 2}\n"
                                  "- {name: b, grade: IEC 61215 35 mm, places: [2]}\n");
  CHECK(places.code == "C05");
  const Diagnostic order = fault("- {name: a, grade: IEC 61215 35 mm, places: 1}\n"
                                 "- {name: b, grade: IEC 61215 25 mm, places: 1}\n");
  CHECK(order.code == "C07");
  CHECK(order.where.line == 2);
  CHECK(order.related.at(0).where.line == 1);
}

TEST_CASE("protocol_series: two series of the same energy are in order") {
  Diagnostics notes;
  read("- {name: a, grade: IEC 61215 25 mm, places: 1}\n"
       "- {name: b, grade: IEC 61215 25 mm, places: 1}\n",
       notes);
  CHECK(notes.empty());
}
