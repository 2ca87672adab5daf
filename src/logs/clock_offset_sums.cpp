#include "logs/clock_offset_sums.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <utility>

#include "metrology/widest_vectors.hpp"

namespace hailwright::detail {

namespace {

constexpr std::size_t room = 4096;  ///< steps that come in before the memory is moved up
constexpr std::size_t most_batches = 32;
constexpr std::int64_t first_batch_steps = 16;

void move_up(std::vector<double>& values, std::size_t back) {
  std::copy_backward(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(back),
                     values.end());
}

/// sums += factor * values, and others += squares.
struct AddPairs {
  double factor;
  const double* values;
  double* sums;
  const double* squares;
  double* others;
  std::size_t from, to;

  template <class Width>
  [[gnu::always_inline]] void operator()(Width /*unused*/) const {
    for (std::size_t i = from; i < to; ++i) {
      sums[i] += factor * values[i];
      others[i] += squares[i];
    }
  }
};

void add_pairs(const AddPairs& pairs) {
  static const Vectors widest = widest_vectors();
  run_with(widest, pairs);
}

void add_signed(std::vector<double>& sums, const std::vector<double>& others, double sign) {
  for (std::size_t i = 0; i < sums.size(); ++i)
    sums[i] += sign * others[i];
}

}  // namespace

RecentChanges::RecentChanges(std::size_t back)
    : back_(back), newest_(room), change_(room + back + 1), square_(room + back + 1),
      known_(room + back + 1) {}

void RecentChanges::add(double change) {
  if (newest_ == 0) {
    newest_ = room + 1;
    for (auto* values : {&change_, &square_, &known_})
      move_up(*values, back_);
  }
  --newest_;
  const bool known = !std::isnan(change);
  change_[newest_] = known ? change : 0.0;
  square_[newest_] = change_[newest_] * change_[newest_];
  known_[newest_] = known ? 1.0 : 0.0;
  known_in_a_row_ = known ? known_in_a_row_ + 1 : 0;
}

void RecentChanges::forget() {
  known_in_a_row_ = 0;
  for (auto* values : {&change_, &square_, &known_})
    std::fill(values->begin(), values->end(), 0.0);
}

void LagSums::Side::add(const RecentChanges& newest, const RecentChanges& earlier,
                        std::size_t from) {
  if (!newest.known()) return;
  const std::size_t to = product.size();
  add_pairs({*newest.changes(), earlier.changes(), product.data(), earlier.squares(),
             earlier_square.data(), from, to});
  if (earlier.all_known()) {
    newest_square_of_all += *newest.squares();
    pairs_of_all += 1.0;
  } else {
    add_pairs({*newest.squares(), earlier.knowns(), newest_square.data(), earlier.knowns(),
               pairs.data(), from, to});
  }
}

void LagSums::Side::add(const Side& other, double sign) {
  add_signed(product, other.product, sign);
  add_signed(newest_square, other.newest_square, sign);
  add_signed(earlier_square, other.earlier_square, sign);
  add_signed(pairs, other.pairs, sign);
  newest_square_of_all += sign * other.newest_square_of_all;
  pairs_of_all += sign * other.pairs_of_all;
}

LagSums::LagSums(std::size_t lags) : lags_(lags), ahead_(lags + 1), behind_(lags + 1) {}

void LagSums::add(const RecentChanges& first, const RecentChanges& second) {
  ahead_.add(first, second, 0);
  behind_.add(second, first, 1);
}

LagSums& LagSums::operator+=(const LagSums& other) {
  ahead_.add(other.ahead_, 1.0);
  behind_.add(other.behind_, 1.0);
  return *this;
}

LagSums& LagSums::operator-=(const LagSums& other) {
  ahead_.add(other.ahead_, -1.0);
  behind_.add(other.behind_, -1.0);
  return *this;
}

double LagSums::correlation(std::ptrdiff_t lag) const {
  const auto i = static_cast<std::size_t>(std::abs(lag));
  const Side& of = side(lag);
  const double newest = of.newest_square[i] + of.newest_square_of_all;
  const double earlier = of.earlier_square[i];
  return newest > 0.0 && earlier > 0.0 ? of.product[i] / (std::sqrt(newest) * std::sqrt(earlier))
                                       : 0.0;
}

double LagSums::pairs(std::ptrdiff_t lag) const {
  return side(lag).pairs[static_cast<std::size_t>(std::abs(lag))] + side(lag).pairs_of_all;
}

BatchedSums::BatchedSums(std::size_t lags) : lags_(lags), steps_in_batch_(first_batch_steps) {
  batches_.emplace_back(lags_);
}

void BatchedSums::add(const RecentChanges& first, const RecentChanges& second) {
  if (steps_in_last_ == steps_in_batch_) {
    if (batches_.size() == most_batches) {
      for (std::size_t i = 0; 2 * i < most_batches; ++i) {
        LagSums pair = std::move(batches_[2 * i]);
        pair += batches_[2 * i + 1];
        batches_[i] = std::move(pair);
      }
      batches_.erase(batches_.begin() + most_batches / 2, batches_.end());
      steps_in_batch_ *= 2;
    }
    batches_.emplace_back(lags_);
    steps_in_last_ = 0;
  }
  ++steps_in_last_;
  batches_.back().add(first, second);
}

LagSums BatchedSums::total() const {
  LagSums sum(lags_);
  for (const LagSums& batch : batches_)
    sum += batch;
  return sum;
}

}  // namespace hailwright::detail
