#include "input/panel_reader.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using input_files::Files;
using input_files::only;
using input_files::seen;

namespace {

Checked<Panel> read(const std::string& text) {
  const Files files{{"a.yaml", text}};
  SourceSet sources;
  return read_panel("a.yaml", input_files::loader(files), sources);
}

const std::string head = "hailwright: panel 1\nname: Panel A\nbuild: {kind: framed glass}\n";

}  // namespace

TEST_CASE("panel_reader: every key") {
  const auto checked = read(R"(hailwright: panel 1
name: Panel A
build: {kind: flexible, glass: 3.2 mm}
rated: {power: 100 W, open_voltage: 22.1 V, short_current: 5.9 A}
temperature: {power: {value: -0.35 %/K, half_width: 0.05 %/K}, voltage: -0.28 %/K}
size: 1020 x 510 x 35 mm
frame: 0 mm
cells: {grid: 9 x 4, margin: 25 mm, gap: 2 mm}
junction_box: {at: 510 x 60 mm, size: 90 x 70 mm}
mounts: [100 x 20 mm, 920 x 20 mm]
weight: 6.9 kg
price: 89.50 EUR
leads: {length: 0.9 m, connector: "round plugs, one a pole"}
substrings: 2
smallest_radius: 300 mm
came: {bought_by: me, from: shop, on: 2026-05-20, condition: "new, no marks"}
)");
  CAPTURE(seen(checked.notes));
  CHECK(checked.notes.empty());
  REQUIRE(checked.value);
  const Panel& p = *checked.value;
  CHECK(p.name == "Panel A");
  CHECK(p.build == Build::flexible);
  CHECK(p.glass == 3.2_mm);
  CHECK(p.rated_power == Power::from_si(100));
  CHECK(p.open_voltage == Voltage::from_si(22.1));
  CHECK(p.short_current == Current::from_si(5.9));
  CHECK_THAT(p.power_coefficient->si(), WithinRel(-0.0035, 1e-12));
  REQUIRE(p.power_coefficient_stated);
  CHECK_THAT(p.power_coefficient_stated->size.si(), WithinRel(0.0005, 1e-12));
  CHECK_THAT(p.voltage_coefficient->si(), WithinRel(-0.0028, 1e-12));
  CHECK_FALSE(p.voltage_coefficient_stated);
  REQUIRE(p.size);
  CHECK(p.size->long_side == 1.02_m);
  CHECK(p.size->short_side == 0.51_m);
  CHECK(p.size->thickness == 35.0_mm);
  CHECK(p.cells->along == 9);
  CHECK(p.frame == Length{});
  CHECK(p.cells->margin == 25.0_mm);
  CHECK(p.cells->gap == 2.0_mm);
  CHECK(p.junction_box->at.up == 60.0_mm);
  CHECK(p.junction_box->height == 70.0_mm);
  REQUIRE(p.mounting_points.size() == 2);
  CHECK(p.mounting_points[1].right == 920.0_mm);
  CHECK_THAT(p.weight->si(), WithinRel(6.9, 1e-12));
  CHECK(p.price->currency == "EUR");
  CHECK(p.price->amount == 89.5);
  CHECK_FALSE(p.lowest_price);
  CHECK(p.lead_length == 0.9_m);
  CHECK(p.connector == "round plugs, one a pole");
  CHECK(p.substrings == 2);
  CHECK(p.smallest_radius == 300.0_mm);
  CHECK(p.came->condition == "new, no marks");
}

TEST_CASE("panel_reader: a price of several shops is reckoned with by its average") {
  const auto checked = read(head + "price: {low: 79 EUR, high: 99.50 EUR, average: 88 EUR}\n");
  REQUIRE(checked.value);
  const Panel& p = *checked.value;
  CHECK(p.price->amount == 88.0);
  CHECK(p.lowest_price->amount == 79.0);
  CHECK(p.highest_price->amount == 99.5);
  CHECK(p.highest_price->currency == "EUR");
  CHECK(read(head + "price: {low: 89 EUR, high: 89 EUR, average: 89 EUR}\n").value);
}

TEST_CASE("panel_reader: unknown coefficients are absent") {
  for (const std::string text :
       {"temperature: unknown\n", "temperature: {power: unknown, voltage: unknown}\n", ""}) {
    const auto checked = read(head + text);
    CAPTURE(text);
    REQUIRE(checked.value);
    CHECK_FALSE(checked.value->power_coefficient);
    CHECK_FALSE(checked.value->voltage_coefficient);
  }
  const auto plain = read(head + "temperature: {power: -0.35 %/K}\n");
  REQUIRE(plain.value);
  CHECK(plain.value->power_coefficient);
  CHECK_FALSE(plain.value->power_coefficient_stated);
}

