#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/logs/log_block.hpp"
#include "hailwright/logs/log_format.hpp"
#include "logs/log_problems.hpp"
#include "logs/time_zone.hpp"

namespace hailwright::detail {

/// Puts the rows of a log on one clock, block by block in their order: local times become UTC, a
/// row before the time of an earlier one is taken out, and so is one whose local time a clock
/// change skipped. A local time that came twice is the first pass until the stamps step back
/// by at least half of what is repeated [ours], or come again where rows are usually as far apart
/// as that. Where nothing shows that it was the first pass, that is warned of.
class LogOrder {
public:
  /// @param zone  the name of the stamps' zone, for messages
  explicit LogOrder(std::string zone) : zone_name_(std::move(zone)) {}

  /// @param zone  nothing where stamps are read as UTC
  void begin_file(const LogShape& shape, std::string name, std::optional<TimeZone> zone);

  /// Works on the next block. `text` is the piece that it was made of, for what messages show.
  /// `first_line` of the block must be set.
  void put(LogBlock& block, std::string_view text);

  /// So many rows were taken out because of their order, so far; those of skipped local times are
  /// counted in the blocks as unreadable.
  [[nodiscard]] std::int64_t out_of_order() const { return out_of_order_; }
  [[nodiscard]] std::int64_t same_time() const { return same_time_; }

private:
  bool shift_whole(LogBlock& block);
  [[nodiscard]] bool rises(const std::vector<std::int64_t>& times) const;
  void go_row_by_row(LogBlock& block, std::string_view text, bool in_utc);
  bool keeps(std::size_t row, LogBlock& block, std::string_view text, bool in_utc);
  bool in_utc(std::int64_t& time_us);
  [[nodiscard]] bool in_second_pass(std::int64_t local_us) const;
  [[nodiscard]] bool takes_first_pass_unseen(std::int64_t utc_us) const;
  [[nodiscard]] ToldProblem words_of_unseen_pass() const;
  /// Counts; the words are made by `words`, a ToldProblem, for the first of a block alone.
  template <class Words>
  void tell(std::string_view code, std::size_t row, LogBlock& block, std::string_view text,
            Words words) const;
  void note_latest(std::size_t row, const LogBlock& block);
  [[nodiscard]] std::string latest_place() const;
  [[nodiscard]] bool jumped_ahead_of(std::int64_t time_us) const;
  [[nodiscard]] std::string mend_of_going_back(std::int64_t time_us) const;
  void join_markers(LogBlock& block);

  std::string zone_name_;
  std::optional<TimeZone> zone_;
  LocalTime local_;  ///< what the last local time meant
  bool stamps_tell_utc_ = false;
  char separator_ = ',';
  std::size_t time_place_ = 0;
  std::int64_t usual_step_us_ = 0;
  std::string name_;

  std::int64_t latest_us_ = std::numeric_limits<std::int64_t>::min();
  std::int64_t latest_line_ = 0;
  std::int64_t before_latest_us_ = std::numeric_limits<std::int64_t>::min();
  std::string latest_name_;
  std::optional<std::string> marker_;
  std::vector<std::size_t> kept_;
  std::int64_t out_of_order_ = 0;
  std::int64_t same_time_ = 0;
};

}  // namespace hailwright::detail
