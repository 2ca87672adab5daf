#include "support/log_rows.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>

namespace hailwright::testing {

LogBlock log_rows(const std::vector<std::pair<double, double>>& time_and_power) {
  LogBlock rows;
  rows.first_line = 2;
  rows.begins_file = true;
  for (const auto& [at_s, power_w] : time_and_power) {
    rows.line.push_back(static_cast<std::uint32_t>(rows.time_us.size()));
    rows.time_us.push_back(std::llround(at_s * 1e6));
    rows.values[index_of(LogRole::power)].push_back(power_w);
  }
  return rows;
}

LogBlock rows_by_second(std::size_t rows, double (*power_w)(double at_s)) {
  std::vector<std::pair<double, double>> all;
  for (std::size_t row = 0; row < rows; ++row) {
    const auto at_s = static_cast<double>(row);
    all.emplace_back(at_s, power_w(at_s));
  }
  return log_rows(all);
}

void add_column(LogBlock& rows, LogRole role, double (*value)(double at_s)) {
  for (const std::int64_t at_us : rows.time_us)
    rows.values[index_of(role)].push_back(value(static_cast<double>(at_us) * 1e-6));
}

LogBlock part_of(const LogBlock& rows, std::size_t begin, std::size_t end) {
  const auto from = static_cast<std::ptrdiff_t>(begin), to = static_cast<std::ptrdiff_t>(end);
  LogBlock part;
  part.file = rows.file;
  part.begins_file = rows.begins_file && begin == 0;
  part.first_line = rows.first_line;
  part.time_us.assign(rows.time_us.begin() + from, rows.time_us.begin() + to);
  for (std::size_t role = 0; role < log_roles; ++role)
    if (!rows.values[role].empty())
      part.values[role].assign(rows.values[role].begin() + from, rows.values[role].begin() + to);
  const std::uint32_t skipped = begin < rows.rows() ? rows.line[begin] : 0;
  part.first_line += skipped;
  for (std::size_t row = begin; row < end; ++row)
    part.line.push_back(rows.line[row] - skipped);
  std::string marker;
  for (const MarkerChange& change : rows.markers) {
    if (change.row <= begin)
      marker = change.text;
    else if (change.row < end)
      part.markers.push_back({change.row - begin, change.text});
  }
  if (!rows.markers.empty()) part.markers.insert(part.markers.begin(), {0, marker});
  return part;
}

std::vector<LogBlock> split_at(const LogBlock& rows, const std::vector<std::size_t>& ends) {
  std::vector<LogBlock> blocks;
  std::size_t begin = 0;
  for (const std::size_t end : ends) {
    blocks.push_back(part_of(rows, begin, end));
    begin = end;
  }
  blocks.push_back(part_of(rows, begin, rows.rows()));
  return blocks;
}

std::vector<LogBlock> split_at_random(const LogBlock& rows, int cuts, RandomStream& random) {
  std::vector<std::size_t> ends;
  for (int i = 0; i < cuts; ++i)
    ends.push_back(static_cast<std::size_t>(random.uniform() * static_cast<double>(rows.rows())));
  if (cuts > 1) ends[0] = ends[1];
  std::sort(ends.begin(), ends.end());
  return split_at(rows, ends);
}

NextBlock blocks_in_turn(std::vector<LogBlock> blocks) {
  auto left = std::make_shared<std::pair<std::vector<LogBlock>, std::size_t>>(std::move(blocks), 0);
  return [left](LogBlock& into) {
    if (left->second == left->first.size()) return false;
    into = left->first[left->second++];
    return true;
  };
}

}  // namespace hailwright::testing
