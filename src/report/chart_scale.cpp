#include "report/chart_scale.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"

namespace hailwright::detail {

namespace {

constexpr double air = 0.05;       ///< at each end, of the stretch of the values [ours]
constexpr double alike = 1e-9;     ///< of their size: values no further apart are all alike
constexpr double rounding = 1e-9;  ///< of a step: a tick so little beyond an end still shows
constexpr std::array<int, 3> steps{{1, 2, 5}};

/// Magnitude of a number: 3 for 1000 to 9999.
int power_of_ten(double value) {
  return static_cast<int>(std::floor(std::log10(value) + 1e-12));
}

/// So many times a power of ten, exact where a double is.
double times_ten_to(double factor, int power) {
  return power < 0 ? factor / std::pow(10.0, -power) : factor * std::pow(10.0, power);
}

/// A number whose last digit that counts stands at a power of ten.
std::string figure(double value, int last_digit) {
  constexpr double plain_below = 1e7;
  constexpr int most_decimals = 6;
  if (std::abs(value) < plain_below && last_digit >= -most_decimals) {
    return fixed(value, std::max(0, -last_digit));
  }
  if (value == 0.0) return "0";
  const int own = power_of_ten(std::abs(value));
  return fmt::format("{}e{}", fixed(times_ten_to(value, -own), std::max(0, own - last_digit)), own);
}

/// A step of an axis: `factor` times ten to the `power`.
struct TickStep {
  int factor;
  int power;
  [[nodiscard]] double size() const { return times_ten_to(factor, power); }
  /// First and last multiple inside.
  [[nodiscard]] std::pair<double, double> multiples(Ends values) const {
    return {std::ceil(values.low / size() - rounding), std::floor(values.high / size() + rounding)};
  }
};

TickStep widest_of(Ends values, int most) {
  for (int power = power_of_ten(values.length() / most) - 1;; ++power) {
    for (const int factor : steps) {
      const TickStep step{factor, power};
      const auto [first, last] = step.multiples(values);
      if (last - first + 1.0 <= most) return step;
    }
  }
}

std::vector<Tick> linear_ticks(Ends values, int most) {
  const TickStep step = widest_of(values, most);
  const auto [first, last] = step.multiples(values);
  std::vector<Tick> all;
  for (int k = 0; first + k <= last; ++k) {
    const double value = times_ten_to((first + k) * step.factor, step.power);
    all.push_back({value == 0.0 ? 0.0 : value, figure(value, step.power)});
  }
  return all;
}

/// Powers of ten inside with their 2 and 5 times; labels where the factor is up to `factors` and
/// the power is one of every `every`.
std::vector<Tick> log_ticks(Ends values, int factors, int every) {
  std::vector<Tick> all;
  for (int power = power_of_ten(values.low) - 1; power <= power_of_ten(values.high); ++power) {
    for (const int factor : steps) {
      const double value = times_ten_to(factor, power);
      if (value < values.low * (1.0 - rounding) || value > values.high * (1.0 + rounding)) continue;
      const bool named = factor <= factors && power % every == 0;
      if (named || every == 1) all.push_back({value, named ? figure(value, power) : ""});
    }
  }
  return all;
}

int labelled(const std::vector<Tick>& all) {
  return static_cast<int>(
      std::count_if(all.begin(), all.end(), [](const Tick& t) { return !t.label.empty(); }));
}

std::vector<Tick> logarithmic_ticks(Ends values, int most) {
  constexpr int few = 3;
  std::vector<Tick> all = log_ticks(values, steps.back(), 1);
  if (labelled(all) < few) return linear_ticks(values, most);
  for (int every = 1; labelled(all) > most; ++every)
    all = log_ticks(values, 1, every);
  return all;
}

Ends stretched(Ends values, double by) {
  return {values.low - by, values.high + by};
}

}  // namespace

Ends ends_of(std::span<const double> values) {
  expects(!values.empty(), "one value or more");
  expects(std::all_of(values.begin(), values.end(), [](double v) { return std::isfinite(v); }),
          "finite values");
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return {*low, *high};
}

Scale::Scale(Kind kind, Ends values, double from, double to)
    : kind_(kind), values_(values), from_(from), to_(to) {
  expects(values.low < values.high, "an axis with a length");
  expects(kind == Kind::linear || values.low > 0.0, "a logarithmic axis above zero");
}

double Scale::at(double value) const {
  if (kind_ == Kind::linear) {
    return from_ + (to_ - from_) * ((value - values_.low) / values_.length());
  }
  expects(value > 0.0, "a value above zero on a logarithmic axis");
  return from_ +
         (to_ - from_) * std::log(value / values_.low) / std::log(values_.high / values_.low);
}

double Scale::clipped(double value) const {
  return at(std::clamp(value, values_.low, values_.high));
}

Scale linear_scale(std::span<const double> values, double from, double to) {
  Ends ends = ends_of(values);
  const double size = std::max(std::abs(ends.low), std::abs(ends.high));
  ends = ends.length() > alike * size ? stretched(ends, air * ends.length())
                                      : stretched(ends, size > 0.0 ? air * size : 0.5);
  return {Scale::Kind::linear, ends, from, to};
}

Scale log_scale(std::span<const double> values, double from, double to) {
  const Ends ends = ends_of(values);
  expects(ends.low > 0.0, "values above zero");
  const double ratio = ends.high / ends.low;
  const double by = ratio > 1.0 + alike ? std::pow(ratio, air) : 1.0 + air;
  return {Scale::Kind::logarithmic, {ends.low / by, ends.high * by}, from, to};
}

std::vector<Tick> ticks(const Scale& scale, int most) {
  expects(most >= 2, "room for two labels");
  return scale.kind() == Scale::Kind::linear ? linear_ticks(scale.values(), most)
                                             : logarithmic_ticks(scale.values(), most);
}

}  // namespace hailwright::detail
