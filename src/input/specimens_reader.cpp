#include "input/specimens_reader.hpp"

#include <fmt/format.h>

#include <map>

#include "hailwright/input/readers.hpp"
#include "input/protocol_reader.hpp"
#include "input/table_source.hpp"

namespace hailwright::input {

namespace {

// Ranges [ours]: any ball that a home launcher throws, and no slip in the unit.
constexpr Range energy_range{least_specimen_energy.si(), most_specimen_energy.si(),
                             "from 0.001 J to 1000 J"};
constexpr Range step_range{0.02, 1.0, "from 2 % to 100 %"};
constexpr std::size_t most_specimens = 2000;
constexpr Limits energy_limits{least_specimen_energy.si(), most_specimen_energy.si(), false,
                               "from 0.001 J to 1000 J"};
constexpr Limits mass_limits{0.0, 1.0, true, "above 0 g, up to 1 kg"};
constexpr Limits speed_limits{0.0, 100.0, true, "above 0 m/s, up to 100 m/s"};

std::optional<StaircasePlan> read_staircase(const Entry& entry, Diagnostics& notes) {
  const MapReader map(entry.value, staircase_keys, entry.key_span, notes);
  map.require("start", "write the energy of the first level: start: 6 J");
  map.require("step", "write how much higher each level is than the one below: step: 20 %");
  const auto start = map.quantity<Energy>("start", energy_range);
  const auto step = map.quantity<Ratio>("step", step_range);
  if (!start || !step) return std::nullopt;
  return StaircasePlan{entry.key_span, *start, *step};
}

template <class Q>
std::optional<Stated<Q>> read_error(const MapReader& specimens, std::string_view key) {
  const Entry* entry = specimens.find(key);
  if (entry == nullptr) return std::nullopt;
  const MapReader map(entry->value, specimen_error_keys, entry->key_span, specimens.notes());
  return stated_as<Q>(read_statement(map, {MeasureOf<Q>::value, true, false}));
}

std::optional<Energy> energy_of_ball(const Cell& mass_cell, const SpecimenTest& test,
                                     Diagnostics& notes) {
  const Energy energy = 0.5 * (*test.mass * (*test.speed * *test.speed));
  if (energy >= least_specimen_energy && energy <= most_specimen_energy) return energy;
  notes.error(
      "T14", mass_cell.origin, "the energy of this mass and speed is out of range",
      {fmt::format("energies are {}", energy_limits.words), "look at the units in the header"});
  return std::nullopt;
}

/// The energy of a row: typed, or of the ball's mass and speed.
std::optional<Energy> read_energy_cells(const Sheet& sheet, const CellRow& row, SpecimenTest& test,
                                        Diagnostics& notes) {
  const Cell* energy = sheet.cell(row, "energy");
  const Cell* mass = sheet.cell(row, "mass");
  const Cell* speed = sheet.cell(row, "speed");
  if (energy != nullptr) {
    if (const Cell* other = mass != nullptr ? mass : speed) {
      notes
          .error("T15", energy->origin, "this row has an energy, and a mass or a speed too",
                 {"keep the energy, or the mass and the speed that it comes from"})
          .related.push_back({other->origin, "the other one"});
      return std::nullopt;
    }
    const auto value = sheet.value(row, "energy", energy_limits, notes);
    if (!value) return std::nullopt;
    return Energy::from_si(*value);
  }
  if (mass == nullptr || speed == nullptr) {
    notes.error("T12", row.origin, "this test tells no energy",
                {"fill in  energy J,  or both  mass g  and  speed m/s"});
    return std::nullopt;
  }
  const auto kilograms = sheet.value(row, "mass", mass_limits, notes);
  const auto metres_per_second = sheet.value(row, "speed", speed_limits, notes);
  if (!kilograms || !metres_per_second) return std::nullopt;
  test.mass = Mass::from_si(*kilograms);
  test.speed = Speed::from_si(*metres_per_second);
  return energy_of_ball(*mass, test, notes);
}

/// Never taken from above or from a blank: what was seen is typed.
std::optional<bool> read_damaged(const Sheet& sheet, const CellRow& row, Diagnostics& notes) {
  const Cell* cell = sheet.required_cell(row, "damaged", notes);
  if (cell == nullptr) return std::nullopt;
  if (cell->text == "yes" || cell->text == "no") return cell->text == "yes";
  notes.error("T16", cell->origin,
              fmt::format("{} does not say whether the specimen was damaged", shown(cell->text)),
              word_hints(cell->text, {"yes", "no"}));
  return std::nullopt;
}

std::vector<SpecimenTest> read_tests(const TableSource& source, Diagnostics& notes) {
  const Sheet sheet(source, specimen_columns(), notes);
  std::vector<SpecimenTest> tests;
  if (!sheet.usable()) return tests;
  if (sheet.rows().size() > most_specimens) {
    notes.error("T01", sheet.header(),
                fmt::format("the table has {} specimens, more than {}", sheet.rows().size(),
                            most_specimens),
                {"nobody strikes so many by hand: name the right table"});
    return tests;
  }
  MessageLimit limit(notes);
  std::map<std::string, SourceSpan, std::less<>> struck;
  for (const CellRow& row : sheet.rows()) {
    if (limit.reached(row.origin, notes)) break;
    SpecimenTest test;
    test.origin = row.origin;
    test.note = sheet.text(row, "note");
    const Cell* name = sheet.required_cell(row, "specimen", notes);
    const auto energy = read_energy_cells(sheet, row, test, notes);
    const auto damaged = read_damaged(sheet, row, notes);
    if (name == nullptr) continue;
    test.specimen = name->text;
    const auto [before, fresh] = struck.try_emplace(test.specimen, name->origin);
    if (!fresh) {
      notes
          .error("T35", name->origin,
                 fmt::format("specimen {} was struck before", shown(test.specimen)),
                 {"each specimen is struck once: the first hit may have weakened it; leave the "
                  "later rows out, or give another specimen its own name"})
          .related.push_back({before->second, "its first hit"});
      continue;
    }
    if (!energy || !damaged) continue;
    test.energy = *energy;
    test.damaged = *damaged;
    tests.push_back(std::move(test));
  }
  return tests;
}

/// A protocol that is named must be there and right; what is read of it is the command's.
void read_named_protocol(const MapReader& map, Specimens& specimens, const std::string& path,
                         const Loader& load, SourceSet& sources) {
  const Entry* entry = map.find("protocol");
  const std::string named = map.text("protocol");
  if (entry == nullptr || named.empty()) return;
  specimens.protocol = path_beside(path, named);
  const auto document = open_document(specimens.protocol, FileKind::protocol, entry->value.span,
                                      load, sources, map.notes());
  if (document) read_protocol(*document, map.notes());
}

}  // namespace

std::vector<ColumnRule> specimen_columns() {
  return {
      {.name = "specimen", .required = true, .means = "its name; each specimen is struck once"},
      {.name = "energy",
       .holds = Holds::quantity,
       .measure = Measure::energy,
       .unit = "J",
       .means = "kinetic energy of the ball at the specimen"},
      {.name = "mass",
       .holds = Holds::quantity,
       .measure = Measure::mass,
       .unit = "g",
       .in_new = 0,
       .means = "of the ball, with speed instead of energy"},
      {.name = "speed",
       .holds = Holds::quantity,
       .measure = Measure::speed,
       .unit = "m/s",
       .in_new = 0,
       .means = "of the ball at the specimen, with mass instead of energy"},
      {.name = "damaged", .required = true, .means = "yes or no, by what the file calls damage"},
      {.name = "note", .means = "what you want to remember"},
  };
}

Specimens read_specimens(const Document& document, const std::string& path, const Loader& load,
                         SourceSet& sources, Diagnostics& notes) {
  const MapReader map(document.root, specimens_keys, document.head(), notes);
  Specimens specimens;
  specimens.origin = document.head();
  map.require("title", "write what the specimens are, in a few words");
  specimens.title = map.text("title");
  map.require("damage", "write what counts as damage: damage: a crack that can be seen without a "
                        "lens");
  specimens.damage = map.text("damage");
  read_named_protocol(map, specimens, path, load, sources);
  if (const Entry* e = map.find("staircase")) specimens.staircase = read_staircase(*e, notes);
  specimens.energy_error = read_error<Ratio>(map, "energy");
  specimens.mass_error = read_error<Mass>(map, "mass");
  specimens.speed_error = read_error<Speed>(map, "speed");
  if (const Entry* e = map.require("tests", "name the table of tests, as in  tests: tests.csv")) {
    if (const auto source = read_table_source(*e, path, load, sources, notes))
      specimens.tests = read_tests(*source, notes);
  }
  return specimens;
}

const std::vector<KeyList>& specimens_key_lists() {
  static const std::vector<KeyList> lists{specimens_keys, staircase_keys, specimen_error_keys,
                                          uncertainty_keys};
  return lists;
}

}  // namespace hailwright::input

namespace hailwright {

Checked<Specimens> read_specimens(const std::string& path, const Loader& load, SourceSet& sources) {
  Checked<Specimens> result;
  const auto document =
      input::open_document(path, FileKind::specimens, std::nullopt, load, sources, result.notes);
  if (!document) return result;
  Specimens specimens = input::read_specimens(*document, path, load, sources, result.notes);
  if (!result.notes.has_errors()) result.value = std::move(specimens);
  return result;
}

}  // namespace hailwright
