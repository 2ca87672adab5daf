#include "input/table_speed.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "input/table_ice.hpp"

namespace hailwright::input {

namespace {

/// Columns of which a row has one.
constexpr std::array<std::string_view, 3> columns_of_speed{"frames", "speed", "time"};

std::string_view way_text(const SpeedMethod& method) {
  if (method.by == SpeedSource::drop) return "the height of the fall";
  if (method.by == SpeedSource::setting) return "the launcher's setting";
  switch (method.way()) {
  case SpeedWay::typed:
    return "a meter of speed";
  case SpeedWay::frames:
    return "video frames over a length";
  case SpeedWay::positions:
    return "positions in two pictures";
  case SpeedWay::gates:
    return "two gates";
  case SpeedWay::radar:
    return "a radar";
  case SpeedWay::sounds:
    return "two sounds";
  }
  return {};
}

/// What a row of tables needs by this way, as the header has it; empty when nothing is measured.
std::string_view columns_needed(const SpeedMethod& method) {
  if (!method.measures()) return {};
  switch (method.way()) {
  case SpeedWay::typed:
  case SpeedWay::radar:
    return "speed m/s";
  case SpeedWay::frames:
    return "frames";
  case SpeedWay::positions:
    return "moved mm  and  frames";
  case SpeedWay::gates:
  case SpeedWay::sounds:
    return "time ms";
  }
  return {};
}

/// The column that this way has no use for, or that is missing; empty when all is there.
std::string_view wrong_column(const SpeedReading& r, const SpeedMethod& method) {
  const SpeedWay way = method.way();
  const bool any = method.measures();
  const bool times = any && (way == SpeedWay::gates || way == SpeedWay::sounds);
  const bool pictures = any && (way == SpeedWay::positions);
  // A speed worked out from the video by hand stands beside the frames of other rows.
  const bool speeds =
      any && (way == SpeedWay::typed || way == SpeedWay::radar || way == SpeedWay::frames);
  const bool counts = pictures || (any && (way == SpeedWay::frames || way == SpeedWay::typed));
  if (r.time && !times) return "time";
  if (r.moved && !pictures) return "moved";
  if (r.speed && !speeds) return "speed";
  if (r.frames && !counts) return "frames";
  return {};
}

/// A speed that no ball has was not meant [limit ours].
bool check_speed(const SpeedReading& r, const SpeedMethod& method, SourceSpan where,
                 Diagnostics& notes) {
  const bool worked_out = method.way() != SpeedWay::typed && method.way() != SpeedWay::frames;
  if (!worked_out && !method.shutter) return true;
  const auto speed = speed_of(method, r);
  if (speed && speed->si() <= ball_speed.high) return true;
  const std::string found =
      speed ? fmt::format("this row makes a speed of {}", in_unit(*speed, "m/s", 1))
            : std::string(method.way() == SpeedWay::sounds
                              ? "the two sounds are closer together than their ways to the "
                                "microphone allow"
                              : "this picture is faster than its own read-out allows");
  notes
      .error("C24", where, found,
             {"look at the unit in the header of the table, and at the protocol's figures"})
      .related.push_back({method.origin, "how the speed is known"});
  return false;
}

}  // namespace

ColumnRule moved_column() {
  return {.name = "moved",
          .holds = Holds::quantity,
          .measure = Measure::length,
          .unit = "mm",
          .in_new = 0,
          .means = "how far the ball moved between two pictures so many frames apart, where the "
                   "protocol has positions"};
}

ColumnRule time_column() {
  return {.name = "time",
          .holds = Holds::quantity,
          .measure = Measure::time,
          .unit = "ms",
          .in_new = 0,
          .means = "between the gates, or between the two sounds, where the protocol has gates or "
                   "sounds"};
}

bool has_speed_column(const Sheet& sheet) {
  return std::any_of(columns_of_speed.begin(), columns_of_speed.end(),
                     [&](std::string_view column) { return sheet.has(column); });
}

SpeedReading read_speed_cells(const Sheet& sheet, const CellRow& row, Diagnostics& notes) {
  const Cell* first = nullptr;
  std::string_view first_name;
  for (const std::string_view column : columns_of_speed) {
    const Cell* cell = sheet.cell(row, column);
    if (cell == nullptr) continue;
    if (first != nullptr) {
      notes
          .error("T15", cell->origin,
                 fmt::format("both \"{}\" and \"{}\" have a value in this row", first_name, column),
                 {"keep the one that was measured"})
          .related.push_back({first->origin, "the other one"});
      break;
    }
    first = cell;
    first_name = column;
  }
  SpeedReading r;
  r.frames = read_frames(sheet, row, notes);
  if (const auto mps = sheet.value(row, "speed", ball_speed, notes)) {
    r.speed = Speed::from_si(*mps);
    r.speed_step = Speed::from_si(sheet.typed_step(row, "speed").value_or(0.0));
  }
  constexpr Limits time_limits{1e-6, 100.0, false, "from 1 us to 100 s"};
  if (const auto seconds = sheet.value(row, "time", time_limits, notes)) {
    r.time = Time::from_si(*seconds);
    r.time_step = Time::from_si(sheet.typed_step(row, "time").value_or(0.0));
  }
  constexpr Limits moved_limits{0.0, 50.0, true, "above 0 m, up to 50 m"};
  if (const auto metres = sheet.value(row, "moved", moved_limits, notes)) {
    r.moved = Length::from_si(*metres);
    if (sheet.cell(row, "frames") == nullptr) {
      notes.error("T12", sheet.cell(row, "moved")->origin,
                  "how far a ball moved says nothing without the frames between the two pictures",
                  {"fill in the column  frames"});
    }
  }
  return r;
}

bool is_blank(const SpeedReading& r) {
  return !r.speed && !r.frames && !r.time && !r.moved;
}

bool fits_method(const SpeedReading& r, const SpeedMethod& method, SourceSpan where,
                 Diagnostics& notes) {
  if (is_blank(r)) return true;
  std::string_view wrong = wrong_column(r, method);
  const bool lacks_moved = method.measures() && method.way() == SpeedWay::positions && !r.moved;
  if (wrong.empty() && !lacks_moved) return check_speed(r, method, where, notes);
  std::string message =
      wrong.empty()
          ? std::string("frames alone tell no speed: the protocol knows it by positions in two "
                        "pictures")
          : fmt::format("the protocol knows the speed by {}, which has no use for \"{}\"",
                        way_text(method), wrong);
  std::vector<std::string> hints;
  const std::string_view needed = columns_needed(method);
  if (!needed.empty()) hints.push_back(fmt::format("the column for it is  {}", needed));
  if (needed.empty()) hints.emplace_back("leave the cell empty");
  hints.emplace_back("or say in the protocol how this was measured");
  notes.error("C23", where, std::move(message), std::move(hints))
      .related.push_back({method.origin, "how the speed is known"});
  return false;
}

}  // namespace hailwright::input
