#include "benchmark/twelve_inputs.hpp"

namespace hailwright::measured {

namespace {

NormalisedReading reading(double watts, double w_per_m2, double back_c) {
  return {Power::from_si(watts), Irradiance::from_si(w_per_m2),
          TemperaturePoint::from_celsius(back_c), TemperatureCoefficient::from_si(-0.0038),
          TemperatureDifference::from_si(3.0)};
}

BudgetInput normal(const char* id, double standard_u) {
  BudgetInput input{.id = id, .label = id};
  input.standard_u = standard_u;
  return input;
}

BudgetInput rectangular(const char* id, double half_width) {
  BudgetInput input = normal(id, half_width / half_width_divisor(Shape::rectangular));
  input.shape = Shape::rectangular;
  return input;
}

}  // namespace

PowerModel twelve_inputs() {
  PowerModel model;
  model.inputs = {normal("meter/gain", 0.003),        rectangular("sun/gain", 0.05),
                  rectangular("coefficient", 0.0005), rectangular("cell", 1.0),
                  rectangular("probe/before", 1.0),   rectangular("probe/after", 1.0),
                  normal("sky/before", 0.004),        normal("sky/after", 0.004),
                  normal("alignment/before", 0.003),  normal("alignment/after", 0.003),
                  normal("scatter/before", 0.0015),   normal("scatter/after", 0.0015)};
  const auto links = [](std::size_t stage) {
    return std::vector<PowerModel::Link>{
        {ErrorSlot::meter_gain, 0},          {ErrorSlot::sun_gain, 1},
        {ErrorSlot::coefficient, 2},         {ErrorSlot::cell_above_back, 3},
        {ErrorSlot::temperature, 4 + stage}, {ErrorSlot::factor, 6 + stage},
        {ErrorSlot::factor, 8 + stage},      {ErrorSlot::factor, 10 + stage}};
  };
  model.terms = {{reading(80.7, 898.0, 45.7), -1.0, links(0)},
                 {reading(72.4, 858.0, 41.7), 1.0, links(1)}};
  return model;
}

}  // namespace hailwright::measured
