#include "logs/series_sums.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "hailwright/metrology/statistics.hpp"
#include "logs/compensated_sum.hpp"
#include "logs/four_lanes.hpp"
#include "logs/row_checks.hpp"

namespace hailwright::detail {

namespace {

/// Fewer tell nothing about how much neighbours resemble each other (M2).
constexpr std::int64_t rows_to_tell = 20;

/// Less scatter, relative to the mean, is that of sums in doubles: 2^-53 and what adding makes of
/// it. No instrument shows so many digits. [ours]
constexpr double rounding = 1e-13;

/// Adds a few rows; gives false and does nothing when a cell is blank.
bool add_few(ColumnTotal& into, const double* values, std::size_t rows) {
  double sum = 0.0;
  double low = values[0];
  double high = low;
  std::size_t i = 0;
  if (rows >= lanes) {
    FourLanes sums{};
    FourLanes lows = FourLanes::load(values);
    FourLanes highs = lows;
    for (; i + lanes <= rows; i += lanes) {
      const FourLanes value = FourLanes::load(values + i);
      sums += value;
      lows = lesser(value, lows);
      highs = greater(value, highs);
    }
    sum = total(sums);
    low = least(lows);
    high = most(highs);
  }
  for (; i < rows; ++i) {
    sum += values[i];
    low = std::min(low, values[i]);
    high = std::max(high, values[i]);
  }
  if (std::isnan(sum)) return false;
  into.least = into.count == 0 ? low : std::min(into.least, low);
  into.most = into.count == 0 ? high : std::max(into.most, high);
  into.count += static_cast<std::int64_t>(rows);
  add_compensated(into.sum, into.rest, sum);
  return true;
}

/// Adds those that are not blank.
void add_present(ColumnTotal& into, const double* values, std::size_t rows) {
  std::array<double, rows_of_a_piece> present{};
  std::size_t filled = 0;
  for (std::size_t i = 0; i < rows; ++i)
    if (!std::isnan(values[i])) present[filled++] = values[i];
  if (filled > 0) add_few(into, present.data(), filled);
}

/// What a part becomes when its distances are taken from another mean, `shift` below its own.
void shift_mean(SeriesSums& part, double shift) {
  const auto pairs = static_cast<double>(part.pairs);
  part.squares += static_cast<double>(part.count) * shift * shift;
  part.products += shift * part.pair_sum + pairs * shift * shift;
  part.pair_sum += 2.0 * pairs * shift;
  part.mean -= shift;
}

void merge(SeriesSums& into, SeriesSums next, bool neighbours) {
  if (next.count == 0) return;
  if (into.count == 0) {
    into = next;
    return;
  }
  const auto count = static_cast<double>(into.count + next.count);
  const double apart = next.mean - into.mean;
  shift_mean(into, -apart * (static_cast<double>(next.count) / count));
  shift_mean(next, apart * (static_cast<double>(into.count) / count));
  if (neighbours) {
    const double left = into.last - into.mean;
    const double right = next.first - into.mean;
    ++into.pairs;
    into.products += left * right;
    into.pair_sum += left + right;
  }
  into.count += next.count;
  into.squares += next.squares;
  into.pairs += next.pairs;
  into.pair_sum += next.pair_sum;
  into.products += next.products;
  into.last = next.last;
  into.last_us = next.last_us;
}

/// Rows that are all neighbours; the mean is NaN when a cell is blank. By their distances from the
/// first one. That is one of them, so that moving to the mean loses at most the digits of their
/// number.
SeriesSums of_neighbours(const std::int64_t* time_us, const double* values, std::size_t rows) {
  const double pivot = values[0];
  const FourLanes pivots = FourLanes::all(pivot);
  FourLanes sum{};
  FourLanes squares{};
  FourLanes products{};
  std::size_t i = 1;
  for (; i + lanes <= rows; i += lanes) {
    const FourLanes before = FourLanes::load(values + i - 1) - pivots;
    const FourLanes here = FourLanes::load(values + i) - pivots;
    sum += here;
    squares += here * here;
    products += before * here;
  }
  double all = total(sum);
  double all_squares = total(squares);
  double all_products = total(products);
  for (; i < rows; ++i) {
    const double here = values[i] - pivot;
    all += here;
    all_squares += here * here;
    all_products += (values[i - 1] - pivot) * here;
  }
  SeriesSums part;
  part.count = static_cast<std::int64_t>(rows);
  part.pairs = part.count - 1;
  part.first = values[0];
  part.last = values[rows - 1];
  part.first_us = time_us[0];
  part.last_us = time_us[rows - 1];
  const double shift = all / static_cast<double>(rows);
  part.mean = pivot + shift;
  part.squares = std::max(0.0, all_squares - all * shift);
  const auto pairs = static_cast<double>(part.pairs);
  const double pair_sum = 2.0 * all - (part.last - pivot);  // the first one's distance is 0
  part.products = all_products - shift * pair_sum + pairs * shift * shift;
  part.pair_sum = pair_sum - 2.0 * pairs * shift;
  return part;
}

/// A piece with blanks or gaps in it: the rows between them.
SeriesSums of_odd_piece(const std::int64_t* time_us, const double* values, std::size_t rows,
                        std::int64_t longest_gap_us) {
  SeriesSums all;
  std::array<std::int64_t, rows_of_a_piece> times{};
  std::array<double, rows_of_a_piece> present{};
  std::size_t filled = 0;
  const auto close = [&] {
    if (filled > 0) all.append(of_neighbours(times.data(), present.data(), filled), longest_gap_us);
    filled = 0;
  };
  for (std::size_t i = 0; i < rows; ++i) {
    if (std::isnan(values[i])) continue;
    if (filled > 0 && time_us[i] - times[filled - 1] > longest_gap_us) close();
    times[filled] = time_us[i];
    present[filled++] = values[i];
  }
  close();
  return all;
}

}  // namespace

ColumnTotal ColumnTotal::of(const std::vector<double>& values, std::size_t begin, std::size_t end) {
  ColumnTotal all;
  all.add(values, begin, end);
  return all;
}

void ColumnTotal::add(const std::vector<double>& values, std::size_t begin, std::size_t end) {
  for (std::size_t from = begin; from < end; from += rows_of_a_piece) {
    const std::size_t rows = std::min(rows_of_a_piece, end - from);
    if (!add_few(*this, values.data() + from, rows)) add_present(*this, values.data() + from, rows);
  }
}

void ColumnTotal::append(const ColumnTotal& next) {
  if (next.count == 0) return;
  if (count == 0) {
    *this = next;
    return;
  }
  count += next.count;
  add_compensated(sum, rest, next.sum);
  rest += next.rest;
  least = std::min(least, next.least);
  most = std::max(most, next.most);
}

double ColumnTotal::mean() const {
  return count == 0 ? 0.0 : (sum + rest) / static_cast<double>(count);
}

ColumnSums ColumnTotal::sums() const {
  return {count, mean(), least, most};
}

SeriesSums SeriesSums::of_one(std::int64_t time_us, double value) {
  SeriesSums one;
  one.count = 1;
  one.mean = one.first = one.last = value;
  one.first_us = one.last_us = time_us;
  return one;
}

SeriesSums SeriesSums::of(const std::vector<std::int64_t>& time_us,
                          const std::vector<double>& values, std::size_t begin, std::size_t end,
                          std::int64_t longest_gap_us) {
  SeriesSums all;
  for (std::size_t from = begin; from < end; from += rows_of_a_piece) {
    const std::size_t rows = std::min(rows_of_a_piece, end - from);
    const std::int64_t* const time = time_us.data() + from;
    const double* const value = values.data() + from;
    if (!any_longer_step(time, rows, longest_gap_us)) {
      const SeriesSums piece = of_neighbours(time, value, rows);
      if (!std::isnan(piece.mean)) {
        all.append(piece, longest_gap_us);
        continue;
      }
    }
    all.append(of_odd_piece(time, value, rows, longest_gap_us), longest_gap_us);
  }
  return all;
}

void SeriesSums::append(const SeriesSums& next, std::int64_t longest_gap_us) {
  merge(*this, next, next.first_us - last_us <= longest_gap_us);
}

void SeriesSums::append_apart(const SeriesSums& next) {
  merge(*this, next, false);
}

SeriesMean SeriesSums::result() const {
  SeriesMean out;
  out.count = count;
  out.mean = mean;
  if (count < 2) {
    out.effective = static_cast<double>(count);
    return out;
  }
  const auto n = static_cast<double>(count);
  out.sd = std::sqrt(squares / (n - 1.0));
  // With all pairs there this is the sum of products over the sum of squares, as NIST defines it;
  // where gaps took pairs away, their part is made up for.
  if (squares > 0.0 && pairs > 0)
    out.lag1 = std::clamp(products / squares * ((n - 1.0) / static_cast<double>(pairs)), -1.0, 1.0);
  const bool no_scatter = out.sd <= rounding * std::abs(mean);
  if (no_scatter) out.lag1 = 0.0;
  // A constant has no autocorrelation: nothing tells how many of its rows are independent.
  out.effective = pairs + 1 < rows_to_tell || no_scatter ? 1.0 : effective_rows(count, out.lag1);
  return out;
}

double effective_rows(std::int64_t rows, double lag1) {
  if (rows < rows_to_tell) return rows > 0 ? 1.0 : 0.0;
  // From here on r^n is nothing beside 1 (0.99^10000 = 2e-44), and the sum has a closed form.
  constexpr std::int64_t many = 10'000;
  if (rows <= many) return effective_count(static_cast<int>(rows), lag1);
  const auto n = static_cast<double>(rows);
  const double r = std::clamp(lag1, 0.0, 0.99);
  const double sum = r / (1.0 - r) - r / (n * (1.0 - r) * (1.0 - r));
  return n / (1.0 + 2.0 * sum);
}

}  // namespace hailwright::detail
