#include "logs/usual_step.hpp"

#include <algorithm>
#include <bit>

#include "logs/row_checks.hpp"

namespace hailwright::detail {

namespace {

constexpr unsigned fine_bits = 6;  ///< of the mantissa: 64 classes an octave
constexpr unsigned mantissa_bits = 52;
constexpr std::size_t octaves = 63;
constexpr std::uint64_t bits_of_one = std::bit_cast<std::uint64_t>(1.0);

/// The leading bits of the step as a floating number: its exponent and the first of its mantissa.
std::size_t class_of(std::int64_t step_us) {
  const auto bits = std::bit_cast<std::uint64_t>(static_cast<double>(step_us));
  return static_cast<std::size_t>((bits - bits_of_one) >> (mantissa_bits - fine_bits));
}

}  // namespace

UsualStep::UsualStep() : classes_((octaves + 1) << fine_bits) {}

void UsualStep::count(std::vector<Class>& classes, std::int64_t step_us, std::int64_t times) {
  if (step_us <= 0) return;
  Class& met = classes[class_of(step_us)];
  met.count += times;
  met.sum_us += times * step_us;
}

void UsualStep::take(const std::vector<std::int64_t>& time_us) {
  for (std::size_t from = 0; from < time_us.size(); from += rows_of_a_piece) {
    const std::size_t rows = std::min(rows_of_a_piece, time_us.size() - from);
    const std::int64_t* const times = time_us.data() + from;
    take_row(times[0]);
    if (rows == 1) return;
    if (even_steps(times, rows)) {
      take_steps(times[1] - times[0], static_cast<std::int64_t>(rows) - 1);
      last_us_ = times[rows - 1];
    } else {
      for (std::size_t i = 1; i < rows; ++i)
        take_row(times[i]);
    }
  }
}

void UsualStep::take_row(std::int64_t now_us) {
  take_steps(begun_ ? now_us - last_us_ : 0, 1);
  begun_ = true;
  last_us_ = now_us;
}

void UsualStep::take_steps(std::int64_t step_us, std::int64_t times) {
  if (step_us != step_us_) {
    count(classes_, step_us_, run_);
    step_us_ = step_us;
    run_ = 0;
  }
  run_ += times;
}

double UsualStep::seconds() const {
  std::vector<Class> classes = classes_;
  count(classes, step_us_, run_);
  std::int64_t all = 0;
  for (const Class& c : classes)
    all += c.count;
  std::int64_t below = 0;
  for (const Class& c : classes) {
    below += c.count;
    if (c.count > 0 && 2 * below >= all)
      return static_cast<double>(c.sum_us) / static_cast<double>(c.count) * 1e-6;
  }
  return 0.0;
}

}  // namespace hailwright::detail
