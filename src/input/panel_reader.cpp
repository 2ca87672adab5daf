#include "input/panel_reader.hpp"

#include <fmt/format.h>

#include "core/quoted.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/model/panel_geometry.hpp"
#include "input/shared_ranges.hpp"
#include "input/sides_text.hpp"
#include "input/stated_text.hpp"

namespace hailwright::input {

namespace {

constexpr KeyList panel_file_keys{"the panel",
                                  "hailwright name build rated temperature size frame "
                                  "cells junction_box mounts weight price leads substrings "
                                  "smallest_radius came"};
constexpr KeyList build_keys{"build", "kind glass"};
constexpr KeyList rated_keys{"rated", "power open_voltage short_current"};
constexpr KeyList temperature_keys{"temperature", "power voltage"};
constexpr KeyList cells_keys{"cells", "grid margin gap"};
constexpr KeyList box_keys{"junction_box", "at size"};
constexpr KeyList price_keys{"price", "low high average"};
constexpr KeyList leads_keys{"leads", "length connector"};
constexpr KeyList came_keys{"came", "bought_by from on condition"};

// Ranges [ours]: wide enough for any panel meant here, narrow enough to catch a slip in the unit.
constexpr Range glass_range{0.0, 0.02, "more than 0 mm, up to 20 mm", true};
constexpr Range power_range{0.0, 2000.0, "more than 0 W, up to 2000 W", true};
constexpr Range coefficient_range{-0.01, 0.0, "from -1 %/K to 0 %/K"};
constexpr Range weight_range{0.0, 100.0, "more than 0 kg, up to 100 kg", true};
constexpr Range frame_range{0.0, 0.1, "from 0 mm to 100 mm"};
constexpr Range margin_range{0.0, 0.5, "from 0 mm to 500 mm"};
constexpr Range gap_range{0.0, 0.05, "from 0 mm to 50 mm"};
constexpr Range lead_range{0.0, 50.0, "more than 0 m, up to 50 m", true};
constexpr Range radius_range{0.0, 20.0, "more than 0 m, up to 20 m", true};
constexpr double largest_side_m = 5.0;

std::optional<std::vector<Length>> sides_of(const Node& node, std::string_view what,
                                            std::size_t least, std::size_t most,
                                            Diagnostics& notes) {
  const auto text = read_text(node, what, notes);
  if (!text) return std::nullopt;
  auto sides = read_sides(*text, least, most);
  if (!sides.problem) return std::move(sides.value);
  add_problem(node, *sides.problem, what, notes);
  return std::nullopt;
}

void read_build(const Entry& entry, Panel& panel, Diagnostics& notes) {
  const MapReader map(entry.value, build_keys, entry.key_span, notes);
  map.require("kind", "write framed glass, frameless glass or flexible");
  panel.build = map.choice<Build>("kind", {{"framed glass", Build::framed_glass},
                                           {"frameless glass", Build::frameless_glass},
                                           {"flexible", Build::flexible}})
                    .value_or(Build::framed_glass);
  panel.glass = map.quantity<Length>("glass", glass_range);
}

void read_rated(const Entry& entry, Panel& panel, Diagnostics& notes) {
  const MapReader map(entry.value, rated_keys, entry.key_span, notes);
  panel.rated_power = map.quantity<Power>("power", power_range);
  panel.open_voltage = map.quantity<Voltage>("open_voltage", voltage_range);
  panel.short_current = map.quantity<Current>("short_current", current_range);
}

void read_temperature(const Entry& entry, Panel& panel, Diagnostics& notes) {
  if (entry.value.kind == NodeKind::text && entry.value.text == "unknown") return;
  const MapReader map(entry.value, temperature_keys, entry.key_span, notes);
  const auto read_into = [&](std::string_view key, auto& value, auto& stated) {
    const Entry* e = map.find(key);
    if (e == nullptr) return;
    const auto parts = read_value(e->value, e->key, e->key_span, Measure::temperature_coefficient,
                                  coefficient_range, notes);
    if (!parts) return;
    value = TemperatureCoefficient::from_si(parts->value_si);
    if (parts->size_si) stated = stated_value_as<TemperatureCoefficient>(parts);
  };
  read_into("power", panel.power_coefficient, panel.power_coefficient_stated);
  read_into("voltage", panel.voltage_coefficient, panel.voltage_coefficient_stated);
}

void read_size(const Entry& entry, Panel& panel, Diagnostics& notes) {
  const auto sides = sides_of(entry.value, "'size'", 2, 3, notes);
  if (!sides) return;
  for (const Length side : *sides) {
    if (side.si() > 0.0 && side.si() <= largest_side_m) continue;
    notes.error("R01", entry.value.span,
                fmt::format("the sides of a panel are more than 0 m, up to 5 m, found {}",
                            hailwright::detail::quoted(entry.value.text)));
    return;
  }
  if (sides->at(0) < sides->at(1)) {
    notes.error("C08", entry.value.span, "the long side of the panel comes first",
                {"change the order of the first two numbers; positions count along the long side"});
    return;
  }
  panel.size = Outline{sides->at(0), sides->at(1), std::nullopt};
  if (sides->size() == 3) panel.size->thickness = sides->at(2);
}

std::string in_mm(Length length) {
  return fixed(length.si() * 1000.0, 1);
}

/// After size and build, against which it is held.
void read_frame(const MapReader& map, Panel& panel) {
  const auto frame = map.quantity<Length>("frame", frame_range);
  if (!frame) return;
  panel.frame = frame;
  const SourceSpan where = map.find("frame")->value.span;
  if (panel.build != Build::framed_glass && frame->si() > 0.0) {
    map.notes().error("C28", where, "this panel has a frame, and its build says that it has none",
                      {"write  build: {kind: framed glass}  if the frame reaches over the glass",
                       "or  frame: 0 mm"});
    panel.frame.reset();
    return;
  }
  if (!panel.size || glass_of(panel)) return;
  panel.frame.reset();
  map.notes().error("C28", where, "the frame leaves no glass on this panel",
                    {fmt::format("write the width of one side as seen from the front; the short "
                                 "side of the panel is {} mm",
                                 in_mm(panel.size->short_side))});
}

/// The cells have a size: margins and gaps leave room for them.
void check_cells(const Entry& entry, const Panel& panel, Diagnostics& notes) {
  if (!panel.size || !panel.cells || cell_field(panel)) return;
  notes.error("C29", entry.value.span, "margins and gaps leave no room for the cells",
              {fmt::format("the panel is {} x {} mm; margin: from its outer edge to the first "
                           "cell, gap: between two cells",
                           in_mm(panel.size->long_side), in_mm(panel.size->short_side))});
}

void read_cells(const Entry& entry, Panel& panel, Diagnostics& notes) {
  const MapReader map(entry.value, cells_keys, entry.key_span, notes);
  const Entry* grid = map.require("grid", "write the cells along the long and the short side: "
                                          "grid: 9 x 4");
  const auto margin = map.quantity<Length>("margin", margin_range);
  const auto gap = map.quantity<Length>("gap", gap_range);
  if (grid == nullptr) return;
  const auto text = read_text(grid->value, "'grid'", notes);
  if (!text) return;
  const auto counts = read_grid(*text);
  if (counts.problem) {
    add_problem(grid->value, *counts.problem, "'grid'", notes);
    return;
  }
  // Without a margin the cells begin where the glass does.
  panel.cells = CellGrid{counts.value->first, counts.value->second,
                         margin.value_or(frame_width(panel)), gap.value_or(Length{})};
  check_cells(entry, panel, notes);
}

std::optional<Position> position_of(const Node& node, std::string_view what, const Panel& panel,
                                    Diagnostics& notes) {
  const auto sides = sides_of(node, what, 2, 2, notes);
  if (!sides) return std::nullopt;
  const Position position{sides->at(0), sides->at(1)};
  if (panel.size &&
      (position.right > panel.size->long_side || position.up > panel.size->short_side)) {
    notes.error("C09", node.span, fmt::format("{} lies outside the panel", what),
                {"write how far right of the left edge and how far above the lower edge it is, the "
                 "long side lying"});
    return std::nullopt;
  }
  return position;
}

void read_box(const Entry& entry, Panel& panel, Diagnostics& notes) {
  const MapReader map(entry.value, box_keys, entry.key_span, notes);
  const Entry* at = map.require("at", "write where its middle is: at: 510 x 60 mm");
  const Entry* size = map.require("size", "write its width and height: size: 90 x 70 mm");
  std::optional<Position> position;
  if (at != nullptr) position = position_of(at->value, "'at'", panel, notes);
  std::optional<std::vector<Length>> sides;
  if (size != nullptr) sides = sides_of(size->value, "'size'", 2, 2, notes);
  if (position && sides) panel.junction_box = JunctionBox{*position, sides->at(0), sides->at(1)};
}

void read_mounts(const MapReader& map, Panel& panel) {
  const std::vector<Node>* items = map.list("mounts");
  if (items == nullptr) return;
  for (const Node& item : *items) {
    if (const auto p = position_of(item, "a mounting point", panel, map.notes()))
      panel.mounting_points.push_back(*p);
  }
}

std::optional<Money> money_of(const Node& node, std::string_view what, Diagnostics& notes) {
  const auto text = read_text(node, what, notes);
  if (!text) return std::nullopt;
  const auto money = read_money(*text);
  if (money.problem) {
    add_problem(node, *money.problem, what, notes);
    return std::nullopt;
  }
  if (money.value->amount < 0.0) {
    notes.error("R01", node.span, fmt::format("{} cannot be negative", what));
    return std::nullopt;
  }
  return money.value;
}

/// What was asked for the panel here and there, with the average that readers reckon with.
class PriceReader {
public:
  PriceReader(const Entry& entry, Diagnostics& notes)
      : map_(entry.value, price_keys, entry.key_span, notes) {}

