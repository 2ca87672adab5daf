#include "input/table_landing.hpp"

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::input;

namespace {

struct Read {
  TableSource source;
  Diagnostics notes;
  std::optional<Landed> landed;

  /// `cell` in a table with the separator `;`.
  Read(const std::string& cell, const Place* place, const Panel& panel)
      : source{1, 1, 1, "landed;note\n" + cell + ";\n"} {
    const Sheet sheet(source, {{.name = "landed", .holds = Holds::landing}, {.name = "note"}},
                      notes);
    REQUIRE(sheet.rows().size() == 1);
    landed = read_landing(sheet, *sheet.cell(sheet.rows()[0], "landed"), place, panel, notes);
  }
};

Panel sized() {
  Panel panel;
  panel.size = Outline{Length::from_si(1.020), Length::from_si(0.510), std::nullopt};
  return panel;
}

Place corner() {
  return {"corner", Position{Length::from_si(0.040), Length::from_si(0.040)}, {}};
}

}  // namespace

TEST_CASE("table landing: the three words") {
  CHECK(Read("in", nullptr, {}).landed->kind == Landing::in);
  CHECK(Read("miss", nullptr, {}).landed->kind == Landing::miss);
  CHECK(Read("broke", nullptr, {}).landed->kind == Landing::broke);
}

TEST_CASE(
    "table landing: offsets and positions: right x up, in any length unit, either decimal mark") {
  struct Case {
    const char* cell;
    Landing kind;
    double right_mm, up_mm;
  };
  const auto c = GENERATE(values<Case>({
      {"8 x 12 mm", Landing::offset, 8, 12},
      {"8x12 mm", Landing::offset, 8, 12},
      {"-5 x 3 mm", Landing::offset, -5, 3},
      {"+5 x -3 mm", Landing::offset, 5, -3},
      {"0 x 0 mm", Landing::offset, 0, 0},
      {"0.5 x 1 in", Landing::offset, 12.7, 25.4},
      {"0,8 x 1,2 cm", Landing::offset, 8, 12},
      {"at 312 x 480 mm", Landing::at, 312, 480},
      {"at 31.2 x 48 cm", Landing::at, 312, 480},
  }));
  CAPTURE(c.cell);
  const Place place = corner();
  const Read r(c.cell, &place, sized());
  for (const Diagnostic& d : r.notes.items())
    UNSCOPED_INFO(d.message);
  REQUIRE(r.notes.empty());
  CHECK(r.landed->kind == c.kind);
  CHECK_THAT(r.landed->where->right.si(), WithinAbs(c.right_mm / 1000.0, 1e-12));
  CHECK_THAT(r.landed->where->up.si(), WithinAbs(c.up_mm / 1000.0, 1e-12));
}

TEST_CASE("table landing: what does not say where a ball landed") {
  const std::string cell = GENERATE("hit", "In", "8 x 12", "8 mm", "8 x 12 kg", "8 x mm", "x", "at",
                                    "at 5 mm", "8 x 12 x 3 mm", "8 mm x 12 mm", "a x b mm");
  CAPTURE(cell);
  const Read r(cell, nullptr, {});
  CHECK_FALSE(r.landed.has_value());
  REQUIRE(r.notes.items().size() == 1);
  CHECK(r.notes.items()[0].code == "T16");
  CHECK(r.notes.items()[0].where.line == 2);
  CHECK(r.notes.items()[0].hints.size() == 3);
}

TEST_CASE("table landing: a hit outside the panel is an error where that can be known") {
  const Place place = corner();
  Place nowhere = corner();
  nowhere.at.reset();
  SECTION("just on the edges") {
    CHECK(Read("-40 x -40 mm", &place, sized()).notes.empty());
    CHECK(Read("980 x 470 mm", &place, sized()).notes.empty());
    CHECK(Read("at 1020 x 510 mm", &place, sized()).notes.empty());
    CHECK(Read("at 0 x 0 mm", &place, sized()).notes.empty());
  }
  SECTION("beyond them") {
    const std::string cell = GENERATE("-41 x 0 mm", "0 x -41 mm", "981 x 0 mm", "0 x 471 mm",
                                      "at 1021 x 5 mm", "at 5 x 511 mm", "at -1 x 5 mm");
    CAPTURE(cell);
    const Read r(cell, &place, sized());
    REQUIRE(r.notes.items().size() == 1);
    CHECK(r.notes.items()[0].code == "T19");
  }
  SECTION("place or panel unknown") {
    CHECK(Read("981 x 0 mm", &nowhere, sized()).notes.empty());
    CHECK(Read("981 x 0 mm", &place, {}).notes.empty());
    CHECK(Read("at 312 x 480 mm", &place, {}).notes.empty());
    const Read r("at 312 x 480 mm", &nowhere, {});
    REQUIRE(r.notes.items().size() == 1);
    CHECK(r.notes.items()[0].code == "T20");
  }
  SECTION("no panel is that large") {
    const Read r("6000 x 0 mm", &nowhere, {});
    REQUIRE(r.notes.items().size() == 1);
    CHECK(r.notes.items()[0].code == "T14");
  }
}
