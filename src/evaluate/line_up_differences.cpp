#include "evaluate/line_up_differences.hpp"

#include <algorithm>
#include <cmath>

#include "hailwright/metrology/budget.hpp"
#include "hailwright/metrology/distributions.hpp"
#include "hailwright/metrology/multiple_comparison.hpp"

namespace hailwright {

namespace {

/// Independent contributions, gathered.
class Contributions {
public:
  void add(double contribution, double degrees_of_freedom) {
    values_.push_back(contribution);
    degrees_.push_back(degrees_of_freedom);
    sum_ += contribution * contribution;
  }
  [[nodiscard]] Combined combined() const {
    return {std::sqrt(sum_), welch_satterthwaite(values_, degrees_)};
  }

private:
  std::vector<double> values_, degrees_;
  double sum_ = 0.0;
};

/// Errors with a key, ordered by it; those of one key in one number are one already.
std::vector<LineUpError> shared_errors(const LineUpNumber& number, double sign) {
  std::vector<LineUpError> shared;
  for (const LineUpError& e : number.errors) {
    if (e.key.empty()) continue;
    shared.push_back(e);
    shared.back().contribution *= sign;
  }
  return shared;
}

/// The same error twice is one with the sum of both.
std::vector<LineUpError> joined(std::vector<LineUpError> errors) {
  std::stable_sort(errors.begin(), errors.end(),
                   [](const LineUpError& a, const LineUpError& b) { return a.key < b.key; });
  std::vector<LineUpError> once;
  for (LineUpError& e : errors) {
    if (once.empty() || once.back().key != e.key) {
      once.push_back(std::move(e));
      continue;
    }
    once.back().contribution += e.contribution;
    once.back().degrees_of_freedom = std::min(once.back().degrees_of_freedom, e.degrees_of_freedom);
  }
  return once;
}

/// Two-sided: chance of so large a difference or a larger one if there were none.
double two_sided_p(double difference, const Combined& c) {
  if (c.standard_u == 0.0) return difference == 0.0 ? 1.0 : 0.0;
  return 2.0 * t_cdf(-difference / c.standard_u, c.degrees_of_freedom);
}

/// Half-width of a two-sided interval at this level.
double half_width(const Combined& c, double level) {
  if (c.standard_u == 0.0) return 0.0;
  return t_quantile(0.5 * (1.0 + level), c.degrees_of_freedom) * c.standard_u;
}

/// Pairs of places in the order that are looked at.
std::vector<std::pair<std::size_t, std::size_t>> pairs_of(std::size_t count) {
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  if (count <= line_up_each_with_each) {
    for (std::size_t i = 0; i < count; ++i) {
      for (std::size_t j = i + 1; j < count; ++j)
        pairs.emplace_back(i, j);
    }
    return pairs;
  }
  for (std::size_t i = 0; i + 1 < count; ++i)
    pairs.emplace_back(i, i + 1);
  for (std::size_t j = 2; j < count; ++j)
    pairs.emplace_back(0, j);
  return pairs;
}

/// How many pairs a group has, looked at or not.
std::size_t pairs_among(std::size_t count) {
  return count * (count - 1) / 2;
}

class Ranking {
public:
  Ranking(const std::vector<LineUpEntry>& entries, std::vector<std::size_t> members,
          LineUpQuantity quantity)
      : entries_(entries), order_(std::move(members)), quantity_(quantity) {
    const double sign = larger_is_better(quantity) ? 1.0 : -1.0;
    std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
      return sign * number(a).log > sign * number(b).log;
    });
  }

  LineUpGroup rank() {
    LineUpGroup group;
    group.each_with_each = order_.size() <= line_up_each_with_each;
    const auto pairs = pairs_of(order_.size());
    const double level = bonferroni_level(line_up_risk, pairs_among(order_.size()));
    for (const auto& [first, second] : pairs)
      group.differences.push_back(difference(order_[first], order_[second], level));
    adjust(group);
    fill_ranks(group);
    return group;
  }

private:
  [[nodiscard]] const LineUpNumber& number(std::size_t entry) const {
    return entries_[entry].numbers.at(quantity_);
  }

