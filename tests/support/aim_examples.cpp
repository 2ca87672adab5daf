#include "support/aim_examples.hpp"

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

namespace hailwright::testing {

Position mm(double right, double up) {
  return {Length::from_si(right / 1000.0), Length::from_si(up / 1000.0)};
}

Panel framed_36_cells() {
  Panel panel;
  panel.name = "Rigid A";
  panel.size = Outline{1020.0_mm, 510.0_mm, 35.0_mm};
  panel.cells = CellGrid{9, 4, 25.0_mm, 2.0_mm};
  panel.junction_box = JunctionBox{mm(510, 450), 90.0_mm, 70.0_mm};
  panel.mounting_points = {mm(255, 12), mm(765, 12), mm(255, 498), mm(765, 498)};
  return panel;
}

Panel framed_32_cells() {
  Panel panel;
  panel.name = "Rigid C";
  panel.size = Outline{800.0_mm, 540.0_mm, 30.0_mm};
  panel.frame = 15.0_mm;
  panel.cells = CellGrid{8, 4, 28.0_mm, 3.0_mm};
  panel.junction_box = JunctionBox{mm(60, 270), 70.0_mm, 100.0_mm};
  panel.mounting_points = {mm(160, 8), mm(640, 8), mm(160, 532), mm(640, 532)};
  return panel;
}

Panel flexible_32_cells() {
  Panel panel;
  panel.name = "Flex B";
  panel.build = Build::flexible;
  panel.size = Outline{1050.0_mm, 540.0_mm, 3.0_mm};
  panel.cells = CellGrid{8, 4, 20.0_mm, 0.0_mm};
  panel.junction_box = JunctionBox{mm(525, 500), 80.0_mm, 60.0_mm};
  return panel;
}

namespace {

SeriesPlan series_at(const std::string& name, const std::string& grade) {
  const Grade* row = find_grade(grade);
  expects(row != nullptr && row->speed, "a published grade with a speed");
  SeriesPlan series;
  series.name = name;
  series.target = {grade, row, row->diameter, row->mass, *row->speed, std::nullopt};
  return series;
}

}  // namespace

SeriesPlan counted_series(const std::string& name, const std::string& grade, int first,
                          int places) {
  SeriesPlan series = series_at(name, grade);
  series.places_counted = true;
  for (int i = 0; i < places; ++i)
    series.places.push_back({std::to_string(first + i), std::nullopt, {}});
  return series;
}

SeriesPlan listed_series(const std::string& name, std::vector<Place> places) {
  SeriesPlan series = series_at(name, "IEC 61215 25 mm");
  series.places = std::move(places);
  return series;
}

Protocol eleven_and_five() {
  Protocol protocol;
  protocol.series = {counted_series("small", "IEC 61215 25 mm", 1, 11),
                     counted_series("large", "IEC 61215 35 mm", 12, 5)};
  return protocol;
}

PlaceLayout placed(const Protocol& protocol, const Panel& panel) {
  Checked<PlaceLayout> checked = layout_places(protocol, panel, usual_place_radius);
  for (const Diagnostic& note : checked.notes.items())
    UNSCOPED_INFO(note.message);
  CHECK(checked.notes.empty());
  REQUIRE(checked.value);
  return std::move(*checked.value);
}

}  // namespace hailwright::testing
