#include "report/report_json_parts.hpp"

#include "report/report_json_words.hpp"

namespace hailwright::json {

namespace {

Json cells(const Panel& p, const Ledger& ledger) {
  if (!p.cells) return nullptr;
  return {{"along", p.cells->along},
          {"across", p.cells->across},
          {"margin", ledger.stated(p.cells->margin, p.origin)},
          {"gap", ledger.stated(p.cells->gap, p.origin)}};
}

Json size(const Panel& p, const Ledger& ledger) {
  if (!p.size) return nullptr;
  return {{"long_side", ledger.stated(p.size->long_side, p.origin)},
          {"short_side", ledger.stated(p.size->short_side, p.origin)},
          {"thickness", ledger.stated(p.size->thickness, p.origin)}};
}

Json junction_box(const Panel& p, const Ledger& ledger) {
  if (!p.junction_box) return nullptr;
  return {{"middle", position(p.junction_box->at, p.origin, ledger)},
          {"width", ledger.stated(p.junction_box->width, p.origin)},
          {"height", ledger.stated(p.junction_box->height, p.origin)}};
}

Json came(const Panel& p) {
  if (!p.came) return nullptr;
  return {{"bought_by", words_or_null(p.came->bought_by)},
          {"from", words_or_null(p.came->from)},
          {"on", words_or_null(p.came->on)},
          {"condition", words_or_null(p.came->condition)}};
}

Json money(const std::optional<Money>& amount, const Panel& p, const Ledger& ledger) {
  return amount ? ledger.stated(amount->amount, amount->currency, p.origin) : Json();
}

/// A coefficient with what is said of its error.
Json coefficient(const std::optional<TemperatureCoefficient>& value,
                 const std::optional<StatedValue<TemperatureCoefficient>>& said,
                 const SourceSpan& origin, const Ledger& ledger) {
  if (said) {
    Json j = ledger.stated(said->value, said->origin);
    j["standard_uncertainty"] = finite(said->standard_u());
    return j;
  }
  return ledger.stated(value, origin);
}

}  // namespace

Json position(const std::optional<Position>& at, const SourceSpan& span, const Ledger& ledger) {
  if (!at) return nullptr;
  return {{"right", ledger.stated(at->right, span)}, {"up", ledger.stated(at->up, span)}};
}

Json panel(const Panel& p, const Ledger& ledger) {
  Json mounts = Json::array();
  for (const Position& at : p.mounting_points)
    mounts.push_back(position(at, p.origin, ledger));
  Json j{{"name", p.name}, {"where", ledger.where(p.origin)}, {"build", word(p.build)}};
  j["rated_power"] = ledger.stated(p.rated_power, p.origin);
  j["open_voltage"] = ledger.stated(p.open_voltage, p.origin);
  j["short_current"] = ledger.stated(p.short_current, p.origin);
  j["power_coefficient"] =
      coefficient(p.power_coefficient, p.power_coefficient_stated, p.origin, ledger);
  j["voltage_coefficient"] =
      coefficient(p.voltage_coefficient, p.voltage_coefficient_stated, p.origin, ledger);
  j["glass"] = ledger.stated(p.glass, p.origin);
  j["size"] = size(p, ledger);
  j["frame"] = ledger.stated(p.frame, p.origin);
  j["cells"] = cells(p, ledger);
  j["junction_box"] = junction_box(p, ledger);
  j["mounting_points"] = std::move(mounts);
  j["weight"] = ledger.stated(p.weight, p.origin);
  j["price"] = money(p.price, p, ledger);
  j["lowest_price"] = money(p.lowest_price, p, ledger);
  j["highest_price"] = money(p.highest_price, p, ledger);
  j["lead_length"] = ledger.stated(p.lead_length, p.origin);
  j["connector"] = words_or_null(p.connector);
  j["substrings"] = p.substrings ? Json(*p.substrings) : Json();
  j["smallest_radius"] = ledger.stated(p.smallest_radius, p.origin);
  j["came"] = came(p);
  return j;
}

}  // namespace hailwright::json
