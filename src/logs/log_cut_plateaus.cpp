#include "logs/log_cut_plateaus.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace hailwright::detail {

namespace {

LogBlock rows_of(const LogBlock& block, std::size_t begin, std::size_t end) {
  const auto from = static_cast<std::ptrdiff_t>(begin);
  const auto to = static_cast<std::ptrdiff_t>(end);
  LogBlock rows;
  rows.file = block.file;
  rows.first_line = block.first_line;
  rows.begins_file = block.begins_file && begin == 0;
  rows.time_us.assign(block.time_us.begin() + from, block.time_us.begin() + to);
  rows.line.assign(block.line.begin() + from, block.line.begin() + to);
  for (std::size_t role = 0; role < log_roles; ++role)
    if (!block.values[role].empty())
      rows.values[role].assign(block.values[role].begin() + from, block.values[role].begin() + to);
  return rows;
}

/// Time of the rows that count: windows are kept whole, so rows tell it.
double steady_seconds(const LogStretch& stretch) {
  if (!stretch.steady || stretch.rows == 0) return stretch.bridged_s;
  return stretch.bridged_s * static_cast<double>(stretch.steady->rows_kept) /
         static_cast<double>(stretch.rows);
}

}  // namespace

PlateauCutter::PlateauCutter(const PlateauRule& plateaus, const StretchRules& rules,
                             std::size_t kept_rows)
    : plateaus_(plateaus), load_on_w_(rules.load_on.si()),
      shortest_off_us_(std::llround(plateaus.shortest_off.si() * 1e6)),
      unseen_off_us_(
          std::max<std::int64_t>(shortest_off_us_, std::llround(rules.longest_gap.si() * 1e6) + 1)),
      out_(rules, kept_rows) {}

void PlateauCutter::take(const LogBlock& block) {
  if (block.column(LogRole::power).empty()) return;
  for (std::size_t at = 0; at < block.rows();) {
    if (block.column(LogRole::power)[at] >= load_on_w_) {
      const std::int64_t off_us = rows_held_ > 0 ? shortest_off_us_ : unseen_off_us_;
      if (open_ && block.time_us[at] - last_on_us_ >= off_us) close();
      const std::size_t end = end_of_on(block, at);
      take_on(block, at, end);
      at = end;
    } else {
      const std::size_t end = end_of_off(block, at);
      hold_back(block, at, end);
      at = end;
    }
  }
}

/// The first row without load, or after a step in which an interruption may lie unseen.
std::size_t PlateauCutter::end_of_on(const LogBlock& block, std::size_t begin) const {
  const double* power = block.column(LogRole::power).data();
  const std::int64_t* time_us = block.time_us.data();
  std::size_t end = begin + 1;
  while (end < block.rows() && power[end] >= load_on_w_ &&
         time_us[end] - time_us[end - 1] < unseen_off_us_)
    ++end;
  return end;
}

std::size_t PlateauCutter::end_of_off(const LogBlock& block, std::size_t begin) const {
  const double* power = block.column(LogRole::power).data();
  std::size_t end = begin + 1;
  while (end < block.rows() && !(power[end] >= load_on_w_))
    ++end;
  return end;
}

void PlateauCutter::take_on(const LogBlock& block, std::size_t begin, std::size_t end) {
  if (!open_) open_.emplace(out_.open());
  for (const LogBlock& rows : held_)
    open_->take(rows, 0, rows.rows());
  held_.clear();
  rows_held_ = 0;
  open_->take(block, begin, end);
  last_on_us_ = block.time_us[end - 1];
}

void PlateauCutter::hold_back(const LogBlock& block, std::size_t begin, std::size_t end) {
  if (!open_) return;
  rows_held_ += end - begin;
  if (block.time_us[end - 1] - last_on_us_ >= shortest_off_us_ || rows_held_ > most_rows_off)
    close();
  else
    held_.push_back(rows_of(block, begin, end));
}

void PlateauCutter::close() {
  held_.clear();
  rows_held_ = 0;
  if (!open_) return;
  const LogPlace place = open_->place();
  CutStretch cut = open_->close(std::to_string(out_.size() + 1));
  open_.reset();
  const double steady_s = steady_seconds(cut.stretch);
  if (steady_s < plateaus_.shortest.si()) {
    if (remarks_.too_short++ == 0) remarks_.first_too_short = place;
    remarks_.longest_too_short_s = std::max(remarks_.longest_too_short_s, steady_s);
  } else if (out_.full()) {
    if (remarks_.too_many++ == 0) remarks_.first_too_many = place;
  } else {
    out_.add(std::move(cut));
  }
}

CutResult PlateauCutter::finish() {
  close();
  return {out_.release(), std::move(remarks_)};
}

}  // namespace hailwright::detail
