#include "report/shown_loss.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/metrology/monte_carlo.hpp"
#include "report/sentences.hpp"

namespace hailwright {

namespace {

constexpr int most_shown_decimals = 4;

/// Decimals of a standard uncertainty, in the unit shown, to so many digits.
int decimals_at(double u, int digits) {
  if (u <= 0.0) return 1;
  const double last_digit = 2.0 * numerical_tolerance(u, digits);
  return std::clamp(-static_cast<int>(std::lround(std::log10(last_digit))), 0, most_shown_decimals);
}

/// Of a power below a watt two digits are told, however little is known of it.
int least_decimals(Power power) {
  return power.si() > 0.0 && power.si() < 1.0 ? decimals_for(power.si()) : 0;
}

/// Whether a rounded end lies on the other side of a bound than the end itself, or on it.
bool misleads(Ratio end, Ratio bound, int decimals) {
  const double scale = std::pow(10.0, decimals);
  const double shown = std::round(100.0 * end.si() * scale);
  const double edge = 100.0 * bound.si() * scale;
  constexpr double same = 1e-6;
  const auto side = [&](double distance) {
    return std::abs(distance) < same ? 0 : distance < 0.0 ? -1 : 1;
  };
  return side(shown - edge) != side((end.si() - bound.si()) * 100.0 * scale);
}

/// Whether the random trials agree with the interval to one digit of its uncertainty at most.
bool coarse(const PowerResult& power) {
  return power.check && power.check->agreed_digits < 2;
}

}  // namespace

int loss_decimals(const PowerResult& power) {
  const double u = 100.0 * power.estimate.u_loss().si();
  int decimals = decimals_at(u, 1);
  if (!coarse(power)) decimals = std::max(decimals, std::min(1, decimals_at(u, 2)));
  std::vector<Ratio> ends{power.estimate.low(), power.estimate.high()};
  if (power.check) ends.insert(ends.end(), {power.check->low, power.check->high});
  return telling_decimals(ends, power.limit, decimals);
}

int telling_decimals(const std::vector<Ratio>& ends, Ratio limit, int decimals) {
  const auto misleading = [&](Ratio end) {
    return misleads(end, Ratio{}, decimals) || misleads(end, limit, decimals);
  };
  while (decimals < most_shown_decimals && std::any_of(ends.begin(), ends.end(), misleading))
    ++decimals;
  return decimals;
}

int watts_decimals(const PowerResult& power, Power before) {
  const double u = before.si() * power.estimate.u_loss().si();
  return std::max(decimals_at(u, coarse(power) ? 1 : 2), least_decimals(before));
}

int power_decimals(Power power, Ratio relative_u) {
  const double u = power.si() * relative_u.si();
  return std::max({1, u > 0.0 ? decimals_for(u) : 0, least_decimals(power)});
}

std::string loss_text(Ratio loss, const PowerResult& power) {
  return percent_text(loss, loss_decimals(power));
}

std::string ends_text(Ratio low, Ratio high, const PowerResult& power) {
  return fmt::format("{} to {}", loss_text(low, power), loss_text(high, power));
}

std::string interval_text(const LossEstimate& e, const PowerResult& power) {
  return fmt::format("{} ({}: {})", loss_text(e.loss(), power), level_text(e.alpha),
                     ends_text(e.low(), e.high(), power));
}

std::string interval_text(const PowerResult& power) {
  return interval_text(power.estimate, power);
}

}  // namespace hailwright
