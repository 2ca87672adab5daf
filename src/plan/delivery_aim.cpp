#include "hailwright/plan/delivery_aim.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/evaluate/delivery.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/random.hpp"
#include "hailwright/physics/speed.hpp"

namespace hailwright {

namespace {

constexpr std::uint64_t seed = 20260614;
constexpr int most_balls_a_throw = 50;  // ours
constexpr int enough_trials = 10;       // what more_trials asks for
constexpr int help_series = 4'000;      // standard error 0.8 % at most: helps differ by more

// The grade's figures are the units: every value is a share of them.
constexpr Speed grade_speed = Speed::from_si(1.0);
constexpr Mass grade_mass = Mass::from_si(1.0);

/// One hit: what its speed or mass is, and what is known of it; for an aim at the grade itself.
struct HitQuantity {
  double truth = 1.0;
  ShotQuantity known;
};

/// One series as it was simulated. Aims multiply the values.
struct SimulatedSeries {
  std::vector<HitQuantity> speeds;
  std::vector<HitQuantity> masses;
  bool balls_found = true;
};

/// What a hit or a whole series is called.
struct Called {
  bool not_weaker = true, within = true, truly = true, truly_within = true;
  void also(const Called& other) {
    not_weaker = not_weaker && other.not_weaker;
    within = within && other.within;
    truly = truly && other.truly;
    truly_within = truly_within && other.truly_within;
  }
};

ShotQuantity aimed(ShotQuantity quantity, double aim) {
  quantity.value *= aim;
  return quantity;
}

/// The hits of one quantity that decide for all of them: the uncertainties of a series are the same
/// shares for each hit, so that what the lowest and the highest value show holds for those between.
struct Extremes {
  ShotQuantity lowest, highest;
};

Extremes extremes(const std::vector<HitQuantity>& hits) {
  const auto [low, high] =
      std::minmax_element(hits.begin(), hits.end(), [](const HitQuantity& a, const HitQuantity& b) {
        return a.known.value < b.known.value;
      });
  return {low->known, high->known};
}

/// All hits of one quantity at one aim.
template <class Q>
Called call_all(const std::vector<HitQuantity>& hits, double aim, Q nominal, Ratio tolerance) {
  const Extremes ends = extremes(hits);
  Called all;
  all.not_weaker = compare_quantity(aimed(ends.lowest, aim), nominal, tolerance).not_weaker;
  all.within =
      all.not_weaker && compare_quantity(aimed(ends.highest, aim), nominal, tolerance).not_stronger;
  for (const HitQuantity& hit : hits) {
    const double truth = aim * hit.truth;
    all.truly = all.truly && truth >= 1.0 - tolerance.si();
    all.truly_within = all.truly_within && truth <= 1.0 + tolerance.si();
  }
  all.truly_within = all.truly_within && all.truly;
  return all;
}

/// Readings of a ball with which it is thrown, over the grade's mass, as in plan/ball_window.hpp.
struct Readings {
  double low = 0.0, high = 0.0;
  [[nodiscard]] bool hold(double reading) const { return reading >= low && reading <= high; }
  /// What to make balls for.
  [[nodiscard]] double middle() const { return low <= high ? 0.5 * (low + high) : 1.0; }
};

Readings thrown_readings(const DeliveryQuestion& q) {
  const double guard = normal_quantile(hit_confidence) * std::hypot(q.mass_shared_u, q.mass_own_u);
  Readings readings;
  readings.low = guard < 1.0 ? (1.0 - q.tolerance.si()) / (1.0 - guard)
                             : std::numeric_limits<double>::infinity();
  readings.high = (1.0 + q.tolerance.si()) / (1.0 + guard);
  if (readings.low > readings.high) readings.high = 1.0 + q.tolerance.si();
  return readings;
}

/// Makes one series after the other from one stream of random numbers. What is drawn does not
/// depend on the aims, but for balls that are chosen one by one.
class SeriesMaker {
public:
  SeriesMaker(const DeliveryQuestion& question, double mass_aim)
      : q_(question), mass_aim_(mass_aim), thrown_(thrown_readings(question)), random_(seed) {}

  const SimulatedSeries& next() {
    const auto places = static_cast<std::size_t>(q_.places);
    series_.speeds.resize(places);
    series_.masses.resize(places);
    series_.balls_found = true;
    if (q_.each_shot_measured) {
      measure_speeds();
    } else {
      try_speeds();
    }
    if (q_.each_ball_weighed) {
      choose_balls();
    } else {
      weigh_together();
    }
    return series_;
  }

private:
  double scattered(double u) {
    // A speed or mass of 0 and below is beyond what a normal scatter stands for.
    constexpr double least = 1e-3;
    return u == 0.0 ? 1.0 : std::max(least, 1.0 + u * random_.normal());
  }

  void measure_speeds() {
    const double common = scattered(q_.speed_shared_u);
    for (HitQuantity& hit : series_.speeds) {
      const double flight = scattered(q_.launcher_scatter);
      hit.truth = flight * scattered(q_.speed_hit_u);
      hit.known = {};
      hit.known.value = flight * scattered(q_.speed_own_u) * common;
      hit.known.shared_u = q_.speed_shared_u;
      hit.known.own_u = std::hypot(q_.speed_own_u, q_.speed_hit_u);
    }
  }