  void read(Panel& panel) const {
    const char* const hint =
        "write all three, as in  price: {low: 79 EUR, high: 99 EUR, average: 89 EUR}, or one "
        "price: 89 EUR";
    const auto low = money("low", hint);
    const auto high = money("high", hint);
    const auto average = money("average", hint);
    if (!low || !high || !average || !one_currency({"high", *high}, {"low", *low}) ||
        !one_currency({"average", *average}, {"low", *low}) ||
        !in_order({"average", *average}, {"low", *low}) ||
        !in_order({"high", *high}, {"average", *average})) {
      return;
    }
    panel.price = average;
    panel.lowest_price = low;
    panel.highest_price = high;
  }

private:
  using Named = std::pair<std::string_view, const Money&>;

  std::optional<Money> money(std::string_view key, std::string_view hint) const {
    const Entry* entry = map_.require(key, hint);
    if (entry == nullptr) return std::nullopt;
    return money_of(entry->value, fmt::format("'{}'", key), map_.notes());
  }

  bool one_currency(const Named& one, const Named& other) const {
    if (one.second.currency == other.second.currency) return true;
    complain(one, other, "is in another currency", "write all three prices in one currency");
    return false;
  }

  bool in_order(const Named& more, const Named& less) const {
    if (more.second.amount >= less.second.amount) return true;
    complain(more, less, "is less", "low is the lowest price, high the highest, average between");
    return false;
  }

