#include "logs/log_follower.hpp"

#include <utility>

#include "logs/block_cell.hpp"

namespace hailwright::detail {

namespace {

double between(double before, double after, double share) {
  return before + share * (after - before);
}

}  // namespace

LogFollower::LogFollower(NextBlock next, std::int64_t offset_us, std::int64_t longest_gap_us)
    : next_(std::move(next)), offset_us_(offset_us), longest_gap_us_(longest_gap_us) {}

bool LogFollower::has_row() {
  while (!ended_ && at_ >= block_.rows()) {
    at_ = 0;
    block_.clear();
    ended_ = !next_(block_);
    has_temperature_ = has_temperature_ || !block_.column(LogRole::temperature).empty();
  }
  return !ended_;
}

LogFollower::Row LogFollower::row() const {
  return {row_us(), {cell(block_, LogRole::power, at_), cell(block_, LogRole::temperature, at_)}};
}

std::optional<std::int64_t> LogFollower::next_us() {
  if (!has_row()) return std::nullopt;
  return row_us();
}

LogFollower::Values LogFollower::at(std::int64_t time_us) {
  while (has_row() && row_us() <= time_us) {
    before_ = row();
    ++at_;
  }
  if (!before_) return {};
  if (before_->time_us == time_us) return before_->values;
  if (ended_ || row_us() - before_->time_us > longest_gap_us_) return {};
  const Row after = row();
  const double share = static_cast<double>(time_us - before_->time_us) /
                       static_cast<double>(after.time_us - before_->time_us);
  return {between(before_->values.power, after.values.power, share),
          between(before_->values.temperature, after.values.temperature, share)};
}

}  // namespace hailwright::detail