  void try_speeds() {
    const double common = scattered(q_.speed_shared_u);
    tried_.clear();
    for (int i = 0; i < q_.trials; ++i) {
      tried_.push_back(
          Speed::from_si(scattered(q_.launcher_scatter) * scattered(q_.speed_own_u) * common));
    }
    ShotQuantity known;
    known.supports_grade = false;
    if (tried_.size() >= 2) {
      const TrialSpeeds pooled = pool_trials(tried_, q_.speed_own_u);
      known.value = pooled.mean.si();
      known.shared_u = q_.speed_shared_u;
      known.own_u = std::hypot(pooled.unmeasured_u(), q_.speed_hit_u);
      known.own_dof = pooled.degrees_of_freedom();
      known.supports_grade = pooled.supports_grade();
      known.trials = pooled.n;
    }
    for (HitQuantity& hit : series_.speeds) {
      hit.truth = scattered(q_.launcher_scatter) * scattered(q_.speed_hit_u);
      hit.known = known;
    }
  }

  /// Ten balls at once give their mean; how far one ball is from it is stated (M13).
  void weigh_together() {
    const double of_mean = q_.mass_scatter / std::sqrt(static_cast<double>(q_.weighed_together));
    ShotQuantity known;
    known.value = scattered(of_mean) * scattered(q_.mass_shared_u);
    known.shared_u = std::hypot(q_.mass_shared_u, of_mean);
    known.own_u = std::hypot(q_.mass_scatter, q_.mass_own_u);
    for (HitQuantity& hit : series_.masses) {
      hit.truth = scattered(q_.mass_scatter) * scattered(q_.mass_own_u);
      hit.known = known;
    }
  }

  /// Balls come out of the moulds until one reads within the window.
  void choose_balls() {
    const double common = scattered(q_.mass_shared_u);
    for (HitQuantity& hit : series_.masses) {
      int left = most_balls_a_throw;
      do {
        hit.truth = scattered(q_.mass_scatter);
        hit.known.value = hit.truth * scattered(q_.mass_own_u) * common;
        --left;
      } while (!thrown_.hold(hit.known.value * mass_aim_) && left > 0);
      hit.known.shared_u = q_.mass_shared_u;
      hit.known.own_u = q_.mass_own_u;
      series_.balls_found = thrown_.hold(hit.known.value * mass_aim_);
      if (!series_.balls_found) return;
    }
  }

