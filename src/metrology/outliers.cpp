#include "hailwright/metrology/outliers.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>

#include "hailwright/core/contract.hpp"
#include "hailwright/metrology/distributions.hpp"

namespace hailwright {

namespace {

/// Spreads below this share of the values themselves are rounding.
constexpr double rounding = 1e-13;

/// Critical value of step i (from 1) among n values.
double critical_deviation(std::size_t n, std::size_t i, double risk) {
  const auto left = static_cast<double>(n - i);
  const double t = t_quantile(1.0 - risk / (2.0 * (left + 1.0)), left - 1.0);
  return left * t / std::sqrt((left - 1.0 + t * t) * (left + 1.0));
}

/// A sum that keeps what its additions lose to rounding, so that what was added can be taken away
/// again (Neumaier 1974, from memory).
class KeptSum {
public:
  void add(double term) {
    const double next = sum_ + term;
    rest_ += std::abs(sum_) >= std::abs(term) ? (sum_ - next) + term : (term - next) + sum_;
    sum_ = next;
  }
  [[nodiscard]] double value() const { return sum_ + rest_; }

private:
  double sum_ = 0.0, rest_ = 0.0;
};

/// Mean and standard deviation of values that come and go, without a pass over all of them each
/// time. Deviations count from a fixed centre near most of the values.
class Spread {
public:
  explicit Spread(double centre) : centre_(centre) {}
  void put(double value) { change(value, 1.0); }
  void take(double value) { change(value, -1.0); }
  [[nodiscard]] double mean() const { return centre_ + sum_.value() / count_; }
  /// Of at least two values.
  [[nodiscard]] double sd() const {
    const double sum = sum_.value();
    return std::sqrt(std::max(0.0, squares_.value() - sum * sum / count_) / (count_ - 1.0));
  }

private:
  void change(double value, double times) {
    const double off = value - centre_;
    count_ += times;
    sum_.add(times * off);
    squares_.add(times * (off * off));
  }

  double centre_;
  double count_ = 0.0;
  KeptSum sum_, squares_;
};

/// The values in order of size, taken off at either end. The furthest from any point is at one of
/// the ends; of equal values the first one goes first, as in a pass over them in their order.
class Ends {
public:
  explicit Ends(std::span<const double> values)
      : values_(values), up_(values.size()), down_(values.size()), gone_(values.size()) {
    std::iota(up_.begin(), up_.end(), std::size_t{0});
    std::stable_sort(up_.begin(), up_.end(),
                     [&](std::size_t a, std::size_t b) { return values_[a] < values_[b]; });
    std::iota(down_.begin(), down_.end(), std::size_t{0});
    std::stable_sort(down_.begin(), down_.end(),
                     [&](std::size_t a, std::size_t b) { return values_[a] > values_[b]; });
    smallest_ = up_.begin();
    largest_ = down_.begin();
  }

  [[nodiscard]] double median() const { return values_[up_[up_.size() / 2]]; }
  [[nodiscard]] double largest_size() const {
    return std::max(std::abs(values_[*smallest_]), std::abs(values_[*largest_]));
  }
  /// Index of the value furthest from a point.
  [[nodiscard]] std::size_t furthest(double from) const {
    const double below = std::abs(values_[*smallest_] - from);
    const double above = std::abs(values_[*largest_] - from);
    if (below == above) return std::min(*smallest_, *largest_);
    return below > above ? *smallest_ : *largest_;
  }
  /// Contract: not the last one.
  void take(std::size_t index) {
    gone_[index] = true;
    while (gone_[*smallest_])
      ++smallest_;
    while (gone_[*largest_])
      ++largest_;
  }

private:
  std::span<const double> values_;
  std::vector<std::size_t> up_, down_;
  std::vector<bool> gone_;
  std::vector<std::size_t>::const_iterator smallest_, largest_;
};

}  // namespace

std::vector<ExtremeDeviate> extreme_deviates(std::span<const double> values, std::size_t most,
                                             double risk) {
  expects(most >= 1 && values.size() >= most + 2,
          "outliers: two values more than outliers at least");
  expects(risk > 0.0 && risk < 1.0, "outliers: a risk between 0 and 1");
  Ends ends(values);
  Spread left(ends.median());
  for (const double v : values)
    left.put(v);
  std::vector<ExtremeDeviate> steps;
  for (std::size_t i = 1; i <= most; ++i) {
    const double sd = left.sd();
    if (sd <= rounding * ends.largest_size()) break;
    const double middle = left.mean();
    const std::size_t far = ends.furthest(middle);
    steps.push_back(
        {far, std::abs(values[far] - middle) / sd, critical_deviation(values.size(), i, risk)});
    left.take(values[far]);
    ends.take(far);
  }
  return steps;
}

std::vector<ExtremeDeviate> outliers(std::span<const double> values, std::size_t most,
                                     double risk) {
  std::vector<ExtremeDeviate> steps = extreme_deviates(values, most, risk);
  while (!steps.empty() && steps.back().deviation <= steps.back().bound)
    steps.pop_back();
  if (steps.empty()) return steps;
  // Outlying values hide each other in the earlier steps: each is given as the last step saw its
  // own, beside the good ones alone.
  std::vector<bool> gone(values.size());
  for (const ExtremeDeviate& s : steps)
    gone[s.index] = true;
  Spread good(
      values[static_cast<std::size_t>(std::find(gone.begin(), gone.end(), false) - gone.begin())]);
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!gone[i]) good.put(values[i]);
  }
  const double bound = steps.back().bound;
  for (ExtremeDeviate& s : steps) {
    const double value = values[s.index];
    good.put(value);
    s.deviation = std::abs(value - good.mean()) / good.sd();
    s.bound = bound;
    good.take(value);
  }
  return steps;
}

}  // namespace hailwright
