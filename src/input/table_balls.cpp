#include <fmt/format.h>

#include "input/table.hpp"
#include "input/table_columns.hpp"
#include "input/table_ice.hpp"
#include "input/table_rules.hpp"

namespace hailwright::input {

namespace {

/// The mass of all balls of a row on the scales at once.
std::optional<Mass> read_together(const Sheet& sheet, const CellRow& row, int count,
                                  Diagnostics& notes) {
  const Cell* together = sheet.cell(row, "together");
  const Cell* mass = sheet.cell(row, "mass");
  if (together != nullptr && mass != nullptr) {
    notes
        .error("T15", mass->origin, "both \"mass\" and \"together\" have a value in this row",
               {"mass is of one ball, together of all balls weighed at once: keep one"})
        .related.push_back({together->origin, "the other one"});
    return std::nullopt;
  }
  if (mass != nullptr && count != 1) {
    notes.error(
        "T15", mass->origin, fmt::format("\"mass\" is of one ball, the count is {}", count),
        {"give the mass of all of them as  together g", "or give each ball a row of its own"});
    return std::nullopt;
  }
  Limits limits = ball_mass;
  limits.high *= count;
  const std::string words = count == 1
                                ? std::string(ball_mass.words)
                                : fmt::format("above 0 g, up to {} kg for {} balls", count, count);
  limits.words = words;
  const auto kilograms = sheet.value(row, mass != nullptr ? "mass" : "together", limits, notes);
  if (!kilograms) return std::nullopt;
  return Mass::from_si(*kilograms);
}

}  // namespace

std::vector<ColumnRule> ball_columns() {
  return {
      {.name = "kind",
       .required = true,
       .from_above = true,
       .means = "name of the kind or of the ball; a series takes the kind of its own name"},
      {.name = "count",
       .holds = Holds::count,
       .means = "so many balls are in this row, up to 1000; blank: 1"},
      {.name = "together",
       .holds = Holds::quantity,
       .measure = Measure::mass,
       .unit = "g",
       .means = "mass of all of them on the scales at once"},
      {.name = "mass",
       .holds = Holds::quantity,
       .measure = Measure::mass,
       .unit = "g",
       .in_new = 0,
       .means = "mass of one ball, instead of together where the count is 1"},
      {.name = "diameter",
       .holds = Holds::quantity,
       .measure = Measure::length,
       .unit = "mm",
       .repeats = true,
       .in_new = 3,
       .means = "several directions of a ball, or several balls; add as many as you like"},
      {.name = "note", .means = "what you want to remember"},
  };
}

std::vector<BallKind> read_balls(const TableSource& source, Diagnostics& notes) {
  const Sheet sheet(source, ball_columns(), notes);
  std::vector<BallKind> balls;
  if (!sheet.usable()) return balls;
  MessageLimit limit(notes);
  for (const CellRow& row : sheet.rows()) {
    if (limit.reached(row.origin, notes)) break;
    BallKind ball;
    ball.origin = row.origin;
    const Cell* kind = sheet.required_cell(row, "kind", notes);
    if (kind == nullptr) continue;
    ball.kind = kind->text;
    constexpr int most_balls = 1000;
    const bool counted = sheet.cell(row, "count") != nullptr;
    const auto count = sheet.count(row, "count", 1, most_balls, notes);
    // After a wrong count nothing can be said of the mass.
    if (counted && !count) continue;
    ball.count = count.value_or(1);
    ball.together = read_together(sheet, row, ball.count, notes);
    ball.diameters = read_diameters(sheet, row, notes);
    ball.note = sheet.text(row, "note");
    if (ball.together) {
      check_density(*ball.together / static_cast<double>(ball.count), ball.diameters, row.origin,
                    notes);
    }
    balls.push_back(std::move(ball));
  }
  return balls;
}

}  // namespace hailwright::input
