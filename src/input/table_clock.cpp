#include "input/table_clock.hpp"

#include <fmt/format.h>

#include "input/table_columns.hpp"

namespace hailwright::input {

namespace {

std::optional<int> two_digits(std::string_view text) {
  if (text.empty() || text.size() > 2) return std::nullopt;
  int value = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return value;
}

std::optional<int> minute_of_day(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos || text.size() - colon != 3) return std::nullopt;
  const auto hour = two_digits(text.substr(0, colon));
  const auto minute = two_digits(text.substr(colon + 1));
  if (!hour || !minute || *hour >= 24 || *minute >= 60) return std::nullopt;
  return *hour * 60 + *minute;
}

}  // namespace

std::string time_text(int minute) {
  return fmt::format("{:02}:{:02}", minute / 60, minute % 60);
}

std::optional<Moment> read_moment(const Cell& cell, std::string_view otherwise,
                                  Diagnostics& notes) {
  if (const auto minute = minute_of_day(cell.text)) return Moment{*minute, cell.origin};
  std::vector<std::string> hints{"hours and minutes, 24 hours a day: 13:05"};
  if (!otherwise.empty()) hints.emplace_back(otherwise);
  notes.error("T26", cell.origin, fmt::format("{} is not a time of day", shown(cell.text)),
              std::move(hints));
  return std::nullopt;
}

void report_time_back(const Moment& latest, const Moment& moment, std::string_view rows,
                      std::vector<std::string> hints, Diagnostics& notes) {
  notes
      .error("T27", moment.origin,
             fmt::format("time goes back inside {}: {} after {}", rows, time_text(moment.minute),
                         time_text(latest.minute)),
             std::move(hints))
      .related.push_back({latest.origin, "the later time is here"});
}

}  // namespace hailwright::input
