#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace hailwright::detail {

/// The median of the steps from row to row in constant memory: steps are counted in classes that
/// are 1/64 to 1/128 of their size wide, and the mean of the class that holds the median is taken,
/// so that the step of a regular log comes out as it is. Rows of one and the same time count for
/// nothing.
class UsualStep {
public:
  UsualStep();
  /// The times of the next rows [us], none before those already taken.
  void take(const std::vector<std::int64_t>& time_us);
  /// [s]; 0 when no two rows differ in time.
  [[nodiscard]] double seconds() const;

private:
  struct Class {
    std::int64_t count = 0;
    std::int64_t sum_us = 0;
  };
  void take_row(std::int64_t now_us);
  void take_steps(std::int64_t step_us, std::int64_t times);  ///< equal ones
  static void count(std::vector<Class>& classes, std::int64_t step_us, std::int64_t times);

  std::vector<Class> classes_;
  bool begun_ = false;
  std::int64_t last_us_ = 0;
  // Equal steps are counted as one run: most logs are regular.
  std::int64_t step_us_ = 0;
  std::int64_t run_ = 0;
};

}  // namespace hailwright::detail