  const DeliveryQuestion& q_;
  double mass_aim_;
  Readings thrown_;
  RandomStream random_;
  SimulatedSeries series_;
  std::vector<Speed> tried_;
};

void check_question(const DeliveryQuestion& q) {
  expects(q.places >= 1 && q.trials >= 0 && q.weighed_together >= 1, "delivery: counts");
  expects(q.tolerance.si() > 0.0 && q.tolerance.si() < 1.0, "delivery: tolerance");
  for (const double u : {q.launcher_scatter, q.speed_shared_u, q.speed_own_u, q.speed_hit_u,
                         q.mass_scatter, q.mass_shared_u, q.mass_own_u})
    expects(u >= 0.0 && std::isfinite(u), "delivery: an uncertainty is 0 or more");
}

/// Aims from 1 in steps of 0.005, none above the largest.
std::vector<double> steps_up_to(double largest) {
  constexpr int steps_in_one = 200;
  constexpr double rounding = 1e-9;
  std::vector<double> aims;
  const int last = static_cast<int>(std::floor((largest - 1.0) * steps_in_one + rounding));
  for (int i = 0; i <= last; ++i)
    aims.push_back(1.0 + static_cast<double>(i) / steps_in_one);
  return aims;
}

std::vector<double> speeds_to_aim_at() {
  return steps_up_to(largest_speed_aim);
}

/// The steps, or where balls are chosen the middle of their window. The tolerance bounds them too:
/// so much more mass takes a third of the diameter's tolerance.
std::vector<double> masses_to_aim_at(const DeliveryQuestion& question) {
  if (question.each_ball_weighed) return {thrown_readings(question).middle()};
  return steps_up_to(std::min(largest_mass_aim, 1.0 + question.tolerance.si()));
}

/// Index of the first aim at which all hits are shown not weaker; the number of aims when none is.
/// A larger aim raises value and uncertainty alike: it never undoes what a smaller one shows.
template <class Q>
std::size_t first_shown(const std::vector<HitQuantity>& hits, const std::vector<double>& aims,
                        Q nominal, Ratio tolerance) {
  const ShotQuantity lowest = extremes(hits).lowest;
  const auto found = std::partition_point(aims.begin(), aims.end(), [&](double aim) {
    return !compare_quantity(aimed(lowest, aim), nominal, tolerance).not_weaker;
  });
  return static_cast<std::size_t>(found - aims.begin());
}

struct AimPair {
  double speed = 1.0, mass = 1.0;
  [[nodiscard]] double energy() const { return speed * speed * mass; }
};

/// The pair of least energy at which enough of the same series are shown.
std::optional<AimPair> least_pair(const DeliveryQuestion& question, double wanted) {
  const std::vector<double> masses = masses_to_aim_at(question);
  const std::vector<double> speeds = speeds_to_aim_at();
  // counts[m][s]: series first shown at these two aims.
  std::vector<std::vector<int>> counts(masses.size(), std::vector<int>(speeds.size(), 0));
  SeriesMaker maker(question, masses.front());
  for (int i = 0; i < delivery_series; ++i) {
    const SimulatedSeries& series = maker.next();
    if (!series.balls_found) continue;
    const auto m = first_shown(series.masses, masses, grade_mass, question.tolerance);
    const auto s = first_shown(series.speeds, speeds, grade_speed, question.tolerance);
    if (m < masses.size() && s < speeds.size()) ++counts[m][s];
  }
  std::optional<AimPair> best;
  for (std::size_t m = 0; m < masses.size(); ++m) {
    int shown = 0;
    for (std::size_t s = 0; s < speeds.size(); ++s) {
      for (std::size_t up_to = 0; up_to <= m; ++up_to)
        shown += counts[up_to][s];
      if (shown < wanted * delivery_series) continue;
      const AimPair pair{speeds[s], masses[m]};
      if (!best || pair.energy() < best->energy()) best = pair;
      break;
    }
  }
  return best;
}

AimPair largest_aims(const DeliveryQuestion& question) {
  return {speeds_to_aim_at().back(), masses_to_aim_at(question).back()};
}

/// The question with one thing improved; nothing when it cannot be by this help.
std::optional<DeliveryQuestion> helped(DeliveryQuestion q, DeliveryHelp help) {
  switch (help) {
  case DeliveryHelp::more_trials:
    if (q.each_shot_measured || q.trials >= enough_trials) return std::nullopt;
    q.trials = enough_trials;
    return q;
  case DeliveryHelp::better_speed:
    q.speed_shared_u *= 0.5;
    q.speed_own_u *= 0.5;
    return q;
  case DeliveryHelp::better_scales:
    q.mass_shared_u *= 0.5;
    q.mass_own_u *= 0.5;
    return q;
  case DeliveryHelp::steadier_launcher:
    q.launcher_scatter *= 0.5;
    return q;
  }
  fail_contract("unknown help");
}

void find_help(const DeliveryQuestion& question, DeliveryAim& aim) {
  const auto shown_at_most = [](const DeliveryQuestion& q) {
    const AimPair largest = largest_aims(q);
    return delivery_chance(q, largest.speed, largest.mass, help_series).shown;
  };
  // Against the same series without help, so that a help that changes nothing is none.
  double best = shown_at_most(question);
  for (const DeliveryHelp help : {DeliveryHelp::more_trials, DeliveryHelp::better_speed,
                                  DeliveryHelp::better_scales, DeliveryHelp::steadier_launcher}) {
    const auto better = helped(question, help);
    if (!better) continue;
    const double shown = shown_at_most(*better);
    if (shown <= best) continue;
    best = shown;
    aim.help = help;
    aim.help_chance = shown;
  }
}

}  // namespace

DeliveryChance delivery_chance(const DeliveryQuestion& question, double speed_aim, double mass_aim,
                               int series) {
  check_question(question);
  expects(speed_aim > 0.0 && mass_aim > 0.0 && series >= 1, "delivery_chance: domain");
  SeriesMaker maker(question, mass_aim);
  int shown = 0;
  int truly = 0;
  int truly_within = 0;
  int within = 0;
  int without_balls = 0;
  for (int i = 0; i < series; ++i) {
    const SimulatedSeries& one = maker.next();
    if (!one.balls_found) {
      ++without_balls;
      continue;
    }
    Called called = call_all(one.speeds, speed_aim, grade_speed, question.tolerance);
    called.also(call_all(one.masses, mass_aim, grade_mass, question.tolerance));
    shown += called.not_weaker ? 1 : 0;
    truly += called.truly ? 1 : 0;
    truly_within += called.truly_within ? 1 : 0;
    within += called.within ? 1 : 0;
  }
  const auto share = [&](int count) { return static_cast<double>(count) / series; };
  return {share(shown), share(truly), share(truly_within), share(within), share(without_balls)};
}

DeliveryAim find_delivery_aim(const DeliveryQuestion& question, double wanted) {
  check_question(question);
  expects(wanted > 0.0 && wanted < 1.0, "find_delivery_aim: chance");
  DeliveryAim aim;
  const std::optional<AimPair> least = least_pair(question, wanted);
  const AimPair pair = least ? *least : largest_aims(question);
  aim.speed_aim = pair.speed;
  aim.mass_aim = pair.mass;
  aim.chance = delivery_chance(question, aim.speed_aim, aim.mass_aim);
  aim.reached = least.has_value();
  if (!aim.reached) find_help(question, aim);
  return aim;
}

}  // namespace hailwright
