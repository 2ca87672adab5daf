#include "hailwright/evaluate/price.hpp"

#include "hailwright/evaluate/power_model.hpp"

namespace hailwright {

std::optional<PricePerWatt> price_per_watt(const Test& test) {
  const auto& price = test.record.panel.price;
  if (!price) return std::nullopt;
  const auto measured = reference_power(test, {StageKind::before, 0});
  if (!measured) return std::nullopt;
  return PricePerWatt{*price, measured->power, measured->relative_u,
                      price->amount / measured->power.si()};
}

}  // namespace hailwright
