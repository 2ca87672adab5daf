#include "input/protocol_measure.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;
using input_files::Seen;
using input_files::tree;

namespace {

MeasurementPlan read(const std::string& yaml, Diagnostics& notes) {
  return read_measure(tree("measure:\n" + yaml).entries.at(0), notes);
}

}  // namespace

TEST_CASE("protocol_measure: every key") {
  Diagnostics notes;
  const MeasurementPlan plan = read(R"(  compare: control-panel
  before: 3
  after: 4
  readings: 6
  meters: 2
  maximum_power: tracker settled
  load: power station
  redone: [mount, probe]
  setup_scatter: {alignment: 0.3 %, contact: {accuracy: 0.3 %, of: leads}, aim: {spread: 0.1 %}}
  expected_scatter: 0.6 %
  day: 0.4 %
  stage: 0 %
  control_stability: 0.15 %
  trend: fitted
  readings_independent: the sky changed between them
  cell_above_back: {value: 3 K, half_width: 1 K}
)",
                                    notes);
  CAPTURE(seen(notes));
  CHECK(notes.empty());
  CHECK(plan.compare == Comparison::control_panel);
  CHECK(plan.before == 3);
  CHECK(plan.after == 4);
  CHECK(plan.readings == 6);
  CHECK(plan.meters == 2);
  CHECK(plan.maximum_power == MaximumPower::tracker_settled);
  CHECK(plan.load == "power station");
  CHECK(plan.redone == std::vector<Redone>{Redone::mount, Redone::probe});
  REQUIRE(plan.setup_scatter.size() == 3);
  CHECK(plan.setup_scatter[0].name == "alignment");
  CHECK(plan.setup_scatter[0].standard_u == percent(0.3));
  CHECK_FALSE(plan.setup_scatter[0].of);
  // A maker's half-width is divided by the root of 3 (JCGM 100:2008, 4.3.7).
  CHECK_THAT(plan.setup_scatter[1].standard_u.si(), WithinRel(0.003 / 1.7320508075688772, 1e-12));
  CHECK(plan.setup_scatter[1].shape == Shape::rectangular);
  CHECK(plan.setup_scatter[1].of == Redone::leads);
  CHECK(plan.setup_scatter[2].standard_u == percent(0.1));
  CHECK(plan.expected_scatter == percent(0.6));
  CHECK(plan.day == percent(0.4));
  CHECK(plan.stage == percent(0.0));
  CHECK(plan.control_stability == percent(0.15));
  CHECK(plan.fitted_trend);
  CHECK_FALSE(plan.siblings);
  CHECK_FALSE(plan.unit_tolerance);
  CHECK_FALSE(plan.readings_independent.empty());
  REQUIRE(plan.cell_above_back);
  CHECK(plan.cell_above_back->value.si() == 3.0);
  CHECK(plan.cell_above_back->size.si() == 1.0);
}

TEST_CASE("protocol_measure: a plain cell_above_back states no error") {
  Diagnostics notes;
  const MeasurementPlan plan =
      read("  compare: same-panel\n  maximum_power: sweep\n  cell_above_back: 2 K\n", notes);
  CHECK(notes.empty());
  REQUIRE(plan.cell_above_back);
  CHECK(plan.cell_above_back->value.si() == 2.0);
  CHECK(plan.cell_above_back->size.si() == 0.0);
}

// Set-ups that do not differ at all are no plan; a plan without the key has no figure.
TEST_CASE("protocol_measure: the expected scatter is more than nothing") {
  for (const char* wrong : {"0 %", "60 %"}) {
    CAPTURE(wrong);
    Diagnostics notes;
    read("  compare: same-panel\n  maximum_power: sweep\n  expected_scatter: " +
             std::string(wrong) + "\n",
         notes);
    CHECK(only(notes).code == "R01");
  }
  Diagnostics notes;
  CHECK_FALSE(read("  compare: same-panel\n  maximum_power: sweep\n", notes).expected_scatter);
  CHECK(notes.empty());
}

TEST_CASE("protocol_measure: what has no default is asked for, with the reason") {
  Diagnostics notes;
  read("  compare: control-panel\n", notes);
  REQUIRE(notes.items().size() == 2);
  CHECK(notes.items()[0].message == "'maximum_power' is missing in measure");
  CHECK_THAT(notes.items()[0].hints.at(0), Contains("meaningless"));
  CHECK(notes.items()[1].message == "'meters' is missing in measure");
}

