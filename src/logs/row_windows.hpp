#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace hailwright::detail {

/// Windows of equal length in time, counted from the first row. Knows the one that is open.
class RowWindows {
public:
  explicit RowWindows(std::int64_t length_us) : length_us_(std::max<std::int64_t>(length_us, 1)) {}

  [[nodiscard]] std::int64_t length_us() const { return length_us_; }
  [[nodiscard]] bool started() const { return index_ >= 0; }
  [[nodiscard]] std::int64_t index() const { return index_; }  ///< from 0; -1 before any row
  [[nodiscard]] std::int64_t begin_us() const { return begin_us_; }
  [[nodiscard]] std::int64_t end_us() const { return begin_us_ + length_us_; }

  /// Goes through rows in order of time: `close()` where a window ends, `add(from, to)` for rows
  /// that lie in one window. A window may come in several parts; the last one stays open.
  template <class Close, class Add>
  void go_through(const std::vector<std::int64_t>& time_us, std::size_t begin, std::size_t end,
                  const Close& close, const Add& add) {
    while (begin < end) {
      if (!started()) start(time_us[begin]);
      if (time_us[begin] >= end_us()) {
        close();
        move_to(time_us[begin]);
      }
      const std::size_t to = first_at_or_after(time_us, begin, end, end_us());
      add(begin, to);
      begin = to;
    }
  }

  /// First row that is not before a time; `end` when there is none.
  static std::size_t first_at_or_after(const std::vector<std::int64_t>& time_us, std::size_t begin,
                                       std::size_t end, std::int64_t limit_us) {
    const std::int64_t* const time = time_us.data();
    while (begin < end && time[begin] < limit_us)
      ++begin;
    return begin;
  }

private:
  void start(std::int64_t time_us) {
    begin_us_ = time_us;
    index_ = 0;
  }
  void move_to(std::int64_t time_us) {
    const std::int64_t further = (time_us - begin_us_) / length_us_;
    index_ += further;
    begin_us_ += further * length_us_;
  }

  std::int64_t length_us_;
  std::int64_t begin_us_ = 0;
  std::int64_t index_ = -1;
};

}  // namespace hailwright::detail