  void complain(const Named& one, const Named& other, std::string_view how,
                std::string_view mend) const {
    map_.notes()
        .error("C53", map_.find(one.first)->value.span,
               fmt::format("'{}' {} than '{}'", one.first, how, other.first), {std::string(mend)})
        .related.push_back({map_.find(other.first)->value.span, "held against this"});
  }

  MapReader map_;
};

void read_price(const Entry& entry, Panel& panel, Diagnostics& notes) {
  if (entry.value.kind == NodeKind::map) {
    PriceReader(entry, notes).read(panel);
  } else {
    panel.price = money_of(entry.value, "'price'", notes);
  }
}

void read_leads(const Entry& entry, Panel& panel, Diagnostics& notes) {
  const MapReader map(entry.value, leads_keys, entry.key_span, notes);
  panel.lead_length = map.quantity<Length>("length", lead_range);
  panel.connector = map.text("connector");
}

void read_came(const Entry& entry, Panel& panel, Diagnostics& notes) {
  const MapReader map(entry.value, came_keys, entry.key_span, notes);
  panel.came =
      Provenance{map.text("bought_by"), map.text("from"), map.date("on"), map.text("condition")};
}

}  // namespace

Panel read_panel(const Document& document, Diagnostics& notes) {
  const MapReader map(document.root, panel_file_keys, document.head(), notes);
  Panel panel;
  panel.origin = document.head();
  map.require("name", "write what the panel is called in the write-up");
  panel.name = map.text("name");
  if (const Entry* e = map.require("build", "write it as in  build: {kind: framed glass}"))
    read_build(*e, panel, notes);
  if (const Entry* e = map.find("rated")) read_rated(*e, panel, notes);
  if (const Entry* e = map.find("temperature")) read_temperature(*e, panel, notes);
  if (const Entry* e = map.find("size")) read_size(*e, panel, notes);
  read_frame(map, panel);
  if (const Entry* e = map.find("cells")) read_cells(*e, panel, notes);
  if (const Entry* e = map.find("junction_box")) read_box(*e, panel, notes);
  read_mounts(map, panel);
  panel.weight = map.quantity<Mass>("weight", weight_range);
  if (const Entry* e = map.find("price")) read_price(*e, panel, notes);
  if (const Entry* e = map.find("leads")) read_leads(*e, panel, notes);
  panel.substrings = map.count("substrings", 1, most_substrings);
  panel.smallest_radius = map.quantity<Length>("smallest_radius", radius_range);
  if (const Entry* e = map.find("came")) read_came(*e, panel, notes);
  return panel;
}

const std::vector<KeyList>& panel_keys() {
  static const std::vector<KeyList> lists{panel_file_keys, build_keys, rated_keys, temperature_keys,
                                          value_keys,      cells_keys, box_keys,   price_keys,
                                          leads_keys,      came_keys};
  return lists;
}

}  // namespace hailwright::input

namespace hailwright {

Checked<Panel> read_panel(const std::string& path, const Loader& load, SourceSet& sources) {
  Checked<Panel> result;
  const auto document =
      input::open_document(path, FileKind::panel, std::nullopt, load, sources, result.notes);
  if (!document) return result;
  Panel panel = input::read_panel(*document, result.notes);
  if (!result.notes.has_errors()) result.value = std::move(panel);
  return result;
}

}  // namespace hailwright