TEST_CASE("protocol_measure: faults") {
  Diagnostics notes;
  read(R"(  compare: controlpanel
  before: 0
  meters: 3
  maximum_power: full
  redone: [mount, mount, lead]
  setup_scatter: {a: {of: leads}, b: {spread: 0.3 K}, c: 3}
  day: -1 %
  cell_above_back: {value: 50 K, u: 1 K}
)",
       notes);
  CHECK(seen(notes) == std::vector<Seen>{{"K06", 2, 12},
                                         {"R02", 3, 11},
                                         {"R02", 4, 11},
                                         {"K06", 5, 18},
                                         {"C05", 6, 19},
                                         {"K06", 6, 26},
                                         {"K02", 7, 19},
                                         {"U03", 7, 51},
                                         {"U02", 7, 58},
                                         {"R01", 8, 8},
                                         {"R01", 9, 28}});
  Diagnostics list;
  read("  compare: same-panel\n  maximum_power: sweep\n  setup_scatter: [a]\n", list);
  CHECK(only(list).code == "K05");
}

TEST_CASE("protocol_measure: a comparison with siblings") {
  Diagnostics notes;
  const MeasurementPlan plan = read(R"(  compare: sibling-panel
  meters: 2
  after: 3
  maximum_power: sweep
  siblings: 3
  unit_tolerance: 3 %
  trend: none
)",
                                    notes);
  CAPTURE(seen(notes));
  CHECK(notes.empty());
  CHECK(plan.compare == Comparison::sibling_panel);
  CHECK(plan.siblings == 3);
  CHECK(plan.unit_tolerance == percent(3));
  CHECK_FALSE(plan.fitted_trend);
  Diagnostics missing;
  read("  compare: sibling-panel\n  maximum_power: sweep\n", missing);
  CHECK(only(missing).message == "'meters' is missing in measure");
}

TEST_CASE("protocol_measure: keys of another comparison say nothing") {
  struct Row {
    const char* compare;
    const char* key;
    const char* about;
  };
  const Row row = GENERATE(Row{"same-panel", "siblings: 3", "sibling panels"},
                           Row{"control-panel", "siblings: 3", "sibling panels"},
                           Row{"same-panel", "unit_tolerance: 3 %", "sibling panels"},
                           Row{"control-panel", "unit_tolerance: 3 %", "sibling panels"},
                           Row{"same-panel", "control_stability: 0.2 %", "a control panel"},
                           Row{"sibling-panel", "control_stability: 0.2 %", "a control panel"},
                           Row{"sibling-panel", "trend: fitted", "before and after"},
                           Row{"sibling-panel", "before: 3", "before and after"});
  CAPTURE(row.compare, row.key);
  Diagnostics notes;
  read(std::string("  compare: ") + row.compare + "\n  meters: 2\n  maximum_power: sweep\n  " +
           row.key + "\n",
       notes);
  const Diagnostic note = only(notes);
  CHECK(note.code == "C21");
  CHECK(note.where.line == 5);
  CHECK(note.where.column == 3);
  CHECK_THAT(note.message, Contains(row.about));
  CHECK(note.related.at(0).where.line == 2);
}

TEST_CASE("protocol_measure: a comparison that cannot be read makes no key idle") {
  Diagnostics notes;
  read("  compare: sibling\n  maximum_power: sweep\n  siblings: 3\n", notes);
  CHECK(only(notes).code == "K06");
}

TEST_CASE("protocol_measure: ranges of the siblings") {
  struct Row {
    const char* key;
    const char* code;
  };
  const Row row = GENERATE(Row{"siblings: 0", "R02"}, Row{"siblings: 101", "R02"},
                           Row{"unit_tolerance: 0 %", "R01"}, Row{"unit_tolerance: 51 %", "R01"},
                           Row{"unit_tolerance: 3", "U02"}, Row{"trend: linear", "K06"});
  CAPTURE(row.key);
  Diagnostics notes;
  read(std::string("  compare: sibling-panel\n  meters: 1\n  maximum_power: sweep\n  ") + row.key +
           "\n",
       notes);
  CHECK(only(notes).code == row.code);
  for (const char* end : {"siblings: 1", "siblings: 100", "unit_tolerance: 50 %"}) {
    CAPTURE(end);
    Diagnostics none;
    read(std::string("  compare: sibling-panel\n  meters: 1\n  maximum_power: sweep\n  ") + end +
             "\n",
         none);
    CHECK(none.empty());
  }
}
