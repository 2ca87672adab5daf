#include "logs/row_keeper.hpp"

#include <algorithm>

#include "logs/block_cell.hpp"

namespace hailwright::detail {

namespace {

LogRow row_of(const LogBlock& block, std::size_t row) {
  LogRow out;
  out.time_us = block.time_us[row];
  out.file = block.file;
  out.line = block.first_line + block.line[row];
  out.power = cell(block, LogRole::power, row);
  out.irradiance = cell(block, LogRole::irradiance, row);
  out.temperature = cell(block, LogRole::temperature, row);
  out.power_beside = cell(block, LogRole::power_beside, row);
  out.temperature_beside = cell(block, LogRole::temperature_beside, row);
  return out;
}

}  // namespace

void RowKeeper::add(const LogBlock& block, std::size_t begin, std::size_t end) {
  if (most_ == 0) return;
  const std::size_t room = most_ - rows_.size();
  if (end - begin > room) complete_ = false;
  const std::size_t to = begin + std::min(room, end - begin);
  for (std::size_t row = begin; row < to; ++row)
    rows_.push_back(row_of(block, row));
}

void RowKeeper::close_window(std::string_view removed) {
  for (; open_from_ < rows_.size(); ++open_from_)
    rows_[open_from_].removed = removed;
}

}  // namespace hailwright::detail