TEST_CASE("panel_reader: faults at their places") {
  struct Row {
    const char* line;
    const char* code;
    int column;
  };
  const Row row = GENERATE(
      Row{"temperature: {power: 0.35 %/K}\n", "R01", 22},
      Row{"temperature: {power: -35 %/K}\n", "R01", 22},
      Row{"temperature: {power: -0.35 %}\n", "U03", 28}, Row{"temperature: -0.35 %/K\n", "K05", 14},
      Row{"size: 510 x 1020 mm\n", "C08", 7}, Row{"size: 1020 mm\n", "U20", 7},
      Row{"size: 1020 x 510 m\n", "R01", 7}, Row{"cells: {margin: 5 mm}\n", "K02", 1},
      Row{"cells: {grid: 9}\n", "U20", 15}, Row{"frame: 12\n", "U02", 8},
      Row{"frame: 200 mm\n", "R01", 8}, Row{"cells: {grid: 9 x 4, gap: 60 mm}\n", "R01", 27},
      Row{"size: 150 x 150 mm\nframe: 80 mm\n", "C28", 8},
      Row{"size: 1020 x 510 mm\ncells: {grid: 200 x 4, gap: 10 mm}\n", "C29", 8},
      Row{"junction_box: {at: 5 x 6 mm}\n", "K02", 1},
      Row{"size: 1020 x 510 mm\njunction_box: {at: 510 x 600 mm, size: 9 x 7 mm}\n", "C09", 20},
      Row{"size: 1020 x 510 mm\nmounts: [1100 x 20 mm]\n", "C09", 10}, Row{"price: 89\n", "U15", 8},
      Row{"price: -89 EUR\n", "R01", 8}, Row{"weight: 6900 kg\n", "R01", 9},
      Row{"came: {on: 20.5.2026}\n", "R03", 12}, Row{"rated: {power: 100 V}\n", "U03", 20},
      Row{"price: {low: 79 EUR, high: 99 EUR}\n", "K02", 1},
      Row{"price: {low: 79 EUR, high: 99 USD, average: 89 EUR}\n", "C53", 28},
      Row{"price: {low: 79 EUR, high: 99 EUR, average: 89 USD}\n", "C53", 45},
      Row{"price: {low: 79 EUR, high: 99 EUR, average: 78 EUR}\n", "C53", 45},
      Row{"price: {low: 79 EUR, high: 88 EUR, average: 89 EUR}\n", "C53", 28},
      Row{"price: {low: -9 EUR, high: 99 EUR, average: 89 EUR}\n", "R01", 14},
      Row{"leads: {length: 0 m}\n", "R01", 17}, Row{"leads: {plug: round}\n", "K01", 9},
      Row{"substrings: 13\n", "R02", 13}, Row{"smallest_radius: 30 m\n", "R01", 18},
      Row{"colour: blue\n", "K01", 1});
  CAPTURE(row.line);
  const auto checked = read(head + row.line);
  CHECK_FALSE(checked.value);
  const Diagnostic note = only(checked.notes);
  CHECK(note.code == row.code);
  CHECK(note.where.column == row.column);
}

TEST_CASE("panel_reader: a frame that is not stated is absent, and cells begin at its inner edge") {
  const auto framed = read(head + "size: 1020 x 510 mm\ncells: {grid: 9 x 4}\n");
  REQUIRE(framed.value);
  CHECK_FALSE(framed.value->frame);
  CHECK(framed.value->cells->margin == 12.0_mm);
  CHECK(framed.value->cells->gap == Length{});
  const auto stated = read(head + "frame: 9 mm\ncells: {grid: 9 x 4}\n");
  REQUIRE(stated.value);
  CHECK(stated.value->frame == 9.0_mm);
  CHECK(stated.value->cells->margin == 9.0_mm);
  const std::string flexible = "hailwright: panel 1\nname: B\nbuild: {kind: flexible}\n";
  const auto without = read(flexible + "cells: {grid: 8 x 4}\n");
  REQUIRE(without.value);
  CHECK(without.value->cells->margin == Length{});
  const Diagnostic contradiction = only(read(flexible + "frame: 12 mm\n").notes);
  CHECK(contradiction.code == "C28");
  CHECK_THAT(contradiction.hints.at(1), Contains("frame: 0 mm"));
}

TEST_CASE("panel_reader: name and build are asked for") {
  const auto checked = read("hailwright: panel 1\n");
  CHECK(checked.notes.items().size() == 2);
  CHECK(only(read("hailwright: panel 1\nname: A\nbuild: {kind: glass}\n").notes).code == "K06");
}
