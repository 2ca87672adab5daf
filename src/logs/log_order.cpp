#include "logs/log_order.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "hailwright/core/contract.hpp"
#include "hailwright/logs/log_stream.hpp"
#include "logs/log_parser_cells.hpp"
#include "logs/log_problems.hpp"

namespace hailwright::detail {

namespace {

/// "+02:00"
std::string written_offset(std::int64_t offset_us) {
  constexpr std::int64_t minute_us = 60'000'000;
  const std::int64_t minutes = std::abs(offset_us) / minute_us;
  return fmt::format("{}{:02}:{:02}", offset_us < 0 ? '-' : '+', minutes / 60, minutes % 60);
}

/// A line of a piece, from 0.
std::string_view line_of(std::string_view text, std::uint32_t line) {
  std::size_t begin = 0;
  for (std::uint32_t i = 0; i < line; ++i)
    begin = text.find('\n', begin) + 1;
  std::string_view found = text.substr(begin, text.find('\n', begin) - begin);
  if (!found.empty() && found.back() == '\r') found.remove_suffix(1);
  return found;
}

template <class Value>
void keep_rows(const std::vector<std::size_t>& kept, std::vector<Value>& column) {
  if (column.empty()) return;
  for (std::size_t i = 0; i < kept.size(); ++i)
    column[i] = column[kept[i]];
  column.resize(kept.size());
}

/// A change that stood at a row which was taken out comes with the next one that is kept.
void keep_markers(const std::vector<std::size_t>& kept, std::vector<MarkerChange>& markers) {
  std::vector<MarkerChange> moved;
  for (MarkerChange& change : markers) {
    const auto row = static_cast<std::size_t>(
        std::lower_bound(kept.begin(), kept.end(), change.row) - kept.begin());
    if (row == kept.size()) break;
    if (!moved.empty() && moved.back().row == row) moved.pop_back();
    moved.push_back({row, std::move(change.text)});
  }
  markers = std::move(moved);
}

}  // namespace

void LogOrder::begin_file(const LogShape& shape, std::string name, std::optional<TimeZone> zone) {
  zone_ = zone;
  stamps_tell_utc_ = !zone_.has_value();
  local_ = LocalTime{};
  usual_step_us_ = std::llround(shape.usual_step_s * 1e6);
  separator_ = shape.separator;
  const LogColumn* time = shape.column(LogRole::time);
  if (time == nullptr) time = shape.column(LogRole::clock);
  expects(time != nullptr, "a log has a column of time");
  time_place_ = time->place;
  name_ = std::move(name);
}

void LogOrder::put(LogBlock& block, std::string_view text) {
  if (block.rows() > 0) {
    const bool in_utc = shift_whole(block);
    if (in_utc && rises(block.time_us)) {
      if (block.rows() > 1) note_latest(block.rows() - 2, block);
      note_latest(block.rows() - 1, block);
    } else {
      go_row_by_row(block, text, in_utc);
    }
  }
  join_markers(block);
}

/// Where one offset holds for all rows, one subtraction a row.
bool LogOrder::shift_whole(LogBlock& block) {
  if (stamps_tell_utc_) return true;
  const auto [lowest, highest] = std::minmax_element(block.time_us.begin(), block.time_us.end());
  if (!local_.holds_for(*lowest)) local_ = zone_->at_local(*lowest);
  if (local_.kind != LocalTime::Kind::unique || !local_.holds_for(*highest)) return false;
  for (std::int64_t& time_us : block.time_us)
    time_us -= local_.offset_us;
  return true;
}

bool LogOrder::rises(const std::vector<std::int64_t>& times) const {
  std::int64_t before = latest_us_;
  bool rising = true;
  for (const std::int64_t time_us : times) {
    rising &= time_us > before;
    before = time_us;
  }
  return rising;
}

void LogOrder::go_row_by_row(LogBlock& block, std::string_view text, bool in_utc) {
  kept_.clear();
  for (std::size_t row = 0; row < block.rows(); ++row) {
    if (!keeps(row, block, text, in_utc)) continue;
    kept_.push_back(row);
    note_latest(row, block);
  }
  if (kept_.size() == block.rows()) return;
  keep_rows(kept_, block.time_us);
  keep_rows(kept_, block.line);
  for (std::vector<double>& column : block.values)
    keep_rows(kept_, column);
  keep_markers(kept_, block.markers);
}

template <class Words>
void LogOrder::tell(std::string_view code, std::size_t row, LogBlock& block, std::string_view text,
                    Words words) const {
  const std::uint32_t line = block.line[row];
  if (!counts_among_first(code, static_cast<int>(line), block)) return;
  const std::string_view shown = line_of(text, line);
  std::vector<LineCell> cells;
  cut_into_cells(shown, separator_, cells);
  const LineCell cell = time_place_ < cells.size() ? cells[time_place_] : LineCell{};
  tell_problem(code, static_cast<int>(line), shown, cell.begin, cell.end, words(), block);
}

bool LogOrder::keeps(std::size_t row, LogBlock& block, std::string_view text, bool in_utc_already) {
  std::int64_t& time_us = block.time_us[row];
  if (!in_utc_already && !in_utc(time_us)) {
    ++block.unreadable;
    tell("L15", row, block, text, [&] {
      return ToldProblem{
          fmt::format("there is no such local time in {}: clocks were set forward over it",
                      zone_name_),
          {"state the zone that the logger's clock really kept: a fixed offset such as +01:00 if "
           "it "
           "does not change its clock"}};
    });
    return false;
  }
  if (!in_utc_already && takes_first_pass_unseen(time_us)) {
    tell("L33", row, block, text, [&] { return words_of_unseen_pass(); });
  }
  if (time_us < latest_us_) {
    ++out_of_order_;
    tell("L14", row, block, text, [&] {
      return ToldProblem{fmt::format("the time goes back: {} comes after {} in {}",
                                     iso_time(time_us, zone_name_),
                                     iso_time(latest_us_, zone_name_), latest_place()),
                         {mend_of_going_back(time_us)}};
    });
    return false;
  }
  if (time_us == latest_us_) {
    ++same_time_;
    tell("L20", row, block, text, [&] {
      return ToldProblem{fmt::format("this row has the time of {}: both are used", latest_place()),
                         {}};
    });
  }
  return true;
}

/// False for a local time that was skipped.
bool LogOrder::in_utc(std::int64_t& time_us) {
  if (!local_.holds_for(time_us)) local_ = zone_->at_local(time_us);
  if (local_.kind == LocalTime::Kind::skipped) return false;
  time_us -= in_second_pass(time_us) ? local_.second_offset_us : local_.offset_us;
  return true;
}

/// Of a local time that came twice. A clock that is set back goes back by about the repetition's
/// whole length; a row that is a little out of order does not begin the second pass.
bool LogOrder::in_second_pass(std::int64_t local_us) const {
  const std::int64_t length_us = local_.offset_us - local_.second_offset_us;
  const std::int64_t first_pass_us = local_us - local_.offset_us;
  if (length_us == 0 || first_pass_us > latest_us_) return false;
  // Of a logger with so few rows the second pass may begin with the stamp that ended the first.
  if (first_pass_us == latest_us_) return 2 * usual_step_us_ >= length_us;
  const std::int64_t second_begins_us = local_.end_us - local_.offset_us;
  return latest_us_ >= second_begins_us || latest_us_ - first_pass_us >= length_us / 2;
}

/// One wild stamp ahead puts all rows after it out of order. It is taken for one when this row
/// follows the row before it far more closely than it does: ten times [ours].
bool LogOrder::jumped_ahead_of(std::int64_t time_us) const {
  constexpr double far = 10.0;
  if (before_latest_us_ == std::numeric_limits<std::int64_t>::min()) return false;
  if (time_us < before_latest_us_) return false;
  const auto step = static_cast<double>(time_us - before_latest_us_);
  return static_cast<double>(latest_us_ - before_latest_us_) > far * step;
}

std::string LogOrder::mend_of_going_back(std::int64_t time_us) const {
  if (jumped_ahead_of(time_us)) {
    return fmt::format("{} jumps ahead, from {} to {}: see whether its stamp is the wrong one",
                       latest_place(), iso_time(before_latest_us_, zone_name_),
                       iso_time(latest_us_, zone_name_));
  }
  return latest_name_ != name_
             ? "name the files of a log in the order of their times"
             : "sort the rows by time, or make two logs where the clock was set back";
}

/// The first row inside a repetition, where rows before it do not show that they led up to it: they
/// are missing, or so long ago that the other pass is as likely.
bool LogOrder::takes_first_pass_unseen(std::int64_t utc_us) const {
  if (local_.kind != LocalTime::Kind::repeated) return false;
  const std::int64_t begins_us = local_.begin_us - local_.offset_us;
  const std::int64_t length_us = local_.offset_us - local_.second_offset_us;
  if (utc_us >= begins_us + length_us || latest_us_ >= begins_us) return false;
  return latest_name_.empty() || utc_us - latest_us_ > std::max(length_us, usual_step_us_);
}

ToldProblem LogOrder::words_of_unseen_pass() const {
  return {fmt::format("this local time came twice in {}, and no row shortly before tells which is "
                      "meant: the first is taken, {} from UTC",
                      zone_name_, written_offset(local_.offset_us)),
          {fmt::format("if it is the second, state the offset that the clock had then, {0}: --zone "
                       "{0}, or in a record or column map  zone: {0}",
                       written_offset(local_.second_offset_us))}};
}

void LogOrder::note_latest(std::size_t row, const LogBlock& block) {
  before_latest_us_ = latest_us_;
  latest_us_ = block.time_us[row];
  latest_line_ = block.first_line + block.line[row];
  if (latest_name_ != name_) latest_name_ = name_;
}

std::string LogOrder::latest_place() const {
  if (latest_name_ == name_) return fmt::format("line {}", latest_line_);
  return fmt::format("line {} of {}", latest_line_, latest_name_);
}

/// A parser tells the marker of the first row of each block; here only changes stay.
void LogOrder::join_markers(LogBlock& block) {
  std::vector<MarkerChange> changes;
  for (MarkerChange& change : block.markers) {
    if (marker_ == change.text) continue;
    marker_ = change.text;
    changes.push_back(std::move(change));
  }
  block.markers = std::move(changes);
}

}  // namespace hailwright::detail
