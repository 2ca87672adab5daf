#pragma once

#include <string>
#include <vector>

#include "hailwright/report/document.hpp"
#include "hailwright/safety/gate.hpp"

namespace hailwright {

/// One place to aim at, as ready text.
struct FieldSheetPlace {
  int number = 0;        ///< on the aim map
  std::string name;      ///< as the table of shots calls it
  std::string position;  ///< "40 x 40 mm from left and lower edge"; may be empty
};

/// One series of shots, weakest first. All figures are ready text, with units; an empty one is left
/// out.
struct FieldSheetSeries {
  std::string name;
  std::string ball;             ///< "25 mm ice, 7.53 g"
  std::string setting;          ///< of the launcher
  std::string speed_window;     ///< "23.4 m/s or more at the panel"
  std::string mass_window;      ///< "7.4 g to 7.9 g"
  std::string diameter_window;  ///< "23.8 mm to 26.3 mm"
  std::vector<FieldSheetPlace> places;
  int balls = 0;            ///< to take along; as many rows there are for throws
  int shots_per_place = 1;  ///< 1 or more
};

/// What is written down on the day of the test, for one panel.
struct FieldSheet {
  std::string panel;        ///< its name; not empty
  std::string test_title;   ///< of the protocol
  std::string fingerprint;  ///< of the protocol, for the record's `planned:`
  std::vector<FieldSheetSeries> series;
  Figure aim_map;  ///< without an svg: the panel file gives no size, and the sheet says so
  std::vector<std::string> stop_rules;
  std::vector<CautionItem> cautions;  ///< all that the test triggers, most urgent first
  /// Labels of the panels in the order in which one set-up reads them, one entry a reading: "C",
  /// "A", "A", "C". Empty: `readings` rows without a label.
  std::vector<std::string> reading_order;
  /// Columns of the speed in the tables of trials, or of shots where each is measured: "frames",
  /// "speed m/s", "time ms", "moved mm".
  std::vector<std::string> speed_columns;
  bool each_shot_measured = false;
  int setups_before = 0;
  int setups_after = 0;
  int readings = 0;      ///< of one panel in one set-up
  bool control = false;  ///< an unstruck panel is read beside it
  /// With siblings: the letter of the struck panel, and theirs.
  std::string label;
  std::vector<std::string> siblings;
};

/// Appends the sheets of one panel, to be printed and written on: what to see to before, set-ups
/// before the shots, aim map and balls, trial shots, the throws of each series, when to stop,
/// looks, what to see to afterwards, and set-ups after the shots. The columns are those of
/// docs/tables.md, so that the sheets are typed as they stand; what goes into the record (the day,
/// set-ups, looks, what went otherwise) is asked for in its words.
///
/// Sets the document's title and foot where they are empty; the foot is the shortest caution.
/// Sheets of further panels may be appended to the same document, if their aim maps differ in id.
/// Takes the gate's leave, since settings and speeds help to launch.
///
/// Contract: a name of the panel, a name of each series, a caution.
void append_field_sheet(const Clearance& clearance, const FieldSheet& sheet, Document& out);

}  // namespace hailwright
