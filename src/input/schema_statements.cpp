#include "input/schema_mappings.hpp"

#include "input/schema_values.hpp"

namespace hailwright::input {

namespace {

using enum Need;

/// A half-width, a standard or an expanded uncertainty, which needs its coverage factor.
SchemaNode one_size() {
  return rule::exactly_one({"u", "half_width", "expanded"});
}

std::string_view size_example(Measure measure) {
  switch (measure) {
  case Measure::mass:
    return "0.2 g";
  case Measure::length:
    return "0.1 mm";
  case Measure::speed:
    return "0.3 m/s";
  case Measure::temperature_difference:
    return "1 K";
  case Measure::temperature_coefficient:
    return "0.05 %/K";
  default:
    return "0.5 %";
  }
}

Mapping uncertainty_mapping(const StatedForm& form) {
  const SchemaNode size = value::size(form, size_example(form.measure));
  return {
      value::name_for("uncertainty", form),
      uncertainty_keys,
      {
          {"u", size, optional, "A standard uncertainty, amount or per cent"},
          {"half_width", size, optional, "A half-width; needs its `shape`"},
          {"shape", value::words({"rectangular", "triangular", "arcsine", "normal"}), optional,
           "Of a `half_width`: `rectangular`, `triangular` or `arcsine`. `u` and `expanded` "
           "are `normal`, written or not"},
          {"expanded", size, optional, "An expanded uncertainty; needs its `k`"},
          {"k", value::factor(), optional, "The coverage factor, 1 or more"},
          {"degrees_of_freedom", value::factor(), optional,
           "How well the size itself is known: 1 or more; infinitely many when left out"},
      },
      one_size().add(rule::needs({{"expanded", "k"}, {"k", "expanded"}, {"half_width", "shape"}}))};
}

}  // namespace

std::vector<Mapping> uncertainty_mappings() {
  std::vector<Mapping> all;
  for (const Measure measure : {Measure::power, Measure::irradiance, Measure::mass, Measure::length,
                                Measure::speed, Measure::ratio})
    all.push_back(uncertainty_mapping({measure, true, false}));
  all.push_back(uncertainty_mapping({Measure::temperature_difference, false, false}));
  return all;
}

Mapping value_mapping(Measure measure, std::string_view value_example) {
  const SchemaNode size = value::size({measure, false, false}, size_example(measure));
  return {value::name_with_error(measure),
          value_keys,
          {
              {"value", value::amount(measure, value_example), required, "With its unit"},
              {"u", size, optional, "Standard uncertainty, in the unit of the value"},
              {"half_width", size, optional, "Half-width, in the unit of the value"},
              {"shape", value::words({"rectangular", "triangular", "arcsine", "normal"}), optional,
               "Of the half-width: `rectangular` (when left out), `triangular` or `arcsine`"},
              {"expanded", size, optional, "Expanded uncertainty; needs its `k`"},
              {"k", value::factor(), optional, "The coverage factor, 1 or more"},
              {"degrees_of_freedom", value::factor(), optional,
               "How well the size itself is known: 1 or more; infinitely many when left out"},
          },
          one_size().add(rule::needs({{"expanded", "k"}, {"k", "expanded"}}))};
}

}  // namespace hailwright::input