  [[nodiscard]] LineUpDifference difference(std::size_t better, std::size_t worse,
                                            double level) const {
    LineUpDifference d;
    d.better = better;
    d.worse = worse;
    d.difference = std::abs(number(better).log - number(worse).log);
    const DifferenceErrors errors = errors_of_difference(number(better), number(worse));
    d.standard_u = errors.all.standard_u;
    d.degrees_of_freedom = errors.all.degrees_of_freedom;
    d.p = std::max(two_sided_p(d.difference, errors.all), two_sided_p(d.difference, errors.finite));
    const double half = std::max(half_width(errors.all, level), half_width(errors.finite, level));
    d.low = d.difference - half;
    d.high = d.difference + half;
    return d;
  }

  /// By Holm where each pair is looked at. Otherwise the results chose which pairs are, so that all
  /// count (Bonferroni): a first and neighbours picked among equals stand out by being picked.
  void adjust(LineUpGroup& group) const {
    std::vector<double> p;
    for (const LineUpDifference& d : group.differences)
      p.push_back(std::min(1.0, d.p));
    if (group.each_with_each) {
      p = holm_adjusted(p);
    } else {
      const auto pairs = static_cast<double>(pairs_among(order_.size()));
      for (double& each : p)
        each = std::min(1.0, pairs * each);
    }
    for (std::size_t i = 0; i < p.size(); ++i) {
      group.differences[i].p_adjusted = p[i];
      group.differences[i].shown = p[i] <= line_up_risk && beyond_prices(group.differences[i]);
    }
  }

  /// Within its range a price is whatever a shop asks: only what lies beyond both ranges counts.
  [[nodiscard]] bool beyond_prices(const LineUpDifference& d) const {
    if (quantity_ != LineUpQuantity::price_per_watt) return true;
    const LineUpEntry& cheap = entries_[d.better];
    const LineUpEntry& dear = entries_[d.worse];
    return number(d.better).log + log_ratio(cheap.highest_price, cheap.price) <
           number(d.worse).log + log_ratio(dear.lowest_price, dear.price);
  }

  static double log_ratio(const std::optional<Money>& end, const std::optional<Money>& price) {
    if (!end || !price || end->amount <= 0.0 || price->amount <= 0.0) return 0.0;
    return std::log(end->amount / price->amount);
  }

  void fill_ranks(LineUpGroup& group) const {
    std::vector<int> better(entries_.size());
    std::vector<int> worse(entries_.size());
    for (const LineUpDifference& d : group.differences) {
      if (!d.shown) continue;
      ++better[d.worse];
      ++worse[d.better];
    }
    const auto count = static_cast<int>(order_.size());
    for (const std::size_t entry : order_)
      group.ranks.push_back({entry, 1 + better[entry], count - worse[entry]});
  }

  const std::vector<LineUpEntry>& entries_;
  std::vector<std::size_t> order_;
  LineUpQuantity quantity_;
};

}  // namespace

bool larger_is_better(LineUpQuantity quantity) {
  return quantity != LineUpQuantity::price_per_watt;
}

DifferenceErrors errors_of_difference(const LineUpNumber& a, const LineUpNumber& b) {
  std::vector<LineUpError> errors = shared_errors(a, 1.0);
  std::vector<LineUpError> of_b = shared_errors(b, -1.0);
  std::move(of_b.begin(), of_b.end(), std::back_inserter(errors));
  errors = joined(std::move(errors));
  for (const LineUpNumber* number : {&a, &b}) {
    std::copy_if(number->errors.begin(), number->errors.end(), std::back_inserter(errors),
                 [](const LineUpError& e) { return e.key.empty(); });
  }
  Contributions all;
  Contributions finite;
  for (const LineUpError& e : errors) {
    all.add(e.contribution, e.degrees_of_freedom);
    if (std::isfinite(e.degrees_of_freedom)) finite.add(e.contribution, e.degrees_of_freedom);
  }
  return {all.combined(), finite.combined()};
}

LineUpGroup rank_group(const std::vector<LineUpEntry>& entries,
                       const std::vector<std::size_t>& members, LineUpQuantity quantity) {
  return Ranking(entries, members, quantity).rank();
}

}  // namespace hailwright
