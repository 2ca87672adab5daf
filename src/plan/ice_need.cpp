#include "hailwright/plan/ice_need.hpp"

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/physics/ice_ball.hpp"

namespace hailwright {

namespace {

constexpr int most_balls = 10'000;

// Plank's equation: water and heat of fusion as in the physics of the ball, from memory (CRC
// Handbook); k of ice near 0 degC, from memory; film coefficients of a still freezer, ours.
constexpr double water_kg_per_m3 = 1000.0;
constexpr double heat_of_fusion_j_per_kg = 334e3;
constexpr double ice_conducts_w_per_mk = 2.2;
constexpr double film_low_w_per_m2k = 5.0;
constexpr double film_high_w_per_m2k = 10.0;

constexpr Ratio mould_mass_tolerance = percent(5);  // ours, see the header

/// A share that is known from a tally, with Jeffreys' half on both sides: Beta(yes, no).
struct Share {
  explicit Share(const Tally& tally)
      : yes(tally.good + 0.5), no(static_cast<double>(tally.tried - tally.good) + 0.5) {
    expects(tally.good >= 0 && tally.good <= tally.tried, "a tally has no more good than tried");
  }
  double yes, no;
};

/// Chances that `throws` = 0, 1, 2, ... give at least `wanted` hits, by the urn of Polya that the
/// beta-binomial distribution is: the wanted hit comes with the next throw when it is a hit and
/// those before it gave one less.
class EnoughHits {
public:
  EnoughHits(Share hit, int wanted)
      : hit_(hit), before_(wanted - 1), enough_(wanted == 0 ? 1.0 : 0.0) {
    for (int i = 0; i < before_; ++i) {
      log_one_less_ += std::log((hit_.yes + i) / (hit_.yes + hit_.no + i));
    }
  }
  [[nodiscard]] double enough() const { return enough_; }
  void next_throw() {
    if (before_ >= 0 && throws_ >= before_) {
      const double all = hit_.yes + hit_.no + throws_;
      enough_ += std::exp(log_one_less_) * (hit_.yes + before_) / all;
      const int misses = throws_ - before_;
      log_one_less_ += std::log((throws_ + 1.0) / (misses + 1.0) * (hit_.no + misses) / all);
    }
    ++throws_;
  }

private:
  Share hit_;
  int before_;
  int throws_ = 0;
  double enough_;
  double log_one_less_ = 0.0;  // of the chance that `throws_` throws gave `before_` hits
};

}  // namespace

double chance_of_hits(int balls, int wanted, const Tally& tried, const Tally& made) {
  expects(balls >= 0 && wanted >= 0, "chance_of_hits: counts");
  const Share good(made);
  EnoughHits hits(Share(tried), wanted);
  // Of N balls k can be thrown: beta-binomial, as logarithms since a single chance may underflow.
  double log_good = 0.0;
  for (int i = 0; i < balls; ++i)
    log_good += std::log((good.no + i) / (good.yes + good.no + i));
  double sum = 0.0;
  for (int k = 0;; ++k) {
    sum += std::exp(log_good) * hits.enough();
    if (k == balls) return sum;
    const int rest = balls - k;
    log_good += std::log(rest * (good.yes + k) / ((k + 1.0) * (good.no + (rest - 1))));
    hits.next_throw();
  }
}

std::optional<int> balls_to_freeze(int wanted, const Tally& tried, const Tally& made,
                                   double chance) {
  expects(wanted >= 1 && chance > 0.0 && chance < 1.0, "balls_to_freeze: domain");
  if (tried.tried == 0 || made.tried == 0) return std::nullopt;
  // One ball more never lowers the chance: halving finds the smallest.
  int too_few = wanted - 1;
  int enough = wanted;
  while (enough < most_balls && chance_of_hits(enough, wanted, tried, made) < chance) {
    too_few = enough;
    enough = enough > most_balls / 2 ? most_balls : 2 * enough;
  }
  if (enough > most_balls || chance_of_hits(enough, wanted, tried, made) < chance)
    return std::nullopt;
  while (enough - too_few > 1) {
    const int middle = too_few + (enough - too_few) / 2;
    (chance_of_hits(middle, wanted, tried, made) < chance ? too_few : enough) = middle;
  }
  return enough;
}

std::optional<int> nights_to_freeze(int balls, Length diameter, const std::vector<Mould>& moulds) {
  expects(balls >= 0 && diameter.si() > 0.0, "nights_to_freeze: domain");
  const double low = 1.0 + diameter_share(-mould_mass_tolerance).si();
  const double high = 1.0 + diameter_share(mould_mass_tolerance).si();
  int a_night = 0;
  for (const Mould& mould : moulds) {
    if (mould.ball >= low * diameter && mould.ball <= high * diameter) a_night += mould.cavities;
  }
  if (a_night <= 0) return std::nullopt;
  return balls / a_night + (balls % a_night > 0 ? 1 : 0);
}

std::optional<FreezingTime> freezing_time(Length diameter, TemperaturePoint freezer) {
  expects(diameter.si() > 0.0, "freezing_time: positive diameter");
  const double below_k = -freezer.celsius();
  if (below_k <= 0.0) return std::nullopt;
  const auto takes = [&](double film_w_per_m2k) {
    const double d_m = diameter.si();
    return Time::from_si(
        water_kg_per_m3 * heat_of_fusion_j_per_kg / below_k *
        (d_m / (6.0 * film_w_per_m2k) + d_m * d_m / (24.0 * ice_conducts_w_per_mk)));
  };
  return FreezingTime{takes(film_high_w_per_m2k), takes(film_low_w_per_m2k)};
}

}  // namespace hailwright
