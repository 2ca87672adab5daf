#include "input/table_landing.hpp"

#include <fmt/format.h>

#include <cmath>

namespace hailwright::input {

namespace {

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

/// "8 x 12 mm" as a position.
std::optional<Position> read_pair(const Sheet& sheet, std::string_view text) {
  const std::size_t cross = text.find('x');
  const std::size_t unit_at = text.find_last_of(' ');
  if (cross == std::string_view::npos || unit_at == std::string_view::npos || unit_at < cross) {
    return std::nullopt;
  }
  const Unit* unit = find_unit(text.substr(unit_at + 1), Measure::length);
  const auto right = sheet.number(trimmed(text.substr(0, cross)));
  const auto up = sheet.number(trimmed(text.substr(cross + 1, unit_at - cross - 1)));
  if (unit == nullptr || !right.value || !up.value) return std::nullopt;
  return Position{Length::from_si(right.value->si * unit->factor),
                  Length::from_si(up.value->si * unit->factor)};
}

std::string in_mm(const Position& at) {
  return fmt::format("{} x {} mm", significant(at.right.si() * 1000.0, 4),
                     significant(at.up.si() * 1000.0, 4));
}

/// An error when a hit lies outside the outline.
void check_on_panel(const Cell& cell, const Position& at, const Outline& outline,
                    Diagnostics& notes) {
  constexpr double room_m = 1e-9;  // rounding of sums, a millionth of a millimetre
  const auto outside = [](Length x, Length side) {
    return x.si() < -room_m || x.si() > side.si() + room_m;
  };
  // The long side lies along "right" as panel files give positions; a panel hung upright has them
  // exchanged only on the wall, not in the files.
  if (!outside(at.right, outline.long_side) && !outside(at.up, outline.short_side)) return;
  const Position corner{outline.long_side, outline.short_side};
  notes.error("T19", cell.origin,
              fmt::format("{} lies outside the panel: at {} of {}", shown(cell.text), in_mm(at),
                          in_mm(corner)),
              {"a ball that went past the panel is a  miss",
               "positions count from the left and the lower edge, right x up"});
}

std::optional<Landed> read_offset(const Sheet& sheet, const Cell& cell, const Place* place,
                                  const Panel& panel, Diagnostics& notes) {
  const bool is_position = cell.text.substr(0, 3) == "at ";
  const auto pair = read_pair(sheet, trimmed(is_position ? cell.text.substr(3) : cell.text));
  if (!pair) {
    std::vector<std::string> hints = word_hints(cell.text, {"in", "miss", "broke"});
    hints.emplace_back("on the panel but off the place: 8 x 12 mm (right x up of its middle)");
    hints.emplace_back("or where it hit on the panel: at 312 x 480 mm (from left x from below)");
    notes.error("T16", cell.origin,
                fmt::format("{} does not say where the ball landed", shown(cell.text)),
                std::move(hints));
    return std::nullopt;
  }
  constexpr double farthest_m = 5.0;  // no panel of this program's kind is larger [ours]
  if (std::abs(pair->right.si()) > farthest_m || std::abs(pair->up.si()) > farthest_m) {
    notes.error("T14", cell.origin, fmt::format("{} is no place on a panel", shown(cell.text)),
                {"positions and offsets reach up to 5 m"});
    return std::nullopt;
  }
  const bool place_known = place != nullptr && place->at.has_value();
  if (is_position) {
    if (panel.size) {
      check_on_panel(cell, *pair, *panel.size, notes);
    } else if (place != nullptr && !place_known) {
      notes.error(
          "T20", cell.origin,
          fmt::format("{} cannot be placed: neither place {} has a position nor the panel "
                      "a size",
                      shown(cell.text), shown(place->name)),
          {"give the panel file its  size: 1020 x 510 mm",
           fmt::format("or the protocol the place:  {{name: {}, at: 255 x 30 mm}}", place->name),
           "or write the offset from the middle of the place: 8 x 12 mm"});
    }
    return Landed{Landing::at, pair};
  }
  if (panel.size && place_known) {
    check_on_panel(cell, {place->at->right + pair->right, place->at->up + pair->up}, *panel.size,
                   notes);
  }
  return Landed{Landing::offset, pair};
}

}  // namespace

std::optional<Landed> read_landing(const Sheet& sheet, const Cell& cell, const Place* place,
                                   const Panel& panel, Diagnostics& notes) {
  if (cell.text == "in") return Landed{Landing::in, std::nullopt};
  if (cell.text == "miss") return Landed{Landing::miss, std::nullopt};
  if (cell.text == "broke") return Landed{Landing::broke, std::nullopt};
  return read_offset(sheet, cell, place, panel, notes);
}

}  // namespace hailwright::input
