#include "input/schema_mappings.hpp"
#include "input/schema_values.hpp"
#include "input/specimens_reader.hpp"

namespace hailwright::input {

namespace {

using enum Need;

Mapping file() {
  return {"specimens",
          specimens_keys,
          {
              {"hailwright", SchemaNode::object({{"const", "specimens 1"}}), required,
               "first key of the file: `specimens 1`"},
              {"title", value::text(), required, "What the specimens are, in a few words"},
              {"damage", value::text(), required,
               "What counts as damage, decided before the first hit, in your words"},
              {"protocol", value::text(), optional,
               "Path of the protocol whose safety answers hold for the next test", "",
               "the next energy needs `--protocol`"},
              {"staircase", value::defined("staircase"), optional,
               "The up-and-down test as it was planned, see Staircase", "", "any energies"},
              {"energy", value::defined("error of energy"), optional,
               "How well each energy is known, as a share of it, see Error", "", "not stated"},
              {"mass", value::defined("error of mass"), optional,
               "How well each mass is known, see Error", "", "not stated"},
              {"speed", value::defined("error of speed"), optional,
               "How well each speed is known, see Error", "", "not stated"},
              {"tests", value::table(), required,
               "Table of the tests in the order in which they were done, see Tests"},
          }};
}

Mapping staircase() {
  return {"staircase",
          staircase_keys,
          {
              {"start", value::amount(Measure::energy, "6 J"), required, "Energy of the first test",
               "0.001 J to 1000 J"},
              {"step", value::amount(Measure::ratio, "20 %"), required,
               "How much higher each level is than the one below", "2 % to 100 %"},
          }};
}

struct ErrorExamples {
  std::string_view accuracy, spread, within;
};

Mapping error(std::string name, Measure measure, const ErrorExamples& shown) {
  const StatedForm form{measure, true, false};
  return {std::move(name),
          specimen_error_keys,
          {
              {"accuracy", value::accuracy(form, shown.accuracy), optional,
               "Never wrong by more than this: `4 %`, or `unknown`"},
              {"spread", value::size(form, shown.spread), optional,
               "Standard deviation of your own repeats: `2 %`"},
              {"within", value::within(form, shown.within), optional, "A certificate: `4 %, 95 %`"},
              {"uncertainty", value::defined(value::name_for("uncertainty", form)), optional,
               "The metrologist's ways"},
          },
          rule::at_most_one(words_of(stated_keys))};
}

}  // namespace

std::vector<Mapping> specimens_mappings() {
  std::vector<Mapping> all{
      file(), staircase(), error("error of energy", Measure::ratio, {"4 %", "2 %", "4 %, 95 %"}),
      error("error of mass", Measure::mass, {"0.2 g", "0.1 g", "0.6 g, 95 %"}),
      error("error of speed", Measure::speed, {"0.5 m/s", "0.3 m/s", "0.6 m/s, 95 %"})};
  for (Mapping& mapping : uncertainty_mappings())
    all.push_back(std::move(mapping));
  return all;
}

}  // namespace hailwright::input
