#include "report/line_up_values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "report/sentences.hpp"
#include "report/shown_loss.hpp"

namespace hailwright::detail {

namespace {

// Of numbers whose record states no risk of its own [ours].
constexpr double usual_alpha = 0.025;

std::string unit_of(const LineUpEntry& entry, LineUpQuantity quantity) {
  switch (quantity) {
  case LineUpQuantity::loss:
  case LineUpQuantity::share_of_rated:
  case LineUpQuantity::shading_loss:
    return "%";
  case LineUpQuantity::power:
    return "W";
  case LineUpQuantity::power_per_area:
    return "W/m2";
  case LineUpQuantity::power_per_mass:
    return "W/kg";
  case LineUpQuantity::price_per_watt:
    return entry.price ? entry.price->currency + "/W" : "1/W";
  }
  fail_contract("unknown quantity of a line-up");
}

bool is_loss(LineUpQuantity quantity) {
  return quantity == LineUpQuantity::loss || quantity == LineUpQuantity::shading_loss;
}

double per_cent_or_unit(LineUpQuantity quantity) {
  return is_loss(quantity) || quantity == LineUpQuantity::share_of_rated ? 100.0 : 1.0;
}

/// From the logarithm to what people read.
double shown(double log, LineUpQuantity quantity) {
  if (is_loss(quantity)) return -per_cent_or_unit(quantity) * std::expm1(log);
  return per_cent_or_unit(quantity) * std::exp(log);
}

LineUpValue own_loss(const LineUpEntry& entry) {
  const LossEstimate& e = *entry.loss;
  const int decimals =
      telling_decimals({e.low(), e.loss(), e.high()}, entry.limit.value_or(Ratio{}), 1);
  return {100.0 * e.loss().si(), 100.0 * e.low().si(), 100.0 * e.high().si(), decimals, "%",
          level_text(e.alpha)};
}

}  // namespace

std::optional<LineUpValue> line_up_value(const LineUpEntry& entry, LineUpQuantity quantity) {
  const auto found = entry.numbers.find(quantity);
  if (found == entry.numbers.end()) return std::nullopt;
  if (quantity == LineUpQuantity::loss && entry.loss) return own_loss(entry);
  const LineUpNumber& number = found->second;
  const double reach = t_quantile(1.0 - usual_alpha, number.degrees_of_freedom) * number.standard_u;
  const auto [low, high] =
      std::minmax({shown(number.log - reach, quantity), shown(number.log + reach, quantity)});
  LineUpValue value{shown(number.log, quantity), low, high};
  value.decimals =
      decimals_for(per_cent_or_unit(quantity) * std::exp(number.log) * number.standard_u);
  value.unit = unit_of(entry, quantity);
  value.level = level_text(usual_alpha);
  return value;
}

std::string value_text(const LineUpValue& v) {
  const auto told = [&](double x) { return fmt::format("{} {}", fixed(x, v.decimals), v.unit); };
  return fmt::format("{} ({}: {} to {})", told(v.value), v.level, told(v.low), told(v.high));
}

}  // namespace hailwright::detail
